//! Shows or changes the shop's settings.

use super::put;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::desk::Action;
use crate::desk::typed::{SettingsTyped, read_settings};
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::Columns;
use clap::Args;
use serde::Serialize;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree shop\n  tackfree shop --name \"Alder Row Tops\" --length mm --temperature C --volume mL --zone Europe/Oslo\n\nWith --json and nothing to change: name, address, length, temperature, volume, zone, look.";

/// What was typed.
#[derive(Debug, Args)]
pub struct ShopArgs {
    /// The shop's name, on papers.
    #[arg(long)]
    pub name: Option<String>,
    /// The shop's address, on papers.
    #[arg(long)]
    pub address: Option<String>,
    /// Lengths: 1/16 in, 1/32 in or mm.
    #[arg(long, value_name = "UNIT")]
    pub length: Option<String>,
    /// Temperatures: F or C.
    #[arg(long, value_name = "UNIT")]
    pub temperature: Option<String>,
    /// Volumes: oz or mL.
    #[arg(long, value_name = "UNIT")]
    pub volume: Option<String>,
    /// The shop's zone, by its name in the IANA list: America/Chicago.
    #[arg(long)]
    pub zone: Option<String>,
    /// The look of the screen: auto, dark, light or plain.
    #[arg(long)]
    pub look: Option<String>,
}

impl ShopArgs {
    fn all(&self) -> [Option<&String>; 7] {
        [
            self.name.as_ref(),
            self.address.as_ref(),
            self.length.as_ref(),
            self.temperature.as_ref(),
            self.volume.as_ref(),
            self.zone.as_ref(),
            self.look.as_ref(),
        ]
    }
}

#[derive(Serialize)]
struct ShopJson<'a> {
    name: &'a str,
    address: &'a str,
    length: &'a str,
    temperature: &'a str,
    volume: &'a str,
    zone: &'a str,
    look: &'a str,
}

/// Does it.
pub fn run(args: &ShopArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let mut typed = SettingsTyped::of(&session.shop()?.settings);
    if args.all().iter().all(Option::is_none) {
        return show(&typed);
    }
    let [name, address, length, temperature, volume, zone, look] = args.all();
    put(&mut typed.shop_name, name);
    put(&mut typed.shop_address, address);
    put(&mut typed.length, length);
    put(&mut typed.temperature, temperature);
    put(&mut typed.volume, volume);
    put(&mut typed.zone, zone);
    put(&mut typed.look, look);
    session.perform(&Action::SaveSettings(read_settings(&typed)?))
}

fn show(typed: &SettingsTyped) -> Result<Answer, Failure> {
    let json = ShopJson {
        name: &typed.shop_name,
        address: &typed.shop_address,
        length: &typed.length,
        temperature: &typed.temperature,
        volume: &typed.volume,
        zone: &typed.zone,
        look: &typed.look,
    };
    let or_none = |text: &str| if text.is_empty() { "not said" } else { text }.to_owned();
    let mut columns = Columns::default();
    columns.row(["name", &or_none(json.name)]);
    columns.row(["address", &or_none(json.address)]);
    columns.row(["lengths", json.length]);
    columns.row(["temperatures", json.temperature]);
    columns.row(["volumes", json.volume]);
    columns.row(["zone", json.zone]);
    columns.row(["look", json.look]);
    Answer::new(columns.lines(0, PAPER_WIDTH), json)
}
