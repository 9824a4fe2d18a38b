//! The full-size template over several sheets, with crosses to lay them together by and a ruler to
//! check the printer by.

use super::svg::{Pen, Stand, Svg, escape, mm};
use super::template::{Extra, TemplateOf, full, head_words};
use crate::shape::Shape;
use crate::shape::layout::Point;
use serde::{Deserialize, Serialize};
use std::fmt::Write as _;

/// A sheet of paper, upright.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Page {
    /// 210 x 297 mm (ISO 216).
    A4,
    /// 8 1/2 x 11 in, 215.9 x 279.4 mm.
    #[default]
    Letter,
}

impl Page {
    /// Width and height in millimetres.
    pub fn mm(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }

    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "letter",
        }
    }

    /// The page of a word.
    pub fn of_word(word: &str) -> Option<Self> {
        [Self::A4, Self::Letter]
            .into_iter()
            .find(|page| page.word().eq_ignore_ascii_case(word))
    }
}

/// One sheet of a template.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tile {
    /// From the top, from 1.
    pub row: usize,
    /// From the left, from 1.
    pub column: usize,
    /// The sheet as SVG, in millimetres; nothing for one with no line on it.
    pub svg: Option<String>,
}

/// What no printer reaches, at the sides and the top.
const MARGIN: f64 = 10.0;
/// The same at the foot, with room for the ruler.
const FOOT: f64 = 22.0;
/// What two neighbours both show.
const OVERLAP: f64 = 10.0;
/// Half a registration cross.
const CROSS: f64 = 4.0;

/// A position counted in sheets or steps: small, so that it is exact.
fn count(many: usize) -> f64 {
    many as f64
}

/// The sheets of a template, row by row from the upper left; none when there is no such opening.
pub fn tiles(
    shape: &Shape,
    of: TemplateOf,
    extra: Extra,
    page: Page,
    heading: &str,
) -> Option<Vec<Tile>> {
    let full = full(shape, of, extra)?;
    let (wide, tall) = page.mm();
    let window = (wide - 2.0 * MARGIN, tall - MARGIN - FOOT);
    let step = (window.0 - OVERLAP, window.1 - OVERLAP);
    let needed = |size: f64, step: f64| {
        // At most some thousands: a top is 100 feet at the most.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let sheets = ((size - OVERLAP) / step).ceil().max(1.0) as usize;
        sheets
    };
    let (columns, rows) = (needed(full.size.0, step.0), needed(full.size.1, step.1));
    let mut out = Vec::new();
    for row in 0..rows {
        for column in 0..columns {
            let from = Point {
                x: count(column) * step.0,
                y: count(row) * step.1,
            };
            let to = Point {
                x: from.x + window.0,
                y: from.y + window.1,
            };
            let inked = full.inked.iter().any(|(low, high)| {
                low.x <= to.x && high.x >= from.x && low.y <= to.y && high.y >= from.y
            });
            let svg = inked.then(|| {
                let place = format!(
                    "row {} of {rows}, column {} of {columns}",
                    row + 1,
                    column + 1
                );
                let words = [head_words(heading, extra), place];
                one(&full.body, from, (wide, tall), window, step, &words)
            });
            out.push(Tile {
                row: row + 1,
                column: column + 1,
                svg,
            });
        }
    }
    Some(out)
}

fn one(
    body: &str,
    from: Point,
    (wide, tall): (f64, f64),
    window: (f64, f64),
    step: (f64, f64),
    words: &[String; 2],
) -> String {
    let mut svg = Svg::new(wide, tall);
    let moved = format!(
        "<g transform=\"translate({} {})\">\n{body}</g>\n",
        mm(MARGIN - from.x),
        mm(MARGIN - from.y)
    );
    svg.window(
        &format!("sheet-{}", words[1].replace([' ', ','], "-")),
        (MARGIN, MARGIN),
        window,
        &moved,
    );
    // The crosses stand in the middle of what neighbours share, so that both sheets show them.
    for x in [OVERLAP / 2.0, OVERLAP / 2.0 + step.0] {
        for y in [OVERLAP / 2.0, OVERLAP / 2.0 + step.1] {
            let mid = Point {
                x: MARGIN + x,
                y: MARGIN + y,
            };
            cross(&mut svg, mid);
        }
    }
    let at = |x: f64, y: f64| Point { x, y };
    svg.text(at(MARGIN, MARGIN - 3.0), 3.5, Stand::Start, 0.0, &words[0]);
    svg.text(
        at(wide - MARGIN, tall - 6.0),
        3.5,
        Stand::End,
        0.0,
        &words[1],
    );
    ruler(&mut svg, at(MARGIN, tall - 12.0));
    svg.finish(&format!("{}, {}", words[0], words[1]))
}

fn cross(svg: &mut Svg, mid: Point) {
    let at = |x: f64, y: f64| Point {
        x: mid.x + x,
        y: mid.y + y,
    };
    svg.line(Pen::Fine, at(-CROSS, 0.0), at(CROSS, 0.0));
    svg.line(Pen::Fine, at(0.0, -CROSS), at(0.0, CROSS));
    svg.circle(Pen::Fine, None, mid, CROSS / 2.0);
}

/// 100 mm in tens, and four inches below it.
fn ruler(svg: &mut Svg, from: Point) {
    let at = |x: f64, y: f64| Point {
        x: from.x + x,
        y: from.y + y,
    };
    svg.path(
        Pen::Fine,
        "ruler-100-mm",
        &format!("M{} {}h100", mm(from.x), mm(from.y)),
    );
    for ten in 0..=10_u32 {
        let x = f64::from(ten) * 10.0;
        let tall = if ten % 5 == 0 { 3.0 } else { 1.5 };
        svg.line(Pen::Fine, at(x, 0.0), at(x, -tall));
    }
    for inch in 0..=4_u32 {
        let x = f64::from(inch) * 25.4;
        svg.line(Pen::Fine, at(x, 0.0), at(x, 2.0));
    }
    let words = "100 mm above, 4 in below: measure it. Print at 100 %, fit to page off.";
    svg.text(at(0.0, 6.0), 3.0, Stand::Start, 0.0, words);
}

/// All sheets of a template in one page for a browser's printer, each on a sheet of its own.
pub fn print_page(tiles: &[Tile], page: Page, heading: &str) -> String {
    let (wide, tall) = page.mm();
    let (wide, tall) = (mm(wide), mm(tall));
    let mut out = format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>{}</title>\n\
         <style>@page{{size:{wide}mm {tall}mm;margin:0}}body{{margin:0}}\
         svg{{display:block;break-after:page}}</style>\n</head>\n<body>\n",
        escape(heading)
    );
    for svg in tiles.iter().filter_map(|tile| tile.svg.as_ref()) {
        // Writing to a String cannot fail.
        let _ = write!(out, "{svg}");
    }
    out.push_str("</body>\n</html>\n");
    out
}
