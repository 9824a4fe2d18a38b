//! The full-size template: one millimetre on paper for each on the piece.

use super::svg::{Pen, Stand, Svg, mm, through};
use crate::shape::inset::inner_lines;
use crate::shape::layout::{Point, Seen, Serves, Void};
use crate::shape::{OpeningName, Shape};
use crate::units::Length;

/// What is drawn full size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TemplateOf {
    /// The whole piece with its openings.
    Piece,
    /// One opening.
    Opening(OpeningName),
}

/// What is drawn besides.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Extra {
    /// The line to cut the router's template to: so far outside an opening's finished line, and so
    /// far inside the outline.
    pub guide_offset: Option<Length>,
    /// Drawn as seen from the underside, left and right changed over.
    pub from_below: bool,
}

/// A full-size drawing, not yet cut into sheets.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Full {
    /// The lines, in millimetres from the upper left.
    pub body: String,
    /// Its size with the marks round it.
    pub size: (f64, f64),
    /// Boxes of what is drawn, to tell which sheets stay blank: upper left and lower right.
    pub inked: Vec<(Point, Point)>,
}

/// Kept free round the drawing for corner marks and centre lines.
const ROUND: f64 = 15.0;
/// How far centre lines and corner marks reach.
const MARK: f64 = 10.0;

/// From the piece's millimetres to the paper's: right is right (left, from below), back is up.
struct Paper {
    low: Point,
    high: Point,
    from_below: bool,
}

impl Paper {
    fn of(&self, point: Point) -> Point {
        let x = if self.from_below {
            self.high.x - point.x
        } else {
            point.x - self.low.x
        };
        Point {
            x: x + ROUND,
            y: self.high.y - point.y + ROUND,
        }
    }
}

/// The whole template as one file, for a plotter: width and height in millimetres, nothing scaled.
pub fn full_size(shape: &Shape, of: TemplateOf, extra: Extra, heading: &str) -> Option<String> {
    let full = full(shape, of, extra)?;
    let (wide, tall) = full.size;
    let mut svg = Svg::new(wide, tall);
    svg.window("all", (0.0, 0.0), (wide, tall), &full.body);
    let words = Point { x: 2.0, y: 5.0 };
    svg.text(words, 3.0, Stand::Start, 0.0, &head_words(heading, extra));
    Some(svg.finish(heading))
}

/// Heading and the face that is looked at.
pub(super) fn head_words(heading: &str, extra: Extra) -> String {
    let face = if extra.from_below {
        "underside up, left and right changed over"
    } else {
        "top face up"
    };
    format!("{heading}: {face}, full size")
}

pub(super) fn full(shape: &Shape, of: TemplateOf, extra: Extra) -> Option<Full> {
    let seen = Seen::of(shape);
    let only = match of {
        TemplateOf::Piece => None,
        TemplateOf::Opening(name) => Some(*seen.voids.iter().find(|void| void.name == name)?),
    };
    let (low, high) = match only {
        None => seen.extent(),
        Some(void) => {
            let (half_x, half_y) = void.half();
            let by = extra.guide_offset.map_or(0.0, Length::mm).max(0.0);
            let corner = |sign: f64| Point {
                x: void.mid.x + sign * (half_x + by),
                y: void.mid.y + sign * (half_y + by),
            };
            (corner(-1.0), corner(1.0))
        }
    };
    let paper = Paper {
        low,
        high,
        from_below: extra.from_below,
    };
    let size = (high.x - low.x + 2.0 * ROUND, high.y - low.y + 2.0 * ROUND);
    let mut svg = Svg::new(size.0, size.1);
    let mut inked = Vec::new();
    let mut ink = |a: Point, b: Point| inked.push(boxed(a, b));
    if only.is_none() {
        let points: Vec<Point> = seen.border.iter().map(|run| paper.of(run.from)).collect();
        for run in &seen.border {
            ink(paper.of(run.from), paper.of(run.to));
        }
        svg.path(Pen::Cut, "outline", &through(&points));
        // What is cut round the outside lies outside its template.
        let by = extra.guide_offset.filter(|by| *by > Length::ZERO);
        let lines = by.map_or_else(Vec::new, |by| inner_lines(shape.outline(), by));
        for (no, line) in (1..).zip(lines) {
            let on_paper = |(x, y): (f64, f64)| paper.of(Point { x, y });
            let points: Vec<Point> = line.into_iter().map(on_paper).collect();
            let after = points.iter().skip(1).chain(points.first());
            for (from, to) in points.iter().zip(after) {
                ink(*from, *to);
            }
            let id = if no == 1 {
                "outline-template".to_owned()
            } else {
                format!("outline-template-{no}")
            };
            svg.path(Pen::Dashed, &id, &through(&points));
        }
    }
    for void in seen
        .voids
        .iter()
        .filter(|void| only.is_none_or(|one| one.name == void.name))
    {
        let drawn = only.is_none() && void.serves == Serves::Apron;
        opening(
            &mut svg,
            &paper,
            void,
            (extra.guide_offset, drawn),
            &mut ink,
        );
    }
    corner_marks(&mut svg, &paper, &mut ink);
    Some(Full {
        body: svg.into_body(),
        size,
        inked,
    })
}

fn boxed(a: Point, b: Point) -> (Point, Point) {
    let low = Point {
        x: a.x.min(b.x),
        y: a.y.min(b.y),
    };
    let high = Point {
        x: a.x.max(b.x),
        y: a.y.max(b.y),
    };
    (low, high)
}

fn opening(
    svg: &mut Svg,
    paper: &Paper,
    void: &Void,
    (guide, drawn): (Option<Length>, bool),
    ink: &mut impl FnMut(Point, Point),
) {
    let id = void.name.to_string().replace(' ', "-");
    let mid = paper.of(void.mid);
    let (half_x, half_y) = void.half();
    // One that is open to the front is part of the border drawn already.
    if !drawn {
        draw(svg, Pen::Cut, &id, mid, (void.hx, void.hy, void.r));
    }
    let mut far = 0.0;
    if let Some(offset) = guide {
        far = offset.mm().max(0.0);
        let grown = (void.hx, void.hy, void.r + far);
        draw(svg, Pen::Dashed, &format!("{id}-template"), mid, grown);
    }
    let (out_x, out_y) = (half_x + far + MARK, half_y + far + MARK);
    let at = |x: f64, y: f64| Point {
        x: mid.x + x,
        y: mid.y + y,
    };
    svg.line(Pen::Centre, at(-out_x, 0.0), at(out_x, 0.0));
    svg.line(Pen::Centre, at(0.0, -out_y), at(0.0, out_y));
    // Its four sides, so that a sheet wholly inside a large opening counts as blank.
    let (x, y) = (half_x + far, half_y + far);
    ink(at(-x, -y), at(x, -y + void.r));
    ink(at(-x, y - void.r), at(x, y));
    ink(at(-x, -y), at(-x + void.r, y));
    ink(at(x - void.r, -y), at(x, y));
    ink(at(-out_x, 0.0), at(out_x, 0.0));
    ink(at(0.0, -out_y), at(0.0, out_y));
    let words = at(1.5, -2.0);
    svg.text(words, 3.5, Stand::Start, 0.0, &void.name.to_string());
}

/// A rectangle with round corners as SVG's own lines and arcs, or a circle.
fn draw(svg: &mut Svg, pen: Pen, id: &str, mid: Point, (hx, hy, r): (f64, f64, f64)) {
    if hx <= 0.0 && hy <= 0.0 {
        svg.circle(pen, Some(id), mid, r);
        return;
    }
    let (left, right) = (mid.x - hx - r, mid.x + hx + r);
    let (top, bottom) = (mid.y - hy - r, mid.y + hy + r);
    let arc = |x: f64, y: f64| {
        if r > 0.0 {
            format!("A{0} {0} 0 0 1 {1} {2}", mm(r), mm(x), mm(y))
        } else {
            String::new()
        }
    };
    let d = [
        format!("M{} {}", mm(left + r), mm(top)),
        format!("L{} {}", mm(right - r), mm(top)),
        arc(right, top + r),
        format!("L{} {}", mm(right), mm(bottom - r)),
        arc(right - r, bottom),
        format!("L{} {}", mm(left + r), mm(bottom)),
        arc(left, bottom - r),
        format!("L{} {}", mm(left), mm(top + r)),
        arc(left + r, top),
    ]
    .concat();
    svg.path(pen, id, &format!("{d}Z"));
}

fn corner_marks(svg: &mut Svg, paper: &Paper, ink: &mut impl FnMut(Point, Point)) {
    let (left, top) = (ROUND, ROUND);
    let right = ROUND + paper.high.x - paper.low.x;
    let bottom = ROUND + paper.high.y - paper.low.y;
    for (x, y, out_x, out_y) in [
        (left, top, -MARK, -MARK),
        (right, top, MARK, -MARK),
        (right, bottom, MARK, MARK),
        (left, bottom, -MARK, MARK),
    ] {
        // A hand's breadth off the corner, so that the corner itself stays clean.
        let corner = |dx: f64, dy: f64| Point {
            x: x + dx,
            y: y + dy,
        };
        svg.line(Pen::Fine, corner(out_x / 5.0, 0.0), corner(out_x, 0.0));
        svg.line(Pen::Fine, corner(0.0, out_y / 5.0), corner(0.0, out_y));
        ink(corner(0.0, 0.0), corner(out_x, out_y));
    }
}
