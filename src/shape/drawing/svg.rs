//! A small writer of SVG: millimetres only, every text escaped.

use crate::shape::layout::Point;
use crate::units::clean_line;
use std::fmt::Write as _;

/// A text as XML takes it: control characters gone, `&`, `<`, `>` and both quotes written out.
pub fn escape(text: &str) -> String {
    let (text, _) = clean_line(text);
    let mut out = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            // XML 1.0 has no place for these at all.
            '\u{fffe}' | '\u{ffff}' => {}
            other => out.push(other),
        }
    }
    out
}

/// A number of millimetres to a thousandth, without needless noughts.
pub(super) fn mm(value: f64) -> String {
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}

/// How a line is drawn: its class in the style sheet below.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Pen {
    /// What is cut: thin and black.
    Cut,
    /// The piece on a sheet to scale.
    Edge,
    /// Long and short strokes.
    Centre,
    /// Short strokes: joints, what is below, a template's edge.
    Dashed,
    /// Sizes and rulers.
    Fine,
    /// Findings.
    Mark,
}

impl Pen {
    fn class(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::Edge => "edge",
            Self::Centre => "centre",
            Self::Dashed => "dashed",
            Self::Fine => "fine",
            Self::Mark => "mark",
        }
    }
}

/// Where a text stands to its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stand {
    Start,
    Middle,
    End,
}

const STYLE: &str = "line,path,circle{fill:none;stroke:#000;stroke-linecap:butt}\
.cut{stroke-width:.2}.edge{stroke-width:.5}\
.centre{stroke-width:.15;stroke-dasharray:6 1 1 1}\
.dashed{stroke-width:.2;stroke-dasharray:2 1}.fine{stroke-width:.15}\
.mark{stroke-width:.6}\
text{font-family:sans-serif;fill:#000}";

/// An SVG under way: one unit is one millimetre.
#[derive(Debug)]
pub(super) struct Svg {
    wide: f64,
    tall: f64,
    body: String,
}

impl Svg {
    /// A sheet of so many millimetres.
    pub fn new(wide: f64, tall: f64) -> Self {
        Self {
            wide,
            tall,
            body: String::new(),
        }
    }

    // Writing to a String cannot fail.

    pub fn line(&mut self, pen: Pen, a: Point, b: Point) {
        let _ = writeln!(
            self.body,
            "<line class=\"{}\" x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"/>",
            pen.class(),
            mm(a.x),
            mm(a.y),
            mm(b.x),
            mm(b.y)
        );
    }

    /// A path as SVG writes it; `id` names it for whoever reads the file.
    pub fn path(&mut self, pen: Pen, id: &str, d: &str) {
        let id = escape(id);
        let _ = writeln!(
            self.body,
            "<path class=\"{}\" id=\"{id}\" d=\"{d}\"/>",
            pen.class()
        );
    }

    pub fn circle(&mut self, pen: Pen, id: Option<&str>, mid: Point, r: f64) {
        let id = id.map_or(String::new(), |id| format!(" id=\"{}\"", escape(id)));
        let _ = writeln!(
            self.body,
            "<circle class=\"{}\"{id} cx=\"{}\" cy=\"{}\" r=\"{}\"/>",
            pen.class(),
            mm(mid.x),
            mm(mid.y),
            mm(r)
        );
    }

    /// A text of so many millimetres height, turned by so many degrees about its point.
    pub fn text(&mut self, at: Point, size: f64, stand: Stand, turn: f64, text: &str) {
        let anchor = match stand {
            Stand::Start => "start",
            Stand::Middle => "middle",
            Stand::End => "end",
        };
        let turn = if turn == 0.0 {
            String::new()
        } else {
            format!(
                " transform=\"rotate({} {} {})\"",
                mm(turn),
                mm(at.x),
                mm(at.y)
            )
        };
        let _ = writeln!(
            self.body,
            "<text x=\"{}\" y=\"{}\" font-size=\"{}\" text-anchor=\"{anchor}\"{turn}>{}</text>",
            mm(at.x),
            mm(at.y),
            mm(size),
            escape(text)
        );
    }

    /// Puts what was drawn so far behind a window: what lies outside is not shown.
    pub fn window(&mut self, id: &str, (x, y): (f64, f64), (wide, tall): (f64, f64), inside: &str) {
        let id = escape(id);
        let _ = writeln!(
            self.body,
            "<clipPath id=\"{id}\"><rect x=\"{0}\" y=\"{1}\" width=\"{2}\" height=\"{3}\"/></clipPath>\n\
             <g clip-path=\"url(#{id})\">\n{inside}</g>",
            mm(x),
            mm(y),
            mm(wide),
            mm(tall)
        );
    }

    /// What was drawn, without its frame.
    pub fn into_body(self) -> String {
        self.body
    }

    /// The whole file.
    pub fn finish(self, title: &str) -> String {
        let (wide, tall) = (mm(self.wide), mm(self.tall));
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{wide}mm\" height=\"{tall}mm\" \
             viewBox=\"0 0 {wide} {tall}\">\n<title>{}</title>\n<style>{STYLE}</style>\n{}</svg>\n",
            escape(title),
            self.body
        )
    }
}

/// A closed path through some points, in SVG's words.
pub(super) fn through(points: &[Point]) -> String {
    let mut out = String::new();
    for (no, point) in points.iter().enumerate() {
        let word = if no == 0 { "M" } else { "L" };
        let _ = write!(out, "{word}{} {}", mm(point.x), mm(point.y));
    }
    out.push('Z');
    out
}
