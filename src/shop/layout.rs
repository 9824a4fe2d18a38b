//! What the shop keeps of layout and cutting: its own view of the checks, its router and lumber,
//! and for each piece how it will stand and which findings were taken as they are.

use super::id::PieceId;
use super::piece::PieceFile;
use crate::shape::cutting::Router;
use crate::shape::drawing::Page;
use crate::shape::layout::{Accepted, Finding, RuleBook, Standing, findings};
use crate::shape::lumber::LumberRules;
use crate::units::LengthStyle;
use serde::{Deserialize, Serialize};

/// The shop's own figures for layout and cutting.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct LayoutBook {
    /// The checks it changed.
    pub rules: RuleBook,
    /// Its router as set up.
    pub router: Router,
    /// How it glues up and buys.
    pub lumber: LumberRules,
    /// The paper its printer takes.
    pub page: Page,
}

/// What is kept of one piece besides its shape.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PieceLayout {
    /// The piece.
    pub piece: PieceId,
    /// How it will stand.
    pub standing: Standing,
    /// Findings taken as they are, in the order of their checks.
    pub accepted: Vec<Accepted>,
}

impl PieceLayout {
    /// Nothing said of a piece yet.
    pub fn unsaid(piece: PieceId) -> Self {
        Self {
            piece,
            standing: Standing::default(),
            accepted: Vec::new(),
        }
    }

    /// Whether there is nothing to keep.
    pub fn is_unsaid(&self) -> bool {
        self.standing.is_unsaid() && self.accepted.is_empty()
    }
}

impl LayoutBook {
    /// What the checks find on a piece; their cures tell lengths in `style`.
    pub fn findings(
        &self,
        file: &PieceFile,
        layout: &PieceLayout,
        style: LengthStyle,
    ) -> Vec<Finding> {
        let piece = &file.piece;
        findings(
            &piece.shape,
            piece.construction,
            &layout.standing,
            &self.rules,
            self.router.bit,
            style,
            &layout.accepted,
        )
    }
}
