//! The product form. A new product starts with the usual figures of its family; picking another
//! family changes those that were not typed over.

use super::context::{Context, words};
use crate::coating::{Family, Figure, ProductId, ProductKind};
use crate::desk::typed::{FieldError, ProductTyped, echo_figures, figure_field, read_product};
use crate::desk::{Action, Which};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;

pub(super) fn form(which: Which<ProductId>, ctx: &Context<'_>) -> Form {
    let stored = match which {
        Which::This(id) => ctx.shop.product(id),
        Which::New => None,
    };
    let t = stored.map_or_else(
        || ProductTyped::starting(Family::OilWipingVarnish, ctx.shop),
        |product| ProductTyped::of(product, ctx.shop),
    );
    let title = stored.map_or_else(
        || "New product".to_owned(),
        |product| format!("Product {}", product.name),
    );
    let families = words(Family::ALL.map(Family::word));
    let kinds = words(ProductKind::ALL.map(ProductKind::word));
    let bases = vec![
        Choice::new("each", "each for itself: ~ in front is the family's"),
        Choice::new("label", "all read off the label"),
        Choice::new("family", "none read off the label yet"),
    ];
    let time = "45 min, 2 h, 3 days. What you type is the label's; ~ in front the family's.";
    let text =
        |figure: Figure, label: &str| Field::text(figure_field(figure), label, t.figure(figure));
    Form::new(
        &title,
        vec![
            Field::text("name", "Name", &t.name).hint("What the shop calls it."),
            Field::choice("family", "Family", families, &t.family),
            Field::choice("kind", "Used as", kinds, &t.kind),
            Field::text("can", "Can size", &t.can).hint("1 qt, 1 gal, 2.5 L."),
            Field::text("price", "Price of a can", &t.price),
            Field::choice("basis", "Figures are", bases, &t.basis),
            text(Figure::Spread, "Spread rate").hint("625 sq ft/gal or 15.3 m2/L."),
            text(Figure::WetFilm, "Wet film").hint("Only if the sheet says: 2.7 mil or 69 um."),
            text(Figure::DryFilm, "Dry film").hint("Only if the sheet says: 1.1 mil or 28 um."),
            text(Figure::Solids, "Volume solids %"),
            text(Figure::Density, "Weight per volume").hint("7.2 lb/gal or 0.86 g/mL."),
            text(Figure::Voc, "VOC").hint("446 g/L or 3.7 lb/gal; may stay empty."),
            text(Figure::Reference, "Times hold at")
                .hint("The temperature beside the drying times: 77 F or 25 C."),
            text(Figure::ReferenceHumidity, "Humidity of times %")
                .hint("50 unless the label says otherwise; may stay empty."),
            text(Figure::Touch, "Set to touch").hint(time),
            text(Figure::TackFree, "Tack-free").hint(time),
            text(Figure::Windows, "Recoat")
                .hint("6 h to 24 h; after 24 h; or several: within 2 h; scuff after 6 days."),
            text(Figure::Handle, "Dry to handle").hint(time),
            text(Figure::LightUse, "Light use").hint(time),
            text(Figure::FullCure, "Full cure").hint(time),
            text(Figure::MinTemp, "Coldest use").hint("55 F or 13 C."),
            text(Figure::MaxHumidity, "Dampest use %"),
        ],
    )
}

/// The fields whose usual content follows from the family.
fn usual(typed: &ProductTyped) -> Vec<(&'static str, String)> {
    let figures = Figure::ALL.map(|f| (figure_field(f), typed.figure(f).to_owned()));
    let kind = ("kind", typed.kind.clone());
    std::iter::once(kind).chain(figures).collect()
}

/// Where another family was picked, puts its figures in place of the earlier family's. What was
/// typed over stays.
pub(super) fn follow_family(form: &mut Form, last: &mut String, ctx: &Context<'_>) {
    let picked = form.value("family");
    let family = |word: &str| Family::ALL.into_iter().find(|family| family.word() == word);
    let (Some(before), Some(now)) = (family(last), family(&picked)) else {
        return;
    };
    if before == now {
        return;
    }
    let before = usual(&ProductTyped::starting(before, ctx.shop));
    let now = usual(&ProductTyped::starting(now, ctx.shop));
    for ((id, old), (_, new)) in before.into_iter().zip(now) {
        if form.value(id) == old {
            form.set(id, &new);
        }
    }
    *last = picked;
}

fn typed(form: &Form) -> ProductTyped {
    let value = |id: &str| form.value(id);
    ProductTyped {
        name: value("name"),
        family: value("family"),
        kind: value("kind"),
        basis: value("basis"),
        spread: value("spread"),
        wet_film: value("wet_film"),
        dry_film: value("dry_film"),
        solids: value("solids"),
        density: value("density"),
        voc: value("voc"),
        reference: value("reference"),
        reference_humidity: value("reference_humidity"),
        touch: value("touch"),
        tack_free: value("tack_free"),
        windows: value("windows"),
        handle: value("handle"),
        light_use: value("light_use"),
        full_cure: value("full_cure"),
        min_temp: value("min_temp"),
        max_humidity: value("max_humidity"),
        can: value("can"),
        price: value("price"),
    }
}

pub(super) fn read(
    form: &Form,
    which: Which<ProductId>,
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let draft = read_product(&typed(form), ctx.shop)?;
    Ok(Action::SaveProduct(which, draft))
}

pub(super) fn echo(form: &Form, ctx: &Context<'_>) -> Vec<(&'static str, Option<String>)> {
    let typed = typed(form);
    let mut echoes: Vec<(&'static str, Option<String>)> = echo_figures(&typed, ctx.shop)
        .into_iter()
        .map(|(field, words)| (field, Some(words)))
        .collect();
    let settings = ctx.settings();
    if let Ok(draft) = read_product(&typed, ctx.shop) {
        echoes.push(("can", Some(draft.can.show(settings.volume))));
        echoes.push(("price", Some(draft.price.show())));
    }
    echoes
}
