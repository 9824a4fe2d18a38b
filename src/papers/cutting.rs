//! The cutting plan on paper.

use super::PAPER_WIDTH;
use super::layout::{Columns, wrap};
use crate::desk::Shop;
use crate::shape::cutting::{
    CUT_CAUTIONS, CutCaution, CutError, CutPlan, CutSide, Guide, Router, TemplateForm,
    UNDERMOUNT_CAUTION, plan, plan_outline,
};
use crate::shape::{Mount, OpeningKind, OpeningName, Outline};
use crate::shop::{PieceFile, Settings};
use crate::units::{Length, LengthStyle};

/// What is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CutOf {
    /// The outside edge of the piece.
    Outline,
    /// One opening.
    Opening(OpeningName),
}

impl CutOf {
    /// What of a piece a code means: `outline`, `cutout-1`, `hole-2`; none when it has no such.
    pub fn of_code(file: &PieceFile, code: &str) -> Option<Self> {
        if code == "outline" {
            return Some(Self::Outline);
        }
        let openings = file.piece.shape.openings().iter();
        openings
            .map(crate::shape::Opening::name)
            .find(|name| name.to_string().replace(' ', "-") == code)
            .map(Self::Opening)
    }

    /// Every cut of a piece, openings first.
    pub fn all(file: &PieceFile) -> Vec<Self> {
        let openings = file.piece.shape.openings().iter();
        let mut out: Vec<Self> = openings
            .map(|opening| Self::Opening(opening.name()))
            .collect();
        out.push(Self::Outline);
        out
    }

    /// Its code.
    pub fn code(self) -> String {
        match self {
            Self::Outline => "outline".to_owned(),
            Self::Opening(name) => name.to_string().replace(' ', "-"),
        }
    }

    /// In words.
    pub fn words(self) -> String {
        match self {
            Self::Outline => "the outside edge".to_owned(),
            Self::Opening(name) => name.to_string(),
        }
    }
}

/// The plan of a cut of a piece with this router.
///
/// # Errors
/// What makes it impossible: see [`CutError`].
pub fn cut_plan(file: &PieceFile, of: CutOf, router: &Router) -> Result<CutPlan, CutError> {
    let shape = &file.piece.shape;
    match of {
        CutOf::Outline => {
            let form = match shape.outline() {
                Outline::Rectangle { length, width } => Some(TemplateForm::Rectangle {
                    length: *length,
                    width: *width,
                    radius: Length::ZERO,
                }),
                Outline::Circle { diameter } => Some(TemplateForm::Circle {
                    diameter: *diameter,
                }),
                _ => None,
            };
            let inside = shape.outline().tightest_inside();
            plan_outline(shape.thickness(), form, inside, router)
        }
        CutOf::Opening(name) => {
            let opening = shape
                .openings()
                .iter()
                .find(|opening| opening.name() == name);
            let form = opening.map(|opening| match opening.what {
                OpeningKind::Cutout {
                    width,
                    depth,
                    corner_radius,
                } => TemplateForm::Rectangle {
                    length: width,
                    width: depth,
                    radius: corner_radius,
                },
                OpeningKind::Hole { diameter } => TemplateForm::Circle { diameter },
            });
            plan(shape.thickness(), form, CutSide::Inside, router)
        }
    }
}

/// What is minded at a cut of a piece: that of an undermount only where one is cut.
pub fn cut_cautions(file: &PieceFile, of: CutOf) -> Vec<CutCaution> {
    let mut out = CUT_CAUTIONS.to_vec();
    let undermount = file.piece.shape.openings().iter().any(|opening| {
        let sink = opening.purpose.sink();
        of == CutOf::Opening(opening.name())
            && sink.is_some_and(|sink| matches!(sink.mount, Mount::Undermount(_)))
    });
    if undermount {
        out.insert(1, UNDERMOUNT_CAUTION);
    }
    out
}

/// A length of a cut: exactly on the tape, or to a ten-thousandth of an inch, or a hundredth of a
/// millimetre.
pub fn fine(length: Length, settings: &Settings) -> String {
    if settings.length == LengthStyle::Millimetres {
        let text = format!("{:.2}", length.mm());
        return format!("{} mm", text.trim_end_matches('0').trim_end_matches('.'));
    }
    if length.nm() % Length::from_64ths(1).nm() == 0 {
        let exact = length.show_inches(LengthStyle::ThirtySeconds);
        if !exact.starts_with('~') {
            return exact;
        }
    }
    let text = format!("{:.4}", length.inches());
    format!("{} in", text.trim_end_matches('0').trim_end_matches('.'))
}

/// A feed in a minute.
fn feed(length: Length, settings: &Settings) -> String {
    if settings.length == LengthStyle::Millimetres {
        format!("{:.0} mm a minute", length.mm())
    } else {
        format!("{:.0} in a minute", length.inches())
    }
}

/// The whole plan of one cut.
pub fn cutting_paper(
    shop: &Shop,
    file: &PieceFile,
    of: CutOf,
    router: &Router,
) -> Result<Vec<String>, CutError> {
    let plan = cut_plan(file, of, router)?;
    let settings = &shop.settings;
    let say = |length: Length| fine(length, settings);
    let mut out = vec![format!("Cutting {} of {}", of.words(), shop.called(file))];
    let bit = format!(
        "bit {}, {} flutes, {} turns a minute, chip load {:.4} in; top {} thick",
        say(router.bit),
        router.flutes,
        router.rpm,
        router.chip.inches(),
        say(file.piece.shape.thickness())
    );
    out.extend(wrap(&bit, PAPER_WIDTH, 2));
    out.push(String::new());
    out.push("TEMPLATE".to_owned());
    out.extend(
        template_lines(&plan, router, settings)
            .iter()
            .flat_map(|line| indented(line)),
    );
    out.push(String::new());
    out.push("PASSES".to_owned());
    let mut columns = Columns::default();
    columns.row(["pass", "takes", "bit stands", ""]);
    for pass in &plan.passes {
        let what = if pass.clean_up { "clean-up" } else { "" };
        columns.row([
            &pass.no.to_string(),
            &say(pass.takes),
            &say(pass.depth),
            what,
        ]);
    }
    out.extend(columns.lines(2, PAPER_WIDTH));
    out.push(String::new());
    out.push("FEED".to_owned());
    let derate = &plan.feed.derate;
    let mut words = format!(
        "{} x {} x {:.4} in = {}",
        router.rpm,
        router.flutes,
        router.chip.inches(),
        feed(plan.feed.full, settings)
    );
    if derate.most > 0.0 {
        words = format!(
            "{words}; {:.1} bit diameters deep, so {:.0} to {:.0} % slower: {}",
            derate.depth_ratio,
            derate.least * 100.0,
            derate.most * 100.0,
            feed(plan.feed.derated, settings)
        );
    }
    out.extend(indented(&words));
    if let Some(clean_up) = &plan.clean_up_feed {
        let words = format!("clean-up: {}", feed(clean_up.derated, settings));
        out.extend(indented(&words));
    }
    let (least, most) = plan.chip_by_hand;
    out.extend(indented(&format!(
        "by hand, 50 to 100 in a minute, one flute takes {:.4} to {:.4} in",
        least.inches(),
        most.inches()
    )));
    out.push(String::new());
    out.push("MIND".to_owned());
    out.extend(plan.minds.iter().flat_map(|line| indented(line)));
    for caution in cut_cautions(file, of) {
        out.extend(indented(&format!("{} ({})", caution.line, caution.source)));
    }
    Ok(out)
}

/// Template, offset and least radius in words.
pub fn template_lines(plan: &CutPlan, router: &Router, settings: &Settings) -> Vec<String> {
    let say = |length: Length| fine(length, settings);
    let mut out = Vec::new();
    out.push(match router.guide {
        Guide::Bushing(od) => format!(
            "guide {} and bit {}: the cut lies {} from the template",
            say(od),
            say(router.bit),
            say(plan.offset)
        ),
        Guide::Bearing => "bearing on the bit: the template is the finished size".to_owned(),
    });
    match plan.template.map(|template| template.form) {
        Some(TemplateForm::Rectangle {
            length,
            width,
            radius,
        }) => out.push(format!(
            "template {} x {}, corner radius {}",
            say(length),
            say(width),
            say(radius)
        )),
        Some(TemplateForm::Circle { diameter }) => {
            out.push(format!("template {} across", say(diameter)));
        }
        None => out.push(format!(
            "template: the outline, {} smaller all round: the dashed line of the full-size template drawn with its guide",
            say(plan.offset)
        )),
    }
    let least = say(plan.least_radius);
    out.push(match plan.least_inside {
        None => format!("least corner radius {least}"),
        Some(inside) => format!(
            "least corner radius {least} outside, {} at an inside corner",
            say(inside)
        ),
    });
    out
}

fn indented(words: &str) -> Vec<String> {
    let lines = wrap(words, PAPER_WIDTH - 2, 2);
    lines.into_iter().map(|line| format!("  {line}")).collect()
}
