//! The whole plan of one cut.

use super::error::{CutError, half};
use super::feed::{Feed, chip_band};
use super::guide::{CutSide, Guide, Template, TemplateForm, offset};
use super::passes::{CleanUp, CutPass, passes};
use super::router::Router;
use crate::units::Length;
use serde::Serialize;

/// A line to mind at a cut, with who says so.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct CutCaution {
    /// What to mind.
    pub line: &'static str,
    /// Who says so.
    pub source: &'static str,
}

/// What is minded at every cut through a top. The router's and the bit's own sheets win.
pub const CUT_CAUTIONS: [CutCaution; 4] = [
    CutCaution {
        line: "Hold the drop so that it can neither fall nor pinch the bit.",
        source: "magazine and trade forums on sink cutouts",
    },
    CutCaution {
        line: "Dust and burn marks mean too slow a feed, chatter and tear-out too fast; try it in scrap of the same wood.",
        source: "feeds and speeds guide",
    },
    CutCaution {
        line: "Unplug before changing bits; eyes, ears and a dust mask; read the router's own sheet.",
        source: "router makers' manuals, from memory",
    },
    CutCaution {
        line: "Seal the bare wall of the cut before anything is set in it.",
        source: "architectural woodwork standard (2009), p. 306",
    },
];

/// What is minded besides at an opening for a sink set from below.
pub const UNDERMOUNT_CAUTION: CutCaution = CutCaution {
    line: "Cut an undermount opening from the underside, top face down, where it is laid out from below.",
    source: "magazine and trade forums on sink cutouts",
};

/// How a cut is made.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CutPlan {
    /// The passes in order.
    pub passes: Vec<CutPass>,
    /// The feed of the deepest rough pass.
    pub feed: Feed,
    /// The feed of the clean-up, when there is one.
    pub clean_up_feed: Option<Feed>,
    /// How far the cut lies from the template.
    pub offset: Length,
    /// The least radius that can be cut at a corner of this kind.
    pub least_radius: Length,
    /// The same at the inside corners of an outline that has such: half the bit, however the
    /// template is made.
    pub least_inside: Option<Length>,
    /// The template to make; none for a form that is neither rectangle nor circle, whose template
    /// is its outline moved by the offset.
    pub template: Option<Template>,
    /// The chip load one flute takes at a hand's 50 to 100 in a minute (feeds and speeds guide).
    pub chip_by_hand: (Length, Length),
    /// What to mind about this very cut, in words.
    pub minds: Vec<String>,
}

/// The least and the most a hand feeds in hardwood, in inches a minute (feeds and speeds guide).
const BY_HAND: (i64, i64) = (50, 100);

/// Plans a cut round an outline whose tightest inside corner has this radius (none where it turns in
/// nowhere: then it is [`plan`] from the outside).
///
/// # Errors
/// What makes it impossible: see [`CutError`].
pub fn plan_outline(
    thickness: Length,
    form: Option<TemplateForm>,
    tightest_inside: Option<Length>,
    router: &Router,
) -> Result<CutPlan, CutError> {
    let mut plan = plan(thickness, form, CutSide::Outside, router)?;
    let least = half(router.bit);
    plan.least_inside = tightest_inside.map(|_| least);
    if let Some(radius) = tightest_inside.filter(|radius| *radius < least) {
        let has = if radius == Length::ZERO {
            "is sharp".to_owned()
        } else {
            format!("has a radius of {:.3} in", radius.inches())
        };
        plan.minds.push(format!(
            "An inside corner of the outline {has}, and the bit leaves {:.3} in: round it to that in the shape, or bring it to size by hand.",
            least.inches()
        ));
    }
    Ok(plan)
}

/// Plans a cut through `thickness`.
///
/// # Errors
/// What makes it impossible: see [`CutError`].
pub fn plan(
    thickness: Length,
    form: Option<TemplateForm>,
    side: CutSide,
    router: &Router,
) -> Result<CutPlan, CutError> {
    let passes = passes(thickness, router.bit, router.depth, router.clean_up)?;
    let offset = offset(router.guide, router.bit)?;
    let template = form
        .map(|form| Template::new(form, side, router.guide, router.bit))
        .transpose()?;
    let feed_at = |depth| Feed::at(router.rpm, router.flutes, router.chip, depth, router.bit);
    let deepest = passes
        .iter()
        .filter(|pass| !pass.clean_up)
        .map(|pass| pass.takes)
        .max()
        .unwrap_or(thickness);
    let feed = feed_at(deepest)?;
    let clean_up_feed = match passes.last() {
        Some(last) if last.clean_up => Some(feed_at(last.takes)?),
        _ => None,
    };
    let turns = (i64::from(router.rpm) * i64::from(router.flutes)).max(1);
    let by_hand = |inches: i64| Length::from_nm(inches * Length::NM_PER_INCH / turns);
    Ok(CutPlan {
        minds: minds(thickness, router, template.as_ref(), &feed, side),
        passes,
        feed,
        clean_up_feed,
        offset,
        least_radius: match side {
            CutSide::Inside => half(router.bit),
            CutSide::Outside => offset,
        },
        least_inside: None,
        template,
        chip_by_hand: (by_hand(BY_HAND.0), by_hand(BY_HAND.1)),
    })
}

fn minds(
    thickness: Length,
    router: &Router,
    template: Option<&Template>,
    feed: &Feed,
    side: CutSide,
) -> Vec<String> {
    let mut out = Vec::new();
    let thousandths = |length: Length| format!("{:.3}", length.inches());
    let (least, most) = chip_band(router.bit);
    if router.chip < least || router.chip > most {
        out.push(format!(
            "A chip load of {} in is outside the {} to {} in usual in hardwood for this bit (feeds and speeds guide).",
            thousandths(router.chip),
            thousandths(least),
            thousandths(most)
        ));
    }
    if feed.derated.nm() > BY_HAND.1 * Length::NM_PER_INCH {
        out.push(format!(
            "{:.0} in a minute is a machine's feed: a hand goes {} to {} (feeds and speeds guide); listen to the bit.",
            feed.derated.inches(),
            BY_HAND.0,
            BY_HAND.1
        ));
    }
    if feed.derate.beyond {
        out.push(
            "The pass is deeper than three bit diameters, for which no feed was published: take it shallower.".to_owned(),
        );
    }
    if router.cutting_length < thickness {
        out.push(format!(
            "The bit cuts only {:.3} in deep and the top is {:.3} in: finish with a longer bit or from the other face.",
            router.cutting_length.inches(),
            thickness.inches()
        ));
    }
    if let CleanUp::OnWall(stock) = router.clean_up {
        out.push(format!(
            "Keep {:.3} in on the wall in the rough passes: saw that far off the line, or rough with a guide {:.3} in larger across.",
            stock.inches(),
            (stock * 2).inches()
        ));
        if stock.nm() * 4 > Length::NM_PER_INCH {
            out.push(
                "More than 1/4 in on the wall is much for one full-depth pass (floor installers' forum).".to_owned(),
            );
        }
    }
    if let Some(template) = template.filter(|template| template.corner_by_hand) {
        out.push(format!(
            "The guide rolls round the template's corner and leaves a {:.3} in radius: bring the corner to size by hand.",
            template.least_radius.inches()
        ));
    }
    if side == CutSide::Inside
        && let (Guide::Bushing(od), Some(TemplateForm::Rectangle { radius, .. })) =
            (router.guide, template.map(|template| template.form))
        && radius == half(od)
    {
        out.push(
            "The guide only just reaches into the template's corners: make them no tighter."
                .to_owned(),
        );
    }
    out
}
