//! Money as typed: amounts, per cents, markups and margins, tax, shares, payment parts, steps.

use super::error::FieldError;
use super::words::{pick, plain, quoted};
use crate::money::{
    LineKind, Margin, Markup, PartAmount, PartAsked, PartKind, Percent, Share, StepKind, TaxChoice,
};
use crate::shop::SignedAt;
use crate::units::{Money, parse_date};
use chrono::NaiveDate;
use rust_decimal::Decimal;

/// Reads an amount: `$1,250.00`, `1250`, `-$40`.
///
/// # Errors
/// What does not read, at `field`.
pub fn read_money(field: &'static str, text: &str) -> Result<Money, FieldError> {
    Money::parse(text).map_err(|error| FieldError::said(field, &error))
}

/// Reads a per cent: `30 %`, `8.81`.
///
/// # Errors
/// What does not read, at `field`.
pub fn read_percent(field: &'static str, text: &str) -> Result<Percent, FieldError> {
    Percent::parse(text).map_err(|error| FieldError::said(field, &error))
}

/// Reads a markup on cost, `20 %`, or the margin of price that it comes to, `25 % margin`.
///
/// # Errors
/// What does not read, or a margin no price has, at `field`.
pub fn read_markup(field: &'static str, text: &str) -> Result<Markup, FieldError> {
    let typed = plain(text);
    let Some(margin) = typed.strip_suffix("margin") else {
        let number = typed.strip_suffix("markup").unwrap_or(&typed);
        return read_percent(field, number).map(Markup::new);
    };
    let margin = Margin::new(read_percent(field, margin)?);
    let margin = margin.map_err(|error| FieldError::said(field, &error))?;
    let exact = margin.percent().fraction() / (Decimal::ONE - margin.percent().fraction());
    let percent = (exact * Decimal::ONE_HUNDRED).round_dp(4);
    read_percent(field, &percent.to_string()).map(Markup::new)
}

/// Reads how a line is taxed: `as place`, `free`, or a rate.
///
/// # Errors
/// What does not read, at `field`.
pub fn read_tax(field: &'static str, text: &str) -> Result<TaxChoice, FieldError> {
    match plain(text).as_str() {
        "" | "as place" | "place" => Ok(TaxChoice::AsPlace),
        "free" | "none" | "no" => Ok(TaxChoice::Free),
        _ => match Percent::parse(text) {
            Ok(rate) => Ok(TaxChoice::At(rate)),
            Err(_) => Err(FieldError::new(
                field,
                format!(
                    "\"{}\" is no tax: say as place, free, or a rate like 4.5 %.",
                    quoted(text)
                ),
            )),
        },
    }
}

/// Reads a share of a total: `1/3`, `50 %`.
///
/// # Errors
/// What does not read, at `field`.
pub fn read_share(field: &'static str, text: &str) -> Result<Share, FieldError> {
    Share::parse(text).map_err(|error| FieldError::said(field, &error))
}

/// Reads a kind of step.
///
/// # Errors
/// What is none, at `step`.
pub fn read_step(text: &str) -> Result<StepKind, FieldError> {
    let words: Vec<(StepKind, String)> = StepKind::ALL
        .into_iter()
        .map(|step| (step, plain(step.word())))
        .collect();
    pick("step", text, &words)
}

/// Reads what a line is for.
///
/// # Errors
/// What is none, at `field`.
pub fn read_line_kind(field: &'static str, text: &str) -> Result<LineKind, FieldError> {
    let words: Vec<(LineKind, String)> = LineKind::ALL
        .into_iter()
        .map(|kind| (kind, plain(kind.word())))
        .collect();
    pick(field, text, &words)
}

/// Reads where an agreement was signed.
///
/// # Errors
/// What is none, at `at`.
pub fn read_signed_at(text: &str) -> Result<SignedAt, FieldError> {
    let words: Vec<(SignedAt, String)> = SignedAt::ALL
        .into_iter()
        .map(|at| (at, at.word().to_owned()))
        .collect();
    pick("at", text, &words)
}

/// Reads an exact count: `4`, `2.5`.
///
/// # Errors
/// What is none, at `field`.
pub fn read_count(field: &'static str, text: &str) -> Result<Decimal, FieldError> {
    let typed = text.trim();
    let fits = typed.len() <= 12 && typed.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    let count = typed
        .parse::<Decimal>()
        .ok()
        .filter(|count| fits && *count > Decimal::ZERO);
    count.ok_or_else(|| {
        FieldError::new(
            field,
            format!(
                "\"{}\" is no count: type a number above 0, like 4 or 2.5.",
                quoted(text)
            ),
        )
    })
}

/// Reads payment parts: `50/40/10`, or clauses parted by commas, each with what it is, how much, the
/// event and perhaps a date: `deposit 1/3, progress $2,000 when sanded, balance rest by dec 12`.
/// Amounts with commas in them are taken as amounts.
///
/// # Errors
/// The clause that does not read, at `pay`.
pub fn read_parts(text: &str, today: NaiveDate) -> Result<Vec<PartAsked>, FieldError> {
    const FIELD: &str = "pay";
    if let Some(parts) = short_parts(text) {
        return Ok(parts);
    }
    let clauses = clauses(text);
    let last = clauses.len().saturating_sub(1);
    clauses
        .iter()
        .enumerate()
        .map(|(at, clause)| {
            let usual = match at {
                0 if last > 0 => PartKind::Deposit,
                at if at == last => PartKind::Balance,
                _ => PartKind::Progress,
            };
            part(clause, usual, today).ok_or_else(|| {
                FieldError::new(
                    FIELD,
                    format!(
                        "\"{}\" is no payment: write parts like deposit 50 %, progress $2,000 when \
                         sanded, balance rest; or 50/40/10.",
                        quoted(clause)
                    ),
                )
            })
        })
        .collect()
}

/// `50/40/10`: whole per cents that make a hundred.
fn short_parts(text: &str) -> Option<Vec<PartAsked>> {
    let numbers: Vec<u32> = text
        .split('/')
        .map(|number| number.trim().parse().ok())
        .collect::<Option<_>>()?;
    let sum: u32 = numbers.iter().fold(0, |sum, n| sum.saturating_add(*n));
    if !(2..=4).contains(&numbers.len()) || sum != 100 {
        return None;
    }
    let kinds: &[PartKind] = match numbers.len() {
        2 => &[PartKind::Deposit, PartKind::Balance],
        3 => &[PartKind::Deposit, PartKind::Progress, PartKind::Balance],
        _ => &PartKind::ALL,
    };
    kinds
        .iter()
        .zip(numbers)
        .map(|(kind, number)| {
            Some(PartAsked {
                kind: *kind,
                amount: PartAmount::Share(Share::of_percent(Percent::whole(number))?),
                event: kind.usual_event().to_owned(),
                due: None,
            })
        })
        .collect()
}

/// Parts a text at its commas, those that part thousands left in.
fn clauses(text: &str) -> Vec<String> {
    let chars: Vec<char> = text.chars().collect();
    let digit = |at: Option<usize>| {
        at.and_then(|at| chars.get(at))
            .is_some_and(char::is_ascii_digit)
    };
    let mut out = vec![String::new()];
    for (at, c) in chars.iter().enumerate() {
        let thousands = digit(at.checked_sub(1)) && (1..=3).all(|off| digit(Some(at + off)));
        if *c == ',' && !thousands {
            out.push(String::new());
        } else if let Some(last) = out.last_mut() {
            last.push(*c);
        }
    }
    out.into_iter()
        .map(|clause| clause.trim().to_owned())
        .filter(|clause| !clause.is_empty())
        .collect()
}

fn part(clause: &str, usual: PartKind, today: NaiveDate) -> Option<PartAsked> {
    let mut words: Vec<&str> = clause.split_whitespace().collect();
    let first = words.first()?.to_lowercase();
    let kind = PartKind::ALL.into_iter().find(|kind| kind.word() == first);
    if kind.is_some() {
        words.remove(0);
    }
    let kind = kind.unwrap_or(usual);
    let first = *words.first()?;
    let amount = if first.eq_ignore_ascii_case("rest") {
        words.remove(0);
        PartAmount::Rest
    } else if first.contains('/') || first.ends_with('%') {
        words.remove(0);
        PartAmount::Share(Share::parse(first).ok()?)
    } else if words.get(1) == Some(&"%") {
        words.drain(..2);
        PartAmount::Share(Share::parse(first).ok()?)
    } else {
        words.remove(0);
        PartAmount::Amount(Money::parse(first).ok()?)
    };
    let by = words
        .iter()
        .rposition(|word| word.eq_ignore_ascii_case("by"));
    let mut due = None;
    if let Some(by) = by {
        due = Some(parse_date(&words[by + 1..].join(" "), today).ok()?);
        words.truncate(by);
    }
    let event = if words.is_empty() {
        kind.usual_event().to_owned()
    } else {
        words.join(" ")
    };
    Some(PartAsked {
        kind,
        amount,
        event,
        due,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day() -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, 11, 27).unwrap_or_default()
    }

    #[test]
    fn parts_read_short_and_long() {
        let short = read_parts("50/40/10", day()).unwrap();
        let long = read_parts("deposit 50 %, 40%, balance 10 %", day()).unwrap();
        assert_eq!(short, long);
        let parts = read_parts(
            "deposit 1/3, progress $2,000 when sanded, balance rest by dec 12",
            day(),
        )
        .unwrap();
        assert_eq!(
            parts[1].amount,
            PartAmount::Amount(Money::from_cents(200_000))
        );
        assert_eq!(parts[1].event, "when sanded");
        assert_eq!(parts[2].amount, PartAmount::Rest);
        assert_eq!(parts[2].due, NaiveDate::from_ymd_opt(2026, 12, 12));
        for wrong in [
            "half",
            "deposit",
            "50/40",
            "deposit 0 %, balance rest",
            "rest by never",
        ] {
            assert!(read_parts(wrong, day()).is_err(), "{wrong}");
        }
    }

    #[test]
    fn a_margin_is_never_taken_for_a_markup() {
        let markup = |text| read_markup("markup", text).unwrap().percent().to_string();
        assert_eq!(markup("50 %"), "50 %");
        assert_eq!(markup("50 % markup"), "50 %");
        assert_eq!(markup("50 % margin"), "100 %");
        assert_eq!(markup("33.3333 margin"), "49.9999 %");
        assert!(read_markup("markup", "100 % margin").is_err());
    }
}
