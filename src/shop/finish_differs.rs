//! How two finishes differ.

use super::event::CoatKind;
use super::finish_record::{FinishRecord, RecordCoat, RecordFace};
use super::id::PassId;
use super::pass::Air;
use super::schedule::Grit;
use crate::coating::ProductId;
use crate::shape::FaceKey;
use std::collections::BTreeMap;

/// What two finishes differ in, in the order they are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Differs {
    /// The wood.
    Wood,
    /// A face that only one of them has.
    Face,
    /// The grits.
    Grits,
    /// How many coats of a kind.
    Coats(CoatKind),
    /// The products of the coats of a kind.
    Products(CoatKind),
    /// How the coats of a kind were put on.
    Methods(CoatKind),
    /// The batches of the coats of a kind.
    Batches(CoatKind),
    /// How long the stain stood before it was wiped off.
    WipedOff,
    /// The dry film of the coats of a kind, together.
    Film(CoatKind),
    /// The shop's air at the coats of a kind.
    Air(CoatKind),
    /// How many days the coats took, first to last.
    Days,
}

impl Differs {
    /// What it is about, in words.
    pub fn words(self) -> String {
        let of = |what: &str, kind: CoatKind| match kind {
            CoatKind::Seal => format!("{what} of the seal coats"),
            CoatKind::Stain => format!("{what} of the stain"),
            CoatKind::Topcoat => format!("{what} of the topcoats"),
        };
        match self {
            Self::Wood => "wood".to_owned(),
            Self::Face => "face".to_owned(),
            Self::Grits => "grits".to_owned(),
            Self::Coats(CoatKind::Seal) => "number of seal coats".to_owned(),
            Self::Coats(CoatKind::Stain) => "number of stain coats".to_owned(),
            Self::Coats(CoatKind::Topcoat) => "number of topcoats".to_owned(),
            Self::Products(kind) => of("product", kind),
            Self::Methods(kind) => of("way", kind),
            Self::Batches(kind) => of("batch", kind),
            Self::WipedOff => "stain wiped off after".to_owned(),
            Self::Film(kind) => of("dry film", kind),
            Self::Air(kind) => of("shop air", kind),
            Self::Days => "days from first coat to last".to_owned(),
        }
    }
}

/// One value of a record, kept apart from its words so that the units are the reader's.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Nothing on record.
    Nothing,
    /// Text as it is.
    Text(String),
    /// Grits.
    Grits(Vec<Grit>),
    /// A number of things.
    Count(usize),
    /// Products, first used first.
    Products(Vec<ProductId>),
    /// Minutes.
    Minutes(i64),
    /// Micrometres.
    Film(f64),
    /// Mean air: degrees Celsius and per cent.
    Air(f64, f64),
}

/// One difference.
#[derive(Debug, Clone, PartialEq)]
pub struct Difference {
    /// In what.
    pub what: Differs,
    /// On which faces; none where it is of the whole piece.
    pub faces: Vec<FaceKey>,
    /// In the one.
    pub one: Value,
    /// In the other.
    pub other: Value,
}

/// Films further apart than this are told: it is what weighing with care can tell. Judgement.
const FILMS_APART: f64 = 1.2;
/// Air further apart than this is told. Judgement.
const AIR_APART: (f64, f64) = (3.0, 10.0);
/// Wipe-offs further apart than this are told, in minutes. Judgement.
const WIPE_APART: i64 = 2;

/// Every difference between two finishes, in a settled order: what it is in, then the faces. Equal
/// differences of several faces are told once.
pub fn differences(one: &FinishRecord, other: &FinishRecord) -> Vec<Difference> {
    let mut out = Vec::new();
    if one.species.trim().to_lowercase() != other.species.trim().to_lowercase() {
        out.push(Difference {
            what: Differs::Wood,
            faces: Vec::new(),
            one: Value::Text(one.species.clone()),
            other: Value::Text(other.species.clone()),
        });
    }
    let mut by_face: Vec<(Differs, FaceKey, Value, Value)> = Vec::new();
    for face in &one.faces {
        match other.face(face.key) {
            Some(with) => by_face.extend(
                of_faces(face, with)
                    .into_iter()
                    .map(|(what, a, b)| (what, face.key, a, b)),
            ),
            None => by_face.push((Differs::Face, face.key, there(), Value::Nothing)),
        }
    }
    for face in &other.faces {
        if one.face(face.key).is_none() {
            by_face.push((Differs::Face, face.key, Value::Nothing, there()));
        }
    }
    by_face.sort_by_key(|(what, face, ..)| (*what, *face));
    for (what, face, a, b) in by_face {
        let known = out
            .iter_mut()
            .find(|known| known.what == what && known.one == a && known.other == b);
        match known {
            Some(known) => known.faces.push(face),
            None => out.push(Difference {
                what,
                faces: vec![face],
                one: a,
                other: b,
            }),
        }
    }
    let (a, b) = (days(one), days(other));
    if a != b {
        let value = |days: Option<usize>| days.map_or(Value::Nothing, Value::Count);
        out.push(Difference {
            what: Differs::Days,
            faces: Vec::new(),
            one: value(a),
            other: value(b),
        });
    }
    out
}

fn there() -> Value {
    Value::Text("there".to_owned())
}

/// Whole days from the end of the first coat to the end of the last.
fn days(record: &FinishRecord) -> Option<usize> {
    let ends = || {
        record
            .faces
            .iter()
            .flat_map(|face| &face.coats)
            .map(|coat| coat.ended)
    };
    let (first, last) = (ends().min()?, ends().max()?);
    usize::try_from((last - first).num_days()).ok()
}

fn of_faces(one: &RecordFace, other: &RecordFace) -> Vec<(Differs, Value, Value)> {
    let mut out = Vec::new();
    if one.hidden && other.hidden {
        return out;
    }
    if one.grits != other.grits {
        let grits = |face: &RecordFace| Value::Grits(face.grits.clone());
        out.push((Differs::Grits, grits(one), grits(other)));
    }
    for kind in CoatKind::ALL {
        let (a, b) = (Coats::of(one, kind), Coats::of(other, kind));
        if a.0.len() != b.0.len() {
            out.push((
                Differs::Coats(kind),
                Value::Count(a.0.len()),
                Value::Count(b.0.len()),
            ));
        }
        // A kind of coat that one of them has not got differs in its number, and in no more.
        if a.0.is_empty() || b.0.is_empty() {
            continue;
        }
        let mut tell = |what, a: Value, b: Value| {
            if a != b {
                out.push((what, a, b));
            }
        };
        tell(Differs::Products(kind), a.products(), b.products());
        tell(Differs::Methods(kind), a.methods(), b.methods());
        if let Some((a, b)) = a.batches().zip(b.batches()) {
            tell(Differs::Batches(kind), a, b);
        }
        if kind == CoatKind::Stain {
            match (a.wiped_off(), b.wiped_off()) {
                (Some(a), Some(b)) if (a - b).abs() <= WIPE_APART => {}
                (a, b) => {
                    let value = |after: Option<i64>| after.map_or(Value::Nothing, Value::Minutes);
                    tell(Differs::WipedOff, value(a), value(b));
                }
            }
        }
        if let Some((a, b)) = a.film().zip(b.film())
            && a.max(b) > FILMS_APART * a.min(b)
        {
            tell(Differs::Film(kind), Value::Film(a), Value::Film(b));
        }
        if let Some((a, b)) = a.air().zip(b.air())
            && ((a.0 - b.0).abs() > AIR_APART.0 || (a.1 - b.1).abs() > AIR_APART.1)
        {
            tell(
                Differs::Air(kind),
                Value::Air(a.0, a.1),
                Value::Air(b.0, b.1),
            );
        }
    }
    out
}

/// The coats of one kind on one face.
struct Coats<'a>(Vec<&'a RecordCoat>);

impl<'a> Coats<'a> {
    fn of(face: &'a RecordFace, kind: CoatKind) -> Self {
        let of = face.coats.iter().filter(|coat| coat.kind == kind);
        Self(of.collect())
    }

    fn products(&self) -> Value {
        let mut products: Vec<ProductId> = self.0.iter().map(|coat| coat.product).collect();
        products.dedup();
        Value::Products(products)
    }

    fn methods(&self) -> Value {
        let mut words: Vec<&str> = self.0.iter().map(|coat| coat.method.word()).collect();
        words.dedup();
        Value::Text(words.join(", "))
    }

    /// None where no coat's batch is known: nothing can be said then.
    fn batches(&self) -> Option<Value> {
        let mut known: Vec<&str> = self.0.iter().filter_map(|c| c.batch.as_deref()).collect();
        known.dedup();
        (!known.is_empty()).then(|| Value::Text(known.join(", ")))
    }

    fn wiped_off(&self) -> Option<i64> {
        self.0.iter().filter_map(|coat| coat.wiped_off_after).max()
    }

    /// The dry film of all, where all were measured.
    fn film(&self) -> Option<f64> {
        let films: Option<Vec<f64>> = self.0.iter().map(|coat| Some(coat.film?.1)).collect();
        films
            .map(|films| films.iter().sum())
            .filter(|sum| *sum > 0.0)
    }

    /// The mean of the air noted.
    fn air(&self) -> Option<(f64, f64)> {
        let mut by_pass: BTreeMap<PassId, Air> = BTreeMap::new();
        by_pass.extend(
            self.0
                .iter()
                .filter_map(|coat| Some((coat.pass, coat.air?))),
        );
        let count = by_pass.len() as f64;
        let mean = |of: &dyn Fn(&Air) -> f64| {
            let mean = by_pass.values().map(of).sum::<f64>() / count;
            (mean * 10.0).round() / 10.0
        };
        (!by_pass.is_empty()).then(|| {
            (
                mean(&|air| air.temperature.c()),
                mean(&|air| air.humidity.percent()),
            )
        })
    }
}
