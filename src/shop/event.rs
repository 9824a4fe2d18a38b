//! One line of a piece's log.

use super::id::{EventId, PassId};
use super::schedule::Grit;
use super::stage::Stage;
use crate::coating::{ProductId, ProductKind};
use crate::shape::FaceKey;
use crate::units::{Area, Volume};
use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};

/// What a coat is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CoatKind {
    /// A seal coat.
    Seal,
    /// Stain.
    Stain,
    /// A topcoat.
    Topcoat,
}

impl CoatKind {
    /// Every kind, in the order of the stages.
    pub const ALL: [Self; 3] = [Self::Seal, Self::Stain, Self::Topcoat];

    /// The word on screen and in files.
    pub fn word(self) -> &'static str {
        match self {
            Self::Seal => "seal",
            Self::Stain => "stain",
            Self::Topcoat => "topcoat",
        }
    }

    /// As it stands before a number: `seal coat 1`, `stain`, `coat 4`.
    pub fn coat_word(self) -> &'static str {
        match self {
            Self::Seal => "seal coat",
            Self::Stain => "stain",
            Self::Topcoat => "coat",
        }
    }

    /// The stage in which it is laid.
    pub fn stage(self) -> Stage {
        match self {
            Self::Seal => Stage::Sealing,
            Self::Stain => Stage::Staining,
            Self::Topcoat => Stage::Topcoats,
        }
    }

    /// The kind of coat laid in a stage.
    pub fn of_stage(stage: Stage) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.stage() == stage)
    }

    /// The kind of product it takes.
    pub fn product_kind(self) -> ProductKind {
        match self {
            Self::Seal => ProductKind::Sealer,
            Self::Stain => ProductKind::Stain,
            Self::Topcoat => ProductKind::Topcoat,
        }
    }

    /// Whether it builds film that seals the wood.
    pub fn is_film(self) -> bool {
        self != Self::Stain
    }
}

/// How a film is keyed for the next coat.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ScuffMeans {
    /// Fine paper of this grit.
    FinePaper(Grit),
    /// A synthetic pad.
    Pad,
    /// Plain brown paper: keys the film without cutting the sheen.
    BrownPaper,
}

impl ScuffMeans {
    /// In words.
    pub fn words(self) -> String {
        match self {
            Self::FinePaper(grit) => format!("{grit} fine paper"),
            Self::Pad => "synthetic pad".to_owned(),
            Self::BrownPaper => "plain brown paper".to_owned(),
        }
    }

    /// Whether it cuts enough to abrade a film whose window was missed.
    pub fn abrades(self) -> bool {
        !matches!(self, Self::BrownPaper)
    }
}

/// What a touch test found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum TouchVerdict {
    /// Still soft.
    StillSoft,
    /// Set to touch.
    TouchDry,
    /// Tack-free.
    TackFree,
    /// Dry to recoat: sands to powder.
    DryToRecoat,
    /// Dry to handle: a thumb turned under weight moves nothing. Ends the cure before set, though
    /// not before the label's dry to handle ([`crate::shop::Gates::cured_at`]).
    DryToHandle,
}

impl TouchVerdict {
    /// Every verdict, softest first.
    pub const ALL: [Self; 5] = [
        Self::StillSoft,
        Self::TouchDry,
        Self::TackFree,
        Self::DryToRecoat,
        Self::DryToHandle,
    ];

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::StillSoft => "still soft",
            Self::TouchDry => "touch dry",
            Self::TackFree => "tack-free",
            Self::DryToRecoat => "dry to recoat (powders)",
            Self::DryToHandle => "dry to handle",
        }
    }

    /// The word in files and commands.
    pub fn code(self) -> &'static str {
        match self {
            Self::StillSoft => "still-soft",
            Self::TouchDry => "touch-dry",
            Self::TackFree => "tack-free",
            Self::DryToRecoat => "dry-to-recoat",
            Self::DryToHandle => "dry-to-handle",
        }
    }
}

/// One line of the set list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SetItem {
    /// Dry fit.
    DryFit,
    /// Field cuts sealed.
    FieldCuts,
    /// Wood and sink masked against squeeze-out.
    Masked,
    /// Sealant run, and its waiting time kept.
    Sealant,
    /// Clips or rails carry the sink or the top.
    Clips,
    /// Movement slots left free.
    Slots,
    /// Care sheet handed over.
    CareSheet,
}

impl SetItem {
    /// The list, in order.
    pub const ALL: [Self; 7] = [
        Self::DryFit,
        Self::FieldCuts,
        Self::Masked,
        Self::Sealant,
        Self::Clips,
        Self::Slots,
        Self::CareSheet,
    ];

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::DryFit => "dry fit",
            Self::FieldCuts => "field cuts sealed",
            Self::Masked => "wood and sink masked against squeeze-out",
            Self::Sealant => {
                "sealant run; no water for its waiting time (24 h or as the tube says)"
            }
            Self::Clips => "clips or rails carry the load, not the sealant",
            Self::Slots => "movement slots left free",
            Self::CareSheet => "care sheet handed over",
        }
    }

    /// The word in files and commands.
    pub fn code(self) -> &'static str {
        match self {
            Self::DryFit => "dry-fit",
            Self::FieldCuts => "field-cuts",
            Self::Masked => "masked",
            Self::Sealant => "sealant",
            Self::Clips => "clips",
            Self::Slots => "slots",
            Self::CareSheet => "care-sheet",
        }
    }
}

/// What was done.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum What {
    /// One face carries one grit.
    Tick {
        /// The face.
        face: FaceKey,
        /// The grit.
        grit: Grit,
    },
    /// A tick was a mistake: it and the later ticks and the wipe-down of that face are taken back.
    Untick {
        /// The face.
        face: FaceKey,
        /// The grit.
        grit: Grit,
    },
    /// Faces were wiped down.
    Wipe {
        /// The faces.
        faces: Vec<FaceKey>,
    },
    /// A pass, as this piece sees it. The line's time is the end of the pass.
    Coat {
        /// The pass.
        pass: PassId,
        /// What kind of coat.
        kind: CoatKind,
        /// Of what.
        product: ProductId,
        /// The faces and the area of each at the time.
        faces: Vec<(FaceKey, Area)>,
        /// When the pass started.
        started: DateTime<Utc>,
        /// This piece's share of what was used.
        used: Volume,
    },
    /// The stain of these faces was wiped off.
    WipeOff {
        /// The faces.
        faces: Vec<FaceKey>,
    },
    /// Faces were scuffed or abraded.
    Scuff {
        /// The faces.
        faces: Vec<FaceKey>,
        /// With what.
        means: ScuffMeans,
    },
    /// A touch test of the last coat of these faces.
    Touch {
        /// The faces.
        faces: Vec<FaceKey>,
        /// What it found.
        verdict: TouchVerdict,
    },
    /// Faces were sanded back with this grit; finer grits, wipe-down and coats are to do again.
    SandBack {
        /// The faces.
        faces: Vec<FaceKey>,
        /// The grit they now stand at.
        to: Grit,
        /// Why.
        reason: String,
    },
    /// A face will be hidden (glued to another part, say) and needs no coats.
    NotExposed {
        /// The face.
        face: FaceKey,
        /// The written reason.
        reason: String,
    },
    /// The declaration above is withdrawn.
    Exposed {
        /// The face.
        face: FaceKey,
    },
    /// The shape was changed after work had started.
    Reshaped {
        /// Faces that are new, and bare.
        added: Vec<FaceKey>,
        /// Faces that are no more.
        removed: Vec<FaceKey>,
    },
    /// Moved along.
    Moved {
        /// From.
        from: Stage,
        /// To.
        to: Stage,
    },
    /// A line of the set list was ticked, or the tick taken off.
    SetList {
        /// Which.
        item: SetItem,
        /// Whether it is done.
        done: bool,
    },
}

/// One line of a piece's log: when, and what.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Event {
    /// Its identifier; the log's order.
    pub id: EventId,
    /// When it happened.
    pub at: DateTime<Utc>,
    /// What was done.
    pub what: What,
}
