//! The shop as it stands, read at one moment, for screens, commands and papers.

use super::books::{Books, BooksError, Scope};
use crate::coating::{DryingClock, Product, ProductId};
use crate::shape::layout::Finding;
use crate::shop::{
    Client, ClientId, Gates, Job, JobId, LayoutBook, Pass, PieceFile, PieceId, PieceLayout, Recipe,
    RecipeId, Settings, Strictness,
};
use chrono_tz::Tz;

/// The shop read at one moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Shop {
    /// Settings in force.
    pub settings: Settings,
    /// Clients, by name.
    pub clients: Vec<Client>,
    /// Jobs, by number.
    pub jobs: Vec<Job>,
    /// Products.
    pub products: Vec<Product>,
    /// Recipes, by name.
    pub recipes: Vec<Recipe>,
    /// The pieces read, with their logs.
    pub files: Vec<PieceFile>,
    /// The passes that touched them.
    pub passes: Vec<Pass>,
    /// The shop's own figures for layout and cutting.
    pub layout: LayoutBook,
    /// What is kept of pieces' layouts.
    pub layouts: Vec<PieceLayout>,
}

impl Shop {
    /// Reads the shop; `zone` counts where no settings were saved.
    pub fn read(books: &dyn Books, scope: Scope, zone: Tz) -> Result<Self, BooksError> {
        Ok(Self {
            settings: books
                .settings()?
                .unwrap_or_else(|| Settings::starting(zone)),
            clients: books.clients()?,
            jobs: books.jobs()?,
            products: books.products()?,
            recipes: books.recipes()?,
            files: books.pieces(scope)?,
            passes: books.passes(scope)?,
            layout: books.layout_book()?.unwrap_or_default(),
            layouts: books.layouts(scope)?,
        })
    }

    /// The gates over these products.
    pub fn gates<'a>(&'a self, clock: &'a dyn DryingClock) -> Gates<'a> {
        Gates {
            products: &self.products,
            clock,
            strictness: Strictness::Live,
        }
    }

    /// A client.
    pub fn client(&self, id: ClientId) -> Option<&Client> {
        self.clients.iter().find(|client| client.id == id)
    }

    /// A job.
    pub fn job(&self, id: JobId) -> Option<&Job> {
        self.jobs.iter().find(|job| job.id == id)
    }

    /// A product.
    pub fn product(&self, id: ProductId) -> Option<&Product> {
        self.products.iter().find(|product| product.id == id)
    }

    /// A recipe.
    pub fn recipe(&self, id: RecipeId) -> Option<&Recipe> {
        self.recipes.iter().find(|recipe| recipe.id == id)
    }

    /// A piece with its log.
    pub fn file(&self, id: PieceId) -> Option<&PieceFile> {
        self.files.iter().find(|file| file.piece.id == id)
    }

    /// What is kept of a piece's layout.
    pub fn layout_of(&self, piece: PieceId) -> PieceLayout {
        let kept = self.layouts.iter().find(|layout| layout.piece == piece);
        kept.cloned().unwrap_or_else(|| PieceLayout::unsaid(piece))
    }

    /// What the layout checks find on a piece.
    pub fn findings(&self, file: &PieceFile) -> Vec<Finding> {
        self.layout.findings(file, &self.layout_of(file.piece.id))
    }

    /// The ticket number of a piece: `3A`.
    pub fn ticket_no(&self, file: &PieceFile) -> String {
        file.piece
            .ticket_no(self.job(file.piece.job).map_or(0, |job| job.no))
    }

    /// What a piece is called on tickets and in the journal: `3A bar top`.
    pub fn called(&self, file: &PieceFile) -> String {
        format!("{} {}", self.ticket_no(file), file.piece.name)
    }

    /// The client a piece is for.
    pub fn client_of(&self, file: &PieceFile) -> Option<&Client> {
        self.job(file.piece.job)
            .and_then(|job| self.client(job.client))
    }

    /// The piece meant by `text`: its ticket number, its whole name, or its identifier.
    pub fn find_piece(&self, text: &str) -> Option<&PieceFile> {
        let text = text.trim();
        self.files
            .iter()
            .find(|file| self.ticket_no(file).eq_ignore_ascii_case(text))
            .or_else(|| {
                only(
                    self.files
                        .iter()
                        .filter(|file| same(&file.piece.name, text)),
                )
            })
            .or_else(|| {
                self.files
                    .iter()
                    .find(|file| file.piece.id.to_string() == text)
            })
    }

    /// The job meant by `text`: its number, its whole title, or its identifier.
    pub fn find_job(&self, text: &str) -> Option<&Job> {
        let text = text.trim();
        self.jobs
            .iter()
            .find(|job| job.no.to_string() == text)
            .or_else(|| only(self.jobs.iter().filter(|job| same(&job.title, text))))
            .or_else(|| self.jobs.iter().find(|job| job.id.to_string() == text))
    }

    /// The client meant by `text`.
    pub fn find_client(&self, text: &str) -> Option<&Client> {
        only(
            self.clients
                .iter()
                .filter(|client| same(&client.name, text)),
        )
        .or_else(|| {
            self.clients
                .iter()
                .find(|client| client.id.to_string() == text.trim())
        })
    }

    /// The recipe meant by `text`.
    pub fn find_recipe(&self, text: &str) -> Option<&Recipe> {
        only(
            self.recipes
                .iter()
                .filter(|recipe| same(&recipe.name, text)),
        )
        .or_else(|| {
            self.recipes
                .iter()
                .find(|recipe| recipe.id.to_string() == text.trim())
        })
    }

    /// The product meant by `text`.
    pub fn find_product(&self, text: &str) -> Option<&Product> {
        only(
            self.products
                .iter()
                .filter(|product| same(&product.name, text)),
        )
        .or_else(|| {
            self.products
                .iter()
                .find(|product| product.id.to_string() == text.trim())
        })
    }
}

fn same(name: &str, text: &str) -> bool {
    name.trim().to_lowercase() == text.trim().to_lowercase()
}

/// The only one, if there is just one: two of the same name are nobody's guess.
fn only<'a, T>(mut found: impl Iterator<Item = &'a T>) -> Option<&'a T> {
    let first = found.next()?;
    found.next().is_none().then_some(first)
}
