//! Notes how a piece's wood lies and how it will be held, or shows it.

use super::put;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Action;
use crate::desk::typed::{LieTyped, read_lie};
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::Columns;
use clap::Args;
use serde::Serialize;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree fasten 1A --grain flat --held front --screw 1/4\n  tackfree fasten 1A --stands \"L or U corner, walls at both ends\"\n  tackfree fasten 1A\n\nWhat it changes is told by tackfree wood. Stands: back along a wall, free all round, walls at both\nends, L or U corner, drop-in sink, breadboard end or cleat, joint that shows. With --json and nothing\nto change: wood, grain, held, screw, spacing, figure_eight, stands.";

/// What was typed.
#[derive(Debug, Args)]
pub struct FastenArgs {
    /// The piece.
    pub piece: String,
    /// Its wood by its name in the table; "" takes the ticket's species.
    #[arg(long, value_name = "NAME")]
    pub wood: Option<String>,
    /// How its boards were sawn: flat, quarter, mixed or unknown.
    #[arg(long)]
    pub grain: Option<String>,
    /// Where its width is held: front, middle or back.
    #[arg(long, value_name = "EDGE")]
    pub held: Option<String>,
    /// Diameter of the screws.
    #[arg(long, value_name = "SIZE")]
    pub screw: Option<String>,
    /// The most between two fasteners: close (18 in), wide (36 in), or a length.
    #[arg(long)]
    pub spacing: Option<String>,
    /// Between the two holes of a figure-eight.
    #[arg(long, value_name = "SIZE")]
    pub eight: Option<String>,
    /// What is to be minded where it stands, parted by commas; none.
    #[arg(long, value_name = "WHERE")]
    pub stands: Option<String>,
}

#[derive(Serialize)]
struct LieJson {
    wood: String,
    grain: String,
    held: String,
    screw: String,
    spacing: String,
    figure_eight: String,
    stands: String,
}

/// Does it.
pub fn run(args: &FastenArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let mut typed = LieTyped::of(&shop.wood.lie(&file.piece), &shop.settings);
    let options = [
        &args.wood,
        &args.grain,
        &args.held,
        &args.screw,
        &args.spacing,
        &args.eight,
        &args.stands,
    ];
    if options.iter().all(|option| option.is_none()) {
        return show(typed);
    }
    put(&mut typed.wood, args.wood.as_ref());
    put(&mut typed.grain, args.grain.as_ref());
    put(&mut typed.held, args.held.as_ref());
    put(&mut typed.screw, args.screw.as_ref());
    put(&mut typed.spacing, args.spacing.as_ref());
    put(&mut typed.eight, args.eight.as_ref());
    put(&mut typed.stands, args.stands.as_ref());
    let lie = read_lie(&typed, file.piece.id, &shop.settings)?;
    session.perform(&Action::SavePieceWood(lie))
}

fn show(typed: LieTyped) -> Result<Answer, Failure> {
    let or = |text: &str, none: &str| if text.is_empty() { none } else { text }.to_owned();
    let mut columns = Columns::default();
    columns.row(["wood", &or(&typed.wood, "as the ticket says")]);
    columns.row(["grain", &typed.grain]);
    columns.row(["held", &typed.held]);
    columns.row(["screw", &typed.screw]);
    columns.row(["spacing", &typed.spacing]);
    columns.row(["figure-eight", &typed.eight]);
    columns.row(["stands", &or(&typed.stands, "nothing noted")]);
    let json = LieJson {
        wood: typed.wood,
        grain: typed.grain,
        held: typed.held,
        screw: typed.screw,
        spacing: typed.spacing,
        figure_eight: typed.eight,
        stands: typed.stands,
    };
    Answer::new(columns.lines(0, PAPER_WIDTH), json)
}
