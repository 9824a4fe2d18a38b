//! What is checked before a pass goes on, from what the shop has on record: air, wood moisture,
//! the wipe-down, the stain below. It tells; what may not be done at all is for the gates.

use super::snapshot::Shop;
use crate::coating::{
    AirBasis, BeforePass, Check, DryingClock, Finding, Product, ProductKind, ShopAir, Stands,
    before_pass,
};
use crate::shape::FaceKey;
use crate::shop::{Air, CoatKind, FaceState, PieceFile, PieceId, Ticket, WipeDown};
use crate::units::moment::show_moment;
use chrono::{DateTime, Utc};

/// One finding before a pass, of one piece or of all.
#[derive(Debug, Clone, PartialEq)]
pub struct Condition {
    /// The piece it is about; none where it holds for the whole pass.
    pub piece: Option<PieceId>,
    /// What was found.
    pub finding: Finding,
    /// Where a figure was read, and when: a place of the piece, or the shop's air log.
    pub read: Option<(String, DateTime<Utc>)>,
}

/// A pass about to be laid.
#[derive(Clone, Copy)]
pub struct PassAsked<'a> {
    /// The pieces and their faces.
    pub on: &'a [(PieceId, Vec<FaceKey>)],
    /// The product.
    pub product: &'a Product,
    /// When it goes on.
    pub at: DateTime<Utc>,
    /// Shop air as typed with the pass.
    pub air: Option<Air>,
}

/// In one word or two: whether a finding is in order.
pub fn stands_words(stands: Stands) -> &'static str {
    match stands {
        Stands::Fine => "ok",
        Stands::Unknown => "not known",
        Stands::Mind => "mind",
        Stands::Hold => "wait",
    }
}

impl Shop {
    /// Every check that applies before this pass: those of the air once, those of the wood, the
    /// wipe-down and the stain piece by piece.
    pub fn conditions(&self, asked: &PassAsked<'_>, clock: &dyn DryingClock) -> Vec<Condition> {
        let (air, air_read) = self.air_before_pass(asked);
        let mut out = Vec::new();
        for (piece, faces) in asked.on {
            let Some(file) = self.file(*piece) else {
                continue;
            };
            if asked.product.kind == ProductKind::Stain && self.money.sample_open(file.piece.job) {
                out.push(Condition {
                    piece: Some(*piece),
                    finding: Finding {
                        check: Check::SampleOpen,
                        stands: Stands::Hold,
                        source: "the job asks for an approved sample before stain",
                    },
                    read: None,
                });
            }
            let ticket = Ticket::of(file);
            let faces: Vec<&FaceState> = faces.iter().filter_map(|key| ticket.face(*key)).collect();
            let bare = faces.iter().any(|face| face.coats.is_empty());
            let read = self.wettest(file, asked.at);
            let before = BeforePass {
                product: asked.product,
                at: asked.at,
                air,
                surface: None,
                wood_percent: read.as_ref().map(|(percent, ..)| *percent),
                wipe: self.wipe_under(&ticket, &faces),
                stain: self.stain_under(&faces),
                clock,
            };
            for finding in before_pass(&before) {
                let condition = match finding.check {
                    Check::Wood { .. } if !bare => continue,
                    Check::Wood { .. } => Condition {
                        piece: Some(*piece),
                        finding,
                        read: read.clone().map(|(_, place, at)| (place, at)),
                    },
                    Check::FlashOff { .. } | Check::StainDry { .. } | Check::SampleOpen => {
                        Condition {
                            piece: Some(*piece),
                            finding,
                            read: None,
                        }
                    }
                    Check::DewPoint { .. } | Check::Cold { .. } | Check::Damp { .. } => Condition {
                        piece: None,
                        finding,
                        read: air_read.map(|at| ("shop air".to_owned(), at)),
                    },
                };
                if !out.contains(&condition) {
                    out.push(condition);
                }
            }
        }
        // Of the whole pass first.
        out.sort_by_key(|condition: &Condition| condition.piece.is_some());
        out
    }

    /// A condition in words: `mind: 3A bar top: wood at 10.4 % moisture, 10 % at most (...)`.
    pub fn condition_words(&self, condition: &Condition, now: DateTime<Utc>) -> String {
        let (zone, style) = (self.settings.zone, self.settings.temperature);
        let piece = condition.piece.and_then(|piece| self.file(piece));
        let piece = piece.map_or_else(String::new, |file| format!("{}: ", self.called(file)));
        let read = condition
            .read
            .as_ref()
            .map_or_else(String::new, |(place, at)| {
                format!(", {place}, read {}", show_moment(*at, now, zone))
            });
        format!(
            "{}: {piece}{}{read} ({})",
            stands_words(condition.finding.stands),
            condition.finding.words(now, zone, style),
            condition.finding.source
        )
    }

    /// The air before the pass: as typed with it; else the air log's reading while it still holds,
    /// with its moment. The usual air of the hour is no reading: the check stays not known.
    fn air_before_pass(&self, asked: &PassAsked<'_>) -> (Option<ShopAir>, Option<DateTime<Utc>>) {
        if let Some(air) = asked.air {
            let typed = ShopAir {
                temperature: air.temperature,
                humidity: air.humidity,
            };
            return (Some(typed), None);
        }
        let logged = self.air.air_at(asked.at);
        match logged.basis {
            AirBasis::Read { at } => (logged.air, logged.air.map(|_| at)),
            AirBasis::Usual { .. } | AirBasis::Forecast | AirBasis::Assumed => (None, None),
        }
    }

    /// Of the newest reading at each place of a piece, the wettest.
    fn wettest(&self, file: &PieceFile, at: DateTime<Utc>) -> Option<(f64, String, DateTime<Utc>)> {
        let readings = self.moisture(file.piece.id);
        let taken = readings.iter().filter(|of| of.reading.at <= at);
        let mut newest: Vec<&crate::wood::moisture::Reading> = Vec::new();
        for of in taken {
            // In order of time: a later reading at the same place counts instead.
            let same = |one: &&crate::wood::moisture::Reading| {
                one.place
                    .trim()
                    .eq_ignore_ascii_case(of.reading.place.trim())
            };
            newest.retain(|one| !same(one));
            newest.push(&of.reading);
        }
        newest
            .into_iter()
            .max_by_key(|reading| reading.content())
            .map(|reading| {
                let percent = reading.content().percent();
                (percent, reading.place.clone(), reading.at)
            })
    }

    /// The solvent wiped on the bare ones of these faces, and when last.
    fn wipe_under(
        &self,
        ticket: &Ticket,
        faces: &[&FaceState],
    ) -> Option<(&Product, DateTime<Utc>)> {
        let WipeDown::With(product) = ticket.schedule.wipe_down else {
            return None;
        };
        let wiped = faces
            .iter()
            .filter(|face| face.coats.is_empty())
            .filter_map(|face| face.wiped)
            .max()?;
        Some((self.product(product)?, wiped))
    }

    /// The stain that lies uppermost on any of these faces, and from when the last of it dries.
    fn stain_under(&self, faces: &[&FaceState]) -> Option<(&Product, DateTime<Utc>)> {
        let coats = faces.iter().filter_map(|face| face.last_coat());
        let (from, product) = coats
            .filter(|coat| coat.kind == CoatKind::Stain)
            .map(|coat| (coat.dries_from(), coat.product))
            .max()?;
        Some((self.product(product)?, from))
    }
}
