//! What was understood, in the shop's own way of writing, to stand beside what was typed.

use super::corners::read_corners;
use super::opening::{read_cutouts, read_holes};
use super::piece::read_band;
use super::place::Onto;
use super::size::{read_length, read_profile, read_size};
use super::windows::read_windows;
use super::work::{read_air, read_amount, read_faces, read_scuff, read_when};
use crate::coating::{Span, after_windows, windows_words};
use crate::desk::AmountDraft;
use crate::shape::{FaceKey, Opening, Outline, Place, Purpose, Shape};
use crate::shop::Settings;
use crate::units::{
    Area, Length, LengthStyle, Volume, clean_line, parse_date, show_date, show_moment, show_span,
};
use chrono::{DateTime, NaiveDate, Utc};
use chrono_tz::Tz;

/// A length: `1 1/2"`. None where nothing was understood.
pub fn echo_length(text: &str, settings: &Settings) -> Option<String> {
    let length = read_length("length", text, settings).ok()?;
    Some(length.show(settings.length))
}

/// A size with its area before openings: `8' 2 3/8" x 2' 1 1/2", 17.4 sq ft`. Sides that do not
/// close are told.
pub fn echo_size(text: &str, settings: &Settings) -> Option<String> {
    let outline = read_size(text, settings).ok()?;
    let words = outline.words(&|length| length.show(settings.length));
    let show = |area: Area| area.show(settings.area());
    let area = match &outline {
        Outline::Live(slab) => {
            let drawn = show(slab.trapezoid());
            match slab.simpson_words() {
                Some(words) => format!("{drawn} as drawn, {} {words}", show(slab.simpson())),
                None => format!("{drawn} by straight lines from station to station"),
            }
        }
        other => show(other.area()),
    };
    let closing = echo_closing(&outline, settings).map_or_else(String::new, |c| format!("; {c}"));
    Some(format!("{words}, {area}{closing}"))
}

/// What the second diagonal says: `second diagonal 64 7/8", computed 65", closing error -1/8"`.
pub fn echo_closing(outline: &Outline, settings: &Settings) -> Option<String> {
    let closing = outline.closing()?;
    let show = |length: Length| length.show_inches(settings.length);
    let computed = Length::from_metres_rounded(closing.computed);
    let error = closing.measured - computed;
    let sign = if error < Length::ZERO { "-" } else { "+" };
    let size = Length::from_nm(error.nm().abs());
    let size = if size < Length::from_nm(500_000) {
        match settings.length {
            LengthStyle::Millimetres => "under 0.5 mm".to_owned(),
            _ => "under 1/32\"".to_owned(),
        }
    } else {
        format!("{sign}{}", show(size))
    };
    Some(format!(
        "second diagonal {} measured, {} by the sides: closing error {size}",
        show(closing.measured),
        show(computed)
    ))
}

/// Corners: `all corners rounded 2"`.
pub fn echo_corners(text: &str, size: &str, settings: &Settings) -> Option<String> {
    let outline = read_size(size, settings).ok()?;
    let outline = read_corners(text, outline, settings).ok()?;
    let corners = outline.corners();
    if corners.is_sharp() {
        return Some("sharp corners".to_owned());
    }
    let words = corners.words(&|length| length.show_inches(settings.length));
    let area = outline.area();
    Some(if area > Area::ZERO {
        format!("{words}, {}", area.show(settings.area()))
    } else {
        words
    })
}

/// A profile: `round-over 1/4"`.
pub fn echo_profile(text: &str, settings: &Settings) -> Option<String> {
    let profile = read_profile(text, settings).ok()?;
    Some(profile.words(&|length| length.show(settings.length)))
}

/// Cutouts: `cutout 1: 30" x 16", corner radius 3/4", centre 49 1/4" from left, 12 3/4" from
/// front`.
pub fn echo_cutouts(text: &str, onto: Onto<'_>, settings: &Settings) -> Option<String> {
    openings(&read_cutouts(text, onto, settings).ok()?, onto, settings)
}

/// Holes, in the same way.
pub fn echo_holes(text: &str, onto: Onto<'_>, settings: &Settings) -> Option<String> {
    openings(&read_holes(text, onto, settings).ok()?, onto, settings)
}

fn openings(openings: &[Opening], onto: Onto<'_>, settings: &Settings) -> Option<String> {
    let show = |length: Length| length.show_inches(settings.length);
    let words: Vec<String> = openings
        .iter()
        .map(|opening| {
            let form = opening.form_words(&show);
            let Place { x, y } = opening.place;
            let back = onto
                .outline
                .and_then(|outline| outline.back_at(x))
                .filter(|back| *back >= y && opening.purpose != Purpose::Plain)
                .map_or_else(String::new, |back| {
                    format!(", {} from back", show(back - y))
                });
            let purpose = opening
                .purpose_words(&show)
                .map_or_else(String::new, |words| format!(", {words}"));
            let name = opening.name();
            format!(
                "{name}: {form}, centre {} from left, {} from front{back}{purpose}",
                show(x),
                show(y)
            )
        })
        .collect();
    (!words.is_empty()).then(|| words.join("; "))
}

/// A span: `3 days`.
pub fn echo_span(span: Span) -> String {
    show_span(span.as_duration())
}

/// Windows: `next coat within 2 hours, or after 6 days`.
pub fn echo_windows(text: &str) -> Option<String> {
    let windows = read_windows(text).ok()?;
    let late = after_windows(&windows);
    Some(format!("next coat {}{late}", windows_words(&windows)))
}

/// An amount; `expected` is what the area takes at the label's rate: `estimate 1.2 fl oz at the
/// label's spread rate`.
pub fn echo_amount(text: &str, expected: Option<Volume>, settings: &Settings) -> Option<String> {
    let show = |volume: Volume| volume.show(settings.volume);
    Some(match (read_amount(text, settings).ok()?, expected) {
        (AmountDraft::Estimate, Some(volume)) => {
            format!("estimate {} at the label's spread rate", show(volume))
        }
        (AmountDraft::Estimate, None) => "estimate at the label's spread rate".to_owned(),
        (AmountDraft::Volume(volume), None) => format!("{} measured", show(volume)),
        (AmountDraft::Volume(volume), Some(expected)) => {
            format!(
                "{} measured; the label's rate makes it {}",
                show(volume),
                show(expected)
            )
        }
        (AmountDraft::Weighed { before, after }, _) => {
            format!("{} weighed", (before - after).show())
        }
        (AmountDraft::WeighedAfter(after), _) => {
            format!(
                "{} after; before, as the can was weighed last",
                after.show()
            )
        }
    })
}

/// Shop air: `68 F, 45%`.
pub fn echo_air(text: &str, settings: &Settings) -> Option<String> {
    let air = read_air(text, settings).ok()??;
    Some(format!(
        "{}, {}",
        air.temperature.show(settings.temperature),
        air.humidity.show()
    ))
}

/// A moment on the shop's clock: `3:40 pm`; where minutes or hours were typed, with how long ago
/// that is: `20 min ago, 3:20 pm`.
pub fn echo_when(text: &str, now: DateTime<Utc>, zone: Tz) -> Option<String> {
    let at = read_when(text, now, zone).ok()?;
    let shown = show_moment(at, now, zone);
    let digits = text.trim();
    let bare = !digits.is_empty() && digits.bytes().all(|b| b.is_ascii_digit());
    Some(if bare {
        format!("{} ago, {shown}", show_span(now - at))
    } else {
        shown
    })
}

/// A date: `Fri Dec 5`.
pub fn echo_promise(text: &str, today: NaiveDate) -> Option<String> {
    let date = parse_date(text, today).ok()?;
    let days = (date - today).num_days();
    let away = match days {
        0 => "today".to_owned(),
        1 => "tomorrow".to_owned(),
        _ if days < 0 => format!("{} days ago", -days),
        _ => format!("in {days} days"),
    };
    Some(format!("{}, {away}", show_date(date, today)))
}

/// Faces: `3 faces: top, left end, right end`.
pub fn echo_faces(text: &str, keys: &[FaceKey]) -> Option<String> {
    let Some(faces) = read_faces(text, keys).ok()? else {
        return Some("the faces next in line".to_owned());
    };
    let names: Vec<String> = faces.iter().map(ToString::to_string).collect();
    let count = if faces.len() == 1 {
        "1 face".to_owned()
    } else {
        format!("{} faces", faces.len())
    };
    Some(format!("{count}: {}", names.join(", ")))
}

/// A scuff: `320 fine paper`.
pub fn echo_scuff(text: &str) -> Option<String> {
    let means = read_scuff(text).ok()?;
    Some(means.map_or_else(|| "none".to_owned(), crate::shop::ScuffMeans::words))
}

/// A line that will be cleaned: `3 control characters are left out`. None where it stays as it
/// is.
pub fn echo_lines(text: &str) -> Option<String> {
    match clean_line(text).1 {
        0 => None,
        1 => Some("1 control character is left out".to_owned()),
        count => Some(format!("{count} control characters are left out")),
    }
}

/// The wood and faces of a shape: `9 faces, 38.1 sq ft to finish`.
pub fn echo_shape(shape: &Shape, built: crate::shape::Construction, settings: &Settings) -> String {
    let faces = shape.faces(built);
    let area: Area = faces.iter().map(|face| face.area).sum();
    format!(
        "{} faces, {} to finish",
        faces.len(),
        area.show(settings.area())
    )
}

/// A band: `2", the rest is the field`, or that there is none.
pub fn echo_band(text: &str, settings: &Settings) -> Option<String> {
    let (band, round) = read_band(text, settings).ok()?;
    let Some(band) = band else {
        return Some("no band".to_owned());
    };
    let round = if round {
        ", round the openings too"
    } else {
        ""
    };
    Some(format!(
        "{}{round}, the rest is the field",
        band.show(settings.length)
    ))
}
