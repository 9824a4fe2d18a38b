//! What a command prints: text for people, or JSON for scripts.

use super::failure::Failure;
use crate::store::os;
use serde::Serialize;
use std::io;

/// The answer of a verb, in both forms.
#[derive(Debug)]
pub struct Answer {
    lines: Vec<String>,
    json: String,
    did: bool,
}

impl Answer {
    /// Lines, and the same as JSON.
    pub fn new(lines: Vec<String>, json: impl Serialize) -> Result<Self, Failure> {
        let json = serde_json::to_string_pretty(&json).map_err(Failure::unexpected)?;
        Ok(Self {
            lines,
            json,
            did: false,
        })
    }

    /// The same after something was done, which stays done even if the answer gets lost.
    pub fn done(lines: Vec<String>, json: impl Serialize) -> Result<Self, Failure> {
        Ok(Self {
            did: true,
            ..Self::new(lines, json)?
        })
    }

    /// That it could not be written.
    pub fn untold(&self, error: &io::Error) -> Failure {
        let why = os::said(error);
        Failure::Untold(if self.did {
            format!(
                "It was done, but its answer could not be written: {why}; the command itself need \
                 not be run again."
            )
        } else {
            format!("The answer could not be written: {why}.")
        })
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
