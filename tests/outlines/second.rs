//! The same outlines in a second polygon library, which knows true arcs and offsets them by
//! parallel curves: wholly other code than the crate the program uses.

use cavalier_contours::polyline::{PlineSource, PlineSourceMut, Polyline};
use proptest::prelude::*;
use tackfree::shape::{FaceKey, Outline, Ring, ShapeDraft, Stroke};

use super::made::{build, close, cornereds, cups, draft, ells, m2, nm, quads, rounds, slabs};

/// A ring as lines and arcs of the other library.
pub fn polyline(ring: &Ring) -> Polyline<f64> {
    let mut pline = Polyline::new_closed();
    for run in &ring.runs {
        match &run.stroke {
            Stroke::Line { from, .. } => pline.add(from.x, from.y, 0.0),
            // In quarters: a bulge is the tangent of a quarter of the angle.
            Stroke::Arc {
                centre,
                radius,
                start,
                sweep,
            } => {
                for quarter in 0..4 {
                    let angle = start + sweep * f64::from(quarter) / 4.0;
                    pline.add(
                        centre.x + radius * angle.cos(),
                        centre.y + radius * angle.sin(),
                        (sweep / 16.0).tan(),
                    );
                }
            }
            Stroke::Curve(points) => {
                for point in &points[..points.len() - 1] {
                    pline.add(point.x, point.y, 0.0);
                }
            }
        }
    }
    pline
}

fn agree(outline: Outline, part: f64) {
    let shape = build(draft(outline.clone()));
    let ring = shape.drawn().outline;
    let pline = polyline(&ring);
    let area = pline.area();
    close(shape.outline_area().m2(), area, 1e-4);
    close(shape.perimeter(), pline.path_length(), 1e-4);
    close(ring.area(), area, 1e-9);
    let (length, width) = outline.extent();
    let across = length.min(width).metres();
    let band = nm((across * part).max(0.002));
    let field: f64 = pline
        .parallel_offset(band.metres())
        .iter()
        .map(PlineSource::area)
        .sum();
    match tackfree::shape::Shape::try_from(ShapeDraft {
        band: Some(band),
        ..draft(outline)
    }) {
        Ok(split) => {
            // 0.01 % of the face, and a millionth of the top where a face is a small remainder.
            let near = |got: f64, want: f64| {
                assert!(
                    (got - want).abs() <= 1e-4 * want + 1e-6 * area,
                    "got {got}, want {want}"
                );
            };
            near(m2(&split, FaceKey::Field), field);
            near(m2(&split, FaceKey::Band), area - field);
        }
        // Refused only where next to nothing is left.
        Err(refusal) => assert!(field < 2e-4, "{refusal} but {field} m2 are left"),
    }
}

proptest! {
    // Fewer cases: offsets of a thousand corners are slow without optimisation.
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn cut_corners_agree(outline in cornereds(), part in 0.01..0.3_f64) {
        agree(outline, part);
    }

    #[test]
    fn ls_agree(outline in ells(), part in 0.01..0.2_f64) {
        agree(outline, part);
    }

    #[test]
    fn us_agree(outline in cups(), part in 0.01..0.2_f64) {
        agree(outline, part);
    }

    #[test]
    fn tops_out_of_square_agree(outline in quads(), part in 0.01..0.4_f64) {
        agree(outline, part);
    }

    #[test]
    fn slabs_agree(outline in slabs(), part in 0.01..0.2_f64) {
        agree(outline, part);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4))]

    #[test]
    fn round_and_oval_tops_agree(outline in rounds(), part in 0.01..0.15_f64) {
        agree(outline, part);
    }
}
