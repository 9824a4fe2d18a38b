//! How a cut of a piece is made: template, passes, feed.

use super::{PieceJson, fine, rounded};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::typed::{RouterTyped, read_router};
use crate::papers::{CutOf, cut_cautions, cut_plan, cutting_paper};
use crate::shape::cutting::{CutCaution, CutPlan, TemplateForm};
use crate::units::Length;
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree cutplan 1A cutout-1\n  tackfree cutplan 1A cutout-1 --depth \"9 passes\" --clean-up none\n  tackfree cutplan 1A outline --bit 1/2 --guide \"bushing 5/8\"\n\nWhat is not said is as tackfree router has it. With --json: ticket, id, piece, job_no, job, client,\ncut, passes [no, takes_mm, depth_mm, clean_up], feed_mm_per_min (full, derated, least_percent,\nmost_percent), clean_up_feed_mm_per_min, offset_mm, least_radius_mm,\nleast_inside_radius_mm (where an outline has inside corners), template (length_mm, width_mm,\nradius_mm, diameter_mm), chip_by_hand_mm [least, most], minds, cautions [line, source].";

/// What was typed.
#[derive(Debug, Args)]
pub struct CutplanArgs {
    /// The piece.
    pub piece: String,
    /// What is cut: cutout-1, hole-1 or outline.
    pub cut: String,
    /// The router, where it differs from the shop's.
    #[command(flatten)]
    pub router: RouterArgs,
}

/// A router's figures as typed.
#[derive(Debug, Args)]
pub struct RouterArgs {
    /// Cutting diameter of the bit.
    #[arg(long)]
    pub bit: Option<String>,
    /// How long its cutting edges are.
    #[arg(long, value_name = "LENGTH")]
    pub cutting_length: Option<String>,
    /// Its flutes.
    #[arg(long)]
    pub flutes: Option<String>,
    /// Turns a minute.
    #[arg(long)]
    pub rpm: Option<String>,
    /// What one flute takes in one turn: 0.005 in, or 0.1 mm.
    #[arg(long)]
    pub chip: Option<String>,
    /// How deep a pass may go: at most 1/4, half bit, whole bit or 9 passes.
    #[arg(long)]
    pub depth: Option<String>,
    /// What is left for the end: none, last 1/16 or wall 1/8.
    #[arg(long)]
    pub clean_up: Option<String>,
    /// bushing and its outside diameter, or bearing.
    #[arg(long)]
    pub guide: Option<String>,
}

impl RouterArgs {
    /// Whether anything was typed.
    pub fn says_something(&self) -> bool {
        let all = [
            &self.bit,
            &self.cutting_length,
            &self.flutes,
            &self.rpm,
            &self.chip,
            &self.depth,
            &self.clean_up,
            &self.guide,
        ];
        all.iter().any(|typed| typed.is_some())
    }

    /// Puts what was typed over what stood there.
    pub fn over(&self, typed: &mut RouterTyped) {
        let pairs = [
            (&mut typed.bit, &self.bit),
            (&mut typed.cutting_length, &self.cutting_length),
            (&mut typed.flutes, &self.flutes),
            (&mut typed.rpm, &self.rpm),
            (&mut typed.chip, &self.chip),
            (&mut typed.depth, &self.depth),
            (&mut typed.clean_up, &self.clean_up),
            (&mut typed.guide, &self.guide),
        ];
        for (over, typed) in pairs {
            if let Some(typed) = typed {
                over.clone_from(typed);
            }
        }
    }
}

#[derive(Serialize)]
struct CutplanJson {
    #[serde(flatten)]
    piece: PieceJson,
    cut: String,
    passes: Vec<PassJson>,
    feed_mm_per_min: FeedJson,
    clean_up_feed_mm_per_min: Option<f64>,
    offset_mm: f64,
    least_radius_mm: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    least_inside_radius_mm: Option<f64>,
    template: Option<TemplateJson>,
    chip_by_hand_mm: [f64; 2],
    minds: Vec<String>,
    cautions: Vec<CautionJson>,
}

#[derive(Serialize)]
struct PassJson {
    no: u32,
    takes_mm: f64,
    depth_mm: f64,
    clean_up: bool,
}

#[derive(Serialize)]
struct FeedJson {
    full: f64,
    derated: f64,
    least_percent: f64,
    most_percent: f64,
}

#[allow(clippy::struct_field_names)] // the unit stands in every name
#[derive(Default, Serialize)]
struct TemplateJson {
    length_mm: Option<f64>,
    width_mm: Option<f64>,
    radius_mm: Option<f64>,
    diameter_mm: Option<f64>,
}

#[derive(Serialize)]
struct CautionJson {
    line: &'static str,
    source: &'static str,
}

fn mm(length: Length) -> f64 {
    fine(length.mm())
}

fn template(form: TemplateForm) -> TemplateJson {
    match form {
        TemplateForm::Rectangle {
            length,
            width,
            radius,
        } => TemplateJson {
            length_mm: Some(mm(length)),
            width_mm: Some(mm(width)),
            radius_mm: Some(mm(radius)),
            diameter_mm: None,
        },
        TemplateForm::Circle { diameter } => TemplateJson {
            diameter_mm: Some(mm(diameter)),
            ..TemplateJson::default()
        },
    }
}

/// Plans it.
pub fn run(args: &CutplanArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let of = cut(file, &args.cut)?;
    let mut typed = RouterTyped::of(&shop.layout.router, &shop.settings);
    args.router.over(&mut typed);
    let router = read_router(&typed, &shop.settings)?;
    let said = |error: crate::shape::cutting::CutError| Failure::said(error.to_string());
    let plan = cut_plan(file, of, &router).map_err(said)?;
    let lines = cutting_paper(&shop, file, of, &router).map_err(said)?;
    Answer::new(
        lines,
        json(
            PieceJson::of(&shop, file),
            of,
            &plan,
            cut_cautions(file, of),
        ),
    )
}

/// The cut meant.
pub fn cut(file: &crate::shop::PieceFile, text: &str) -> Result<CutOf, Failure> {
    CutOf::of_code(file, text.trim()).ok_or_else(|| {
        let codes: Vec<String> = CutOf::all(file).into_iter().map(CutOf::code).collect();
        Failure::said(format!(
            "\"{}\" is nothing that is cut on this piece: say {}.",
            crate::units::clean_line(text).0,
            codes.join(" or ")
        ))
    })
}

fn json(piece: PieceJson, of: CutOf, plan: &CutPlan, cautions: Vec<CutCaution>) -> CutplanJson {
    let passes = plan.passes.iter().map(|pass| PassJson {
        no: pass.no,
        takes_mm: mm(pass.takes),
        depth_mm: mm(pass.depth),
        clean_up: pass.clean_up,
    });
    CutplanJson {
        piece,
        cut: of.code(),
        passes: passes.collect(),
        feed_mm_per_min: FeedJson {
            full: rounded(plan.feed.full.mm()),
            derated: rounded(plan.feed.derated.mm()),
            least_percent: rounded(plan.feed.derate.least * 100.0),
            most_percent: rounded(plan.feed.derate.most * 100.0),
        },
        clean_up_feed_mm_per_min: plan
            .clean_up_feed
            .as_ref()
            .map(|feed| rounded(feed.derated.mm())),
        offset_mm: mm(plan.offset),
        least_radius_mm: mm(plan.least_radius),
        least_inside_radius_mm: plan.least_inside.map(mm),
        template: plan.template.map(|made| template(made.form)),
        chip_by_hand_mm: [mm(plan.chip_by_hand.0), mm(plan.chip_by_hand.1)],
        minds: plan.minds.clone(),
        cautions: cautions
            .into_iter()
            .map(|caution| CautionJson {
                line: caution.line,
                source: caution.source,
            })
            .collect(),
    }
}
