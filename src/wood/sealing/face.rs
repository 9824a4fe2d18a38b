//! What all the coats on one face hold back together.

use serde::{Deserialize, Serialize};

use super::finish::{Exposure, FinishKind};
use super::table::{SealingError, excluding};
use crate::wood::{Between, Standing};

/// So many coats of one finish on a face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Coats {
    /// Which finish.
    pub finish: FinishKind,
    /// How many.
    pub coats: u8,
}

impl Coats {
    /// So many coats of a finish.
    pub fn new(finish: FinishKind, coats: u8) -> Self {
        Self { finish, coats }
    }
}

/// What a face's coats hold back.
#[derive(Debug, Clone, PartialEq)]
pub struct FaceSeal {
    /// The coats, as given.
    pub coats: Vec<Coats>,
    /// Effectiveness after 1, 7 and 14 days, %, each as a range.
    pub percent: [Between<f64>; 3],
    /// How the weakest figure used is known.
    pub standing: Standing,
    /// What is inferred or not known, in words; empty when every figure was measured as it is used.
    pub inferred: String,
}

impl FaceSeal {
    /// After so long.
    pub fn after(&self, exposure: Exposure) -> Between<f64> {
        self.percent[index(exposure)]
    }

    /// What the face lets in after so long, as a part of what bare wood takes up (0 to 1):
    /// `(100 - effectiveness) / 100`.
    pub fn lets_in(&self, exposure: Exposure) -> Between<f64> {
        self.after(exposure)
            .map(|percent| (100.0 - percent) / 100.0)
    }

    /// How many coats there are in all.
    pub fn count(&self) -> u16 {
        self.coats.iter().map(|c| u16::from(c.coats)).sum()
    }

    /// `3 coats oil-based urethane varnish`, `bare`.
    pub fn coats_words(&self) -> String {
        let parts: Vec<_> = self
            .coats
            .iter()
            .filter(|c| c.coats > 0)
            .map(|c| {
                let noun = if c.coats == 1 { "coat" } else { "coats" };
                format!("{} {noun} {}", c.coats, c.finish.words())
            })
            .collect();
        if parts.is_empty() {
            "bare".to_owned()
        } else {
            parts.join(" + ")
        }
    }

    /// `3 coats oil-based urethane varnish: keeps out 90 % of what bare wood takes up in 1 day, 64
    /// in 7, 44 in 14 (Wood Handbook...)`.
    pub fn words(&self) -> String {
        let [one, seven, fourteen] = self.percent.map(range_words);
        let inferred = if self.inferred.is_empty() {
            String::new()
        } else {
            format!("; {}", self.inferred)
        };
        format!(
            "{}: keeps out {one} % of what bare wood takes up in 1 day, {seven} in 7, {fourteen} in \
             14 (Wood Handbook Table 16-3, p. 16-14, and the tests behind it; {}{inferred})",
            self.coats_words(),
            self.standing.words()
        )
    }
}

fn index(exposure: Exposure) -> usize {
    match exposure {
        Exposure::Day1 => 0,
        Exposure::Day7 => 1,
        Exposure::Day14 => 2,
    }
}

/// `90`, `0 to 83`.
fn range_words(range: Between<f64>) -> String {
    if range.is_single() {
        format!("{:.0}", range.low())
    } else {
        format!("{:.0} to {:.0}", range.low(), range.high())
    }
}

/// What the coats on one face hold back. Coats of several finishes were never measured together:
/// the face is then taken to hold back at least what its best finish does alone, and at most what
/// as many coats of that finish as there are coats in all would (an inference). A finish without a
/// published figure may hold back anything from nothing to everything, and the range says so.
pub fn face_seal(coats: &[Coats]) -> FaceSeal {
    let applied: Vec<Coats> = coats.iter().copied().filter(|c| c.coats > 0).collect();
    let total: u16 = applied.iter().map(|c| u16::from(c.coats)).sum();
    let total = u8::try_from(total).unwrap_or(u8::MAX);
    let mut found = Found {
        standing: Standing::Retrieved,
        notes: Vec::new(),
    };
    let percent = Exposure::ALL.map(|exposure| {
        let alone: Vec<_> = applied
            .iter()
            .map(|one| (found.look_up(*one, exposure), one.finish))
            .collect();
        let best = alone.iter().copied().reduce(|best, next| {
            if next.0.high() > best.0.high() {
                next
            } else {
                best
            }
        });
        let Some((best, finish)) = best else {
            return Between::only(0.0);
        };
        if applied.len() == 1 {
            return best;
        }
        let low = alone.iter().map(|one| one.0.low()).fold(0.0, f64::max);
        let all = found.look_up(Coats::new(finish, total), exposure);
        Between::new(low, all.high().max(best.high()))
    });
    if applied.len() > 1 {
        found.standing = found.standing.weaker(Standing::Derived);
        found.note("several finishes on one face were not measured together".to_owned());
    }
    FaceSeal {
        coats: applied,
        percent,
        standing: found.standing,
        inferred: found.notes.join("; "),
    }
}

/// What looking up has brought to light so far.
struct Found {
    standing: Standing,
    notes: Vec<String>,
}

impl Found {
    fn note(&mut self, note: String) {
        if !self.notes.contains(&note) {
            self.notes.push(note);
        }
    }

    fn look_up(&mut self, coats: Coats, exposure: Exposure) -> Between<f64> {
        match excluding(coats.finish, coats.coats, exposure) {
            Ok(figure) => {
                self.standing = self.standing.weaker(figure.standing);
                if let Some(measured) = figure.as_for {
                    self.note(as_for(coats, measured));
                }
                figure.percent
            }
            Err(SealingError::NotPublished { finish }) => {
                self.standing = Standing::Judgement;
                self.note(format!(
                    "no published figure for {finish}, so anything from nothing to everything"
                ));
                Between::new(0.0, 100.0)
            }
        }
    }
}

fn as_for(asked: Coats, measured: u8) -> String {
    if measured > asked.coats {
        format!(
            "{} was measured from {measured} coats on only, so between bare and that",
            asked.finish.words()
        )
    } else {
        format!(
            "{} counted as {measured} coats, the most measured",
            asked.finish.words()
        )
    }
}
