//! What a change changed, for the journal: each field as it was typed, old and new.

use serde::Serialize;
use serde_json::Value;

/// Longest text of a field that is repeated; of a longer one the beginning is.
const SHOWN: usize = 60;

/// The fields of two states of one thing that differ, in words: `: band none > 2; name a > b`.
/// Nothing where none does. The fields are named as they are where they are typed.
pub(super) fn changes<T: Serialize>(before: &T, after: &T) -> String {
    let (Ok(Value::Object(before)), Ok(Value::Object(after))) =
        (serde_json::to_value(before), serde_json::to_value(after))
    else {
        return String::new();
    };
    let said: Vec<String> = after
        .iter()
        .filter_map(|(field, now)| {
            let was = before.get(field).unwrap_or(&Value::Null);
            let name = field.replace('_', " ");
            (was != now).then(|| format!("{name} {} > {}", shown(was), shown(now)))
        })
        .collect();
    if said.is_empty() {
        String::new()
    } else {
        format!(": {}", said.join("; "))
    }
}

fn shown(value: &Value) -> String {
    let text = match value {
        Value::Null => String::new(),
        Value::String(text) => crate::units::clean_line(text).0,
        other => other.to_string(),
    };
    if text.is_empty() {
        return "none".to_owned();
    }
    if text.chars().count() <= SHOWN {
        return text;
    }
    let head: String = text.chars().take(SHOWN).collect();
    format!("{}...", head.trim_end())
}

#[cfg(test)]
mod tests {
    use super::changes;
    use crate::desk::ClientDraft;

    #[test]
    fn old_and_new_are_named_field_by_field() {
        let one = ClientDraft {
            name: "Ada".to_owned(),
            ..ClientDraft::default()
        };
        let two = ClientDraft {
            phone: "555 0100".to_owned(),
            notes: "dog\nand ".to_owned() + &"cat ".repeat(40),
            ..one.clone()
        };
        assert_eq!(changes(&one, &one), "");
        let said = changes(&one, &two);
        assert!(said.starts_with(": notes none > dog and cat cat"), "{said}");
        assert!(said.ends_with("cat...; phone none > 555 0100"), "{said}");
    }
}
