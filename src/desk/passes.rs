//! Passes: one product in one go over one or more pieces, and what it used.

use super::action::{AmountDraft, FacePick, PassDraft};
use super::books::{BooksError, Row, Scope};
use super::can_action::DrawnDraft;
use super::can_error::CanRefusal;
use super::draws::Drawing;
use super::error::DeskError;
use super::perform::{Desk, Done, Made};
use super::recipes::kind_fits;
use super::work::{Opened, names};
use crate::coating::{Product, ProductId};
use crate::shape::FaceKey;
use crate::shop::{Amount, AmountBasis, Drawn, Pass, PassId, Settings, What, cautions_for_pass};
use crate::units::{Area, Volume};

impl Desk<'_> {
    pub(super) fn log_pass(&mut self, draft: &PassDraft) -> Result<Done, DeskError> {
        if draft.picks.is_empty() {
            return Err(DeskError::NoPiece);
        }
        let settings = self.settings()?;
        let mut all: Vec<(Opened, Vec<(FaceKey, Area)>)> = Vec::new();
        for pick in &FacePick::once_each(&draft.picks) {
            let opened = self.open(pick.piece)?;
            let keys = pick
                .faces
                .clone()
                .unwrap_or_else(|| opened.ticket.due_faces(draft.kind));
            let faces = keys
                .iter()
                .map(|key| {
                    let area = opened
                        .ticket
                        .face(*key)
                        .map_or(Area::from_m2(0.0), |face| face.area);
                    (*key, area)
                })
                .collect();
            all.push((opened, faces));
        }
        let product = self.pass_product(draft, &all)?;
        let areas: Vec<f64> = all
            .iter()
            .map(|(_, faces)| faces.iter().map(|(_, area)| area.m2()).sum())
            .collect();
        let expected = product
            .label
            .spread
            .volume_for(Area::from_m2(areas.iter().sum()));
        let mut jobs: Vec<_> = all
            .iter()
            .map(|(opened, _)| {
                let job = opened.file.piece.job;
                (job, opened.shop.job(job).map_or(0, |job| job.no))
            })
            .collect();
        jobs.sort_unstable();
        jobs.dedup();
        let mut notes = Vec::new();
        let drawing = Drawing {
            pass: None,
            kind: draft.kind,
            product: &product,
            ended: draft.ended,
            expected,
            jobs: &jobs,
        };
        let (amount, drawn) = self.draw(&drawing, draft.amount, &draft.drawn, &mut notes)?;
        let from = self.cans_words(&drawn)?;
        let id = PassId(self.id());
        let pass = Pass {
            id,
            kind: draft.kind,
            product: product.id,
            started: draft.started,
            ended: draft.ended,
            amount,
            air: draft.air,
            drawn,
        };
        let shares = amount.volume.split(&areas);
        let (mut opened_all, mut said) = (Vec::new(), Vec::new());
        for ((mut opened, faces), used) in all.into_iter().zip(shares) {
            said.push(self.lay(&mut opened, draft, &pass, faces, used));
            opened_all.push(opened);
        }
        if let Some(air) = draft.air {
            self.note_air(draft.started, air)?;
        }
        // The pass first: the lines of the log point at it.
        self.books.put(Row::Pass(&pass))?;
        self.close("The pass", opened_all)?;
        notes.extend(
            cautions_for_pass(&product, draft.kind, draft.scuffed_first.is_some())
                .iter()
                .map(crate::shop::Caution::words),
        );
        let words = format!(
            "Logged {}: {}, {} {}{from}",
            said.join("; "),
            product.name,
            amount.volume.show(settings.volume),
            amount.basis.word()
        );
        Ok(Done::made(words, Made::Pass(id)).with_notes(notes))
    }

    /// One piece's part of a pass: the scuff before it, the coat; what was laid, in words.
    fn lay(
        &mut self,
        opened: &mut Opened,
        draft: &PassDraft,
        pass: &Pass,
        faces: Vec<(FaceKey, Area)>,
        used: Volume,
    ) -> String {
        let keys: Vec<FaceKey> = faces.iter().map(|(key, _)| *key).collect();
        let states = || keys.iter().filter_map(|key| opened.ticket.face(*key));
        let no = states()
            .map(|face| face.count(draft.kind) + 1)
            .max()
            .unwrap_or(1);
        let coated: Vec<FaceKey> = states()
            .filter(|face| !face.coats.is_empty())
            .map(|face| face.key)
            .collect();
        if let Some(means) = draft.scuffed_first
            && !coated.is_empty()
        {
            let faces = coated;
            self.add(opened, What::Scuff { faces, means }, draft.started);
        }
        let what = What::Coat {
            pass: pass.id,
            kind: draft.kind,
            product: pass.product,
            faces,
            started: draft.started,
            used,
        };
        self.add(opened, what, draft.ended);
        format!(
            "{} {no} on {} of {}",
            draft.kind.coat_word(),
            names(&keys),
            opened.called
        )
    }

    fn pass_product(
        &self,
        draft: &PassDraft,
        all: &[(Opened, Vec<(FaceKey, Area)>)],
    ) -> Result<Product, DeskError> {
        let products = self.books.products()?;
        let mut wanted: Vec<ProductId> = match draft.product {
            Some(product) => vec![product],
            None => all
                .iter()
                .filter_map(|(opened, _)| opened.ticket.schedule.product_for(draft.kind))
                .collect(),
        };
        wanted.sort_unstable();
        wanted.dedup();
        let find = |id: &ProductId| products.iter().find(|product| product.id == *id);
        match wanted.as_slice() {
            [] => Err(crate::shop::ScheduleError::NoProduct(draft.kind.coat_word()).into()),
            [one] => {
                let product = find(one).ok_or(BooksError::Missing { what: "product" })?;
                kind_fits(product, draft.kind.product_kind())?;
                Ok(product.clone())
            }
            several => {
                let names: Vec<String> = several
                    .iter()
                    .filter_map(find)
                    .map(|product| product.name.clone())
                    .collect();
                Err(DeskError::MixedProducts(names.join(", ")))
            }
        }
    }

    /// `, from can 7 and can 8`, where cans are named.
    fn cans_words(&self, drawn: &Drawn) -> Result<String, DeskError> {
        if drawn.draws.is_empty() {
            return Ok(String::new());
        }
        let (book, _) = self.can_book()?;
        let names: Vec<String> = drawn
            .draws
            .iter()
            .filter_map(|draw| Some(book.can(draw.can)?.can.called()))
            .collect();
        Ok(format!(", from {}", names.join(" and ")))
    }

    /// Corrects how much a pass used; where it came from stays.
    pub(super) fn correct_pass(
        &mut self,
        id: PassId,
        draft: AmountDraft,
    ) -> Result<Done, DeskError> {
        let pass = self.books.pass(id)?;
        let pass = pass.ok_or(BooksError::Missing { what: "pass" })?;
        self.correct_pass_use(id, draft, &DrawnDraft::of(&pass))
    }

    /// Corrects what a pass used and from where; the shares of its pieces follow.
    pub(super) fn correct_pass_use(
        &mut self,
        id: PassId,
        draft: AmountDraft,
        from: &DrawnDraft,
    ) -> Result<Done, DeskError> {
        let settings = self.settings()?;
        let mut pass = self
            .books
            .pass(id)?
            .ok_or(BooksError::Missing { what: "pass" })?;
        let shop = self.shop(Scope::All)?;
        let product = shop
            .product(pass.product)
            .ok_or(BooksError::Missing { what: "product" })?
            .clone();
        let (mut lines, mut jobs) = (Vec::new(), Vec::new());
        for file in &shop.files {
            for event in &file.events {
                if let What::Coat {
                    pass: of, faces, ..
                } = &event.what
                    && *of == id
                {
                    let area: f64 = faces.iter().map(|(_, area)| area.m2()).sum();
                    lines.push((file.piece.id, event.clone(), area));
                    let job = file.piece.job;
                    jobs.push((job, shop.job(job).map_or(0, |job| job.no)));
                }
            }
        }
        let areas: Vec<f64> = lines.iter().map(|(_, _, area)| *area).collect();
        let expected = product
            .label
            .spread
            .volume_for(Area::from_m2(areas.iter().sum()));
        let mut notes = Vec::new();
        let was = pass.amount.volume.show(settings.volume);
        jobs.sort_unstable();
        jobs.dedup();
        let drawing = Drawing {
            pass: Some(id),
            kind: pass.kind,
            product: &product,
            ended: pass.ended,
            expected,
            jobs: &jobs,
        };
        (pass.amount, pass.drawn) = self.draw(&drawing, draft, from, &mut notes)?;
        let from = self.cans_words(&pass.drawn)?;
        self.books.put(Row::Pass(&pass))?;
        for ((piece, mut event, _), share) in
            lines.into_iter().zip(pass.amount.volume.split(&areas))
        {
            if let What::Coat { used, .. } = &mut event.what {
                *used = share;
            }
            self.books.put(Row::Event(piece, &event))?;
        }
        let words = format!(
            "Corrected a pass of {} from {was} to {} {}{from}",
            product.name,
            pass.amount.volume.show(settings.volume),
            pass.amount.basis.word()
        );
        Ok(Done::said(words).with_notes(notes))
    }
}

/// The amount in volume, with doubts about it in words.
pub(super) fn in_volume(
    draft: AmountDraft,
    product: &Product,
    expected: Volume,
    settings: &Settings,
    notes: &mut Vec<String>,
) -> Result<Amount, DeskError> {
    let amount = match draft {
        AmountDraft::Estimate => Amount {
            volume: expected,
            basis: AmountBasis::Estimated,
        },
        AmountDraft::Volume(volume) => Amount {
            volume,
            basis: AmountBasis::Measured,
        },
        AmountDraft::Weighed { before, after } => {
            if after > before {
                return Err(DeskError::WeightRose {
                    before: before.show(),
                    after: after.show(),
                });
            }
            let volume = product.label.density.volume_of(before - after);
            Amount {
                volume,
                basis: AmountBasis::Weighed { before, after },
            }
        }
        AmountDraft::WeighedAfter(_) => return Err(CanRefusal::BeforeOfWhat.into()),
    };
    reasonable(amount, expected, settings, notes)?;
    Ok(amount)
}

/// Refuses what no pass can use, and tells what is far from what the area takes.
pub(super) fn reasonable(
    amount: Amount,
    expected: Volume,
    settings: &Settings,
    notes: &mut Vec<String>,
) -> Result<(), DeskError> {
    if amount.basis.is_measured() {
        if amount.volume.ul() <= 0 {
            return Err(DeskError::NothingUsed);
        }
        let show = |volume: Volume| volume.show(settings.volume);
        let (used, usual) = (amount.volume.ul(), expected.ul().max(1));
        if used / usual >= 100 {
            return Err(DeskError::AbsurdAmount {
                amount: show(amount.volume),
                expected: show(expected),
            });
        }
        let asked = used >= 10 * usual || 10 * used <= usual;
        if !asked && (used >= 3 * usual || 3 * used <= usual) {
            notes.push(format!(
                "{} is far from the {} this area takes at the label's spread rate; undo it if it \
                 was mistyped.",
                show(amount.volume),
                show(expected)
            ));
        }
    }
    Ok(())
}
