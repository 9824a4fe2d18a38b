//! `log.csv`: one line an event. Read here as written; whether it may stand is for the replay.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::{Ring, word};
use super::meaning::{self, face_codes, faces, means_word};
use super::passes;
use super::table::{Line, Table};
use super::text::LINE_MOST;
use super::times;
use super::words;
use crate::shape::FaceKey;
use crate::shop::{Event, Grit, PieceId, ScuffMeans, SetItem, Stage, TouchVerdict, What};
use crate::units::{Area, Volume};
use chrono::{DateTime, Utc};

pub(super) const LOG: &[&str] = &[
    "id", "piece", "at", "what", "faces", "grit", "pass", "areas_m2", "used", "means", "found",
    "reason", "removed", "from", "to", "item",
];

pub(super) const FILE: &str = "log.csv";

/// Each sort of line with the columns that have a meaning for it.
const SORTS: &[(&str, &[&str])] = &[
    ("tick", &["faces", "grit"]),
    ("untick", &["faces", "grit"]),
    ("wipe", &["faces"]),
    ("coat", &["faces", "pass", "areas_m2", "used"]),
    ("wipe-off", &["faces"]),
    ("scuff", &["faces", "means"]),
    ("touch", &["faces", "found"]),
    ("sand-back", &["faces", "grit", "reason"]),
    ("not-exposed", &["faces", "reason"]),
    ("exposed", &["faces"]),
    ("reshape", &["faces", "removed"]),
    ("move", &["from", "to"]),
    ("set-tick", &["item"]),
    ("set-untick", &["item"]),
];

/// Which faces a line means.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Faces {
    /// Those the schedule asks for next.
    Due,
    /// Every one the piece has.
    All,
    /// These.
    These(Vec<FaceKey>),
}

/// What a line says was done.
pub(super) enum Act {
    Tick(Grit),
    Untick(Grit),
    Wipe,
    /// A coat of the pass at this place in the list.
    Coat {
        pass: usize,
        areas: Option<Vec<Area>>,
        used: Option<Volume>,
    },
    WipeOff,
    Scuff(ScuffMeans),
    Touch(TouchVerdict),
    SandBack {
        to: Grit,
        reason: String,
    },
    NotExposed {
        reason: String,
    },
    Exposed,
    Reshaped {
        removed: Vec<FaceKey>,
    },
    Moved {
        from: Option<Stage>,
        to: Stage,
    },
    SetList {
        item: SetItem,
        done: bool,
    },
}

/// One line as written.
pub(super) struct Entry {
    pub(super) line: u64,
    pub(super) key: String,
    pub(super) at: DateTime<Utc>,
    pub(super) faces: Faces,
    pub(super) act: Act,
}

/// Reads the log and hands each line out with the piece it belongs to.
pub(super) fn read(
    reading: &mut Reading<'_>,
    pieces: &Ring<PieceId>,
    pass_ring: &Ring<usize>,
    passes: &[passes::Read],
    mut take: impl FnMut(PieceId, Entry),
) -> Result<(), FilesError> {
    Table::open(&reading.source, FILE, LOG)?.each(|line| {
        let piece = line.must("piece", "write the id of the piece", |key| {
            pieces.find(key).map_err(|fault| fault.to_string())
        })?;
        let key = line.maybe("id", word)?.unwrap_or_default();
        let sort = line.cell("what");
        let Some((sort, meant)) = SORTS.iter().find(|(name, _)| *name == sort) else {
            let known: Vec<&str> = SORTS.iter().map(|(name, _)| *name).collect();
            let sort = super::table::short(sort);
            return Err(line.bad(
                "what",
                &format!("\"{sort}\" is not one of {}.", known.join(", ")),
            ));
        };
        let rest: Vec<&'static str> = LOG[4..]
            .iter()
            .copied()
            .filter(|column| !meant.contains(column))
            .collect();
        line.nothing_in(&rest, sort)?;
        let act = act(reading, line, sort, pass_ring)?;
        let (now, zone) = (reading.now, reading.zone);
        let at = line.maybe("at", |text| times::read_moment(text, now, zone))?;
        let ended = match &act {
            Act::Coat { pass, .. } => passes.get(*pass).map(|read| read.pass.ended),
            _ => None,
        };
        let at = match (at, ended) {
            (Some(at), Some(ended)) if at != ended => {
                let why = format!(
                    "a coat is logged at the end of its pass, {}.",
                    times::moment(ended)
                );
                return Err(line.bad("at", &why));
            }
            (Some(at), _) | (None, Some(at)) => at,
            (None, None) => {
                let cure = "write a time like 2026-11-20T14:00:00.000Z".to_owned();
                return Err(line.fail(Fault::Empty { what: "at", cure }));
            }
        };
        let faces = match line.cell("faces") {
            "due" => Faces::Due,
            "all" => Faces::All,
            codes => Faces::These(faces(codes).map_err(|why| line.bad("faces", &why))?),
        };
        take(
            piece,
            Entry {
                line: line.no,
                key,
                at,
                faces,
                act,
            },
        );
        Ok(())
    })
}

fn act(
    reading: &mut Reading<'_>,
    line: &Line<'_>,
    sort: &str,
    passes: &Ring<usize>,
) -> Result<Act, FilesError> {
    let grit = || line.must("grit", "write the number on the paper", meaning::grit);
    let mut reason = || line.line("reason", LINE_MOST, &mut reading.notes);
    Ok(match sort {
        "tick" => Act::Tick(grit()?),
        "untick" => Act::Untick(grit()?),
        "wipe" => Act::Wipe,
        "coat" => Act::Coat {
            pass: line.must("pass", "write the id of the pass", |key| {
                passes.find(key).map_err(|fault| fault.to_string())
            })?,
            areas: line.maybe("areas_m2", areas)?,
            used: line.maybe("used", words::read_volume)?,
        },
        "wipe-off" => Act::WipeOff,
        "scuff" => {
            Act::Scuff(line.must("means", "write with what, like brown-paper", meaning::means)?)
        }
        "touch" => Act::Touch(line.must(
            "found",
            "write what it found, like tack-free",
            meaning::verdict,
        )?),
        "sand-back" => Act::SandBack {
            to: grit()?,
            reason: reason()?,
        },
        "not-exposed" => Act::NotExposed { reason: reason()? },
        "exposed" => Act::Exposed,
        "reshape" => Act::Reshaped {
            removed: line.maybe("removed", faces)?.unwrap_or_default(),
        },
        "move" => Act::Moved {
            from: line.maybe("from", meaning::stage)?,
            to: line.must("to", "write the stage it went to", meaning::stage)?,
        },
        ticked => Act::SetList {
            item: line.must("item", "write which, like dry-fit", meaning::set_item)?,
            done: ticked == "set-tick",
        },
    })
}

fn areas(text: &str) -> Result<Vec<Area>, String> {
    let one = |part| {
        words::read_area(part).ok_or_else(|| {
            let part = super::table::short(part);
            format!("\"{part}\" is no area; write square metres above nothing, like 1.618504.")
        })
    };
    text.split_whitespace().map(one).collect()
}

/// An event's cells.
pub(super) fn event_row(piece: PieceId, event: &Event) -> Vec<String> {
    let mut row = vec![String::new(); LOG.len()];
    let mut set = |column: &str, cell: String| {
        if let Some(at) = LOG.iter().position(|name| *name == column) {
            row[at] = cell;
        }
    };
    set("id", event.id.to_string());
    set("piece", piece.to_string());
    set("at", times::moment(event.at));
    let sort = match &event.what {
        What::Tick { face, grit } => {
            set("faces", face.code());
            set("grit", grit.to_string());
            "tick"
        }
        What::Untick { face, grit } => {
            set("faces", face.code());
            set("grit", grit.to_string());
            "untick"
        }
        What::Wipe { faces } => {
            set("faces", face_codes(faces));
            "wipe"
        }
        What::Coat {
            pass, faces, used, ..
        } => {
            set("faces", face_codes(faces.iter().map(|(key, _)| key)));
            let areas: Vec<String> = faces.iter().map(|(_, area)| words::area(*area)).collect();
            set("areas_m2", areas.join(" "));
            set("pass", pass.to_string());
            set("used", words::volume(*used));
            "coat"
        }
        What::WipeOff { faces } => {
            set("faces", face_codes(faces));
            "wipe-off"
        }
        What::Scuff { faces, means } => {
            set("faces", face_codes(faces));
            set("means", means_word(*means));
            "scuff"
        }
        What::Touch { faces, verdict } => {
            set("faces", face_codes(faces));
            set("found", verdict.code().to_owned());
            "touch"
        }
        What::SandBack { faces, to, reason } => {
            set("faces", face_codes(faces));
            set("grit", to.to_string());
            set("reason", reason.clone());
            "sand-back"
        }
        What::NotExposed { face, reason } => {
            set("faces", face.code());
            set("reason", reason.clone());
            "not-exposed"
        }
        What::Exposed { face } => {
            set("faces", face.code());
            "exposed"
        }
        What::Reshaped { added, removed } => {
            set("faces", face_codes(added));
            set("removed", face_codes(removed));
            "reshape"
        }
        What::Moved { from, to } => {
            set("from", from.word().to_owned());
            set("to", to.word().to_owned());
            "move"
        }
        What::SetList { item, done } => {
            set("item", item.code().to_owned());
            if *done { "set-tick" } else { "set-untick" }
        }
    };
    set("what", sort.to_owned());
    row
}
