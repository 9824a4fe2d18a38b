//! The one figure everything here is made of: a rectangle with rounded corners, square with the
//! grain. Radius zero gives a rectangle, sides zero a circle. Kept in whole half-nanometres, so
//! that "touches", "crosses" and "reaches over" are decided exactly, never by a rounded number.

use crate::units::Length;

/// Half-nanometres to metres.
const HALF_NM: f64 = 0.5e-9;

/// All points within `r` of a core rectangle, given by its centre and its half sides, in half-nm.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Rounded {
    pub cx: i128,
    pub cy: i128,
    pub hx: i128,
    pub hy: i128,
    pub r: i128,
}

/// A length in half-nanometres.
pub(super) fn halves(length: Length) -> i128 {
    i128::from(length.nm()) * 2
}

impl Rounded {
    /// The figure moved in by `by` on all sides; `None` when nothing is left.
    pub fn inset(self, by: Length) -> Option<Rounded> {
        let by = halves(by);
        let mut inner = self;
        inner.r = (self.r - by).max(0);
        let eaten = (by - self.r).max(0);
        inner.hx -= eaten;
        inner.hy -= eaten;
        let left_x = inner.hx + inner.r;
        let left_y = inner.hy + inner.r;
        (inner.hx >= 0 && inner.hy >= 0 && left_x > 0 && left_y > 0).then_some(inner)
    }

    /// The figure moved out by `by` on all sides.
    pub fn grown(self, by: Length) -> Rounded {
        Rounded {
            r: self.r + halves(by).max(0),
            ..self
        }
    }

    /// Whether `other`, grown by `margin` half-nm on all sides, lies within this figure (meeting
    /// the border counts as within).
    ///
    /// Eroding a rounded rectangle by a disc gives a smaller rounded rectangle, or, once the disc
    /// is larger than its corners, a plain rectangle; so it is enough to look at the core.
    pub fn holds(&self, other: &Rounded, margin: i128) -> bool {
        let slack = self.r - other.r - margin;
        let out_x = (self.cx - other.cx).abs() + other.hx - self.hx;
        let out_y = (self.cy - other.cy).abs() + other.hy - self.hy;
        if out_x > slack || out_y > slack {
            return false;
        }
        // Both are at most `slack` from here on, so that the squares cannot overflow.
        let (out_x, out_y) = (out_x.max(0), out_y.max(0));
        slack <= 0 || out_x * out_x + out_y * out_y <= slack * slack
    }

    /// The gap between two figures: less, equal (they touch) or greater than nothing.
    pub fn gap_to(&self, other: &Rounded) -> std::cmp::Ordering {
        let reach = self.r + other.r;
        let apart_x = ((self.cx - other.cx).abs() - self.hx - other.hx).max(0);
        let apart_y = ((self.cy - other.cy).abs() - self.hy - other.hy).max(0);
        if apart_x > reach || apart_y > reach {
            return std::cmp::Ordering::Greater;
        }
        if reach == 0 {
            // Two sharp rectangles: crossing when they share more than a line.
            let share_x = self.hx + other.hx - (self.cx - other.cx).abs();
            let share_y = self.hy + other.hy - (self.cy - other.cy).abs();
            return 0.cmp(&share_x.min(share_y));
        }
        (apart_x * apart_x + apart_y * apart_y).cmp(&(reach * reach))
    }

    /// Area in square metres: the outer rectangle less the four corners, `w d - (4 - pi) r^2`.
    pub fn area(&self) -> f64 {
        let width = (self.hx + self.r) as f64 * 2.0 * HALF_NM;
        let depth = (self.hy + self.r) as f64 * 2.0 * HALF_NM;
        let r = self.r as f64 * HALF_NM;
        width * depth - (4.0 - std::f64::consts::PI) * r * r
    }

    /// Perimeter in metres: `2 (w + d) - 8 r + 2 pi r`.
    pub fn perimeter(&self) -> f64 {
        let straight = (self.hx + self.hy) as f64 * 4.0 * HALF_NM;
        straight + std::f64::consts::TAU * self.r as f64 * HALF_NM
    }

    /// Centre, half sides and radius in metres, with the centre given from `(x, y)`.
    pub fn metres_from(&self, x: i128, y: i128) -> [f64; 5] {
        [self.cx - x, self.cy - y, self.hx, self.hy, self.r].map(|v| v as f64 * HALF_NM)
    }
}

#[cfg(test)]
mod tests {
    use super::Rounded;
    use std::cmp::Ordering;

    fn figure(cx: i128, cy: i128, hx: i128, hy: i128, r: i128) -> Rounded {
        Rounded { cx, cy, hx, hy, r }
    }

    #[test]
    fn circles_on_a_diagonal_touch_exactly_where_pythagoras_says() {
        let a = figure(0, 0, 0, 0, 2);
        assert_eq!(a.gap_to(&figure(3, 4, 0, 0, 3)), Ordering::Equal);
        assert_eq!(a.gap_to(&figure(3, 4, 0, 0, 4)), Ordering::Less);
        assert_eq!(a.gap_to(&figure(3, 5, 0, 0, 3)), Ordering::Greater);
    }

    #[test]
    fn sharp_rectangles_touch_cross_and_part() {
        let a = figure(0, 0, 10, 10, 0);
        assert_eq!(a.gap_to(&figure(20, 0, 10, 10, 0)), Ordering::Equal);
        assert_eq!(a.gap_to(&figure(19, 0, 10, 10, 0)), Ordering::Less);
        assert_eq!(a.gap_to(&figure(21, 0, 10, 10, 0)), Ordering::Greater);
        assert_eq!(a.gap_to(&figure(20, 20, 10, 10, 0)), Ordering::Equal);
    }

    #[test]
    fn a_circle_holds_a_square_up_to_its_corners() {
        let circle = figure(0, 0, 0, 0, 50);
        assert!(circle.holds(&figure(0, 0, 30, 40, 0), 0));
        assert!(!circle.holds(&figure(0, 0, 30, 41, 0), 0));
        assert!(!circle.holds(&figure(0, 0, 30, 40, 0), 1));
    }

    #[test]
    fn a_rectangle_holds_a_circle_up_to_its_sides() {
        let rectangle = figure(0, 0, 30, 40, 0);
        assert!(rectangle.holds(&figure(0, 0, 0, 0, 30), 0));
        assert!(!rectangle.holds(&figure(1, 0, 0, 0, 30), 0));
        assert!(rectangle.holds(&figure(0, 10, 0, 0, 30), 0));
        assert!(!rectangle.holds(&figure(0, 11, 0, 0, 30), 0));
    }
}
