//! Cans: received, opened, weighed, mixed, poured off, thrown away, moved, corrected.

pub use super::can_args::CanArgs;
use super::can_args::{CanVerb, CorrectArgs, MixArgs, SaidArgs};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::coating::ProductId;
use crate::desk::typed::{FieldError, read_can_no, read_keeps, read_weight};
use crate::desk::{Action, CanAction, CanDraft, MixDraft, MixPart, Shop};
use crate::shop::{Came, CanId, CanLineId, JarFor, Keeps};
use crate::units::{Mass, Money, Volume};

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree can receive \"brown gel stain\" --count 2 --batch B-114 --price 26.00 --keeps \"3 years\"\n  tackfree can open 7\n  tackfree can weigh 7 \"2 lb 4 oz\"\n  tackfree can mix 7 8 --place \"bench\"\n  tackfree can jar 7 \"2 fl oz\" --job 3\n  tackfree can discard 7 \"skinned over\"\n\nA can is named by the number on its lid (tackfree cans lists them). A weight that went up or lies\nbelow the empty can, and more taken than was left, is asked about; --sure says yes. With --json:\ndone, notes, made, called.";

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
