//! Times of day and lengths in what is typed about slots.

use crate::shop::DaySpan;

pub(super) enum Time {
    Span(DaySpan),
    From(u16),
}

pub(super) fn take_word(rest: &mut Vec<&str>, words: &[&str]) -> Option<String> {
    let at = rest
        .iter()
        .position(|word| words.contains(&word.to_lowercase().as_str()))?;
    Some(rest.remove(at).to_lowercase())
}

/// `1h`, `90 min`, `1.5 h`.
pub(super) fn take_length(rest: &mut Vec<&str>) -> Option<u16> {
    for at in (0..rest.len()).rev() {
        let alone = super::span::read_span("slot", rest[at], None);
        let pair = rest.get(at + 1).and_then(|unit| {
            super::span::read_span("slot", &format!("{} {unit}", rest[at]), None).ok()
        });
        let (span, used) = match (pair, alone) {
            (Some(span), _) => (span, 2),
            (None, Ok(span)) => (span, 1),
            (None, Err(_)) => continue,
        };
        let minutes = u16::try_from(span.as_minutes()).ok().filter(|m| *m > 0)?;
        rest.drain(at..at + used);
        return Some(minutes);
    }
    None
}

/// Takes the first time, or time from and to, out of the words.
pub(super) fn take_time(rest: &mut Vec<&str>) -> Option<Time> {
    for at in 0..rest.len() {
        let words: Vec<String> = rest[at..]
            .iter()
            .take(5)
            .map(|word| word.to_lowercase())
            .collect();
        for used in (1..=words.len()).rev() {
            let text = words[..used].join(" ");
            let found = tokens(&text);
            if let Some((span, all)) = range(&found)
                && all == found.len()
            {
                rest.drain(at..at + used);
                return Some(Time::Span(span));
            }
        }
        for used in (1..=2.min(words.len())).rev() {
            let found = tokens(&words[..used].join(" "));
            if let Some((time, all)) = time(&found)
                && all == found.len()
                && time.said
            {
                let before = at
                    .checked_sub(1)
                    .filter(|before| rest[*before].eq_ignore_ascii_case("at"));
                rest.drain(before.unwrap_or(at)..at + used);
                return Some(Time::From(time.minutes));
            }
        }
    }
    None
}

/// Numbers, colons, words and dashes apart: `12:30-5pm` is `12 : 30 - 5 pm`.
pub(super) fn tokens(text: &str) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    let mut kind = ' ';
    for c in text.chars() {
        let now = match c {
            '0'..='9' => '9',
            'a'..='z' => 'a',
            '-' | '\u{2013}' => '-',
            ':' => ':',
            _ => ' ',
        };
        if now == ' ' {
            kind = ' ';
            continue;
        }
        match out.last_mut() {
            Some(last) if kind == now => last.push(c),
            _ => out.push(if now == '-' {
                "-".to_owned()
            } else {
                c.to_string()
            }),
        }
        kind = now;
    }
    out
}

#[derive(Clone, Copy)]
struct TimeRead {
    minutes: u16,
    /// Whether am, pm, noon or minutes were said.
    said: bool,
    /// Whether am or pm was said.
    half: bool,
}

/// A time of day at the front; how many tokens it takes.
fn time(tokens: &[String]) -> Option<(TimeRead, usize)> {
    match tokens.first()?.as_str() {
        "noon" => return Some((fixed(720), 1)),
        "midnight" => return Some((fixed(1440), 1)),
        _ => {}
    }
    let mut hour: u16 = tokens[0].parse().ok().filter(|_| tokens[0].len() <= 2)?;
    let (mut minute, mut used, mut said) = (0_u16, 1, false);
    if tokens.get(1).map(String::as_str) == Some(":") {
        minute = tokens
            .get(2)?
            .parse()
            .ok()
            .filter(|_| tokens[2].len() == 2)?;
        (used, said) = (3, true);
    }
    let half = match tokens.get(used).map(String::as_str) {
        Some("am" | "a") => Some(0),
        Some("pm" | "p") => Some(12),
        _ => None,
    };
    if let Some(add) = half {
        if !(1..=12).contains(&hour) {
            return None;
        }
        hour = hour % 12 + add;
        used += 1;
    }
    let minutes = hour * 60 + minute;
    (minute < 60 && minutes <= 24 * 60).then_some((
        TimeRead {
            minutes,
            said: said || half.is_some(),
            half: half.is_some(),
        },
        used,
    ))
}

fn fixed(minutes: u16) -> TimeRead {
    TimeRead {
        minutes,
        said: true,
        half: true,
    }
}

/// From and to at the front; how many tokens they take.
pub(super) fn range(tokens: &[String]) -> Option<(DaySpan, usize)> {
    let (mut from, used) = time(tokens)?;
    if !matches!(tokens.get(used)?.as_str(), "-" | "to" | "until") {
        return None;
    }
    let (mut to, more) = time(&tokens[used + 1..])?;
    let all = used + 1 + more;
    let noon = 12 * 60;
    // 1-3 and 2 to 4: nobody's bench opens before five without am said.
    if !from.half && !to.half && from.minutes < 5 * 60 && to.minutes < noon {
        from.minutes += noon;
        to.minutes += noon;
    } else if !from.half
        && to.half
        && to.minutes > noon
        && from.minutes + noon < to.minutes
        && from.minutes < 7 * 60
    {
        from.minutes += noon;
    } else if !to.half && to.minutes <= from.minutes && to.minutes + noon > from.minutes {
        to.minutes += noon;
    }
    DaySpan::new(from.minutes, to.minutes).map(|span| (span, all))
}
