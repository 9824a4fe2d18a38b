//! Recipes and products.

use super::action::{ProductDraft, RecipeDraft, Which};
use super::books::{BooksError, Key, Row, Scope};
use super::changes::changes;
use super::error::DeskError;
use super::people::{NAME_MOST, needed, verb};
use super::perform::{Desk, Done, Made};
use super::typed::{ProductTyped, RecipeTyped};
use crate::coating::{Product, ProductId, ProductKind};
use crate::shop::{CoatKind, Recipe, RecipeId, Schedule, WipeDown};

impl Desk<'_> {
    pub(super) fn save_recipe(
        &mut self,
        which: Which<RecipeId>,
        draft: &RecipeDraft,
    ) -> Result<Done, DeskError> {
        let mut notes = Vec::new();
        let cure = "type what the shop calls it.";
        let name = needed(
            "The recipe's name",
            &draft.name,
            NAME_MOST,
            cure,
            &mut notes,
        )?;
        draft.schedule.check()?;
        self.products_fit(&draft.schedule)?;
        let recipes = self.books.recipes()?;
        let before = match which {
            Which::New => None,
            Which::This(id) => Some(
                recipes
                    .iter()
                    .find(|recipe| recipe.id == id)
                    .ok_or(BooksError::Missing { what: "recipe" })?,
            ),
        };
        let id = before.map_or_else(
            || RecipeId(self.mint.next(self.now.timestamp_millis())),
            |recipe| recipe.id,
        );
        if recipes
            .iter()
            .any(|recipe| recipe.id != id && recipe.name.eq_ignore_ascii_case(&name))
        {
            return Err(DeskError::NameTaken {
                what: "recipe",
                name,
            });
        }
        notes.extend(draft.schedule.wide_steps());
        let recipe = Recipe {
            id,
            name,
            schedule: draft.schedule.clone(),
        };
        self.books.put(Row::Recipe(&recipe))?;
        let mut words = format!("{} recipe {}", verb(&which), recipe.name);
        if let Some(before) = before {
            let shop = self.shop(Scope::OpenSince(self.now))?;
            let typed = |recipe: &Recipe| RecipeTyped::of(&recipe.name, &recipe.schedule, &shop);
            words += &changes(&typed(before), &typed(&recipe));
        }
        Ok(Done::made(words, Made::Recipe(id)).with_notes(notes))
    }

    /// Each product of the schedule is there and of the kind its step needs.
    fn products_fit(&self, schedule: &Schedule) -> Result<(), DeskError> {
        let products = self.books.products()?;
        let fits = |id: ProductId, needs: ProductKind| {
            let product = products
                .iter()
                .find(|product| product.id == id)
                .ok_or(BooksError::Missing { what: "product" })?;
            kind_fits(product, needs)
        };
        for kind in CoatKind::ALL {
            if let Some(id) = schedule.product_for(kind) {
                fits(id, kind.product_kind())?;
            }
        }
        if let WipeDown::With(id) = schedule.wipe_down {
            fits(id, ProductKind::Wipe)?;
        }
        Ok(())
    }

    pub(super) fn save_product(
        &mut self,
        which: Which<ProductId>,
        draft: &ProductDraft,
    ) -> Result<Done, DeskError> {
        let mut notes = Vec::new();
        let cure = "type what the shop calls it.";
        let name = needed(
            "The product's name",
            &draft.name,
            NAME_MOST,
            cure,
            &mut notes,
        )?;
        let products = self.books.products()?;
        let before = match which {
            Which::New => None,
            Which::This(id) => Some(
                products
                    .iter()
                    .find(|product| product.id == id)
                    .ok_or(BooksError::Missing { what: "product" })?,
            ),
        };
        let id = before.map_or_else(
            || ProductId(self.mint.next(self.now.timestamp_millis())),
            |product| product.id,
        );
        if products
            .iter()
            .any(|other| other.id != id && other.name.eq_ignore_ascii_case(&name))
        {
            return Err(DeskError::NameTaken {
                what: "product",
                name,
            });
        }
        // Its kind is part of every schedule that names it.
        if let Some(before) = before
            && before.kind != draft.kind
        {
            return Err(DeskError::WrongProduct {
                product: before.name.clone(),
                is: before.kind.word(),
                needs: draft.kind.word(),
            });
        }
        let product = Product {
            id,
            name,
            kind: draft.kind,
            family: draft.family,
            label: draft.label.clone(),
            can: draft.can,
            price: draft.price,
        };
        product.check()?;
        product.check_orders()?;
        let settings = self.settings()?;
        notes.extend(
            product
                .doubts()
                .iter()
                .map(|doubt| doubt.words(settings.area(), settings.temperature)),
        );
        self.books.put(Row::Product(&product))?;
        let mut words = format!("{} product {}", verb(&which), product.name);
        if let Some(before) = before {
            let shop = self.shop(Scope::OpenSince(self.now))?;
            let typed = |product: &Product| ProductTyped::of(product, &shop);
            words += &changes(&typed(before), &typed(&product));
        }
        Ok(Done::made(words, Made::Product(id)).with_notes(notes))
    }

    pub(super) fn remove_recipe(&mut self, id: RecipeId) -> Result<Done, DeskError> {
        let recipes = self.books.recipes()?;
        let recipe = recipes
            .iter()
            .find(|recipe| recipe.id == id)
            .ok_or(BooksError::Missing { what: "recipe" })?;
        if self
            .books
            .pieces(Scope::All)?
            .iter()
            .any(|file| file.piece.recipe == id)
        {
            return Err(DeskError::OnRecord(format!("Recipe {}", recipe.name)));
        }
        let words = format!("Removed recipe {}", recipe.name);
        self.remove(Key::Recipe(id), words)
    }
}

/// A product must be of a kind that fits its step ([`ProductKind::fits`]).
pub(super) fn kind_fits(product: &Product, needs: ProductKind) -> Result<(), DeskError> {
    if product.kind.fits(needs) {
        return Ok(());
    }
    Err(DeskError::WrongProduct {
        product: product.name.clone(),
        is: product.kind.word(),
        needs: needs.word(),
    })
}
