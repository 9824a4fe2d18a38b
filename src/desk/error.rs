//! Why an action was not done.

use super::books::BooksError;
use super::can_error::CanRefusal;
use super::money::MoneyRefusal;
use super::wood_error::WoodRefusal;
use crate::coating::cans::CanError;
use crate::coating::{ForecastError, ProductError, ReadingError};
use crate::shape::ShapeError;
use crate::shape::cutting::CutError;
use crate::shape::layout::{RuleError, StandingError};
use crate::shape::lumber::LumberError;
use crate::shop::{BenchBookError, Blocker, Chore, MixError, ScheduleError, UseRuleError};
use chrono::{DateTime, Utc};
use chrono_tz::Tz;
use thiserror::Error;

/// A piece and every reason that held it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal {
    /// The piece, as it is called on tickets.
    pub piece: String,
    /// The reasons, in order.
    pub blockers: Vec<Blocker>,
    /// What the refusal teaches: the figure behind it, where there is one.
    pub teaching: Option<String>,
}

/// Why an action was not done. Nothing of it was saved.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum DeskError {
    /// A gate held it.
    #[error("{what} was refused")]
    Refused {
        /// What was tried.
        what: String,
        /// Per piece, every reason.
        refusals: Vec<Refusal>,
    },
    /// Bench hours no shop works by.
    #[error(transparent)]
    Bench(#[from] BenchBookError),
    /// Step times nobody works by.
    #[error(transparent)]
    StepTime(#[from] crate::shop::StepTimeError),
    /// A slot on a day gone by.
    #[error("{0} is gone by: say a day from today on.")]
    SlotPast(String),
    /// The same slot again.
    #[error("That is noted already: {0}.")]
    SlotThere(String),
    /// More slots than a lifetime has.
    #[error("There are {0} slots on record; remove some that are gone by first.")]
    TooManySlots(usize),
    /// A step cannot begin later than now.
    #[error("A step is begun when it is begun: say now, or an earlier time.")]
    StepAhead,
    /// One pair of hands.
    #[error("A step on {0} is under way: finish it or put it down first.")]
    StepUnderWay(String),
    /// Nothing is under way.
    #[error("No step is under way: begin one from the day sheet first.")]
    NoStep,
    /// Not the step that comes next.
    #[error(
        "The next step on {piece} is {next}, not {asked}: begin that one, or make the sheet anew."
    )]
    OtherStep {
        /// The piece.
        piece: String,
        /// What was asked.
        asked: String,
        /// What comes next.
        next: String,
    },
    /// A field that must be filled is empty.
    #[error("{what} is empty: {cure}")]
    Empty {
        /// The field.
        what: &'static str,
        /// What would do.
        cure: &'static str,
    },
    /// Text longer than a line on a ticket can hold.
    #[error(
        "{what} can have up to {most} characters; this has {has}. Shorten it{}.",
        elsewhere(what)
    )]
    TooLong {
        /// The field.
        what: &'static str,
        /// Most characters.
        most: usize,
        /// Characters given.
        has: usize,
    },
    /// A promise in the past.
    #[error("A promise cannot lie in the past: {date} is before today, {today}.")]
    PastPromise {
        /// The date typed.
        date: chrono::NaiveDate,
        /// Today.
        today: chrono::NaiveDate,
    },
    /// A year no house was built in.
    #[error("{0} is not a year a house was built in; type four digits, or leave it empty.")]
    Year(i32),
    /// A name taken already.
    #[error("There is a {what} called {name} already; choose another name.")]
    NameTaken {
        /// What.
        what: &'static str,
        /// The name.
        name: String,
    },
    /// Work has started, so the recipe stands.
    #[error(
        "Work on {0} has started, so its own copy of the schedule stands; make a new piece for another recipe."
    )]
    Started(String),
    /// Something was logged, so it stays on record.
    #[error("{0} has work on record and cannot be removed.")]
    OnRecord(String),
    /// Nothing picked.
    #[error("No piece was picked: pick one or more first.")]
    NoPiece,
    /// Pieces that take different products in one pass.
    #[error("These pieces do not take the same product: {0}. Log one pass for each product.")]
    MixedProducts(String),
    /// Can heavier after than before.
    #[error(
        "The can weighs more after ({after}) than before ({before}): weigh again, or swap the two."
    )]
    WeightRose {
        /// Before.
        before: String,
        /// After.
        after: String,
    },
    /// Nothing used.
    #[error("A pass uses something: type how much, or leave the amount empty for an estimate.")]
    NothingUsed,
    /// More than a pass can use.
    #[error(
        "{amount} is more than a hundred times the {expected} this area takes: check the unit."
    )]
    AbsurdAmount {
        /// Typed.
        amount: String,
        /// Expected.
        expected: String,
    },
    /// A wrong product kind.
    #[error("{product} is a {is}, not a {needs}: pick another product.")]
    WrongProduct {
        /// The product.
        product: String,
        /// Its kind.
        is: &'static str,
        /// The kind needed.
        needs: &'static str,
    },
    /// Two lines that are not one action, or none.
    #[error("Pick one line of the log: its time is corrected alone.")]
    NotOneLine,
    /// The time it has already.
    #[error("That is the time it has already: {0}.")]
    SameTime(String),
    /// A day that does not call for the chore.
    #[error("{day} does not call for it: nothing was logged that leaves {}.", chore.words())]
    NotCalledFor {
        /// The day.
        day: String,
        /// The chore.
        chore: Chore,
    },
    /// Oily rags ticked without saying how.
    #[error(
        "Say how the oily rags were made safe: laid flat outdoors, or in a lidded metal can of water."
    )]
    RagsHow,
    /// A way that only rags have.
    #[error("Only oily rags are laid flat or drowned: tick {} without saying how.", .0.words())]
    NoWay(Chore),
    /// A tick that does not cover the last of what called for it.
    #[error(
        "At {at} the last of it was still to come, at {last}: see to what came after too, and say when."
    )]
    ChoreTooEarly {
        /// The time typed.
        at: String,
        /// The last work that called for it.
        last: String,
    },
    /// A time still to come.
    #[error("{0} is still to come: a chore is ticked when it is done.")]
    ChoreAhead(String),
    /// A chore that was not ticked.
    #[error("{} of {day} are not ticked, so there is nothing to take back.", chore.words())]
    NotTicked {
        /// The day.
        day: String,
        /// The chore.
        chore: Chore,
    },
    /// A day still to come.
    #[error("{0} is still to come: close it when its work is done.")]
    DayAhead(String),
    /// Closed already.
    #[error("{day} was closed {at}.")]
    DayIsClosed {
        /// The day.
        day: String,
        /// When.
        at: String,
    },
    /// Oily rags not logged as safe.
    #[error(
        "{day} is not closed: oily rags of {of} (last {last}) are not logged as laid flat outdoors or in a lidded metal can of water, and can catch fire by themselves within hours (NFPA oily-rag tip sheet). Log them, or close it with the reason in writing, two words or more; it stays in the log."
    )]
    RagsOpen {
        /// The day.
        day: String,
        /// What they are of.
        of: String,
        /// The last work with them.
        last: String,
    },
    /// A day is to be closed while the oily rags of a day before it are not logged as safe.
    #[error(
        "{day} is not closed: oily rags of {of} from {left} are not logged as laid flat outdoors or in a lidded metal can of water, and can catch fire by themselves within hours (NFPA oily-rag tip sheet). See to that day first: log them, or close it with the reason in writing (on the day's end the left arrow goes there; a command takes --day {date})."
    )]
    RagsLeft {
        /// The day that was to be closed.
        day: String,
        /// The day before.
        left: String,
        /// What they are of.
        of: String,
        /// The day before, as a command takes it.
        date: chrono::NaiveDate,
    },
    /// Nothing to undo.
    #[error("There is nothing to undo.")]
    NothingToUndo,
    /// Nothing to do again.
    #[error("There is nothing to do again: something new was done since, or nothing was undone.")]
    NothingToRedo,
    /// No such thing.
    #[error("There is no {what} called {name}.")]
    NoSuch {
        /// What.
        what: &'static str,
        /// As typed.
        name: String,
    },
    /// Opening a finding again that is open.
    #[error("{finding} is open already: nobody has accepted it.")]
    FindingOpen {
        /// Its check and what it is about.
        finding: String,
    },
    /// A bad shape.
    #[error(transparent)]
    Shape(#[from] ShapeError),
    /// A bad schedule.
    #[error(transparent)]
    Schedule(#[from] ScheduleError),
    /// A bad product.
    #[error(transparent)]
    Product(#[from] ProductError),
    /// A temperature that is no usual shop air.
    #[error(
        "{shown} is no usual shop air{} {}.",
        meant.as_ref().map_or_else(|| ".".to_owned(), |meant| format!("; was {meant} meant?")),
        if *firm {
            "No shop is worked in at that temperature, so check the unit"
        } else {
            "Log it in the right scale, F or C, or say that you are sure"
        }
    )]
    DoubtfulAir {
        /// The temperature in both scales.
        shown: String,
        /// What was probably meant, if the same number in the other scale would do.
        meant: Option<String>,
        /// Whether even insisting does not help.
        firm: bool,
    },
    /// A humidity that is no shop's, or a fraction of one.
    #[error(
        "{shown} humidity is drier than any shop's air; was it read as a fraction of one? Write it in percent, like 45, or say that you are sure."
    )]
    DoubtfulHumidity {
        /// The humidity as it was understood.
        shown: String,
    },
    /// A reading from the future, or one no shop has.
    #[error(transparent)]
    Reading(#[from] ReadingError),
    /// No reading at that time.
    #[error("There is no reading of the shop's air at {at}; look at the list for its exact time.")]
    NoReading {
        /// The time.
        at: String,
    },
    /// Another reading at that time.
    #[error("At {at} there is another reading, {air}; correct or remove that one.")]
    AirTaken {
        /// The time.
        at: String,
        /// Its air.
        air: String,
    },
    /// A logger's file without one row that can be read.
    #[error("{file} has no row that reads as time, temperature and humidity{why}")]
    NoAirRows {
        /// The file.
        file: String,
        /// The first refused row, if there was one.
        why: String,
    },
    /// A forecast that cannot be.
    #[error(transparent)]
    Forecast(#[from] ForecastError),
    /// A forecast for time gone by.
    #[error("That time is gone by; log what the air was instead of foretelling it.")]
    ForecastPast,
    /// No forecast to take away.
    #[error("There is no forecast to take away.")]
    NothingForetold,
    /// Nothing learned of a product.
    #[error("No touch test of {product} counts so far, so there is nothing to forget.")]
    NothingLearned {
        /// The product.
        product: String,
    },
    /// Something about wood, its moisture or its site.
    #[error(transparent)]
    Wood(#[from] WoodRefusal),
    /// A standing that cannot be.
    #[error(transparent)]
    Standing(#[from] StandingError),
    /// A figure that a layout check cannot go by.
    #[error(transparent)]
    Rule(#[from] RuleError),
    /// A cut that cannot be planned.
    #[error(transparent)]
    Cut(#[from] CutError),
    /// Lumber that cannot be reckoned.
    #[error(transparent)]
    Lumber(#[from] LumberError),
    /// The size a product is priced by.
    #[error("{0} is the can the product is priced by: change it with the product.")]
    PricedBy(String),
    /// A can that cannot be.
    #[error(transparent)]
    CanSize(#[from] CanError),
    /// A mix that cannot be.
    #[error(transparent)]
    Mix(#[from] MixError),
    /// Rules of use that cannot be.
    #[error(transparent)]
    UseRule(#[from] UseRuleError),
    /// Something about cans, or a question about them.
    #[error(transparent)]
    Can(#[from] CanRefusal),
    /// Something about money or hours.
    #[error(transparent)]
    Money(#[from] MoneyRefusal),
    /// The store.
    #[error(transparent)]
    Books(#[from] BooksError),
}

/// Where the rest of a text can go that is too long; of notes nowhere.
fn elsewhere(what: &str) -> &'static str {
    if what.ends_with("notes") {
        ""
    } else {
        "; the rest can go into the notes"
    }
}

impl DeskError {
    /// Whether it is a question that who is sure can answer with yes.
    pub fn is_question(&self) -> bool {
        matches!(
            self,
            Self::Can(CanRefusal::Doubtful(_)) | Self::DoubtfulAir { firm: false, .. }
        )
    }

    /// The answer, line by line: what was refused, then every reason in order.
    pub fn lines(&self, now: DateTime<Utc>, zone: Tz) -> Vec<String> {
        if let Self::Can(CanRefusal::Doubtful(doubts)) = self {
            let mut out: Vec<String> = doubts.iter().map(ToString::to_string).collect();
            out.push("Correct it, or say that you are sure.".to_owned());
            return out;
        }
        let Self::Refused { refusals, .. } = self else {
            return vec![self.to_string()];
        };
        let mut out = Vec::new();
        for refusal in refusals {
            let count = refusal.blockers.len();
            let reasons = if count == 1 {
                "1 reason".to_owned()
            } else {
                format!("{count} reasons")
            };
            out.push(format!("{self}: {}, {reasons}", refusal.piece));
            out.extend(
                refusal
                    .blockers
                    .iter()
                    .map(|blocker| format!("- {}", blocker.words(now, zone))),
            );
            out.extend(refusal.teaching.iter().map(|words| format!("Why: {words}")));
        }
        out
    }
}
