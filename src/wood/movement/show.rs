//! Lengths as movement is told: to 1/32 in and in millimetres.

use crate::units::{Length, LengthStyle};

const NM_PER_32ND: i64 = Length::NM_PER_INCH / 32;

/// To the nearest 1/32 in, halves away from zero.
pub fn nearest_32nd(length: Length) -> Length {
    let nm = length.nm();
    let half = if nm < 0 {
        -NM_PER_32ND / 2
    } else {
        NM_PER_32ND / 2
    };
    let steps = nm.saturating_add(half) / NM_PER_32ND;
    Length::from_nm(steps.saturating_mul(NM_PER_32ND))
}

/// Up to the next 1/32 in, for what must not be too small; nothing for zero or less.
pub fn up_to_32nd(length: Length) -> Length {
    let nm = length.nm().max(0);
    let steps = nm / NM_PER_32ND + i64::from(nm % NM_PER_32ND != 0);
    Length::from_nm(steps.saturating_mul(NM_PER_32ND))
}

/// `3/16" (4.7 mm)`: to the nearest 1/32 in, and to a tenth of a millimetre. The sign is kept.
pub fn both(length: Length) -> String {
    let millimetres = length.show(LengthStyle::Millimetres);
    format!(
        "{} ({})",
        nearest_32nd(length).show_inches(LengthStyle::ThirtySeconds),
        millimetres.trim_start_matches('~')
    )
}
