//! What a log leaves on each face, counted in another way than the shop counts it.

use std::collections::{BTreeMap, BTreeSet};

use tackfree::coating::{Product, ProductId, ProductKind};
use tackfree::shape::FaceKey;
use tackfree::shop::{CoatKind, Event, Grit, Schedule, What};

use crate::support::{Back, Band, Field, Front, Left, Right, Top, Underside};

/// The asked grits, seal coats, stain and topcoats of a face, read off the schedule by its place.
fn asked(schedule: &Schedule, face: FaceKey) -> (&[Grit], usize, bool, usize) {
    let plan = match face {
        Top | Front | Back | Band => &schedule.show,
        Underside | Field => &schedule.underside,
        _ => &schedule.end_grain,
    };
    (
        &plan.grits,
        plan.seal_coats.into(),
        plan.stained,
        plan.topcoats.into(),
    )
}

/// The faces the piece has after all these lines, and those of them declared not exposed.
fn faces(first: &[FaceKey], log: &[Event]) -> (BTreeSet<FaceKey>, BTreeSet<FaceKey>) {
    let mut present: BTreeSet<FaceKey> = first.iter().copied().collect();
    let mut hidden = BTreeSet::new();
    for event in log {
        match &event.what {
            What::Reshaped { added, removed } => {
                for key in removed {
                    present.remove(key);
                    hidden.remove(key);
                }
                present.extend(added);
            }
            What::NotExposed { face, .. } => drop(hidden.insert(*face)),
            What::Exposed { face } => drop(hidden.remove(face)),
            _ => {}
        }
    }
    (present, hidden)
}

#[derive(Default)]
struct Carries {
    grits: BTreeSet<Grit>,
    seal: usize,
    top: usize,
    stain: usize,
    wiped_off: bool,
    odd: Vec<(CoatKind, Option<ProductKind>)>,
}

/// Reads the log backwards: a line on the face counts if nothing later on the face undid it.
fn carries(products: &[Product], face: FaceKey, log: &[Event]) -> Carries {
    let kind_of = |id: &ProductId| products.iter().find(|p| p.id == *id).map(|p| p.kind);
    let mut out = Carries::default();
    // Grits from this one up were taken back later on; coats, if it was a sand-back.
    let mut below: Option<Grit> = None;
    let mut sanded_later = false;
    let lower = |below: Option<Grit>, to: Grit| Some(below.map_or(to, |below| below.min(to)));
    for event in log.iter().rev() {
        match &event.what {
            What::Reshaped { added, .. } if added.contains(&face) => break,
            What::SandBack { faces, to, .. } if faces.contains(&face) => {
                if below.is_none_or(|below| *to < below) {
                    out.grits.insert(*to);
                }
                below = lower(below, *to);
                sanded_later = true;
            }
            What::Untick { face: on, grit } if *on == face => below = lower(below, *grit),
            What::Tick { face: on, grit }
                if *on == face && below.is_none_or(|below| *grit < below) =>
            {
                out.grits.insert(*grit);
            }
            What::WipeOff { faces } if faces.contains(&face) && !sanded_later => {
                // After the last stain, which backwards is not met yet.
                out.wiped_off |= out.stain == 0;
            }
            What::Coat {
                kind,
                product,
                faces,
                ..
            } if faces.iter().any(|(on, _)| *on == face) && !sanded_later => {
                match (kind, kind_of(product)) {
                    (CoatKind::Seal, Some(ProductKind::Sealer | ProductKind::Topcoat)) => {
                        out.seal += 1;
                    }
                    (CoatKind::Topcoat, Some(ProductKind::Topcoat)) => out.top += 1,
                    (CoatKind::Stain, Some(ProductKind::Stain)) => out.stain += 1,
                    (kind, product) => out.odd.push((*kind, product)),
                }
            }
            _ => {}
        }
    }
    out
}

/// What is wrong with a piece that is set, by its raw log.
pub fn wrong(
    schedule: &Schedule,
    products: &[Product],
    first: &[FaceKey],
    log: &[Event],
) -> Vec<String> {
    let mut wrong = Vec::new();
    let (present, hidden) = faces(first, log);
    let four = [Front, Back, Left, Right]
        .iter()
        .all(|key| present.contains(key));
    let split = present.contains(&Band) && present.contains(&Field);
    if !present.contains(&Top)
        || !(four || present.contains(&FaceKey::Rim))
        || !(split || present.contains(&Underside))
    {
        wrong.push(format!("no whole top: {present:?}"));
    }
    if hidden.contains(&Top) {
        wrong.push("the top is hidden".to_owned());
    }
    let mut film = BTreeMap::new();
    for &face in &present {
        let (grits, seals, stained, tops) = asked(schedule, face);
        let has = carries(products, face, log);
        if let Some(grit) = grits.iter().find(|grit| !has.grits.contains(grit)) {
            wrong.push(format!("{face}: {grit} grit"));
        }
        if has.stain > 0 && !has.wiped_off {
            wrong.push(format!("{face}: stain not wiped off"));
        }
        for odd in &has.odd {
            wrong.push(format!("{face}: {odd:?}"));
        }
        if hidden.contains(&face) {
            continue;
        }
        let coats = has.seal + has.top;
        film.insert(face, coats);
        if has.seal < seals || has.top < tops || (stained && has.stain == 0) || coats == 0 {
            wrong.push(format!(
                "{face}: {} seal, {} stain, {} top",
                has.seal, has.stain, has.top
            ));
        }
    }
    let above = film.get(&Top).copied().unwrap_or(0);
    for face in [Underside, Band, Field] {
        if let Some(below) = film.get(&face)
            && above.abs_diff(*below) > usize::from(schedule.balance_allowance)
        {
            wrong.push(format!("{face}: {below} against {above}"));
        }
    }
    wrong
}
