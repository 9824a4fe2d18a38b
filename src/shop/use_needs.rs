//! What pieces still take: remaining coats by face, ground and product, at the rates in use.

use super::event::CoatKind;
use super::id::JobId;
use super::piece::PieceFile;
use super::ticket::Ticket;
use super::use_book::{UseRules, yours};
use super::use_rates::{RateBasis, RateBook};
use crate::coating::rates::{Ground, Method};
use crate::coating::{Product, ProductId};
use crate::units::{Area, Volume};
use std::collections::{BTreeMap, BTreeSet};

/// What stands behind the rates of an amount, ground by ground.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Bases(pub BTreeSet<(Ground, RateBasis)>);

/// `label and yours from 1 to 3 passes`: of several woods the fewest and the most.
fn said(bases: &BTreeSet<RateBasis>) -> String {
    let mut words = Vec::new();
    if bases.contains(&RateBasis::Label) {
        words.push(RateBasis::Label.words());
    }
    let counts = |of: fn(RateBasis) -> Option<usize>| -> Option<(usize, usize)> {
        let all = || bases.iter().filter_map(|basis| of(*basis));
        all().min().zip(all().max())
    };
    let own = counts(|basis| match basis {
        RateBasis::Yours { passes } => Some(passes),
        _ => None,
    });
    let others = counts(|basis| match basis {
        RateBasis::YoursOnOthers { passes } => Some(passes),
        _ => None,
    });
    for (span, on) in [(own, ""), (others, " on other woods")] {
        match span {
            Some((few, many)) if few == many => words.push(format!("{}{on}", yours(many))),
            Some((few, many)) => words.push(format!("yours from {few} to {many} passes{on}")),
            None => {}
        }
    }
    words.join(" and ")
}

impl Bases {
    /// `yours from 6 passes`; where grounds differ, each is named.
    pub fn words(&self) -> String {
        let of = |ground: Ground| -> BTreeSet<RateBasis> {
            let of = self.0.iter().filter(|(other, _)| *other == ground);
            of.map(|(_, basis)| *basis).collect()
        };
        let (bare, later) = (of(Ground::BareWood), of(Ground::Later));
        match (bare.is_empty(), later.is_empty()) {
            (true, _) => said(&later),
            (_, true) => said(&bare),
            _ if bare == later => said(&bare),
            _ => format!("bare wood {}, later coats {}", said(&bare), said(&later)),
        }
    }

    /// Whether any of it is the shop's own.
    pub fn is_own(&self) -> bool {
        self.0.iter().any(|(_, basis)| *basis != RateBasis::Label)
    }
}

/// Area to coat, every coat counted, split by what it lies on.
pub(super) type ByGround = BTreeMap<Ground, f64>;

/// Coats of each kind on each ground, in square metres times coats: of the whole schedule, or of
/// what is still to come. On a face, the first coat of all goes on bare wood, the others on it.
pub(super) fn coats_of(ticket: &Ticket, kind: CoatKind, only_to_come: bool) -> ByGround {
    let mut out = ByGround::new();
    for face in &ticket.faces {
        let mut bare = !only_to_come || face.coats.is_empty();
        for each in CoatKind::ALL {
            let asked = if face.is_exposed() || only_to_come {
                ticket.asked(face, each)
            } else {
                // Hidden: it asks for no more than it carries already.
                face.count(each)
            };
            let coats = if only_to_come {
                asked.saturating_sub(face.count(each))
            } else {
                asked
            };
            let first = u8::from(bare && coats > 0);
            bare &= coats == 0;
            if each != kind {
                continue;
            }
            for (ground, coats) in [(Ground::BareWood, first), (Ground::Later, coats - first)] {
                if coats > 0 {
                    *out.entry(ground).or_default() += face.area.m2() * f64::from(coats);
                }
            }
        }
    }
    out.retain(|_, m2| *m2 > 0.0);
    out
}

/// The volume for these areas of one wood, and what stands behind the rates. `rules` are what the
/// label's rate is cut by; without them it counts as printed.
pub(super) fn volume_of(
    areas: &ByGround,
    product: &Product,
    species: &str,
    rates: &RateBook,
    rules: Option<&UseRules>,
) -> (Volume, Bases) {
    let method = rates.method_for(product);
    let mut bases = Bases::default();
    // Areas of one rate are taken together, so that nothing is rounded twice.
    let mut by_rate: Vec<(crate::units::SpreadRate, f64)> = Vec::new();
    for (ground, m2) in areas {
        let in_use = rates.rate(product, method, *ground, species);
        bases.0.insert((*ground, in_use.basis));
        let mut rate = in_use.rate;
        if let (RateBasis::Label, Some(rules)) = (in_use.basis, rules) {
            let cut = rate.m2_per_l() * rules.of_label(method, *ground);
            rate = crate::units::SpreadRate::from_m2_per_l(cut).unwrap_or(rate);
        }
        match by_rate.iter_mut().find(|(other, _)| *other == rate) {
            Some((_, sum)) => *sum += m2,
            None => by_rate.push((rate, *m2)),
        }
    }
    let volume = by_rate
        .iter()
        .map(|(rate, m2)| rate.volume_for(Area::from_m2(*m2)))
        .sum();
    (volume, bases)
}

/// What one job still takes of one product in one role.
#[derive(Debug, Clone, PartialEq)]
pub struct Need {
    /// The job.
    pub job: JobId,
    /// Of what.
    pub product: ProductId,
    /// As what.
    pub kind: CoatKind,
    /// Area still to coat, every coat counted.
    pub area: Area,
    /// The volume: at the shop's own rate, which has its losses in it, or at the label's less the
    /// loss and the thirst of bare wood that [`UseRules`] say.
    pub volume: Volume,
    /// What stands behind the rates.
    pub bases: Bases,
    /// How it is put on.
    pub method: Method,
}

/// What is still to come on these pieces, by job, kind and product. Finished pieces ask nothing;
/// wipe-downs are not reckoned, since no schedule says how much they take.
pub fn needs(
    files: &[PieceFile],
    products: &[Product],
    rates: &RateBook,
    rules: &UseRules,
) -> Vec<Need> {
    let mut out: BTreeMap<(JobId, CoatKind, ProductId), Need> = BTreeMap::new();
    for file in files {
        let ticket = Ticket::of(file);
        if ticket.finished.is_some() {
            continue;
        }
        for kind in CoatKind::ALL {
            let product = ticket.schedule.product_for(kind);
            let Some(product) = product.and_then(|id| products.iter().find(|p| p.id == id)) else {
                continue;
            };
            let areas = coats_of(&ticket, kind, true);
            if areas.is_empty() {
                continue;
            }
            let species = &file.piece.species;
            let (volume, bases) = volume_of(&areas, product, species, rates, Some(rules));
            let need = out
                .entry((file.piece.job, kind, product.id))
                .or_insert_with(|| Need {
                    job: file.piece.job,
                    product: product.id,
                    kind,
                    area: Area::ZERO,
                    volume: Volume::ZERO,
                    bases: Bases::default(),
                    method: rates.method_for(product),
                });
            need.area += Area::from_m2(areas.values().sum());
            need.volume += volume;
            need.bases.0.extend(bases.0);
        }
    }
    out.into_values().collect()
}
