//! The promise: the finish of two pieces is held side by side from their logs, what differs is told
//! in a settled order, equal differences of several faces once.

mod support;

use chrono::Duration;
use support::*;
use tackfree::coating::rates::Method;
use tackfree::shape::FaceKey;
use tackfree::shop::{
    Air, Amount, AmountBasis, CoatKind, Differs, Drawn, Event, EventId, FinishRecord, Grit, Pass,
    PassId, PieceFile, PieceId, Value, What, differences, method_of,
};
use tackfree::units::{Area, Humidity, Temperature, Volume};
use uuid::Uuid;

/// A piece and its passes, logged without gates: only the record matters here.
struct Made {
    file: PieceFile,
    passes: Vec<Pass>,
    next: u128,
}

impl Made {
    fn new(no: u128) -> Self {
        let (_, schedule) = ready(STAINED);
        Self {
            file: PieceFile {
                piece: piece(PieceId(Uuid::from_u128(no)), hand_case(false, &[])),
                schedule,
                events: Vec::new(),
            },
            passes: Vec::new(),
            next: no * 1000,
        }
    }

    fn log(&mut self, hours: i64, what: What) {
        self.next += 1;
        self.file.events.push(Event {
            id: EventId(Uuid::from_u128(self.next)),
            at: morning() + Duration::hours(hours),
            what,
        });
    }

    fn sand(&mut self, faces: &[FaceKey], grits: &[u16]) {
        for face in faces {
            for grit in grits {
                let (face, grit) = (*face, Grit(*grit));
                self.log(0, What::Tick { face, grit });
            }
        }
    }

    /// Coats faces of a square metre each with so much on each.
    fn coat(&mut self, hours: i64, kind: CoatKind, faces: &[FaceKey], ml: f64, air: (f64, f64)) {
        let (products, schedule) = ready(STAINED);
        let product = schedule.product_for(kind).unwrap();
        assert!(products.iter().any(|p| p.id == product));
        self.next += 1;
        let id = PassId(Uuid::from_u128(self.next));
        let volume = Volume::from_ml(ml * faces.len() as f64);
        let at = morning() + Duration::hours(hours);
        self.passes.push(Pass {
            id,
            kind,
            product,
            started: at,
            ended: at,
            amount: Amount {
                volume,
                basis: AmountBasis::Measured,
            },
            air: Some(Air {
                temperature: Temperature::from_c(air.0),
                humidity: Humidity::from_percent(air.1).unwrap(),
            }),
            drawn: Drawn::default(),
        });
        let what = What::Coat {
            pass: id,
            kind,
            product,
            faces: faces
                .iter()
                .map(|face| (*face, Area::from_m2(1.0)))
                .collect(),
            started: at,
            used: volume,
        };
        self.log(hours, what);
    }

    fn record(&self) -> FinishRecord {
        FinishRecord::of(
            &self.file,
            &self.passes,
            &ready(STAINED).0,
            method_of,
            |_| None,
        )
    }
}

const AIR: (f64, f64) = (20.0, 45.0);

fn done(no: u128) -> Made {
    let mut made = Made::new(no);
    made.sand(&[Top, Front, Back], &[80, 120]);
    made.coat(1, CoatKind::Stain, &[Top, Front, Back], 60.0, AIR);
    let faces = vec![Top, Front, Back];
    made.log(1, What::WipeOff { faces });
    made.coat(30, CoatKind::Topcoat, &[Top, Front, Back], 60.0, AIR);
    made
}

#[test]
fn two_alike_do_not_differ() {
    assert_eq!(differences(&done(1).record(), &done(2).record()), []);
}

/// 60 mL on a square metre are 60 um wet; dry by the solids.
#[test]
fn the_record_tells_films_air_and_wipe_off() {
    let made = done(1);
    let record = made.record();
    let top = record.faces.iter().find(|face| face.key == Top).unwrap();
    assert_eq!(top.grits, [Grit(80), Grit(120)]);
    let [stain, coat] = top.coats.as_slice() else {
        panic!("{top:?}");
    };
    assert_eq!(stain.wiped_off_after, Some(0));
    assert_eq!(coat.method, Method::Wiped);
    let products = ready(STAINED).0;
    let varnish = products.iter().find(|p| p.id == coat.product).unwrap();
    let (wet, dry) = coat.film.unwrap();
    assert!((wet - 60.0).abs() < 0.01);
    assert!((dry - 0.6 * varnish.label.solids_pct).abs() < 0.01);
    // An estimate says nothing of the film.
    let mut guessed = done(1);
    for pass in &mut guessed.passes {
        pass.amount.basis = AmountBasis::Estimated;
    }
    let record = guessed.record();
    assert!(
        record
            .faces
            .iter()
            .flat_map(|f| &f.coats)
            .all(|c| c.film.is_none())
    );
}

#[test]
fn what_differs_is_told_in_a_settled_order_and_once() {
    let one = done(1);
    let mut other = Made::new(2);
    "hickory".clone_into(&mut other.file.piece.species);
    other.sand(&[Top, Front], &[80, 120, 150]);
    other.sand(&[Back], &[80, 120]);
    other.coat(1, CoatKind::Stain, &[Top, Front, Back], 60.0, (27.0, 45.0));
    let faces = vec![Top, Front, Back];
    other.log(1 + 2, What::WipeOff { faces });
    other.coat(30, CoatKind::Topcoat, &[Top, Front, Back], 75.0, AIR);
    other.coat(100, CoatKind::Topcoat, &[Top], 75.0, AIR);
    let found = differences(&one.record(), &other.record());
    let told: Vec<(Differs, Vec<FaceKey>)> = found
        .iter()
        .map(|found| (found.what, found.faces.clone()))
        .collect();
    let (stain, top) = (CoatKind::Stain, CoatKind::Topcoat);
    assert_eq!(
        told,
        [
            (Differs::Wood, vec![]),
            (Differs::Grits, vec![Top, Front]),
            (Differs::Coats(top), vec![Top]),
            (Differs::WipedOff, vec![Top, Front, Back]),
            // 60 against 150 um on the top, 60 against 75 on the others: both more than a fifth.
            (Differs::Film(top), vec![Top]),
            (Differs::Film(top), vec![Front, Back]),
            (Differs::Air(stain), vec![Top, Front, Back]),
            (Differs::Days, vec![]),
        ]
    );
    assert_eq!(found[2].one, Value::Count(1));
    assert_eq!(found[2].other, Value::Count(2));
    assert_eq!(found[3].other, Value::Minutes(120));
    // Held the other way round, the same in mirror image.
    let back = differences(&other.record(), &one.record());
    assert_eq!(found.len(), back.len());
    for (there, back) in found.iter().zip(&back) {
        assert_eq!(
            (there.what, &there.one, &there.other),
            (back.what, &back.other, &back.one)
        );
    }
}

#[test]
fn small_differences_of_film_and_air_are_not_told() {
    let one = done(1);
    let mut other = Made::new(2);
    other.sand(&[Top, Front, Back], &[80, 120]);
    other.coat(1, CoatKind::Stain, &[Top, Front, Back], 70.0, (22.5, 50.0));
    let faces = vec![Top, Front, Back];
    other.log(1, What::WipeOff { faces });
    other.coat(
        30,
        CoatKind::Topcoat,
        &[Top, Front, Back],
        70.0,
        (18.0, 40.0),
    );
    assert_eq!(differences(&one.record(), &other.record()), []);
}

#[test]
fn batches_are_told_where_both_are_known() {
    let one = done(1);
    let batch = |mark: &'static str| {
        move |made: &Made| {
            let of = |_: PassId| (!mark.is_empty()).then(|| mark.to_owned());
            FinishRecord::of(&made.file, &made.passes, &ready(STAINED).0, method_of, of)
        }
    };
    let differ = |a: &'static str, b: &'static str| {
        differences(&batch(a)(&one), &batch(b)(&one))
            .iter()
            .filter(|found| matches!(found.what, Differs::Batches(_)))
            .count()
    };
    assert_eq!(differ("B-1", "B-2"), 2, "stain and topcoat");
    assert_eq!((differ("B-1", "B-1"), differ("B-1", "")), (0, 0));
}

#[test]
fn faces_that_only_one_has_are_told() {
    let one = done(1);
    let mut other = done(2);
    other.file.piece.shape = hand_case(false, &[hole(1, 40, 23)]);
    let found = differences(&one.record(), &other.record());
    let holes: Vec<_> = found.iter().filter(|f| f.what == Differs::Face).collect();
    assert_eq!(holes.len(), 1);
    assert_eq!(
        (holes[0].faces.as_slice(), &holes[0].one),
        ([Hole(1)].as_slice(), &Value::Nothing)
    );
}
