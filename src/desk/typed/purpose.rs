//! What an opening is for: `sink undermount negative 3/8, overall 33 x 19, cabinet 36, walls 3/4,
//! front rail 3`, `cooktop`, `faucet`.

use super::clauses::{self, Clause};
use super::error::FieldError;
use super::size::{pair, read_length, sides, write_two};
use super::words::{plain, quoted};
use crate::shape::{Cabinet, Mount, Purpose, Reveal, Say, Sink};
use crate::shop::Settings;
use crate::units::Length;

/// The words that a purpose begins with.
pub(super) const WORDS: [&str; 6] = ["sink", "cooktop", "outlet", "faucet", "accessory", "cable"];

const REVEAL_CURE: &str = "makers disagree, so say positive and by how much (the rim shows), zero (flush), or negative and by how much (the wood hangs over the bowl).";
const MOUNT_CURE: &str = "say undermount, drop-in or apron-front.";

const CLAUSES: [&str; 22] = [
    "undermount",
    "drop-in",
    "drop in",
    "apron-front",
    "apron front",
    "apron",
    "positive",
    "zero",
    "flush",
    "negative",
    "overall",
    "wall",
    "cabinet",
    "walls",
    "front rail",
    "back rail",
    "rails",
    "left",
    "overhang",
    "deep",
    "sink wall",
    "cabinet walls",
];

/// Where the profile of an edge ends, in what stands behind its word: at a comma, or where a purpose
/// or a word about a sink begins.
pub(super) fn end_of_profile(text: &str) -> usize {
    let words: Vec<&'static str> = WORDS.into_iter().chain(CLAUSES).collect();
    clauses::end_of_value(text, &words)
}

/// Reads what is behind the opening's place: nothing, or a purpose.
///
/// # Errors
/// What does not read or is not said, and what would do, at `field`.
pub(super) fn read(
    field: &'static str,
    text: &str,
    settings: &Settings,
) -> Result<Purpose, FieldError> {
    let text = text.trim();
    let end = text
        .find(|c: char| !c.is_alphabetic())
        .unwrap_or(text.len());
    let (word, rest) = text.split_at(end);
    let purpose = match plain(word).as_str() {
        "" => Purpose::Plain,
        "sink" => return sink(field, rest, settings).map(Purpose::Sink),
        "cooktop" => Purpose::Cooktop,
        "outlet" => Purpose::Outlet,
        "faucet" => Purpose::Faucet,
        "accessory" => Purpose::Accessory,
        "cable" => Purpose::Cable,
        _ => {
            let message = format!(
                "\"{}\" is nothing an opening is for: say sink, cooktop, outlet, faucet, accessory or cable.",
                quoted(word)
            );
            return Err(FieldError::new(field, message));
        }
    };
    let rest = rest.trim_matches([' ', ',']);
    if rest.is_empty() {
        return Ok(purpose);
    }
    let message = format!(
        "\"{}\" stands behind {word}, which has no figures: leave it out.",
        quoted(rest)
    );
    Err(FieldError::new(field, message))
}

/// Reads what an opening is for, alone: `cooktop`, `sink undermount negative 3/8 in`.
///
/// # Errors
/// What does not read or is not said, in one sentence.
pub fn read_purpose(text: &str, settings: &Settings) -> Result<Purpose, String> {
    read("purpose", text, settings).map_err(|error| error.message)
}

fn sink(field: &'static str, text: &str, settings: &Settings) -> Result<Sink, FieldError> {
    // "Negative reveal 3/8" and "negative 3/8 reveal" say the same without the word.
    let words = |word: &&str| !word.trim_matches(',').eq_ignore_ascii_case("reveal");
    let text: Vec<&str> = text.split_whitespace().filter(words).collect();
    let text = text.join(" ");
    let clauses = clauses::read(field, &text, &CLAUSES)?;
    let length = |word| -> Result<Option<Length>, FieldError> {
        match clauses::one(field, &clauses, word)? {
            Some(text) => read_length(field, text, settings).map(Some),
            None => Ok(None),
        }
    };
    let overall = match clauses::one(field, &clauses, "overall")? {
        None => None,
        Some(text) => {
            let [width, depth] = sides(text)[..] else {
                let message = format!(
                    "\"{}\" is not the sink's overall width x depth: type it like overall 33 x 19.",
                    quoted(text)
                );
                return Err(FieldError::new(field, message));
            };
            Some(pair(field, width, depth, settings)?)
        }
    };
    let wall = length("sink wall")?.or(length("wall")?);
    let cabinet = match length("cabinet")? {
        None => None,
        Some(width) => {
            let both = length("rails")?.unwrap_or(Length::ZERO);
            Some(Cabinet {
                width,
                left: length("left")?,
                wall: length("walls")?.or(length("cabinet walls")?),
                front_rail: length("front rail")?.unwrap_or(both),
                back_rail: length("back rail")?.unwrap_or(both),
                overhang: length("overhang")?,
                depth: length("deep")?,
            })
        }
    };
    Ok(Sink {
        mount: mount(field, &clauses, settings)?,
        overall,
        wall,
        cabinet,
    })
}

fn mount(
    field: &'static str,
    clauses: &[Clause<'_>],
    settings: &Settings,
) -> Result<Mount, FieldError> {
    let has = |words: &[&str]| clauses.iter().any(|(word, _)| words.contains(word));
    let kinds = [
        has(&["undermount"]),
        has(&["drop-in", "drop in"]),
        has(&["apron-front", "apron front", "apron"]),
    ];
    let wrong = |message: String| Err(FieldError::new(field, message));
    match kinds {
        [true, false, false] => {
            reveal(field, clauses, settings, "an undermount sink").map(Mount::Undermount)
        }
        [false, false, true] => {
            reveal(field, clauses, settings, "an apron-front sink").map(Mount::ApronFront)
        }
        [false, true, false] => {
            if has(&["positive", "zero", "flush", "negative"]) {
                return wrong(
                    "A drop-in sink covers the wall with its rim and has no reveal: leave it out."
                        .to_owned(),
                );
            }
            Ok(Mount::DropIn)
        }
        [false, false, false] => wrong(format!("How the sink is set is not said: {MOUNT_CURE}")),
        _ => wrong(format!(
            "The sink is set in more than one way: {MOUNT_CURE}"
        )),
    }
}

fn reveal(
    field: &'static str,
    clauses: &[Clause<'_>],
    settings: &Settings,
    of: &str,
) -> Result<Reveal, FieldError> {
    let size = |word: &'static str| -> Result<Option<Length>, FieldError> {
        match clauses::one(field, clauses, word)? {
            Some("") => {
                let message = format!("How much the {word} reveal is, is not said: {REVEAL_CURE}");
                Err(FieldError::new(field, message))
            }
            Some(text) => read_length(field, text, settings).map(Some),
            None => Ok(None),
        }
    };
    let flush = clauses
        .iter()
        .any(|(word, _)| matches!(*word, "zero" | "flush"));
    match (size("positive")?, flush, size("negative")?) {
        (Some(by), false, None) => Ok(Reveal::Positive(by)),
        (None, true, None) => Ok(Reveal::Zero),
        (None, false, Some(by)) => Ok(Reveal::Negative(by)),
        (None, false, None) => {
            let message = format!("The reveal of {of} is not said: {REVEAL_CURE}");
            Err(FieldError::new(field, message))
        }
        _ => {
            let message = format!("The reveal is said in two ways: {REVEAL_CURE}");
            Err(FieldError::new(field, message))
        }
    }
}

/// A purpose as it would be typed, behind the place; `say` writes a length.
pub fn write_purpose(purpose: &Purpose, say: Say<'_>) -> String {
    let Purpose::Sink(sink) = purpose else {
        return purpose.word().to_owned();
    };
    let mut parts = vec![match sink.mount {
        Mount::DropIn => "sink drop-in".to_owned(),
        Mount::Undermount(reveal) | Mount::ApronFront(reveal) => {
            let by = match reveal {
                Reveal::Positive(by) | Reveal::Negative(by) => format!(" {}", say(by)),
                Reveal::Zero => String::new(),
            };
            format!("sink {} {}{by}", sink.mount.word(), reveal.word())
        }
    }];
    if let Some((width, depth)) = sink.overall {
        let (width, depth) = write_two(width, depth, say);
        parts.push(format!("overall {width} x {depth}"));
    }
    if let Some(wall) = sink.wall {
        parts.push(format!("sink wall {}", say(wall)));
    }
    if let Some(cabinet) = sink.cabinet {
        parts.push(format!("cabinet {}", say(cabinet.width)));
        if let Some(wall) = cabinet.wall {
            parts.push(format!("walls {}", say(wall)));
        }
        let rails = [
            ("front rail", cabinet.front_rail),
            ("back rail", cabinet.back_rail),
        ];
        parts.extend(
            rails
                .into_iter()
                .filter(|(_, size)| *size != Length::ZERO)
                .map(|(word, size)| format!("{word} {}", say(size))),
        );
        let known = [
            ("left", cabinet.left),
            ("overhang", cabinet.overhang),
            ("deep", cabinet.depth),
        ];
        parts.extend(
            known
                .into_iter()
                .filter_map(|(word, size)| Some(format!("{word} {}", say(size?)))),
        );
    }
    parts.join(", ")
}
