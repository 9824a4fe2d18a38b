//! Why a shape is refused, one sentence each: what is wrong, and what would do.

use super::face::FaceKey;
use super::opening::OpeningName;
use super::outline_error::OutlineError;
use super::words::say;
use crate::units::Length;

/// A shape that cannot be cut, or cannot be meant.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ShapeError {
    /// A size is zero or less.
    #[error("The {what} is {}: it must be more than nothing.", say(*given))]
    NotPositive {
        /// Which size: "length", "width of cutout 1"...
        what: String,
        /// As given.
        given: Length,
    },
    /// A size that may be zero is less than that.
    #[error("The {what} is {}: it may be zero, but not less.", say(*given))]
    Negative {
        /// Which size.
        what: String,
        /// As given.
        given: Length,
    },
    /// A size too small to be cut.
    #[error("The {what} is {}: the smallest that can be cut is {}.", say(*given), say(*least))]
    TooSmall {
        /// Which size.
        what: String,
        /// As given.
        given: Length,
        /// The least that is taken.
        least: Length,
    },
    /// A side longer than any top.
    #[error("The {what} is {}: no top here is over {}, so look at the number again.",
        say(*given), say(*most))]
    TooLarge {
        /// Which size.
        what: String,
        /// As given.
        given: Length,
        /// The most that is taken.
        most: Length,
    },
    /// Thinner than any top.
    #[error("The thickness is {}: a top must be at least {} thick.", say(*given), say(*least))]
    TooThin {
        /// As given.
        given: Length,
        /// The least that is taken.
        least: Length,
    },
    /// Thicker than any top.
    #[error("The thickness is {}: a top can be at most {} thick.", say(*given), say(*most))]
    TooThick {
        /// As given.
        given: Length,
        /// The most that is taken.
        most: Length,
    },
    /// The profile is higher than the edge.
    #[error("The {profile}{} is {}, but the top is only {} thick: give the profile {} or less.",
        of(*on), say(*size), say(*thickness), say(*thickness))]
    ProfileOverThickness {
        /// The profile's name.
        profile: &'static str,
        /// Round which opening; none along the outside.
        on: Option<OpeningName>,
        /// Its radius or leg.
        size: Length,
        /// The thickness it is run on.
        thickness: Length,
    },
    /// A bullnose whose two rounds meet.
    #[error("The bullnose{} is {} above and below, but the top is only {} thick: {} is the most.",
        of(*on), say(*size), say(*thickness), say(*most))]
    BullnoseOver {
        /// Round which opening; none along the outside.
        on: Option<OpeningName>,
        /// Its radius.
        size: Length,
        /// The thickness it is run on.
        thickness: Length,
        /// Half of that.
        most: Length,
    },
    /// A band that lies wholly in the round of a bullnose.
    #[error("The underside band is {}, but the bullnose rounds off {} of the underside: make the band wider.",
        say(*band), say(*below))]
    BandInBullnose {
        /// As given.
        band: Length,
        /// How far the bullnose reaches in.
        below: Length,
    },
    /// The profiles of two opposite edges meet.
    #[error("The {profile} is {} on every side, but the top is only {} across: no flat would be left, so make the profile smaller.",
        say(*size), say(*across))]
    ProfileOverWidth {
        /// The profile's name.
        profile: &'static str,
        /// Its radius or leg.
        size: Length,
        /// The shorter side of the top.
        across: Length,
    },
    /// More openings than can be meant.
    #[error("There are {count} openings: a top can have {most} at most.")]
    TooManyOpenings {
        /// As given.
        count: usize,
        /// The most that is taken.
        most: usize,
    },
    /// An opening numbered zero.
    #[error("One opening is numbered 0: cutouts and holes are numbered from 1.")]
    ZeroNumber,
    /// Two cutouts, or two holes, with the same number.
    #[error("There are two openings named {opening}: give one of them another number.")]
    DuplicateNumber {
        /// The name they share.
        opening: OpeningName,
    },
    /// A corner radius that does not fit its cutout.
    #[error("The corner radius of {opening} is {}: half its shorter side, {}, is the most.",
        say(*radius), say(*most))]
    CornerRadius {
        /// Which cutout.
        opening: OpeningName,
        /// As given.
        radius: Length,
        /// Half the shorter side.
        most: Length,
    },
    /// An opening that no place on the top could hold.
    #[error("{} is {size} but the top is only {} {way}: make the opening smaller or the top larger.",
        start(*opening), say(*top))]
    LargerThanTop {
        /// Which opening.
        opening: OpeningName,
        /// Its size in words.
        size: String,
        /// The size of the top that it does not fit.
        top: Length,
        /// Which way that is: "long", "wide" or "across".
        way: &'static str,
    },
    /// An opening that reaches over the edge.
    #[error("{} reaches {} past the {side}: move it in, or make it smaller.",
        start(*opening), say(*by))]
    OverEdge {
        /// Which opening.
        opening: OpeningName,
        /// Where it reaches over the farthest.
        side: FaceKey,
        /// How far, rounded up.
        by: Length,
    },
    /// An opening that leaves no wood at the edge.
    #[error("{} comes right up to the {side} and leaves no wood there: move it in, or make it smaller.",
        start(*opening))]
    AtEdge {
        /// Which opening.
        opening: OpeningName,
        /// Where.
        side: FaceKey,
    },
    /// An opening that runs into the edge profile.
    #[error("{} comes within the {} {profile} of the {side}: move it in by {}, or make it smaller.",
        start(*opening), say(*size), say(*by))]
    InProfile {
        /// Which opening.
        opening: OpeningName,
        /// Where it reaches in the farthest.
        side: FaceKey,
        /// The profile's name.
        profile: &'static str,
        /// The profile's radius or leg.
        size: Length,
        /// How far, rounded up.
        by: Length,
    },
    /// An opening whose own edge profile runs into the edge, or into the profile there.
    #[error("The {} {profile} of {opening} comes too near the {side}: move the opening in by {}, or make the profile smaller.",
        say(*size), say(*by))]
    OwnProfile {
        /// Which opening.
        opening: OpeningName,
        /// Where it reaches in the farthest.
        side: FaceKey,
        /// The name of its profile.
        profile: &'static str,
        /// That profile's radius or leg.
        size: Length,
        /// How far, rounded up.
        by: Length,
    },
    /// Two openings whose edge profiles run into each other.
    #[error("The edge profiles of {first} and {second} run into each other: leave {} or more of wood between the two, or make the profiles smaller.",
        say(*reach))]
    ProfilesMeet {
        /// One.
        first: OpeningName,
        /// The other.
        second: OpeningName,
        /// What both profiles take together.
        reach: Length,
    },
    /// Two openings that overlap.
    #[error("{} and {second} cross: move one of them, so that wood is left between.",
        start(*first))]
    Crossing {
        /// One.
        first: OpeningName,
        /// The other.
        second: OpeningName,
    },
    /// Two openings that meet without overlapping.
    #[error("{} and {second} touch: move one of them, so that wood is left between.",
        start(*first))]
    Touching {
        /// One.
        first: OpeningName,
        /// The other.
        second: OpeningName,
    },
    /// A band that leaves nothing inside.
    #[error("The underside band is {} but the top is only {} across: it must be less than half of that, or have no band at all.",
        say(*band), say(*across))]
    BandTooWide {
        /// As given.
        band: Length,
        /// The shorter side of the top.
        across: Length,
    },
    /// A band inside which the openings leave nothing.
    #[error("The underside band of {} and the openings leave no field inside it: make the band narrower, or have no band at all.",
        say(*band))]
    NoField {
        /// As given.
        band: Length,
    },
    /// An outline that cannot be.
    #[error(transparent)]
    Outline(#[from] OutlineError),
    /// An apron-front cutout that does not start at the front edge.
    #[error("{} is for an apron-front sink and must be open to a straight front edge: put its centre {} from the front.",
        start(*opening), say(*centre))]
    NotAtFront {
        /// Which cutout.
        opening: OpeningName,
        /// Half its depth.
        centre: Length,
    },
    /// An apron-front cutout that leaves no front edge beside it.
    #[error("{} is {} wide and leaves no front edge beside it, which runs from {} to {}: move it, or make it narrower.",
        start(*opening), say(*width), say(*from), say(*to))]
    OverFront {
        /// Which cutout.
        opening: OpeningName,
        /// Its width.
        width: Length,
        /// Where the front edge starts.
        from: Length,
        /// Where it ends.
        to: Length,
    },
    /// A purpose that does not go with the form.
    #[error("{} cannot be for {purpose}: {cure}.", start(*opening))]
    WrongPurpose {
        /// Which opening.
        opening: OpeningName,
        /// What it was said to be for.
        purpose: &'static str,
        /// What would do.
        cure: &'static str,
    },
    /// A reveal that leaves no bowl.
    #[error("The reveal of {opening} is {}, but the cutout is only {} across: no bowl would be left.",
        say(*reveal), say(*across))]
    RevealOver {
        /// Which cutout.
        opening: OpeningName,
        /// As given.
        reveal: Length,
        /// The shorter side of the cutout.
        across: Length,
    },
    /// A sink that is smaller overall than what must lie within it.
    #[error("The sink of {opening} is {} {way} overall, rim included, but {within} is {}: look at the numbers again.",
        say(*overall), say(*least))]
    OverallUnder {
        /// Which cutout.
        opening: OpeningName,
        /// "wide" or "deep".
        way: &'static str,
        /// As given.
        overall: Length,
        /// What lies within it.
        within: &'static str,
        /// How large that is.
        least: Length,
    },
    /// A bowl that reaches out from under the top.
    #[error("The bowl of {opening} is {} x {} and would reach {} past the {side}: make the reveal or the cutout smaller, or move it in.",
        say(*width), say(*depth), say(*by))]
    BowlOver {
        /// Which cutout.
        opening: OpeningName,
        /// Its bowl along the grain.
        width: Length,
        /// And across it.
        depth: Length,
        /// Where it reaches out the farthest.
        side: FaceKey,
        /// How far, rounded up.
        by: Length,
    },
    /// A cabinet whose walls leave no room inside.
    #[error("The cabinet under {opening} is {} wide with walls of {}: nothing is left inside.",
        say(*width), say(*wall))]
    CabinetWalls {
        /// Which cutout.
        opening: OpeningName,
        /// Outside.
        width: Length,
        /// Each.
        wall: Length,
    },
}

/// ` of cutout 1`, behind what belongs to an opening; nothing for what belongs to the outside.
pub(super) fn of(on: Option<OpeningName>) -> String {
    on.map_or_else(String::new, |opening| format!(" of {opening}"))
}

/// The name of an opening at the start of a sentence.
fn start(opening: OpeningName) -> String {
    match opening {
        OpeningName::Cutout(no) => format!("Cutout {no}"),
        OpeningName::Hole(no) => format!("Hole {no}"),
    }
}
