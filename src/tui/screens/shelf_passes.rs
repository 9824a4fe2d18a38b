//! The passes behind a line of use: when, on what, how much and how that is known.

use super::super::screen::Ctx;
use super::list::{Entry, Line, Tone, count, plain};
use super::shelf_tally::{UseKey, product_called, rate_words};
use crate::shape::FaceKey;
use crate::shop::{AmountBasis, JobId, Pass, PassId, PieceFile, What};
use crate::units::Volume;
use crate::units::moment::show_moment;

/// What a pass did on one piece.
struct Part<'a> {
    file: &'a PieceFile,
    faces: Vec<FaceKey>,
    used: Volume,
}

fn parts<'a>(pass: PassId, ctx: &Ctx<'a>) -> Vec<Part<'a>> {
    let mut out = Vec::new();
    for file in &ctx.shop.files {
        for event in &file.events {
            if let What::Coat {
                pass: of,
                faces,
                used,
                ..
            } = &event.what
                && *of == pass
            {
                let faces = faces.iter().map(|(face, _)| *face).collect();
                out.push(Part {
                    file,
                    faces,
                    used: *used,
                });
            }
        }
    }
    out
}

/// The passes of a job, or all, newest first.
fn passes<'a>(job: Option<JobId>, ctx: &Ctx<'a>) -> Vec<&'a Pass> {
    let touches = |pass: &Pass| {
        let files = ctx
            .shop
            .files
            .iter()
            .filter(|file| job.is_none_or(|job| file.piece.job == job));
        files
            .flat_map(|file| &file.events)
            .any(|event| matches!(&event.what, What::Coat { pass: of, .. } if *of == pass.id))
    };
    let mut out: Vec<&Pass> = ctx
        .shop
        .passes
        .iter()
        .filter(|pass| touches(pass))
        .collect();
    out.sort_by_key(|pass| std::cmp::Reverse((pass.ended, pass.id)));
    out
}

pub(super) fn keys(job: Option<JobId>, ctx: &Ctx<'_>) -> Vec<PassId> {
    passes(job, ctx).iter().map(|pass| pass.id).collect()
}

/// The newest pass of a line of use.
pub(super) fn first_of(used: UseKey, ctx: &Ctx<'_>) -> Option<PassId> {
    passes(used.job, ctx)
        .iter()
        .find(|pass| pass.kind == used.kind && pass.product == used.product)
        .map(|pass| pass.id)
}

pub(super) fn entries(job: Option<JobId>, ctx: &Ctx<'_>) -> Vec<Entry> {
    let passes = passes(job, ctx);
    let mut out = vec![Entry::note(
        Tone::Dim,
        format!(
            "{}, newest first. Enter corrects how much a pass used.",
            count(passes.len(), "pass")
        ),
    )];
    out.extend(passes.into_iter().map(|pass| Entry::row(lines(pass, ctx))));
    out
}

fn lines(pass: &Pass, ctx: &Ctx<'_>) -> Vec<Line> {
    let settings = &ctx.shop.settings;
    let moment = |at| show_moment(at, ctx.now, ctx.zone());
    let mut out = vec![
        plain(format!(
            "{} to {}: {}",
            moment(pass.started),
            moment(pass.ended),
            product_called(pass.product, pass.kind, ctx)
        )),
        plain(format!(
            "    {} {}",
            pass.amount.volume.show(settings.volume),
            basis(pass, ctx)
        )),
    ];
    let parts = parts(pass.id, ctx);
    for part in &parts {
        let share = match parts.len() {
            1 => String::new(),
            _ => format!(", its share {}", part.used.show(settings.volume)),
        };
        let faces = faces(part);
        out.push((
            Tone::Dim,
            format!("    {}: {faces}{share}", ctx.shop.called(part.file)),
        ));
    }
    if let Some(air) = pass.air {
        let (warm, damp) = (
            air.temperature.show(settings.temperature),
            air.humidity.show(),
        );
        out.push((Tone::Dim, format!("    shop air {warm}, {damp} humidity")));
    }
    out
}

fn basis(pass: &Pass, ctx: &Ctx<'_>) -> String {
    match pass.amount.basis {
        AmountBasis::Estimated => {
            format!(
                "estimated at {}",
                rate_words(ctx.shop.product(pass.product))
            )
        }
        AmountBasis::Measured => "measured".to_owned(),
        AmountBasis::Weighed { before, after } => {
            format!(
                "weighed: can {} before, {} after",
                before.show(),
                after.show()
            )
        }
    }
}

/// The faces by name, or `all 9 faces`.
fn faces(part: &Part<'_>) -> String {
    let all = part.file.piece.shape.faces(part.file.piece.construction);
    if all.len() == part.faces.len() && all.iter().all(|face| part.faces.contains(&face.key)) {
        return format!("all {}", count(all.len(), "face"));
    }
    part.faces
        .iter()
        .map(ToString::to_string)
        .collect::<Vec<_>>()
        .join(", ")
}
