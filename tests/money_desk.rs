//! From estimate to the last payment at the desk: each an action of its own, undone and done again,
//! refused in clear words.

#![allow(clippy::unwrap_used, reason = "a test stops at once")]

#[path = "money/office.rs"]
#[allow(dead_code, reason = "not every test needs all of it")]
mod office;

use office::{Office, date, money};
use tackfree::coating::{Check, ProductKind};
use tackfree::desk::{
    Action, AgreedPrice, Books, ChangeDraft, HoursOf, InvoiceDraft, MoneyAction, MoneyKey,
    MoneyRow, PassAsked, PaymentDraft, Row, SampleDraft, Which,
};
use tackfree::money::{Item, LineKind, Markup, Percent, StepKind, TaxChoice, TaxPlace};
use tackfree::shape::FaceKey;
use tackfree::shop::{Account, HoursEntry, HoursId, JobTerms, PriceBook};
use tackfree::units::Money;

fn change(office: &Office, net: &str, days: i32) -> ChangeDraft {
    ChangeDraft {
        job: office.job,
        asked_by: "Ada Finch".to_owned(),
        what: "second sink cutout".to_owned(),
        net: money(net),
        tax: TaxChoice::AsPlace,
        days,
    }
}

fn invoice(office: &Office, amount: &str) -> InvoiceDraft {
    InvoiceDraft {
        job: office.job,
        what: "deposit".to_owned(),
        amount: money(amount),
        on: office.now.date_naive(),
        due: None,
    }
}

fn payment(office: &Office, amount: &str) -> PaymentDraft {
    PaymentDraft {
        job: office.job,
        amount: money(amount),
        on: office.now.date_naive(),
        invoice: None,
        how: "check 1042".to_owned(),
    }
}

fn account(office: &Office) -> Account {
    office
        .shop()
        .account(&office.the_job(), office.now.date_naive())
}

fn taxed(office: &mut Office) {
    let mut prices = PriceBook::default();
    prices.places.push(TaxPlace {
        name: "Alder County".to_owned(),
        rate: Percent::parse("4.5 %").unwrap(),
        taxed: vec![LineKind::BoughtIn, LineKind::Other],
        source: "invented".to_owned(),
    });
    office.does(MoneyAction::SavePrices(prices));
    let terms = JobTerms {
        place: "alder county".to_owned(),
        cap: "california".to_owned(),
        asks_sample: true,
        items: vec![Item {
            kind: LineKind::BoughtIn,
            what: "undermount sink".to_owned(),
            count: "1".parse().unwrap(),
            each: money("240"),
            markup: Some(Markup::new(Percent::whole(15))),
            tax: TaxChoice::AsPlace,
        }],
        ..JobTerms::unsaid(office.job)
    };
    let done = office.does(MoneyAction::SaveTerms(terms));
    assert!(
        done.words.contains("undermount sink $240.00"),
        "{}",
        done.words
    );
    assert!(done.notes.iter().any(|note| note.contains("local rules")));
}

#[test]
fn an_estimate_is_given_agreed_and_kept_as_it_was() {
    let mut office = Office::open();
    taxed(&mut office);
    let done = office.does(MoneyAction::GiveEstimate {
        job: office.job,
        valid_until: None,
    });
    assert!(done.words.contains("until"), "{}", done.words);
    let kept = office.shop().money.estimates[0].clone();
    // 240 and 15 %: 276.00, taxed at 4.5 %: 12.42.
    let sink = kept
        .lines
        .iter()
        .find(|line| line.kind == LineKind::BoughtIn)
        .unwrap();
    assert_eq!((sink.net, sink.tax()), (money("276"), money("12.42")));
    assert_eq!(kept.totals().tax, money("12.42"));

    let mut draft = office.agreement("1", "0", "deposit 50 %, progress 40 %, balance rest");
    draft.price = AgreedPrice::Estimate;
    let done = office.does(MoneyAction::Sign(draft));
    let shop = office.shop();
    let agreement = shop.money.agreement(office.job).unwrap();
    assert_eq!(agreement.total(), kept.totals().total());
    assert_eq!(agreement.estimate, Some(kept.id));
    let parts: Money = agreement.parts.iter().map(|part| part.amount).sum();
    assert_eq!(parts, agreement.total());
    // Half is above California's cap, and the notice runs Tue, Wed, Fri (Thanksgiving between).
    let said = done.notes.join("\n");
    assert!(
        said.contains("most for California") && said.contains("7159.5"),
        "{said}"
    );
    assert!(
        said.contains("2026-11-27") && said.contains("no legal advice"),
        "{said}"
    );

    // Prices of tomorrow do not rewrite what was given.
    let mut prices = shop.prices.clone();
    prices.markups.bought_in = Markup::new(Percent::whole(90));
    prices.rate.overhead = money("90000");
    office.does(MoneyAction::SavePrices(prices));
    assert_eq!(office.shop().money.estimates[0], kept);
}

#[test]
fn a_change_moves_total_and_date_when_signed_and_not_before() {
    let mut office = Office::open();
    taxed(&mut office);
    let refused = office.refused(MoneyAction::SaveChange(
        Which::New,
        change(&office, "100", 1),
    ));
    assert!(refused.contains("Nothing is signed for job 1"), "{refused}");
    office.does(MoneyAction::Sign(
        office.agreement("4000", "12.42", "50/40/10"),
    ));
    let done = office.does(MoneyAction::SaveChange(
        Which::New,
        change(&office, "180", 4),
    ));
    // 180 taxed at 4.5 %: 8.10.
    assert!(
        done.words.contains("$4,200.52") && done.words.ends_with("not signed"),
        "{}",
        done.words
    );
    let before = account(&office);
    assert_eq!(before.unsigned, (1, money("188.10")));
    assert_eq!(before.total, money("4012.42"));
    assert_eq!(office.the_job().promised, Some(date("2026-12-18")));

    let id = office.shop().money.changes[0].id;
    office.does(MoneyAction::SignChange(id, office.signed("Ada Finch")));
    let after = account(&office);
    assert_eq!((after.total, after.unsigned.0), (money("4200.52"), 0));
    assert_eq!(office.the_job().promised, Some(date("2026-12-22")));
    let refused = office.refused(MoneyAction::SignChange(id, office.signed("Ada Finch")));
    assert!(
        refused.contains("signed on 2026-11-23 by Ada Finch already"),
        "{refused}"
    );
    let refused = office.refused(MoneyAction::Remove(MoneyKey::Change(id)));
    assert!(refused.contains("takes it back"), "{refused}");
    let refused = office.refused(MoneyAction::Sign(office.agreement("1", "0", "50/50")));
    assert!(refused.contains("has change orders"), "{refused}");
    // Undo takes the signature and the date back together; redo sets both again.
    office.act(&Action::Undo);
    assert_eq!(account(&office).total, money("4012.42"));
    assert_eq!(office.the_job().promised, Some(date("2026-12-18")));
    office.act(&Action::Redo);
    assert_eq!(account(&office), after);
}

#[test]
fn bills_and_payments_leave_what_is_owed() {
    let mut office = Office::open();
    taxed(&mut office);
    office.does(MoneyAction::Sign(
        office.agreement("4000", "12.43", "50/40/10"),
    ));
    let done = office.does(MoneyAction::SaveInvoice(
        Which::New,
        invoice(&office, "2006.22"),
    ));
    assert!(
        done.words.contains("invoice 1") && done.words.contains("due Mon Dec 7"),
        "{}",
        done.words
    );
    office.does(MoneyAction::SavePayment(
        Which::New,
        payment(&office, "2000"),
    ));
    let refused = office.refused(MoneyAction::SaveInvoice(
        Which::New,
        invoice(&office, "2006.22"),
    ));
    assert!(
        refused.contains("$0.01 more than its total of $4,012.43"),
        "{refused}"
    );
    office.does(MoneyAction::SaveInvoice(
        Which::New,
        invoice(&office, "2006.21"),
    ));
    let now = account(&office);
    // All is billed: the invoices hold the whole tax, to the cent.
    assert_eq!(
        (now.billed, now.billed_tax),
        (money("4012.43"), money("12.43"))
    );
    assert_eq!((now.paid, now.balance()), (money("2000"), money("2012.43")));
    assert_eq!(now.overdue, None);
    office.later(15 * 24 * 60);
    let late = account(&office);
    assert_eq!(late.overdue, Some((money("2012.43"), date("2026-12-07"))));
    let done = office.does(MoneyAction::SavePayment(
        Which::New,
        payment(&office, "2012.43"),
    ));
    assert!(done.words.ends_with("balance $0.00"), "{}", done.words);
    assert_eq!(account(&office).overdue, None);
    let done = office.does(MoneyAction::SavePayment(
        Which::New,
        payment(&office, "-12.43"),
    ));
    assert!(done.words.starts_with("Gave back $12.43"), "{}", done.words);
    for _ in 0..2 {
        office.act(&Action::Undo);
    }
    assert_eq!(account(&office), late);
}

#[test]
fn what_cannot_be_is_refused_in_words() {
    let mut office = Office::open();
    taxed(&mut office);
    let tomorrow = |office: &Office| office.now.date_naive().succ_opt().unwrap();
    let mut draft = office.agreement("4000", "0", "50/40/10");
    draft.signed.on = tomorrow(&office);
    assert!(
        office
            .refused(MoneyAction::Sign(draft))
            .contains("ahead of today")
    );
    let mut draft = office.agreement("4000", "0", "50/40/10");
    draft.promised = Some(date("2026-11-01"));
    assert!(
        office
            .refused(MoneyAction::Sign(draft))
            .contains("before the signature")
    );
    let mut draft = office.agreement("4000", "0", "deposit 50 %, balance 40 %");
    draft.signed.by = " \u{1b}[2J".to_owned();
    assert!(
        office
            .refused(MoneyAction::Sign(draft))
            .contains("type who signed")
    );
    let draft = office.agreement("4000", "0", "deposit 50 %, balance 40 %");
    let said = office.refused(MoneyAction::Sign(draft));
    assert!(said.contains("$400.00 are missing"), "{said}");
    let mut draft = office.agreement("1", "0", "50/50");
    draft.price = AgreedPrice::Estimate;
    assert!(
        office
            .refused(MoneyAction::Sign(draft))
            .contains("No estimate was given")
    );
    let draft = office.agreement("0", "0", "50/50");
    assert!(
        office
            .refused(MoneyAction::Sign(draft))
            .contains("above nothing")
    );
    let said = office.refused(MoneyAction::SavePayment(Which::New, payment(&office, "0")));
    assert!(said.contains("payment of nothing"), "{said}");
    let mut prices = office.shop().prices;
    prices.rate.hours = 0;
    assert!(
        office
            .refused(MoneyAction::SavePrices(prices))
            .contains("billable hours")
    );
    let mut terms = office.shop().money.terms(office.job);
    terms.place = "Nowhere".to_owned();
    let said = office.refused(MoneyAction::SaveTerms(terms));
    assert!(said.contains("Nowhere is not in the table"), "{said}");
    assert!(
        office
            .refused(MoneyAction::StopClock { at: office.now })
            .contains("No clock runs")
    );
}

#[test]
fn one_clock_runs_and_it_runs_on_after_a_restart() {
    let mut office = Office::open();
    let [one, two] = office.pieces;
    let start = |office: &Office, pieces: &[_], step| MoneyAction::StartClock {
        job: office.job,
        pieces: pieces.to_vec(),
        step,
        at: office.now,
    };
    office.does(start(&office, &[one], StepKind::Sand));
    let refused = office.refused(start(&office, &[one], StepKind::Sand));
    assert!(refused.contains("runs on that already"), "{refused}");
    office.later(40);
    office.does(MoneyAction::PauseClock {
        at: office.now,
        why: "telephone".to_owned(),
    });
    office.later(10);
    // The store is all that is left of it.
    assert_eq!(
        office.shop().running.unwrap().paused().unwrap().why,
        "telephone"
    );
    office.does(MoneyAction::GoOn { at: office.now });
    office.later(20);
    let done = office.does(start(&office, &[one, two], StepKind::Topcoat));
    assert!(
        done.words
            .starts_with("Stopped the clock on sanding of faces on 1A"),
        "{}",
        done.words
    );
    assert!(
        done.words.contains("after 1 h 0 min") || done.words.contains("after 1 h"),
        "{}",
        done.words
    );
    let hours = office.store.hours(HoursOf::Job(office.job)).unwrap();
    assert_eq!(hours.iter().filter(|entry| entry.runs()).count(), 1);
    assert_eq!(hours[0].worked(office.now).num_minutes(), 60);
    office.later(30);
    office.does(MoneyAction::PauseClock {
        at: office.now,
        why: String::new(),
    });
    office.later(300);
    // Stopped while interrupted: the work ended with the interruption.
    office.does(MoneyAction::StopClock { at: office.now });
    let hours = office.store.hours(HoursOf::All).unwrap();
    assert_eq!(hours[1].worked(office.now).num_minutes(), 30);
    assert!(hours[1].breaks.is_empty());
    office.act(&Action::Undo);
    assert!(
        office.shop().running.is_some(),
        "undo starts it again where it was"
    );
    let earlier = office.now - chrono::Duration::hours(12);
    let refused = office.refused(MoneyAction::StopClock { at: earlier });
    assert!(refused.contains("give a later time"), "{refused}");
    // The piece and the job stay while hours are on record.
    let error = office
        .desk()
        .perform(&Action::RemovePiece(two))
        .unwrap_err();
    assert!(error.to_string().contains("work on record"), "{error}");
}

/// Whatever a program does: the store itself takes no second running clock.
#[test]
fn the_store_holds_one_running_clock() {
    let mut office = Office::open();
    let entry = |office: &Office, id| HoursEntry {
        id: HoursId(uuid::Uuid::from_u128(id)),
        job: office.job,
        pieces: Vec::new(),
        step: StepKind::Other,
        started: office.now,
        ended: None,
        breaks: Vec::new(),
    };
    let (one, two) = (entry(&office, 1), entry(&office, 2));
    office.store.begin().unwrap();
    office.store.put(Row::Money(MoneyRow::Hours(&one))).unwrap();
    assert!(office.store.put(Row::Money(MoneyRow::Hours(&two))).is_err());
    office.store.rollback();
}

#[test]
fn staining_warns_until_the_sample_is_approved() {
    let mut office = Office::open();
    taxed(&mut office);
    let held = |office: &Office| {
        let shop = office.shop();
        let stain = shop
            .products
            .iter()
            .find(|of| of.kind == ProductKind::Stain)
            .unwrap();
        let on = [(office.pieces[0], vec![FaceKey::Top])];
        let asked = PassAsked {
            on: &on,
            product: stain,
            at: office.now,
            air: None,
        };
        let found = shop.conditions(&asked, &shop.clock());
        let open = found
            .iter()
            .find(|of| of.finding.check == Check::SampleOpen);
        open.map(|of| shop.condition_words(of, office.now))
    };
    let said = held(&office).unwrap();
    assert!(
        said.contains("wait: 1A counter 1: the sample board is not approved yet"),
        "{said}"
    );
    assert!(office.shop().money.sample_open(office.job));
    office.does(MoneyAction::SaveSample(
        Which::New,
        SampleDraft {
            job: office.job,
            made: office.now.date_naive(),
            carries: "hard maple, 150, gel stain, 2 topcoats".to_owned(),
            light: "north window".to_owned(),
            twin: "drawer 3".to_owned(),
        },
    ));
    assert!(office.shop().money.sample_open(office.job));
    let id = office.shop().money.samples[0].id;
    office.does(MoneyAction::ApproveSample(id, office.signed("Ada Finch")));
    assert!(!office.shop().money.sample_open(office.job));
    assert_eq!(held(&office), None);
    office.act(&Action::Undo);
    assert!(office.shop().money.sample_open(office.job));
}

#[test]
fn a_job_with_money_on_record_stays() {
    let mut office = Office::open();
    for piece in office.pieces {
        office.act(&Action::RemovePiece(piece));
    }
    let mut terms = JobTerms::unsaid(office.job);
    terms.asks_sample = true;
    office.does(MoneyAction::SaveTerms(terms));
    office.does(MoneyAction::Sign(office.agreement("100", "0", "50/50")));
    let job = office.job;
    let refused = office.desk().perform(&Action::RemoveJob(job)).unwrap_err();
    assert!(refused.to_string().contains("work on record"), "{refused}");
    office.does(MoneyAction::Remove(MoneyKey::Agreement(office.job)));
    office.act(&Action::RemoveJob(job));
    assert!(office.shop().money.terms.is_empty());
    office.act(&Action::Undo);
    assert_eq!(office.shop().money.terms.len(), 1);
}
