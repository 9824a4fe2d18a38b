//! Verbs, with their help: layout, cutting and drawing.

use super::answer::Answer;
use super::doing::{accept, checks, stands, template};
use super::failure::Failure;
use super::reading::{cutlist, cutplan, draw, findings};
use super::session::Session;
use clap::Subcommand;

/// Layout, cutting and drawing.
#[derive(Debug, Subcommand)]
pub enum LayoutVerb {
    /// Tells what the layout checks find on a piece: what, where, how much is missing, what cures it.
    #[command(after_help = findings::MORE)]
    Findings(findings::FindingsArgs),
    /// Takes a layout finding as it is, with the written reason.
    #[command(after_help = accept::MORE)]
    Accept(accept::AcceptArgs),
    /// Opens a finding again that was accepted.
    #[command(after_help = accept::REOPEN_MORE)]
    Reopen(accept::ReopenArgs),
    /// Shows or notes how a piece will stand: joints, overhangs, appliances, height.
    #[command(after_help = stands::MORE)]
    Stands(stands::StandsArgs),
    /// Shows or changes the layout checks: figure, weight, whether made.
    #[command(after_help = checks::MORE)]
    Checks(checks::ChecksArgs),
    /// Shows or changes the shop's router: bit, guide, speed, depth of a pass.
    #[command(after_help = checks::ROUTER_MORE)]
    Router(Box<checks::RouterVerbArgs>),
    /// Shows or changes how the shop glues up and buys: strips, waste, boards, paper.
    #[command(after_help = checks::BOARDS_MORE)]
    Boards(Box<checks::BoardsArgs>),
    /// Plans a cut: template, passes, feed, what to mind.
    #[command(after_help = cutplan::MORE)]
    Cutplan(Box<cutplan::CutplanArgs>),
    /// Lists the strips of pieces and the lumber to buy, board feet net and gross.
    #[command(after_help = cutlist::MORE)]
    Cutlist(cutlist::CutlistArgs),
    /// Draws a piece to scale in signs, its findings marked.
    #[command(after_help = draw::MORE)]
    Draw(draw::DrawArgs),
    /// Writes the dimensioned sheet of a piece as SVG.
    #[command(after_help = template::SHEET_MORE)]
    Sheet(template::SheetArgs),
    /// Writes a full-size template of a piece or an opening, over sheets of paper.
    #[command(after_help = template::MORE)]
    Template(template::TemplateArgs),
}

impl LayoutVerb {
    /// Does it.
    pub(super) fn run(&self, session: &mut Session<'_>) -> Result<Answer, Failure> {
        match self {
            Self::Findings(args) => findings::run(args, session),
            Self::Accept(args) => accept::run(args, session),
            Self::Reopen(args) => accept::reopen(args, session),
            Self::Stands(args) => stands::run(args, session),
            Self::Checks(args) => checks::run(args, session),
            Self::Router(args) => checks::router(args, session),
            Self::Boards(args) => checks::boards(args, session),
            Self::Cutplan(args) => cutplan::run(args, session),
            Self::Cutlist(args) => cutlist::run(args, session),
            Self::Draw(args) => draw::run(args, session),
            Self::Sheet(args) => template::sheet(args, session),
            Self::Template(args) => template::run(args, session),
        }
    }
}
