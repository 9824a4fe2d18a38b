//! From cans, their logs and the passes to what is left in each, where the rest went and what it
//! cost.

use super::can::{Came, Can};
use super::can_log::{CanLine, CanWhat, Draw, Weights};
use super::can_money::{Pot, split_money, split_volume};
use super::can_state::{CanMove, CanStanding, CanState, CanSums, EmptyWeight, Known, MoveOf, Qty};
use super::id::{CanId, PassId};
use super::pass::Pass;
use crate::coating::Product;
use crate::units::{Density, Mass, Money, Volume};
use chrono::{DateTime, Utc};
use std::collections::HashMap;
use uuid::Uuid;

/// Two readings of one weight may differ by so much through rounding, in microlitres.
const ROUNDING: i64 = 2;

/// Cans, their logs, and the passes that drew on them, as they are written down.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CanRecords {
    /// The cans, in the order of their identifiers.
    pub cans: Vec<Can>,
    /// The lines of their logs, in the order of theirs.
    pub lines: Vec<CanLine>,
    /// The passes.
    pub passes: Vec<Pass>,
}

impl CanRecords {
    /// Folds them.
    pub fn fold(self, products: &[Product]) -> CanBook {
        let mut book = fold_cans(&self.cans, &self.lines, &self.passes, products);
        book.lines = self.lines;
        book
    }
}

/// Every can as it stands.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct CanBook {
    /// The cans, in the order in which they came.
    pub cans: Vec<CanState>,
    /// What each pass took out of all its cans; passes that name no can are not in it.
    pub passes: HashMap<PassId, Qty>,
    /// The lines of their logs.
    pub lines: Vec<CanLine>,
}

impl CanBook {
    /// A can.
    pub fn can(&self, id: CanId) -> Option<&CanState> {
        self.cans.iter().find(|state| state.can.id == id)
    }

    /// What went where of these cans, all together.
    pub fn sums<'a>(cans: impl IntoIterator<Item = &'a CanState>) -> CanSums {
        let mut out = CanSums::default();
        for CanState { sums, .. } in cans {
            out.on_wood += sums.on_wood;
            out.rag += sums.rag;
            out.jars += sums.jars;
            out.lost += sums.lost;
            out.mixed += sums.mixed;
            out.discarded += sums.discarded;
            out.found += sums.found;
        }
        out
    }
}

/// One thing in a can's life.
enum Entry<'a> {
    Line(&'a CanLine),
    Draw {
        pass: &'a Pass,
        draw: &'a Draw,
        rag: Volume,
    },
}

impl Entry<'_> {
    fn order(&self) -> (DateTime<Utc>, Uuid) {
        match self {
            Self::Line(line) => (line.at, line.id.0),
            Self::Draw { pass, .. } => (pass.ended, pass.id.0),
        }
    }
}

/// Folds all cans. A mixed can has a later identifier than those it was mixed of, so that one round
/// in the order of the identifiers knows what went into it. Weights become volumes by the density
/// that the product has now; a can whose product is not among them counts as water.
pub fn fold_cans(
    cans: &[Can],
    lines: &[CanLine],
    passes: &[Pass],
    products: &[Product],
) -> CanBook {
    let mut entries: HashMap<CanId, Vec<Entry<'_>>> = HashMap::new();
    for line in lines {
        entries.entry(line.can).or_default().push(Entry::Line(line));
    }
    for pass in passes {
        let draws = &pass.drawn.draws;
        let weights: Vec<i64> = draws.iter().map(|draw| draw.volume.ul()).collect();
        let rags = split_volume(pass.drawn.lost_volume(), &weights);
        for (draw, rag) in draws.iter().zip(rags) {
            let entry = Entry::Draw { pass, draw, rag };
            entries.entry(draw.can).or_default().push(entry);
        }
    }
    let mut ordered: Vec<&Can> = cans.iter().collect();
    ordered.sort_by_key(|can| can.id);
    let mut book = CanBook::default();
    let mut mixed: HashMap<CanId, Money> = HashMap::new();
    for can in ordered {
        let price = match can.came {
            Came::Bought { price, .. } => price,
            Came::Mixed { .. } => mixed.get(&can.id).copied().unwrap_or_default(),
        };
        let density = products
            .iter()
            .find(|product| product.id == can.product)
            .map(|product| product.label.density);
        let mut fold = Fold::of(can, price, density);
        let mut of = entries.remove(&can.id).unwrap_or_default();
        of.sort_by_key(Entry::order);
        for entry in of {
            fold.take_in(&entry);
        }
        for step in &fold.state.moves {
            match step.of {
                MoveOf::Pass(pass, _) => *book.passes.entry(pass).or_default() += step.qty,
                MoveOf::MixedInto(into) => *mixed.entry(into).or_default() += step.qty.cost,
                _ => {}
            }
        }
        book.cans.push(fold.done());
    }
    book
}

struct Fold {
    state: CanState,
    pot: Pot,
    density: Option<Density>,
}

impl Fold {
    fn of(can: &Can, price: Money, density: Option<Density>) -> Self {
        let came = Qty {
            volume: can.held,
            cost: price,
        };
        Self {
            state: CanState {
                can: can.clone(),
                place: can.place.clone(),
                came,
                left: came,
                known: Known::AsItCame,
                // A can that was mixed or came begun stands open from the start.
                opened: match can.came {
                    Came::Mixed { at } => Some(at),
                    Came::Bought { .. } => None,
                },
                standing: CanStanding::Sealed,
                weighed: None,
                empty: can.empty.map(EmptyWeight::Given),
                moves: Vec::new(),
                sums: CanSums::default(),
            },
            pot: Pot::of(can.held, price),
            density,
        }
    }

    fn take_in(&mut self, entry: &Entry<'_>) {
        match entry {
            Entry::Draw { pass, draw, rag } => self.draw(pass, draw, *rag),
            Entry::Line(line) => self.line(line),
        }
    }

    fn line(&mut self, line: &CanLine) {
        let at = line.at;
        match &line.what {
            CanWhat::Opened => self.open(at),
            CanWhat::Weighed(mass) => self.weigh(at, *mass),
            CanWhat::Jar { volume, .. } => self.out(at, MoveOf::Jar(line.id), *volume),
            CanWhat::Lost { volume, .. } => self.out(at, MoveOf::Lost(line.id), *volume),
            CanWhat::MixedInto { into, volume } => {
                self.out(at, MoveOf::MixedInto(*into), *volume);
            }
            CanWhat::Discarded { .. } => {
                self.step(at, MoveOf::Discarded, self.pot.left());
                self.state.standing = CanStanding::Discarded(at);
            }
            CanWhat::Moved { place } => self.state.place.clone_from(place),
        }
    }

    fn draw(&mut self, pass: &Pass, draw: &Draw, rag: Volume) {
        let at = pass.ended;
        if let Some(Weights { before, .. }) = draw.weights {
            self.weigh(at, before);
        }
        self.open(pass.started);
        let rag = Qty {
            volume: rag,
            cost: Money::ZERO,
        };
        self.out(at, MoveOf::Pass(pass.id, rag), draw.volume);
        if let Some(Weights { after, .. }) = draw.weights {
            self.state.known = Known::Weighed(at);
            self.state.weighed = Some((at, after));
        }
    }

    fn open(&mut self, at: DateTime<Utc>) {
        self.state.opened = self.state.opened.or(Some(at));
    }

    /// Something goes out that somebody saw going out: it was in the can, whatever was reckoned.
    fn out(&mut self, at: DateTime<Utc>, of: MoveOf, volume: Volume) {
        self.open(at);
        let short = volume - self.pot.left();
        if short > Volume::ZERO {
            self.step(at, MoveOf::Found, Volume::ZERO - short);
        }
        self.step(at, of, volume);
        self.state.known = Known::Subtracted(match self.state.known {
            Known::AsItCame => None,
            Known::Weighed(at) => Some(at),
            Known::Subtracted(since) => since,
        });
    }

    fn weigh(&mut self, at: DateTime<Utc>, mass: Mass) {
        let (left, density) = (self.pot.left(), self.density);
        let volume_of = |mass: Mass| match density {
            Some(density) => density.volume_of(mass),
            None => Volume::from_ul(mass.mg()),
        };
        let content = match density {
            Some(density) => density.mass_of(left),
            None => Mass::from_mg(left.ul()),
        };
        let level = if let Some(empty) = self.state.empty {
            volume_of((mass - empty.mass()).max(Mass::ZERO))
        } else {
            let empty = (mass - content).max(Mass::ZERO);
            self.state.empty = Some(EmptyWeight::Reckoned(empty));
            // Lighter than what should be in it alone: then less is in it.
            if mass < content {
                volume_of(mass)
            } else {
                left
            }
        };
        let gone = left - level;
        if gone.ul().abs() > ROUNDING || (level == Volume::ZERO && gone != Volume::ZERO) {
            self.step(at, MoveOf::Found, gone);
        }
        self.state.known = Known::Weighed(at);
        self.state.weighed = Some((at, mass));
    }

    fn step(&mut self, at: DateTime<Utc>, of: MoveOf, volume: Volume) {
        let cost = self.pot.take(volume);
        let qty = Qty { volume, cost };
        let sums = &mut self.state.sums;
        let of = match of {
            MoveOf::Pass(pass, rag) => {
                let on_wood = volume - rag.volume;
                let costs = split_money(cost, &[on_wood.ul(), rag.volume.ul()]);
                let part = |volume, at: usize| Qty {
                    volume,
                    cost: costs.get(at).copied().unwrap_or_default(),
                };
                let rag = part(rag.volume, 1);
                sums.on_wood += part(on_wood, 0);
                sums.rag += rag;
                MoveOf::Pass(pass, rag)
            }
            other => {
                *match other {
                    MoveOf::Jar(_) => &mut sums.jars,
                    MoveOf::Lost(_) => &mut sums.lost,
                    MoveOf::MixedInto(_) => &mut sums.mixed,
                    MoveOf::Discarded => &mut sums.discarded,
                    MoveOf::Pass(..) | MoveOf::Found => &mut sums.found,
                } += qty;
                other
            }
        };
        self.state.moves.push(CanMove {
            at,
            of,
            qty,
            left: self.pot.left(),
        });
    }

    fn done(mut self) -> CanState {
        self.state.left = Qty {
            volume: self.pot.left(),
            cost: self.pot.worth(),
        };
        self.state.standing = match self.state.standing {
            gone @ CanStanding::Discarded(_) => gone,
            _ if self.state.left.volume <= Volume::ZERO => CanStanding::Empty,
            _ if self.state.opened.is_some() => CanStanding::Open,
            _ => CanStanding::Sealed,
        };
        self.state
    }
}
