//! Why an outline is refused, one sentence each.

use super::corner::Corner;
use super::face::FaceKey;
use super::words::say;
use crate::units::Length;

/// An outline that does not close, crosses itself or cannot be meant.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum OutlineError {
    /// A corner that this outline does not have.
    #[error("This outline has no {corner}: say one of its own corners.")]
    NoCorner {
        /// As given.
        corner: Corner,
    },
    /// A notch where the corner is not square and outside.
    #[error("The {corner} cannot be notched: only a square outer corner can, so round or clip it.")]
    NoNotch {
        /// Which.
        corner: Corner,
    },
    /// A corner cut that is longer than the side it is cut from.
    #[error("The {what} at the {corner} is {}, but the {side} is only {} long: {} is the most there.",
        say(*given), say(*length), say(*most))]
    CornerOver {
        /// `round`, `clip` or `notch`.
        what: &'static str,
        /// Which corner.
        corner: Corner,
        /// As given.
        given: Length,
        /// The side it runs over.
        side: FaceKey,
        /// How long that is.
        length: Length,
        /// The most that fits.
        most: Length,
    },
    /// An outline that crosses itself.
    #[error(
        "The outline crosses itself where the {first} meets the {second}: {size} is too much there."
    )]
    SelfCrossing {
        /// One of the runs that cross.
        first: FaceKey,
        /// The other.
        second: FaceKey,
        /// The cut that is to blame, with its size.
        size: String,
    },
    /// An L or U whose inner part is not inside.
    #[error("The {part} is {}, but the top is only {} {way}: it must be less, or there is no {form}.",
        say(*given), say(*whole))]
    NoInside {
        /// Which size: "depth of the run", "legs together"...
        part: &'static str,
        /// As given.
        given: Length,
        /// What it must be less than.
        whole: Length,
        /// "long" or "wide".
        way: &'static str,
        /// "L" or "U".
        form: &'static str,
    },
    /// An L open at an inner corner.
    #[error(
        "An L is open at one of its four outer corners, not at its {corner}: say front right, front left, back right or back left."
    )]
    NotOpen {
        /// As given.
        corner: Corner,
    },
    /// Four sides alone.
    #[error("Four sides alone do not say how a top leans: measure a diagonal too.")]
    NoDiagonal,
    /// Two sides and a diagonal that cannot meet.
    #[error("The {sides} and the diagonal cannot close: {} and {} do not make a triangle with {}, so look at the three numbers again.",
        say(*first), say(*second), say(*diagonal))]
    NoTriangle {
        /// Which two sides.
        sides: &'static str,
        /// The one.
        first: Length,
        /// The other.
        second: Length,
        /// The diagonal.
        diagonal: Length,
    },
    /// Sides and diagonals that leave no wood between them.
    #[error("These sides and diagonals leave a top only {} across, less than the {} that can be cut: look at the numbers again.",
        say(*across), say(*least))]
    Flat {
        /// The shorter side of the box round it.
        across: Length,
        /// The least that is taken.
        least: Length,
    },
    /// Too few stations, or too many.
    #[error("The stations are {count} in number: a live edge takes from 2 to {most}.")]
    Stations {
        /// As given.
        count: usize,
        /// The most that is taken.
        most: usize,
    },
    /// A station in front of the left end.
    #[error("The place of station {no} is {}: it may be zero, but not less.", say(*given))]
    StationBefore {
        /// Which, from 1.
        no: usize,
        /// As given.
        given: Length,
    },
    /// A station that does not lie after the one before it.
    #[error("Station {no} is at {}, which is not after {}: put the stations in order from the left end.",
        say(*given), say(*before))]
    StationOrder {
        /// Which, from 1.
        no: usize,
        /// As given.
        given: Length,
        /// The place of the one before.
        before: Length,
    },
    /// A station with more in front of the line than there is width.
    #[error("At station {no}, {} lies in front of the line, but the whole width is {}: it must be between nothing and that.",
        say(*front), say(*width))]
    StationFront {
        /// Which, from 1.
        no: usize,
        /// As given.
        front: Length,
        /// The whole width.
        width: Length,
    },
}
