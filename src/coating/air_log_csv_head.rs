//! Which column of a logger's file is which, by its header row.

use super::air_log_csv_scale::scale;

/// Which column holds what, counted from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct LoggerColumns {
    /// Date and time, or the date alone.
    pub when: usize,
    /// The time of day, where it has a column of its own.
    pub time: Option<usize>,
    /// Temperature.
    pub temperature: usize,
    /// Relative humidity.
    pub humidity: usize,
}

/// What a header row says.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Header {
    pub(super) cells: Vec<String>,
    pub(super) temperatures: Vec<usize>,
    pub(super) humidities: Vec<usize>,
    pub(super) whens: Vec<(usize, WhenCell)>,
    /// Minutes ahead of UTC, where the header names a fixed offset: `Date Time, GMT-05:00`.
    pub(super) offset_minutes: Option<i32>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum WhenCell {
    Both,
    Date,
    Time,
}

/// Letters and digits of a cell as lower-case words.
pub(super) fn words(cell: &str) -> Vec<String> {
    cell.to_lowercase()
        .split(|c: char| !c.is_ascii_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_owned)
        .collect()
}

impl Header {
    /// Reads a row as a header; none where it names neither a temperature nor a humidity.
    pub(super) fn read<'a>(cells: impl Iterator<Item = &'a str>) -> Option<Self> {
        let cells: Vec<String> = cells.map(|cell| crate::units::clean_line(cell).0).collect();
        let mut header = Self {
            cells: Vec::new(),
            temperatures: Vec::new(),
            humidities: Vec::new(),
            whens: Vec::new(),
            offset_minutes: None,
        };
        for (column, cell) in cells.iter().enumerate() {
            let words = words(cell);
            let starts = |word: &str| words.iter().any(|w| w.starts_with(word));
            let is = |word: &str| words.iter().any(|w| w == word);
            // Reckoned from the two, or limits of them: not what was read.
            let derived = [
                "dew", "wet", "heat", "vpd", "alarm", "min", "max", "battery",
            ];
            if derived.iter().any(|word| is(word)) || is("dewpoint") {
                continue;
            }
            // Loggers write their headings in the languages of their makers, too.
            let date = starts("date") || is("day") || is("datum");
            let time = ["time", "hour", "clock", "zeit", "uhrzeit"]
                .into_iter()
                .any(is);
            if starts("datetime") || starts("timestamp") || is("recorded") || (date && time) {
                header.whens.push((column, WhenCell::Both));
                header.offset_minutes = header.offset_minutes.or_else(|| fixed_offset(cell));
            } else if date {
                header.whens.push((column, WhenCell::Date));
            } else if time {
                header.whens.push((column, WhenCell::Time));
                header.offset_minutes = header.offset_minutes.or_else(|| fixed_offset(cell));
            } else if starts("humid") || ["hum", "rh", "relhum", "feuchte"].into_iter().any(is) {
                header.humidities.push(column);
            } else if starts("temp")
                || ["celsius", "fahrenheit", "kelvin", "degc", "degf"]
                    .into_iter()
                    .any(is)
                || (is("t") && scale(cell).is_some())
            {
                header.temperatures.push(column);
            }
        }
        let named = !header.temperatures.is_empty() || !header.humidities.is_empty();
        header.cells = cells;
        (named && header.found() >= 2).then_some(header)
    }

    /// How many kinds of column it names.
    pub(super) fn found(&self) -> usize {
        [
            self.temperatures.is_empty(),
            self.humidities.is_empty(),
            self.whens.is_empty(),
        ]
        .into_iter()
        .filter(|empty| !empty)
        .count()
    }

    /// The columns, where each is named once.
    pub(super) fn columns(&self) -> Option<LoggerColumns> {
        let &[temperature] = self.temperatures.as_slice() else {
            return None;
        };
        let &[humidity] = self.humidities.as_slice() else {
            return None;
        };
        let one = |kind: WhenCell| {
            let mut found = self.whens.iter().filter(move |(_, cell)| *cell == kind);
            let first = found.next()?.0;
            found.next().is_none().then_some(first)
        };
        let (when, time) = match (
            one(WhenCell::Both),
            one(WhenCell::Date),
            one(WhenCell::Time),
        ) {
            (Some(both), ..) => (both, None),
            (None, Some(date), Some(time)) => (date, Some(time)),
            (None, Some(one), None) | (None, None, Some(one)) => (one, None),
            (None, None, None) => return None,
        };
        Some(LoggerColumns {
            when,
            time,
            temperature,
            humidity,
        })
    }
}

/// Zones of North America by their abbreviations, in hours (common practice, no source): a logger
/// that names one keeps to it all year.
const ZONES: [(&str, i32); 12] = [
    ("est", -5),
    ("edt", -4),
    ("cst", -6),
    ("cdt", -5),
    ("mst", -7),
    ("mdt", -6),
    ("pst", -8),
    ("pdt", -7),
    ("akst", -9),
    ("akdt", -8),
    ("hst", -10),
    ("ast", -4),
];

/// `GMT-05:00`, `UTC+1`, `UTC`, `EST` in a header, in minutes.
fn fixed_offset(cell: &str) -> Option<i32> {
    let named = words(cell);
    let zone = ZONES
        .iter()
        .find(|(zone, _)| named.iter().any(|word| word == zone));
    if let Some((_, hours)) = zone {
        return Some(hours * 60);
    }
    let upper = cell.to_uppercase();
    let at = upper.find("GMT").or_else(|| upper.find("UTC"))?;
    let rest = upper.get(at + 3..)?;
    let sign = match rest.chars().next() {
        Some('+') => 1,
        Some('-' | '\u{2212}') => -1,
        _ => return Some(0),
    };
    let digits: String = rest
        .chars()
        .skip(1)
        .take_while(|c| c.is_ascii_digit() || *c == ':')
        .collect();
    let (hours, minutes) = match digits.split_once(':') {
        Some((hours, minutes)) => (hours.parse::<i32>().ok()?, minutes.parse::<i32>().ok()?),
        None if digits.len() == 4 => {
            let all = digits.parse::<i32>().ok()?;
            (all / 100, all % 100)
        }
        None => (digits.parse::<i32>().ok()?, 0),
    };
    (hours <= 14 && minutes < 60).then_some(sign * (hours * 60 + minutes))
}
