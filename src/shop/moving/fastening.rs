//! What to leave open round a piece and how to hold it, from its shape, its lie and its year.

use super::parts::{LegsAt, Part, Parts};
use crate::shape::{Construction, Opening, OpeningKind, OpeningName, Purpose};
use crate::shop::moisture::PieceWood;
use crate::shop::{Piece, PieceKind};
use crate::units::Length;
use crate::wood::moisture::{MoistureContent, SeasonBand};
use crate::wood::movement::{
    Axis, Build, Clearance, FigureEight, Filling, Gap, HoldLine, Mitre, MovementError, Situation,
    Slot, Spacing, YearMovement, clearance, cleat_slots, far_end_gap, figure_eight, mitre_opening,
    slot, spaced, wall_gap,
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

/// The room round a cutout across the grain.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CutoutRoom {
    /// Which opening.
    pub opening: OpeningName,
    /// What to leave.
    pub clearance: Clearance,
}

/// What to leave at the edges of one part of a top and how to hold it.
#[derive(Debug, Clone, PartialEq)]
pub struct PartFastening {
    /// At the edge across the grain that the lie speaks of.
    pub gap: Gap,
    /// At the edge opposite.
    pub gap_opposite: Gap,
    /// At each free end along the grain: held in the middle of the length, or at the corner where
    /// the part is joined.
    pub gap_ends: Gap,
    /// Rows of fasteners across the part.
    pub rows: Vec<ScrewRow>,
    /// Fasteners along each row; none where the part is too short for two.
    pub along: Option<Spacing>,
    /// What the fasteners farthest along a row need along it, the middle one held; only where
    /// blocks on end move along the rows as they do across.
    pub lengthwise: Option<Lengthwise>,
    /// What a figure-eight at the row farthest from the held line does; or why none will serve.
    pub eight: Result<FigureEight, MovementError>,
}

/// What a fastener needs along its row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lengthwise {
    /// From the held one, in the middle of the row.
    pub from_held: Length,
    /// Its slot along the row.
    pub slot: Slot,
}

/// What to leave and how to hold.
#[derive(Debug, Clone, PartialEq)]
pub struct Fastening {
    /// Of the whole top, or of the run of a joined L or U.
    pub main: PartFastening,
    /// How far a full mitre would open, where there is a corner.
    pub mitre: Option<Mitre>,
    /// The room round each cutout.
    pub cutouts: Vec<CutoutRoom>,
    /// What is to be minded: how it is held, and what was noted or follows from the shape.
    pub situations: Vec<Situation>,
}

/// Movement and fastening of one leg.
#[derive(Debug, Clone, PartialEq)]
pub struct LegMoves {
    /// The leg.
    pub part: Part,
    /// Across its grain, over the year.
    pub across: YearMovement,
    /// Along its grain.
    pub along: YearMovement,
    /// What to leave and how to hold. Its held edge is the one on the same side of the top, outer
    /// or inner, as that of the run.
    pub fastening: PartFastening,
}

/// A build and the year it goes through.
#[derive(Clone, Copy)]
pub(super) struct Through<'a> {
    pub(super) build: &'a Build<'a>,
    pub(super) lie: &'a PieceWood,
    pub(super) today: MoistureContent,
    pub(super) band: &'a SeasonBand,
}

impl Through<'_> {
    pub(super) fn year(&self, axis: Axis, size: Length) -> Result<YearMovement, MovementError> {
        self.build.year(axis, size, self.today, self.band)
    }

    /// What to leave and how to hold one part; `gap_ends` was reckoned from how its ends stand.
    fn part(&self, part: &Part, gap_ends: Gap) -> Result<PartFastening, MovementError> {
        let lie = self.lie;
        let across = self.year(Axis::Width, part.width)?;
        let places = row_places(part.width, lie);
        let from_held: Vec<Length> = places.iter().map(|(_, held)| *held).collect();
        let slots = cleat_slots(self.build, &from_held, lie.screw, self.today, self.band)?;
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
        let (outward, inward) = if farthest == Length::ZERO {
            (Length::ZERO, Length::ZERO)
        } else {
            let year = self.year(Axis::Width, farthest)?;
            (year.outward(), year.inward())
        };
        let margin = MARGIN.min(Length::from_nm(part.length.nm() / 4));
        let both_ways = self.build.construction == Construction::EndGrain;
        let lengthwise = both_ways
            .then(|| self.lengthwise(part.length, margin))
            .transpose()?;
        let eight = if both_ways {
            Err(MovementError::BothWays)
        } else {
            figure_eight(lie.eight, outward, inward)
        };
        Ok(PartFastening {
            gap: wall_gap(&across, lie.held),
            gap_opposite: wall_gap(&across, lie.held.from_opposite()),
            gap_ends,
            rows,
            along: spaced(part.length, margin, lie.spacing).ok(),
            lengthwise,
            eight,
        })
    }

    fn lengthwise(&self, length: Length, margin: Length) -> Result<Lengthwise, MovementError> {
        let from_held = Length::from_nm(length.nm() / 2) - margin;
        let year = self.year(Axis::Length, from_held)?;
        let slot = slot(&year, self.lie.screw)?;
        Ok(Lengthwise { from_held, slot })
    }

    /// The legs of a joined top. The corner is held, so the far end of a leg takes the movement of
    /// the run's edge that the leg stands at, and all of its own along the grain.
    pub(super) fn legs(&self, parts: &Parts) -> Result<Vec<LegMoves>, MovementError> {
        let run = self.year(Axis::Width, parts.main.width)?;
        let share = match parts.legs_at {
            LegsAt::Front => self.lie.held.from_opposite(),
            LegsAt::Back => self.lie.held,
        };
        let leg = |part: &Part| {
            let along = self.year(Axis::Length, part.length)?;
            let ends = far_end_gap(&run, share, &along);
            Ok(LegMoves {
                part: *part,
                across: self.year(Axis::Width, part.width)?,
                along,
                fastening: self.part(part, ends)?,
            })
        };
        parts.legs.iter().map(leg).collect()
    }

    pub(super) fn fastening(
        &self,
        piece: &Piece,
        parts: &Parts,
    ) -> Result<Fastening, MovementError> {
        let along = self.year(Axis::Length, parts.main.length)?;
        let held = match parts.legs.len() {
            1 => HoldLine::OppositeEdge,
            _ => HoldLine::Middle,
        };
        let situations = situations(piece, self.lie, parts);
        let mitre = if situations.contains(&Situation::Corner) {
            Some(mitre_opening(&self.year(Axis::Width, parts.widest())?))
        } else {
            None
        };
        Ok(Fastening {
            main: self.part(&parts.main, wall_gap(&along, held))?,
            mitre,
            cutouts: self.cutouts(piece, parts)?,
            situations,
        })
    }

    /// What a cutout is for: as the opening says, else the sink that was noted to be dropped in.
    fn filling(&self, purpose: &Purpose) -> Filling {
        let noted = self.lie.situations.contains(&Situation::DropInSink);
        match Filling::of(purpose) {
            Filling::Unsaid if noted => Filling::DropIn,
            said => said,
        }
    }

    fn cutouts(&self, piece: &Piece, parts: &Parts) -> Result<Vec<CutoutRoom>, MovementError> {
        let mut out = Vec::new();
        for opening in piece.shape.openings() {
            let OpeningKind::Cutout { width, depth, .. } = opening.what else {
                continue;
            };
            let across = if parts.on_leg(opening.place) {
                width
            } else {
                depth
            };
            out.push(CutoutRoom {
                opening: opening.name(),
                clearance: clearance(
                    &self.year(Axis::Width, across)?,
                    self.filling(&opening.purpose),
                ),
            });
        }
        Ok(out)
    }
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

/// How it is held comes first; then what was noted; then what the shape tells.
fn situations(piece: &Piece, lie: &PieceWood, parts: &Parts) -> Vec<Situation> {
    let mut out = Vec::new();
    if lie.held == HoldLine::Middle && piece.kind == PieceKind::Island {
        out.push(Situation::Island);
    }
    out.extend(&lie.situations);
    if !parts.legs.is_empty() {
        out.push(Situation::Corner);
    }
    let drop_in = |opening: &Opening| Filling::of(&opening.purpose) == Filling::DropIn;
    if piece.shape.openings().iter().any(drop_in) {
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
