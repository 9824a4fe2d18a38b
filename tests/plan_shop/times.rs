//! Step times: fixed and rate, and what the hours log moves.

use tackfree::shop::{Range, Step, StepTime, StepTimeError, StepTimes, Timed};
use tackfree::units::Area;

#[test]
fn a_small_top_is_dominated_by_the_fixed_part() {
    let times = StepTimes::default();
    let over = |sq_ft: f64| times.of(Step::Coat).over(Area::from_sq_ft(sq_ft));
    // 7 min and 0.55 min a square foot: our own starting figures.
    assert!((over(2.0).likely - 8.1).abs() < 0.01, "{:?}", over(2.0));
    assert!((over(40.0).likely - 29.0).abs() < 0.02, "{:?}", over(40.0));
    for step in Step::ALL {
        let spread = times.of(step).over(Area::from_sq_ft(10.0));
        assert!(
            spread.low <= spread.likely && spread.likely <= spread.high,
            "{step:?}"
        );
        assert_eq!(times.of(step).check(step), Ok(()), "{step:?}");
        assert_eq!(Step::of_code(step.code()), Some(step));
    }
}

#[test]
fn figures_nobody_works_by_are_refused() {
    let mut times = StepTimes::default();
    let range = Range::of_minutes;
    let none = range(0.0, 0.0, 0.0);
    let set = |times: &mut StepTimes, step, fixed, rate| times.set(step, StepTime { fixed, rate });
    let error = set(&mut times, Step::Coat, range(9.0, 7.0, 10.0), none);
    assert_eq!(error, Err(StepTimeError::Order(Step::Coat)));
    assert_eq!(
        set(&mut times, Step::Coat, none, none),
        Err(StepTimeError::Nothing(Step::Coat))
    );
    let error = set(
        &mut times,
        Step::Travel,
        range(9.0, 9.0, 9.0),
        range(1.0, 1.0, 1.0),
    );
    assert_eq!(error, Err(StepTimeError::NoRate(Step::Travel)));
    let error = set(&mut times, Step::Coat, range(1.0, 2.0, 9000.0), none);
    assert_eq!(error, Err(StepTimeError::TooLong(Step::Coat)));
    // The starting figure takes the shop's own away again.
    let start = times.of(Step::Coat);
    set(&mut times, Step::Coat, range(4.0, 5.0, 6.0), none).unwrap();
    assert_eq!(times.own().count(), 1);
    times.set(Step::Coat, start).unwrap();
    assert_eq!(times, StepTimes::default());
}

#[test]
fn records_move_the_range_and_draw_it_together() {
    let times = StepTimes::default();
    let area = Area::from_sq_ft(12.0);
    let usual = times.of(Step::Scuff).over(area);
    let record = |by: f64| Timed {
        step: Step::Scuff,
        area,
        minutes: usual.likely * by,
    };
    let after = |count: usize, by: f64| {
        let records = vec![record(by); count];
        times.learned(&records).of(Step::Scuff).over(area)
    };
    // One slow record moves it a fifth of the way (in logarithms: it stands against four).
    let one = after(1, 1.5).likely / usual.likely;
    assert!((one - 1.5_f64.powf(0.2)).abs() < 0.01, "{one}");
    let many = after(60, 1.5);
    assert!((many.likely / usual.likely - 1.5).abs() < 0.05, "{many:?}");
    let width = |spread: tackfree::shop::Spread| (spread.high / spread.low).ln();
    assert!(width(many) < width(usual) / 2.0, "{many:?} {usual:?}");
    // Slips and other steps change nothing.
    assert_eq!(times.learned(&[record(40.0)]), times);
    assert_eq!(
        times.learned(&[record(1.2)]).of(Step::Coat),
        times.of(Step::Coat)
    );
}
