//! Products and what they do on wood: the label's figures, film and spread, and when a coat is
//! dry.
//!
//! Lives here: products, pass amounts, the drying clock. May not live here: pieces, faces'
//! histories, the store, the screen, or any reading of a clock; time is passed in.

mod drying;
pub mod families;
pub mod id;
mod product;

pub use drying::{DryingClock, LabelHours, Recoat, recoat_state};
pub use id::ProductId;
pub use product::{
    Family, FigureBasis, LabelFigures, Product, ProductError, ProductKind, RecoatWindow, Span,
};
