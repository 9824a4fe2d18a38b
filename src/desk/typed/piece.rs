//! A piece as typed.

use super::corners::{read_corners, write_corners};
use super::error::{FieldError, keep, shape_field};
use super::opening::{read_cutouts, read_holes, write_cutouts, write_holes};
use super::place::Onto;
use super::size::{read_length, read_profile, read_size, write_length, write_profile, write_size};
use super::words::{construction_words, either, kind_words, pick, plain, quoted};
use crate::desk::people::{NAME_MOST, PIECE_MOST, needed};
use crate::desk::{PieceDraft, Shop};
use crate::shape::{Construction, Shape, ShapeDraft};
use crate::shop::{JobId, Piece, PieceKind, Recipe, RecipeId, Settings};
use crate::units::{BareUnit, Length};
use serde::Serialize;

/// A piece, field by field, as text.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct PieceTyped {
    /// What the shop calls it.
    pub name: String,
    /// `counter`, `bar`... or a beginning only one has.
    pub kind: String,
    /// The wood.
    pub species: String,
    /// `face grain`, `edge`, `end`, `solid slab`.
    pub construction: String,
    /// `98 3/8 x 25 1/2`, `round 36`, `L 120 x 96, run 25, leg 24, open front right`...
    pub size: String,
    /// `round 2 front left; clip 3 x 3 back right`; empty for sharp ones.
    pub corners: String,
    /// `1 1/2`.
    pub thickness: String,
    /// `square`, `eased 1/16`, `round-over 1/4`, `chamfer 1/8`, `ogee 1/2`...
    pub profile: String,
    /// `30 x 16 r 3/4 at 49 1/4, 12 3/4`, several separated by `;`.
    pub cutouts: String,
    /// `1 3/8 at 60, 22 1/2`, several separated by `;`.
    pub holes: String,
    /// Width of the stained band of the underside; empty or `none` for none; `round openings`
    /// behind it where it goes round them too.
    pub band: String,
    /// The recipe's name or a beginning only one has.
    pub recipe: String,
}

impl PieceTyped {
    /// Where a new piece starts: a counter of edge grain, 1 1/2 in (or 38 mm) thick, square, by
    /// the first recipe.
    pub fn starting(shop: &Shop) -> Self {
        let thickness = match shop.settings.bare_unit() {
            BareUnit::Inches => Length::from_64ths(96),
            BareUnit::Millimetres => Length::from_mm(38),
        };
        Self {
            kind: PieceKind::Counter.word().to_owned(),
            construction: Construction::EdgeGrain.to_string(),
            thickness: write_length(thickness, &shop.settings),
            profile: "square".to_owned(),
            recipe: shop
                .recipes
                .first()
                .map_or_else(String::new, |first| first.name.clone()),
            ..Self::default()
        }
    }

    /// A piece as it would be typed: reads back as the same piece. (Its cutouts come before its
    /// holes, whatever their order was.)
    pub fn of(piece: &Piece, shop: &Shop) -> Self {
        let settings = &shop.settings;
        let shape = &piece.shape;
        Self {
            name: piece.name.clone(),
            kind: piece.kind.word().to_owned(),
            species: piece.species.clone(),
            construction: piece.construction.to_string(),
            size: write_size(shape.outline(), settings),
            corners: write_corners(shape.outline().corners(), &|length| {
                write_length(length, settings)
            }),
            thickness: write_length(shape.thickness(), settings),
            profile: write_profile(shape.profile(), settings),
            cutouts: write_cutouts(shape.openings(), settings),
            holes: write_holes(shape.openings(), settings),
            band: shape.band().map_or_else(String::new, |band| {
                let round = if shape.band_round_openings() {
                    " round openings"
                } else {
                    ""
                };
                write_length(band, settings) + round
            }),
            recipe: recipe_text(piece.recipe, shop),
        }
    }

    /// The shape alone.
    ///
    /// # Errors
    /// Every field of the shape that does not read, or the field in which the first thing that
    /// cannot be cut is put right.
    pub fn shape(&self, settings: &Settings) -> Result<Shape, Vec<FieldError>> {
        let mut errors = Vec::new();
        let outline = keep(read_size(&self.size, settings), &mut errors).and_then(|outline| {
            let cut = read_corners(&self.corners, outline, settings);
            keep(cut, &mut errors)
        });
        let thickness = keep(
            read_length("thickness", &self.thickness, settings),
            &mut errors,
        );
        let profile = keep(read_profile(&self.profile, settings), &mut errors);
        let onto = Onto {
            outline: outline.as_ref(),
            openings: &[],
        };
        let cutouts = keep(read_cutouts(&self.cutouts, onto, settings), &mut errors);
        let onto = Onto {
            openings: cutouts.as_deref().unwrap_or_default(),
            ..onto
        };
        let holes = keep(read_holes(&self.holes, onto, settings), &mut errors);
        let band = keep(read_band(&self.band, settings), &mut errors);
        let (
            Some(outline),
            Some(thickness),
            Some(profile),
            Some(mut openings),
            Some(holes),
            Some((band, band_round_openings)),
        ) = (outline, thickness, profile, cutouts, holes, band)
        else {
            return Err(errors);
        };
        openings.extend(holes);
        let draft = ShapeDraft {
            outline,
            thickness,
            profile,
            openings,
            band,
            band_round_openings,
        };
        Shape::try_from(draft).map_err(|error| vec![FieldError::said(shape_field(&error), &error)])
    }
}

/// The width of a band and whether it goes round the openings.
pub(super) fn read_band(
    text: &str,
    settings: &Settings,
) -> Result<(Option<Length>, bool), FieldError> {
    if matches!(plain(text).as_str(), "" | "none" | "no" | "0") {
        return Ok((None, false));
    }
    let lower = text.to_lowercase();
    let (width, round) = match lower.find("round").filter(|at| text.is_char_boundary(*at)) {
        Some(at) => {
            let width = text[..at].trim().trim_end_matches([',', ';']).trim_end();
            let joined = width.strip_suffix("and").or(width.strip_suffix("AND"));
            (joined.unwrap_or(width), true)
        }
        None => (text, false),
    };
    read_length("band", width.trim(), settings).map(|band| (Some(band), round))
}

/// A recipe as it would be typed: its name, or its identifier where the name is not its own.
pub(super) fn recipe_text(id: RecipeId, shop: &Shop) -> String {
    match shop.recipe(id) {
        Some(recipe) if shop.find_recipe(&recipe.name).map(|found| found.id) == Some(id) => {
            recipe.name.clone()
        }
        _ => id.to_string(),
    }
}

/// The recipe meant.
fn read_recipe_name(text: &str, shop: &Shop) -> Result<RecipeId, FieldError> {
    const FIELD: &str = "recipe";
    if let Some(recipe) = shop.find_recipe(text) {
        return Ok(recipe.id);
    }
    match (shop.recipes.as_slice(), text.trim().is_empty()) {
        ([], _) => {
            let message = "There is no recipe yet: make one first.";
            return Err(FieldError::new(FIELD, message));
        }
        ([only], true) => return Ok(only.id),
        (_, true) => {
            let message = "No recipe was picked: say which one the piece follows.";
            return Err(FieldError::new(FIELD, message));
        }
        _ => {}
    }
    let typed = plain(text);
    let begins = |recipe: &&Recipe| plain(&recipe.name).starts_with(&typed);
    let found: Vec<&Recipe> = shop.recipes.iter().filter(begins).collect();
    let names = |recipes: &[&Recipe]| {
        either(
            &recipes
                .iter()
                .map(|recipe| recipe.name.clone())
                .collect::<Vec<_>>(),
        )
    };
    match found.as_slice() {
        [one] => Ok(one.id),
        [] => {
            let all: Vec<&Recipe> = shop.recipes.iter().take(8).collect();
            let message = format!(
                "There is no recipe called \"{}\": say {}.",
                quoted(text),
                names(&all)
            );
            Err(FieldError::new(FIELD, message))
        }
        several => {
            let message = format!(
                "\"{}\" may be {}: type more of it.",
                quoted(text),
                names(several)
            );
            Err(FieldError::new(FIELD, message))
        }
    }
}

/// Reads a piece of a job.
///
/// # Errors
/// Every field that does not read; where all do, the field in which the first thing that cannot
/// be cut is put right.
pub fn read_piece(
    typed: &PieceTyped,
    job: JobId,
    shop: &Shop,
) -> Result<PieceDraft, Vec<FieldError>> {
    let mut errors = Vec::new();
    let cure = "type what the shop calls it, for example bar top.";
    text_needed(
        "name",
        "The piece's name",
        &typed.name,
        PIECE_MOST,
        cure,
        &mut errors,
    );
    let kind = keep(pick("kind", &typed.kind, &kind_words()), &mut errors);
    let cure = "type the wood, for example hard maple.";
    text_needed(
        "species",
        "The species",
        &typed.species,
        NAME_MOST,
        cure,
        &mut errors,
    );
    let built = pick("construction", &typed.construction, &construction_words());
    let construction = keep(built, &mut errors);
    let shape = match typed.shape(&shop.settings) {
        Ok(shape) => Some(shape),
        Err(more) => {
            errors.extend(more);
            None
        }
    };
    let recipe = keep(read_recipe_name(&typed.recipe, shop), &mut errors);
    match (kind, construction, shape, recipe) {
        (Some(kind), Some(construction), Some(shape), Some(recipe)) if errors.is_empty() => {
            Ok(PieceDraft {
                job,
                name: typed.name.clone(),
                kind,
                species: typed.species.clone(),
                construction,
                shape,
                recipe,
            })
        }
        _ => Err(errors),
    }
}

/// Checks a text that must say something; the desk will clean it and say what was left out.
pub(super) fn text_needed(
    field: &'static str,
    what: &'static str,
    text: &str,
    most: usize,
    cure: &'static str,
    errors: &mut Vec<FieldError>,
) {
    if let Err(error) = needed(what, text, most, cure, &mut Vec::new()) {
        errors.push(FieldError::said(field, &error));
    }
}
