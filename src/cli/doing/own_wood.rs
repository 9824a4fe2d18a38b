//! Adds a wood of the shop's own or changes one; and the rule of readiness.

use super::put;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::desk::typed::{RuleTyped, WoodTyped, read_rule, read_wood};
use crate::desk::{Action, Shop, Which};
use crate::shop::ShopWood;
use clap::Args;
use serde::Serialize;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree own-wood \"Mill run elm\" --shrinkage \"4.2 / 8.1\" --source \"the mill's sheet\"\n  tackfree own-wood \"Mill run elm\" --gravity 0.5\n  tackfree remove wood \"Mill run elm\"\n\nA name that is yours already is changed, another one is added. Shrinkage is radial / tangential from\ngreen to ovendry in per cent, change radial / tangential per point of moisture; one of them is needed.";

/// Examples of the rule.
pub const RULE_MORE: &str = "Examples:\n  tackfree steady\n  tackfree steady --days 7 --within 0.5 --care 10 --stop 12 --fresh 14\n\nA place is steady when two readings so many days apart differ by no more than so many points. With\n--json and nothing to change: days_apart, within_points, care_over_pct, stop_over_pct, fresh_days,\nwords.";

/// What was typed.
#[derive(Debug, Args)]
pub struct OwnWoodArgs {
    /// Its name.
    pub name: String,
    /// A new name for it.
    #[arg(long, value_name = "NAME")]
    pub rename: Option<String>,
    /// Its botanical name.
    #[arg(long)]
    pub botanical: Option<String>,
    /// Radial and tangential shrinkage, green to ovendry, in per cent: "4.8 / 9.9".
    #[arg(long, value_name = "PAIR")]
    pub shrinkage: Option<String>,
    /// Radial and tangential change per point of moisture: "0.00165 / 0.00353".
    #[arg(long, value_name = "PAIR")]
    pub change: Option<String>,
    /// Specific gravity at 12 % moisture.
    #[arg(long)]
    pub gravity: Option<String>,
    /// Where the figures are from.
    #[arg(long)]
    pub source: Option<String>,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct SteadyArgs {
    /// Days between the two readings.
    #[arg(long)]
    pub days: Option<String>,
    /// Points they may differ by.
    #[arg(long, value_name = "POINTS")]
    pub within: Option<String>,
    /// Care above this moisture content.
    #[arg(long, value_name = "PERCENT")]
    pub care: Option<String>,
    /// Stop above this one.
    #[arg(long, value_name = "PERCENT")]
    pub stop: Option<String>,
    /// Days that a reading speaks for the piece.
    #[arg(long, value_name = "DAYS")]
    pub fresh: Option<String>,
}

/// The wood of the shop's own of this name.
pub(super) fn own<'a>(shop: &'a Shop, name: &str) -> Option<&'a ShopWood> {
    let wanted = name.trim().to_lowercase();
    let mut all = shop.wood.own.iter();
    all.find(|own| own.wood.name.to_lowercase() == wanted)
}

/// Does it.
pub fn run(args: &OwnWoodArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let before = own(&shop, &args.name);
    let mut typed = before.map_or_else(
        || WoodTyped {
            name: args.name.clone(),
            ..WoodTyped::default()
        },
        |own| WoodTyped::of(&own.wood),
    );
    put(&mut typed.name, args.rename.as_ref());
    put(&mut typed.botanical, args.botanical.as_ref());
    put(&mut typed.shrinkage, args.shrinkage.as_ref());
    put(&mut typed.change, args.change.as_ref());
    put(&mut typed.gravity, args.gravity.as_ref());
    put(&mut typed.source, args.source.as_ref());
    let wood = read_wood(&typed)?;
    let which = before.map_or(Which::New, |own| Which::This(own.id));
    session.perform(&Action::SaveWood(which, wood))
}

#[derive(Serialize)]
struct RuleJson {
    days_apart: u16,
    within_points: f64,
    care_over_pct: f64,
    stop_over_pct: f64,
    fresh_days: u16,
    words: String,
}

/// Shows or changes the rule.
pub fn steady(args: &SteadyArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let rule = session.shop()?.wood.rule;
    let options = [
        &args.days,
        &args.within,
        &args.care,
        &args.stop,
        &args.fresh,
    ];
    if options.iter().all(|option| option.is_none()) {
        let words = rule.words();
        let lines = vec![format!("Ready: {words}.")];
        let json = RuleJson {
            days_apart: rule.days_apart,
            within_points: rule.within,
            care_over_pct: rule.care_over.percent(),
            stop_over_pct: rule.stop_over.percent(),
            fresh_days: rule.fresh_days,
            words,
        };
        return Answer::new(lines, json);
    }
    let mut typed = RuleTyped::of(&rule);
    put(&mut typed.days, args.days.as_ref());
    put(&mut typed.within, args.within.as_ref());
    put(&mut typed.care, args.care.as_ref());
    put(&mut typed.stop, args.stop.as_ref());
    put(&mut typed.fresh, args.fresh.as_ref());
    session.perform(&Action::SaveReadyRule(read_rule(&typed)?))
}
