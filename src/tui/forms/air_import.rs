//! The form for a data logger's file. The file itself is read outside the screen; what it does not
//! say of itself is asked here.

use crate::coating::{
    DateOrder, FileHumidity, FileScale, LoggerAnswers, LoggerColumns, LoggerQuestion,
};
use crate::desk::typed::FieldError;
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;

pub(super) fn form() -> Form {
    let as_said = || Choice::new("said", "as the file says");
    let fields = vec![
        Field::text("file", "File", "")
            .hint("The CSV file the logger wrote, with its folder: ~/logger/november.csv."),
        Field::choice(
            "scale",
            "Temperatures in",
            vec![
                as_said(),
                Choice::new("f", "F"),
                Choice::new("c", "C"),
                Choice::new("k", "K"),
            ],
            "said",
        ),
        Field::choice(
            "humidity",
            "Humidity is",
            vec![
                as_said(),
                Choice::new("percent", "percent"),
                Choice::new("fraction", "a fraction of one"),
            ],
            "said",
        ),
        Field::choice(
            "order",
            "Dates like 3/4 are",
            vec![
                as_said(),
                Choice::new("month", "month first"),
                Choice::new("day", "day first"),
            ],
            "said",
        ),
        Field::text("columns", "Columns", "").hint(
            "Empty where the headings say it; else the numbers of time, temperature, humidity: 1 2 3; \
             date, time, temperature, humidity: 1 2 3 4.",
        ),
    ];
    let mut form = Form::new("Import a data logger's file", fields);
    "import".clone_into(&mut form.submit_word);
    form
}

/// The file named and what was answered about it.
pub(super) fn read(form: &Form) -> Result<(String, LoggerAnswers), Vec<FieldError>> {
    let file = form.text("file").trim().to_owned();
    let mut errors = Vec::new();
    if file.is_empty() {
        errors.push(FieldError::new("file", "Name the file the logger wrote."));
    }
    let columns = read_columns(form.text("columns")).map_err(|error| errors.push(error));
    match columns {
        Ok(columns) if errors.is_empty() => Ok((
            file,
            LoggerAnswers {
                columns,
                scale: match form.choice("scale") {
                    Some("f") => Some(FileScale::Fahrenheit),
                    Some("c") => Some(FileScale::Celsius),
                    Some("k") => Some(FileScale::Kelvin),
                    _ => None,
                },
                humidity: match form.choice("humidity") {
                    Some("percent") => Some(FileHumidity::Percent),
                    Some("fraction") => Some(FileHumidity::Fraction),
                    _ => None,
                },
                order: match form.choice("order") {
                    Some("month") => Some(DateOrder::MonthFirst),
                    Some("day") => Some(DateOrder::DayFirst),
                    _ => None,
                },
            },
        )),
        _ => Err(errors),
    }
}

fn read_columns(text: &str) -> Result<Option<LoggerColumns>, FieldError> {
    let parts: Vec<&str> = text
        .split(|c: char| c.is_whitespace() || c == ',')
        .filter(|part| !part.is_empty())
        .collect();
    if parts.is_empty() {
        return Ok(None);
    }
    let wrong = || {
        FieldError::new(
            "columns",
            "Write three numbers from 1 up (time, temperature, humidity), or four where the time of \
             day has a column of its own.",
        )
    };
    let numbers: Option<Vec<usize>> = parts
        .iter()
        .map(|part| part.parse::<usize>().ok()?.checked_sub(1))
        .collect();
    match numbers.ok_or_else(wrong)?.as_slice() {
        [when, temperature, humidity] => Ok(Some(LoggerColumns {
            when: *when,
            time: None,
            temperature: *temperature,
            humidity: *humidity,
        })),
        [when, time, temperature, humidity] => Ok(Some(LoggerColumns {
            when: *when,
            time: Some(*time),
            temperature: *temperature,
            humidity: *humidity,
        })),
        _ => Err(wrong()),
    }
}

/// The field at which a question about the file is answered.
pub(super) fn field_of(question: &LoggerQuestion) -> &'static str {
    match question {
        LoggerQuestion::Columns { .. } => "columns",
        LoggerQuestion::Scale { .. } | LoggerQuestion::ScaleDoubtful { .. } => "scale",
        LoggerQuestion::HumidityDoubtful { .. } => "humidity",
        LoggerQuestion::Order { .. } => "order",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_counted_from_one() {
        let read = read_columns("2, 4 5").unwrap().unwrap();
        assert_eq!((read.when, read.time), (1, None));
        assert_eq!((read.temperature, read.humidity), (3, 4));
        let read = read_columns("1 2 3 4").unwrap().unwrap();
        assert_eq!(read.time, Some(1));
        assert_eq!(read_columns("  ").unwrap(), None);
        for wrong in ["0 1 2", "1 2", "one two three", "1 2 3 4 5"] {
            assert!(read_columns(wrong).is_err(), "{wrong}");
        }
    }
}
