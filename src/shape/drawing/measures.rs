//! The measures an outline was made from, where its box does not tell them: sides and diagonals of
//! a top out of square, run and legs of an L or U, widths at the stations of a live edge.

use super::picture::{Anchor, Ink, Picture};
use crate::shape::layout::Point;
use crate::shape::rings::quad_corners;
use crate::shape::{Corner, Cup, Ell, LiveSlab, Outline, Quad};
use crate::units::{Length, LengthStyle};

fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// Whether the box of an outline is measured at the piece itself, so that its length and width are
/// two of its own sizes; of others it is the room they take over all.
pub(super) fn has_own_box(outline: &Outline) -> bool {
    !matches!(outline, Outline::Quad(_) | Outline::Live(_))
}

impl Picture {
    /// Draws the measures of an outline.
    pub(super) fn measures(&mut self, outline: &Outline, style: LengthStyle) {
        let show = |length: Length| length.show_inches(style);
        match outline {
            Outline::L(ell) => self.ell(ell, &show),
            Outline::U(cup) => self.cup(cup, &show),
            Outline::Quad(quad) => self.quad(quad, &show),
            Outline::Live(slab) => self.stations(slab, &show),
            _ => {}
        }
    }

    fn ell(&mut self, ell: &Ell, show: &impl Fn(Length) -> String) {
        let (long, wide) = (ell.length.mm(), ell.width.mm());
        let (run, leg) = (ell.run.mm(), ell.leg.mm());
        let right = matches!(ell.open, Corner::FrontRight | Corner::BackRight);
        let front = matches!(ell.open, Corner::FrontLeft | Corner::FrontRight);
        // The run lies across from the open corner, the leg beside it.
        let (from, to) = if front {
            (wide - run, wide)
        } else {
            (0.0, run)
        };
        let x = if right { long * 0.86 } else { long * 0.14 };
        let text = format!("run {}", show(ell.run));
        let anchor = if right { Anchor::Left } else { Anchor::Right };
        self.measure(at(x, from), at(x, to), anchor, text);
        let (from, to) = if right {
            (0.0, leg)
        } else {
            (long - leg, long)
        };
        let y = if front { wide * 0.14 } else { wide * 0.86 };
        let text = format!("leg {}", show(ell.leg));
        self.measure(at(from, y), at(to, y), Anchor::Above, text);
    }

    fn cup(&mut self, cup: &Cup, show: &impl Fn(Length) -> String) {
        let (long, wide) = (cup.length.mm(), cup.width.mm());
        let (run, left, right) = (cup.run.mm(), cup.left.mm(), cup.right.mm());
        let x = f64::midpoint(left, long - right);
        let text = format!("run {}", show(cup.run));
        self.measure(at(x, wide - run), at(x, wide), Anchor::Right, text);
        let y = (wide - run) * 0.25;
        let text = format!("left leg {}", show(cup.left));
        self.measure(at(0.0, y), at(left, y), Anchor::Above, text);
        let text = format!("right leg {}", show(cup.right));
        self.measure(at(long - right, y), at(long, y), Anchor::Above, text);
    }

    fn quad(&mut self, quad: &Quad, show: &impl Fn(Length) -> String) {
        let Ok(corners) = quad_corners(quad) else {
            return;
        };
        let points: Vec<Point> = corners
            .iter()
            .map(|(_, point, _)| at(point.x * 1e3, point.y * 1e3))
            .collect();
        let [a, b, c, d] = points[..] else {
            return;
        };
        let middle = a.toward(c, 0.5).toward(b.toward(d, 0.5), 0.5);
        // Each side's figure stands inside of it, off its middle, where its face's name may be.
        for (from, to, name, side) in [
            (a, b, "front", quad.front),
            (b, c, "right", quad.right),
            (c, d, "back", quad.back),
            (d, a, "left", quad.left),
        ] {
            let spot = from.toward(to, 0.62).toward(middle, 0.16);
            let text = format!("{name} {}", show(side));
            self.label(Ink::Size, spot, Anchor::On, text);
        }
        for (from, to, length) in [(a, c, quad.rising), (b, d, quad.falling)] {
            let Some(length) = length else { continue };
            self.stroke(Ink::Centre, vec![from, to]);
            let text = format!("diagonal {}", show(length));
            self.label(Ink::Size, from.toward(to, 0.3), Anchor::On, text);
        }
    }

    fn stations(&mut self, slab: &LiveSlab, show: &impl Fn(Length) -> String) {
        let (ahead, _) = slab.reaches();
        let start = slab.stations.first().map_or(Length::ZERO, |first| first.at);
        let last = slab.stations.len().saturating_sub(1);
        for (no, station) in slab.stations.iter().enumerate() {
            let x = (station.at - start).mm();
            let (front, back) = station.sides(slab.edges);
            let (low, high) = ((ahead - front).mm(), (ahead + back).mm());
            let (from, to) = (at(x, low), at(x, high));
            // Those at the ends stand inside; every second one a little further back, so that
            // near neighbours do not run into each other.
            let anchor = match no {
                0 => Anchor::Right,
                _ if no == last => Anchor::Left,
                _ => Anchor::On,
            };
            let part = if no % 2 == 0 { 0.42 } else { 0.58 };
            if 0 < no && no < last {
                self.stroke(Ink::Centre, vec![from, to]);
            }
            let text = show(station.width);
            self.label(Ink::Size, from.toward(to, part), anchor, text);
            if 0 < no {
                let text = format!("at {}", show(station.at - start));
                self.label(Ink::Size, from.toward(to, part - 0.14), anchor, text);
            }
        }
    }

    /// A line with a bar at either end, and its figure.
    fn measure(&mut self, from: Point, to: Point, anchor: Anchor, text: String) {
        let (low, high) = self.extent;
        let bar = (high.x - low.x).max(high.y - low.y) * 0.008;
        let upright = (from.x - to.x).abs() < (from.y - to.y).abs();
        let (dx, dy) = if upright { (bar, 0.0) } else { (0.0, bar) };
        self.stroke(Ink::Size, vec![from, to]);
        for end in [from, to] {
            let ends = vec![at(end.x - dx, end.y - dy), at(end.x + dx, end.y + dy)];
            self.stroke(Ink::Size, ends);
        }
        self.label(Ink::Size, from.toward(to, 0.5), anchor, text);
    }
}
