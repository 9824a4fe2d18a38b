//! Shop air: temperature and relative humidity.

use serde::{Deserialize, Serialize};

use super::exact::{round_to_i64, trimmed};
use super::scan::{Reader, Token, quoted};

/// A temperature in thousandths of a degree Celsius, never below absolute zero. Stored and sent as
/// that number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(from = "i32", into = "i32")]
pub struct Temperature(i32);

/// A relative humidity in tenths of a percent, 0 to 100 %. Stored and sent as that number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "i32", into = "i32")]
pub struct Humidity(i32);

/// How the shop writes temperatures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum TemperatureStyle {
    /// `68 F`.
    #[default]
    Fahrenheit,
    /// `20 C`.
    Celsius,
}

/// Why a text is not taken as shop air.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum AirError {
    /// Nothing was typed.
    #[error("No shop air was given; write temperature and humidity like 68F 45.")]
    Empty,
    /// Only a temperature.
    #[error("\"{text}\" has no humidity; write temperature and humidity like 68F 45.")]
    NoHumidity {
        /// What was typed.
        text: String,
    },
    /// The text does not read as shop air.
    #[error(
        "\"{text}\" does not read as shop air at \"{part}\"; write temperature and humidity like 68F 45 or 20C 45."
    )]
    Nonsense {
        /// What was typed.
        text: String,
        /// From where it stops making sense.
        part: String,
    },
    /// A temperature that no shop has.
    #[error(
        "{shown} is outside -20 C to 50 C (-4 F to 122 F), which no shop air is; check whether it is in F or in C."
    )]
    Unlikely {
        /// The temperature as it was understood, in both scales.
        shown: String,
    },
    /// A humidity outside 0 to 100 %.
    #[error("A humidity of {percent} % cannot be; write a number from 0 to 100.")]
    Humidity {
        /// What was typed.
        percent: String,
    },
}

impl Temperature {
    /// Absolute zero.
    const LEAST: i32 = -273_150;

    /// From degrees Celsius, to the nearest thousandth; nothing is colder than -273.15.
    pub fn from_c(c: f64) -> Self {
        let milli = i32::try_from(round_to_i64(c * 1000.0));
        Self::from(milli.unwrap_or(if c < 0.0 { Self::LEAST } else { i32::MAX }))
    }

    /// From degrees Fahrenheit: C = (F - 32) x 5/9.
    pub fn from_f(f: f64) -> Self {
        Self::from_c((f - 32.0) * 5.0 / 9.0)
    }

    /// Thousandths of a degree Celsius.
    pub const fn milli_c(self) -> i32 {
        self.0
    }

    /// Degrees Celsius.
    pub fn c(self) -> f64 {
        f64::from(self.0) / 1000.0
    }

    /// Degrees Fahrenheit.
    pub fn f(self) -> f64 {
        self.c() * 9.0 / 5.0 + 32.0
    }

    /// Kelvin.
    pub fn kelvin(self) -> f64 {
        self.c() + 273.15
    }

    /// `68 F` or `20 C`; one decimal at most.
    pub fn show(self, style: TemperatureStyle) -> String {
        match style {
            TemperatureStyle::Fahrenheit => format!("{} F", trimmed(self.f(), 1)),
            TemperatureStyle::Celsius => format!("{} C", trimmed(self.c(), 1)),
        }
    }
}

impl From<i32> for Temperature {
    fn from(milli_c: i32) -> Self {
        Self(milli_c.max(Self::LEAST))
    }
}

impl From<Temperature> for i32 {
    fn from(temperature: Temperature) -> Self {
        temperature.0
    }
}

impl Humidity {
    /// From tenths of a percent; `None` outside 0 to 1000.
    pub const fn from_tenths(tenths: i32) -> Option<Self> {
        if tenths < 0 || tenths > 1000 {
            return None;
        }
        Some(Self(tenths))
    }

    /// From percent, to the nearest tenth; `None` outside 0 to 100.
    pub fn from_percent(percent: f64) -> Option<Self> {
        if !(0.0..=100.0).contains(&percent) {
            return None;
        }
        Self::from_tenths(i32::try_from(round_to_i64(percent * 10.0)).ok()?)
    }

    /// Tenths of a percent.
    pub const fn tenths(self) -> i32 {
        self.0
    }

    /// Percent, 0 to 100.
    pub fn percent(self) -> f64 {
        f64::from(self.0) / 10.0
    }

    /// As a fraction, 0 to 1.
    pub fn fraction(self) -> f64 {
        f64::from(self.0) / 1000.0
    }

    /// `45%`, `45.5%`.
    pub fn show(self) -> String {
        format!("{}%", trimmed(self.percent(), 1))
    }
}

impl TryFrom<i32> for Humidity {
    type Error = &'static str;
    fn try_from(tenths: i32) -> Result<Self, Self::Error> {
        Self::from_tenths(tenths).ok_or("A humidity must lie between 0 and 100 %.")
    }
}

impl From<Humidity> for i32 {
    fn from(humidity: Humidity) -> Self {
        humidity.0
    }
}

/// Reads shop air, temperature first: `68F 45`, `20C 45%`, `68 F, 45 %`, `68 45`, and with decimal
/// commas where a letter parts the two: `20,5C 45,5`. `bare` says what a temperature without a
/// letter is.
///
/// # Errors
/// [`AirError`] tells nothing, no humidity, nonsense, a temperature outside -20 to 50 C (a letter
/// mixed up, most often) and an impossible humidity apart.
pub fn parse_air(text: &str, bare: TemperatureStyle) -> Result<(Temperature, Humidity), AirError> {
    let (temperature, humidity, scale) = read_air(text, bare)?;
    if !(-20_000..=50_000).contains(&temperature.0) {
        let (first, second) = match scale {
            TemperatureStyle::Fahrenheit => (scale, TemperatureStyle::Celsius),
            TemperatureStyle::Celsius => (scale, TemperatureStyle::Fahrenheit),
        };
        let shown = format!("{} ({})", temperature.show(first), temperature.show(second));
        return Err(AirError::Unlikely { shown });
    }
    Ok((temperature, humidity))
}

/// As [`parse_air`], for a temperature that somebody else will question, or insists on.
///
/// # Errors
/// Those of [`parse_air`] but for the unlikely temperature.
pub fn parse_any_air(
    text: &str,
    bare: TemperatureStyle,
) -> Result<(Temperature, Humidity), AirError> {
    read_air(text, bare).map(|(temperature, humidity, _)| (temperature, humidity))
}

fn read_air(
    text: &str,
    bare: TemperatureStyle,
) -> Result<(Temperature, Humidity, TemperatureStyle), AirError> {
    if text.trim().is_empty() {
        return Err(AirError::Empty);
    }
    let pointed = with_points(text);
    let mut reader = Reader::new(&pointed);
    let nonsense = |reader: &Reader<'_>| AirError::Nonsense {
        text: quoted(text),
        part: reader.part(reader.at()),
    };
    let degrees = signed(&mut reader).ok_or_else(|| nonsense(&reader))?;
    reader.eat(&Token::Mark('°'));
    reader.eat_word(&["deg", "degrees"]);
    let scale = if reader.eat_word(&["f"]) {
        TemperatureStyle::Fahrenheit
    } else if reader.eat_word(&["c"]) {
        TemperatureStyle::Celsius
    } else {
        bare
    };
    reader.eat(&Token::Mark(','));
    if reader.is_done() {
        return Err(AirError::NoHumidity { text: quoted(text) });
    }
    let percent = signed(&mut reader).ok_or_else(|| nonsense(&reader))?;
    reader.eat(&Token::Mark('%'));
    reader.eat_word(&["rh"]);
    if !reader.is_done() {
        return Err(nonsense(&reader));
    }
    let temperature = match scale {
        TemperatureStyle::Fahrenheit => Temperature::from_f(degrees),
        TemperatureStyle::Celsius => Temperature::from_c(degrees),
    };
    let humidity = Humidity::from_percent(percent).ok_or_else(|| AirError::Humidity {
        percent: trimmed(percent, 1),
    })?;
    Ok((temperature, humidity, scale))
}

/// Decimal commas as points where they can be nothing else: in the number before the first letter
/// or degree sign if it stands there alone, and in what follows that letter.
fn with_points(text: &str) -> String {
    let unit = |c: char| c.is_alphabetic() || c == '°';
    let Some(at) = text.find(unit) else {
        return text.to_owned();
    };
    let (degrees, rest) = text.split_at(at);
    let pointed = |part: &str| {
        let chars: Vec<char> = part.chars().collect();
        let digit = |at: Option<usize>| {
            at.and_then(|at| chars.get(at))
                .is_some_and(char::is_ascii_digit)
        };
        let each = chars.iter().enumerate().map(|(at, c)| match c {
            ',' if digit(at.checked_sub(1)) && digit(at.checked_add(1)) => '.',
            other => *other,
        });
        each.collect::<String>()
    };
    // "68,45 %rh" is two numbers without a letter of a scale: the first letter is not behind the
    // temperature.
    let alone = !degrees.contains('%') && degrees.matches(',').count() == 1;
    let scale = rest.trim_start_matches('°').trim_start().to_lowercase();
    let scale = ["f", "c", "deg"].iter().any(|word| scale.starts_with(word));
    let degrees = if alone && scale {
        pointed(degrees)
    } else {
        degrees.to_owned()
    };
    format!("{degrees}{}", pointed(rest))
}

fn signed(reader: &mut Reader<'_>) -> Option<f64> {
    let minus = reader.eat(&Token::Hyphen);
    let Some(Token::Number { value, .. }) = reader.peek().cloned() else {
        return None;
    };
    reader.eat(&Token::Number {
        value,
        whole: value.as_whole().is_some(),
    });
    Some(if minus {
        -value.as_f64()
    } else {
        value.as_f64()
    })
}
