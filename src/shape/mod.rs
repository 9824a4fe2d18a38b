//! The shape of one top: its outline, thickness, edge profile, openings and underside band, and
//! the faces that follow from them with their grain and area.
//!
//! What lives here: pure geometry, exact where a tape measure is exact (whole nanometres), and
//! the refusal of shapes that cannot be cut. What may not: anything about wood, finish, work,
//! files or screens; this room knows only [`crate::units`].
//!
//! Where things lie: `x` runs along the grain (the *length*), `y` across it (the *width*). The
//! origin is the front left corner of the box around the outline; for a top out of square it is its
//! own front left corner, from which the front runs along `x`. A live edge's line lies along `x`.
//! Walking round an outline is counter-clockwise. [`Shape::drawn`] gives the drawing: every run
//! with the face it belongs to, how it lies to the grain, where it goes in metres.
//!
//! # Faces
//! Each straight run is a face: *long grain* within 45 degrees of the grain, *end grain* otherwise
//! (a 45 degree clip counts as end grain). A rounded corner is a face of mixed grain, a live edge
//! is a face, so is the wall of each opening.
//!
//! # How areas are counted
//! With outline area `A`, openings' area `O`, thickness `t`, and an edge profile of radius (or
//! leg) `r`:
//!
//! - top: area of the outline inset by `r`, less the openings, each grown by the size of its own
//!   profile (nothing is inset or grown for a square edge);
//! - underside: `A - O`, since a profile is on the upper edge only; a bullnose takes of it too;
//! - an edge or end of run `s`: `s t` square, `s (t - r + pi r / 2)` eased, rounded over, coved or
//!   an ogee, `s (t - r + r sqrt 2)` chamfered, `s (t - 2 r + pi r)` bullnosed. The full outside
//!   run is used for the profile too, which overstates each of the four mitred corners of a
//!   rectangle by less than `1.5 r^2`, and a rim by less than `4.5 r^2`;
//! - cutout wall: `(2 (w + d) - 8 c + 2 pi c) t` with corner radius `c`; hole wall: `pi d t`; a
//!   cutout open to the front has no wall there, and the front edge is shorter by it. With a
//!   profile of its own, `t` gives way to the girth as above, and the whole turn of it gains `2 pi`
//!   times the profile's first moment, since it turns outwards: `2 pi r^2 (pi / 2 - 1)` for a
//!   round-over;
//! - openings: a cutout takes `w d - (4 - pi) c^2`, a hole `pi d^2 / 4`;
//! - band of width `b`: the outline less its inset by `b`, less what the openings take of that
//!   strip; field: the inset less what the openings take of it (grown by `b`, where the band goes
//!   round them too). Band and field always add up to the underside.
//!
//! Straight runs and arcs are reckoned in closed form; insets of outlines that are neither
//! rectangle nor circle by polygons whose arcs have a chord to each half degree.

mod areas;
mod check;
mod check_bowl;
mod check_fitting;
mod check_openings;
mod check_outline;
mod corner;
mod cuts;
pub mod cutting;
pub mod drawing;
mod drawn;
mod error;
mod face;
#[cfg(test)]
mod faces_and_any_input;
mod fitting;
mod forms;
mod grain;
mod inset;
mod inside;
pub mod layout;
pub mod lumber;
mod opening;
mod outline;
mod outline_error;
mod overlap;
mod profile;
mod reach;
mod recut;
#[cfg(test)]
mod refusals;
mod ring;
mod rings;
mod rounded;
mod said;
mod solid;
mod stations;
mod stroke;
mod words;

pub use corner::{Corner, Corners, Cut};
pub use drawn::{Drawn, DrawnOpening};
pub use error::ShapeError;
pub use face::{Face, FaceGroup, FaceKey, UnknownFace};
pub use fitting::{Cabinet, Mount, Purpose, Reveal, Sink};
pub use forms::{Cup, Ell, LiveEdges, LiveSlab, Quad, Station};
pub use grain::{Construction, FaceGrain, Way};
pub use opening::{Opening, OpeningKind, OpeningName, Place};
pub use outline::{Closing, Outline};
pub use outline_error::OutlineError;
pub use profile::EdgeProfile;
pub use recut::recut;
pub use ring::{Ring, Run};
pub use said::Say;
pub use solid::{Shape, ShapeDraft};
pub use stations::{BOARD_FOOT_M3, average_ordinate, simpson, trapezoid};
pub use stroke::{Point, Stroke};
