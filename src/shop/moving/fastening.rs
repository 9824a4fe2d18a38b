//! What to leave open round a piece and how to hold it, from its shape, its lie and its year.

use crate::shape::{OpeningKind, OpeningName};
use crate::shop::moisture::PieceWood;
use crate::shop::{Piece, PieceKind};
use crate::units::Length;
use crate::wood::moisture::{MoistureContent, SeasonBand};
use crate::wood::movement::{
    Axis, Build, Clearance, FigureEight, Gap, HoldLine, Mitre, MovementError, Situation, Slot,
    Spacing, cleat_slots, figure_eight, mitre_opening, sink_clearance, spaced, wall_gap,
};

/// From each edge to the first row of fasteners, at most (common practice, no source).
const MARGIN: Length = Length::from_nm(2 * Length::NM_PER_INCH);

/// One row of fasteners along the grain.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ScrewRow {
    /// From the edge with the gap.
    pub from_edge: Length,
    /// From the row or line that is held; zero is the held row itself.
    pub from_held: Length,
    /// Its slot; none for the held row, which gets round holes.
    pub slot: Option<Slot>,
}

/// The room round an opening across the grain.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SinkRoom {
    /// Which opening.
    pub opening: OpeningName,
    /// What to leave.
    pub clearance: Clearance,
}

/// What to leave and how to hold.
#[derive(Debug, Clone, PartialEq)]
pub struct Fastening {
    /// At the edge across the grain that the lie speaks of.
    pub gap: Gap,
    /// At the edge opposite.
    pub gap_opposite: Gap,
    /// At each end along the grain, held in the middle of the length.
    pub gap_ends: Gap,
    /// Rows of fasteners across the top.
    pub rows: Vec<ScrewRow>,
    /// Fasteners along each row; none where the top is too short for two.
    pub along: Option<Spacing>,
    /// What a figure-eight at the row farthest from the held line does; or why none will serve.
    pub eight: Result<FigureEight, MovementError>,
    /// The farthest row's travel over the year.
    pub travel: Length,
    /// How far a full mitre would open, where there is a corner.
    pub mitre: Option<Mitre>,
    /// The room round each cutout.
    pub sinks: Vec<SinkRoom>,
    /// What is to be minded: how it is held, and what was noted or follows from the shape.
    pub situations: Vec<Situation>,
}

pub(super) fn of(
    build: &Build<'_>,
    piece: &Piece,
    lie: &PieceWood,
    today: MoistureContent,
    band: &SeasonBand,
) -> Result<Fastening, MovementError> {
    let (length, width) = super::sizes(piece);
    let across = build.year(Axis::Width, width, today, band)?;
    let along = build.year(Axis::Length, length, today, band)?;
    let opposite = match lie.held {
        HoldLine::ThisEdge => HoldLine::OppositeEdge,
        HoldLine::Middle => HoldLine::Middle,
        HoldLine::OppositeEdge => HoldLine::ThisEdge,
    };
    let places = row_places(width, lie);
    let from_held: Vec<Length> = places.iter().map(|(_, held)| *held).collect();
    let slots = cleat_slots(build, &from_held, lie.screw, today, band)?;
    let rows = places
        .iter()
        .zip(slots)
        .map(|((from_edge, from_held), slot)| ScrewRow {
            from_edge: *from_edge,
            from_held: *from_held,
            slot: slot.slot,
        })
        .collect();
    let farthest = from_held.iter().copied().max().unwrap_or(Length::ZERO);
    let travel = if farthest == Length::ZERO {
        Length::ZERO
    } else {
        build.year(Axis::Width, farthest, today, band)?.travel()
    };
    let margin = MARGIN.min(Length::from_nm(length.nm() / 4));
    let corner = lie.situations.contains(&Situation::Corner);
    Ok(Fastening {
        gap: wall_gap(&across, lie.held),
        gap_opposite: wall_gap(&across, opposite),
        gap_ends: wall_gap(&along, HoldLine::Middle),
        rows,
        along: spaced(length, margin, lie.spacing).ok(),
        eight: figure_eight(lie.eight, travel),
        travel,
        mitre: corner.then(|| mitre_opening(&across)),
        sinks: sinks(build, piece, today, band)?,
        situations: situations(piece, lie),
    })
}

/// Rows of fasteners: from the edge with the gap, and from the held line. With the middle held one
/// row lies on it.
fn row_places(width: Length, lie: &PieceWood) -> Vec<(Length, Length)> {
    let margin = MARGIN.min(Length::from_nm(width.nm() / 4));
    let Ok(spacing) = spaced(width, margin, lie.spacing) else {
        return Vec::new();
    };
    let spaces = i64::from(spacing.count.saturating_sub(1)).max(1);
    // An even count has no row in the middle: one more row brings it there.
    let spaces = if lie.held == HoldLine::Middle {
        spaces + spaces % 2
    } else {
        spaces
    };
    let inner = width - margin * 2;
    (0..=spaces)
        .map(|row| {
            let from_first = Length::from_nm(inner.nm() * row / spaces);
            let held = match lie.held {
                HoldLine::ThisEdge => from_first,
                HoldLine::OppositeEdge => inner - from_first,
                HoldLine::Middle => {
                    Length::from_nm((inner.nm() * (2 * row - spaces)).abs() / (2 * spaces))
                }
            };
            (margin + from_first, held)
        })
        .collect()
}

fn sinks(
    build: &Build<'_>,
    piece: &Piece,
    today: MoistureContent,
    band: &SeasonBand,
) -> Result<Vec<SinkRoom>, MovementError> {
    let mut out = Vec::new();
    for opening in piece.shape.openings() {
        let OpeningKind::Cutout { depth, .. } = opening.what else {
            continue;
        };
        let year = build.year(Axis::Width, depth, today, band)?;
        out.push(SinkRoom {
            opening: opening.name(),
            clearance: sink_clearance(&year),
        });
    }
    Ok(out)
}

/// How it is held comes first; then what was noted; then what the shape tells.
fn situations(piece: &Piece, lie: &PieceWood) -> Vec<Situation> {
    let mut out = Vec::new();
    if lie.held == HoldLine::Middle && piece.kind == PieceKind::Island {
        out.push(Situation::Island);
    }
    out.extend(&lie.situations);
    let cutout =
        |opening: &crate::shape::Opening| matches!(opening.what, OpeningKind::Cutout { .. });
    if piece.shape.openings().iter().any(cutout) {
        out.push(Situation::DropInSink);
    }
    let mut seen = Vec::new();
    out.retain(|situation| {
        let first = !seen.contains(situation);
        seen.push(*situation);
        first
    });
    out
}
