//! The form for one pass of a product over one or more pieces.

use super::context::Context;
use super::faces;
use super::pass_checks;
use super::recipe::scuff_choices;
use super::scuff::USUAL;
use crate::coating::{Product, ProductId};
use crate::desk::typed::{
    FieldError, echo_air, echo_amount, read_air, read_amount, read_scuff, split_sure, write_scuff,
};
use crate::desk::{Action, DrawnDraft, PassDraft};
use crate::shape::FaceKey;
use crate::shop::{CoatKind, PieceId, ScuffMeans, Ticket};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;
use crate::units::{Area, Volume};

/// The product of each piece's own schedule, as a value of the list.
const SCHEDULE: &str = "schedule";

fn due(kind: CoatKind) -> impl Fn(&Ticket) -> Vec<FaceKey> {
    move |ticket: &Ticket| ticket.due_faces(kind)
}

pub(super) fn form(pieces: &[PieceId], kind: CoatKind, ctx: &Context<'_>) -> Form {
    let mut fields = vec![
        faces::field(pieces, due(kind), ctx),
        product_field(pieces, kind, ctx),
    ];
    fields.extend(scuff_field(pieces, kind, ctx));
    fields.extend([
        faces::when("started", "Started"),
        faces::when("ended", "Finished"),
        Field::text("amount", "Amount used", "").hint(
            "4 oz, 120 mL, the can before and after (1042 g > 884 g); empty for an estimate.",
        ),
        Field::text("air", "Shop air", "")
            .hint("Temperature and humidity: 68F 45. Empty if not read."),
        Field::told(pass_checks::FIELD, "Checks"),
    ]);
    let title = format!("{}: {}", heading(pieces, kind, ctx), ctx.called(pieces));
    let mut form = Form::new(&title, fields);
    "log".clone_into(&mut form.submit_word);
    form
}

/// `Coat 4 of 7`, or `Coat` where pieces differ.
fn heading(pieces: &[PieceId], kind: CoatKind, ctx: &Context<'_>) -> String {
    let mut word = kind.coat_word().to_owned();
    if let Some(first) = word.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    let opened = ctx.opened(pieces);
    let [(_, ticket)] = opened.as_slice() else {
        return word;
    };
    let due = ticket.due_faces(kind);
    let Some(face) = due.first().and_then(|key| ticket.face(*key)) else {
        return word;
    };
    match ticket.asked(face, kind) {
        1 => word,
        asked => format!("{word} {} of {asked}", face.count(kind) + 1),
    }
}

fn product_field(pieces: &[PieceId], kind: CoatKind, ctx: &Context<'_>) -> Field {
    let asked = scheduled(pieces, kind, ctx);
    let names: Vec<&str> = asked
        .iter()
        .filter_map(|id| ctx.shop.product(*id))
        .map(|one| one.name.as_str())
        .collect();
    let by_schedule = if names.is_empty() {
        "as the schedule says".to_owned()
    } else {
        format!("{} (schedule)", names.join(", "))
    };
    let mut choices = vec![Choice::new(SCHEDULE, by_schedule)];
    let needs = kind.product_kind();
    let fits = |product: &&Product| {
        let seals = kind == CoatKind::Seal && product.kind == crate::coating::ProductKind::Topcoat;
        (product.kind == needs || seals) && asked != [product.id]
    };
    let others = ctx.shop.products.iter().filter(fits);
    choices.extend(others.map(|one| Choice::new(one.id.to_string(), one.name.clone())));
    Field::choice("product", "Product", choices, SCHEDULE)
}

/// The products the schedules ask for, each once.
fn scheduled(pieces: &[PieceId], kind: CoatKind, ctx: &Context<'_>) -> Vec<ProductId> {
    let opened = ctx.opened(pieces);
    let mut asked: Vec<ProductId> = opened
        .iter()
        .filter_map(|(_, ticket)| ticket.schedule.product_for(kind))
        .collect();
    asked.sort_unstable();
    asked.dedup();
    asked
}

/// Whether it was scuffed or abraded just before. Not asked where no face carries a coat.
fn scuff_field(pieces: &[PieceId], kind: CoatKind, ctx: &Context<'_>) -> Option<Field> {
    let opened = ctx.opened(pieces);
    let clock = ctx.shop.clock();
    let gates = ctx.shop.gates(&clock);
    let (mut coated, mut scuff, mut abrade, mut asked) = (false, false, false, None);
    for (_, ticket) in &opened {
        asked = asked.or(ticket.schedule.scuff);
        for face in ticket
            .due_faces(kind)
            .iter()
            .filter_map(|key| ticket.face(*key))
        {
            coated |= !face.coats.is_empty();
            scuff |= gates.wants_scuff(ticket, face, kind, ctx.now);
            abrade |= gates.wants_abrading(face, ctx.now).is_some();
        }
    }
    if !coated {
        return None;
    }
    let start = if abrade {
        // A missed window wants more than brown paper.
        Some(asked.filter(|means| means.abrades()).unwrap_or(USUAL))
    } else if scuff {
        Some(asked.unwrap_or(USUAL))
    } else {
        None
    };
    let start = write_scuff(start);
    let mut choices = scuff_choices(&start);
    if let Some(asked) = asked.map(|means| write_scuff(Some(means)))
        && choices.iter().all(|choice| choice.value != asked)
    {
        choices.push(Choice::new(asked.clone(), asked));
    }
    let hint = if abrade {
        "The window was missed: the film must be abraded first."
    } else {
        "Pick none if it was not, or was logged already."
    };
    Some(Field::choice("scuff", "Scuffed before with", choices, &start).hint(hint))
}

pub(super) fn read(
    form: &Form,
    pieces: &[PieceId],
    kind: CoatKind,
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let mut errors = Vec::new();
    let picks = faces::picks(form, pieces, ctx).map_err(|error| errors.push(error));
    let product = match form.choice("product") {
        Some(SCHEDULE) => None,
        Some(id) => id.parse().ok(),
        None => {
            errors.push(FieldError::new(
                "product",
                "No product is picked: say what was laid on.",
            ));
            None
        }
    };
    let scuffed_first = scuffed(form).unwrap_or_else(|error| {
        errors.push(error);
        None
    });
    let started = faces::moment(form, "started", ctx).map_err(|error| errors.push(error));
    let ended = faces::moment(form, "ended", ctx).map_err(|error| errors.push(error));
    if let (Ok(started), Ok(ended)) = (started, ended)
        && ended < started
    {
        let message = "The pass ends before it starts: look at the two times again.";
        errors.push(FieldError::new("ended", message));
    }
    let settings = ctx.settings();
    let (amount, sure) = split_sure(form.text("amount"));
    let amount = read_amount(amount, settings).map_err(|error| errors.push(error));
    let air = read_air(form.text("air"), settings).map_err(|error| errors.push(error));
    match (picks, started, ended, amount, air) {
        (Ok(picks), Ok(started), Ok(ended), Ok(amount), Ok(air)) if errors.is_empty() => {
            Ok(Action::LogPass(PassDraft {
                picks,
                kind,
                product,
                started,
                ended,
                amount,
                air,
                scuffed_first,
                drawn: DrawnDraft {
                    sure,
                    ..DrawnDraft::default()
                },
            }))
        }
        _ => Err(errors),
    }
}

/// What it was scuffed with just before, as picked.
pub(super) fn scuffed(form: &Form) -> Result<Option<ScuffMeans>, FieldError> {
    if form.field("scuff").is_none() {
        return Ok(None);
    }
    let picked = form.choice("scuff");
    picked
        .ok_or_else(|| FieldError::new("scuff", "Nothing is picked: pick one, or none."))
        .and_then(read_scuff)
}

/// The product that is picked, if it is one.
pub(super) fn picked_product<'a>(
    form: &Form,
    pieces: &[PieceId],
    kind: CoatKind,
    ctx: &Context<'a>,
) -> Option<&'a Product> {
    match form.choice("product") {
        Some(SCHEDULE) => match scheduled(pieces, kind, ctx).as_slice() {
            [one] => ctx.shop.product(*one),
            _ => None,
        },
        Some(id) => id.parse().ok().and_then(|id| ctx.shop.product(id)),
        None => None,
    }
}

/// The faces meant, piece by piece.
pub(super) fn meant(
    form: &Form,
    pieces: &[PieceId],
    kind: CoatKind,
    ctx: &Context<'_>,
) -> Vec<(PieceId, Vec<FaceKey>)> {
    faces::meant(form, pieces, due(kind), ctx)
        .into_iter()
        .map(|(piece, _, keys)| (piece, keys))
        .collect()
}

pub(super) fn echo(
    form: &Form,
    pieces: &[PieceId],
    kind: CoatKind,
    ctx: &Context<'_>,
) -> Vec<(&'static str, Option<String>)> {
    let settings = ctx.settings();
    let product = picked_product(form, pieces, kind, ctx);
    let meant = faces::meant(form, pieces, due(kind), ctx);
    let areas = meant.iter().flat_map(|(_, ticket, keys)| {
        keys.iter()
            .filter_map(|key| ticket.face(*key))
            .map(|face| face.area)
    });
    let area: Area = areas.sum();
    let expected: Option<Volume> = product.map(|one| one.label.spread.volume_for(area));
    vec![
        faces::echo(form, pieces, due(kind), ctx),
        ("product", product.map(|one| one.basis().words().to_owned())),
        faces::echo_moment(form, "started", ctx),
        faces::echo_moment(form, "ended", ctx),
        (
            "amount",
            echo_amount(split_sure(form.text("amount")).0, expected, settings),
        ),
        ("air", echo_air(form.text("air"), settings)),
    ]
}
