//! Checks of how the top stands: overhangs, spans, joints, appliances, drip groove, height.

use super::cutouts::has_sink;
use super::finding::{Notebook, length};
use super::rule::{Figure, Rule};
use super::seen::{Point, Seen};
use super::standing::{JointWay, Overhang, Standing};
use crate::shape::{Construction, FaceKey};
use crate::units::{Length, LengthStyle};

/// Everything about how a piece stands.
pub(super) fn check(
    seen: &Seen,
    construction: Construction,
    standing: &Standing,
    book: &mut Notebook<'_>,
) {
    let say = book.by();
    for hang in &standing.overhangs {
        overhang(seen, construction, hang, book);
    }
    let top = ["top".to_owned()];
    if let Some(span) = standing.span {
        book.at_most(Rule::Span, &top, span, None, |extra| {
            format!("add a support: the way is {} too long.", say(extra))
        });
    }
    appliances(seen, standing, book);
    if has_sink(seen) {
        drip(standing, book);
    }
    if let (Some(height), true) = (standing.height, standing.accessible) {
        book.at_most(Rule::HeightMost, &top, height, None, |extra| {
            format!(
                "stand it {} lower; the local rules and the inspector decide.",
                say(extra)
            )
        });
        book.at_least(Rule::HeightLeast, &top, height.mm(), None, |missing| {
            format!(
                "stand it {} higher; the local rules and the inspector decide.",
                say(missing)
            )
        });
    }
}

fn overhang(seen: &Seen, construction: Construction, hang: &Overhang, book: &mut Notebook<'_>) {
    let say = book.by();
    let about = [format!("overhang-{}", hang.side.code())];
    let along = matches!(hang.side, FaceKey::Left | FaceKey::Right)
        && construction != Construction::EndGrain;
    let rule = if along {
        Rule::OverhangAlong
    } else {
        Rule::OverhangAcross
    };
    let place = Some(across_overhang(seen, hang));
    let Some(brackets) = hang.brackets else {
        book.at_most(rule, &about, hang.out, place, |extra| {
            format!("shorten it by {}, or set brackets under it.", say(extra))
        });
        return;
    };
    // Brackets are for what hangs further than the wood may by itself.
    if book.rules.length(rule).is_none_or(|most| hang.out <= most) {
        return;
    }
    let setting = book.rules.setting(Rule::BracketReach);
    if let (Figure::Percent(percent), true) = (setting.figure, setting.made) {
        let asks = Length::from_nm(hang.out.nm() / 100 * i64::from(percent));
        if brackets.reach < asks {
            let missing = asks - brackets.reach;
            let figures = Some((brackets.reach, asks));
            book.write(
                Rule::BracketReach,
                &about,
                place,
                figures,
                missing,
                |missing| format!("take brackets {} longer.", say(missing)),
            );
        }
    }
    book.at_most(Rule::BracketApart, &about, brackets.apart, place, |extra| {
        format!("set them {} closer.", say(extra))
    });
}

/// A line across the overhang, in the middle of its side.
fn across_overhang(seen: &Seen, hang: &Overhang) -> (Point, Point) {
    let (low, high) = seen.extent();
    let (mid_x, mid_y) = (f64::midpoint(low.x, high.x), f64::midpoint(low.y, high.y));
    let out = hang.out.mm();
    let at = |x, y| Point { x, y };
    match hang.side {
        FaceKey::Back => (at(mid_x, high.y - out), at(mid_x, high.y)),
        FaceKey::Left => (at(low.x + out, mid_y), at(low.x, mid_y)),
        FaceKey::Right => (at(high.x - out, mid_y), at(high.x, mid_y)),
        _ => (at(mid_x, low.y + out), at(mid_x, low.y)),
    }
}

fn appliances(seen: &Seen, standing: &Standing, book: &mut Notebook<'_>) {
    let say = book.by();
    let (low, high) = seen.extent();
    for (no, appliance) in (1..).zip(&standing.appliances) {
        let (from, to) = (appliance.from.mm(), appliance.to.mm());
        let about = format!("appliance-{no}");
        let place = |x: f64| {
            let y = f64::midpoint(low.y, high.y);
            (Point { x, y }, Point { x, y })
        };
        if !appliance.barrier {
            let middle = Some(place(f64::midpoint(from, to)));
            book.whether(
                Rule::Steam,
                std::slice::from_ref(&about),
                middle,
                "fix foil or a moisture barrier below, the whole width, lapping onto both neighbours.",
            );
        }
        for (joint_no, joint) in (1..).zip(&standing.joints) {
            if joint.way != JointWay::Across {
                continue;
            }
            let at = joint.at.mm();
            let off = (from - at).max(at - to);
            let about = [about.clone(), format!("joint-{joint_no}")];
            let Some(asks) = book.rules.length(Rule::JointSteam) else {
                continue;
            };
            if off + 0.000_5 < asks.mm() {
                // Over it counts as nothing left; what is missing is the way out.
                let has = length(off.max(0.0));
                let missing = asks - length(off);
                let place = Some(place(at));
                book.write(
                    Rule::JointSteam,
                    &about,
                    place,
                    Some((has, asks)),
                    missing,
                    |missing| {
                        format!(
                            "set the joint {} further off, clear of the steam.",
                            say(missing)
                        )
                    },
                );
            }
        }
    }
}

fn drip(standing: &Standing, book: &mut Notebook<'_>) {
    let say = book.by();
    let about = ["front".to_owned()];
    match standing.drip {
        None => {
            let groove = match book.style {
                LengthStyle::Millimetres => "3 by 3 mm",
                _ => "1/8 by 1/8 in",
            };
            let cure = format!(
                "run a groove {groove} under the front edge and seal it, so that water drips off."
            );
            book.whether(Rule::Drip, &about, None, &cure);
        }
        Some(behind) => book.at_least(Rule::Drip, &about, behind.mm(), None, |missing| {
            format!("run the groove {} further in.", say(missing))
        }),
    }
}
