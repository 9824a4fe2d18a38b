//! Cans: received, opened, weighed, mixed, poured off, thrown away, moved, corrected.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::coating::ProductId;
use crate::desk::typed::{FieldError, read_can_no, read_keeps, read_weight};
use crate::desk::{Action, CanAction, CanDraft, MixDraft, MixPart, Shop};
use crate::shop::{Came, CanId, CanLineId, JarFor, Keeps};
use crate::units::{Mass, Money, Volume};
use clap::{Args, Subcommand};

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree can receive \"brown gel stain\" --count 2 --batch B-114 --price 26.00 --keeps \"3 years\"\n  tackfree can open 7\n  tackfree can weigh 7 \"2 lb 4 oz\"\n  tackfree can mix 7 8 --place \"bench\"\n  tackfree can jar 7 \"2 fl oz\" --job 3\n  tackfree can discard 7 \"skinned over\"\n\nA can is named by the number on its lid (tackfree cans lists them). A weight that went up or lies\nbelow the empty can, and more taken than was left, is asked about; --sure says yes. With --json:\ndone, notes, made, called.";

/// What was typed.
#[derive(Debug, Args)]
pub struct CanArgs {
    /// What happened to it.
    #[command(subcommand)]
    pub what: CanVerb,
}

/// What happened to a can.
#[derive(Debug, Subcommand)]
pub enum CanVerb {
    /// Cans came in: one, or several alike.
    Receive(ReceiveArgs),
    /// A can was opened.
    Open(OpenArgs),
    /// A can was weighed as it stands, lid and all.
    Weigh(WeighArgs),
    /// Several cans were poured together into one batch.
    Mix(MixArgs),
    /// A touch-up jar was poured off for a client or a job.
    Jar(JarArgs),
    /// Something was lost outside a pass: spilled, skinned over.
    Lose(LoseArgs),
    /// A can was thrown away with what was left.
    Discard(DiscardArgs),
    /// A can stands somewhere else.
    Move(MoveCanArgs),
    /// What is said of a can is corrected.
    Correct(CorrectArgs),
    /// A line of a can's log was a mistake.
    Strike(StrikeArgs),
    /// A can that was never used is taken off the books.
    Remove(OneArgs),
}

/// What is said of a can.
#[derive(Debug, Args)]
pub struct SaidArgs {
    /// The size it holds; the product's can unless said.
    #[arg(long, allow_hyphen_values = true)]
    pub size: Option<String>,
    /// What was in it when it came; full unless said.
    #[arg(long, value_name = "VOLUME", allow_hyphen_values = true)]
    pub held: Option<String>,
    /// What was paid for one; the product's price unless said.
    #[arg(long, allow_hyphen_values = true)]
    pub price: Option<String>,
    /// The day it came; today unless said.
    #[arg(long, value_name = "DAY", allow_hyphen_values = true)]
    pub on: Option<String>,
    /// Batch number as printed.
    #[arg(long, allow_hyphen_values = true)]
    pub batch: Option<String>,
    /// How long it keeps from the day it came: "3 years", "18 months".
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub keeps: Option<String>,
    /// How long it keeps once opened: "12 months".
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub keeps_open: Option<String>,
    /// What the empty can weighs with its lid.
    #[arg(long, value_name = "WEIGHT", allow_hyphen_values = true)]
    pub empty: Option<String>,
    /// Where it stands.
    #[arg(long)]
    pub place: Option<String>,
}

/// Cans that came.
#[derive(Debug, Args)]
pub struct ReceiveArgs {
    /// The product.
    pub product: String,
    /// How many alike.
    #[arg(long, default_value_t = 1)]
    pub count: u32,
    /// What is said of them.
    #[command(flatten)]
    pub said: SaidArgs,
}

/// A can that was opened.
#[derive(Debug, Args)]
pub struct OpenArgs {
    /// The can.
    pub can: String,
    /// When; now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
}

/// A can on the scale.
#[derive(Debug, Args)]
pub struct WeighArgs {
    /// The can.
    pub can: String,
    /// What it weighs: 1042 g, 36.8 oz, "2 lb 4 oz".
    #[arg(num_args = 1.., required = true)]
    pub weight: Vec<String>,
    /// When; now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// Says yes to what was asked.
    #[arg(long)]
    pub sure: bool,
}

/// Cans poured together.
#[derive(Debug, Args)]
pub struct MixArgs {
    /// The cans; all that is left of each, or so much: 7 "8: 4 oz".
    #[arg(required = true)]
    pub cans: Vec<String>,
    /// The size of the can it was mixed in.
    #[arg(long, allow_hyphen_values = true)]
    pub size: Option<String>,
    /// What that can weighs empty.
    #[arg(long, value_name = "WEIGHT", allow_hyphen_values = true)]
    pub empty: Option<String>,
    /// Where it stands.
    #[arg(long)]
    pub place: Option<String>,
    /// When; now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// Says yes to what was asked.
    #[arg(long)]
    pub sure: bool,
}

/// A jar.
#[derive(Debug, Args)]
pub struct JarArgs {
    /// The can.
    pub can: String,
    /// How much: "2 fl oz".
    #[arg(allow_hyphen_values = true)]
    pub volume: String,
    /// For this client.
    #[arg(long, required_unless_present = "job", conflicts_with = "job")]
    pub client: Option<String>,
    /// For this job.
    #[arg(long)]
    pub job: Option<String>,
    /// When; now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// Says yes to what was asked.
    #[arg(long)]
    pub sure: bool,
}

/// A loss.
#[derive(Debug, Args)]
pub struct LoseArgs {
    /// The can.
    pub can: String,
    /// How much: "2 fl oz".
    #[arg(allow_hyphen_values = true)]
    pub volume: String,
    /// Why: spilled, skinned over.
    pub reason: String,
    /// When; now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// Says yes to what was asked.
    #[arg(long)]
    pub sure: bool,
}

/// A can that goes.
#[derive(Debug, Args)]
pub struct DiscardArgs {
    /// The can.
    pub can: String,
    /// Why: empty, skinned over, past its shelf life.
    pub reason: String,
    /// When; now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
}

/// A can's new place.
#[derive(Debug, Args)]
pub struct MoveCanArgs {
    /// The can.
    pub can: String,
    /// Where it stands now.
    pub place: String,
    /// When; now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
}

/// What is corrected; what is not said stays.
#[derive(Debug, Args)]
pub struct CorrectArgs {
    /// The can.
    pub can: String,
    /// What is in it.
    #[arg(long)]
    pub product: Option<String>,
    /// What is said of it.
    #[command(flatten)]
    pub said: SaidArgs,
}

/// A line of a can's log.
#[derive(Debug, Args)]
pub struct StrikeArgs {
    /// The can.
    pub can: String,
    /// The line: last, or its code (tackfree cans 7 lists them).
    pub line: String,
}

/// One can.
#[derive(Debug, Args)]
pub struct OneArgs {
    /// The can.
    pub can: String,
}

/// Does it.
pub fn run(args: &CanArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let can = |text: &str| read_can_no(text, &shop.cans);
    let when = |at: &Option<String>| session.when("at", at.as_deref(), &shop);
    let action = match &args.what {
        CanVerb::Receive(of) => {
            let product = find::product(&shop, &of.product)?.id;
            CanAction::Receive(new_can(product, &of.said, &shop, session)?, of.count)
        }
        CanVerb::Open(of) => CanAction::Open {
            can: can(&of.can)?,
            at: when(&of.at)?,
        },
        CanVerb::Weigh(of) => CanAction::Weigh {
            can: can(&of.can)?,
            mass: weight("weight", &of.weight.join(" "))?,
            at: when(&of.at)?,
            sure: of.sure,
        },
        CanVerb::Mix(of) => CanAction::Mix {
            draft: mix(of, &shop)?,
            at: when(&of.at)?,
            sure: of.sure,
        },
        CanVerb::Jar(of) => CanAction::Jar {
            can: can(&of.can)?,
            volume: volume("volume", &of.volume, &shop)?,
            to: match (&of.client, &of.job) {
                (Some(client), _) => JarFor::Client(find::client(&shop, client)?.id),
                (None, job) => {
                    JarFor::Job(find::job(&shop, job.as_deref().unwrap_or_default())?.id)
                }
            },
            at: when(&of.at)?,
            sure: of.sure,
        },
        CanVerb::Lose(of) => CanAction::Lose {
            can: can(&of.can)?,
            volume: volume("volume", &of.volume, &shop)?,
            reason: of.reason.clone(),
            at: when(&of.at)?,
            sure: of.sure,
        },
        CanVerb::Discard(of) => CanAction::Discard {
            can: can(&of.can)?,
            reason: of.reason.clone(),
            at: when(&of.at)?,
        },
        CanVerb::Move(of) => CanAction::Move {
            can: can(&of.can)?,
            place: of.place.clone(),
            at: when(&of.at)?,
        },
        CanVerb::Correct(of) => {
            let id = can(&of.can)?;
            CanAction::Correct(id, corrected(id, of, &shop, session)?)
        }
        CanVerb::Strike(of) => CanAction::Strike(line(can(&of.can)?, &of.line, &shop)?),
        CanVerb::Remove(of) => CanAction::Remove(can(&of.can)?),
    };
    session
        .perform(&Action::Can(action))
        .map_err(Failure::named_sure)
}

fn weight(field: &'static str, text: &str) -> Result<Mass, FieldError> {
    read_weight(text).map_err(|error| FieldError::said(field, &error))
}

fn volume(field: &'static str, text: &str, shop: &Shop) -> Result<Volume, FieldError> {
    Volume::parse(text, shop.settings.volume).map_err(|error| FieldError::said(field, &error))
}

fn price(text: &str) -> Result<Money, FieldError> {
    match Money::parse(text) {
        Ok(price) if price >= Money::ZERO => Ok(price),
        Ok(_) => {
            let message = "A can's price is nothing or more: write it without the minus.";
            Err(FieldError::new("price", message))
        }
        Err(error) => Err(FieldError::said("price", &error)),
    }
}

/// What was said, over what counts where nothing is said.
fn said(
    draft: CanDraft,
    of: &SaidArgs,
    shop: &Shop,
    session: &Session<'_>,
) -> Result<CanDraft, Failure> {
    let read = |text: &Option<String>, field, old: Option<Volume>| match text {
        None => Ok(old),
        Some(text) => volume(field, text, shop).map(Some),
    };
    let keeps = |text: &Option<String>, field, old| match text {
        None => Ok(old),
        Some(text) => read_keeps(field, text),
    };
    let size = read(&of.size, "size", Some(draft.size))?.unwrap_or(draft.size);
    Ok(CanDraft {
        product: draft.product,
        size,
        held: read(&of.held, "held", draft.held)?,
        price: match &of.price {
            None => draft.price,
            Some(text) => Some(price(text)?),
        },
        on: match &of.on {
            None => draft.on,
            Some(text) => session.day(Some(text), shop)?,
        },
        batch: of.batch.clone().unwrap_or(draft.batch),
        keeps: Keeps {
            sealed: keeps(&of.keeps, "keeps", draft.keeps.sealed)?,
            open: keeps(&of.keeps_open, "keeps_open", draft.keeps.open)?,
        },
        empty: match &of.empty {
            None => draft.empty,
            Some(text) if text.trim().is_empty() => None,
            Some(text) => Some(weight("empty", text)?),
        },
        place: of.place.clone().unwrap_or(draft.place),
    })
}

fn new_can(
    product: ProductId,
    of: &SaidArgs,
    shop: &Shop,
    session: &Session<'_>,
) -> Result<CanDraft, Failure> {
    let size = shop
        .product(product)
        .map_or(Volume::ZERO, |product| product.can);
    let draft = CanDraft {
        product,
        size,
        held: None,
        price: None,
        on: session.today(shop),
        batch: String::new(),
        keeps: Keeps::default(),
        empty: None,
        place: String::new(),
    };
    said(draft, of, shop, session)
}

fn corrected(
    id: CanId,
    of: &CorrectArgs,
    shop: &Shop,
    session: &Session<'_>,
) -> Result<CanDraft, Failure> {
    let Some(state) = shop.cans.can(id) else {
        return Err(Failure::said("There is no such can in this store."));
    };
    let can = &state.can;
    let (on, paid) = match can.came {
        Came::Bought { on, price } => (on, Some(price)),
        Came::Mixed { .. } => (can.day(shop.settings.zone), None),
    };
    let draft = CanDraft {
        product: match &of.product {
            None => can.product,
            Some(text) => find::product(shop, text)?.id,
        },
        size: can.size,
        // A can that came full stays one, whatever its size.
        held: Some(can.held).filter(|_| can.held != can.size || of.said.size.is_none()),
        price: paid,
        on,
        batch: can.batch.clone(),
        keeps: can.keeps,
        empty: can.empty,
        place: can.place.clone(),
    };
    said(draft, &of.said, shop, session)
}

fn mix(of: &MixArgs, shop: &Shop) -> Result<MixDraft, Failure> {
    let parts = of
        .cans
        .iter()
        .map(|text| {
            let (can, much) = text.split_once(':').unwrap_or((text, ""));
            Ok(MixPart {
                can: read_can_no(can, &shop.cans)?,
                volume: match much.trim() {
                    "" => None,
                    much => Some(volume("can", much, shop)?),
                },
            })
        })
        .collect::<Result<_, FieldError>>()?;
    Ok(MixDraft {
        parts,
        size: of
            .size
            .as_deref()
            .map(|text| volume("size", text, shop))
            .transpose()?,
        empty: of
            .empty
            .as_deref()
            .map(|text| weight("empty", text))
            .transpose()?,
        place: of.place.clone().unwrap_or_default(),
    })
}

/// The line of a can's log meant.
fn line(can: CanId, text: &str, shop: &Shop) -> Result<CanLineId, Failure> {
    let typed = text.trim().to_lowercase();
    let of_can = || shop.cans.lines.iter().filter(|line| line.can == can);
    if typed == "last" {
        let newest = of_can().max_by_key(|line| line.id).map(|line| line.id);
        return newest.ok_or_else(|| Failure::said("Nothing stands in the log of this can yet."));
    }
    let mut found = of_can().filter(|line| {
        line.id.to_string() == typed || crate::papers::short_code(line.id.0) == typed
    });
    match (found.next(), found.next()) {
        (Some(one), None) => Ok(one.id),
        _ => Err(Failure::said(format!(
            "There is no line \"{}\" in the log of this can: say last, or its code (tackfree cans {} lists them).",
            crate::units::clean_line(text).0,
            shop.cans.can(can).map_or(0, |state| state.can.no)
        ))),
    }
}
