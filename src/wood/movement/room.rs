//! The room round what stands in a cutout, or what its edge does to what hangs below it.

use super::fit::HoldLine;
use super::show::{both, up_to_32nd};
use super::year::YearMovement;
use crate::shape::{Mount, Purpose};
use crate::units::Length;

/// What a cutout is cut for, as far as the wood's movement minds it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Filling {
    /// A sink that stands in it, its rim on the top.
    DropIn,
    /// A sink fixed from below: nothing stands in the cutout.
    Undermount,
    /// A sink whose front takes the place of the top's: only the back of its cutout faces it across
    /// the grain.
    ApronFront,
    /// A cooktop.
    Cooktop,
    /// An electrical box.
    Outlet,
    /// Not said.
    Unsaid,
}

impl Filling {
    /// Of an opening with this purpose.
    pub fn of(purpose: &Purpose) -> Self {
        match purpose {
            Purpose::Sink(sink) => match sink.mount {
                Mount::DropIn => Self::DropIn,
                Mount::Undermount(_) => Self::Undermount,
                Mount::ApronFront(_) => Self::ApronFront,
            },
            Purpose::Cooktop => Self::Cooktop,
            Purpose::Outlet => Self::Outlet,
            Purpose::Plain | Purpose::Faucet | Purpose::Accessory | Purpose::Cable => Self::Unsaid,
        }
    }

    /// What practice asks on each side: 3 mm, 6 mm in all, round a sink that is dropped in (a UK
    /// worktop fitting guide). Where nothing was said the cutout may be for one.
    fn practice(self) -> Option<Length> {
        match self {
            Self::DropIn | Self::Unsaid => Some(Length::from_mm(3)),
            Self::Undermount | Self::ApronFront | Self::Cooktop | Self::Outlet => None,
        }
    }
}

/// The room a cutout asks across the grain.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Clearance {
    /// What it is cut for.
    pub filling: Filling,
    /// What the opening's own shrinking asks: on each side, or all of it at the back of an
    /// apron-front sink.
    pub from_movement: Length,
    /// What practice asks on each side, where it asks anything.
    pub practice: Option<Length>,
    /// The larger of the two.
    pub leave: Length,
}

impl Clearance {
    /// `leave 1/8" (3 mm) on each side of the sink across the grain (...)`.
    pub fn words(&self) -> String {
        if self.leave == Length::ZERO {
            return "its opening does not shrink from today on, so the wood asks no room"
                .to_owned();
        }
        let (leave, moves) = (both(self.leave), both(self.from_movement));
        let practice = self.practice.map_or_else(String::new, |practice| {
            format!("; practice asks {} at a drop-in sink", both(practice))
        });
        let shrinks = if self.from_movement == Length::ZERO {
            "does not shrink from today on".to_owned()
        } else {
            format!("shrinks {moves} a side")
        };
        let sides = |of: &str| {
            format!(
                "leave {leave} on each side of {of} across the grain (its opening {shrinks}{practice})"
            )
        };
        match self.filling {
            Filling::DropIn => sides("the sink"),
            Filling::Unsaid => sides("what stands in it"),
            Filling::Cooktop => format!(
                "{}; its maker's own clearances come first",
                sides("the cooktop")
            ),
            Filling::Outlet => sides("the box"),
            Filling::Undermount => format!(
                "its edge draws in over the bowl by up to {moves} a side across the grain: clips and \
                 sealant that give, and a reveal that bears it"
            ),
            Filling::ApronFront => format!(
                "leave {leave} behind the sink across the grain (its opening shrinks so much, all of \
                 it at the back)"
            ),
        }
    }
}

/// The room a cutout asks across the grain. An opening shrinks and grows like the wood that was cut
/// out of it; `year` is that of the opening's size across the grain.
pub fn clearance(year: &YearMovement, filling: Filling) -> Clearance {
    let share = match filling {
        Filling::ApronFront => HoldLine::OppositeEdge,
        _ => HoldLine::Middle,
    };
    let from_movement = up_to_32nd(share.of(year.inward()));
    let practice = filling.practice();
    Clearance {
        filling,
        from_movement,
        practice,
        leave: practice.map_or(from_movement, |practice| from_movement.max(practice)),
    }
}
