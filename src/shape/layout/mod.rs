//! Layout checks: a piece seen from above, how it will stand, and what named checks find.
//!
//! Lives here: the checks with their figures and sources, distances, findings, what a person
//! accepts. May not live here: refusals of shapes that cannot be cut (the shape's own), drawing,
//! anything stored.

mod cabinet;
mod cutouts;
mod finding;
mod near;
mod rule;
mod rule_book;
mod rule_facts;
mod seen;
mod standing;
mod stands;

pub use finding::{Finding, length as length_of_mm};
pub use near::{Near, to_nearest, to_run, to_void};
pub use rule::{Figure, Rule, RuleFacts, SourceKind, Weight};
pub use rule_book::{RuleBook, RuleError, RuleSetting};
pub use seen::{Looks, Point, Run, Seen, Serves, Void};
pub use standing::{
    About, Accepted, Appliance, Brackets, Joint, JointWay, Overhang, Standing, StandingError,
};

use crate::shape::{Construction, Shape};
use crate::units::{Length, LengthStyle};
use finding::Notebook;

/// What the checks find on a piece: the heaviest first. What is taken as it is keeps its place, so
/// that the numbers of the others stand. `bit` is the shop's router bit; cures tell lengths in
/// `style`.
pub fn findings(
    shape: &Shape,
    construction: Construction,
    standing: &Standing,
    rules: &RuleBook,
    bit: Length,
    style: LengthStyle,
    accepted: &[Accepted],
) -> Vec<Finding> {
    let seen = Seen::of(shape);
    let mut book = Notebook {
        rules,
        style,
        found: Vec::new(),
    };
    cutouts::check(&seen, &standing.joints, shape.thickness(), bit, &mut book);
    cabinet::check(shape.openings(), &seen.voids, &mut book);
    closing(shape, &mut book);
    stands::check(&seen, construction, standing, &mut book);
    let mut found = book.found;
    for finding in &mut found {
        finding.settle(accepted);
    }
    found.sort_by_key(|finding| (std::cmp::Reverse(finding.weight), finding.rule));
    found
}

/// Whether the second diagonal of a top out of square agrees with its sides.
fn closing(shape: &Shape, book: &mut Notebook<'_>) {
    let Some(closing) = shape.outline().closing() else {
        return;
    };
    let off = Length::from_metres_rounded(closing.error().abs());
    let about = ["top".to_owned()];
    book.at_most(Rule::Closing, &about, off, None, |_| {
        "measure the four sides and both diagonals again before anything is cut.".to_owned()
    });
}
