//! The promise: the wipe-down comes after the last grit and flashes off before the first coat, and
//! stain is wiped off before anything goes over it.

mod support;

use support::*;
use tackfree::shape::FaceKey;
use tackfree::shop::{Blocker, CoatKind, Stage, Strictness, What, WipeDown};

use CoatKind::{Seal, Stain, Topcoat};

#[test]
fn stain_is_wiped_off_before_anything_goes_over_it() {
    let (products, mut schedule) = ready(STAINED);
    for plan in [&mut schedule.show, &mut schedule.end_grain] {
        plan.topcoats = 1;
    }
    schedule.underside.topcoats = 1;
    let mut bench = Bench::with(products, schedule);
    bench.through_sanding();
    bench.lay_all(Seal);
    bench.move_on();
    let stained: Vec<FaceKey> = NINE.into_iter().filter(|face| *face != Field).collect();
    bench.coat(Stain, &stained);
    assert_eq!(bench.board(), "wipe off the stain: 8 faces");
    let wiped: Vec<FaceKey> = stained
        .iter()
        .copied()
        .filter(|face| *face != Left)
        .collect();
    bench.log(What::WipeOff { faces: wiped });
    assert_eq!(bench.board(), "wipe off the stain: 1 face");
    bench.later(48 * 60);
    for strictness in [Strictness::Live, Strictness::Record] {
        bench.strictness = strictness;
        let said = bench.refusal(&bench.move_to(Stage::Topcoats));
        assert_eq!(said, ["left end: stain not wiped off"]);
        let said = bench.refusal(&bench.coat_of(Topcoat, &[Left]));
        assert!(
            said.contains(&"left end: stain not wiped off".to_owned()),
            "{said:?}"
        );
    }
    bench.strictness = Strictness::Live;
    assert_eq!(
        bench.refusal(&What::WipeOff { faces: vec![Top] }),
        ["top: no stain waits to be wiped off"]
    );
    bench.log(What::WipeOff { faces: vec![Left] });
    bench.move_on();
    assert!(
        matches!(
            bench.against(&bench.coat_of(Topcoat, &[Left]))[..],
            [Blocker::NotDry {
                face: Left,
                coat: Stain,
                ..
            }]
        ),
        "drying counts from the wipe-off"
    );
    assert_eq!(bench.against(&bench.coat_of(Topcoat, &[Top])), []);
}

#[test]
fn the_wipe_down_flashes_off_before_the_first_coat() {
    let mut bench = Bench::new(CLEAR);
    bench.sand(&NINE);
    assert_eq!(bench.board(), "wipe down: 0 of 9 faces");
    let unsanded = Bench::new(CLEAR);
    assert!(
        unsanded
            .refusal(&What::Wipe { faces: vec![Top] })
            .contains(&"top: 80 grit not done".to_owned()),
        "the wipe-down comes after the last grit"
    );
    bench.wipe(&[Top]);
    bench.later(12);
    bench.wipe(&NINE[1..]);
    bench.move_on();
    bench.later(17);
    assert_eq!(
        bench.refusal(&bench.coat_of(Seal, &[Top])),
        ["top: wipe-down not flashed off until 8:30 am"]
    );
    assert_eq!(bench.board(), "wipe-down flashes off 8:42 am");
    bench.later(1);
    assert_eq!(bench.against(&bench.coat_of(Seal, &[Top])), []);
    assert_eq!(
        bench.refusal(&bench.coat_of(Seal, &[Left])),
        ["left end: wipe-down not flashed off until 8:42 am"]
    );
    assert_eq!(
        bench.ticket.schedule.wipe_down,
        WipeDown::With(bench.products[0].id)
    );
}
