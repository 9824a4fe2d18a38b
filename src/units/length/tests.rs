//! Every accepted way of writing a length, every refusal with its words, and every way of showing.

use super::*;

fn eighths(whole: i64, eighths: i64) -> Length {
    Length::from_inches(whole, eighths, 8).expect("eighths are exact")
}

#[test]
fn every_accepted_form_is_read_exactly() {
    let top = eighths(98, 3);
    let forms = [
        ("8' 2 3/8\"", top),
        ("8'2 3/8\"", top),
        ("8'-2 3/8\"", top),
        ("8' - 2-3/8\"", top),
        ("8-2 3/8", top),
        ("8-2 3/8\"", top),
        ("8-2-3/8", top),
        ("8-2⅜", top),
        ("98-3/8", top),
        ("98-3/8\"", top),
        ("98-⅜", top),
        ("98 3/8", top),
        ("  98   3 / 8  ", top),
        ("98⅜", top),
        ("98 ⅜ in", top),
        ("98.375", top),
        ("98.375in", top),
        ("98.3750000000000000000 in.", top),
        ("787/8", top),
        ("8 ft 2 3/8 in", top),
        ("8 FT. 2⅜ IN.", top),
        ("8ft2.375in", top),
        ("8′ 2 3⁄8″", top),
        ("8’ 2 3/8”", top),
        ("8' 2 3/8''", top),
        ("8' 3/8\"", eighths(96, 3)),
        ("8'-½", eighths(96, 4)),
        ("8-2", eighths(98, 0)),
        ("8'", eighths(96, 0)),
        ("8.5 ft", eighths(102, 0)),
        ("8 1/2'", eighths(102, 0)),
        ("1/3 ft", eighths(4, 0)),
        ("½", eighths(0, 4)),
        ("¼\"", eighths(0, 2)),
        ("¾", eighths(0, 6)),
        ("⅛", eighths(0, 1)),
        ("⅝", eighths(0, 5)),
        ("⅞", eighths(0, 7)),
        (".5", eighths(0, 4)),
        ("8.", eighths(8, 0)),
        ("0", Length::ZERO),
        ("2500mm", Length::from_mm(2500)),
        ("2500 millimetres", Length::from_mm(2500)),
        ("250 cm", Length::from_mm(2500)),
        ("2.5 m", Length::from_mm(2500)),
        ("2.000001 mm", Length::from_nm(2_000_001)),
        ("100 ft", Length::MAX),
    ];
    for (text, expected) in forms {
        assert_eq!(
            Length::parse(text, BareUnit::Inches),
            Ok(expected),
            "{text}"
        );
    }
}

#[test]
fn a_bare_number_is_what_the_shop_says_but_a_hyphen_is_always_inches() {
    let read = |text| Length::parse(text, BareUnit::Millimetres);
    assert_eq!(read("2500"), Ok(Length::from_mm(2500)));
    assert_eq!(read("2500.25"), Ok(Length::from_nm(2_500_250_000)));
    assert_eq!(read("98 in"), Ok(eighths(98, 0)));
    assert_eq!(read("98-3/8"), Ok(eighths(98, 3)));
    assert_eq!(read("8-2"), Ok(eighths(98, 0)));
    assert_eq!(read("8' 2"), Ok(eighths(98, 0)));
}

#[test]
fn every_refusal_says_what_was_wrong_and_what_would_do() {
    let nonsense = |text: &str, part: &str| {
        format!(
            "\"{text}\" does not read as a length at \"{part}\"; write it like 8' 2 3/8\", 98 3/8 or 2500 mm."
        )
    };
    let too_long = |text: &str| {
        format!("\"{text}\" is more than 100 ft, the longest length taken here; check the unit.")
    };
    let too_fine = |text: &str| {
        format!(
            "\"{text}\" is finer than can be kept exactly; write halves to 64ths of an inch, or a decimal."
        )
    };
    let empty = "No length was given; write one like 8' 2 3/8\", 98 3/8 or 2500 mm.".to_owned();
    let refusals = [
        ("", empty.clone()),
        (" \t ", empty),
        ("wide", nonsense("wide", "wide")),
        ("98 3", nonsense("98 3", "3")),
        ("8 2 3/8", nonsense("8 2 3/8", "2 3/8")),
        ("98 9/8", nonsense("98 9/8", "9/8")),
        ("98.5 3/8", nonsense("98.5 3/8", "3/8")),
        ("98 3/", nonsense("98 3/", "98 3/")),
        ("98 3/8 oz", nonsense("98 3/8 oz", "oz")),
        ("98 3/8 in wide", nonsense("98 3/8 in wide", "wide")),
        ("8.5' 2\"", nonsense("8.5' 2\"", "8.5' 2\"")),
        ("8' 2 mm", nonsense("8' 2 mm", "mm")),
        ("8' 2\" 3", nonsense("8' 2\" 3", "3")),
        ("98-3/8 mm", nonsense("98-3/8 mm", "mm")),
        ("2,500 mm", nonsense("2,500 mm", ",500 mm")),
        ("~98\"", nonsense("~98\"", "~98\"")),
        ("-", nonsense("-", "-")),
        ("- wide", nonsense("- wide", "- wide")),
        (
            "98 3/0",
            "\"98 3/0\" has a fraction over 0; write the lower number as 2, 4, 8, 16, 32 or 64.".into(),
        ),
        (
            "-98",
            "\"-98\" is below zero; a length is zero or more, so write it without the minus.".into(),
        ),
        (
            "−8' 2\"",
            "\"−8' 2\"\" is below zero; a length is zero or more, so write it without the minus."
                .into(),
        ),
        ("101 ft", too_long("101 ft")),
        ("100' 1/64\"", too_long("100' 1/64\"")),
        ("2500 m", too_long("2500 m")),
        ("30480.0000001 mm", too_long("30480.0000001 mm")),
        (
            "99999999999999999999999999",
            too_long("99999999999999999999999999"),
        ),
        (
            "8' 14\"",
            "\"8' 14\"\" has 12 inches or more beside the feet; write 9' 2\" if that is what you mean."
                .into(),
        ),
        (
            "8-12",
            "\"8-12\" has 12 inches or more beside the feet; write 9' 0\" if that is what you mean."
                .into(),
        ),
        ("1/3", too_fine("1/3")),
        ("1/128\"", too_fine("1/128\"")),
        ("0.0000001 mm", too_fine("0.0000001 mm")),
        (
            "98.50000000000000000001",
            too_fine("98.50000000000000000001"),
        ),
    ];
    for (text, expected) in refusals {
        let refusal = Length::parse(text, BareUnit::Inches).expect_err(text);
        assert_eq!(refusal.to_string(), expected);
    }
}

#[test]
fn a_message_shows_foreign_text_cleaned_and_cut() {
    let text = format!("\u{1B}[31mred\u{202E} {}", "x".repeat(80));
    let refusal = Length::parse(&text, BareUnit::Inches).expect_err("not a length");
    let LengthError::Nonsense { text, .. } = refusal else {
        panic!("expected nonsense, got {refusal:?}");
    };
    assert_eq!(text, format!("red {}…", "x".repeat(35)));
}

#[test]
fn lengths_show_in_the_shops_way() {
    use LengthStyle::{Millimetres, Sixteenths, ThirtySeconds};
    let nm = Length::from_nm;
    let table = [
        (eighths(98, 3), Sixteenths, "8' 2 3/8\"", "98 3/8\""),
        (eighths(0, 6), Sixteenths, "3/4\"", "3/4\""),
        (eighths(11, 4), Sixteenths, "11 1/2\"", "11 1/2\""),
        (eighths(12, 0), Sixteenths, "1' 0\"", "12\""),
        (eighths(96, 3), Sixteenths, "8' 0 3/8\"", "96 3/8\""),
        (Length::ZERO, Sixteenths, "0\"", "0\""),
        (Length::from_64ths(2), Sixteenths, "~1/16\"", "~1/16\""),
        (Length::from_64ths(1), Sixteenths, "~0\"", "~0\""),
        (Length::from_64ths(2), ThirtySeconds, "1/32\"", "1/32\""),
        (Length::from_64ths(767), Sixteenths, "~1' 0\"", "~12\""),
        (-eighths(13, 0), Sixteenths, "-1' 1\"", "-13\""),
        (
            Length::from_mm(2500),
            Sixteenths,
            "~8' 2 7/16\"",
            "~98 7/16\"",
        ),
        (Length::from_mm(2500), Millimetres, "2500 mm", "2500 mm"),
        (nm(2_498_700_000), Millimetres, "2498.7 mm", "2498.7 mm"),
        (eighths(98, 3), Millimetres, "~2498.7 mm", "~2498.7 mm"),
        (nm(-1), Millimetres, "~0 mm", "~0 mm"),
    ];
    for (length, style, shown, inches) in table {
        assert_eq!(length.show(style), shown);
        assert_eq!(length.show_inches(style), inches);
    }
    assert_eq!(eighths(98, 3).show_exact(Millimetres), "2498.725 mm");
    assert_eq!(eighths(98, 3).show_exact(Sixteenths), "8' 2 3/8\"");
    assert_eq!(Length::from_64ths(1).show_exact(Sixteenths), "0.396875 mm");
}

#[test]
fn inches_that_are_no_whole_nanometres_are_not_made() {
    assert_eq!(
        Length::from_inches(98, 3, 8),
        Some(Length::from_nm(2_498_725_000))
    );
    assert_eq!(Length::from_inches(0, 1, 64), Some(Length::from_64ths(1)));
    assert_eq!(Length::from_inches(0, 1, 3), None);
    assert_eq!(Length::from_inches(1, 1, 0), None);
    assert_eq!(Length::from_inches(1, 1, -2), None);
    assert_eq!(Length::from_inches(i64::MAX, 0, 1), None);
}

#[test]
fn lengths_stay_at_the_far_end_instead_of_wrapping() {
    let far = Length::from_nm(i64::MAX);
    assert_eq!(far + Length::from_nm(1), far);
    assert_eq!(far * 2, far);
    assert_eq!(Length::from_mm(i64::MAX), far);
    let parts = [Length::from_mm(1), Length::from_mm(2)];
    assert_eq!(parts.iter().sum::<Length>(), Length::from_mm(3));
}
