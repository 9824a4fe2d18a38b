//! What makes a cut impossible to plan.

use crate::shape::words::say;
use crate::units::Length;
use thiserror::Error;

/// Why a cut cannot be planned as asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum CutError {
    /// Nothing to cut through.
    #[error("There is nothing to cut through: the thickness is {}. Give the top its thickness first.", say(*.0))]
    Thickness(Length),
    /// No bit.
    #[error("The bit is {} across, which is no bit: give its cutting diameter, for example 1/2.", say(*.0))]
    Bit(Length),
    /// Depth per pass of nothing.
    #[error("The depth per pass is {}, so the cut would never end: give what the bit takes in one pass, for example 1/4.", say(*.0))]
    Depth(Length),
    /// No passes.
    #[error("{0} passes are not a plan: say from 1 to {most}.", most = super::passes::PASSES_MOST)]
    Passes(u32),
    /// More passes than anybody would make.
    #[error("That would take {count} passes: take more than {} in each.", say(*.each))]
    TooMany {
        /// So many.
        count: i64,
        /// In each.
        each: Length,
    },
    /// What is kept for the end is more than there is.
    #[error("{} kept for the last pass is not less than the {} there is to cut: keep less.", say(*.kept), say(*.all))]
    CleanUp {
        /// Kept for the last pass.
        kept: Length,
        /// All there is.
        all: Length,
    },
    /// A figure of the router that is no figure.
    #[error("{what} is {figure}: it must be from {least} to {most}.")]
    Router {
        /// Which figure.
        what: &'static str,
        /// As given.
        figure: i64,
        /// The least.
        least: i64,
        /// The most.
        most: i64,
    },
    /// A chip load that is none.
    #[error("The chip load is {}: give what one flute takes in one turn, from 0.001 to 0.030 in.", chip(*.0))]
    Chip(Length),
    /// The bit does not pass through the bushing.
    #[error("A {} bit does not pass through a {} template guide: take a larger guide or a smaller bit.", say(*.bit), say(*.guide))]
    Guide {
        /// The bit.
        bit: Length,
        /// Outside diameter of the guide.
        guide: Length,
    },
    /// The bit cannot make so small an inside corner.
    #[error("{}", inside_corner(*.radius, *.bit))]
    InsideCorner {
        /// Wanted.
        radius: Length,
        /// The bit.
        bit: Length,
    },
    /// A template of less than nothing.
    #[error("The part is too small for this guide: its template would be {} across. Take a guide nearer the size of the bit.", say(*.0))]
    Template(Length),
}

/// What a bit leaves where a tighter corner was wanted. No bit leaves a sharp one.
fn inside_corner(radius: Length, bit: Length) -> String {
    let (wanted, bit, left) = (say(radius), say(bit), say(half(bit)));
    if radius <= Length::ZERO {
        return format!(
            "A sharp inside corner cannot be cut with a router, whose {bit} bit leaves {left}: give the corner a radius of {left} or more, or square it by hand after the router."
        );
    }
    let widest = say(radius * 2);
    format!(
        "An inside corner of {wanted} radius cannot be cut with a {bit} bit, which leaves {left}: take a bit of {widest} or less, or a larger corner."
    )
}

/// Half of a length.
pub(super) fn half(length: Length) -> Length {
    Length::from_nm(length.nm() / 2)
}

fn chip(length: Length) -> String {
    format!("{:.4} in", length.inches())
}
