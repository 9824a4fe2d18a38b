//! What came is what is on the wood, in rags, in jars, lost, thrown away, found missing and on the
//! shelf: to the microlitre and to the cent, after any sequence of what can be done.

use crate::rig::{Shelf, grams, ml};
use crate::shop::ZONE;
use proptest::prelude::*;
use tackfree::coating::ProductId;
use tackfree::desk::{
    Action, AmountDraft, CanAction, CanPick, CanTake, DrawnDraft, MixDraft, MixPart, Shop,
};
use tackfree::shop::{
    Came, CanBook, CanId, GroupKey, JarFor, Qty, TallyBy, TallyOf, tally_by, use_lines,
};
use tackfree::units::{Money, Volume};

/// Counted from the shop's records alone, per product.
fn balanced(shop: &Shop) {
    let lines = use_lines(&shop.files, &shop.passes, &shop.products, &shop.cans);
    for product in &shop.products {
        balanced_product(shop, product.id, &lines);
    }
    let groups = |by| {
        let of = TallyOf {
            files: &shop.files,
            jobs: &shop.jobs,
            passes: &shop.passes,
            products: &shop.products,
            cans: &shop.cans,
            rates: &shop.rates,
            zone: ZONE,
        };
        tally_by(&of, by)
    };
    // However it is added up, it is the same money and the same volume.
    let all = |by| -> (Money, Volume, Volume) {
        let mut sum = (Money::ZERO, Volume::ZERO, Volume::ZERO);
        for group in groups(by) {
            for row in &group.rows {
                sum = (sum.0 + row.cost, sum.1 + row.used(), sum.2 + row.lost);
            }
        }
        sum
    };
    let by_job = all(TallyBy::Job);
    for by in [TallyBy::Client, TallyBy::Product, TallyBy::Month] {
        assert_eq!(all(by), by_job, "{by:?}");
    }
    assert_eq!(by_job.0, lines.iter().map(|line| line.cost).sum::<Money>());
    for group in groups(TallyBy::Product) {
        assert!(matches!(group.key, GroupKey::Product(_)));
    }
}

fn balanced_product(shop: &Shop, product: ProductId, lines: &[tackfree::shop::UseLine]) {
    let cans = || {
        shop.cans
            .cans
            .iter()
            .filter(|state| state.can.product == product)
    };
    let bought = cans().filter(|state| matches!(state.can.came, Came::Bought { .. }));
    let came: Qty = bought.map(|state| state.came).sum();
    let left: Qty = cans().map(|state| state.left).sum();
    let sums = CanBook::sums(cans());
    // What went into mixed cans came out of them again, or is in them.
    let mixed: Qty = cans()
        .filter(|state| matches!(state.can.came, Came::Mixed { .. }))
        .map(|state| state.came)
        .sum();
    assert_eq!(sums.mixed, mixed);
    let gone = sums.on_wood + sums.rag + sums.jars + sums.lost + sums.discarded + sums.found;
    assert_eq!(gone + left, came);
    // What the jobs used of these cans is what left them for the wood and the rags.
    let used = lines
        .iter()
        .filter(|line| line.product == product && line.from_cans);
    let (mut volume, mut lost, mut cost) = (Volume::ZERO, Volume::ZERO, Money::ZERO);
    for line in used {
        volume += line.used;
        lost += line.lost;
        cost += line.cost;
    }
    assert_eq!(volume, sums.on_wood.volume + sums.rag.volume);
    assert_eq!(lost, sums.rag.volume);
    assert_eq!(cost, sums.on_wood.cost + sums.rag.cost);
    for state in cans() {
        assert!(state.left.volume >= Volume::ZERO, "{}", state.can.called());
        assert_eq!(
            state.sums.all() + state.left,
            state.came,
            "{}",
            state.can.called()
        );
    }
}

/// What a person may do next; numbers pick among what there is.
#[derive(Debug, Clone)]
enum Step {
    Receive(u8, i64),
    Weigh(usize, u16),
    Jar(usize, i64),
    Lose(usize, i64),
    Mix(usize, usize, i64),
    Discard(usize),
    Pass(usize, usize, u8, i64),
    PassOfTwo(usize, usize, usize, i64),
    Amend(usize, i64, u8),
    Strike(usize),
    Undo,
    Redo,
}

fn steps() -> impl Strategy<Value = Vec<Step>> {
    let can = 0usize..12;
    let step = prop_oneof![
        2 => (0u8..2, 1i64..9_999).prop_map(|(p, cents)| Step::Receive(p, cents)),
        2 => (can.clone(), 100u16..1_200).prop_map(|(c, g)| Step::Weigh(c, g)),
        1 => (can.clone(), 1i64..200_000).prop_map(|(c, ul)| Step::Jar(c, ul)),
        1 => (can.clone(), 1i64..200_000).prop_map(|(c, ul)| Step::Lose(c, ul)),
        1 => (can.clone(), can.clone(), 1i64..300_000).prop_map(|(a, b, ul)| Step::Mix(a, b, ul)),
        1 => can.clone().prop_map(Step::Discard),
        4 => (0usize..6, can.clone(), 0u8..4, 5_000i64..90_000)
            .prop_map(|(piece, c, how, ul)| Step::Pass(piece, c, how, ul)),
        2 => (0usize..6, can.clone(), can.clone(), 5_000i64..90_000)
            .prop_map(|(piece, a, b, ul)| Step::PassOfTwo(piece, a, b, ul)),
        1 => (0usize..6, 5_000i64..90_000, 0u8..20).prop_map(|(p, ul, lost)| Step::Amend(p, ul, lost)),
        1 => (0usize..20).prop_map(Step::Strike),
        2 => Just(Step::Undo),
        1 => Just(Step::Redo),
    ];
    prop::collection::vec(step, 1..28)
}

/// What is poured, mixed or thrown away; `can` finds a can by number.
fn pour(shelf: &Shelf, step: &Step, can: impl Fn(usize) -> Option<CanId>) -> Option<CanAction> {
    let at = shelf.now();
    Some(match *step {
        Step::Jar(no, ul) => CanAction::Jar {
            can: can(no)?,
            volume: Volume::from_ul(ul),
            to: JarFor::Job(shelf.trial.job),
            at,
            sure: true,
        },
        Step::Lose(no, ul) => CanAction::Lose {
            can: can(no)?,
            volume: Volume::from_ul(ul),
            reason: "spilled".to_owned(),
            at,
            sure: true,
        },
        Step::Mix(a, b, ul) => CanAction::Mix {
            draft: MixDraft {
                parts: vec![
                    MixPart {
                        can: can(a % 3)?,
                        volume: None,
                    },
                    MixPart {
                        can: can((a + 1 + b % 2) % 3)?,
                        volume: Some(Volume::from_ul(ul)),
                    },
                ],
                size: None,
                empty: None,
                place: String::new(),
            },
            at,
            sure: true,
        },
        Step::Discard(no) => CanAction::Discard {
            can: can(no)?,
            reason: "skinned over".to_owned(),
            at,
        },
        _ => return None,
    })
}

/// The action a step means in this shop; none where there is nothing to do it to.
fn action(shelf: &Shelf, step: &Step, pieces: &[tackfree::shop::PieceId]) -> Option<Action> {
    let shop = shelf.trial.shop();
    let at = shelf.now();
    let can = |no: usize| -> Option<CanId> {
        let all = &shop.cans.cans;
        (!all.is_empty()).then(|| all[no % all.len()].can.id)
    };
    let pass = |piece: usize, amount, drawn| {
        let piece = pieces[piece % pieces.len()];
        let kind = tackfree::shop::CoatKind::Topcoat;
        let mut draft = shelf.pass_draft(piece, kind, amount, drawn);
        // Two pieces in one pass: the shares must add up.
        draft.picks.push(tackfree::desk::FacePick {
            piece: pieces[(piece.0.as_u128() % 5) as usize],
            faces: None,
        });
        draft.scuffed_first = Some(tackfree::shop::ScuffMeans::Pad);
        Action::LogPass(draft)
    };
    let drawn = |takes: Vec<CanId>, lost| DrawnDraft {
        cans: CanPick::These(
            takes
                .into_iter()
                .map(|can| CanTake { can, amount: None })
                .collect(),
        ),
        lost,
        sure: true,
        ..DrawnDraft::default()
    };
    Some(match *step {
        Step::Receive(which, cents) => {
            let product = if which == 0 {
                shelf.trial.varnish()
            } else {
                shelf.product(tackfree::coating::Family::WaterBorne)
            };
            let mut draft = shelf.draft(&product, Volume::from_ul(946_353), "B");
            draft.price = Some(Money::from_cents(cents));
            draft.held = (cents % 3 == 0).then(|| Volume::from_ul(77_777 + cents));
            Action::Can(CanAction::Receive(draft, 1 + u32::from(which)))
        }
        Step::Weigh(no, g) => Action::Can(CanAction::Weigh {
            can: can(no)?,
            mass: grams(f64::from(g)),
            at,
            sure: true,
        }),
        Step::Jar(..) | Step::Lose(..) | Step::Mix(..) | Step::Discard(_) => {
            Action::Can(pour(shelf, step, can)?)
        }
        Step::Pass(piece, no, how, ul) => {
            let lost = (how % 2 == 0).then(|| grams(1.3));
            let amount = match how {
                0 => AmountDraft::Estimate,
                1 => AmountDraft::Volume(Volume::from_ul(ul)),
                2 => AmountDraft::Weighed {
                    before: grams(900.0),
                    after: grams(900.0 - f64::from(u32::try_from(ul / 1_000).ok()?)),
                },
                _ => AmountDraft::WeighedAfter(grams(300.0)),
            };
            pass(piece, amount, drawn(vec![can(no)?], lost))
        }
        Step::PassOfTwo(piece, a, b, ul) => {
            let amount = AmountDraft::Volume(Volume::from_ul(ul));
            // The first three cans hold varnish.
            let two = [can(a % 3)?, can((a + 1 + b % 2) % 3)?];
            pass(piece, amount, drawn(two.to_vec(), Some(grams(0.7))))
        }
        Step::Amend(no, ul, lost) => {
            let pass = shop.passes.get(no)?;
            let mut drawn = DrawnDraft::of(pass);
            drawn.lost = Some(grams(f64::from(lost) / 10.0));
            drawn.sure = true;
            Action::CorrectPassUse {
                pass: pass.id,
                amount: AmountDraft::Volume(Volume::from_ul(ul)),
                drawn,
            }
        }
        Step::Strike(no) => Action::Can(CanAction::Strike(shop.cans.lines.get(no)?.id)),
        Step::Undo => Action::Undo,
        Step::Redo => Action::Redo,
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]
    #[test]
    fn what_came_is_where_it_went(steps in steps()) {
        let mut shelf = Shelf::new();
        let pieces: Vec<_> = (0..6).map(|_| shelf.trial.shelf()).collect();
        for _ in 0..3 {
            shelf.varnish();
        }
        for step in &steps {
            shelf.later(7.0);
            let Some(action) = action(&shelf, step, &pieces) else { continue };
            let before = shelf.trial.shop();
            let answer = shelf.trial.perform(&action);
            let after = shelf.trial.shop();
            balanced(&after);
            if answer.is_err() {
                prop_assert_eq!(&before.cans, &after.cans);
            } else if !matches!(action, Action::Undo | Action::Redo) {
                // Taken back and done again, it is as it was.
                shelf.trial.done(&Action::Undo);
                prop_assert_eq!(&shelf.trial.shop().cans.cans, &before.cans.cans);
                shelf.trial.done(&Action::Redo);
                prop_assert_eq!(&shelf.trial.shop().cans.cans, &after.cans.cans);
            }
        }
    }
}

#[test]
fn the_demos_shelf_is_balanced() {
    let shop = crate::files::demo();
    balanced(&shop);
    let drawn = shop
        .passes
        .iter()
        .filter(|pass| !pass.drawn.draws.is_empty());
    assert!(drawn.count() > 20);
    assert!(shop.cans.cans.len() >= 10);
    assert_eq!(ml(1).ul(), 1_000);
}

#[test]
fn months_are_those_of_the_shops_calendar() {
    let mut shelf = Shelf::new();
    let piece = shelf.trial.shelf();
    // Nine in the evening of the last of November in Chicago is December in UTC.
    shelf.trial.now = crate::shop::utc("2026-12-01T03:00:00Z");
    let none = DrawnDraft::default();
    shelf
        .pass(piece, AmountDraft::Estimate, none)
        .expect("a pass");
    let shop = shelf.trial.shop();
    let of = TallyOf {
        files: &shop.files,
        jobs: &shop.jobs,
        passes: &shop.passes,
        products: &shop.products,
        cans: &shop.cans,
        rates: &shop.rates,
        zone: ZONE,
    };
    let groups = tally_by(&of, TallyBy::Month);
    assert_eq!(groups.len(), 1);
    assert_eq!(groups[0].key, GroupKey::Month(2026, 11));
    assert_eq!(groups[0].rows[0].planned, None);
    // No can was named: the can price, and said so.
    let row = &groups[0].rows[0];
    assert_eq!(row.no_can, row.used());
    assert_eq!(row.cost_at_price, row.cost);
    assert_eq!(row.estimated_share(), Some(1.0));
}
