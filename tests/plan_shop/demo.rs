//! The demo shop has a sheet that makes sense.

use crate::hand::{ZONE, clock};
use crate::sheets::judge;
use std::sync::atomic::AtomicBool;
use tackfree::coating::LabelHours;
use tackfree::coating::id::Mint;
use tackfree::desk::{Scope, Shop, day_sheet, with_floor};
use tackfree::shop::day_sheet::load;
use tackfree::store::Store;
use tackfree::store::files::load_demo;

#[test]
fn the_demo_has_a_sheet_at_any_hour() {
    for now in ["2026-11-25 09:00", "2026-11-28 15:30", "2026-03-07 06:00"] {
        let now = clock(now);
        let mut store = Store::in_memory().unwrap();
        let mut mint = Mint::new(uuid::Uuid::nil(), 3);
        load_demo(&mut store, now, &mut mint, ZONE, &LabelHours).unwrap();
        let shop = Shop::read(&store, Scope::All, ZONE).unwrap();
        let made = day_sheet(&shop, now, 300, &AtomicBool::new(false)).sheet;
        judge(&shop, &made);
        assert!(made.lines.len() > 60, "{}", made.lines.len());
        assert!(made.doubts.is_empty(), "{:?}", made.doubts);
        let ends = made.jobs.iter().filter(|job| job.end.is_some()).count();
        assert_eq!(ends, 7, "every job has an end: {:?}", made.jobs);
        let weeks = with_floor(&shop, now, |floor| load(floor, &made, 6));
        let planned: i64 = weeks.iter().map(|week| week.planned).sum();
        let work: i64 = made.jobs.iter().map(|job| job.work).sum();
        assert!(planned <= work && planned > work / 2, "{planned} of {work}");
        assert!(
            weeks.iter().all(|week| week.planned <= week.bench + 60),
            "{weeks:?}"
        );
    }
}
