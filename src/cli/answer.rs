//! What a command prints: text for people, or JSON for scripts.

use super::failure::Failure;
use serde::Serialize;
use serde_json::Value;

/// The answer of a verb, in both forms.
#[derive(Debug)]
pub struct Answer {
    lines: Vec<String>,
    json: Value,
}

impl Answer {
    /// Lines, and the same as JSON.
    pub fn new(lines: Vec<String>, json: impl Serialize) -> Result<Self, Failure> {
        Ok(Self {
            lines,
            json: serde_json::to_value(json).map_err(Failure::unexpected)?,
        })
    }

    /// What goes to the terminal, the printer or the script.
    pub fn written(&self, as_json: bool) -> Result<String, Failure> {
        let mut text = if as_json {
            serde_json::to_string_pretty(&self.json).map_err(Failure::unexpected)?
        } else {
            self.lines.join("\n")
        };
        text.push('\n');
        Ok(text)
    }
}
