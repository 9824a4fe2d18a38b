//! What the layout checks find on a piece.

use super::{PieceJson, rounded};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::papers::{finding_source, findings_paper};
use crate::shape::layout::Finding;
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Example:\n  tackfree findings 1A\n\nFindings are warnings: tackfree accept takes one as it is, with the reason. With --json: ticket, id,\npiece, job_no, job, client, findings [no, rule, about, weight, has_mm, asks_mm, missing_mm, cure,\nsource_kind, source, from_mm, to_mm (x along the grain, y across it), accepted (the reason, or null)].";

/// What was typed.
#[derive(Debug, Args)]
pub struct FindingsArgs {
    /// The piece.
    pub piece: String,
}

#[derive(Serialize)]
struct FindingsJson {
    #[serde(flatten)]
    piece: PieceJson,
    findings: Vec<FindingJson>,
}

#[derive(Serialize)]
struct FindingJson {
    no: usize,
    rule: &'static str,
    about: String,
    weight: &'static str,
    has_mm: Option<f64>,
    asks_mm: Option<f64>,
    missing_mm: f64,
    cure: String,
    source_kind: &'static str,
    source: String,
    from_mm: Option<[f64; 2]>,
    to_mm: Option<[f64; 2]>,
    accepted: Option<String>,
}

impl FindingJson {
    fn of(no: usize, finding: &Finding) -> Self {
        let point = |point: crate::shape::layout::Point| [rounded(point.x), rounded(point.y)];
        Self {
            no,
            rule: finding.rule.word(),
            about: finding.about.0.clone(),
            weight: finding.weight.word(),
            has_mm: finding.has.map(|has| rounded(has.mm())),
            asks_mm: finding.asks.map(|asks| rounded(asks.mm())),
            missing_mm: rounded(finding.missing.mm()),
            cure: finding.cure.clone(),
            source_kind: finding.kind.word(),
            source: finding_source(finding),
            from_mm: finding.place.map(|(from, _)| point(from)),
            to_mm: finding.place.map(|(_, to)| point(to)),
            accepted: finding.accepted.clone(),
        }
    }
}

/// Reads them.
pub fn run(args: &FindingsArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let found = shop.findings(file);
    let json = FindingsJson {
        piece: PieceJson::of(&shop, file),
        findings: (1..)
            .zip(&found)
            .map(|(no, finding)| FindingJson::of(no, finding))
            .collect(),
    };
    Answer::new(findings_paper(&shop, file), json)
}
