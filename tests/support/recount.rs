//! What a log leaves on each face, counted in another way than the shop counts it.

use std::collections::{BTreeMap, BTreeSet};

use tackfree::coating::{Product, ProductId, ProductKind};
use tackfree::shape::FaceKey;
use tackfree::shop::{CoatKind, Event, Grit, Schedule, What};

use crate::support::{Back, Band, Field, Front, Left, Right, Top, Underside};

/// The asked grits, seal coats, stain and topcoats of a face, read off the schedule by its place.
fn asked(schedule: &Schedule, face: FaceKey) -> (Vec<Grit>, usize, bool, usize) {
    let plan = match face {
        Top | Front | Back | Band => &schedule.show,
        Underside | Field => &schedule.underside,
        _ => &schedule.end_grain,
    };
    let (seal, top) = (usize::from(plan.seal_coats), usize::from(plan.topcoats));
    (plan.grits.clone(), seal, plan.stained, top)
}

/// What is wrong with a piece that is set, by its raw log: read backwards, face by face, each line
/// counts only if nothing later on the same face undid it.
pub fn wrong(
    schedule: &Schedule,
    products: &[Product],
    first_faces: &[FaceKey],
    log: &[Event],
) -> Vec<String> {
    let mut wrong = Vec::new();
    let mut present: BTreeSet<FaceKey> = first_faces.iter().copied().collect();
    let mut hidden: BTreeMap<FaceKey, bool> = BTreeMap::new();
    for event in log {
        match &event.what {
            What::Reshaped { added, removed } => {
                for key in removed {
                    present.remove(key);
                    hidden.remove(key);
                }
                present.extend(added);
            }
            What::NotExposed { face, .. } => drop(hidden.insert(*face, true)),
            What::Exposed { face } => drop(hidden.insert(*face, false)),
            _ => {}
        }
    }
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
    let kind_of = |id: &ProductId| {
        products
            .iter()
            .find(|product| product.id == *id)
            .map(|product| product.kind)
    };
    let mut film = BTreeMap::new();
    for &face in &present {
        let (grits, seals, stained, tops) = asked(schedule, face);
        // Backwards to the last line that made the face bare.
        let (mut seal, mut top, mut stain, mut wiped_off) = (0, 0, 0, false);
        let (mut only_below, mut have) = (None::<Grit>, BTreeSet::new());
        let mut bare_from_here = false;
        for event in log.iter().rev() {
            match &event.what {
                What::Reshaped { added, .. } if added.contains(&face) => break,
                What::SandBack { faces, to, .. } if faces.contains(&face) => {
                    if only_below.is_none_or(|below| *to < below) {
                        have.insert(*to);
                    }
                    only_below = Some(only_below.map_or(*to, |below| below.min(*to)));
                    bare_from_here = true;
                }
                What::Untick { face: at, grit } if *at == face => {
                    only_below = Some(only_below.map_or(*grit, |below| below.min(*grit)));
                }
                What::Tick { face: at, grit } if *at == face => {
                    if only_below.is_none_or(|below| *grit < below) {
                        have.insert(*grit);
                    }
                }
                What::WipeOff { faces } if faces.contains(&face) && !bare_from_here => {
                    wiped_off |= stain == 0;
                }
                What::Coat {
                    kind,
                    product,
                    faces,
                    ..
                } if faces.iter().any(|(at, _)| *at == face) && !bare_from_here => {
                    match (kind, kind_of(product)) {
                        (CoatKind::Seal, Some(ProductKind::Sealer | ProductKind::Topcoat)) => {
                            seal += 1;
                        }
                        (CoatKind::Topcoat, Some(ProductKind::Topcoat)) => top += 1,
                        (CoatKind::Stain, Some(ProductKind::Stain)) => stain += 1,
                        odd => wrong.push(format!("{face}: {odd:?}")),
                    }
                }
                _ => {}
            }
        }
        if let Some(grit) = grits.iter().find(|grit| !have.contains(grit)) {
            wrong.push(format!("{face}: {grit} grit"));
        }
        if stain > 0 && !wiped_off {
            wrong.push(format!("{face}: stain not wiped off"));
        }
        if hidden.get(&face) == Some(&true) {
            if face == Top {
                wrong.push("the top is hidden".to_owned());
            }
            continue;
        }
        film.insert(face, seal + top);
        if seal < seals || top < tops || (stained && stain == 0) || seal + top == 0 {
            wrong.push(format!("{face}: {seal} seal, {stain} stain, {top} top"));
        }
    }
    let above = film.get(&Top).copied().unwrap_or(0_usize);
    for face in [Underside, Band, Field] {
        let Some(below) = film.get(&face) else {
            continue;
        };
        if above.abs_diff(*below) > usize::from(schedule.balance_allowance) {
            wrong.push(format!("{face}: {below} against {above}"));
        }
    }
    wrong
}
