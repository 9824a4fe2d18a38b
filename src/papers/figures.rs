//! The figures of a shape: area, board feet, weight, where it balances, how it closes.

use crate::desk::Shop;
use crate::desk::typed::echo_closing;
use crate::shape::Outline;
use crate::shop::moving::wood_of;
use crate::shop::{Piece, Settings};
use crate::units::{AreaStyle, Length};
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

/// The weight of a piece as it will be when it is cut, at its newest moisture reading; none where
/// its wood is not one of the table.
pub fn piece_weight(piece: &Piece, shop: &Shop) -> Option<Weighed> {
    let wood = wood_of(piece, &shop.wood).ok()?;
    let read = shop.moisture(piece.id).last();
    let measured = read.map(|moisture| moisture.reading.content());
    weigh(&wood, piece.shape.net_volume(), measured)
}

/// The figures of a piece's shape in words, a line each: area, wood and length around; weight and
/// balance point; and for an outline out of square what its second diagonal says.
pub fn shape_figures(piece: &Piece, shop: &Shop) -> Vec<String> {
    let (shape, settings) = (&piece.shape, &shop.settings);
    let say = |length: Length| length.show(settings.length);
    let near = |metres: f64| say(Length::from_metres_rounded(metres));
    let area = match shape.outline() {
        Outline::Live(slab) => {
            let drawn = slab.trapezoid().show(settings.area());
            match slab.simpson_words() {
                Some(words) => format!(
                    "{} {words} (so are its wood and weight), {drawn} as drawn",
                    slab.simpson().show(settings.area())
                ),
                None => format!("{drawn} by straight lines from station to station"),
            }
        }
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
    out.push(match piece_weight(piece, shop) {
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
    });
    out.extend(echo_closing(shape.outline(), settings));
    out
}
