//! The dimensioned sheet: the whole piece on one sheet of paper lying on its side, to a round
//! scale, with sizes, centre lines, faces, findings and a heading.

use super::picture::{Anchor, Ink, Picture};
use super::svg::{Pen, Stand, Svg};
use super::tiles::Page;
use crate::shape::layout::{Point, Seen, length_of_mm};
use crate::units::LengthStyle;

/// Scales a sheet is drawn to, the largest first.
const SCALES: [u32; 10] = [1, 2, 5, 10, 15, 20, 25, 50, 100, 200];
/// Free at the edges of the paper.
const MARGIN: f64 = 12.0;
/// Kept round the piece for names.
const ROUND: f64 = 11.0;
/// The most rows of sizes on one side; the words below tell every opening's place besides.
const ROWS: usize = 6;
/// The steps in which rows of sizes stand off the piece.
const ROW: f64 = 7.0;
/// The height of its texts.
const TEXT: f64 = 3.0;
/// Below the piece: rows of words, each so tall.
const WORDS: f64 = 4.2;

/// The most rows of words: what is left keeps half of the sheet for the drawing.
const WORDS_MOST: usize = 20;
/// How far marks of findings keep from each other, side by side.
const MARK_WIDE: f64 = 6.5;

struct Paper {
    low: Point,
    high: Point,
    scale: f64,
    left: f64,
    top: f64,
}

impl Paper {
    fn of(&self, point: Point) -> Point {
        Point {
            x: self.left + (point.x - self.low.x) / self.scale,
            y: self.top + (self.high.y - point.y) / self.scale,
        }
    }
}

/// A sheet: `heading` stands above the drawing, `words` below it, as many lines as there is room
/// for (what is left out is said). Two sheets of the same piece are equal byte for byte.
pub fn sheet(
    picture: &Picture,
    seen: &Seen,
    style: LengthStyle,
    page: Page,
    heading: &[String],
    words: &[String],
) -> String {
    let (tall, wide) = page.mm();
    let mut svg = Svg::new(wide, tall);
    let (low, high) = picture.extent;
    let head = MARGIN + 5.5 * heading.len() as f64;
    // Half of the sheet at most is for words.
    let most_words = WORDS_MOST;
    let shown = words.len().min(most_words);
    let foot = MARGIN + WORDS * (shown + 2) as f64;
    let along = rows(
        seen.voids.iter().map(|void| void.mid.x - low.x),
        high.x - low.x,
    );
    let across = rows(
        seen.voids.iter().map(|void| void.mid.y - low.y),
        high.y - low.y,
    );
    let (at_left, at_foot) = (ROW * across.len() as f64, ROW * along.len() as f64);
    let room = (
        wide - 2.0 * (MARGIN + ROUND) - at_left,
        tall - head - foot - 2.0 * ROUND - at_foot,
    );
    let needed = ((high.x - low.x) / room.0).max((high.y - low.y) / room.1);
    let scale = SCALES
        .into_iter()
        .find(|scale| f64::from(*scale) >= needed)
        .map_or(needed, f64::from);
    let drawn = ((high.x - low.x) / scale, (high.y - low.y) / scale);
    let paper = Paper {
        low,
        high,
        scale,
        left: MARGIN + ROUND + at_left + (room.0 - drawn.0).max(0.0) / 2.0,
        top: head + ROUND + (room.1 - drawn.1).max(0.0) / 2.0,
    };
    for (no, line) in heading.iter().enumerate() {
        let at = Point {
            x: MARGIN,
            y: MARGIN + 4.0 + 5.5 * no as f64,
        };
        svg.text(at, if no == 0 { 5.0 } else { 4.0 }, Stand::Start, 0.0, line);
    }
    strokes(&mut svg, picture, &paper);
    labels(&mut svg, picture, &paper);
    sizes(&mut svg, (&along, &across), &paper, style, picture.own_box);
    below(&mut svg, (words, shown), scale, (wide, tall));
    svg.finish(heading.first().map_or("piece", String::as_str))
}

fn strokes(svg: &mut Svg, picture: &Picture, paper: &Paper) {
    for stroke in &picture.strokes {
        let pen = match stroke.ink {
            Ink::Outline | Ink::Opening => Pen::Edge,
            Ink::Centre => Pen::Centre,
            Ink::Joint | Ink::Below => Pen::Dashed,
            Ink::Finding => Pen::Mark,
            _ => Pen::Fine,
        };
        for pair in stroke.points.windows(2) {
            if let [from, to] = pair {
                svg.line(pen, paper.of(*from), paper.of(*to));
            }
        }
    }
}

fn labels(svg: &mut Svg, picture: &Picture, paper: &Paper) {
    let mut marks: Vec<Point> = Vec::new();
    for label in &picture.labels {
        // The sheet has its own rows of sizes round the piece.
        if label.ink == Ink::Whole {
            continue;
        }
        let at = paper.of(label.at);
        let outside = label.ink == Ink::Face;
        // Only at the front and the left of the whole piece do rows of sizes stand.
        let by_rows = match label.anchor {
            Anchor::Below => (label.at.y - paper.low.y).abs() < 1.0,
            Anchor::Left => (label.at.x - paper.low.x).abs() < 1.0,
            _ => false,
        };
        let off = if outside { 3.0 } else { 1.5 };
        let (dx, dy, stand, turn) = match label.anchor {
            // A mark stands beside its own thick stroke.
            Anchor::On if matches!(label.ink, Ink::Finding | Ink::Taken) => {
                (-1.5, TEXT / 3.0, Stand::End, 0.0)
            }
            Anchor::On => (0.0, TEXT / 3.0, Stand::Middle, 0.0),
            Anchor::Above => (0.0, -off, Stand::Middle, 0.0),
            // The rows of sizes stand in front and at the left: those names go inside.
            Anchor::Below if outside && by_rows => (0.0, -1.5, Stand::Middle, 0.0),
            Anchor::Below => (0.0, off + TEXT, Stand::Middle, 0.0),
            Anchor::Left if outside && by_rows => (1.5 + TEXT, 0.0, Stand::Middle, -90.0),
            Anchor::Left if outside => (-off, 0.0, Stand::Middle, -90.0),
            Anchor::Right if outside => (off + TEXT, 0.0, Stand::Middle, -90.0),
            Anchor::Left => (-off, TEXT / 3.0, Stand::End, 0.0),
            Anchor::Right => (off, TEXT / 3.0, Stand::Start, 0.0),
        };
        let mut at = Point {
            x: at.x + dx,
            y: at.y + dy,
        };
        if matches!(label.ink, Ink::Finding | Ink::Taken) {
            let covers = |at: Point| {
                let near = |mark: &Point| {
                    (mark.x - at.x).abs() < MARK_WIDE && (mark.y - at.y).abs() < TEXT * 1.1
                };
                marks.iter().any(near)
            };
            // Upwards until it is free: every step leaves a mark behind, so that ends.
            while covers(at) {
                at.y -= TEXT * 1.2;
            }
            marks.push(at);
        }
        svg.text(at, TEXT, stand, turn, &label.text);
    }
}

/// Where rows of sizes end: at each opening's centre, then at the whole.
fn rows(centres: impl Iterator<Item = f64>, whole: f64) -> Vec<f64> {
    let mut out: Vec<f64> = centres.filter(|mm| *mm > 0.0 && *mm < whole).collect();
    out.sort_by(f64::total_cmp);
    out.dedup_by(|a, b| (*a - *b).abs() < 0.01);
    out.truncate(ROWS - 1);
    out.push(whole);
    out
}

/// Sizes along the front and the left: the centre of each opening from the corner, then the whole.
fn sizes(
    svg: &mut Svg,
    (along, across): (&[f64], &[f64]),
    paper: &Paper,
    style: LengthStyle,
    own_box: bool,
) {
    let corner = paper.of(paper.low);
    // What is not measured at the piece itself says that it is the box round it.
    let words = |no: usize, rows: &[f64], mm: f64| {
        if own_box || no < rows.len() {
            show(mm, style)
        } else {
            format!("{} over all", show(mm, style))
        }
    };
    for (no, mm) in (1..).zip(along) {
        let y = corner.y + ROUND - 3.0 + ROW * (no - 1) as f64;
        let to = corner.x + mm / paper.scale;
        let (from, to) = (Point { x: corner.x, y }, Point { x: to, y });
        dimension(svg, from, to, corner, &words(no, along, *mm));
    }
    for (no, mm) in (1..).zip(across) {
        let x = corner.x - ROUND + 3.0 - ROW * (no - 1) as f64;
        let to = corner.y - mm / paper.scale;
        let (from, to) = (Point { x, y: corner.y }, Point { x, y: to });
        dimension(svg, from, to, corner, &words(no, across, *mm));
    }
}

fn show(mm: f64, style: LengthStyle) -> String {
    length_of_mm(mm).show(style)
}

/// A dimension line with ticks and its text, and thin lines back to the piece's corner.
fn dimension(svg: &mut Svg, from: Point, to: Point, corner: Point, text: &str) {
    let upright = (from.x - to.x).abs() < (from.y - to.y).abs();
    svg.line(Pen::Fine, from, to);
    for end in [from, to] {
        let (a, b) = (
            Point {
                x: end.x - 1.0,
                y: end.y + 1.0,
            },
            Point {
                x: end.x + 1.0,
                y: end.y - 1.0,
            },
        );
        svg.line(Pen::Fine, a, b);
        let foot = if upright {
            Point {
                x: corner.x,
                y: end.y,
            }
        } else {
            Point {
                x: end.x,
                y: corner.y,
            }
        };
        svg.line(Pen::Fine, end, foot);
    }
    let mid = from.toward(to, 0.5);
    let (at, turn) = if upright {
        (
            Point {
                x: mid.x - 1.0,
                y: mid.y,
            },
            -90.0,
        )
    } else {
        (
            Point {
                x: mid.x,
                y: mid.y - 1.0,
            },
            0.0,
        )
    };
    svg.text(at, TEXT, Stand::Middle, turn, text);
}

fn below(svg: &mut Svg, (words, shown): (&[String], usize), scale: f64, (wide, tall): (f64, f64)) {
    let rows = shown + usize::from(words.len() > shown);
    let first = tall - MARGIN - WORDS * rows as f64;
    let mut write = |no: usize, text: &str| {
        let at = Point {
            x: MARGIN,
            y: first + WORDS * no as f64,
        };
        svg.text(at, TEXT, Stand::Start, 0.0, text);
    };
    for (no, line) in words.iter().take(shown).enumerate() {
        write(no, line);
    }
    if words.len() > shown {
        write(
            shown,
            &format!("and {} lines more on the ticket", words.len() - shown),
        );
    }
    let at = Point {
        x: wide - MARGIN,
        y: tall - MARGIN,
    };
    let words = format!("scale 1 : {scale}; measure from the figures, not from the paper");
    svg.text(at, TEXT, Stand::End, 0.0, &words);
}
