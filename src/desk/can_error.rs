//! What is asked about cans before it is believed, and what cannot be.

use thiserror::Error;

/// Something doubtful: it is asked once; who is sure is believed.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum CanDoubt {
    /// A weight that went up.
    #[error(
        "{can} weighs {now} now and weighed {last} {at}: a can does not grow heavier; was the lid off, another can on the scale, or something poured back?"
    )]
    WeightRose {
        /// The can.
        can: String,
        /// The weight now.
        now: String,
        /// The last weight.
        last: String,
        /// When that was.
        at: String,
    },
    /// Lighter than the empty can.
    #[error(
        "{weight} is less than the empty {can} weighs ({empty}{reckoned}): was the lid off, or another can on the scale?"
    )]
    BelowEmpty {
        /// The can.
        can: String,
        /// The weight.
        weight: String,
        /// What it weighs empty.
        empty: String,
        /// `, reckoned`, where that was not weighed.
        reckoned: &'static str,
    },
    /// Heavier than the full can.
    #[error(
        "{weight} would mean {content} in {can}, which holds {holds}: was another can on the scale, or is its empty weight another?"
    )]
    MoreThanItHolds {
        /// The can.
        can: String,
        /// The weight.
        weight: String,
        /// What would be in it.
        content: String,
        /// What it holds.
        holds: String,
    },
    /// Far more, or far less, than expected.
    #[error(
        "{amount} is {times} the {expected} this area takes at the label's spread rate: is the unit right, and the number of noughts?"
    )]
    FarUse {
        /// Typed.
        amount: String,
        /// `more than 10 times` or `less than a tenth of`.
        times: &'static str,
        /// Expected.
        expected: String,
    },
    /// More taken than was in it.
    #[error("{can} had {left} left ({known}), and {taken} was taken from it.")]
    LessLeft {
        /// The can.
        can: String,
        /// What was left.
        left: String,
        /// How that is known.
        known: String,
        /// What was taken.
        taken: String,
    },
    /// Past its shelf life.
    #[error(
        "{can} is past its shelf life, {why} {until}: try it on scrap first; it may dry slowly or not at all."
    )]
    PastShelfLife {
        /// The can.
        can: String,
        /// By which count.
        why: &'static str,
        /// Until when it was good.
        until: String,
    },
    /// Another batch of stain than the rest of the job.
    #[error(
        "{can} is batch {batch}, and job {job} was stained from batch {before} so far: batches differ in colour; mix them before starting, or try both side by side on scrap."
    )]
    OtherBatch {
        /// The can.
        can: String,
        /// Its batch.
        batch: String,
        /// The job.
        job: String,
        /// The batch so far.
        before: String,
    },
    /// Two batches in one pass of stain.
    #[error(
        "{one} and {other} are different batches of stain in one pass: mix them before starting, or the colour may change where one ends."
    )]
    TwoBatches {
        /// The one can with its batch.
        one: String,
        /// The other.
        other: String,
    },
    /// Used before it came.
    #[error("{can} came only {on}, after that time.")]
    BeforeItCame {
        /// The can.
        can: String,
        /// When it came.
        on: String,
    },
    /// Used after it was thrown away.
    #[error("{can} was thrown away {at}.")]
    Gone {
        /// The can.
        can: String,
        /// When.
        at: String,
    },
}

/// Why something cannot be done with cans.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum CanRefusal {
    /// Questions, all at once.
    #[error("{} Correct it, or say that you are sure.", asked(.0))]
    Doubtful(Vec<CanDoubt>),
    /// A can of another product.
    #[error("{can} holds {is}, and {needs} is wanted: pick another can.")]
    OtherProduct {
        /// The can.
        can: String,
        /// What it holds.
        is: String,
        /// What is wanted.
        needs: String,
    },
    /// The same can twice.
    #[error("{0} is named twice: name each can once.")]
    Twice(String),
    /// Weights of one pass over several cans, not said can by can.
    #[error(
        "The pass drew on several cans, so say for each what it weighed: \"7: 1042 g > 884 g\"."
    )]
    WeighEach,
    /// An amount for some of the cans only.
    #[error("Say how much came from each can, or from none of them: {0} has no amount.")]
    SomeAmounts(String),
    /// An amount for the pass and for its cans.
    #[error("Say the amount once: can by can, or for the whole pass.")]
    AmountTwice,
    /// Only the weight after, and no weight before on record.
    #[error("{can} {why}: type both weights, like 1042 g > 884 g.")]
    NoBefore {
        /// The can.
        can: String,
        /// Why its last weighing does not do.
        why: &'static str,
    },
    /// Only the weight after, and no can.
    #[error(
        "One weight alone needs a can whose last weight is on record: name the can, or type both weights, like 1042 g > 884 g."
    )]
    BeforeOfWhat,
    /// More in rag and tray than was used.
    #[error(
        "{lost} in rag and tray is not less than the {used} that was used: weigh again; take off what they weighed dry."
    )]
    LostMore {
        /// In rag and tray.
        lost: String,
        /// Used.
        used: String,
    },
    /// Nothing in it.
    #[error("{0} must be more than nothing.")]
    Nothing(&'static str),
    /// More in it than it holds.
    #[error("A can of {size} cannot have come with {held} in it.")]
    Overfull {
        /// Its size.
        size: String,
        /// What was in it.
        held: String,
    },
    /// So many cans at once.
    #[error("Between 1 and {most} cans are received at once, not {has}.")]
    Count {
        /// The most.
        most: u32,
        /// As typed.
        has: u32,
    },
    /// A mix of one.
    #[error("A mix takes two cans or more.")]
    MixOfOne,
    /// Nothing to mix or pour.
    #[error("{0} is empty: nothing can be taken from it.")]
    Empty(String),
    /// Thrown away.
    #[error("{can} was thrown away {at}; if that was a mistake, strike that line of its log.")]
    Discarded {
        /// The can.
        can: String,
        /// When.
        at: String,
    },
    /// Open already.
    #[error("{can} is open since {at}.")]
    IsOpen {
        /// The can.
        can: String,
        /// When.
        at: String,
    },
    /// In the future.
    #[error("{0} is still to come: log what was done when it is done.")]
    Ahead(String),
    /// Before the can came.
    #[error("{can} came only {on}: look at the time again.")]
    TooEarly {
        /// The can.
        can: String,
        /// When it came.
        on: String,
    },
    /// What a mixed can holds follows from its parts.
    #[error(
        "What {0} holds and cost follows from the cans it was mixed of; only its place, its empty weight and its batch can be corrected."
    )]
    OfMix(String),
    /// What was drawn from it was of that product.
    #[error("{0} was used already, so what is in it stays as it is.")]
    Used(String),
    /// Poured into a mix: the mix stands on it.
    #[error("{0} stands on that line; undo the mix instead.")]
    StandsOn(String),
    /// More cans than can be numbered.
    #[error("There is no number left for another can.")]
    NoNumber,
}

fn asked(doubts: &[CanDoubt]) -> String {
    doubts
        .iter()
        .map(ToString::to_string)
        .collect::<Vec<_>>()
        .join(" ")
}
