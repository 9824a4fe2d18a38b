//! What planning of use allows for.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::desk::UseAction;
use crate::desk::typed::{UseRulesTyped, read_use_rules};
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::Columns;
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree allow\n  tackfree allow --reserve 15 --scale \"0.1 g\"\n\nLoss and bare wood count only where no pass of yours stands behind the rate: what you weighed has its\nlosses in it. Sprayed, the loss is 30 % at least. With --json and nothing to set: reserve_percent,\nloss_percent, bare_percent, scale_g, cup_ml.";

/// What was typed.
#[derive(Debug, Args)]
pub struct AllowArgs {
    /// Bought beyond the need, in per cent of it.
    #[arg(long, value_name = "PERCENT")]
    pub reserve: Option<String>,
    /// Lost to rag, brush and tray, in per cent of the label's rate.
    #[arg(long, value_name = "PERCENT")]
    pub loss: Option<String>,
    /// What a first coat on bare wood covers, in per cent of a later one.
    #[arg(long, value_name = "PERCENT")]
    pub bare: Option<String>,
    /// What the last digit of the scale counts.
    #[arg(long, value_name = "WEIGHT")]
    pub scale: Option<String>,
    /// How far the marks of the measuring cup lie apart.
    #[arg(long, value_name = "VOLUME")]
    pub cup: Option<String>,
}

#[derive(Serialize)]
struct AllowJson {
    reserve_percent: u32,
    loss_percent: u32,
    bare_percent: u32,
    scale_g: f64,
    cup_ml: f64,
}

/// Does it, or tells what is allowed for.
pub fn run(args: &AllowArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let typed = UseRulesTyped {
        reserve: args.reserve.clone(),
        loss: args.loss.clone(),
        bare: args.bare.clone(),
        scale: args.scale.clone(),
        cup: args.cup.clone(),
    };
    let rules = shop.use_book.rules;
    if typed != UseRulesTyped::default() {
        let rules = read_use_rules(&typed, rules, &shop.settings)?;
        return session.perform_use(UseAction::SaveUseRules(rules));
    }
    let mut columns = Columns::at_most(&[]);
    let percent = |value: u32| format!("{value} %");
    columns.row([
        "reserve",
        &percent(rules.reserve_percent),
        "beyond the need",
    ]);
    let words = "of the label's rate, to rag, brush and tray; sprayed 30 % at least";
    columns.row(["loss", &percent(rules.loss_percent), words]);
    let words = "of what a later coat covers, where only the label is known";
    columns.row(["bare wood", &percent(rules.bare_percent), words]);
    columns.row(["scale", &format!("{} g", rules.scale.g()), "its last digit"]);
    columns.row(["cup", &format!("{} mL", rules.cup.ml()), "between marks"]);
    let json = AllowJson {
        reserve_percent: rules.reserve_percent,
        loss_percent: rules.loss_percent,
        bare_percent: rules.bare_percent,
        scale_g: rules.scale.g(),
        cup_ml: rules.cup.ml(),
    };
    Answer::new(columns.lines(0, PAPER_WIDTH), json)
}
