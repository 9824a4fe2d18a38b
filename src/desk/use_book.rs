//! Use: passes struck out of learning, can sizes on offer, mixes, what planning allows for.

use super::books::{BooksError, Key, Row};
use super::changes::changes;
use super::error::DeskError;
use super::people::line;
use super::perform::{Desk, Done};
use super::use_action::UseAction;
use crate::coating::cans::CanError;
use crate::coating::{Product, ProductId};
use crate::shop::{Mix, MixPart, Offer, PassId, Struck, UseRules};
use crate::units::{Money, Volume, show_moment};

/// Longest name of a part, longest reason.
const TEXT_MOST: usize = 200;

impl Desk<'_> {
    /// One action about use.
    pub(super) fn use_action(&mut self, action: &UseAction) -> Result<Done, DeskError> {
        match action {
            UseAction::StrikePass { pass, reason } => self.strike_pass(*pass, reason),
            UseAction::CountPass(pass) => self.count_pass(*pass),
            UseAction::SaveOffer {
                product,
                holds,
                price,
            } => self.save_offer(*product, *holds, *price),
            UseAction::RemoveOffer { product, holds } => self.remove_offer(*product, *holds),
            UseAction::SaveMix(mix) => self.save_mix(mix),
            UseAction::RemoveMix(product) => self.remove_mix(*product),
            UseAction::SaveUseRules(rules) => self.save_use_rules(rules),
        }
    }

    fn product_named(&self, id: ProductId) -> Result<Product, DeskError> {
        let products = self.books.products()?;
        let found = products.into_iter().find(|product| product.id == id);
        Ok(found.ok_or(BooksError::Missing { what: "product" })?)
    }

    /// The pass in words: what it is of, and when.
    fn pass_named(&self, id: PassId) -> Result<String, DeskError> {
        let pass = self
            .books
            .pass(id)?
            .ok_or(BooksError::Missing { what: "pass" })?;
        let product = self.product_named(pass.product)?;
        let zone = self.settings()?.zone;
        let when = show_moment(pass.started, self.now, zone);
        Ok(format!("a pass of {} ({when})", product.name))
    }

    fn strike_pass(&mut self, pass: PassId, reason: &str) -> Result<Done, DeskError> {
        let mut notes = Vec::new();
        let reason = line("The reason", reason, TEXT_MOST, &mut notes)?;
        if reason.is_empty() {
            return Err(DeskError::Empty {
                what: "The reason",
                cure: "type why the pass is to teach nothing, for example the can was set down wrong.",
            });
        }
        let called = self.pass_named(pass)?;
        let measured = self.books.pass(pass)?;
        if measured.is_some_and(|pass| !pass.amount.basis.is_measured()) {
            notes.push(
                "Its amount is an estimate, so it teaches nothing of the spread rate anyway."
                    .to_owned(),
            );
        }
        let words = format!("Struck {called} out of the spread rates: {reason}");
        self.books.put(Row::Struck(&Struck { pass, reason }))?;
        Ok(Done::said(words).with_notes(notes))
    }

    fn count_pass(&mut self, pass: PassId) -> Result<Done, DeskError> {
        let called = self.pass_named(pass)?;
        if self.books.use_book()?.struck(pass).is_none() {
            return Err(DeskError::NoSuch {
                what: "struck pass",
                name: called,
            });
        }
        let words = format!("Took {called} back into the spread rates");
        self.remove(Key::Struck(pass), words)
    }

    fn save_offer(
        &mut self,
        id: ProductId,
        holds: Volume,
        price: Money,
    ) -> Result<Done, DeskError> {
        if holds <= Volume::ZERO {
            return Err(CanError::Empty.into());
        }
        if price < Money::ZERO {
            return Err(CanError::Negative.into());
        }
        let product = self.product_named(id)?;
        let style = self.settings()?.volume;
        let mut notes = Vec::new();
        if holds == product.can {
            notes.push(format!(
                "It is the can {} is priced by: buying goes by this price, the cost of what was \
                 used by the product's own.",
                product.name
            ));
        } else {
            notes.push(format!(
                "The can it is priced by, {} for {}, stays on offer too.",
                product.can.show(style),
                product.price.show()
            ));
        }
        self.books.put(Row::Offer(&Offer {
            product: id,
            holds,
            price,
        }))?;
        let words = format!(
            "Put cans of {} of {} on offer, {} each",
            holds.show(style),
            product.name,
            price.show()
        );
        Ok(Done::said(words).with_notes(notes))
    }

    fn remove_offer(&mut self, id: ProductId, holds: Volume) -> Result<Done, DeskError> {
        let product = self.product_named(id)?;
        let size = holds.show(self.settings()?.volume);
        let book = self.books.use_book()?;
        let known = |offer: &&Offer| offer.product == id && offer.holds == holds;
        if !book.offers.iter().any(|offer| known(&offer)) {
            let name = format!("{size} of {}", product.name);
            return Err(if holds == product.can {
                DeskError::PricedBy(name)
            } else {
                DeskError::NoSuch {
                    what: "can size on offer",
                    name,
                }
            });
        }
        let words = format!("Took cans of {size} of {} off offer", product.name);
        self.remove(Key::Offer(id, holds), words)
    }

    fn save_mix(&mut self, mix: &Mix) -> Result<Done, DeskError> {
        let product = self.product_named(mix.product)?;
        let mut notes = Vec::new();
        let mut clean = mix.clone();
        for part in &mut clean.parts {
            part.name = line("The part's name", &part.name, TEXT_MOST, &mut notes)?;
            if part.name.is_empty() {
                return Err(DeskError::Empty {
                    what: "The part's name",
                    cure: "type what goes in.",
                });
            }
        }
        clean.check()?;
        self.books.put(Row::Mix(&clean))?;
        let parts: Vec<String> = clean.parts.iter().map(part_words).collect();
        let words = format!(
            "Noted how {} is mixed, by {}: {}",
            product.name,
            clean.by.word(),
            parts.join(", ")
        );
        Ok(Done::said(words).with_notes(notes))
    }

    fn remove_mix(&mut self, id: ProductId) -> Result<Done, DeskError> {
        let product = self.product_named(id)?;
        if self.books.use_book()?.mix(id).is_none() {
            return Err(DeskError::NoSuch {
                what: "mix",
                name: product.name,
            });
        }
        let words = format!("Took away how {} is mixed", product.name);
        self.remove(Key::Mix(id), words)
    }

    fn save_use_rules(&mut self, rules: &UseRules) -> Result<Done, DeskError> {
        rules.check()?;
        let changed = changes(&self.books.use_book()?.rules, rules);
        self.books.put(Row::UseRules(rules))?;
        Ok(Done::said(format!(
            "Saved what planning of use allows for{changed}"
        )))
    }
}

/// `2.5 parts of brown gel stain`.
pub fn part_words(part: &MixPart) -> String {
    let whole = f64::from(part.milliparts) / 1000.0;
    let what = if part.milliparts == 1000 {
        "part"
    } else {
        "parts"
    };
    let density = part.density.map_or_else(String::new, |density| {
        format!(" ({} g/mL)", density.g_per_ml())
    });
    format!("{whole} {what} of {}{density}", part.name)
}
