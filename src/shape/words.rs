//! How a length is written inside a refusal: inches when it lies on the tape, millimetres when
//! not. (Screens and papers print lengths by the shop's choice; a refusal has no shop at hand.)

use crate::units::Length;

/// 1/64 in, in nanometres (25.4 mm / 64, exactly).
pub(super) const NM_PER_64TH: i64 = 396_875;
const NM_PER_TENTH_MM: i64 = 100_000;

/// `25 1/2"` for whole 64ths, `12.7 mm` (to a thousandth) for anything else.
pub(super) fn say(length: Length) -> String {
    let nm = length.nm();
    let sign = if nm < 0 { "-" } else { "" };
    let size = nm.unsigned_abs();
    let step = NM_PER_64TH.unsigned_abs();
    if size.is_multiple_of(step) {
        let sixty_fourths = size / step;
        let (whole, mut part, mut of) = (sixty_fourths / 64, sixty_fourths % 64, 64);
        while part > 0 && part % 2 == 0 {
            part /= 2;
            of /= 2;
        }
        return match (whole, part) {
            (_, 0) => format!("{sign}{whole}\""),
            (0, _) => format!("{sign}{part}/{of}\""),
            _ => format!("{sign}{whole} {part}/{of}\""),
        };
    }
    let thousandths = size.div_ceil(1000);
    let text = format!("{}.{:03}", thousandths / 1000, thousandths % 1000);
    let text = text.trim_end_matches('0').trim_end_matches('.');
    format!("{sign}{text} mm")
}

/// A distance in half-nanometres as a length that reads well: rounded up to the next 1/64 in when
/// the top was measured in inches, to the next tenth of a millimetre when not.
pub(super) fn round_up(half_nm: i128, in_inches: bool) -> Length {
    let step = i128::from(if in_inches {
        NM_PER_64TH
    } else {
        NM_PER_TENTH_MM
    });
    let whole = (half_nm.max(0) + 2 * step - 1) / (2 * step) * step;
    Length::from_nm(i64::try_from(whole).unwrap_or(i64::MAX))
}

/// A distance in metres as a length that reads well, rounded down in the same way; never below
/// nothing.
pub(super) fn round_down(metres: f64, in_inches: bool) -> Length {
    let step = if in_inches {
        NM_PER_64TH
    } else {
        NM_PER_TENTH_MM
    };
    // A hair over, so that what is a whole step to the last digit stays one.
    let nm = Length::from_metres_rounded(metres.max(0.0) + 1e-10).nm();
    Length::from_nm(nm / step * step)
}

#[cfg(test)]
mod tests {
    use super::{round_up, say};
    use crate::units::Length;

    #[test]
    fn lengths_read_as_on_the_tape() {
        assert_eq!(say(Length::from_64ths(25 * 64 + 32)), "25 1/2\"");
        assert_eq!(say(Length::from_64ths(3)), "3/64\"");
        assert_eq!(say(Length::from_64ths(-256)), "-4\"");
        assert_eq!(say(Length::ZERO), "0\"");
        assert_eq!(say(Length::from_mm(600)), "600 mm");
        assert_eq!(say(Length::from_nm(1_234_567)), "1.235 mm");
        assert_eq!(say(Length::from_nm(i64::MIN)), "-9223372036854.776 mm");
    }

    #[test]
    fn distances_round_up_to_the_tape() {
        assert_eq!(round_up(1, true), Length::from_64ths(1));
        assert_eq!(round_up(2 * 396_875, true), Length::from_64ths(1));
        assert_eq!(round_up(2 * 396_875 + 1, true), Length::from_64ths(2));
        assert_eq!(round_up(1, false), Length::from_nm(100_000));
        assert_eq!(round_up(-7, false), Length::ZERO);
        assert_eq!(round_up(i128::MAX / 4, true), Length::from_nm(i64::MAX));
    }
}
