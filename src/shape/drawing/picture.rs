//! What a drawing shows, in millimetres on the piece: strokes and labels, for any renderer.

use super::measures::has_own_box;
use crate::shape::layout::{Finding, JointWay, Point, Seen, Serves, Standing, length_of_mm};
use crate::shape::{Construction, FaceKey, OpeningKind, Outline, Shape};
use crate::units::{Length, LengthStyle};

/// What a stroke or label stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ink {
    /// The outline of the piece.
    Outline,
    /// The edge of an opening.
    Opening,
    /// A centre line.
    Centre,
    /// A joint.
    Joint,
    /// What stands below, and where the top begins to hang out.
    Below,
    /// The grain arrow.
    Grain,
    /// A face's name.
    Face,
    /// A size.
    Size,
    /// The whole length or width of the piece's box.
    Whole,
    /// A finding still open.
    Finding,
    /// A finding taken as it is.
    Taken,
}

/// A line through some points.
#[derive(Debug, Clone, PartialEq)]
pub struct Stroke {
    /// What it stands for.
    pub ink: Ink,
    /// Its points.
    pub points: Vec<Point>,
}

/// Where a text stands to its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Anchor {
    /// Centred on it.
    On,
    /// Centred above it.
    Above,
    /// Centred below it.
    Below,
    /// To its left.
    Left,
    /// To its right.
    Right,
}

/// A text on the piece.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// What it stands for.
    pub ink: Ink,
    /// Where.
    pub at: Point,
    /// How it stands there.
    pub anchor: Anchor,
    /// The text.
    pub text: String,
}

/// A whole drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// Lower left and upper right of the piece.
    pub extent: (Point, Point),
    /// Whether the piece's box is made of its own sizes.
    pub own_box: bool,
    /// Lines.
    pub strokes: Vec<Stroke>,
    /// Texts, the most needful first.
    pub labels: Vec<Label>,
}

/// Steps a round opening is drawn with.
const ROUND_STEPS: u32 = 96;

fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

impl Picture {
    /// Draws a piece with its findings, numbered from 1 in their order.
    pub fn new(
        shape: &Shape,
        construction: Construction,
        standing: &Standing,
        findings: &[Finding],
        style: LengthStyle,
    ) -> Self {
        let seen = Seen::of(shape);
        let extent = seen.extent();
        let mut picture = Self {
            extent,
            own_box: has_own_box(shape.outline()),
            strokes: Vec::new(),
            labels: Vec::new(),
        };
        picture.outline(&seen);
        picture.openings(&seen);
        picture.standing(standing);
        picture.findings(findings);
        picture.sizes(&seen, shape.outline(), style);
        picture.edges(shape, style);
        picture.faces(&seen, construction);
        picture.grain(&seen);
        picture
    }

    pub(super) fn stroke(&mut self, ink: Ink, points: Vec<Point>) {
        self.strokes.push(Stroke { ink, points });
    }

    pub(super) fn label(&mut self, ink: Ink, at: Point, anchor: Anchor, text: impl Into<String>) {
        self.labels.push(Label {
            ink,
            at,
            anchor,
            text: text.into(),
        });
    }

    fn outline(&mut self, seen: &Seen) {
        let mut points: Vec<Point> = seen.border.iter().map(|run| run.from).collect();
        points.extend(points.first().copied());
        self.stroke(Ink::Outline, points);
    }

    fn openings(&mut self, seen: &Seen) {
        for void in &seen.voids {
            let mut points = void.points(ROUND_STEPS);
            points.extend(points.first().copied());
            // One that is open to the front is part of the border already.
            if void.serves != Serves::Apron {
                self.stroke(Ink::Opening, points);
            }
            let (half_x, half_y) = void.half();
            // A cross that stands a little out of a hole, and stays inside a cutout.
            let out = if void.hx > 0.0 { 0.15 } else { 1.5 };
            let (x, y) = (void.mid.x, void.mid.y);
            self.stroke(
                Ink::Centre,
                vec![at(x - half_x * out, y), at(x + half_x * out, y)],
            );
            self.stroke(
                Ink::Centre,
                vec![at(x, y - half_y * out), at(x, y + half_y * out)],
            );
            let (point, anchor) = if void.hx > 0.0 {
                (at(x, y + half_y * 0.45), Anchor::On)
            } else {
                (at(x + half_x, y), Anchor::Right)
            };
            self.label(Ink::Opening, point, anchor, void.name.to_string());
        }
    }

    fn standing(&mut self, standing: &Standing) {
        let (low, high) = self.extent;
        for (no, joint) in (1..).zip(&standing.joints) {
            let way = joint.at.mm();
            let (from, to) = match joint.way {
                JointWay::Across => (at(way, low.y), at(way, high.y)),
                JointWay::Along => (at(low.x, way), at(high.x, way)),
            };
            self.stroke(Ink::Joint, vec![from, to]);
            self.label(
                Ink::Joint,
                from.toward(to, 0.8),
                Anchor::Right,
                format!("joint {no}"),
            );
        }
        for overhang in &standing.overhangs {
            let out = overhang.out.mm();
            let points = match overhang.side {
                FaceKey::Back => vec![at(low.x, high.y - out), at(high.x, high.y - out)],
                FaceKey::Left => vec![at(low.x + out, low.y), at(low.x + out, high.y)],
                FaceKey::Right => vec![at(high.x - out, low.y), at(high.x - out, high.y)],
                _ => vec![at(low.x, low.y + out), at(high.x, low.y + out)],
            };
            self.stroke(Ink::Below, points);
        }
        for (no, appliance) in (1..).zip(&standing.appliances) {
            let (from, to) = (appliance.from.mm(), appliance.to.mm());
            for x in [from, to] {
                self.stroke(Ink::Below, vec![at(x, low.y), at(x, high.y)]);
            }
            let middle = at(f64::midpoint(from, to), low.y + (high.y - low.y) * 0.2);
            self.label(Ink::Below, middle, Anchor::On, format!("appliance {no}"));
        }
    }

    fn findings(&mut self, findings: &[Finding]) {
        for (no, finding) in (1..).zip(findings) {
            let Some((from, to)) = finding.place else {
                continue;
            };
            let (ink, text) = if finding.accepted.is_some() {
                (Ink::Taken, format!("({no})"))
            } else {
                (Ink::Finding, format!("!{no}"))
            };
            if from != to {
                self.stroke(ink, vec![from, to]);
            }
            self.label(ink, from.toward(to, 0.5), Anchor::On, text);
        }
        // A mark is worth more than a name: it comes first where there is no room for both.
        self.labels
            .sort_by_key(|label| !matches!(label.ink, Ink::Finding | Ink::Taken));
    }

    fn sizes(&mut self, seen: &Seen, outline: &Outline, style: LengthStyle) {
        let (low, high) = self.extent;
        let show = |mm: f64| length_of_mm(mm).show(style);
        let along = at(f64::midpoint(low.x, high.x), low.y);
        let across = at(low.x, f64::midpoint(low.y, high.y));
        // A top out of square has no such sides: its own figures are told instead.
        if has_own_box(outline) {
            self.label(Ink::Whole, along, Anchor::Below, show(high.x - low.x));
            self.label(Ink::Whole, across, Anchor::Left, show(high.y - low.y));
        } else if matches!(outline, Outline::Live(_)) {
            self.label(Ink::Whole, along, Anchor::Below, show(high.x - low.x));
        }
        self.measures(outline, style);
        for void in seen.voids.iter().filter(|void| void.hx > 0.0) {
            let (half_x, half_y) = void.half();
            let text = format!("{} x {}", show(half_x * 2.0), show(half_y * 2.0));
            let below = at(void.mid.x, void.mid.y - half_y * 0.4);
            self.label(Ink::Size, below, Anchor::On, text);
            let text = format!(
                "at {}, {}",
                show(void.mid.x - low.x),
                show(void.mid.y - low.y)
            );
            let lower = at(void.mid.x, void.mid.y - half_y * 0.75);
            self.label(Ink::Size, lower, Anchor::On, text);
        }
    }

    /// What is run along the edges of openings.
    fn edges(&mut self, shape: &Shape, style: LengthStyle) {
        for opening in shape.openings() {
            let Some(words) = opening.profile_words(&|length: Length| length.show_inches(style))
            else {
                continue;
            };
            let (x, y) = (opening.place.x.mm(), opening.place.y.mm());
            let (spot, anchor) = match opening.what {
                OpeningKind::Cutout { depth, .. } => (at(x, y + depth.mm() * 0.36), Anchor::On),
                OpeningKind::Hole { diameter } => {
                    let half = diameter.mm() / 2.0;
                    (at(x + half, y - half), Anchor::Right)
                }
            };
            self.label(Ink::Opening, spot, anchor, words);
        }
    }

    fn faces(&mut self, seen: &Seen, construction: Construction) {
        let (low, high) = self.extent;
        let mut named: Vec<FaceKey> = Vec::new();
        for run in &seen.runs {
            if named.contains(&run.face) {
                continue;
            }
            named.push(run.face);
            let of_face: Vec<_> = seen
                .runs
                .iter()
                .filter(|other| other.face == run.face)
                .collect();
            // The middle of a face in many runs, the lowest point of one that goes all round, the
            // longest run of any other.
            let many = of_face.len() > 8;
            let run = match run.face {
                FaceKey::Rim => of_face.iter().min_by(|a, b| a.from.y.total_cmp(&b.from.y)),
                _ if many => of_face.get(of_face.len() / 2),
                _ => of_face.iter().max_by(|a, b| a.long().total_cmp(&b.long())),
            };
            let Some(run) = run else { continue };
            let (dx, dy) = (run.to.x - run.from.x, run.to.y - run.from.y);
            // A little off the middle of a long face, where its size stands.
            let part = if many {
                0.0
            } else if run.long() < (high.x - low.x) * 0.4 {
                0.5
            } else {
                0.22
            };
            let point = run.from.toward(run.to, part);
            // A corner's name stands level beside it, like an opening's.
            let ink = match run.face {
                FaceKey::Corner(_) => Ink::Opening,
                _ => Ink::Face,
            };
            let anchor = if dy.abs() > dx.abs() {
                if dy > 0.0 {
                    Anchor::Right
                } else {
                    Anchor::Left
                }
            } else if dx > 0.0 {
                Anchor::Below
            } else {
                Anchor::Above
            };
            let text = format!("{}, {}", run.face, construction.grain_of(run.way));
            self.label(ink, point, anchor, text);
        }
    }

    /// An arrow with two heads along the grain, where it meets no opening.
    fn grain(&mut self, seen: &Seen) {
        let (low, high) = self.extent;
        let (wide, deep) = (high.x - low.x, high.y - low.y);
        let half = wide * 0.08;
        let head = (half * 0.3).min(deep * 0.1);
        let parts = [0.5, 0.25, 0.75, 0.12, 0.88, 0.4, 0.6];
        let free = |mid: Point| {
            seen.voids.iter().all(|void| {
                let (half_x, half_y) = void.half();
                (mid.x - void.mid.x).abs() > half_x + half * 1.2
                    || (mid.y - void.mid.y).abs() > half_y + head * 1.5
            }) && [-half, 0.0, half]
                .iter()
                .flat_map(|across| [-2.0 * head, 2.0 * head].map(|up| (*across, up)))
                .all(|(across, up)| seen.holds(at(mid.x + across, mid.y + up)))
        };
        let spots = parts
            .iter()
            .flat_map(|y| parts.iter().map(move |x| (x, y)))
            .map(|(x, y)| at(low.x + wide * x, low.y + deep * y));
        let Some(mid) = spots.into_iter().find(|spot| free(*spot)) else {
            return;
        };
        let (left, right) = (at(mid.x - half, mid.y), at(mid.x + half, mid.y));
        self.stroke(Ink::Grain, vec![left, right]);
        for (tip, back) in [(left, head), (right, -head)] {
            let barbs = vec![
                at(tip.x + back, tip.y + head / 2.0),
                tip,
                at(tip.x + back, tip.y - head / 2.0),
            ];
            self.stroke(Ink::Grain, barbs);
        }
        self.label(Ink::Grain, mid, Anchor::Above, "grain");
    }
}
