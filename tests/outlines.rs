//! The promise: every outline a tape measure can give becomes its true shape. Areas, runs, insets
//! and grain are held against closed forms and against a second polygon library that knows true
//! arcs, and what cannot be is refused in one sentence that names the number.

#[path = "outlines/closed_forms.rs"]
mod closed_forms;
#[path = "outlines/faces.rs"]
mod faces;
#[path = "outlines/made.rs"]
mod made;
#[path = "outlines/openings.rs"]
mod openings;
#[path = "outlines/properties.rs"]
mod properties;
#[path = "outlines/refusals.rs"]
mod refusals;
#[path = "outlines/second.rs"]
mod second;
