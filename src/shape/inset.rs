//! Insets, outsets and overlaps of drawn figures, by the geometry crate.

use geo::algorithm::buffer::{BufferStyle, LineJoin};
use geo::{Area as _, BooleanOps as _, Buffer as _, MultiPolygon, Polygon};

use super::outline::Outline;
use super::overlap;
use super::ring::Ring;
use super::rounded::Rounded;
use crate::units::Length;

/// Half a degree, as fine as arcs are drawn.
const JOIN: f64 = std::f64::consts::TAU / 720.0;

/// Everything inside a ring that is at least `by` metres from it: inside corners come out rounded,
/// outer corners sharp.
pub(super) fn inset(ring: &Ring, by: f64) -> MultiPolygon<f64> {
    let polygon = ring.polygon();
    if by <= 0.0 {
        return MultiPolygon::new(vec![polygon]);
    }
    let style = BufferStyle::new(-by).line_join(LineJoin::Round(JOIN));
    polygon.buffer_with_style(style)
}

/// The lines, in millimetres from the left and from the front, that lie `by` inside an outline: what
/// a router's template for its outside edge is cut to. More than one where it is narrow, none where
/// nothing is left.
pub(super) fn inner_lines(outline: &Outline, by: Length) -> Vec<Vec<(f64, f64)>> {
    let drawn = outline.ring().map_or_else(
        |_| MultiPolygon::new(Vec::new()),
        |ring| inset(&ring, by.metres()),
    );
    let line = |polygon: &Polygon<f64>| {
        let ring = polygon.exterior();
        let last = ring.0.len().saturating_sub(usize::from(ring.is_closed()));
        let points = ring.0.iter().take(last);
        points.map(|at| (at.x * 1e3, at.y * 1e3)).collect()
    };
    drawn.iter().map(line).collect()
}

/// What is left of an outline after an inset.
pub(super) enum Inner {
    /// Exactly this.
    Exact(Rounded),
    /// Nothing.
    Nothing,
    /// This, its arcs in chords; and its area, in closed form where there is one.
    Drawn(MultiPolygon<f64>, f64),
}

impl Inner {
    /// An outline inset by `by`. A ring that does not close leaves nothing.
    pub(super) fn of(outline: &Outline, by: Length) -> Inner {
        if let Some(figure) = outline.figure() {
            return figure.inset(by).map_or(Inner::Nothing, Inner::Exact);
        }
        let Ok(ring) = outline.ring() else {
            return Inner::Nothing;
        };
        let drawn = inset(&ring, by.metres());
        let area = if by == Length::ZERO {
            outline.area().m2()
        } else {
            drawn.unsigned_area()
        };
        if area > 0.0 {
            Inner::Drawn(drawn, area)
        } else {
            Inner::Nothing
        }
    }

    /// Its area in square metres.
    pub(super) fn area(&self) -> f64 {
        match self {
            Inner::Exact(figure) => figure.area(),
            Inner::Nothing => 0.0,
            Inner::Drawn(_, area) => *area,
        }
    }

    /// What a figure takes of it, in square metres.
    pub(super) fn share(&self, figure: &Rounded) -> f64 {
        match self {
            Inner::Exact(inner) => overlap::area(figure, inner),
            Inner::Nothing => 0.0,
            Inner::Drawn(drawn, _) => {
                let polygon = overlap::polygon(figure, 0, 0);
                let whole = polygon.unsigned_area();
                if whole <= 0.0 {
                    return 0.0;
                }
                let part = drawn.intersection(&polygon).unsigned_area();
                // By proportion, so that a figure wholly inside counts with its exact area.
                let part = (part / whole).clamp(0.0, 1.0);
                let part = if part > 1.0 - 1e-7 { 1.0 } else { part };
                figure.area() * part
            }
        }
    }

    /// What several figures, which may overlap, take of it together, in square metres.
    pub(super) fn share_of_all(&self, figures: &[Rounded]) -> f64 {
        let polygons: Vec<Polygon<f64>> = figures
            .iter()
            .map(|figure| overlap::polygon(figure, 0, 0))
            .collect();
        let all = geo::unary_union(polygons.iter());
        match self {
            Inner::Exact(inner) => overlap::polygon(inner, 0, 0)
                .intersection(&all)
                .unsigned_area(),
            Inner::Nothing => 0.0,
            Inner::Drawn(drawn, _) => drawn.intersection(&all).unsigned_area(),
        }
    }
}
