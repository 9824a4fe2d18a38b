//! Shapes in words, as a ticket heads them.

use crate::shape::{EdgeProfile, Opening, OpeningKind, Outline, Shape};
use crate::shop::Settings;
use crate::units::Length;

/// A shape in words: size and profile on one line, then the band and each opening.
pub fn shape_words(shape: &Shape, settings: &Settings) -> Vec<String> {
    let show = |length: Length| length.show(settings.length);
    let size = match shape.outline() {
        Outline::Rectangle { length, width } => format!("{} x {}", show(length), show(width)),
        Outline::Circle { diameter } => format!("round, {} across", show(diameter)),
    };
    let profile = match shape.profile() {
        EdgeProfile::Square => EdgeProfile::Square.name().to_owned(),
        other => format!("{} {}", other.name(), show(other.reach())),
    };
    let mut out = vec![format!(
        "{size}, {} thick, {profile}",
        show(shape.thickness())
    )];
    if let Some(band) = shape.band() {
        out.push(format!(
            "underside: band {} wide, the rest is the field",
            show(band)
        ));
    }
    out.extend(
        shape
            .openings()
            .iter()
            .map(|opening| opening_words(opening, settings)),
    );
    out
}

/// One cutout or hole in words.
pub fn opening_words(opening: &Opening, settings: &Settings) -> String {
    let show = |length: Length| length.show_inches(settings.length);
    let form = match opening.what {
        OpeningKind::Cutout {
            width,
            depth,
            corner_radius: Length::ZERO,
        } => {
            format!("{} x {}, sharp corners", show(width), show(depth))
        }
        OpeningKind::Cutout {
            width,
            depth,
            corner_radius,
        } => {
            format!(
                "{} x {}, corner radius {}",
                show(width),
                show(depth),
                show(corner_radius)
            )
        }
        OpeningKind::Hole { diameter } => format!("{} across", show(diameter)),
    };
    let (x, y) = (show(opening.place.x), show(opening.place.y));
    format!(
        "{}: {form}, centre {x} from the left end, {y} from the front",
        opening.name()
    )
}
