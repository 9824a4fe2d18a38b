//! Which faces of which piece an action means.

use crate::shape::FaceKey;
use crate::shop::PieceId;

/// A piece and the faces meant: these, or those next in line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FacePick {
    /// The piece.
    pub piece: PieceId,
    /// The faces; none means those the schedule asks for next, of a touch test those that carry the
    /// film of the piece's line on the Rack.
    pub faces: Option<Vec<FaceKey>>,
}

impl FacePick {
    /// The same picks with every piece once: a piece picked twice is one piece, and its faces are
    /// those of both picks.
    pub(super) fn once_each(picks: &[Self]) -> Vec<Self> {
        let mut out: Vec<Self> = Vec::new();
        for pick in picks {
            match out.iter_mut().find(|other| other.piece == pick.piece) {
                None => out.push(pick.clone()),
                Some(other) => {
                    if let (Some(faces), Some(more)) = (&mut other.faces, &pick.faces) {
                        faces.extend(more);
                    }
                }
            }
        }
        for faces in out.iter_mut().filter_map(|pick| pick.faces.as_mut()) {
            let mut seen = Vec::new();
            faces.retain(|face| {
                let first = !seen.contains(face);
                seen.push(*face);
                first
            });
        }
        out
    }
}
