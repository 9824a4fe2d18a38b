//! The shop's own spread rates, read off its logs: per product, way of putting it on, ground and
//! wood.
//!
//! Where a wood has passes of its own, its rate starts from what the other woods taught with the
//! same product, way and ground, and moves away from that as its own passes ask. What the other
//! woods taught starts from the label. A wood without passes takes the other woods' rate; where
//! there are none either, the label counts.

use super::event::What;
use super::id::PassId;
use super::pass::{AmountBasis, Pass};
use super::piece::PieceFile;
use super::ticket::Ticket;
use super::use_book::{UseBook, yours};
use crate::coating::rates::{
    Ground, LearnedRate, Method, Prior, RatePass, learn_rate, learn_rate_from,
};
use crate::coating::{Product, ProductId};
use crate::units::{Area, SpreadRate, Volume};
use chrono::{DateTime, Utc};
use std::collections::{BTreeMap, HashMap};

/// The newest measured passes of a product that are looked at: hands and habits change, and the
/// cost of learning stays the same however long the shop has been open.
pub const NEWEST_PASSES: u32 = 60;

/// The share of a pass's area that must lie on one ground, or in one wood, for the pass to speak
/// of it. Judgement.
const MOSTLY: f64 = 0.9;

/// What a rate is of.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct RateKey {
    /// The product.
    pub product: ProductId,
    /// How it is put on.
    pub method: Method,
    /// Where in the build.
    pub ground: Ground,
}

/// One measured pass, as learning sees it.
#[derive(Debug, Clone, PartialEq)]
pub struct SeenPass {
    /// The pass.
    pub pass: PassId,
    /// Its end.
    pub ended: DateTime<Utc>,
    /// Of what.
    pub product: ProductId,
    /// How it was put on.
    pub method: Method,
    /// Where; none where it lay on bare wood and on older coats alike.
    pub ground: Option<Ground>,
    /// In which wood; none where it lay on several.
    pub wood: Option<String>,
    /// Area and use.
    pub of: RatePass,
    /// Why it teaches nothing, if it was struck out.
    pub struck: Option<String>,
}

/// What was learned of one product, way and ground.
#[derive(Debug, Clone, PartialEq)]
pub struct RateLine {
    /// What it is of.
    pub key: RateKey,
    /// Over all woods.
    pub all: LearnedRate,
    /// Per wood that has passes of its own, by its name in small letters.
    pub woods: BTreeMap<String, LearnedRate>,
}

/// What stands behind a rate in use.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RateBasis {
    /// The label's figure.
    Label,
    /// The shop's own, from so many passes on this wood.
    Yours {
        /// How many.
        passes: usize,
    },
    /// The shop's own, from so many passes on other woods.
    YoursOnOthers {
        /// How many.
        passes: usize,
    },
}

impl RateBasis {
    /// `yours from 6 passes`, `label`.
    pub fn words(self) -> String {
        match self {
            Self::Label => "label".to_owned(),
            Self::Yours { passes } => yours(passes),
            Self::YoursOnOthers { passes } => format!("{} on other woods", yours(passes)),
        }
    }
}

/// A rate to plan by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RateInUse {
    /// The rate.
    pub rate: SpreadRate,
    /// What stands behind it.
    pub basis: RateBasis,
}

/// Every rate the shop has learned. Empty, it tells the label's.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RateBook {
    /// The lines, in the order of their keys.
    pub lines: Vec<RateLine>,
    /// The passes looked at, newest first; struck and mixed ones too.
    pub seen: Vec<SeenPass>,
}

/// How a pass was put on.
pub fn method_of(pass: &Pass, product: &Product) -> Method {
    pass.method(product)
}

/// A wood's name as rates are kept by.
fn wood_name(species: &str) -> String {
    let words = species.split_whitespace();
    words.collect::<Vec<_>>().join(" ").to_lowercase()
}

/// What the logs say of one pass.
#[derive(Default)]
struct Gathered {
    parts: Vec<(Ground, String, f64)>,
    used: i64,
}

impl Gathered {
    fn area(&self) -> f64 {
        self.parts.iter().map(|(_, _, m2)| m2).sum()
    }

    /// The one thing that most of the area is, if one is.
    fn mostly<T: Ord>(&self, of: impl Fn(&(Ground, String, f64)) -> T) -> Option<T> {
        let mut by: BTreeMap<T, f64> = BTreeMap::new();
        for part in &self.parts {
            *by.entry(of(part)).or_default() += part.2;
        }
        let whole = self.area();
        by.into_iter()
            .find(|(_, m2)| *m2 >= MOSTLY * whole)
            .map(|(what, _)| what)
    }
}

fn gather(files: &[PieceFile], measured: &HashMap<PassId, &Pass>) -> BTreeMap<PassId, Gathered> {
    let mut out: BTreeMap<PassId, Gathered> = BTreeMap::new();
    for file in files {
        let speaks =
            |what: &What| matches!(what, What::Coat { pass, .. } if measured.contains_key(pass));
        if !file.events.iter().any(|event| speaks(&event.what)) {
            continue;
        }
        let wood = wood_name(&file.piece.species);
        let mut ticket = Ticket::blank(&file.piece, &file.schedule, &file.events);
        for event in &file.events {
            if let What::Coat {
                pass, faces, used, ..
            } = &event.what
                && measured.contains_key(pass)
            {
                let gathered = out.entry(*pass).or_default();
                gathered.used += used.ul();
                for (key, area) in faces {
                    let bare = ticket.face(*key).is_none_or(|face| face.coats.is_empty());
                    let ground = if bare {
                        Ground::BareWood
                    } else {
                        Ground::Later
                    };
                    gathered.parts.push((ground, wood.clone(), area.m2()));
                }
            }
            ticket.fold(event);
        }
    }
    out
}

impl RateBook {
    /// Learns from the logs. `method_of` says how a pass was put on.
    pub fn learn(
        files: &[PieceFile],
        passes: &[Pass],
        products: &[Product],
        book: &UseBook,
        method_of: impl Fn(&Pass, &Product) -> Method,
    ) -> Self {
        let measured: HashMap<PassId, &Pass> = passes
            .iter()
            .filter(|pass| pass.amount.basis.is_measured())
            .map(|pass| (pass.id, pass))
            .collect();
        let mut seen: Vec<SeenPass> = Vec::new();
        for (id, gathered) in gather(files, &measured) {
            let found = measured.get(&id).and_then(|pass| {
                let product = products.iter().find(|p| p.id == pass.product)?;
                Some((*pass, product))
            });
            let Some((pass, product)) = found else {
                continue;
            };
            let step = match pass.amount.basis {
                AmountBasis::Weighed { .. } => {
                    RatePass::scale_step(book.rules.scale, product.label.density)
                }
                _ => book.rules.cup,
            };
            seen.push(SeenPass {
                pass: id,
                ended: pass.ended,
                product: product.id,
                method: method_of(pass, product),
                ground: gathered.mostly(|part| part.0),
                wood: gathered.mostly(|part| part.1.clone()),
                of: RatePass {
                    area: Area::from_m2(gathered.area()),
                    used: Volume::from_ul(gathered.used),
                    step,
                },
                struck: book.struck(id).map(str::to_owned),
            });
        }
        seen.sort_by_key(|seen| std::cmp::Reverse((seen.ended, seen.pass)));
        let mut counts: HashMap<ProductId, u32> = HashMap::new();
        seen.retain(|seen| {
            let count = counts.entry(seen.product).or_default();
            *count += 1;
            *count <= NEWEST_PASSES
        });
        let mut by_key: BTreeMap<RateKey, Vec<&SeenPass>> = BTreeMap::new();
        for pass in seen.iter().filter(|pass| pass.struck.is_none()) {
            let Some(ground) = pass.ground else { continue };
            let key = RateKey {
                product: pass.product,
                method: pass.method,
                ground,
            };
            by_key.entry(key).or_default().push(pass);
        }
        let lines = by_key
            .into_iter()
            .filter_map(|(key, of)| {
                let product = products.iter().find(|p| p.id == key.product)?;
                line(key, product.label.spread, &of)
            })
            .collect();
        Self { lines, seen }
    }

    /// The line of a product, way and ground.
    pub fn line(&self, key: &RateKey) -> Option<&RateLine> {
        self.lines.iter().find(|line| line.key == *key)
    }

    /// The rate to plan by; see the head of the file for what comes before what.
    pub fn rate(
        &self,
        product: &Product,
        method: Method,
        ground: Ground,
        species: &str,
    ) -> RateInUse {
        let key = RateKey {
            product: product.id,
            method,
            ground,
        };
        let label = RateInUse {
            rate: product.label.spread,
            basis: RateBasis::Label,
        };
        let Some(line) = self.line(&key) else {
            return label;
        };
        if let Some(own) = line.woods.get(&wood_name(species)) {
            return RateInUse {
                rate: own.rate(),
                basis: RateBasis::Yours { passes: own.passes },
            };
        }
        let passes = line.all.passes;
        RateInUse {
            rate: line.all.rate(),
            basis: RateBasis::YoursOnOthers { passes },
        }
    }

    /// How the shop puts a product on: as in most of its measured passes (of equally many, the
    /// newest one's way), else as is usual for the family.
    pub fn method_for(&self, product: &Product) -> Method {
        let of = || {
            let own = self.seen.iter().filter(|seen| seen.product == product.id);
            own.map(|seen| seen.method)
        };
        let count = |method: Method| of().filter(|other| *other == method).count();
        let most = Method::ALL.into_iter().map(count).max().unwrap_or(0);
        of().find(|method| count(*method) == most)
            .unwrap_or_else(|| Method::usual(product.family))
    }
}

fn line(key: RateKey, label: SpreadRate, of: &[&SeenPass]) -> Option<RateLine> {
    let passes = |test: &dyn Fn(&SeenPass) -> bool| -> Vec<RatePass> {
        let picked = of.iter().filter(|seen| test(seen));
        picked.map(|seen| seen.of).collect()
    };
    let all = learn_rate(label, &passes(&|_| true));
    if all.passes == 0 {
        return None;
    }
    let mut woods = BTreeMap::new();
    for wood in of.iter().filter_map(|seen| seen.wood.as_ref()) {
        if woods.contains_key(wood) {
            continue;
        }
        let others = learn_rate(label, &passes(&|seen| seen.wood.as_ref() != Some(wood)));
        let own = passes(&|seen| seen.wood.as_ref() == Some(wood));
        let learned = learn_rate_from(Prior::from_other_woods(&others), label, &own);
        if learned.passes > 0 {
            woods.insert(wood.clone(), learned);
        }
    }
    Some(RateLine { key, all, woods })
}
