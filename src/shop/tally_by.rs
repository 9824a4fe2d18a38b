//! The tally by job, client, product or month: planned, used, lost, cost, film, batches.

use super::can_fold::CanBook;
use super::can_log::{CanWhat, JarFor};
use super::can_state::{CanMove, CanSums, MoveOf, Qty};
use super::event::CoatKind;
use super::id::{ClientId, JobId, PieceId};
use super::pass::Pass;
use super::people::Job;
use super::piece::PieceFile;
use super::tally::planned_use_by;
use super::tally_film::{MethodFilm, solids};
use super::tally_lines::{UseLine, use_lines};
use super::use_rates::RateBook;
use crate::coating::film::film;
use crate::coating::{Method, Product, ProductId};
use crate::shape::FaceKey;
use crate::units::{Area, Money, Volume};
use chrono::{DateTime, Datelike, Utc};
use chrono_tz::Tz;
use std::collections::{BTreeMap, BTreeSet};

/// What a tally is added up by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TallyBy {
    /// Job by job.
    Job,
    /// Client by client.
    Client,
    /// Product by product.
    Product,
    /// Month by month, on the shop's calendar, by the end of each pass.
    Month,
}

/// Of what a group is the tally.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum GroupKey {
    /// A job.
    Job(JobId),
    /// A client.
    Client(ClientId),
    /// A product.
    Product(ProductId),
    /// A year and its month, from 1.
    Month(i32, u32),
}

/// One product's line in a group.
#[derive(Debug, Clone, PartialEq)]
pub struct UseRow {
    /// The product.
    pub product: ProductId,
    /// What it was used as.
    pub kind: CoatKind,
    /// Area coated, every coat counted.
    pub coated: Area,
    /// Used, by weighing or measuring, rag and tray included.
    pub measured: Volume,
    /// Used, by area over the label's spread rate.
    pub estimated: Volume,
    /// Of both, in rag and tray as weighed.
    pub lost: Volume,
    /// Planned for the whole schedules; none by month, since no plan has a month.
    pub planned: Option<Volume>,
    /// What the passes made take at the label's spread rate.
    pub at_label: Volume,
    /// Cost of what was used.
    pub cost: Money,
    /// Of that, reckoned by the product's can price, because no can is named.
    pub cost_at_price: Money,
    /// Of what was used, what came from no named can.
    pub no_can: Volume,
    /// Wiped, brushed and sprayed side by side, those there are.
    pub films: Vec<MethodFilm>,
    /// Batches used.
    pub batches: Vec<String>,
}

impl UseRow {
    fn new(product: ProductId, kind: CoatKind) -> Self {
        Self {
            product,
            kind,
            coated: Area::ZERO,
            measured: Volume::ZERO,
            estimated: Volume::ZERO,
            lost: Volume::ZERO,
            planned: None,
            at_label: Volume::ZERO,
            cost: Money::ZERO,
            cost_at_price: Money::ZERO,
            no_can: Volume::ZERO,
            films: Vec::new(),
            batches: Vec::new(),
        }
    }

    /// Used in all.
    pub fn used(&self) -> Volume {
        self.measured + self.estimated
    }

    /// The share of what was used that is an estimate, 0 to 1; none where nothing was used.
    pub fn estimated_share(&self) -> Option<f64> {
        let used = self.used().litres();
        (used > 0.0).then(|| self.estimated.litres() / used)
    }

    /// Cents per square metre coated, every coat counted.
    pub fn cents_per_m2(&self) -> Option<f64> {
        cents_per_m2(self.cost, self.coated)
    }
}

/// The tally of one job, client, product or month.
#[derive(Debug, Clone, PartialEq)]
pub struct TallyGroup {
    /// Of what.
    pub key: GroupKey,
    /// Product by product, in the order of the stages.
    pub rows: Vec<UseRow>,
    /// The wood that carries something, each face once.
    pub wood: Area,
    /// Jars poured off.
    pub jars: Qty,
    /// Of a product: what became of its cans. None else: a shelf is no job's.
    pub shelf: Option<ShelfSums>,
}

/// What became of the cans of a product.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct ShelfSums {
    /// What came, bought.
    pub came: Qty,
    /// What is left on the shelf.
    pub left: Qty,
    /// Where the rest went. What went into mixed cans is in these.
    pub sums: CanSums,
}

impl TallyGroup {
    /// What was used, and the jars, in money.
    pub fn cost(&self) -> Money {
        self.rows.iter().map(|row| row.cost).sum::<Money>() + self.jars.cost
    }

    /// Cents per square metre of wood, each face once: what one square metre took from bare wood
    /// to where it is.
    pub fn cents_per_m2(&self) -> Option<f64> {
        cents_per_m2(self.cost(), self.wood)
    }
}

fn cents_per_m2(cost: Money, area: Area) -> Option<f64> {
    #[allow(clippy::cast_precision_loss)] // cents of a shop lie far below 2^52
    let cents = cost.cents() as f64;
    (area.m2() > 0.0).then(|| cents / area.m2())
}

/// The whole shop, as far as a tally asks.
#[derive(Debug, Clone, Copy)]
pub struct TallyOf<'a> {
    /// The pieces.
    pub files: &'a [PieceFile],
    /// The jobs.
    pub jobs: &'a [Job],
    /// The passes.
    pub passes: &'a [Pass],
    /// The products.
    pub products: &'a [Product],
    /// The cans.
    pub cans: &'a CanBook,
    /// The shop's own spread rates.
    pub rates: &'a RateBook,
    /// The shop's zone.
    pub zone: Tz,
}

impl TallyOf<'_> {
    fn month(&self, at: DateTime<Utc>) -> GroupKey {
        let local = at.with_timezone(&self.zone);
        GroupKey::Month(local.year(), local.month())
    }

    fn of_job(&self, by: TallyBy, job: JobId) -> Option<GroupKey> {
        match by {
            TallyBy::Job => Some(GroupKey::Job(job)),
            TallyBy::Client => {
                let job = self.jobs.iter().find(|known| known.id == job)?;
                Some(GroupKey::Client(job.client))
            }
            TallyBy::Product | TallyBy::Month => None,
        }
    }

    fn of_line(&self, by: TallyBy, line: &UseLine) -> Option<GroupKey> {
        match by {
            TallyBy::Job | TallyBy::Client => self.of_job(by, line.job),
            TallyBy::Product => Some(GroupKey::Product(line.product)),
            TallyBy::Month => Some(self.month(line.at)),
        }
    }

    /// The jars of every group.
    fn jars(&self, by: TallyBy) -> BTreeMap<GroupKey, Qty> {
        let mut out: BTreeMap<GroupKey, Qty> = BTreeMap::new();
        for state in &self.cans.cans {
            for CanMove { at, of, qty, .. } in &state.moves {
                let MoveOf::Jar(line) = of else { continue };
                let line = self.cans.lines.iter().find(|known| known.id == *line);
                let Some(CanWhat::Jar { to, .. }) = line.map(|line| &line.what) else {
                    continue;
                };
                let key = match (by, to) {
                    (TallyBy::Product, _) => Some(GroupKey::Product(state.can.product)),
                    (TallyBy::Month, _) => Some(self.month(*at)),
                    (TallyBy::Client, JarFor::Client(id)) => Some(GroupKey::Client(*id)),
                    (TallyBy::Job, JarFor::Client(_)) => None,
                    (TallyBy::Job | TallyBy::Client, JarFor::Job(job)) => self.of_job(by, *job),
                };
                if let Some(key) = key {
                    *out.entry(key).or_default() += *qty;
                }
            }
        }
        out
    }

    fn shelf(&self, product: ProductId) -> ShelfSums {
        let of = || {
            let cans = self.cans.cans.iter();
            cans.filter(move |state| state.can.product == product)
        };
        let bought = of().filter(|state| matches!(state.can.came, super::Came::Bought { .. }));
        ShelfSums {
            came: bought.map(|state| state.came).sum(),
            left: of().map(|state| state.left).sum(),
            sums: CanBook::sums(of()),
        }
    }
}

/// What one figure of film is of.
type FilmOf = (GroupKey, CoatKind, ProductId, Method);

/// The tally of the shop, group by group. Groups in which nothing was used or planned are left
/// out.
pub fn tally_by(of: &TallyOf<'_>, by: TallyBy) -> Vec<TallyGroup> {
    let lines = use_lines(of.files, of.passes, of.products, of.cans);
    let mut rows: BTreeMap<GroupKey, BTreeMap<(CoatKind, ProductId), UseRow>> = BTreeMap::new();
    let mut films: BTreeMap<FilmOf, (Area, Volume, bool)> = BTreeMap::new();
    let mut wood: BTreeMap<GroupKey, BTreeMap<(PieceId, FaceKey), Area>> = BTreeMap::new();
    for line in &lines {
        let Some(key) = of.of_line(by, line) else {
            continue;
        };
        let row = rows
            .entry(key)
            .or_default()
            .entry((line.kind, line.product))
            .or_insert_with(|| UseRow::new(line.product, line.kind));
        add(row, line, of.products);
        let film = films
            .entry((key, line.kind, line.product, line.method))
            .or_insert((Area::ZERO, Volume::ZERO, true));
        *film = (
            film.0 + line.area,
            film.1 + line.on_wood(),
            film.2 && line.measured,
        );
        let faces = wood.entry(key).or_default();
        faces.extend(
            line.faces
                .iter()
                .map(|(face, area)| ((line.piece, *face), *area)),
        );
    }
    if by != TallyBy::Month {
        for file in of.files {
            for planned in planned_use_by(file, of.products, of.rates) {
                let key = match by {
                    TallyBy::Product => Some(GroupKey::Product(planned.product)),
                    _ => of.of_job(by, file.piece.job),
                };
                let Some(key) = key else { continue };
                let row = rows
                    .entry(key)
                    .or_default()
                    .entry((planned.kind, planned.product))
                    .or_insert_with(|| UseRow::new(planned.product, planned.kind));
                row.planned = Some(row.planned.unwrap_or_default() + planned.volume);
            }
        }
    }
    for ((key, kind, product, method), (area, on_wood, measured)) in films {
        let film = solids(product, of.products).and_then(|solids| film(on_wood, area, solids));
        let row = rows
            .get_mut(&key)
            .and_then(|rows| rows.get_mut(&(kind, product)));
        if let (Some(row), Some(film)) = (row, film) {
            row.films.push(MethodFilm {
                method,
                area,
                on_wood,
                film,
                measured,
            });
        }
    }
    let mut jars = of.jars(by);
    let mut keys: BTreeSet<GroupKey> = rows.keys().chain(jars.keys()).copied().collect();
    if by == TallyBy::Product {
        let shelf = of.cans.cans.iter();
        keys.extend(shelf.map(|state| GroupKey::Product(state.can.product)));
    }
    keys.into_iter()
        .map(|key| TallyGroup {
            key,
            rows: rows
                .remove(&key)
                .map_or_else(Vec::new, |rows| rows.into_values().collect()),
            wood: wood
                .remove(&key)
                .map_or(Area::ZERO, |faces| faces.into_values().sum()),
            jars: jars.remove(&key).unwrap_or_default(),
            shelf: match key {
                GroupKey::Product(product) => Some(of.shelf(product)),
                _ => None,
            },
        })
        .collect()
}

fn add(row: &mut UseRow, line: &UseLine, products: &[Product]) {
    row.coated += line.area;
    row.cost += line.cost;
    row.lost += line.lost;
    if line.measured {
        row.measured += line.used;
    } else {
        row.estimated += line.used;
    }
    if !line.from_cans {
        row.cost_at_price += line.cost;
        row.no_can += line.used;
    }
    if let Some(product) = products.iter().find(|product| product.id == line.product) {
        row.at_label += product.label.spread.volume_for(line.area);
    }
    for batch in &line.batches {
        if !row.batches.contains(batch) {
            row.batches.push(batch.clone());
        }
    }
}
