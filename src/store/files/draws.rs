//! `draws.csv`: what passes drew from which can.

use super::cans::Cans;
use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::Ring;
use super::passes;
use super::wood::maybe;
use super::words;
use crate::shop::{AmountBasis, CanId, Draw, Pass, Weights};
use crate::units::Volume;
use std::collections::HashMap;

pub(super) const FILE: &str = "draws.csv";

pub(super) const DRAWS: &[&str] = &["pass", "can", "volume", "before", "after"];

/// Reads what passes drew, into the passes; they are settled already.
pub(super) fn read(
    reading: &mut Reading<'_>,
    cans: &Cans,
    ring: &Ring<CanId>,
    pass_ring: &Ring<usize>,
    passes: &mut [passes::Read],
) -> Result<(), FilesError> {
    let Some(table) = maybe(reading, FILE, DRAWS)? else {
        return Ok(());
    };
    let mut last: HashMap<usize, u64> = HashMap::new();
    let mut open: Vec<(usize, u64)> = Vec::new();
    table.each(|line| {
        let place = line.must("pass", "write the id of the pass", |key| {
            pass_ring.find(key).map_err(|fault| fault.to_string())
        })?;
        let can = line.must("can", "write the id of the can", |key| {
            ring.find(key).map_err(|fault| fault.to_string())
        })?;
        let Some(read) = passes.get_mut(place) else {
            return Err(line.bad("pass", "there is no such pass."));
        };
        let pass = &mut read.pass;
        let product = cans
            .cans
            .iter()
            .find(|known| known.id == can)
            .map(|can| can.product);
        if product != Some(pass.product) {
            return Err(line.bad("can", "it holds another product than the pass."));
        }
        if pass.drawn.draws.iter().any(|draw| draw.can == can) {
            return Err(line.bad("can", "it stands twice with this pass."));
        }
        let before = line.maybe("before", words::read_mass)?;
        let after = line.maybe("after", words::read_mass)?;
        let volume = line.maybe("volume", words::read_volume)?;
        let weights = match (before, after) {
            (None, None) => None,
            (Some(before), Some(after)) if before >= after => Some(Weights { before, after }),
            (Some(_), Some(_)) => {
                let why = "the can weighs more after than before; swap the two.";
                return Err(line.bad("after", why));
            }
            _ => return Err(line.bad("before", "write both weights, or neither.")),
        };
        if volume.is_none() {
            open.push((place, line.no));
        }
        pass.drawn.draws.push(Draw {
            can,
            volume: volume.unwrap_or(Volume::ZERO),
            weights,
        });
        last.insert(place, line.no);
        Ok(())
    })?;
    for (place, no) in open {
        if let Some(read) = passes.get_mut(place) {
            whole(&mut read.pass).map_err(|fault| fault.at(FILE, no))?;
        }
    }
    for (place, no) in last {
        let Some(pass) = passes.get(place).map(|read| &read.pass) else {
            continue;
        };
        let sum: Volume = pass.drawn.draws.iter().map(|draw| draw.volume).sum();
        if sum != pass.amount.volume {
            let why = format!(
                "what came from the cans ({}) is not what the pass used ({}).",
                words::volume(sum),
                words::volume(pass.amount.volume)
            );
            return Err(Fault::Value {
                what: "volume",
                why,
            }
            .at(FILE, no));
        }
    }
    Ok(())
}

/// A draw without a volume took all that its pass used, and was weighed as the pass was.
fn whole(pass: &mut Pass) -> Result<(), Fault> {
    let (volume, basis) = (pass.amount.volume, pass.amount.basis);
    let [draw] = pass.drawn.draws.as_mut_slice() else {
        let cure = "a pass from several cans says how much came from each".to_owned();
        return Err(Fault::Empty {
            what: "volume",
            cure,
        });
    };
    draw.volume = volume;
    if let (AmountBasis::Weighed { before, after }, None) = (basis, draw.weights) {
        draw.weights = Some(Weights { before, after });
    }
    Ok(())
}

/// The rows of what a pass drew.
pub(super) fn draw_rows(pass: &Pass) -> Vec<Vec<String>> {
    let row = |draw: &Draw| {
        let weight = |of: fn(Weights) -> crate::units::Mass| {
            draw.weights
                .map_or_else(String::new, |weights| words::mass(of(weights)))
        };
        vec![
            pass.id.to_string(),
            draw.can.to_string(),
            words::volume(draw.volume),
            weight(|weights| weights.before),
            weight(|weights| weights.after),
        ]
    };
    pass.drawn.draws.iter().map(row).collect()
}
