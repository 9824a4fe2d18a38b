//! Showing of lengths in the shop's way of writing.

use serde::{Deserialize, Serialize};

use super::Length;
use crate::units::exact::divide_rounded;

/// How the shop writes lengths.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum LengthStyle {
    /// Feet and inches to 1/16 in.
    #[default]
    Sixteenths,
    /// Feet and inches to 1/32 in.
    ThirtySeconds,
    /// Millimetres to 0.1 mm.
    Millimetres,
}

impl LengthStyle {
    /// The smallest step shown, in nanometres.
    const fn step(self) -> i64 {
        match self {
            Self::Sixteenths => Length::NM_PER_INCH / 16,
            Self::ThirtySeconds => Length::NM_PER_INCH / 32,
            Self::Millimetres => 100_000,
        }
    }

    /// Steps in an inch (or in a millimetre).
    const fn steps_per_unit(self) -> u128 {
        match self {
            Self::Sixteenths => 16,
            Self::ThirtySeconds => 32,
            Self::Millimetres => 10,
        }
    }
}

impl Length {
    /// The length in this style: `8' 2 3/8"` from a foot up, `11 1/2"` or `3/4"` below, `8' 0"` on
    /// the even foot; `2498.7 mm`. Rounded to the nearest step (halves away from zero); a `~` in
    /// front says that rounding changed it.
    pub fn show(self, style: LengthStyle) -> String {
        let (front, steps) = self.steps(style);
        let per = style.steps_per_unit();
        if style == LengthStyle::Millimetres {
            return front + &millimetres(steps);
        }
        if steps < 12 * per {
            return format!("{front}{}\"", mixed(steps, per));
        }
        let (feet, rest) = (steps / (12 * per), steps % (12 * per));
        let fraction = mixed(rest, per);
        // A fraction alone beside the feet reads as inches more safely with its nought.
        let nought = if rest > 0 && rest < per { "0 " } else { "" };
        format!("{front}{feet}' {nought}{fraction}\"")
    }

    /// The length in inches only, `98 3/8"`; millimetres as in [`Length::show`].
    pub fn show_inches(self, style: LengthStyle) -> String {
        if style == LengthStyle::Millimetres {
            return self.show(style);
        }
        let (front, steps) = self.steps(style);
        format!("{front}{}\"", mixed(steps, style.steps_per_unit()))
    }

    /// A text that reads back as exactly this length (when it is one that may be typed): as in
    /// [`Length::show`] where that is exact, else millimetres with all their decimals.
    pub fn show_exact(self, style: LengthStyle) -> String {
        if self.0 % style.step() == 0 {
            return self.show(style);
        }
        let sign = if self.0 < 0 { "-" } else { "" };
        let (whole, rest) = (
            self.0.unsigned_abs() / 1_000_000,
            self.0.unsigned_abs() % 1_000_000,
        );
        let places = format!("{rest:06}");
        let places = places.trim_end_matches('0');
        let point = if places.is_empty() { "" } else { "." };
        format!("{sign}{whole}{point}{places} mm")
    }

    /// The next longer length that this style writes without rounding; itself where it is one.
    #[must_use]
    pub const fn up_to_step(self, style: LengthStyle) -> Self {
        let over = self.0.rem_euclid(style.step());
        if over == 0 {
            self
        } else {
            Self(self.0.saturating_add(style.step() - over))
        }
    }

    /// The next shorter length that this style writes without rounding; itself where it is one.
    #[must_use]
    pub const fn down_to_step(self, style: LengthStyle) -> Self {
        Self(self.0.saturating_sub(self.0.rem_euclid(style.step())))
    }

    /// What stands in front (`~`, `-`) and the size in steps of the style.
    fn steps(self, style: LengthStyle) -> (String, u128) {
        let step = i128::from(style.step());
        let nm = i128::from(self.0);
        let steps = divide_rounded(nm, step);
        let about = if nm % step == 0 { "" } else { "~" };
        let sign = if steps < 0 { "-" } else { "" };
        (format!("{about}{sign}"), steps.unsigned_abs())
    }
}

fn millimetres(tenths: u128) -> String {
    match (tenths / 10, tenths % 10) {
        (whole, 0) => format!("{whole} mm"),
        (whole, tenth) => format!("{whole}.{tenth} mm"),
    }
}

/// `98 3/8`, `3/4`, `98`, `0`: `steps` parts of which `per` (a power of two) make one.
fn mixed(steps: u128, per: u128) -> String {
    let (whole, mut above, mut below) = (steps / per, steps % per, per);
    while above != 0 && above % 2 == 0 {
        above /= 2;
        below /= 2;
    }
    match (whole, above) {
        (whole, 0) => whole.to_string(),
        (0, above) => format!("{above}/{below}"),
        (whole, above) => format!("{whole} {above}/{below}"),
    }
}
