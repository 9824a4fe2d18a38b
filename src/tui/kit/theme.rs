//! Looks: one style for each role that text can play.
//!
//! Only indices 16 and above of the 256-colour table are used, because 0 to 15 are whatever the
//! person's terminal says they are. A role never lives by its colour: wherever a state is shown,
//! a word or a sign says it too, and the plain look has no colour at all.

use ratatui::style::{Color, Modifier, Style};
use ratatui::symbols::border;

/// The look a person asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Look {
    /// Nothing is known about the terminal's background.
    #[default]
    Auto,
    /// A dark background.
    Dark,
    /// A light background.
    Light,
    /// No colour: bold, reverse and underline only.
    Plain,
}

impl Look {
    /// The look of a word from a setting or an argument.
    pub fn from_word(word: &str) -> Option<Self> {
        Some(match word {
            "auto" => Self::Auto,
            "dark" => Self::Dark,
            "light" => Self::Light,
            "plain" => Self::Plain,
            _ => return None,
        })
    }

    /// Makes `Auto` more precise where a terminal tells its background the way some do, in an
    /// environment variable `COLORFGBG` of the form `15;0` (the last number is the background's).
    #[must_use]
    pub fn with_background_hint(self, colorfgbg: Option<&str>) -> Self {
        if self != Self::Auto {
            return self;
        }
        match colorfgbg
            .and_then(|v| v.rsplit(';').next())
            .and_then(|n| n.parse::<u8>().ok())
        {
            Some(0) => Self::Dark,
            Some(15) => Self::Light,
            // Greys and colours in between promise no contrast on either side.
            _ => Self::Auto,
        }
    }
}

/// The background that a theme's colours are made for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// From black to `#1e1e1e`.
    Dark,
    /// From white to `#eeeeee`.
    Light,
    /// Black or white: which is not known.
    Either,
    /// Any; there are no colours.
    Plain,
}

/// The styles by role.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Theme {
    /// What it was made for.
    pub kind: Kind,
    /// Draw lines, blocks and the sign for "more" with ASCII only.
    pub ascii: bool,
    /// Ordinary text.
    pub text: Style,
    /// Text of less weight: hints, units, positions.
    pub dim: Style,
    /// Headings.
    pub title: Style,
    /// What the eye should find: labels of keys, the thing in focus.
    pub accent: Style,
    /// Wants attention; the words say why.
    pub warn: Style,
    /// Is as it should be; the words say so.
    pub good: Style,
    /// The row or label in focus, always together with a `>`.
    pub selected: Style,
    /// The full-width strip that stays until it is acknowledged.
    pub banner: Style,
    /// Lines around boxes.
    pub border: Style,
}

const fn fg(index: u8) -> Style {
    Style::new().fg(Color::Indexed(index))
}

const fn pair(fg: u8, bg: u8) -> Style {
    Style::new()
        .fg(Color::Indexed(fg))
        .bg(Color::Indexed(bg))
        .add_modifier(Modifier::BOLD)
}

impl Theme {
    /// The theme for a look. `no_color` is whether the environment asks for no colour (`NO_COLOR`
    /// set and not empty) or the terminal has none; it wins over every look.
    pub fn from_env(look: Look, no_color: bool) -> Self {
        match look {
            _ if no_color => Self::plain(),
            Look::Plain => Self::plain(),
            Look::Auto => Self::either(),
            Look::Dark => Self::dark(),
            Look::Light => Self::light(),
        }
    }

    /// No colours: bold, reverse and underline.
    pub fn plain() -> Self {
        let base = Style::new();
        let bold = base.add_modifier(Modifier::BOLD);
        Self {
            kind: Kind::Plain,
            ascii: false,
            text: base,
            dim: base,
            title: bold,
            accent: bold,
            warn: bold.add_modifier(Modifier::UNDERLINED),
            good: base,
            selected: bold.add_modifier(Modifier::REVERSED),
            banner: bold.add_modifier(Modifier::REVERSED),
            border: base,
        }
    }

    /// For a background that is not known: the terminal's own two colours, weight, reverse and
    /// underline. No third colour holds 4.5:1 on a dark grey as well as on white.
    pub fn either() -> Self {
        Self {
            kind: Kind::Either,
            ..Self::plain()
        }
    }

    /// For dark backgrounds.
    pub fn dark() -> Self {
        Self {
            kind: Kind::Dark,
            ascii: false,
            text: fg(252),
            dim: fg(247),
            title: fg(255).add_modifier(Modifier::BOLD),
            accent: fg(152).add_modifier(Modifier::BOLD),
            warn: fg(216).add_modifier(Modifier::BOLD.union(Modifier::UNDERLINED)),
            good: fg(151),
            selected: pair(16, 152),
            banner: pair(16, 216),
            border: fg(246),
        }
    }

    /// For light backgrounds.
    pub fn light() -> Self {
        Self {
            kind: Kind::Light,
            ascii: false,
            text: fg(234),
            dim: fg(240),
            title: fg(16).add_modifier(Modifier::BOLD),
            accent: fg(24).add_modifier(Modifier::BOLD),
            warn: fg(88).add_modifier(Modifier::BOLD.union(Modifier::UNDERLINED)),
            good: fg(22),
            selected: pair(231, 24),
            banner: pair(231, 88),
            border: fg(240),
        }
    }

    /// The same theme drawn with ASCII signs only.
    #[must_use]
    pub fn in_ascii(mut self, ascii: bool) -> Self {
        self.ascii = ascii;
        self
    }

    /// The sign for "there is more than is shown".
    pub fn more(&self) -> &'static str {
        if self.ascii {
            "..."
        } else {
            super::text::ELLIPSIS
        }
    }

    /// The lines that boxes are drawn with.
    pub fn lines(&self) -> border::Set<'static> {
        if self.ascii {
            border::Set {
                top_left: "+",
                top_right: "+",
                bottom_left: "+",
                bottom_right: "+",
                vertical_left: "|",
                vertical_right: "|",
                horizontal_top: "-",
                horizontal_bottom: "-",
            }
        } else {
            border::PLAIN
        }
    }

    /// Every role with its name, for tests and for a page that shows the looks.
    pub fn roles(&self) -> [(&'static str, Style); 9] {
        [
            ("text", self.text),
            ("dim", self.dim),
            ("title", self.title),
            ("accent", self.accent),
            ("warn", self.warn),
            ("good", self.good),
            ("selected", self.selected),
            ("banner", self.banner),
            ("border", self.border),
        ]
    }
}

#[cfg(test)]
#[path = "theme_tests.rs"]
mod tests;
