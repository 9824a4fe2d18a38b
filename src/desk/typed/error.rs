//! An error and the field it belongs to.

use crate::coating::{ProductError, ReadingError};
use crate::desk::DeskError;
use crate::shape::{OpeningName, OutlineError, ShapeError};
use crate::shop::ScheduleError;
use thiserror::Error;

/// What is wrong with one field, in one sentence that says what would do.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("{message}")]
pub struct FieldError {
    /// The field, by its name in the typed struct: `size`, `show_grits`.
    pub field: &'static str,
    /// The sentence.
    pub message: String,
}

impl FieldError {
    /// An error at a field.
    pub fn new(field: &'static str, message: impl Into<String>) -> Self {
        Self {
            field,
            message: message.into(),
        }
    }

    /// What another room said of it, at a field.
    pub fn said(field: &'static str, error: &impl std::fmt::Display) -> Self {
        Self::new(field, error.to_string())
    }

    /// The same error at another field.
    #[must_use]
    pub fn at(self, field: &'static str) -> Self {
        Self { field, ..self }
    }
}

/// Keeps the value, or puts the error with the others.
pub(super) fn keep<T>(read: Result<T, FieldError>, errors: &mut Vec<FieldError>) -> Option<T> {
    match read {
        Ok(value) => Some(value),
        Err(error) => {
            errors.push(error);
            None
        }
    }
}

/// The field that an answer of the desk belongs to, if it is about one.
pub fn field_of(error: &DeskError) -> Option<&'static str> {
    match error {
        DeskError::Empty { what, .. } | DeskError::TooLong { what, .. } => text_field(what),
        DeskError::PastPromise { .. } => Some("promised"),
        DeskError::Year(_) => Some("house_built"),
        DeskError::NameTaken { .. } => Some("name"),
        DeskError::Started(_) => Some("recipe"),
        DeskError::MixedProducts(_) | DeskError::NothingLearned { .. } => Some("product"),
        DeskError::WeightRose { .. } | DeskError::NothingUsed | DeskError::AbsurdAmount { .. } => {
            Some("amount")
        }
        DeskError::Can(_) => Some("amount"),
        DeskError::WrongProduct { needs, .. } => match *needs {
            "sealer" => Some("sealer"),
            "stain" => Some("stain"),
            "topcoat" => Some("topcoat"),
            _ => Some("wipe_down"),
        },
        DeskError::DoubtfulAir { .. }
        | DeskError::DoubtfulHumidity { .. }
        | DeskError::Reading(ReadingError::Unlikely { .. }) => Some("air"),
        DeskError::Reading(ReadingError::Future { .. })
        | DeskError::AirTaken { .. }
        | DeskError::NoReading { .. }
        | DeskError::StepAhead => Some("at"),
        DeskError::Forecast(_) | DeskError::ForecastPast => Some("until"),
        DeskError::NoAirRows { .. } => Some("file"),
        DeskError::Shape(error) => Some(shape_field(error)),
        DeskError::Schedule(error) => Some(schedule_field(error)),
        DeskError::Product(error) => Some(product_field(error)),
        DeskError::ChoreTooEarly { .. } | DeskError::ChoreAhead(_) | DeskError::SameTime(_) => {
            Some("at")
        }
        DeskError::Wood(refusal) => Some(super::moisture::field_of_wood(refusal)),
        DeskError::SlotPast(_) | DeskError::SlotThere(_) | DeskError::TooManySlots(_) => {
            Some("slot")
        }
        DeskError::RagsHow => Some("way"),
        DeskError::RagsOpen { .. } => Some("reason"),
        DeskError::NotOneLine
        | DeskError::NotCalledFor { .. }
        | DeskError::NoWay(_)
        | DeskError::NotTicked { .. }
        | DeskError::DayAhead(_)
        | DeskError::DayIsClosed { .. }
        | DeskError::Refused { .. }
        | DeskError::OnRecord(_)
        | DeskError::NoPiece
        | DeskError::NothingToUndo
        | DeskError::NothingToRedo
        | DeskError::NothingForetold
        | DeskError::NoSuch { .. }
        | DeskError::FindingOpen { .. }
        | DeskError::Standing(_)
        | DeskError::Rule(_)
        | DeskError::Cut(_)
        | DeskError::Lumber(_)
        | DeskError::PricedBy(_)
        | DeskError::CanSize(_)
        | DeskError::Mix(_)
        | DeskError::UseRule(_)
        | DeskError::RagsLeft { .. }
        | DeskError::Bench(_)
        | DeskError::StepTime(_)
        | DeskError::StepUnderWay(_)
        | DeskError::NoStep
        | DeskError::OtherStep { .. }
        | DeskError::Money(_)
        | DeskError::Books(_) => None,
    }
}

/// The field of a text that the desk found empty or too long, from its name in the sentence.
fn text_field(what: &str) -> Option<&'static str> {
    const FIELDS: [(&str, &str); 16] = [
        ("The shop's name", "shop_name"),
        ("The shop's address", "shop_address"),
        ("The client's name", "name"),
        ("The telephone number", "phone"),
        ("The mail address", "email"),
        ("The client's address", "address"),
        ("The client's notes", "notes"),
        ("The job's title", "title"),
        ("The site address", "site"),
        ("The job's notes", "notes"),
        ("The piece's name", "name"),
        ("The species", "species"),
        ("The recipe's name", "name"),
        ("The product's name", "name"),
        ("The reason", "reason"),
        ("The notes", "notes"),
    ];
    FIELDS
        .into_iter()
        .find(|(words, _)| *words == what)
        .map(|(_, field)| field)
}

/// The field of a piece in which a refused shape is put right.
pub(super) fn shape_field(error: &ShapeError) -> &'static str {
    use ShapeError as E;
    match error {
        E::NotPositive { what, .. }
        | E::Negative { what, .. }
        | E::TooSmall { what, .. }
        | E::TooLarge { what, .. } => named_size(what),
        E::TooThin { .. } | E::TooThick { .. } => "thickness",
        E::ProfileOverThickness { on, .. } | E::BullnoseOver { on, .. } => {
            on.map_or("profile", opening_field)
        }
        E::ProfileOverWidth { .. } => "profile",
        E::Outline(error) => outline_field(error),
        E::TooManyOpenings { .. } | E::ZeroNumber => "cutouts",
        E::DuplicateNumber { opening }
        | E::CornerRadius { opening, .. }
        | E::LargerThanTop { opening, .. }
        | E::OverEdge { opening, .. }
        | E::AtEdge { opening, .. }
        | E::NotAtFront { opening, .. }
        | E::OverFront { opening, .. }
        | E::WrongPurpose { opening, .. }
        | E::RevealOver { opening, .. }
        | E::OverallUnder { opening, .. }
        | E::BowlOver { opening, .. }
        | E::CabinetWalls { opening, .. }
        | E::OwnProfile { opening, .. }
        | E::InProfile { opening, .. } => opening_field(*opening),
        E::Crossing { second, .. }
        | E::Touching { second, .. }
        | E::ProfilesMeet { second, .. } => opening_field(*second),
        E::BandTooWide { .. } | E::NoField { .. } | E::BandInBullnose { .. } => "band",
    }
}

/// The field in which a refused outline is put right.
fn outline_field(error: &OutlineError) -> &'static str {
    use OutlineError as E;
    match error {
        E::NoCorner { .. } | E::NoNotch { .. } | E::CornerOver { .. } | E::SelfCrossing { .. } => {
            "corners"
        }
        _ => "size",
    }
}

fn named_size(what: &str) -> &'static str {
    let holds = |word| what.contains(word);
    match () {
        () if holds("cutout") => "cutouts",
        () if holds("hole") => "holes",
        () if holds("corner") => "corners",
        () if holds("thickness") => "thickness",
        () if holds("size of the") => "profile",
        () if holds("band") => "band",
        () => "size",
    }
}

fn opening_field(opening: OpeningName) -> &'static str {
    match opening {
        OpeningName::Cutout(_) => "cutouts",
        OpeningName::Hole(_) => "holes",
    }
}

/// The field of a recipe in which a refused schedule is put right.
pub(super) fn schedule_field(error: &ScheduleError) -> &'static str {
    let group = |group: &str, fields: [&'static str; 3]| match group {
        "show faces" => fields[0],
        "ends and walls" => fields[1],
        _ => fields[2],
    };
    match error {
        ScheduleError::NoGrits(name) | ScheduleError::Grits { group: name, .. } => {
            group(name, ["show_grits", "end_grits", "under_grits"])
        }
        ScheduleError::Bare(name) => {
            group(name, ["show_topcoats", "end_topcoats", "under_topcoats"])
        }
        ScheduleError::Walls => "end_topcoats",
        ScheduleError::Balance {
            show, underside, ..
        } if show < underside => "show_topcoats",
        ScheduleError::Balance { .. } => "under_topcoats",
        ScheduleError::Allowance(_) => "allowance",
        ScheduleError::NoProduct(words) => match *words {
            "seal coats" | "seal coat" => "sealer",
            "stain" => "stain",
            _ => "topcoat",
        },
        ScheduleError::TooMany(_) => "show_topcoats",
        ScheduleError::Cure => "cure_days",
    }
}

pub(super) fn product_field(error: &ProductError) -> &'static str {
    match error {
        ProductError::NoName => "name",
        ProductError::NoWindow { .. } | ProductError::Windows { .. } => "windows",
        ProductError::Solids { .. } => "solids",
        ProductError::Order { later, .. } => super::product_figures::field(*later),
        ProductError::ReferenceHumidity { .. } => "reference_humidity",
        ProductError::NoCan { .. } => "can",
        ProductError::NoSpread { .. } => "spread",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_go_to_the_field_they_were_typed_in() {
        for (what, field) in [
            ("length", "size"),
            ("diameter", "size"),
            ("thickness", "thickness"),
            ("width of cutout 2", "cutouts"),
            ("diameter of hole 1", "holes"),
            ("corner radius of cutout 1", "cutouts"),
            ("size of the round-over", "profile"),
            ("underside band", "band"),
        ] {
            assert_eq!(named_size(what), field, "{what}");
        }
    }
}
