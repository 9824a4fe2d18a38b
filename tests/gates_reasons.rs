//! The promise: a face is hidden, and a finish sanded back, only with a reason that says something,
//! in whatever script it is written.

mod support;

use support::*;
use tackfree::shape::FaceKey::Back;
use tackfree::shop::ReasonFor::{Hiding, SandBack};
use tackfree::shop::{Strictness, What};

#[test]
fn a_reason_is_measured_by_what_it_says_in_any_script() {
    for enough in [
        "glued to the wall",
        "к стене приклеен",
        "壁に接着済み",
        "ติดกับผนังถาวร",
        "벽에 붙음",
    ] {
        assert!(Hiding.is_met_by(enough), "{enough}");
    }
    for thin in ["", "glued", "wallwallwall", "a b", "приклеено", "壁"] {
        assert!(!Hiding.is_met_by(thin), "{thin}");
    }
    assert!(SandBack.is_met_by("run") && SandBack.is_met_by("垂れ"));
    assert!(!SandBack.is_met_by("x") && !SandBack.is_met_by(". ."));
}

#[test]
fn a_reason_on_record_only_has_to_be_there() {
    let mut bench = Bench::new(CLEAR);
    let hidden = |reason: &str| What::NotExposed {
        face: Back,
        reason: reason.to_owned(),
    };
    assert_eq!(bench.refusal(&hidden("built-in")).len(), 1);
    bench.strictness = Strictness::Record;
    assert_eq!(bench.against(&hidden("built-in")), []);
    assert_eq!(bench.against(&hidden("x")), []);
    assert_eq!(bench.refusal(&hidden("- .")).len(), 1);
}
