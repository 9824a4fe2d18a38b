//! The fields of a wood sheet's JSON.

use super::wood_leave_json::{CupJson, FaceJson, LeaveJson};
use super::{PieceJson, moment, rounded};
use crate::desk::Shop;
use crate::papers::wood::{held_words, reading_code};
use crate::shop::moving::{AirBasis, PlaceCurve, TodayBasis, WoodSheet};
use crate::shop::{PieceFile, SiteAir};
use crate::units::Length;
use crate::wood::moisture::{Reading, Reason, Verdict};
use crate::wood::movement::{Movement, YearMovement};
use crate::wood::species::Species;
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct SheetJson {
    #[serde(flatten)]
    piece: PieceJson,
    wood: Option<WoodJson>,
    wood_problem: Option<String>,
    grain: &'static str,
    held: &'static str,
    site: SiteJson,
    year: YearJson,
    today: TodayJson,
    shop_air: Option<AirJson>,
    ready: Vec<ReadyJson>,
    places: Vec<PlaceJson>,
    movement: Option<MovementJson>,
    movement_problem: Option<String>,
    leave: Option<LeaveJson>,
    hold: Vec<String>,
    faces: Vec<FaceJson>,
    cup: Option<CupJson>,
}

#[derive(Serialize)]
struct WoodJson {
    name: String,
    kind: &'static str,
    standing: &'static str,
    from_memory: bool,
    source: String,
    note: String,
}

impl WoodJson {
    fn of(species: &Species) -> Self {
        let standing = species.standing();
        Self {
            name: species.name.clone(),
            kind: species.kind.words(),
            standing: standing.words(),
            from_memory: standing.is_memory(),
            source: species.source.clone(),
            note: species.note.clone(),
        }
    }
}

#[derive(Serialize)]
struct SiteJson {
    basis: &'static str,
    radiant_floor: bool,
    new_slab: bool,
}

#[derive(Serialize)]
struct YearJson {
    driest_pct: f64,
    wettest_pct: f64,
    target_pct: f64,
    assumed: bool,
    basis: String,
}

#[derive(Serialize)]
struct TodayJson {
    pct: f64,
    basis: &'static str,
    last_read: Option<String>,
}

#[derive(Serialize)]
struct AirJson {
    temperature_c: f64,
    humidity_pct: f64,
    basis: &'static str,
    noted: Option<String>,
    emc_pct: Option<f64>,
    within_table: Option<bool>,
}

#[derive(Serialize)]
struct ReadyJson {
    goal: &'static str,
    verdict: &'static str,
    reasons: Vec<String>,
}

#[derive(Serialize)]
struct PlaceJson {
    place: String,
    meter: &'static str,
    readings: Vec<ReadingJson>,
    curve: Option<CurveJson>,
    curve_problem: Option<String>,
}

/// One reading, also as the verb that lists them gives it.
#[derive(Serialize)]
pub(in crate::cli) struct ReadingJson {
    code: Option<String>,
    id: Option<String>,
    at: String,
    place: String,
    meter: &'static str,
    shown_pct: f64,
    content_pct: f64,
    depth_mm: Option<f64>,
    correction: String,
}

impl ReadingJson {
    pub(in crate::cli) fn of(reading: &Reading, shop: &Shop, file: &PieceFile) -> Self {
        let on_record = shop.moisture(file.piece.id);
        let id = on_record
            .iter()
            .find(|of| of.reading == *reading)
            .map(|of| of.id);
        Self {
            code: id.map(reading_code),
            id: id.map(|id| id.to_string()),
            at: moment(reading.at),
            place: reading.place.clone(),
            meter: reading.meter.words(),
            shown_pct: reading.percent.percent(),
            content_pct: reading.content().percent(),
            depth_mm: reading.depth.map(mm),
            correction: reading.correction.words(),
        }
    }
}

#[derive(Serialize)]
struct CurveJson {
    toward_pct: f64,
    start_pct: f64,
    days: f64,
    within_half_a_point: Option<String>,
}

#[derive(Serialize)]
struct MovementJson {
    build: String,
    width: AxisJson,
    length: AxisJson,
    legs: Vec<LegMovesJson>,
}

#[derive(Serialize)]
struct LegMovesJson {
    part: &'static str,
    width: AxisJson,
    length: AxisJson,
}

#[derive(Serialize)]
struct AxisJson {
    size_mm: f64,
    dry_mm: [f64; 2],
    damp_mm: [f64; 2],
    words: String,
    basis: [String; 2],
}

/// Millimetres, to a thousandth.
pub(super) fn mm(length: Length) -> f64 {
    rounded(length.metres() * 1000.0)
}

impl AxisJson {
    fn of(year: &YearMovement) -> Self {
        let ends = |movement: &Movement| [mm(movement.change.low()), mm(movement.change.high())];
        Self {
            size_mm: mm(year.to_dry.size),
            dry_mm: ends(&year.to_dry),
            damp_mm: ends(&year.to_wet),
            words: year.show(),
            basis: [year.to_dry.basis(), year.to_wet.basis()],
        }
    }
}

impl SheetJson {
    pub(super) fn of(shop: &Shop, file: &PieceFile, sheet: &WoodSheet) -> Self {
        let moves = sheet.moves.as_ref();
        Self {
            piece: PieceJson::of(shop, file),
            wood: sheet.wood.as_ref().ok().map(WoodJson::of),
            wood_problem: sheet.wood.as_ref().err().map(ToString::to_string),
            grain: sheet.lie.grain.words(),
            held: held_words(sheet.lie.held),
            site: SiteJson {
                basis: match sheet.site.air {
                    None => "unknown",
                    Some(SiteAir::Air { .. }) => "air",
                    Some(SiteAir::Region(_)) => "region",
                    Some(SiteAir::Given { .. }) => "given",
                },
                radiant_floor: sheet.site.radiant_floor,
                new_slab: sheet.site.new_slab,
            },
            year: YearJson {
                driest_pct: sheet.band.driest().percent(),
                wettest_pct: sheet.band.wettest().percent(),
                target_pct: sheet.band.midpoint().percent(),
                assumed: sheet.assumed,
                basis: sheet.band.basis_words(shop.settings.temperature),
            },
            today: today(sheet),
            shop_air: air(sheet),
            ready: ready(sheet),
            places: sheet
                .places
                .iter()
                .map(|place| self::place(place, shop, file))
                .collect(),
            movement: moves.ok().map(|moves| MovementJson {
                build: moves.build.clone(),
                width: AxisJson::of(&moves.across),
                length: AxisJson::of(&moves.along),
                legs: moves
                    .legs
                    .iter()
                    .map(|leg| LegMovesJson {
                        part: leg.part.name.words(),
                        width: AxisJson::of(&leg.across),
                        length: AxisJson::of(&leg.along),
                    })
                    .collect(),
            }),
            movement_problem: moves.err().map(ToString::to_string),
            leave: moves.ok().map(LeaveJson::of),
            hold: moves.map_or_else(
                |_| Vec::new(),
                |moves| {
                    let situations = moves.fastening.situations.iter();
                    let one_corner = moves.legs.len() == 1;
                    situations
                        .map(|of| of.advice_for(sheet.lie.held, one_corner).line())
                        .collect()
                },
            ),
            faces: sheet.faces.iter().map(FaceJson::of).collect(),
            cup: moves.ok().and_then(|moves| CupJson::of(&moves.cup)),
        }
    }
}

fn today(sheet: &WoodSheet) -> TodayJson {
    let (basis, last_read) = match sheet.today.basis {
        TodayBasis::Read { last, .. } => ("measured", Some(moment(last))),
        TodayBasis::ShopAir => ("estimated from the shop's air", None),
        TodayBasis::MidYear => ("taken, the middle of the year", None),
    };
    TodayJson {
        pct: sheet.today.content.percent(),
        basis,
        last_read,
    }
}

fn air(sheet: &WoodSheet) -> Option<AirJson> {
    let (air, emc) = sheet.air.as_ref()?;
    let emc = emc.as_ref().ok();
    let (basis, noted) = match air.basis {
        AirBasis::Typed => ("typed", None),
        AirBasis::Noted(at) => ("last noted", Some(moment(at))),
        AirBasis::Usual { .. } => ("mean of four weeks", None),
    };
    Some(AirJson {
        temperature_c: air.air.temperature.c(),
        humidity_pct: air.air.humidity.percent(),
        basis,
        noted,
        emc_pct: emc.map(|emc| emc.content.percent()),
        within_table: emc.map(|emc| emc.within_table),
    })
}

fn ready(sheet: &WoodSheet) -> Vec<ReadyJson> {
    let answers = sheet.ready.iter();
    answers
        .map(|answer| ReadyJson {
            goal: answer.goal.words(),
            verdict: match answer.verdict {
                Verdict::Ready => "yes",
                Verdict::WithCare => "with care",
                Verdict::NotYet => "not yet",
            },
            reasons: answer.reasons.iter().map(Reason::words).collect(),
        })
        .collect()
}

fn place(place: &PlaceCurve, shop: &Shop, file: &PieceFile) -> PlaceJson {
    let curve = place.curve.as_ref();
    PlaceJson {
        place: place.place.clone(),
        meter: place.meter.words(),
        readings: place
            .readings
            .iter()
            .map(|reading| ReadingJson::of(reading, shop, file))
            .collect(),
        curve: curve
            .and_then(|curve| curve.as_ref().ok())
            .map(|curve| CurveJson {
                toward_pct: curve.toward.percent(),
                start_pct: curve.start.percent(),
                days: rounded(curve.days),
                within_half_a_point: curve.within(0.5).map(moment),
            }),
        curve_problem: curve
            .and_then(|curve| curve.as_ref().err())
            .map(ToString::to_string),
    }
}
