//! How a piece lies and is held, as typed.

use super::error::{FieldError, keep};
use super::size::{read_length, write_length};
use super::words::{pick, plain};
use crate::shop::{PieceId, PieceWood, Settings};
use crate::wood::movement::{Grain, HoldLine, Situation, SpacingRule};

/// How a piece lies and is held, field by field, as text.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct LieTyped {
    /// The wood's name in the table; empty when the ticket's species says it.
    pub wood: String,
    /// `flat`, `quarter`, `mixed` or `unknown`.
    pub grain: String,
    /// `back`, `middle` or `front`.
    pub held: String,
    /// Diameter of the screws.
    pub screw: String,
    /// `wide`, `close`, or the most between two fasteners.
    pub spacing: String,
    /// Between the holes of a figure-eight.
    pub eight: String,
    /// What is to be minded where it stands, parted by commas; `none`.
    pub stands: String,
}

/// The ways boards are sawn, with their words.
pub fn grain_words() -> Vec<(Grain, String)> {
    [
        (Grain::Flat, "flat"),
        (Grain::Quarter, "quarter"),
        (Grain::Mixed, "mixed"),
        (Grain::Unknown, "unknown"),
    ]
    .map(|(grain, word)| (grain, word.to_owned()))
    .into()
}

/// Where a top is held, with the words: the gap is at the back.
pub fn held_choices() -> Vec<(HoldLine, String)> {
    [
        (HoldLine::OppositeEdge, "front"),
        (HoldLine::Middle, "middle"),
        (HoldLine::ThisEdge, "back"),
    ]
    .map(|(held, word)| (held, word.to_owned()))
    .into()
}

/// What may be minded where a piece stands, with the words.
pub fn situation_words() -> Vec<(Situation, String)> {
    Situation::ALL
        .into_iter()
        .map(|situation| (situation, situation.words().to_owned()))
        .collect()
}

fn word_of<T: PartialEq>(value: &T, words: Vec<(T, String)>) -> String {
    words
        .into_iter()
        .find(|(one, _)| one == value)
        .map_or_else(String::new, |(_, word)| word)
}

impl LieTyped {
    /// A piece's lie as it would be typed.
    pub fn of(lie: &PieceWood, settings: &Settings) -> Self {
        let stands: Vec<&str> = lie.situations.iter().map(|of| of.words()).collect();
        Self {
            wood: lie.wood.clone(),
            grain: word_of(&lie.grain, grain_words()),
            held: word_of(&lie.held, held_choices()),
            screw: write_length(lie.screw, settings),
            spacing: match lie.spacing {
                SpacingRule::Wide => "wide".to_owned(),
                SpacingRule::Close => "close".to_owned(),
                SpacingRule::Own(length) => write_length(length, settings),
            },
            eight: write_length(lie.eight, settings),
            stands: stands.join(", "),
        }
    }
}

/// Reads how a piece lies and is held.
///
/// # Errors
/// Everything that does not read, each at its field.
pub fn read_lie(
    typed: &LieTyped,
    piece: PieceId,
    settings: &Settings,
) -> Result<PieceWood, Vec<FieldError>> {
    let mut errors = Vec::new();
    let grain = keep(pick("grain", &typed.grain, &grain_words()), &mut errors);
    let held = keep(pick("held", &typed.held, &held_choices()), &mut errors);
    let screw = keep(read_length("screw", &typed.screw, settings), &mut errors);
    let spacing = match plain(&typed.spacing).as_str() {
        "wide" => Some(SpacingRule::Wide),
        "close" => Some(SpacingRule::Close),
        _ => keep(
            read_length("spacing", &typed.spacing, settings),
            &mut errors,
        )
        .map(SpacingRule::Own),
    };
    let eight = keep(read_length("eight", &typed.eight, settings), &mut errors);
    let situations = keep(read_situations(&typed.stands), &mut errors);
    let whole = grain
        .zip(held)
        .zip(screw)
        .zip(spacing)
        .zip(eight)
        .zip(situations);
    let Some((((((grain, held), screw), spacing), eight), situations)) =
        whole.filter(|_| errors.is_empty())
    else {
        return Err(errors);
    };
    Ok(PieceWood {
        piece,
        wood: typed.wood.trim().to_owned(),
        grain,
        held,
        screw,
        spacing,
        eight,
        situations,
    })
}

fn read_situations(text: &str) -> Result<Vec<Situation>, FieldError> {
    if matches!(plain(text).as_str(), "" | "none") {
        return Ok(Vec::new());
    }
    text.split([',', '\n'])
        .filter(|part| !part.trim().is_empty())
        .map(|part| pick("stands", part, &situation_words()))
        .collect()
}
