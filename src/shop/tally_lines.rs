//! What each pass used on each piece, with what it cost: the lines every tally is added up from.

use super::can_fold::CanBook;
use super::can_money::split_money;
use super::event::{CoatKind, What};
use super::id::{JobId, PassId, PieceId};
use super::pass::Pass;
use super::piece::PieceFile;
use crate::coating::{Method, Product, ProductId};
use crate::shape::FaceKey;
use crate::units::{Area, Money, Volume};
use chrono::{DateTime, Utc};
use std::collections::HashMap;

/// One piece's part of one pass.
#[derive(Debug, Clone, PartialEq)]
pub struct UseLine {
    /// The piece.
    pub piece: PieceId,
    /// Its job.
    pub job: JobId,
    /// The pass.
    pub pass: PassId,
    /// When it ended.
    pub at: DateTime<Utc>,
    /// What kind of coat.
    pub kind: CoatKind,
    /// Of what.
    pub product: ProductId,
    /// How it was put on.
    pub method: Method,
    /// The faces with their areas.
    pub faces: Vec<(FaceKey, Area)>,
    /// Area coated.
    pub area: Area,
    /// Used.
    pub used: Volume,
    /// Of that, in rag and tray.
    pub lost: Volume,
    /// Whether it was weighed or read off.
    pub measured: bool,
    /// What it cost. The lines of a pass add up to what the pass took out of its cans, to the cent;
    /// where no can is named, to its volume at the product's can price.
    pub cost: Money,
    /// Whether that is from the cans it came from.
    pub from_cans: bool,
    /// The batches, as the cans say them; empty where no can is named or no batch was read.
    pub batches: Vec<String>,
}

impl UseLine {
    /// What is on the wood.
    pub fn on_wood(&self) -> Volume {
        self.used - self.lost
    }
}

/// Every line there is of these pieces, piece by piece in the order of their logs.
pub fn use_lines(
    files: &[PieceFile],
    passes: &[Pass],
    products: &[Product],
    cans: &CanBook,
) -> Vec<UseLine> {
    let by_id: HashMap<PassId, &Pass> = passes.iter().map(|pass| (pass.id, pass)).collect();
    let mut out: Vec<UseLine> = Vec::new();
    let mut of_pass: HashMap<PassId, Vec<usize>> = HashMap::new();
    for file in files {
        for event in &file.events {
            let What::Coat {
                pass,
                kind,
                product: of,
                faces,
                used,
                ..
            } = &event.what
            else {
                continue;
            };
            let whole = by_id.get(pass);
            let product = products.iter().find(|product| product.id == *of);
            let method = match (whole, product) {
                (Some(pass), Some(product)) => pass.method(product),
                (None, Some(product)) => Method::usual(product.family),
                _ => Method::Brushed,
            };
            let on_wood = whole.map_or(*used, |pass| pass.on_wood_of(*used));
            of_pass.entry(*pass).or_default().push(out.len());
            out.push(UseLine {
                piece: file.piece.id,
                job: file.piece.job,
                pass: *pass,
                at: event.at,
                kind: *kind,
                product: *of,
                method,
                faces: faces.clone(),
                area: faces.iter().map(|(_, area)| *area).sum(),
                used: *used,
                lost: *used - on_wood,
                measured: whole.is_some_and(|pass| pass.amount.basis.is_measured()),
                cost: Money::ZERO,
                from_cans: cans.passes.contains_key(pass),
                batches: whole.map_or_else(Vec::new, |pass| batches(pass, cans)),
            });
        }
    }
    for (pass, places) in of_pass {
        let used = |at: &usize| out.get(*at).map_or(Volume::ZERO, |line| line.used);
        let known: Volume = places.iter().map(used).sum();
        let product = places.first().and_then(|at| {
            let line = out.get(*at)?;
            products.iter().find(|product| product.id == line.product)
        });
        let whole = by_id.get(&pass).map_or(known, |pass| pass.amount.volume);
        let cost = match (cans.passes.get(&pass), product) {
            (Some(taken), _) => taken.cost,
            (None, Some(product)) => product.cost_of(whole),
            (None, None) => Money::ZERO,
        };
        let mut weights: Vec<i64> = places.iter().map(|at| used(at).ul()).collect();
        // Pieces of the pass that were not read have their part too.
        weights.push((whole - known).ul().max(0));
        if weights.iter().all(|weight| *weight <= 0) {
            weights.pop();
        }
        for (at, cost) in places.into_iter().zip(split_money(cost, &weights)) {
            if let Some(line) = out.get_mut(at) {
                line.cost = cost;
            }
        }
    }
    settle_losses(&mut out, &by_id);
    out
}

/// Shares of a loss are rounded down; the odd microlitres go to the last line of the pass, so that
/// the lines add up to what was weighed.
fn settle_losses(lines: &mut [UseLine], passes: &HashMap<PassId, &Pass>) {
    let mut sums: HashMap<PassId, (Volume, Volume, usize)> = HashMap::new();
    for (at, line) in lines.iter().enumerate() {
        let sum = sums.entry(line.pass).or_default();
        *sum = (sum.0 + line.used, sum.1 + line.lost, at);
    }
    for (pass, (used, lost, last)) in sums {
        let Some(pass) = passes.get(&pass) else {
            continue;
        };
        if used == pass.amount.volume
            && let Some(line) = lines.get_mut(last)
        {
            line.lost += pass.drawn.lost_volume() - lost;
        }
    }
}

/// The batches a pass drew on, each once.
pub fn batches(pass: &Pass, cans: &CanBook) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for draw in &pass.drawn.draws {
        if let Some(state) = cans.can(draw.can)
            && !state.can.batch.is_empty()
            && !out.contains(&state.can.batch)
        {
            out.push(state.can.batch.clone());
        }
    }
    out
}
