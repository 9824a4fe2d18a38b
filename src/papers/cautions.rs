//! Which cautions stand on a ticket.

use crate::desk::Shop;
use crate::shop::{
    Caution, CoatKind, PieceFile, Stage, Ticket, WipeDown, cautions_for_job, cautions_for_pass,
    cautions_for_stage,
};

/// The cautions of the work still to do, each with the stages where it applies; those of the site
/// name none.
pub fn ticket_cautions(
    shop: &Shop,
    file: &PieceFile,
    ticket: &Ticket,
) -> Vec<(Vec<Stage>, Caution)> {
    let mut out: Vec<(Vec<Stage>, Caution)> = Vec::new();
    if ticket.finished.is_some() {
        return out;
    }
    let schedule = &ticket.schedule;
    for stage in Stage::ALL
        .into_iter()
        .filter(|stage| *stage >= ticket.stage)
    {
        if !schedule.asks(stage) {
            continue;
        }
        let mut here = cautions_for_stage(stage);
        let kind = CoatKind::of_stage(stage);
        let product = match (kind, schedule.wipe_down) {
            (Some(kind), _) => schedule.product_for(kind),
            (None, WipeDown::With(id)) if stage == Stage::Sanding => Some(id),
            _ => None,
        };
        if let Some(product) = product.and_then(|id| shop.product(id)) {
            let kind = kind.unwrap_or(CoatKind::Seal);
            here.extend(cautions_for_pass(product, kind, schedule.scuff.is_some()));
        }
        for caution in here {
            match out.iter_mut().find(|(_, known)| *known == caution) {
                Some((stages, _)) => stages.push(stage),
                None => out.push((vec![stage], caution)),
            }
        }
    }
    let site = shop
        .job(file.piece.job)
        .map(cautions_for_job)
        .unwrap_or_default();
    out.extend(site.into_iter().map(|caution| (Vec::new(), caution)));
    out
}
