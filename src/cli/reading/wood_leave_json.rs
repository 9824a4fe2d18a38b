//! The fields of a wood sheet's JSON about gaps, slots, faces and cup.

use super::rounded;
use super::wood_json::mm;
use crate::shop::moving::{CupSheet, FaceSealing, Moves, PartFastening};
use crate::wood::movement::Gap;
use crate::wood::sealing::{Exposure, OneMoreCoat};
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct LeaveJson {
    #[serde(flatten)]
    main: PartJson,
    mitre_mm: Option<MitreJson>,
    sinks: Vec<SinkJson>,
    legs: Vec<LegJson>,
}

/// Of a leg the back is its edge on the same side, outer or inner, as the run's back edge.
#[derive(Serialize)]
struct PartJson {
    back_mm: GapJson,
    front_mm: GapJson,
    ends_mm: GapJson,
    rows: Vec<RowJson>,
    along: Option<AlongJson>,
    lengthwise_slot_mm: Option<f64>,
    figure_eight_degrees: Option<u8>,
    figure_eight_problem: Option<String>,
}

#[derive(Serialize)]
struct LegJson {
    part: &'static str,
    #[serde(flatten)]
    leave: PartJson,
}

#[derive(Serialize)]
struct GapJson {
    leave: f64,
    opens_to: f64,
}

#[derive(Serialize)]
#[allow(clippy::struct_field_names, reason = "each field says its unit")]
struct RowJson {
    from_back_mm: f64,
    from_held_mm: f64,
    slot_mm: Option<f64>,
    outward_mm: Option<f64>,
    round_hole_mm: Option<f64>,
}

#[derive(Serialize)]
struct AlongJson {
    count: u16,
    apart_mm: f64,
    margin_mm: f64,
}

#[derive(Serialize)]
struct MitreJson {
    outer_when_damp: f64,
    inner_when_dry: f64,
}

#[derive(Serialize)]
struct SinkJson {
    opening: String,
    leave_mm: f64,
}

impl PartJson {
    fn of(fastening: &PartFastening) -> Self {
        let gap = |gap: &Gap| GapJson {
            leave: mm(gap.leave),
            opens_to: mm(gap.opens_to),
        };
        let eight = fastening.eight.as_ref();
        Self {
            back_mm: gap(&fastening.gap),
            front_mm: gap(&fastening.gap_opposite),
            ends_mm: gap(&fastening.gap_ends),
            rows: fastening
                .rows
                .iter()
                .map(|row| RowJson {
                    from_back_mm: mm(row.from_edge),
                    from_held_mm: mm(row.from_held),
                    slot_mm: row.slot.map(|slot| mm(slot.length)),
                    outward_mm: row.slot.map(|slot| mm(slot.outward)),
                    round_hole_mm: row.slot.map(|slot| mm(slot.round_hole)),
                })
                .collect(),
            along: fastening.along.map(|along| AlongJson {
                count: along.count,
                apart_mm: mm(along.apart),
                margin_mm: mm(along.margin),
            }),
            lengthwise_slot_mm: fastening.lengthwise.map(|far| mm(far.slot.length)),
            figure_eight_degrees: eight
                .ok()
                .map(|eight| eight.outward_degrees.max(eight.inward_degrees)),
            figure_eight_problem: eight.err().map(ToString::to_string),
        }
    }
}

impl LeaveJson {
    pub(super) fn of(moves: &Moves) -> Self {
        let fastening = &moves.fastening;
        Self {
            main: PartJson::of(&fastening.main),
            mitre_mm: fastening.mitre.map(|mitre| MitreJson {
                outer_when_damp: mm(mitre.outer_when_damp),
                inner_when_dry: mm(mitre.inner_when_dry),
            }),
            sinks: fastening
                .cutouts
                .iter()
                .map(|cutout| SinkJson {
                    opening: cutout.opening.to_string(),
                    leave_mm: mm(cutout.clearance.leave),
                })
                .collect(),
            legs: moves
                .legs
                .iter()
                .map(|leg| LegJson {
                    part: leg.part.name.words(),
                    leave: PartJson::of(&leg.fastening),
                })
                .collect(),
        }
    }
}

#[derive(Serialize)]
pub(super) struct FaceJson {
    face: String,
    coats: String,
    keeps_out_pct: [[f64; 2]; 3],
    standing: &'static str,
    inferred: String,
    coats_not_counted: usize,
    not_exposed: bool,
}

impl FaceJson {
    pub(super) fn of(face: &FaceSealing) -> Self {
        let keeps = Exposure::ALL.map(|exposure| {
            let percent = face.seal.after(exposure);
            [rounded(percent.low()), rounded(percent.high())]
        });
        Self {
            face: face.face.code(),
            coats: face.seal.coats_words(),
            keeps_out_pct: keeps,
            standing: face.seal.standing.words(),
            inferred: face.seal.inferred.clone(),
            coats_not_counted: face.uncounted,
            not_exposed: face.hidden,
        }
    }
}

#[derive(Serialize)]
pub(super) struct CupJson {
    from_pct: f64,
    to_pct: f64,
    least_mm: f64,
    most_mm: f64,
    line: String,
    basis: String,
    one_more: Option<String>,
}

impl CupJson {
    pub(super) fn of(cup: &CupSheet) -> Option<Self> {
        let risk = cup.risk()?;
        Some(Self {
            from_pct: cup.from.percent(),
            to_pct: cup.to.percent(),
            least_mm: mm(risk.cup.low()),
            most_mm: mm(risk.cup.high()),
            line: risk.line(),
            basis: risk.basis(),
            one_more: cup.one_more().map(OneMoreCoat::line),
        })
    }
}
