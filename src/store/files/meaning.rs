//! The words of the files for things that are one of a few.

use crate::coating::{Family, ProductKind};
use crate::shape::{Construction, FaceKey};
use crate::shop::{
    Chore, CoatKind, Grit, LookChoice, PieceKind, RagWay, ScuffMeans, SetItem, Stage, TouchVerdict,
};
use crate::units::{LengthStyle, TemperatureStyle, VolumeStyle};

/// Things with their words.
pub(super) type Words<T> = &'static [(T, &'static str)];

pub(super) const LENGTHS: Words<LengthStyle> = &[
    (LengthStyle::Sixteenths, "sixteenths"),
    (LengthStyle::ThirtySeconds, "thirty-seconds"),
    (LengthStyle::Millimetres, "millimetres"),
];
pub(super) const TEMPERATURES: Words<TemperatureStyle> = &[
    (TemperatureStyle::Fahrenheit, "fahrenheit"),
    (TemperatureStyle::Celsius, "celsius"),
];
pub(super) const VOLUMES: Words<VolumeStyle> = &[
    (VolumeStyle::FluidOunces, "fluid-ounces"),
    (VolumeStyle::Millilitres, "millilitres"),
];
pub(super) const LOOKS: Words<LookChoice> = &LookChoice::ALL;
/// What files of format 1 say of all figures of a product at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum OldBasis {
    Label,
    FamilyRange,
}
pub(super) const BASES: Words<OldBasis> = &[
    (OldBasis::Label, "label"),
    (OldBasis::FamilyRange, "family-range"),
];
pub(super) const FAMILIES: Words<Family> = &[
    (Family::OilWipingVarnish, "oil-wiping-varnish"),
    (Family::OilBrushingVarnish, "oil-brushing-varnish"),
    (Family::OilGelStain, "oil-gel-stain"),
    (Family::OilLiquidStain, "oil-liquid-stain"),
    (Family::OilConditioner, "oil-conditioner"),
    (Family::WaterBorne, "water-borne"),
    (Family::Shellac, "shellac"),
    (Family::HardwaxOil, "hardwax-oil"),
    (Family::TungOil, "tung-oil"),
    (Family::Lacquer, "lacquer"),
    (Family::MineralSpirits, "mineral-spirits"),
];
pub(super) const CONSTRUCTIONS: Words<Construction> = &[
    (Construction::FaceGrain, "face-grain"),
    (Construction::EdgeGrain, "edge-grain"),
    (Construction::EndGrain, "end-grain"),
    (Construction::SolidSlab, "solid-slab"),
];

/// The word of a thing in a list of words.
pub(super) fn word<T: PartialEq>(words: Words<T>, thing: &T) -> &'static str {
    words
        .iter()
        .find(|(has, _)| has == thing)
        .map_or("", |(_, word)| *word)
}

/// The thing of a word in a list of words.
pub(super) fn pick<T: Copy>(words: Words<T>, text: &str) -> Result<T, String> {
    choose(words.iter().copied(), text)
}

fn choose<T>(all: impl Iterator<Item = (T, &'static str)>, text: &str) -> Result<T, String> {
    let mut known = Vec::new();
    for (thing, word) in all {
        if word == text {
            return Ok(thing);
        }
        known.push(word);
    }
    let text = super::table::short(text);
    Err(format!("\"{text}\" is not one of {}.", known.join(", ")))
}

pub(super) fn product_kind(text: &str) -> Result<ProductKind, String> {
    choose(
        ProductKind::ALL.into_iter().map(|kind| (kind, kind.word())),
        text,
    )
}

pub(super) fn piece_kind(text: &str) -> Result<PieceKind, String> {
    choose(
        PieceKind::ALL.into_iter().map(|kind| (kind, kind.word())),
        text,
    )
}

pub(super) fn coat_kind(text: &str) -> Result<CoatKind, String> {
    choose(
        CoatKind::ALL.into_iter().map(|kind| (kind, kind.word())),
        text,
    )
}

pub(super) fn verdict(text: &str) -> Result<TouchVerdict, String> {
    choose(
        TouchVerdict::ALL
            .into_iter()
            .map(|verdict| (verdict, verdict.code())),
        text,
    )
}

pub(super) fn chore(text: &str) -> Result<Chore, String> {
    choose(
        Chore::ALL.into_iter().map(|chore| (chore, chore.code())),
        text,
    )
}

pub(super) fn rag_way(text: &str) -> Result<RagWay, String> {
    choose(RagWay::ALL.into_iter().map(|way| (way, way.code())), text)
}

pub(super) fn set_item(text: &str) -> Result<SetItem, String> {
    choose(
        SetItem::ALL.into_iter().map(|item| (item, item.code())),
        text,
    )
}

pub(super) fn stage(text: &str) -> Result<Stage, String> {
    choose(
        Stage::ALL.into_iter().map(|stage| (stage, stage.word())),
        text,
    )
}

/// A grit by its number.
pub(super) fn grit(text: &str) -> Result<Grit, String> {
    let number = text
        .parse::<u16>()
        .ok()
        .filter(|grit| (24..=3000).contains(grit));
    number.map(Grit).ok_or_else(|| {
        format!(
            "\"{}\" is no grit; write a number from 24 to 3000.",
            super::table::short(text)
        )
    })
}

/// `fine-paper-320`, `pad`, `brown-paper`.
pub(super) fn means_word(means: ScuffMeans) -> String {
    match means {
        ScuffMeans::FinePaper(grit) => format!("fine-paper-{grit}"),
        ScuffMeans::Pad => "pad".to_owned(),
        ScuffMeans::BrownPaper => "brown-paper".to_owned(),
    }
}

/// Reads back what [`means_word`] writes.
pub(super) fn means(text: &str) -> Result<ScuffMeans, String> {
    match text {
        "pad" => Ok(ScuffMeans::Pad),
        "brown-paper" => Ok(ScuffMeans::BrownPaper),
        _ => match text.strip_prefix("fine-paper-") {
            Some(number) => grit(number).map(ScuffMeans::FinePaper),
            None => Err(format!(
                "\"{}\" is not one of fine-paper-320 (or another grit), pad, brown-paper.",
                super::table::short(text)
            )),
        },
    }
}

/// Codes of faces, parted by spaces; none twice.
pub(super) fn faces(text: &str) -> Result<Vec<FaceKey>, String> {
    let mut out: Vec<FaceKey> = Vec::new();
    for code in text.split_whitespace() {
        let key: FaceKey = super::table::short(code)
            .parse()
            .map_err(|error| format!("{error}."))?;
        if out.contains(&key) {
            return Err(format!("{code} stands twice; name each face once."));
        }
        out.push(key);
    }
    Ok(out)
}

/// Codes of faces as they are written.
pub(super) fn face_codes<'k>(keys: impl IntoIterator<Item = &'k FaceKey>) -> String {
    let codes: Vec<String> = keys.into_iter().map(|key| key.code()).collect();
    codes.join(" ")
}

/// `A` is 0, `Z` 25, `AA` 26: a piece's letter within its job.
pub(super) fn letter(text: &str) -> Result<u32, String> {
    let why = || {
        format!(
            "\"{}\" is no piece letter; write A to ZZZ.",
            super::table::short(text)
        )
    };
    if text.is_empty() || text.len() > 3 || !text.bytes().all(|b| b.is_ascii_uppercase()) {
        return Err(why());
    }
    Ok(text
        .bytes()
        .fold(0, |no, b| no * 26 + u32::from(b - b'A') + 1)
        - 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_thing_has_its_word_and_comes_back() {
        for family in Family::ALL {
            assert_eq!(pick(FAMILIES, word(FAMILIES, &family)), Ok(family));
        }
        for construction in Construction::ALL {
            assert_eq!(
                pick(CONSTRUCTIONS, word(CONSTRUCTIONS, &construction)),
                Ok(construction)
            );
        }
        for given in [
            ScuffMeans::FinePaper(Grit(320)),
            ScuffMeans::Pad,
            ScuffMeans::BrownPaper,
        ] {
            assert_eq!(means(&means_word(given)), Ok(given));
        }
        assert_eq!(
            product_kind("glue"),
            Err("\"glue\" is not one of wipe, sealer, stain, topcoat.".to_owned())
        );
        assert!(faces("top top").is_err() && faces("lid").is_err());
        assert!(grit("7").is_err() && grit("x").is_err());
    }

    #[test]
    fn letters_are_those_of_the_ticket() {
        for (text, no) in [
            ("A", 0),
            ("Z", 25),
            ("AA", 26),
            ("AZ", 51),
            ("ZZ", 701),
            ("AAA", 702),
        ] {
            assert_eq!(letter(text), Ok(no));
        }
        for bad in ["", "a", "A1", "AAAA", "Ä"] {
            assert!(letter(bad).is_err(), "{bad}");
        }
    }
}
