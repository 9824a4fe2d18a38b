//! The shared reader of typed quantities: numbers, fractions, marks and unit words.

use super::clean::clean_line;
use super::exact::Ratio;

/// One piece of what was typed.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Token {
    /// `98`, `98.375`, `.5`.
    Number {
        value: Ratio,
        whole: bool,
    },
    /// `½` and its kin.
    Vulgar(Ratio),
    Slash,
    Hyphen,
    /// Feet.
    Prime,
    /// Inches.
    DoublePrime,
    /// Letters, in lower case, an abbreviation's full stop left out.
    Word(String),
    /// Anything else.
    Mark(char),
}

/// Why reading stopped: at a byte of the text, or at a fraction over nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Fault {
    Nonsense { at: usize },
    ZeroDenominator,
}

/// A number with its fraction, before its unit is known.
#[derive(Debug, Clone, Copy)]
pub(super) struct Quantity {
    pub(super) value: Ratio,
    /// Written with a hyphen before the fraction: `98-3/8`.
    pub(super) hyphened: bool,
}

/// Walks over the tokens of one text.
#[derive(Debug)]
pub(super) struct Reader<'a> {
    text: &'a str,
    tokens: Vec<(usize, Token)>,
    next: usize,
}

/// Digits kept before and after the point. More digits before it lie beyond every limit of this
/// room; more digits after it leave a mark (see [`number`]) so that they can never pass as exact.
const DIGITS: usize = 12;

impl<'a> Reader<'a> {
    pub(super) fn new(text: &'a str) -> Self {
        Self {
            text,
            tokens: tokens(text),
            next: 0,
        }
    }

    pub(super) fn peek(&self) -> Option<&Token> {
        self.look(0)
    }

    fn look(&self, ahead: usize) -> Option<&Token> {
        self.tokens.get(self.next + ahead).map(|(_, token)| token)
    }

    pub(super) fn is_done(&self) -> bool {
        self.next >= self.tokens.len()
    }

    /// Steps over the next token when it is this one.
    pub(super) fn eat(&mut self, wanted: &Token) -> bool {
        let found = self.peek() == Some(wanted);
        self.next += usize::from(found);
        found
    }

    /// Steps over the next token when it is one of these words.
    pub(super) fn eat_word(&mut self, wanted: &[&str]) -> bool {
        let found =
            matches!(self.peek(), Some(Token::Word(word)) if wanted.contains(&word.as_str()));
        self.next += usize::from(found);
        found
    }

    /// Steps over the next two tokens when they are one of the first words and one of the second.
    pub(super) fn eat_two_words(&mut self, first: &[&str], second: &[&str]) -> bool {
        let start = self.next;
        let found = self.eat_word(first) && self.eat_word(second);
        if !found {
            self.next = start;
        }
        found
    }

    /// The byte where the next token starts, or where the text ends.
    pub(super) fn at(&self) -> usize {
        self.tokens
            .get(self.next)
            .map_or(self.text.len(), |(at, _)| *at)
    }

    /// "This does not belong here", at the next token.
    pub(super) fn nonsense(&self) -> Fault {
        Fault::Nonsense { at: self.at() }
    }

    /// What the fault points at, for a message: the rest of the text, or all of it at its end.
    pub(super) fn part(&self, at: usize) -> String {
        let rest = self.text.get(at..).unwrap_or_default();
        quoted(if rest.trim().is_empty() {
            self.text
        } else {
            rest
        })
    }

    /// A number: `98`, `98.375`, `3/8`, `98 3/8`, `98-3/8`, `98½`, `½`.
    pub(super) fn quantity(&mut self) -> Result<Quantity, Fault> {
        let plain = |value| Quantity {
            value,
            hyphened: false,
        };
        match self.peek().cloned() {
            Some(Token::Vulgar(value)) => {
                self.next += 1;
                Ok(plain(value))
            }
            Some(Token::Number { .. }) if self.look(1) == Some(&Token::Slash) => {
                self.fraction().map(plain)
            }
            Some(Token::Number { value, whole }) => {
                self.next += 1;
                let hyphened =
                    self.peek() == Some(&Token::Hyphen) && whole && self.fraction_starts(1);
                let fraction_follows = hyphened || (whole && self.fraction_starts(0));
                if !fraction_follows {
                    return Ok(plain(value));
                }
                self.next += usize::from(hyphened);
                let fault = self.nonsense();
                let fraction = self.fraction()?;
                // "98 9/8" is a slip of the pen more often than it is meant.
                if !fraction.is_below(1) {
                    return Err(fault);
                }
                let value = value.plus(fraction).ok_or(fault)?;
                Ok(Quantity { value, hyphened })
            }
            _ => Err(self.nonsense()),
        }
    }

    fn fraction_starts(&self, ahead: usize) -> bool {
        match self.look(ahead) {
            Some(Token::Vulgar(_)) => true,
            Some(Token::Number { .. }) => self.look(ahead + 1) == Some(&Token::Slash),
            _ => false,
        }
    }

    /// `3/8` or `⅜`.
    fn fraction(&mut self) -> Result<Ratio, Fault> {
        if let Some(Token::Vulgar(value)) = self.peek() {
            let value = *value;
            self.next += 1;
            return Ok(value);
        }
        let above = self.whole_number()?;
        if !self.eat(&Token::Slash) {
            return Err(self.nonsense());
        }
        let fault = self.nonsense();
        let below = self.whole_number()?;
        if below == 0 {
            return Err(Fault::ZeroDenominator);
        }
        Ratio::new(above, below).ok_or(fault)
    }

    fn whole_number(&mut self) -> Result<i128, Fault> {
        if let Some(Token::Number { value, whole: true }) = self.peek()
            && let Some(n) = value.as_whole()
        {
            self.next += 1;
            return Ok(n);
        }
        Err(self.nonsense())
    }

    /// Quantities with units one after the other, such as `1 lb 2 oz`, to the end of the text.
    /// `unit` reads a unit, if one stands there. Only a lone quantity may go without.
    pub(super) fn terms<U>(
        &mut self,
        unit: impl Fn(&mut Self) -> Option<U>,
    ) -> Result<Vec<(Ratio, Option<U>)>, Fault> {
        let mut terms = Vec::new();
        loop {
            let quantity = self.quantity()?;
            let found = unit(self);
            let bare = found.is_none();
            terms.push((quantity.value, found));
            if self.is_done() && (!bare || terms.len() == 1) {
                return Ok(terms);
            }
            if bare {
                return Err(self.nonsense());
            }
        }
    }
}

/// Foreign text made fit for a message: cleaned and cut at 40 characters.
pub(super) fn quoted(text: &str) -> String {
    let (line, _) = clean_line(text);
    if line.chars().count() <= 40 {
        return line;
    }
    let mut short: String = line.chars().take(39).collect();
    short.push('…');
    short
}

fn tokens(text: &str) -> Vec<(usize, Token)> {
    let mut found = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let at = text.len() - rest.len();
        let (token, length) = token(rest, first);
        rest = &rest[length..];
        if let Some(token) = token {
            found.push((at, token));
        }
    }
    found
}

/// The token at the start of `rest` (none for white space) and its length in bytes.
fn token(rest: &str, first: char) -> (Option<Token>, usize) {
    let mark = first.len_utf8();
    let second = rest[mark..].chars().next();
    if first.is_whitespace() {
        return (None, mark);
    }
    if first.is_ascii_digit() || (first == '.' && second.is_some_and(|c| c.is_ascii_digit())) {
        return number(rest);
    }
    if first.is_alphabetic() {
        let length = rest
            .find(|c: char| !c.is_alphabetic())
            .unwrap_or(rest.len());
        let stop = usize::from(rest[length..].starts_with('.'));
        return (
            Some(Token::Word(rest[..length].to_lowercase())),
            length + stop,
        );
    }
    let token = match first {
        '/' | '\u{2044}' | '\u{2215}' => Token::Slash,
        '-' | '\u{2010}' | '\u{2011}' | '\u{2012}' | '\u{2013}' | '\u{2014}' | '\u{2212}' => {
            Token::Hyphen
        }
        '\'' | '\u{2018}' | '\u{2019}' | '\u{2032}' => {
            // Two single marks are how a keyboard without the double one writes inches.
            if second == Some(first) {
                return (Some(Token::DoublePrime), 2 * mark);
            }
            Token::Prime
        }
        '"' | '\u{201C}' | '\u{201D}' | '\u{2033}' => Token::DoublePrime,
        _ => match vulgar(first) {
            Some(value) => Token::Vulgar(value),
            None => Token::Mark(first),
        },
    };
    (Some(token), mark)
}

fn vulgar(mark: char) -> Option<Ratio> {
    let (above, below) = match mark {
        '½' => (1, 2),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        _ => return None,
    };
    Ratio::new(above, below)
}

/// A decimal number, exactly. Past [`DIGITS`] places the last kept digit is made odd: the value
/// then stays what it was to a millionth of a millionth, and can still not be taken for exact.
fn number(rest: &str) -> (Option<Token>, usize) {
    let whole_end = rest
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(rest.len());
    let whole_digits = rest[..whole_end].trim_start_matches('0');
    let mut value = if whole_digits.len() > DIGITS {
        10_i128.pow(12)
    } else {
        whole_digits.parse().unwrap_or(0)
    };
    let Some(after) = rest[whole_end..].strip_prefix('.') else {
        let value = Ratio::whole_number(value);
        return (Some(Token::Number { value, whole: true }), whole_end);
    };
    let places_end = after
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(after.len());
    let places = after[..places_end].trim_end_matches('0');
    let mut below = 1_i128;
    for digit in places.bytes().take(DIGITS) {
        value = value * 10 + i128::from(digit - b'0');
        below *= 10;
    }
    if places.len() > DIGITS {
        value |= 1;
    }
    let token = Ratio::new(value, below).map(|value| Token::Number {
        value,
        whole: false,
    });
    (token, whole_end + 1 + places_end)
}
