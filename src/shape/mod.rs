//! The shape of one top: its outline, thickness, edge profile, openings and underside band, and
//! the faces that follow from them with their grain and area.
//!
//! What lives here: pure geometry, exact where a tape measure is exact (whole nanometres), and
//! the refusal of shapes that cannot be cut. What may not: anything about wood, finish, work,
//! files or screens; this room knows only [`crate::units`].
//!
//! Where things lie: `x` runs along the grain (the *length*), `y` across it (the *width*). The
//! origin is the front-left corner of the top; for a round top it is the lower-left corner of its
//! bounding box. The front edge is `y = 0`, the left end `x = 0`.
//!
//! # How areas are counted
//! With outline area `A`, openings' area `O`, thickness `t`, and an edge profile of radius (or
//! leg) `r`:
//!
//! - top: area of the outline inset by `r`, less `O` (nothing is inset for a square edge);
//! - underside: `A - O`, since the profile is on the upper outside edge only;
//! - an edge or end of run `s`: `s t` square, `s (t - r + pi r / 2)` eased or rounded over,
//!   `s (t - r + r sqrt 2)` chamfered. The full outside run is used for the profile too, which
//!   overstates each of the four mitred corners of a rectangle by less than `1.5 r^2`, and a rim by
//!   less than `4.5 r^2`;
//! - cutout wall: `(2 (w + d) - 8 c + 2 pi c) t` with corner radius `c`; hole wall: `pi d t`;
//! - openings: a cutout takes `w d - (4 - pi) c^2`, a hole `pi d^2 / 4`;
//! - band of width `b`: the outline less its inset by `b`, less what the openings take of that
//!   strip; field: the inset less what the openings take of it. Band and field always add up to
//!   the underside.

mod areas;
mod check;
mod check_fitting;
mod check_openings;
mod check_outline;
mod corner;
mod cuts;
mod drawn;
mod error;
mod face;
#[cfg(test)]
mod faces_and_any_input;
mod fitting;
mod forms;
mod grain;
mod inset;
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
