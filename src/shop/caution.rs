//! Cautions: one line each, at the step where it applies, with its source.
//!
//! Every line defers to the can's label, the safety data sheet, local codes and licensed trades.

use super::event::CoatKind;
use super::people::Job;
use super::stage::Stage;
use crate::coating::{Family, Product};

/// One caution.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Caution {
    /// What to mind.
    pub line: &'static str,
    /// Who says so.
    pub source: &'static str,
}

impl Caution {
    /// Line and source in one.
    pub fn words(&self) -> String {
        format!("{} ({})", self.line, self.source)
    }
}

/// Rags wet with a drying oil.
const RAGS: Caution = Caution {
    line: "Oily rags can catch fire by themselves within hours: spread them flat outdoors or drown \
           them in a lidded metal can of water; follow the label and local fire code.",
    source: "NFPA oily-rag tip sheet",
};
/// Vapour.
const VAPOUR: Caution = Caution {
    line: "Vapour catches at about 102 F: no flame, pilot light or spark; fresh air and \
           organic-vapour cartridges, a dust mask does not stop it; see the safety data sheet.",
    source: "NIOSH, Stoddard solvent",
};
/// Quick solvents.
const QUICK_VAPOUR: Caution = Caution {
    line: "Vapour catches below room temperature: no flame, pilot light or spark; fresh air and \
           organic-vapour cartridges; see the label and the safety data sheet.",
    source: "29 CFR 1910.106(a)(19), category 2 liquids",
};
/// Lacquer residue.
const LACQUER: Caution = Caution {
    line: "Dry nitrocellulose residue burns very fast: keep it apart, wet, in a lidded metal can; \
           see the safety data sheet.",
    source: "US Army course EN0562",
};
/// Dust of wood.
const DUST: Caution = Caution {
    line: "Wood dust harms the lungs and nose: extract it at the tool and wear a respirator.",
    source: "NIOSH pocket guide, wood dust; 29 CFR 1910.134",
};
/// Dust of fresh finish.
const FINISH_DUST: Caution = Caution {
    line: "Dust of fresh finish can heat by itself: empty the sander bag outdoors each day.",
    source: "city fire office notice on sander dust",
};
/// Lead.
const LEAD: Caution = Caution {
    line: "House built before 1978: disturbing old paint falls under lead-safe rules; paid work \
           needs a certified firm. Test first; local rules win.",
    source: "40 CFR 745 subpart E",
};
/// Sealant and water.
const SEALANT: Caution = Caution {
    line: "Keep water and load off fresh sealant as the tube says (24 h is usual); plumbing, gas \
           and wiring belong to licensed trades.",
    source: "sealant makers' sheets; local code",
};
/// Food.
const FOOD: Caution = Caution {
    line: "No food on it before full cure; a film cut by knives is not a food surface. See the \
           label.",
    source: "21 CFR 175.300",
};

/// Leftover finish that burns.
const SOLVENT_WASTE: Caution = Caution {
    line: "Leftover finish that burns is hazardous waste: not into a drain, not wet into the bin; lid \
           on, to the waste collection, as the label, the safety data sheet and local rules say.",
    source: "40 CFR 261.21 (flash point under 140 F), from memory; local rules",
};
/// Leftover finish in water.
const WATER_WASTE: Caution = Caution {
    line: "Not into a drain or onto the ground: to the waste collection, or dried out, as the label, \
           the safety data sheet and local rules say.",
    source: "common practice; label and local rules",
};

/// Cautions of a stage as such.
pub fn cautions_for_stage(stage: Stage) -> Vec<Caution> {
    match stage {
        Stage::Sanding => vec![DUST],
        Stage::Set => vec![SEALANT, FOOD],
        Stage::Sealing | Stage::Staining | Stage::Topcoats => Vec::new(),
    }
}

/// Cautions of a pass of this product, scuffing included.
pub fn cautions_for_pass(product: &Product, kind: CoatKind, scuffs: bool) -> Vec<Caution> {
    let mut out = Vec::new();
    if product.family.oily_rags() {
        out.push(RAGS);
    }
    if product.family.solvent_vapour() {
        out.push(match product.family {
            Family::Shellac | Family::Lacquer => QUICK_VAPOUR,
            _ => VAPOUR,
        });
    }
    if product.family == Family::Lacquer {
        out.push(LACQUER);
    }
    if scuffs && kind == CoatKind::Topcoat {
        out.push(FINISH_DUST);
    }
    out
}

/// Cautions of wiping with this product, or of wiping it off.
pub fn cautions_for_wipe(product: &Product) -> Vec<Caution> {
    cautions_for_pass(product, CoatKind::Stain, false)
}

/// Cautions of throwing a can of it away.
pub fn cautions_for_discard(product: &Product) -> Vec<Caution> {
    let mut out = vec![if product.family.solvent_vapour() {
        SOLVENT_WASTE
    } else {
        WATER_WASTE
    }];
    if product.family.oily_rags() {
        out.push(RAGS);
    }
    out
}

/// Cautions of sanding a film back to wood.
pub fn sanding_cautions() -> Vec<Caution> {
    vec![DUST, FINISH_DUST]
}

/// Cautions of scuffing a film.
pub fn cautions_for_scuff() -> Vec<Caution> {
    vec![FINISH_DUST]
}

/// Cautions of a job: lead paint in a house built before 1978.
pub fn cautions_for_job(job: &Job) -> Vec<Caution> {
    if job.house_built.is_some_and(|year| year < 1978) {
        vec![LEAD]
    } else {
        Vec::new()
    }
}
