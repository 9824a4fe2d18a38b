//! Refusing outlines that do not close, cross themselves or cannot be meant.

use super::check::LEAST;
use super::corner::{Corner, Cut};
use super::face::FaceKey;
use super::forms::{Cup, Ell, LiveSlab, Quad};
use super::outline::Outline;
use super::outline_error::OutlineError;
use super::ring::{Ring, Run};
use super::rings;
use super::stroke::Point;
use super::words::say;
use crate::units::Length;

/// The most stations along a live edge.
const MOST_STATIONS: usize = 200;

/// The first thing that is wrong with an outline whose sizes are in range.
pub(super) fn check(outline: &Outline) -> Result<(), OutlineError> {
    match outline {
        // Nothing to cross; stations in order with widths above nothing cannot either.
        Outline::Rectangle { .. }
        | Outline::Circle { .. }
        | Outline::Oval { .. }
        | Outline::Live(_) => return Ok(()),
        Outline::Cornered { .. } => {}
        Outline::L(ell) => check_l(ell)?,
        Outline::U(cup) => check_u(cup)?,
        Outline::Quad(quad) => check_quad(quad)?,
    }
    crosses(outline, &outline.ring()?)?;
    sliver(outline)
}

/// A top out of square that is folded nearly flat, so that no wood is left across it.
fn sliver(outline: &Outline) -> Result<(), OutlineError> {
    let (length, width) = outline.extent();
    let across = length.min(width);
    if across < LEAST {
        let least = LEAST;
        return Err(OutlineError::Flat { across, least });
    }
    Ok(())
}

fn inside(
    part: &'static str,
    given: Length,
    whole: Length,
    way: &'static str,
    form: &'static str,
) -> Result<(), OutlineError> {
    if given < whole {
        return Ok(());
    }
    Err(OutlineError::NoInside {
        part,
        given,
        whole,
        way,
        form,
    })
}

fn check_l(ell: &Ell) -> Result<(), OutlineError> {
    if !Corner::OUTER.contains(&ell.open) {
        return Err(OutlineError::NotOpen { corner: ell.open });
    }
    inside("depth of the run", ell.run, ell.width, "wide", "L")?;
    inside("width of the leg", ell.leg, ell.length, "long", "L")
}

fn check_u(cup: &Cup) -> Result<(), OutlineError> {
    inside("depth of the run", cup.run, cup.width, "wide", "U")?;
    let legs = cup.left + cup.right;
    inside("width of both legs together", legs, cup.length, "long", "U")
}

/// The second diagonal must at least be possible with the sides it spans.
fn check_quad(quad: &Quad) -> Result<(), OutlineError> {
    rings::quad_corners(quad)?;
    if quad.rising.is_some() && quad.falling.is_some() {
        let alone = Quad {
            rising: None,
            ..quad.clone()
        };
        rings::quad_corners(&alone)?;
    }
    Ok(())
}

/// The stations of a live edge: how many, in what order, and how they lie to the line. Before the
/// sizes, since they follow from them.
pub(super) fn stations(outline: &Outline) -> Result<(), OutlineError> {
    match outline {
        Outline::Live(slab) => check_live(slab),
        _ => Ok(()),
    }
}

fn check_live(slab: &LiveSlab) -> Result<(), OutlineError> {
    let count = slab.stations.len();
    if !(2..=MOST_STATIONS).contains(&count) {
        return Err(OutlineError::Stations {
            count,
            most: MOST_STATIONS,
        });
    }
    for (i, station) in slab.stations.iter().enumerate() {
        let no = i + 1;
        if station.at < Length::ZERO {
            let given = station.at;
            return Err(OutlineError::StationBefore { no, given });
        }
        if i > 0 && station.at <= slab.stations[i - 1].at {
            return Err(OutlineError::StationOrder {
                no,
                given: station.at,
                before: slab.stations[i - 1].at,
            });
        }
        if let Some(front) = station.front
            && station.width > Length::ZERO
            && (front < Length::ZERO || front > station.width)
        {
            return Err(OutlineError::StationFront {
                no,
                front,
                width: station.width,
            });
        }
    }
    Ok(())
}

/// Whether runs that do not follow each other meet.
fn crosses(outline: &Outline, ring: &Ring) -> Result<(), OutlineError> {
    let runs: Vec<(&Run, Vec<Point>)> = ring
        .runs
        .iter()
        .map(|run| (run, run.stroke.points()))
        .collect();
    let count = runs.len();
    for i in 0..count {
        for j in i + 2..count {
            if i == 0 && j + 1 == count {
                continue;
            }
            if near(&runs[i].1, &runs[j].1) && meet(&runs[i].1, &runs[j].1) {
                let (first, second) = (runs[i].0.face, runs[j].0.face);
                let size = blame(outline, first, second);
                return Err(OutlineError::SelfCrossing {
                    first,
                    second,
                    size,
                });
            }
        }
    }
    Ok(())
}

/// The larger of the cuts at the two faces, or the largest of all, in words.
fn blame(outline: &Outline, first: FaceKey, second: FaceKey) -> String {
    let cuts: Vec<(Corner, Cut)> = outline.corners().iter().collect();
    let touched = |corner: Corner| {
        [first, second].iter().any(|face| {
            matches!(face, FaceKey::Corner(at) | FaceKey::InnerEdge(at) | FaceKey::InnerEnd(at)
                if *at == corner)
        })
    };
    let size = |cut: Cut| cut.sizes().into_iter().map(|(_, size)| size).max();
    let largest = |all: bool| {
        cuts.iter()
            .filter(|(corner, _)| all || touched(*corner))
            .max_by_key(|(_, cut)| size(*cut))
    };
    if let Some((corner, cut)) = largest(false).or_else(|| largest(true)) {
        let size = size(*cut).unwrap_or_default();
        return format!("the {} of {} at the {corner}", cut.word(), say(size));
    }
    let (length, width) = outline.extent();
    format!("{} x {}", say(length), say(width))
}

/// Whether the boxes around two runs meet: only then do the runs.
fn near(one: &[Point], other: &[Point]) -> bool {
    let span = |points: &[Point], of: fn(&Point) -> f64| {
        let all = || points.iter().map(of);
        (
            all().fold(f64::MAX, f64::min),
            all().fold(f64::MIN, f64::max),
        )
    };
    [|p: &Point| p.x, |p: &Point| p.y].into_iter().all(|of| {
        let ((low, high), (from, to)) = (span(one, of), span(other, of));
        low <= to && from <= high
    })
}

fn meet(one: &[Point], other: &[Point]) -> bool {
    one.windows(2)
        .any(|a| other.windows(2).any(|b| cross(a[0], a[1], b[0], b[1])))
}

/// Whether two straight lines share a point.
fn cross(a: Point, b: Point, c: Point, d: Point) -> bool {
    let apart = |p: f64, q: f64, r: f64, s: f64| p.max(q) < r.min(s) || r.max(s) < p.min(q);
    if apart(a.x, b.x, c.x, d.x) || apart(a.y, b.y, c.y, d.y) {
        return false;
    }
    let side = |from: Point, to: Point, at: Point| {
        (to.x - from.x) * (at.y - from.y) - (to.y - from.y) * (at.x - from.x)
    };
    let (c_side, d_side) = (side(a, b, c), side(a, b, d));
    let (a_side, b_side) = (side(c, d, a), side(c, d, b));
    c_side * d_side <= 0.0 && a_side * b_side <= 0.0
}
