//! Refusing openings that are not for what they are said to be, and sinks whose figures cannot be.

use super::check::{LEAST, positive};
use super::error::ShapeError;
use super::fitting::{Mount, Purpose, Reveal, Sink};
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
    if let Some(wall) = sink.wall {
        positive(&of("wall of the sink"), wall)?;
    }
    if let Some((width, depth)) = sink.overall {
        positive(&of("overall width"), width)?;
        positive(&of("overall depth"), depth)?;
        overall(opening, sink, [width, depth])?;
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
            wall: cabinet.wall_taken(),
        });
    }
    Ok(())
}

/// The sink's overall size, rim included, against what must lie within it: the bowl with its walls,
/// and the cutout, which the rim of one dropped in covers and that of one below at least reaches.
/// (The front of an apron-front sink is its own.)
fn overall(opening: &Opening, sink: &Sink, overall: [Length; 2]) -> Result<(), ShapeError> {
    let OpeningKind::Cutout { width, depth, .. } = opening.what else {
        return Ok(());
    };
    let walls = sink.wall.unwrap_or(Length::ZERO) * 2;
    let apron = opening.open_front();
    let bowl = opening.bowl();
    let bowl = [
        bowl.map(|(wide, _)| wide + walls),
        bowl.map(|(_, deep)| if apron { deep } else { deep + walls }),
    ];
    let cut = [Some(width), (!apron).then_some(depth)];
    for (at, way) in ["wide", "deep"].into_iter().enumerate() {
        let under = |within, least| ShapeError::OverallUnder {
            opening: opening.name(),
            way,
            overall: overall[at],
            within,
            least,
        };
        if let Some(least) = bowl[at].filter(|bowl| overall[at] < *bowl) {
            let within = if sink.wall.is_some() {
                "its bowl with the walls"
            } else {
                "its bowl"
            };
            return Err(under(within, least));
        }
        let falls = |cut: &Length| {
            overall[at] < *cut || (sink.mount == Mount::DropIn && overall[at] == *cut)
        };
        if let Some(least) = cut[at].filter(falls) {
            return Err(under("the cutout, which its rim must reach past,", least));
        }
    }
    Ok(())
}
