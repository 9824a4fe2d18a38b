//! Shapes in words, as a ticket heads them.

use crate::shape::{Opening, Shape};
use crate::shop::Settings;
use crate::units::Length;

/// A shape in words: size and profile on one line, then the band and each opening.
pub fn shape_words(shape: &Shape, settings: &Settings) -> Vec<String> {
    let show = |length: Length| length.show(settings.length);
    let size = shape.outline().words(&show);
    let profile = shape.profile().words(&show);
    let mut out = vec![format!(
        "{size}, {} thick, {profile}",
        show(shape.thickness())
    )];
    if let Some(band) = shape.band() {
        let round = if shape.band_round_openings() {
            ", round the openings too"
        } else {
            ""
        };
        out.push(format!(
            "underside: band {} wide{round}, the rest is the field",
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
    let form = opening.form_words(&show);
    let (x, y) = (show(opening.place.x), show(opening.place.y));
    let purpose = opening
        .purpose_words(&show)
        .map_or_else(String::new, |words| format!("; {words}"));
    format!(
        "{}: {form}, centre {x} from the left end, {y} from the front{purpose}",
        opening.name()
    )
}
