//! What stands round a piece where it is set.

use crate::shop::moisture::PieceWood;
use crate::shop::{Piece, PieceKind};
use crate::wood::movement::{Situation, Surroundings};

/// As far as was noted; where nothing was, islands, tables and sample boards stand free and the
/// rest may have a wall at the back.
pub(super) fn of(piece: &Piece, lie: &PieceWood) -> Surroundings {
    let noted = |situation| lie.situations.contains(&situation);
    let ends = noted(Situation::BetweenWalls);
    if ends || noted(Situation::BackToWall) {
        return Surroundings::Walls { ends };
    }
    let free = matches!(
        piece.kind,
        PieceKind::Island | PieceKind::Table | PieceKind::Sample
    );
    if free || noted(Situation::Island) {
        return Surroundings::Free;
    }
    Surroundings::Walls { ends }
}
