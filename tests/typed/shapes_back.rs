//! Every outline is written as it reads.

use super::shop::{metric, shop};
use proptest::prelude::*;
use tackfree::desk::typed::{
    Onto, read_corners, read_cutouts, read_holes, read_size, write_corners, write_length,
    write_size,
};
use tackfree::shape::Outline;
use tackfree::shop::Settings;

#[path = "../store/shapes_made.rs"]
mod kept;
#[path = "../outlines/made.rs"]
#[allow(
    dead_code,
    reason = "the outlines are wanted here, not all that goes with them"
)]
mod made;

fn there_and_back(outline: &Outline, settings: &Settings) {
    let size = write_size(outline, settings);
    let corners = write_corners(outline.corners(), &|length| write_length(length, settings));
    let read = read_size(&size, settings)
        .and_then(|bare| read_corners(&corners, bare, settings))
        .unwrap_or_else(|error| panic!("{size} / {corners}: {error}"));
    assert_eq!(&read, outline, "{size} / {corners}");
}

#[test]
fn every_kept_shape_is_written_as_it_reads() {
    for settings in [shop().settings, metric().settings] {
        for shape in kept::shapes() {
            there_and_back(shape.outline(), &settings);
            let cutouts = tackfree::desk::typed::write_cutouts(shape.openings(), &settings);
            let read = read_cutouts(&cutouts, Onto::default(), &settings).unwrap();
            assert_eq!(read, shape.openings(), "{cutouts}");
            assert_eq!(read_holes("", Onto::default(), &settings), Ok(Vec::new()));
        }
    }
}

proptest! {
    #[test]
    fn any_outline_is_written_as_it_reads(outline in made::outlines()) {
        // Corners left sharp are those of a plain rectangle.
        prop_assume!(!matches!(&outline, Outline::Cornered { corners, .. } if corners.is_sharp()));
        there_and_back(&outline, &shop().settings);
        there_and_back(&outline, &metric().settings);
    }
}
