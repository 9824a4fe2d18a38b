//! The figures of a shape: area, board feet, weight, where it balances, how it closes.

use crate::desk::typed::echo_closing;
use crate::shape::{Outline, Shape};
use crate::shop::Settings;
use crate::units::{AreaStyle, Length};
use crate::wood::moisture::MoistureContent;
use crate::wood::species::SpeciesTable;
use crate::wood::weight::{Weighed, weigh};

/// Grams to a pound, exactly (NIST Handbook 44, Appendix C).
const G_PER_LB: f64 = 453.592_37;

/// A weight in the shop's unit: `212 lb`, `96 kg`.
fn heavy(weighed: &Weighed, settings: &Settings) -> String {
    match settings.area() {
        AreaStyle::SquareFeet => format!("{:.0} lb", weighed.mass.g() / G_PER_LB),
        AreaStyle::SquareMetres => format!("{:.0} kg", weighed.mass.g() / 1000.0),
    }
}

/// The figures of a shape in words, a line each: area, wood and length around; weight and balance
/// point; and for an outline out of square what its second diagonal says.
pub fn shape_figures(
    shape: &Shape,
    species: &str,
    measured: Option<MoistureContent>,
    settings: &Settings,
) -> Vec<String> {
    let show = |length: Length| length.show(settings.length);
    let near = |metres: f64| show(Length::from_metres_rounded(metres));
    let area = match shape.outline() {
        Outline::Live(slab) => format!(
            "{} by Simpson's rule, {} as drawn",
            slab.simpson().show(settings.area()),
            slab.trapezoid().show(settings.area())
        ),
        _ => shape.outline_area().show(settings.area()),
    };
    let mut out = vec![format!(
        "outline {area}, {:.1} board feet, {} round the edge",
        shape.volume_board_feet(),
        near(shape.perimeter())
    )];
    let balance = shape.drawn().balance();
    let point = format!(
        "balances {} from the left end, {} from the front",
        near(balance.x),
        near(balance.y)
    );
    out.push(
        match weigh(&SpeciesTable::new(), species, shape.net_volume(), measured) {
            Some(weighed) => {
                let basis = if weighed.measured {
                    "measured"
                } else {
                    "assumed, no reading"
                };
                format!(
                    "about {} as {} at {} moisture ({basis}), {point}",
                    heavy(&weighed, settings),
                    weighed.wood.to_lowercase(),
                    weighed.content.show()
                )
            }
            None => format!("weight not known for this wood, {point}"),
        },
    );
    out.extend(echo_closing(shape.outline(), settings));
    out
}
