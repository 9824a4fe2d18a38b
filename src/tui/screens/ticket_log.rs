//! The log of a piece, to read on the screen.

use super::super::screen::Ctx;
use crate::shop::{Event, PieceId, What};
use crate::units::moment::show_moment;

/// The log of a piece, oldest first, in words.
pub(super) fn log_lines(piece: PieceId, ctx: &Ctx<'_>) -> Vec<String> {
    let Some(file) = ctx.shop.file(piece) else {
        return Vec::new();
    };
    if file.events.is_empty() {
        return vec!["Nothing was logged yet.".to_owned()];
    }
    file.events
        .iter()
        .map(|event| event_line(event, ctx))
        .collect()
}

fn event_line(event: &Event, ctx: &Ctx<'_>) -> String {
    let when = show_moment(event.at, ctx.now, ctx.zone());
    format!(
        "{when}: {}",
        crate::papers::event_words(&event.what, ctx.shop, &|what| pass_words(what, ctx))
    )
}

/// Amount and air of a pass, for its line in the log.
fn pass_words(what: &What, ctx: &Ctx<'_>) -> String {
    let What::Coat { pass, .. } = what else {
        return String::new();
    };
    let settings = &ctx.shop.settings;
    ctx.shop
        .passes
        .iter()
        .find(|other| other.id == *pass)
        .map_or_else(String::new, |pass| {
            let air = pass.air.map_or_else(String::new, |air| {
                format!(
                    ", {} {}",
                    air.temperature.show(settings.temperature),
                    air.humidity.show()
                )
            });
            format!(
                " ({} in all, {}{air})",
                pass.amount.volume.show(settings.volume),
                pass.amount.basis.word()
            )
        })
}
