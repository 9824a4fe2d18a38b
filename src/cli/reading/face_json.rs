//! What a face carries, as JSON.

use super::{fine, moment};
use crate::desk::Shop;
use crate::papers::pass_code;
use crate::shop::{Coat, CoatKind, FaceState, Ticket};
use serde::Serialize;

/// One face.
#[derive(Debug, Serialize)]
pub(super) struct FaceJson {
    face: String,
    name: String,
    grain: String,
    group: String,
    area_m2: f64,
    grits: Vec<GritJson>,
    wiped_at: Option<String>,
    seal_coats: CountJson,
    stain: CountJson,
    topcoats: CountJson,
    not_exposed: Option<String>,
    sanded_back: u32,
    coats: Vec<CoatJson>,
}

#[derive(Debug, Serialize)]
struct GritJson {
    grit: u16,
    done_at: Option<String>,
}

#[derive(Debug, Serialize)]
struct CountJson {
    has: u8,
    asked: u8,
}

#[derive(Debug, Serialize)]
struct CoatJson {
    pass: String,
    pass_id: String,
    kind: &'static str,
    product: String,
    started_at: String,
    ended_at: String,
    wiped_off_at: Option<String>,
    scuffed_at: Option<String>,
    scuffed_with: Option<String>,
    touch_tested_at: Option<String>,
    touch_verdict: Option<&'static str>,
}

impl FaceJson {
    /// A face of a ticket.
    pub(super) fn of(face: &FaceState, ticket: &Ticket, shop: &Shop) -> Self {
        let count = |kind| CountJson {
            has: face.count(kind),
            asked: ticket.asked(face, kind),
        };
        let grits = ticket.plan(face).grits.iter().map(|grit| GritJson {
            grit: grit.0,
            done_at: face.ticks.get(grit).copied().map(moment),
        });
        Self {
            face: face.key.code(),
            name: face.key.to_string(),
            grain: face.grain.to_string(),
            group: face.group.to_string(),
            area_m2: fine(face.area.m2()),
            grits: grits.collect(),
            wiped_at: face.wiped.map(moment),
            seal_coats: count(CoatKind::Seal),
            stain: count(CoatKind::Stain),
            topcoats: count(CoatKind::Topcoat),
            not_exposed: face.not_exposed.clone(),
            sanded_back: face.sand_backs,
            coats: face.coats.iter().map(|one| coat(one, shop)).collect(),
        }
    }
}

fn coat(coat: &Coat, shop: &Shop) -> CoatJson {
    CoatJson {
        pass: pass_code(coat.pass),
        pass_id: coat.pass.to_string(),
        kind: coat.kind.word(),
        product: shop
            .product(coat.product)
            .map_or_else(String::new, |product| product.name.clone()),
        started_at: moment(coat.started),
        ended_at: moment(coat.ended),
        wiped_off_at: coat.wiped_off.map(moment),
        scuffed_at: coat.scuffed.map(|(at, _)| moment(at)),
        scuffed_with: coat.scuffed.map(|(_, means)| means.words()),
        touch_tested_at: coat.touch.map(|(at, _)| moment(at)),
        touch_verdict: coat.touch.map(|(_, verdict)| verdict.code()),
    }
}
