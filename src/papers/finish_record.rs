//! How two finishes differ, in words.

use super::PAPER_WIDTH;
use super::layout::wrap;
use crate::desk::Shop;
use crate::shop::{Difference, PieceFile, Value};
use crate::units::{AreaStyle, Humidity, Temperature, counted};

/// A value in the reader's units.
pub fn value_words(value: &Value, shop: &Shop) -> String {
    let settings = &shop.settings;
    match value {
        Value::Nothing => "none".to_owned(),
        Value::Text(text) => text.clone(),
        Value::Grits(grits) if grits.is_empty() => "none".to_owned(),
        Value::Grits(grits) => {
            let grits: Vec<String> = grits.iter().map(ToString::to_string).collect();
            grits.join(" ")
        }
        Value::Count(count) => count.to_string(),
        Value::Products(products) => {
            let names = products.iter().map(|id| {
                shop.product(*id)
                    .map_or("a product gone", |product| product.name.as_str())
            });
            names.collect::<Vec<_>>().join(", ")
        }
        Value::Minutes(minutes) => {
            let minutes = usize::try_from(*minutes).unwrap_or(0);
            counted(minutes, "minute", "minutes")
        }
        Value::Film(um) => match settings.area() {
            AreaStyle::SquareFeet => format!("{:.1} mil", um / crate::coating::film::MIL_UM),
            AreaStyle::SquareMetres => format!("{um:.0} micrometres"),
        },
        Value::Air(c, percent) => {
            let humidity = Humidity::from_percent(*percent)
                .map_or_else(String::new, |humidity| format!(", {}", humidity.show()));
            let temperature = Temperature::from_c(*c).show(settings.temperature);
            format!("{temperature}{humidity}")
        }
    }
}

/// One difference: `grits on top, front: 80 120 150 against 80 120`.
pub fn difference_words(difference: &Difference, shop: &Shop) -> String {
    let faces: Vec<String> = difference.faces.iter().map(ToString::to_string).collect();
    let on = if faces.is_empty() {
        String::new()
    } else {
        format!(" on {}", faces.join(", "))
    };
    format!(
        "{}{on}: {} against {}",
        difference.what.words(),
        value_words(&difference.one, shop),
        value_words(&difference.other, shop)
    )
}

/// All of them under a heading.
pub fn differences_paper(
    (one, other): (&PieceFile, &PieceFile),
    found: &[Difference],
    shop: &Shop,
) -> Vec<String> {
    let head = format!(
        "FINISH of {} against {}",
        shop.called(one),
        shop.called(other)
    );
    let mut out = wrap(&head, PAPER_WIDTH, 2);
    if found.is_empty() {
        out.push("  No difference on record.".to_owned());
    }
    for difference in found {
        let lines = wrap(&difference_words(difference, shop), PAPER_WIDTH - 2, 2);
        out.extend(lines.into_iter().map(|line| format!("  {line}")));
    }
    out
}
