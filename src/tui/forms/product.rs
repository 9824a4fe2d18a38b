//! The product form. A new product starts with the usual figures of its family; picking another
//! family changes those that were not typed over.

use super::context::{Context, words};
use crate::coating::{Family, ProductId, ProductKind};
use crate::desk::typed::{
    FieldError, ProductTyped, SpanUnit, echo_span, echo_windows, read_product, read_span,
};
use crate::desk::{Action, Which};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;

/// The spans of the form: field, and what a number alone is.
const SPANS: [(&str, Option<SpanUnit>); 5] = [
    ("touch", None),
    ("tack_free", None),
    ("handle", None),
    ("light_use", Some(SpanUnit::Days)),
    ("full_cure", Some(SpanUnit::Days)),
];

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
        Choice::new("family", "family figures, check the can label"),
        Choice::new("label", "from the label"),
    ];
    let time = "45 min, 2 h, 3 days.";
    Form::new(
        &title,
        vec![
            Field::text("name", "Name", &t.name).hint("What the shop calls it."),
            Field::choice("family", "Family", families, &t.family),
            Field::choice("kind", "Used as", kinds, &t.kind),
            Field::text("can", "Can size", &t.can).hint("1 qt, 1 gal, 2.5 L."),
            Field::text("price", "Price of a can", &t.price),
            Field::choice("basis", "Figures are", bases, &t.basis),
            Field::text("spread", "Spread rate", &t.spread).hint("625 sq ft/gal or 15.3 m2/L."),
            Field::text("solids", "Volume solids %", &t.solids),
            Field::text("density", "Weight per volume", &t.density)
                .hint("7.2 lb/gal or 0.86 g/mL."),
            Field::text("touch", "Set to touch", &t.touch).hint(time),
            Field::text("tack_free", "Tack-free", &t.tack_free).hint(time),
            Field::text("windows", "Recoat", &t.windows)
                .hint("6 h to 24 h; or 24 h on; several: 30 min to 2 h; scuff 6 days on."),
            Field::text("handle", "Dry to handle", &t.handle).hint(time),
            Field::text("light_use", "Light use", &t.light_use).hint(time),
            Field::text("full_cure", "Full cure", &t.full_cure).hint(time),
            Field::text("min_temp", "Coldest use", &t.min_temp).hint("55 F or 13 C."),
            Field::text("max_humidity", "Dampest use %", &t.max_humidity),
        ],
    )
}

/// The text fields whose usual content follows from the family.
fn usual(typed: ProductTyped) -> [(&'static str, String); 12] {
    [
        ("kind", typed.kind),
        ("spread", typed.spread),
        ("solids", typed.solids),
        ("density", typed.density),
        ("touch", typed.touch),
        ("tack_free", typed.tack_free),
        ("windows", typed.windows),
        ("handle", typed.handle),
        ("light_use", typed.light_use),
        ("full_cure", typed.full_cure),
        ("min_temp", typed.min_temp),
        ("max_humidity", typed.max_humidity),
    ]
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
    let before = usual(ProductTyped::starting(before, ctx.shop));
    let now = usual(ProductTyped::starting(now, ctx.shop));
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
        solids: value("solids"),
        density: value("density"),
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
    let mut echoes: Vec<(&'static str, Option<String>)> = SPANS
        .into_iter()
        .map(|(id, bare)| (id, read_span(id, form.text(id), bare).ok().map(echo_span)))
        .collect();
    echoes.push(("windows", echo_windows(form.text("windows"))));
    let settings = ctx.settings();
    if let Ok(draft) = read_product(&typed(form), ctx.shop) {
        let label = &draft.label;
        let wet = format!(
            "{}, {:.0} micrometres wet",
            label.spread.show(settings.area()),
            label.spread.wet_film_um()
        );
        echoes.push(("spread", Some(wet)));
        echoes.push((
            "density",
            Some(format!("{:.3} g/mL", label.density.g_per_ml())),
        ));
        echoes.push(("min_temp", Some(label.min_temp.show(settings.temperature))));
        echoes.push(("can", Some(draft.can.show(settings.volume))));
        echoes.push(("price", Some(draft.price.show())));
    }
    echoes
}
