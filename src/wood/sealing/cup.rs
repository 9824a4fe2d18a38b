//! The cup a top risks while its faces hold different moisture.

use super::face::{Coats, FaceSeal, face_seal};
use super::finish::{Exposure, FinishKind};
use crate::units::Length;
use crate::wood::Between;
use crate::wood::moisture::MoistureContent;
use crate::wood::movement::{Axis, Build, MovementError, both};

/// Sagitta of an arc: how far the middle of a width `w` stands off the straight line between its
/// edges, `k w^2 / 8`, with the curvature `k` in 1/m.
pub fn sagitta(curvature: f64, width: Length) -> Length {
    Length::from_metres_rounded(curvature * width.metres().powi(2) / 8.0)
}

/// Curvature (1/m) of an even panel of thickness `h` (m) whose free strain changes evenly from face
/// to face by `misfit`: `k = misfit / h` (beam theory, worked out here: `k = 12/h^3` times the
/// integral of `e(z) z`).
pub fn even_curvature(misfit: f64, thickness: Length) -> f64 {
    misfit / thickness.metres()
}

/// Of two bonded layers that would differ in length by `misfit`: `k h / misfit`, with `m` the ratio
/// of their thicknesses and `n` that of their stiffnesses (Timoshenko 1925, J. Opt. Soc. Am. 11:
/// 233-255, general form from memory: `6 (1+m)^2 / [3 (1+m)^2 + (1 + m n)(m^2 + 1/(m n))]`).
pub fn layer_factor(m: f64, n: f64) -> f64 {
    let both = (1.0 + m).powi(2);
    6.0 * both / (3.0 * both + (1.0 + m * n) * (m * m + 1.0 / (m * n)))
}

/// Curvature (1/m) of a panel that is one moisture through its upper half and another through its
/// lower: [`layer_factor`] of 1 and 1, that is `1.5 misfit / h`; the upper bound used here.
pub fn step_curvature(misfit: f64, thickness: Length) -> f64 {
    layer_factor(1.0, 1.0) * even_curvature(misfit, thickness)
}

/// The two faces of a top.
#[derive(Debug, Clone, PartialEq)]
pub struct Faces {
    /// The show side.
    pub top: FaceSeal,
    /// The underside.
    pub underside: FaceSeal,
}

impl Faces {
    /// From the coats on each.
    pub fn new(top: &[Coats], underside: &[Coats]) -> Self {
        Self {
            top: face_seal(top),
            underside: face_seal(underside),
        }
    }

    /// How differently the faces let moisture in after so long, as a part of what bare wood takes
    /// up: from the least to the most that the two figures allow. Faces with the same coats are
    /// the same, whatever their figure is.
    pub fn difference(&self, exposure: Exposure) -> Between<f64> {
        if self.top.coats == self.underside.coats {
            return Between::only(0.0);
        }
        let (top, under) = (self.top.lets_in(exposure), self.underside.lets_in(exposure));
        let most = (top.high() - under.low()).max(under.high() - top.low());
        let least = (top.low() - under.high()).max(under.low() - top.high());
        Between::new(least.max(0.0), most.max(0.0))
    }

    /// Whether the underside lets in more than the top, over all three times together; when the
    /// figures do not tell, whether it has no more coats than the top.
    pub fn underside_is_poorer(&self) -> bool {
        let sum = |face: &FaceSeal| -> f64 {
            Exposure::ALL
                .iter()
                .map(|e| face.lets_in(*e).low() + face.lets_in(*e).high())
                .sum()
        };
        let (under, top) = (sum(&self.underside), sum(&self.top));
        if (under - top).abs() < 1e-9 {
            return self.underside.count() <= self.top.count();
        }
        under > top
    }
}

/// The cup that is risked, for a while, when the air of the room changes.
#[derive(Debug, Clone, PartialEq)]
pub struct CupRisk {
    /// How far the middle stands off the line between the edges: from the least over 1, 7 and 14
    /// days with an even gradient (`k = de/h`) to the most with a step (`1.5 de/h`).
    pub cup: Between<Length>,
    /// The difference in moisture content between the faces, in points, over the same days.
    pub points: Between<f64>,
    /// Whether the underside is the face that lets in more.
    pub underside_poorer: bool,
    /// Whether the wood gets wetter (else drier).
    pub wetter: bool,
    /// The faces it was reckoned from.
    pub faces: Faces,
    /// The width it was reckoned for.
    pub width: Length,
    /// The thickness.
    pub thickness: Length,
}

/// The cup risked across a width when the room would take the wood from `from` to `to`. The face
/// that lets in more is ahead of the other by their difference times the whole change; `e = C dM`
/// over the width's own range of rates. An upper estimate: no creep, nothing held down, every
/// board's rings alike; and a passing one, over when the faces are even again.
///
/// # Errors
/// [`MovementError`] for a wood without figures or a size that cannot be.
pub fn cup_risk(
    build: &Build<'_>,
    width: Length,
    thickness: Length,
    faces: Faces,
    from: MoistureContent,
    to: MoistureContent,
) -> Result<CupRisk, MovementError> {
    let sized = crate::wood::movement::sized;
    let (width, thickness) = (sized("width", width)?, sized("thickness", thickness)?);
    let strain = build.strain(Axis::Width, from, to)?.map(f64::abs);
    let days = Exposure::ALL.map(|exposure| faces.difference(exposure));
    let part = days
        .into_iter()
        .reduce(Between::joined)
        .unwrap_or(Between::only(0.0));
    let least = even_curvature(strain.low() * part.low(), thickness);
    let most = step_curvature(strain.high() * part.high(), thickness);
    let change = from.points_to(to);
    Ok(CupRisk {
        cup: Between::new(sagitta(least, width), sagitta(most, width)),
        points: part.map(|part| part * change.abs()),
        underside_poorer: faces.underside_is_poorer(),
        wetter: change > 0.0,
        faces,
        width,
        thickness,
    })
}

impl CupRisk {
    /// Whether there is nothing to risk.
    pub fn is_none(&self) -> bool {
        self.cup.high() == Length::ZERO
    }

    /// Which way it would cup: the wetter face is the longer one and bulges.
    pub fn shape_words(&self) -> &'static str {
        if self.underside_poorer == self.wetter {
            "underside bulging, edges up"
        } else {
            "top bulging, edges down"
        }
    }

    /// The figure in one line, short enough to stand beside a refusal.
    pub fn line(&self) -> String {
        let let_in = |face: &FaceSeal| {
            let day = face.lets_in(Exposure::Day1).map(|part| part * 100.0);
            if day.is_single() {
                format!("{:.0} %", day.low())
            } else if day.high() - day.low() > 99.0 {
                "an unknown share".to_owned()
            } else {
                format!("{:.0} to {:.0} %", day.low(), day.high())
            }
        };
        let (top, under) = (let_in(&self.faces.top), let_in(&self.faces.underside));
        if self.is_none() {
            return format!(
                "Top lets in {top} of what bare wood takes up in a day, underside {under}: no cup \
                 to fear from unlike faces."
            );
        }
        format!(
            "Top lets in {top} of what bare wood takes up in a day, underside {under}: risk of {} \
             cup over {} until they are even again (estimate).",
            crate::wood::movement::spread(self.cup),
            both(self.width)
        )
    }

    /// What the figure rests on.
    pub fn basis(&self) -> String {
        format!(
            "passing estimate, {}: top {}; underside {}; difference of {:.1} to {:.1} points \
             between the faces; k = de/h for an even gradient to 1.5 de/h for a step, cup = k w^2/8; \
             upper figures: no creep, nothing held down, all boards alike; one face from whole-piece \
             tests is an inference",
            self.shape_words(),
            self.faces.top.words(),
            self.faces.underside.words(),
            self.points.low(),
            self.points.high()
        )
    }
}

/// What one more coat on the poorer face would do.
#[derive(Debug, Clone, PartialEq)]
pub struct OneMoreCoat {
    /// Of which finish.
    pub finish: FinishKind,
    /// Whether on the underside (else on the top).
    pub on_underside: bool,
    /// As it is.
    pub before: CupRisk,
    /// With one more coat.
    pub after: CupRisk,
}

/// What one more coat on the poorer face would do to the risk: of the finish that lies on top
/// there, or, on a bare face, of what lies on top on the other. `None` when both faces carry the
/// same coats, both are bare, the risk is nothing, or the coat would not be seen in it.
///
/// # Errors
/// As for [`cup_risk`].
pub fn one_more_coat(
    build: &Build<'_>,
    risk: &CupRisk,
    from: MoistureContent,
    to: MoistureContent,
) -> Result<Option<OneMoreCoat>, MovementError> {
    let faces = &risk.faces;
    let on_underside = risk.underside_poorer;
    let (poorer, better) = if on_underside {
        (&faces.underside.coats, &faces.top.coats)
    } else {
        (&faces.top.coats, &faces.underside.coats)
    };
    let Some(finish) = poorer.last().or(better.last()).map(|c| c.finish) else {
        return Ok(None);
    };
    if risk.is_none() {
        return Ok(None);
    }
    let mut coats = poorer.clone();
    match coats.last_mut() {
        Some(last) => last.coats = last.coats.saturating_add(1),
        None => coats.push(Coats::new(finish, 1)),
    }
    let more = if on_underside {
        Faces::new(better, &coats)
    } else {
        Faces::new(&coats, better)
    };
    let after = cup_risk(build, risk.width, risk.thickness, more, from, to)?;
    if both(after.cup.high()) == both(risk.cup.high()) {
        return Ok(None);
    }
    Ok(Some(OneMoreCoat {
        finish,
        on_underside,
        before: risk.clone(),
        after,
    }))
}

impl OneMoreCoat {
    /// `One more coat of ... on the underside: the risk goes from ... to ...`.
    pub fn line(&self) -> String {
        let face = if self.on_underside {
            "underside"
        } else {
            "top"
        };
        format!(
            "One more coat of {} on the {face}: from {} to {} at most (estimate).",
            self.finish.words(),
            both(self.before.cup.high()),
            both(self.after.cup.high())
        )
    }
}
