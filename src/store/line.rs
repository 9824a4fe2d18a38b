//! A log line taken apart into the columns of its row, and put together again.

use crate::coating::ProductId;
use crate::shape::FaceKey;
use crate::shop::{CoatKind, Grit, PassId, ScuffMeans, SetItem, Stage, TouchVerdict, What};
use crate::units::{Area, Volume};
use chrono::{DateTime, Utc};

/// The columns of a log line; which are filled follows from its kind.
#[derive(Default)]
pub(super) struct Line {
    pub grit: Option<u16>,
    pub pass: Option<PassId>,
    pub coat: Option<CoatKind>,
    pub product: Option<ProductId>,
    pub started: Option<DateTime<Utc>>,
    pub used: Option<i64>,
    pub means: Option<String>,
    pub verdict: Option<TouchVerdict>,
    pub reason: Option<String>,
    pub from: Option<Stage>,
    pub to: Option<Stage>,
    pub item: Option<SetItem>,
    pub done: Option<bool>,
}

/// One face of a log line.
#[derive(Debug, Clone, Copy)]
pub(super) struct LineFace {
    pub face: FaceKey,
    pub area: Option<i64>,
    pub gone: bool,
}

/// What a line says; none if a column it needs is empty.
pub(super) fn what(kind: &str, line: Line, of: &[LineFace]) -> Option<What> {
    let keys = || of.iter().map(|face| face.face).collect::<Vec<_>>();
    let one = || of.first().map(|face| face.face);
    let grit = line.grit.map(Grit);
    Some(match kind {
        "tick" => What::Tick {
            face: one()?,
            grit: grit?,
        },
        "untick" => What::Untick {
            face: one()?,
            grit: grit?,
        },
        "wipe" => What::Wipe { faces: keys() },
        "coat" => What::Coat {
            pass: line.pass?,
            kind: line.coat?,
            product: line.product?,
            faces: of
                .iter()
                .map(|face| Some((face.face, Area::from_um2(face.area?))))
                .collect::<Option<_>>()?,
            started: line.started?,
            used: Volume::from_ul(line.used?),
        },
        "wipe-off" => What::WipeOff { faces: keys() },
        "scuff" => What::Scuff {
            faces: keys(),
            means: means(&line.means?, grit)?,
        },
        "touch" => What::Touch {
            faces: keys(),
            verdict: line.verdict?,
        },
        "sand-back" => What::SandBack {
            faces: keys(),
            to: grit?,
            reason: line.reason?,
        },
        "not-exposed" => What::NotExposed {
            face: one()?,
            reason: line.reason?,
        },
        "exposed" => What::Exposed { face: one()? },
        "reshaped" => What::Reshaped {
            added: of
                .iter()
                .filter(|face| !face.gone)
                .map(|face| face.face)
                .collect(),
            removed: of
                .iter()
                .filter(|face| face.gone)
                .map(|face| face.face)
                .collect(),
        },
        "moved" => What::Moved {
            from: line.from?,
            to: line.to?,
        },
        "set-list" => What::SetList {
            item: line.item?,
            done: line.done?,
        },
        _ => return None,
    })
}

fn means(word: &str, grit: Option<Grit>) -> Option<ScuffMeans> {
    match (word, grit) {
        ("fine-paper", Some(grit)) => Some(ScuffMeans::FinePaper(grit)),
        ("pad", None) => Some(ScuffMeans::Pad),
        ("brown-paper", None) => Some(ScuffMeans::BrownPaper),
        _ => None,
    }
}

/// A line taken apart: its kind, its columns, its faces.
pub(super) fn apart(what: &What) -> (&'static str, Line, Vec<LineFace>) {
    let (kind, line) = columns(what);
    (kind, line, faces(what))
}

fn columns(what: &What) -> (&'static str, Line) {
    let none = Line::default();
    match what {
        What::Tick { grit, .. } => (
            "tick",
            Line {
                grit: Some(grit.0),
                ..none
            },
        ),
        What::Untick { grit, .. } => (
            "untick",
            Line {
                grit: Some(grit.0),
                ..none
            },
        ),
        What::Wipe { .. } => ("wipe", none),
        What::Coat {
            pass,
            kind,
            product,
            started,
            used,
            ..
        } => {
            let line = Line {
                pass: Some(*pass),
                coat: Some(*kind),
                product: Some(*product),
                started: Some(*started),
                used: Some(used.ul()),
                ..none
            };
            ("coat", line)
        }
        What::WipeOff { .. } => ("wipe-off", none),
        What::Scuff { means, .. } => {
            let (word, grit) = match means {
                ScuffMeans::FinePaper(grit) => ("fine-paper", Some(grit.0)),
                ScuffMeans::Pad => ("pad", None),
                ScuffMeans::BrownPaper => ("brown-paper", None),
            };
            (
                "scuff",
                Line {
                    means: Some(word.to_owned()),
                    grit,
                    ..none
                },
            )
        }
        What::Touch { verdict, .. } => (
            "touch",
            Line {
                verdict: Some(*verdict),
                ..none
            },
        ),
        What::SandBack { to, reason, .. } => (
            "sand-back",
            Line {
                grit: Some(to.0),
                reason: Some(reason.clone()),
                ..none
            },
        ),
        What::NotExposed { reason, .. } => (
            "not-exposed",
            Line {
                reason: Some(reason.clone()),
                ..none
            },
        ),
        What::Exposed { .. } => ("exposed", none),
        What::Reshaped { .. } => ("reshaped", none),
        What::Moved { from, to } => (
            "moved",
            Line {
                from: Some(*from),
                to: Some(*to),
                ..none
            },
        ),
        What::SetList { item, done } => (
            "set-list",
            Line {
                item: Some(*item),
                done: Some(*done),
                ..none
            },
        ),
    }
}

fn faces(what: &What) -> Vec<LineFace> {
    let plain = |face: &FaceKey| LineFace {
        face: *face,
        area: None,
        gone: false,
    };
    match what {
        What::Tick { face, .. }
        | What::Untick { face, .. }
        | What::NotExposed { face, .. }
        | What::Exposed { face } => vec![plain(face)],
        What::Wipe { faces }
        | What::WipeOff { faces }
        | What::Scuff { faces, .. }
        | What::Touch { faces, .. }
        | What::SandBack { faces, .. } => faces.iter().map(plain).collect(),
        What::Coat { faces, .. } => faces
            .iter()
            .map(|(face, area)| LineFace {
                area: Some(area.um2()),
                ..plain(face)
            })
            .collect(),
        What::Reshaped { added, removed } => {
            let gone = |face: &FaceKey| LineFace {
                gone: true,
                ..plain(face)
            };
            added
                .iter()
                .map(plain)
                .chain(removed.iter().map(gone))
                .collect()
        }
        What::Moved { .. } | What::SetList { .. } => Vec::new(),
    }
}
