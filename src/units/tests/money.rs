//! Money.

use crate::units::Money;

use super::says;

#[test]
fn money_is_read_and_shown() {
    for (text, cents, shown) in [
        ("$42.50", 4250, "$42.50"),
        ("42.5", 4250, "$42.50"),
        ("42", 4200, "$42.00"),
        ("42.", 4200, "$42.00"),
        (".5", 50, "$0.50"),
        ("42.5000", 4250, "$42.50"),
        ("1,250.00", 125_000, "$1,250.00"),
        ("$ 1250", 125_000, "$1,250.00"),
        ("1,234,567.89", 123_456_789, "$1,234,567.89"),
        ("-$42.50", -4250, "-$42.50"),
        ("0", 0, "$0.00"),
    ] {
        let money = Money::parse(text);
        assert_eq!(money, Ok(Money::from_cents(cents)), "{text}");
        assert_eq!(money.map(Money::show), Ok(shown.to_owned()));
    }
}

#[test]
fn money_is_refused_in_words() {
    says(
        Money::parse(""),
        "No amount was given; write one like 42.50 or $1,250.",
    );
    for text in [
        "free", "12,50", "1,2500", ",500", "4 2", "$", ".", "1.2.3", "$-5", "1.é",
    ] {
        let forms = "write it like 42.50 or $1,250.00.";
        let expected = format!("\"{text}\" does not read as an amount of money; {forms}");
        says(Money::parse(text), &expected);
    }
    says(
        Money::parse("42.505"),
        "\"42.505\" has parts of a cent; write at most two digits after the point.",
    );
    for text in ["100,000,000.01", "99999999999999999999"] {
        let limit = "is more than $100,000,000, the most taken here; check the number.";
        says(Money::parse(text), &format!("\"{text}\" {limit}"));
    }
}
