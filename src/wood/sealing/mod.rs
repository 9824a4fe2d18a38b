//! What the coats on a face hold back of the room's moisture, and the cup a top risks when its
//! faces differ.
//!
//! Lives here: the published moisture-excluding effectiveness by finish and coats, what follows
//! for one face, the cup of a panel with unlike faces, and one more coat on the poorer face. May
//! not: which coats are on which face of a piece, nor products: the caller says both.
//!
//! # What is published and what is inferred
//! Moisture-excluding effectiveness is `100 (U - C)/U`, with U and C the weight that bare and
//! coated wood take up in 1, 7 or 14 days when the air goes from 30 to 90 % humidity at 80 F (Wood
//! Handbook Table 16-3, p. 16-14; the definition from memory). It was measured on whole, evenly
//! coated pieces of ponderosa pine: taking it for one face is an inference. A coating slows the
//! exchange and changes nothing about where it ends (p. 16-13), so a difference between faces
//! bends a top for a while: until both faces are even again.

mod cup;
mod face;
mod finish;
mod table;

pub use cup::{
    CupRisk, Faces, OneMoreCoat, cup_risk, even_curvature, layer_factor, one_more_coat, sagitta,
    step_curvature,
};
pub use face::{Coats, FaceSeal, face_seal};
pub use finish::{Exposure, FinishKind};
pub use table::{Excluding, ExcludingRow, SealingError, excluding, excluding_rows};
