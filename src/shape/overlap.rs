//! How much two figures share: closed forms when one lies wholly inside or outside the other, the
//! geometry crate on finely cut polygons when they straddle.

use std::cmp::Ordering;
use std::f64::consts::{FRAC_PI_2, TAU};

use geo::{Area as _, BooleanOps as _, LineString, Polygon};

use super::rounded::Rounded;

/// Chords to a quarter turn.
const CHORDS: u32 = 256;

/// The area two figures share, in square metres.
pub(super) fn area(opening: &Rounded, inner: &Rounded) -> f64 {
    if inner.holds(opening, 0) {
        return opening.area();
    }
    if opening.holds(inner, 0) {
        return inner.area();
    }
    if opening.gap_to(inner) != Ordering::Less {
        return 0.0;
    }
    // Both are drawn about the opening's centre: small numbers keep their digits.
    let (x, y) = (opening.cx, opening.cy);
    let shared = polygon(opening, x, y)
        .intersection(&polygon(inner, x, y))
        .unsigned_area();
    shared.clamp(0.0, opening.area().min(inner.area()))
}

/// The figure as a polygon in metres about `(x, y)`. The corners of its arcs lie a little outside
/// the true arc, by just so much that a whole turn has the true area, and what is lost at the
/// chords' middles is won at their ends.
pub(super) fn polygon(figure: &Rounded, x: i128, y: i128) -> Polygon<f64> {
    let [cx, cy, hx, hy, r] = figure.metres_from(x, y);
    let step = TAU / f64::from(4 * CHORDS);
    let radius = r * (step / step.sin()).sqrt();
    let corners = [(hx, hy), (-hx, hy), (-hx, -hy), (hx, -hy)];
    let mut ring = Vec::new();
    for (quarter, (px, py)) in (0u32..).zip(corners) {
        let from = f64::from(quarter) * FRAC_PI_2;
        let chords = if figure.r == 0 { 0 } else { CHORDS };
        for chord in 0..=chords {
            let angle = from + f64::from(chord) * step;
            ring.push((
                cx + px + radius * angle.cos(),
                cy + py + radius * angle.sin(),
            ));
        }
    }
    ring.dedup();
    Polygon::new(LineString::from(ring), Vec::new())
}

#[cfg(test)]
mod tests {
    use super::area;
    use crate::shape::rounded::Rounded;
    use std::f64::consts::PI;

    /// Half-nm from millimetres.
    const MM: i128 = 2_000_000;

    fn figure(cx: i128, cy: i128, hx: i128, hy: i128, r: i128) -> Rounded {
        Rounded {
            cx: cx * MM,
            cy: cy * MM,
            hx: hx * MM,
            hy: hy * MM,
            r: r * MM,
        }
    }

    fn close(got: f64, want: f64) {
        assert!((got / want - 1.0).abs() < 1e-6, "got {got}, want {want}");
    }

    #[test]
    fn a_circle_on_the_line_is_halved() {
        let inner = figure(500, 500, 400, 400, 0);
        close(
            area(&figure(100, 500, 0, 0, 20), &inner),
            PI * 0.02 * 0.02 / 2.0,
        );
        close(
            area(&figure(900, 900, 0, 0, 20), &inner),
            PI * 0.02 * 0.02 / 4.0,
        );
    }

    #[test]
    fn a_segment_of_a_circle_has_its_textbook_area() {
        // Centre 10 mm outside the line, radius 20 mm: r^2 acos(d/r) - d sqrt(r^2 - d^2).
        let inner = figure(500, 500, 400, 400, 0);
        let want =
            0.02f64.powi(2) * 0.5f64.acos() - 0.01 * (0.02f64.powi(2) - 0.01f64.powi(2)).sqrt();
        close(area(&figure(90, 500, 0, 0, 20), &inner), want);
    }

    #[test]
    fn two_circles_share_their_textbook_lens() {
        // Equal radii r, centres r apart: r^2 (2 pi / 3 - sqrt 3 / 2).
        let want = 0.1f64.powi(2) * (2.0 * PI / 3.0 - 3f64.sqrt() / 2.0);
        close(
            area(&figure(0, 0, 0, 0, 100), &figure(100, 0, 0, 0, 100)),
            want,
        );
    }

    #[test]
    fn sharp_rectangles_share_a_rectangle() {
        close(
            area(&figure(0, 0, 30, 20, 0), &figure(40, 10, 30, 20, 0)),
            0.02 * 0.03,
        );
    }
}
