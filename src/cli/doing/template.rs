//! Writes the dimensioned sheet or the full-size template of a piece.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::reading::cutplan::cut;
use crate::cli::session::Session;
use crate::papers::{CutOf, cut_plan, named_files, sheet_svg, template_files};
use crate::shape::drawing::{Extra, Page, TemplateOf};
use crate::store::{write_paper, write_papers};
use crate::units::{clean_line, counted};
use clap::Args;
use serde::Serialize;
use std::path::PathBuf;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree template 1A --of cutout-1 --to ./sink\n  tackfree template 1A --guide --below --page a4 --to ./whole\n\nInto a new folder go all.svg (for a plotter), one SVG for each sheet of paper, and print.html with all\nsheets, for a browser. Print at 100 %, measure the 100 mm ruler, then lay the crosses over each other.\nWith --json: done, notes, folder, files, sheets, blank_sheets.";
/// Examples.
pub const SHEET_MORE: &str = "Example:\n  tackfree sheet 1A --to 1A.svg\n\nThe whole piece to a round scale, with sizes, grain, faces and findings. Nothing that is there is\noverwritten. With --json: done, notes, file.";

/// What was typed.
#[derive(Debug, Args)]
pub struct TemplateArgs {
    /// The piece.
    pub piece: String,
    /// outline for the whole piece, or one opening: cutout-1, hole-1.
    #[arg(long, default_value = "outline")]
    pub of: String,
    /// Draws the line to cut a router template to as well, by the shop's guide and bit.
    #[arg(long)]
    pub guide: bool,
    /// As seen from the underside, left and right changed over.
    #[arg(long)]
    pub below: bool,
    /// The paper: a4 or letter; the shop's where not said.
    #[arg(long)]
    pub page: Option<String>,
    /// A new folder.
    #[arg(long)]
    pub to: PathBuf,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct SheetArgs {
    /// The piece.
    pub piece: String,
    /// The paper: a4 or letter; the shop's where not said.
    #[arg(long)]
    pub page: Option<String>,
    /// A new file.
    #[arg(long)]
    pub to: PathBuf,
}

#[derive(Serialize)]
struct TemplateJson {
    done: String,
    notes: Vec<String>,
    folder: String,
    files: Vec<String>,
    sheets: usize,
    blank_sheets: usize,
}

#[derive(Serialize)]
struct SheetJson {
    done: String,
    notes: Vec<String>,
    file: String,
}

fn page(typed: Option<&String>, shops: Page) -> Result<Page, Failure> {
    match typed {
        None => Ok(shops),
        Some(word) => Page::of_word(word.trim())
            .ok_or_else(|| Failure::said("The paper is a4 or letter: say one of them.")),
    }
}

/// The full-size template.
pub fn run(args: &TemplateArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let page = page(args.page.as_ref(), shop.layout.page)?;
    let meant = cut(file, &args.of)?;
    let of = match meant {
        CutOf::Outline => TemplateOf::Piece,
        CutOf::Opening(name) => TemplateOf::Opening(name),
    };
    let guide_offset = if args.guide {
        let plan = cut_plan(file, meant, &shop.layout.router);
        Some(
            plan.map_err(|error| Failure::said(error.to_string()))?
                .offset,
        )
    } else {
        None
    };
    let extra = Extra {
        guide_offset,
        from_below: args.below,
    };
    let made = template_files(&shop, file, of, extra, page)
        .ok_or_else(|| Failure::said("There is nothing of that name to draw."))?;
    let files = named_files(&made, page);
    write_papers(&args.to, &files).map_err(|error| Failure::said(error.to_string()))?;
    let blank = made.tiles.iter().filter(|tile| tile.svg.is_none()).count();
    let sheets = made.tiles.len() - blank;
    let folder = clean_line(&args.to.display().to_string()).0;
    let done = format!(
        "Wrote the template of {} to {folder}: {} of {}",
        made.heading,
        counted(sheets, "sheet", "sheets"),
        page.word()
    );
    let mut notes = Vec::new();
    if blank > 0 {
        notes.push(format!(
            "{blank} sheets without a line on them are left out."
        ));
    }
    let mut lines = vec![done.clone()];
    lines.extend(notes.iter().map(|note| format!("Mind: {note}")));
    let json = TemplateJson {
        done,
        notes,
        folder,
        files: files.into_iter().map(|(name, _)| name).collect(),
        sheets,
        blank_sheets: blank,
    };
    Answer::new(lines, json)
}

/// The dimensioned sheet.
pub fn sheet(args: &SheetArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let page = page(args.page.as_ref(), shop.layout.page)?;
    let svg = sheet_svg(&shop, file, page);
    write_paper(&args.to, &svg).map_err(|error| Failure::said(error.to_string()))?;
    let path = clean_line(&args.to.display().to_string()).0;
    let done = format!("Wrote the sheet of {} to {path}", shop.called(file));
    let json = SheetJson {
        done: done.clone(),
        notes: Vec::new(),
        file: path,
    };
    Answer::new(vec![done], json)
}
