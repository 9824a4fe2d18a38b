//! Logs a pass.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::{CautionJson, CheckJson, PassTold, Session};
use crate::desk::typed::{
    FieldError, read_air, read_amount, read_method, read_scuff, read_take, read_weight,
};
use crate::desk::{Action, CanPick, DrawnDraft, PassAsked, PassDraft, Shop, stands_words};
use crate::shop::{CoatKind, PieceFile, Stage, Ticket, cautions_for_pass};
use crate::units::Mass;
use clap::Args;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree pass 1A\n  tackfree pass 1A 1B --used \"4 oz\" --start \"40 min ago\" --air \"68F 45%\" --scuffed \"brown paper\"\n  tackfree pass 1A --can 7 --used \"> 884 g\" --lost \"6 g\"\n  tackfree pass 1A --can \"7: 4 oz\" --can \"8: 1.5 oz\"\n  tackfree pass 1A --faces \"left, right\" --used \"1042 g > 884 g\"\n\nWhat kind of coat it is follows from the stage of the first piece. Without --faces: those next in\nline; without --product: the schedule's; without --used: estimated from area and spread rate. A\ncoat below that is not dry to recoat refuses it, unless a touch test says otherwise.\n\nWithout --can: the open can of the product, where there is just one. \"> 884 g\" is the weight after;\nbefore, the can weighed what it was weighed last. What is doubtful is asked; --sure says yes.\n\nThe answer tells the checks before a pass (dew point, the product's limits, wood moisture, wipe\nflashed off, stain dry), each ok, mind, wait or not known, and the cautions of the product; with\n--check that is all it does. With --json: done, notes, made, called, checks [stands, words],\ncautions [line, source].";

/// What was typed.
#[derive(Debug, Args)]
pub struct PassArgs {
    /// The pieces, coated in one go.
    #[arg(required = true)]
    pub pieces: Vec<String>,
    /// The faces; those next in line unless said.
    #[arg(long)]
    pub faces: Option<String>,
    /// The product; the schedule's unless said.
    #[arg(long)]
    pub product: Option<String>,
    /// When it started; as its end unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub start: Option<String>,
    /// When it ended; now unless said. Drying counts from here.
    #[arg(
        long,
        visible_alias = "at",
        value_name = "TIME",
        allow_hyphen_values = true
    )]
    pub end: Option<String>,
    /// How much: "4 oz", "120 mL", or the can before and after, "1042 g > 884 g".
    #[arg(long, value_name = "AMOUNT", allow_hyphen_values = true)]
    pub used: Option<String>,
    /// Which cans, what was lost, how it was put on.
    #[command(flatten)]
    pub drawn: DrawnArgs,
    /// Shop air: "68F 45%".
    #[arg(long, allow_hyphen_values = true)]
    pub air: Option<String>,
    /// Scuffed just before, with a grit like 320, pad or "brown paper".
    #[arg(long, value_name = "MEANS", allow_hyphen_values = true)]
    pub scuffed: Option<String>,
    /// Only tells the checks and the cautions; logs nothing.
    #[arg(long)]
    pub check: bool,
}

/// Where what a pass used came from and how it was put on, as typed.
#[derive(Debug, clap::Args)]
pub struct DrawnArgs {
    /// The can it came from, with how much where it came from several: 7, "7: 1042 g > 884 g".
    #[arg(long, value_name = "CAN", conflicts_with = "no_can")]
    pub can: Vec<String>,
    /// Names no can.
    #[arg(long)]
    pub no_can: bool,
    /// What stayed in rag and tray, weighed at once: "6 g".
    #[arg(long, value_name = "WEIGHT", allow_hyphen_values = true)]
    pub lost: Option<String>,
    /// How it was put on: wiped, brushed or sprayed; as its family usually is unless said.
    #[arg(long)]
    pub method: Option<String>,
    /// Says yes to what was asked.
    #[arg(long)]
    pub sure: bool,
}

/// The kind of coat laid where this piece stands, or next after it: the desk then says what is
/// still missing for that.
fn kind_at(file: &PieceFile) -> CoatKind {
    let ticket = Ticket::of(file);
    let next = |stage: Stage| ticket.schedule.next_stage(stage);
    CoatKind::of_stage(ticket.stage)
        .or_else(|| next(ticket.stage).and_then(CoatKind::of_stage))
        .unwrap_or(CoatKind::Topcoat)
}

/// Does it.
pub fn run(args: &PassArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let files = find::pieces(&shop, &args.pieces)?;
    let kind = files
        .first()
        .map_or(CoatKind::Topcoat, |file| kind_at(file));
    let product = match &args.product {
        Some(text) => Some(find::product(&shop, text)?.id),
        None => None,
    };
    let ended = session.when("end", args.end.as_deref(), &shop)?;
    let started = match &args.start {
        Some(text) => session.when("start", Some(text), &shop)?,
        None => ended,
    };
    let settings = &shop.settings;
    let draft = PassDraft {
        picks: find::picks(&shop, &args.pieces, args.faces.as_deref())?,
        kind,
        product,
        started,
        ended,
        amount: read_amount(args.used.as_deref().unwrap_or(""), settings)?,
        air: read_air(args.air.as_deref().unwrap_or(""), settings)?,
        scuffed_first: read_scuff(args.scuffed.as_deref().unwrap_or(""))
            .map_err(|error| error.at("scuffed"))?,
        drawn: drawn(&args.drawn, &shop)?,
    };
    let told = told(&shop, &draft, session);
    if args.check {
        let mut lines: Vec<String> = told
            .checks
            .iter()
            .map(|check| format!("Check, {}", check.words))
            .collect();
        let cautions = told.cautions.iter();
        lines.extend(cautions.map(|one| format!("Mind: {} ({})", one.line, one.source)));
        return Answer::new(lines, told);
    }
    session
        .perform_told(&Action::LogPass(draft), Some(&told))
        .map_err(Failure::named_sure)
}

/// Which cans, what was lost, how it was put on.
pub(super) fn drawn(args: &DrawnArgs, shop: &Shop) -> Result<DrawnDraft, Failure> {
    Ok(DrawnDraft {
        cans: picked(&args.can, args.no_can, shop)?.unwrap_or_default(),
        lost: lost(args.lost.as_deref())?,
        method: read_method(args.method.as_deref().unwrap_or(""))?,
        sure: args.sure,
    })
}

/// The cans that were named; none: nothing was said of them.
pub(super) fn picked(
    cans: &[String],
    no_can: bool,
    shop: &Shop,
) -> Result<Option<CanPick>, FieldError> {
    if no_can {
        return Ok(Some(CanPick::NoCan));
    }
    if cans.is_empty() {
        return Ok(None);
    }
    let takes = cans
        .iter()
        .map(|text| read_take(text, &shop.cans, &shop.settings))
        .collect::<Result<_, _>>()?;
    Ok(Some(CanPick::These(takes)))
}

/// What stayed in rag and tray.
pub(super) fn lost(text: Option<&str>) -> Result<Option<Mass>, FieldError> {
    let text = text.map(str::trim).filter(|text| !text.is_empty());
    text.map(|text| read_weight(text).map_err(|error| FieldError::said("lost", &error)))
        .transpose()
}

/// What is checked before the pass, and the cautions of its product at this step. Where pieces take
/// different products there is nothing to check: the desk refuses such a pass.
fn told(shop: &Shop, draft: &PassDraft, session: &Session<'_>) -> PassTold {
    let mut on = Vec::new();
    let mut product = draft.product;
    for pick in &draft.picks {
        let Some(file) = shop.file(pick.piece) else {
            continue;
        };
        let ticket = Ticket::of(file);
        product = product.or(ticket.schedule.product_for(draft.kind));
        let due = || ticket.due_faces(draft.kind);
        on.push((pick.piece, pick.faces.clone().unwrap_or_else(due)));
    }
    let Some(product) = product.and_then(|id| shop.product(id)) else {
        return PassTold::default();
    };
    let asked = PassAsked {
        on: &on,
        product,
        at: draft.started,
        air: draft.air,
    };
    let checks = shop
        .conditions(&asked, &shop.clock())
        .iter()
        .map(|condition| CheckJson {
            stands: stands_words(condition.finding.stands),
            words: shop.condition_words(condition, session.now),
        })
        .collect();
    let cautions = cautions_for_pass(product, draft.kind, draft.scuffed_first.is_some())
        .into_iter()
        .map(|caution| CautionJson {
            line: caution.line,
            source: caution.source,
        })
        .collect();
    PassTold { checks, cautions }
}
