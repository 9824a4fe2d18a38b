//! The shop's own figures for layout and cutting, as typed: one check, the router, the lumber.

use super::error::{FieldError, keep};
use super::size::{read_length, write_length};
use super::standing::read_yes;
use super::words::{pick, quoted};
use crate::shape::Say;
use crate::shape::cutting::{CleanUp, DepthRule, Guide, Router};
use crate::shape::layout::{Figure, Rule, RuleSetting, Weight};
use crate::shop::Settings;
use crate::units::{BareUnit, Length};

/// One check as typed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RuleTyped {
    /// Its figure.
    pub figure: String,
    /// How much a finding weighs.
    pub weight: String,
    /// `yes` where it is made at all.
    pub made: String,
}

/// The router as typed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RouterTyped {
    /// Cutting diameter.
    pub bit: String,
    /// How long its edges are.
    pub cutting_length: String,
    /// Flutes.
    pub flutes: String,
    /// Turns a minute.
    pub rpm: String,
    /// Chip load; inches where no unit is said.
    pub chip: String,
    /// `at most 1/4`, `half bit`, `whole bit` or `9 passes`.
    pub depth: String,
    /// `none`, `last 1/16` or `wall 1/8`.
    pub clean_up: String,
    /// `bushing 3/4` or `bearing`.
    pub guide: String,
}

fn weights() -> Vec<(Weight, String)> {
    Weight::ALL
        .map(|weight| (weight, weight.word().to_owned()))
        .into()
}

impl RuleTyped {
    /// A check as it would be typed.
    pub fn of(setting: &RuleSetting, settings: &Settings) -> Self {
        Self::of_with(setting, &|length| write_length(length, settings))
    }

    /// The same with lengths written as asked.
    pub fn of_with(setting: &RuleSetting, say: Say<'_>) -> Self {
        let figure = match setting.figure {
            Figure::Length(length) => say(length),
            Figure::Percent(percent) => percent.to_string(),
            Figure::None => String::new(),
        };
        Self {
            figure,
            weight: setting.weight.word().to_owned(),
            made: if setting.made { "yes" } else { "no" }.to_owned(),
        }
    }
}

/// Reads one check.
///
/// # Errors
/// Every field that does not read.
pub fn read_rule(
    rule: Rule,
    typed: &RuleTyped,
    settings: &Settings,
) -> Result<RuleSetting, Vec<FieldError>> {
    let mut errors = Vec::new();
    let text = typed.figure.trim();
    let figure = match rule.facts().figure {
        Figure::Length(_) => {
            // Nought is a figure here: no joint at all over a dishwasher, say.
            if matches!(text, "0" | "0 in" | "0 mm") {
                Some(Figure::Length(Length::ZERO))
            } else {
                keep(read_length("figure", text, settings), &mut errors).map(Figure::Length)
            }
        }
        Figure::Percent(_) => {
            let read = text.trim_end_matches('%').trim().parse::<u32>();
            let wrong = |_| {
                let message = format!("\"{}\" is no share: type 1 to 100.", quoted(text));
                FieldError::new("figure", message)
            };
            keep(read.map_err(wrong), &mut errors).map(Figure::Percent)
        }
        Figure::None => Some(Figure::None),
    };
    let weight = keep(pick("weight", &typed.weight, &weights()), &mut errors);
    let made = keep(read_yes("made", &typed.made), &mut errors);
    match (figure, weight, made) {
        (Some(figure), Some(weight), Some(made)) => {
            let setting = RuleSetting {
                figure,
                weight,
                made,
            };
            match setting.suits(rule) {
                Ok(()) => Ok(setting),
                Err(error) => Err(vec![FieldError::said("figure", &error)]),
            }
        }
        _ => Err(errors),
    }
}

impl RouterTyped {
    /// A router as it would be typed.
    pub fn of(router: &Router, settings: &Settings) -> Self {
        Self::of_with(router, &|length| write_length(length, settings))
    }

    /// The same with lengths written as asked.
    pub fn of_with(router: &Router, say: Say<'_>) -> Self {
        let depth = match router.depth {
            DepthRule::AtMost(depth) => format!("at most {}", say(depth)),
            DepthRule::HalfBit => "half bit".to_owned(),
            DepthRule::WholeBit => "whole bit".to_owned(),
            DepthRule::Passes(count) => format!("{count} passes"),
        };
        let clean_up = match router.clean_up {
            CleanUp::None => "none".to_owned(),
            CleanUp::LastDepth(kept) => format!("last {}", say(kept)),
            CleanUp::OnWall(kept) => format!("wall {}", say(kept)),
        };
        let guide = match router.guide {
            Guide::Bushing(od) => format!("bushing {}", say(od)),
            Guide::Bearing => "bearing".to_owned(),
        };
        Self {
            bit: say(router.bit),
            cutting_length: say(router.cutting_length),
            flutes: router.flutes.to_string(),
            rpm: router.rpm.to_string(),
            chip: write_chip(router.chip),
            depth,
            clean_up,
            guide,
        }
    }
}

/// Thousandths of an inch where that is exact, else millimetres.
fn write_chip(chip: Length) -> String {
    let tenth_thou = Length::NM_PER_INCH / 10_000;
    if chip.nm() % tenth_thou == 0 {
        let tenths = chip.nm() / tenth_thou;
        let text = format!("{}.{:04}", tenths / 10_000, tenths % 10_000);
        return format!("{} in", text.trim_end_matches('0'));
    }
    chip.show_exact(crate::units::LengthStyle::Millimetres)
}

/// Reads the router.
///
/// # Errors
/// Every field that does not read.
pub fn read_router(typed: &RouterTyped, settings: &Settings) -> Result<Router, Vec<FieldError>> {
    let mut errors = Vec::new();
    let length = |field, text: &str| read_length(field, text.trim(), settings);
    let bit = keep(length("bit", &typed.bit), &mut errors);
    let cutting = keep(length("cutting_length", &typed.cutting_length), &mut errors);
    let flutes = keep(whole("flutes", &typed.flutes), &mut errors);
    let rpm = keep(whole("rpm", &typed.rpm), &mut errors);
    let chip = Length::parse(typed.chip.trim(), BareUnit::Inches);
    let chip = keep(
        chip.map_err(|error| FieldError::said("chip", &error)),
        &mut errors,
    );
    let depth = keep(read_depth(&typed.depth, settings), &mut errors);
    let clean_up = keep(read_clean_up(&typed.clean_up, settings), &mut errors);
    let guide = keep(read_guide(&typed.guide, settings), &mut errors);
    match (bit, cutting, flutes, rpm, chip, depth, clean_up, guide) {
        (
            Some(bit),
            Some(cutting_length),
            Some(flutes),
            Some(rpm),
            Some(chip),
            Some(depth),
            Some(clean_up),
            Some(guide),
        ) => Ok(Router {
            bit,
            cutting_length,
            flutes,
            rpm,
            chip,
            depth,
            clean_up,
            guide,
        }),
        _ => Err(errors),
    }
}

pub(super) fn whole(field: &'static str, text: &str) -> Result<u32, FieldError> {
    let digits = text.trim().replace([',', ' '], "");
    digits.parse().map_err(|_| {
        let message = format!("\"{}\" is no whole number: type digits only.", quoted(text));
        FieldError::new(field, message)
    })
}

/// Reads how deep a pass may go.
///
/// # Errors
/// What does not read, at `depth`.
pub fn read_depth(text: &str, settings: &Settings) -> Result<DepthRule, FieldError> {
    let typed = plain_spaces(text);
    if let Some(count) = typed
        .strip_suffix("passes")
        .or_else(|| typed.strip_suffix("pass"))
    {
        return whole("depth", count).map(DepthRule::Passes);
    }
    match typed.as_str() {
        "half bit" | "half" => return Ok(DepthRule::HalfBit),
        "whole bit" | "whole" => return Ok(DepthRule::WholeBit),
        "" => {
            let message = "No depth was given: type at most 1/4, half bit, whole bit or 9 passes.";
            return Err(FieldError::new("depth", message));
        }
        _ => {}
    }
    let figure = typed.strip_prefix("at most ").unwrap_or(&typed);
    read_length("depth", figure, settings).map(DepthRule::AtMost)
}

/// Reads what is kept for the end.
///
/// # Errors
/// What does not read, at `clean_up`.
pub fn read_clean_up(text: &str, settings: &Settings) -> Result<CleanUp, FieldError> {
    let typed = plain_spaces(text);
    let figure = |text: &str| read_length("clean_up", text.trim(), settings);
    match typed.split_once(' ') {
        None if typed.is_empty() || typed == "none" => Ok(CleanUp::None),
        Some(("last", kept)) => figure(kept).map(CleanUp::LastDepth),
        Some(("wall", kept)) => figure(kept).map(CleanUp::OnWall),
        _ => {
            let message = format!(
                "\"{}\" is no clean-up: type none, last 1/16 or wall 1/8.",
                quoted(text)
            );
            Err(FieldError::new("clean_up", message))
        }
    }
}

/// Reads what keeps the router to the template.
///
/// # Errors
/// What does not read, at `guide`.
pub fn read_guide(text: &str, settings: &Settings) -> Result<Guide, FieldError> {
    let typed = plain_spaces(text);
    if typed == "bearing" {
        return Ok(Guide::Bearing);
    }
    let Some(od) = typed.strip_prefix("bushing ") else {
        let message = format!(
            "\"{}\" is no guide: type bushing and its outside diameter, or bearing.",
            quoted(text)
        );
        return Err(FieldError::new("guide", message));
    };
    read_length("guide", od.trim(), settings).map(Guide::Bushing)
}

/// Lower case and single spaces; hyphens stay, since lengths may hold them.
fn plain_spaces(text: &str) -> String {
    let lower = text.to_lowercase();
    lower.split_whitespace().collect::<Vec<_>>().join(" ")
}
