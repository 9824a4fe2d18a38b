//! The demo holds at any hour, in any zone, and its passes obey the drying clock.

use crate::{NEW_YORK, moments, opened, utc};
use chrono::Duration;
use tackfree::coating::LabelHours;
use tackfree::desk::Shop;
use tackfree::shop::{Gates, RackState, Shows, Strictness, Ticket, rack};

/// The demo is not only a record that the gates let through afterwards: each line could have been
/// logged at its own hour, with the clock held against it.
fn logged_live(shop: &Shop, when: &str) {
    let gates = Gates {
        products: &shop.products,
        clock: &LabelHours,
        strictness: Strictness::Live,
        films: None,
    };
    for file in &shop.files {
        let mut ticket = Ticket::blank(&file.piece, &file.schedule, &file.events);
        for event in &file.events {
            let blockers = gates.check(&ticket, event, event.at);
            let words: Vec<String> = blockers
                .iter()
                .map(|blocker| blocker.words(event.at, NEW_YORK))
                .collect();
            let called = shop.called(file);
            assert!(
                words.is_empty(),
                "{when}: {called}: {:?}: {words:?}",
                event.what
            );
            ticket.fold(event);
        }
    }
}

#[test]
fn passes_obey_the_drying_clock_at_their_own_times() {
    for (when, now) in moments() {
        logged_live(&opened(now, NEW_YORK), when);
    }
}

#[test]
fn at_every_hour_of_the_weeks_around_a_clock_change_the_demo_holds() {
    for start in ["2026-03-06T00:20:00Z", "2026-10-30T00:20:00Z"] {
        for step in 0..7 {
            let now = utc(start) + Duration::hours(step * 47);
            let when = now.to_rfc3339();
            let shop = opened(now, NEW_YORK);
            logged_live(&shop, &when);
            let rows = rack(&shop.files, &shop.gates(&LabelHours), now);
            let states: Vec<RackState> = rows.iter().map(|row| row.state).collect();
            assert!(states.contains(&RackState::Ready), "{when}: nothing ready");
            assert!(
                states.contains(&RackState::Missed),
                "{when}: no window missed"
            );
            let drying = rows
                .iter()
                .filter(|row| row.waiting.shows() == Shows::Drying)
                .count();
            assert!(drying >= 4, "{when}: {drying} drying");
        }
    }
}

#[test]
fn it_opens_in_other_zones_too() {
    let now = utc("2026-07-30T22:00:00Z");
    for zone in [
        chrono_tz::UTC,
        chrono_tz::Australia::Lord_Howe,
        chrono_tz::Pacific::Apia,
    ] {
        let shop = opened(now, zone);
        assert_eq!(
            shop.settings.zone, zone,
            "the demo takes the zone of the machine"
        );
        logged_live(&shop, zone.name());
    }
}
