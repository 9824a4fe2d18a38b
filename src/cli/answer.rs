//! What a command prints: text for people, or JSON for scripts.

use super::failure::Failure;
use serde::Serialize;

/// The answer of a verb, in both forms.
#[derive(Debug)]
pub struct Answer {
    lines: Vec<String>,
    json: String,
}

impl Answer {
    /// Lines, and the same as JSON.
    pub fn new(lines: Vec<String>, json: impl Serialize) -> Result<Self, Failure> {
        let json = serde_json::to_string_pretty(&json).map_err(Failure::unexpected)?;
        Ok(Self { lines, json })
    }

    /// What goes to the terminal, the printer or the script.
    pub fn written(&self, as_json: bool) -> String {
        let mut text = if as_json {
            self.json.clone()
        } else {
            self.lines.join("\n")
        };
        text.push('\n');
        text
    }
}
