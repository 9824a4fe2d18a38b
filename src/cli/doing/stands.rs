//! Shows or notes how a piece will stand.

use super::put;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Action;
use crate::desk::typed::{StandingTyped, read_standing};
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::Columns;
use clap::Args;
use serde::Serialize;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree stands 1A\n  tackfree stands 1A --overhangs \"back 12, brackets 9 every 16\" --joints \"across 48\"\n  tackfree stands 1A --appliances \"24 to 48, barrier\" --height 34 --accessible yes --drip 3/8\n\nJoints: across and how far from the left, or along and how far from the front; several parted by ;.\nAn empty text takes what was said away. With --json and nothing to note: joints, overhangs, span,\nappliances, drip, height, accessible, each as it would be typed.";

/// What was typed.
#[derive(Debug, Args)]
pub struct StandsArgs {
    /// The piece.
    pub piece: String,
    /// Joints in the top: across 48; along 12.
    #[arg(long)]
    pub joints: Option<String>,
    /// What hangs out over nothing: back 12, brackets 9 every 16; left 6.
    #[arg(long)]
    pub overhangs: Option<String>,
    /// The longest way between supports.
    #[arg(long)]
    pub span: Option<String>,
    /// Dishwashers and their like below: 24 to 48, barrier.
    #[arg(long)]
    pub appliances: Option<String>,
    /// How far behind the front edge the drip groove runs.
    #[arg(long)]
    pub drip: Option<String>,
    /// Top over the floor.
    #[arg(long)]
    pub height: Option<String>,
    /// yes where accessibility is asked for.
    #[arg(long, value_name = "YES-NO")]
    pub accessible: Option<String>,
}

#[derive(Serialize)]
struct StandsJson<'a> {
    joints: &'a str,
    overhangs: &'a str,
    span: &'a str,
    appliances: &'a str,
    drip: &'a str,
    height: &'a str,
    accessible: &'a str,
}

impl StandsArgs {
    fn all(&self) -> [Option<&String>; 7] {
        [
            self.joints.as_ref(),
            self.overhangs.as_ref(),
            self.span.as_ref(),
            self.appliances.as_ref(),
            self.drip.as_ref(),
            self.height.as_ref(),
            self.accessible.as_ref(),
        ]
    }
}

/// Does it.
pub fn run(args: &StandsArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let piece = file.piece.id;
    let mut typed = StandingTyped::of(&shop.layout_of(piece).standing, &shop.settings);
    if args.all().iter().all(Option::is_none) {
        return show(&typed);
    }
    let [
        joints,
        overhangs,
        span,
        appliances,
        drip,
        height,
        accessible,
    ] = args.all();
    put(&mut typed.joints, joints);
    put(&mut typed.overhangs, overhangs);
    put(&mut typed.span, span);
    put(&mut typed.appliances, appliances);
    put(&mut typed.drip, drip);
    put(&mut typed.height, height);
    put(&mut typed.accessible, accessible);
    let standing = read_standing(&typed, &shop.settings)?;
    session.perform(&Action::SaveStanding(piece, Box::new(standing)))
}

fn show(typed: &StandingTyped) -> Result<Answer, Failure> {
    let json = StandsJson {
        joints: &typed.joints,
        overhangs: &typed.overhangs,
        span: &typed.span,
        appliances: &typed.appliances,
        drip: &typed.drip,
        height: &typed.height,
        accessible: &typed.accessible,
    };
    let or_none = |text: &str| if text.is_empty() { "not said" } else { text }.to_owned();
    let mut columns = Columns::default();
    columns.row(["joints", &or_none(json.joints)]);
    columns.row(["overhangs", &or_none(json.overhangs)]);
    columns.row(["span between supports", &or_none(json.span)]);
    columns.row(["appliances below", &or_none(json.appliances)]);
    columns.row(["drip groove behind front", &or_none(json.drip)]);
    columns.row(["height over the floor", &or_none(json.height)]);
    columns.row(["accessibility asked", json.accessible]);
    Answer::new(columns.lines(0, PAPER_WIDTH), json)
}
