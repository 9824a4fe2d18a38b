//! Outlines made up for the checks.

use proptest::prelude::*;
use tackfree::shape::{
    Construction, Corner, Corners, Cup, Cut, EdgeProfile, Ell, FaceKey, LiveEdges, LiveSlab,
    Outline, Quad, Shape, ShapeDraft, Station,
};
use tackfree::units::Length;

/// Inches and 64ths.
pub fn inch(whole: i64, part: i64) -> Length {
    Length::from_64ths(whole * 64 + part)
}

pub fn nm(metres: f64) -> Length {
    Length::from_metres_rounded(metres)
}

/// A top of this outline, 1 1/2 in thick, square, uncut.
pub fn draft(outline: Outline) -> ShapeDraft {
    ShapeDraft {
        outline,
        thickness: inch(1, 32),
        profile: EdgeProfile::Square,
        openings: Vec::new(),
        band: None,
        band_round_openings: false,
    }
}

pub fn build(draft: ShapeDraft) -> Shape {
    Shape::try_from(draft).expect("a shape that can be cut")
}

pub fn top(outline: Outline) -> Shape {
    build(draft(outline))
}

pub fn m2(shape: &Shape, key: FaceKey) -> f64 {
    shape
        .faces(Construction::FaceGrain)
        .iter()
        .find(|face| face.key == key)
        .map_or(0.0, |face| face.area.m2())
}

pub fn sq_in(shape: &Shape, key: FaceKey) -> f64 {
    m2(shape, key) / 0.000_645_16
}

#[track_caller]
pub fn close(got: f64, want: f64, relative: f64) {
    assert!(
        (got - want).abs() <= relative * want.abs().max(1e-12),
        "got {got}, want {want}"
    );
}

/// 120 x 96 in, run 25 1/2 deep, leg 24 wide, open at the front right.
pub fn ell() -> Ell {
    Ell {
        length: inch(120, 0),
        width: inch(96, 0),
        run: inch(25, 32),
        leg: inch(24, 0),
        open: Corner::FrontRight,
        corners: Corners::SHARP,
    }
}

/// 120 x 72 in, run 25 1/2 deep, legs 24 and 20 wide.
pub fn cup() -> Cup {
    Cup {
        length: inch(120, 0),
        width: inch(72, 0),
        run: inch(25, 32),
        left: inch(24, 0),
        right: inch(20, 0),
        corners: Corners::SHARP,
    }
}

pub fn cornered(length: i64, width: i64, cuts: &[(Corner, Cut)]) -> Outline {
    Outline::Cornered {
        length: inch(length, 0),
        width: inch(width, 0),
        corners: Corners::new(cuts.iter().copied()),
    }
}

pub fn slab(edges: LiveEdges, stations: &[(f64, f64)]) -> Outline {
    let station = |&(at, width): &(f64, f64)| Station {
        at: nm(at * 0.0254),
        width: nm(width * 0.0254),
        front: None,
    };
    Outline::Live(LiveSlab {
        edges,
        stations: stations.iter().map(station).collect(),
    })
}

/// A cut that fits a corner of sides this long, taking at most `part` of each.
fn cut(kind: u8, along: f64, across: f64, part: (f64, f64)) -> Cut {
    let (a, b) = (nm(along * part.0), nm(across * part.1));
    match kind {
        0 => Cut::Round(a.min(b)),
        1 => Cut::Clip {
            along: a,
            across: b,
        },
        _ => Cut::Notch {
            along: a,
            across: b,
        },
    }
}

prop_compose! {
    fn cut_seed()(kind in 0_u8..4, a in 0.02..0.45, b in 0.02..0.45) -> (u8, f64, f64) {
        (kind, a, b)
    }
}

prop_compose! {
    pub fn cornereds()(l in 0.3..3.0, w in 0.2..1.2,
                       seeds in prop::collection::vec(cut_seed(), 4)) -> Outline {
        let (l, w): (f64, f64) = (l, w);
        let cuts = Corner::OUTER.into_iter().zip(seeds).filter(|(_, (kind, _, _))| *kind < 3);
        Outline::Cornered {
            length: nm(l),
            width: nm(w),
            corners: Corners::new(cuts.map(|(corner, (kind, a, b))| {
                (corner, cut(kind, l, w, (a, b)))
            })),
        }
    }
}

prop_compose! {
    pub fn ells()(l in 0.6..3.0, w in 0.6..3.0, run in 0.2..0.7, leg in 0.2..0.7,
                  open in 0_usize..4, round in 0.0..0.3, inside in 0.0..0.2) -> Outline {
        let (l, w, run, leg): (f64, f64, f64, f64) = (l, w, run, leg);
        let (run, leg) = (w * run, l * leg);
        let open = Corner::OUTER[open];
        let small = run.min(leg).min(w - run).min(l - leg);
        let mut cuts = vec![
            (Corner::Inside, Cut::Round(nm(small * inside))),
            (Corner::Leg, Cut::Round(nm(small * round))),
            (Corner::Run, Cut::Clip { along: nm(small * round), across: nm(small * round) }),
        ];
        cuts.retain(|(_, cut)| match cut {
            Cut::Round(r) => *r > nm(0.001),
            Cut::Clip { along, .. } => *along > nm(0.001),
            Cut::Notch { .. } => false,
        });
        Outline::L(Ell {
            length: nm(l), width: nm(w), run: nm(run), leg: nm(leg), open,
            corners: Corners::new(cuts),
        })
    }
}

prop_compose! {
    pub fn cups()(l in 0.9..3.0, w in 0.6..2.0, run in 0.2..0.7, left in 0.15..0.4,
                  right in 0.15..0.4, inside in 0.0..0.1) -> Outline {
        let (l, w): (f64, f64) = (l, w);
        let r = nm(l.min(w) * inside);
        let cuts = [(Corner::InsideLeft, Cut::Round(r)), (Corner::FrontRight, Cut::Round(r))];
        Outline::U(Cup {
            length: nm(l), width: nm(w), run: nm(w * run), left: nm(l * left), right: nm(l * right),
            corners: if r > nm(0.001) { Corners::new(cuts) } else { Corners::SHARP },
        })
    }
}

prop_compose! {
    /// Four corners near those of a rectangle, measured.
    pub fn quads()(l in 0.6..3.0, w in 0.4..1.2, nudge in prop::collection::vec(-0.08..0.08_f64, 5),
                   rising: bool, both: bool) -> Outline {
        let (l, w): (f64, f64) = (l, w);
        let (b, c, d) = ((l + nudge[0], 0.0), (l + nudge[1], w + nudge[2]), (nudge[3], w + nudge[4]));
        let far = |p: (f64, f64), q: (f64, f64)| nm((p.0 - q.0).hypot(p.1 - q.1));
        let a = (0.0, 0.0);
        Outline::Quad(Quad {
            front: far(a, b), right: far(b, c), back: far(c, d), left: far(d, a),
            rising: (rising || both).then(|| far(a, c)),
            falling: (!rising || both).then(|| far(b, d)),
            corners: Corners::SHARP,
        })
    }
}

prop_compose! {
    pub fn slabs()(edges in prop::sample::select(vec![LiveEdges::Both, LiveEdges::Front, LiveEdges::Back]),
                   steps in prop::collection::vec((0.05..0.4_f64, 0.3..0.9_f64, 0.2..0.8_f64), 2..10),
                   apart: bool) -> Outline {
        let mut at = 0.0;
        let mut stations = Vec::new();
        for (step, width, part) in steps {
            let front = (apart && edges == LiveEdges::Both).then(|| nm(width * part));
            stations.push(Station { at: nm(at), width: nm(width), front });
            at += step;
        }
        Outline::Live(LiveSlab { edges, stations })
    }
}

prop_compose! {
    pub fn rounds()(l in 0.3..2.0, w in 0.3..2.0, circle: bool) -> Outline {
        if circle {
            Outline::Circle { diameter: nm(l) }
        } else {
            Outline::Oval { length: nm(l), width: nm(w) }
        }
    }
}

/// Any outline that can be cut.
pub fn outlines() -> impl Strategy<Value = Outline> {
    prop_oneof![cornereds(), ells(), cups(), quads(), slabs(), rounds()]
}
