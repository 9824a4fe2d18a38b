//! Layout findings on paper: what, where, how much is missing, what would cure it, who says so.

use super::PAPER_WIDTH;
use super::layout::wrap;
use crate::desk::Shop;
use crate::shape::layout::{Figure, Finding, Rule, RuleBook};
use crate::shop::{PieceFile, Settings};
use crate::units::Length;

/// A length as findings tell it: to the shop's step, a `~` where that rounds.
fn show(length: Length, settings: &Settings) -> String {
    length.show_inches(settings.length)
}

/// The mark of a finding in a drawing: `!2`, or `(2)` when it was taken as it is.
pub fn finding_mark(no: usize, finding: &Finding) -> String {
    if finding.accepted.is_some() {
        format!("({no})")
    } else {
        format!("!{no}")
    }
}

/// A finding in one sentence, without its mark.
pub fn finding_words(finding: &Finding, settings: &Settings) -> String {
    let facts = finding.rule.facts();
    let figures = match (finding.has, finding.asks) {
        (Some(_), Some(Length::ZERO)) => {
            format!("in the way by {}", show(finding.missing, settings))
        }
        (Some(has), Some(asks)) => {
            let sense = if has > asks { "too much" } else { "missing" };
            format!(
                "{} of {}, {} {sense}",
                show(has, settings),
                show(asks, settings),
                show(finding.missing, settings)
            )
        }
        _ => "not there".to_owned(),
    };
    format!(
        "{} {}, {}: {}, {figures}; {}",
        finding.weight.word(),
        facts.word,
        finding.about,
        facts.asks,
        finding.cure
    )
}

/// Where a finding's figure comes from.
pub fn finding_source(finding: &Finding) -> String {
    let facts = finding.rule.facts();
    if finding.kind == facts.kind {
        format!("{}: {}", finding.kind.word(), facts.source)
    } else {
        format!("{}; began as {}", finding.kind.word(), facts.source)
    }
}

/// What the checks could not look at, where nothing was said of how the piece will stand.
pub fn not_checked(shop: &Shop, file: &PieceFile) -> Option<&'static str> {
    shop.layout_of(file.piece.id).standing.is_unsaid().then_some(
        "Nothing was said of how it will stand: joints, overhangs, appliances and height are not checked.",
    )
}

/// Every finding of a piece, each with its number, source and, where it was accepted, the reason.
pub fn findings_paper(shop: &Shop, file: &PieceFile) -> Vec<String> {
    let found = shop.findings(file);
    let mut out = vec![format!("Layout of {}", shop.called(file))];
    if let Some(words) = not_checked(shop, file) {
        out.extend(wrap(words, PAPER_WIDTH, 2));
    }
    if found.is_empty() {
        out.push("Nothing was found.".to_owned());
    }
    for (no, finding) in (1..).zip(&found) {
        out.push(String::new());
        out.extend(wrap(
            &format!(
                "{} {}",
                finding_mark(no, finding),
                finding_words(finding, &shop.settings)
            ),
            PAPER_WIDTH,
            4,
        ));
        if let Some(reason) = &finding.accepted {
            out.extend(under(&format!("accepted: {reason}")));
        }
        out.extend(under(&finding_source(finding)));
    }
    out
}

fn under(words: &str) -> Vec<String> {
    let lines = wrap(words, PAPER_WIDTH - 4, 2);
    lines
        .into_iter()
        .map(|line| format!("    {line}"))
        .collect()
}

/// The layout part of a ticket: one sentence a finding; nothing when nothing was found.
pub(super) fn ticket_findings(shop: &Shop, file: &PieceFile) -> Vec<String> {
    let mut out = Vec::new();
    for (no, finding) in (1..).zip(&shop.findings(file)) {
        let mut words = format!(
            "{} {}",
            finding_mark(no, finding),
            finding_words(finding, &shop.settings)
        );
        if let Some(reason) = &finding.accepted {
            words = format!("{words} Accepted: {reason}");
        }
        let lines = wrap(&words, PAPER_WIDTH - 2, 4);
        out.extend(lines.into_iter().map(|line| format!("  {line}")));
    }
    out
}

/// The figure of a check as the shop has it.
pub fn figure_words(figure: Figure, settings: &Settings) -> String {
    match figure {
        Figure::Length(length) => length.show_inches(settings.length),
        Figure::Percent(percent) => format!("{percent} %"),
        Figure::None => "-".to_owned(),
    }
}

/// Every check with figure, weight and source.
pub fn checks_paper(rules: &RuleBook, settings: &Settings) -> Vec<String> {
    let mut out = Vec::new();
    for rule in Rule::ALL {
        let (facts, setting) = (rule.facts(), rules.setting(rule));
        let made = if setting.made {
            setting.weight.word()
        } else {
            "not checked"
        };
        let figure = figure_words(setting.figure, settings);
        out.push(format!(
            "{:<16} {figure:>9}  {made:<11}  {}",
            facts.word, facts.asks
        ));
        let kind = rules.kind(rule);
        let source = format!("{}: {}", kind.word(), facts.source);
        let lines = wrap(&source, PAPER_WIDTH - 17, 2);
        out.extend(lines.into_iter().map(|line| format!("{:17}{line}", "")));
    }
    out
}
