//! Refusing openings that are not for what they are said to be, and sinks whose figures cannot be.

use super::check::{LEAST, positive};
use super::error::ShapeError;
use super::fitting::{Purpose, Reveal, Sink};
use super::opening::{Opening, OpeningKind};
use crate::units::Length;

/// What an opening is for must go with its form, and the figures that come with it must make sense.
pub(super) fn check_fitting(opening: &Opening) -> Result<(), ShapeError> {
    let name = opening.name();
    let hole = matches!(opening.what, OpeningKind::Hole { .. });
    let wrong = |cure| {
        let purpose = opening.purpose.word();
        Err(ShapeError::WrongPurpose {
            opening: name,
            purpose,
            cure,
        })
    };
    match opening.purpose {
        Purpose::Sink(_) | Purpose::Cooktop if hole => wrong("enter it as a cutout"),
        Purpose::Faucet | Purpose::Accessory | Purpose::Cable if !hole => {
            wrong("enter it as a hole")
        }
        Purpose::Sink(sink) => check_sink(opening, &sink),
        _ => Ok(()),
    }
}

fn check_sink(opening: &Opening, sink: &Sink) -> Result<(), ShapeError> {
    let name = opening.name();
    let of = |what: &str| format!("{what} of {name}");
    if let Some(reveal) = sink.mount.reveal() {
        if let Reveal::Positive(by) | Reveal::Negative(by) = reveal {
            positive(&of("reveal"), by)?;
        }
        if let (
            Some((width, depth)),
            OpeningKind::Cutout {
                width: w, depth: d, ..
            },
        ) = (opening.bowl(), opening.what)
            && (width < LEAST || depth < LEAST)
        {
            return Err(ShapeError::RevealOver {
                opening: name,
                reveal: reveal.beyond(),
                across: w.min(d),
            });
        }
    }
    if let Some((width, depth)) = sink.overall {
        positive(&of("overall width"), width)?;
        positive(&of("overall depth"), depth)?;
    }
    if let Some(wall) = sink.wall {
        positive(&of("wall of the sink"), wall)?;
    }
    let Some(cabinet) = sink.cabinet else {
        return Ok(());
    };
    for (what, given) in cabinet.sizes() {
        positive(&format!("{what} under {name}"), given)?;
    }
    for (what, given) in cabinet.distances() {
        if given < Length::ZERO {
            let what = format!("{what} under {name}");
            return Err(ShapeError::Negative { what, given });
        }
    }
    if cabinet.inside() <= Length::ZERO {
        return Err(ShapeError::CabinetWalls {
            opening: name,
            width: cabinet.width,
            wall: cabinet.wall,
        });
    }
    Ok(())
}
