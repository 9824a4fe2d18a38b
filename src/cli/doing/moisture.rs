//! Notes moisture readings, corrects them, and lists them.

use super::put;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::reading::ReadingJson;
use crate::cli::session::Session;
use crate::desk::typed::{ReadingTyped, read_reading};
use crate::desk::{Action, Shop, Which};
use crate::papers::wood::{reading_code, reading_line};
use crate::shop::{Moisture, PieceFile};
use clap::Args;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree moisture 1A 8.4 --place \"underside, left end\" --depth 3/8 --correction +0.7\n  tackfree moisture 1A 8.6 --fix 3f2a1c\n  tackfree moisture 1A\n\nReadings are compared place by place, so say the place the same way each time. Without a value the\nreadings are listed, each with its code; tackfree remove reading CODE takes one away. With --json, a\nlist: code, id, at, place, meter, shown_pct, content_pct, depth_mm, correction.";

/// What was typed.
#[derive(Debug, Args)]
pub struct MoistureArgs {
    /// The piece.
    pub piece: String,
    /// What the meter showed, in per cent; none lists the readings.
    #[arg(allow_hyphen_values = true)]
    pub value: Option<String>,
    /// Where on the piece.
    #[arg(long)]
    pub place: Option<String>,
    /// How deep the pins went.
    #[arg(long)]
    pub depth: Option<String>,
    /// With what: pin, pad or oven; a pin meter unless said.
    #[arg(long)]
    pub meter: Option<String>,
    /// The species correction: "not noted", "in the meter", or points to add, like +0.7.
    #[arg(long, value_name = "CORRECTION", allow_hyphen_values = true)]
    pub correction: Option<String>,
    /// When: now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// Corrects the reading of this code instead of noting a new one.
    #[arg(long, value_name = "CODE")]
    pub fix: Option<String>,
}

/// The reading of a code or identifier, on this piece or, without one, on any.
pub(super) fn reading<'a>(
    shop: &'a Shop,
    file: Option<&PieceFile>,
    text: &str,
) -> Result<&'a Moisture, Failure> {
    let typed = text.trim().to_lowercase();
    let mut found = shop
        .wood
        .readings
        .iter()
        .filter(|of| file.is_none_or(|file| of.piece == file.piece.id))
        .filter(|of| of.id.to_string() == typed || reading_code(of.id) == typed);
    match (found.next(), found.next()) {
        (Some(one), None) => Ok(one),
        _ => Err(Failure::said(
            "There is no such reading: say its code (tackfree moisture 1A lists them).",
        )),
    }
}

/// Does it.
pub fn run(args: &MoistureArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let before = match &args.fix {
        Some(code) => Some(reading(&shop, Some(file), code)?),
        None => None,
    };
    let options = [
        &args.place,
        &args.depth,
        &args.meter,
        &args.correction,
        &args.at,
    ];
    let any = options.iter().any(|option| option.is_some());
    if args.value.is_none() && before.is_none() {
        if any {
            return Err(Failure::said(
                "What did the meter show? Say it behind the piece, like tackfree moisture 1A 8.4.",
            ));
        }
        return list(&shop, file, session);
    }
    let before_reading = before.map(|of| &of.reading);
    let mut typed = before_reading.map_or_else(ReadingTyped::default, |of| {
        ReadingTyped::of(of, &shop.settings)
    });
    put(&mut typed.value, args.value.as_ref());
    put(&mut typed.place, args.place.as_ref());
    put(&mut typed.depth, args.depth.as_ref());
    put(&mut typed.meter, args.meter.as_ref());
    put(&mut typed.correction, args.correction.as_ref());
    put(&mut typed.at, args.at.as_ref());
    let reading = read_reading(&typed, before_reading, &shop.settings, session.now)?;
    let which = before.map_or(Which::New, |of| Which::This(of.id));
    session.perform(&Action::SaveMoisture(which, file.piece.id, reading))
}

fn list(shop: &Shop, file: &PieceFile, session: &Session<'_>) -> Result<Answer, Failure> {
    let readings = shop.moisture(file.piece.id);
    let mut lines: Vec<String> = readings
        .iter()
        .map(|of| {
            let line = reading_line(of, shop, session.now);
            format!("{}  {line}", reading_code(of.id))
        })
        .collect();
    if lines.is_empty() {
        lines.push(format!("No moisture reading of {} yet.", shop.called(file)));
    }
    let json: Vec<ReadingJson> = readings
        .iter()
        .map(|of| ReadingJson::of(&of.reading, shop, file))
        .collect();
    Answer::new(lines, json)
}
