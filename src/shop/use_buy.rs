//! What to buy: the needs of jobs still to come, less what is on the shelf and still good, plus
//! the reserve, in the cheapest whole cans; one batch of stain for a whole job wherever cans allow.

use super::id::JobId;
use super::use_batches::{Asks, Shared, share_out};
use super::use_book::UseBook;
use super::use_needs::{Bases, Need};
use crate::coating::cans::{CanError, CanPlan, cheapest_cans};
use crate::coating::{Product, ProductId, ProductKind};
use crate::units::{Money, Volume};
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// What stands on the shelf of one batch of one product.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OnShelf {
    /// Of what.
    pub product: ProductId,
    /// The batch; none where the can does not say, which then is a batch of its own.
    pub batch: Option<String>,
    /// What is left.
    pub left: Volume,
    /// The last day it is good, where that is known.
    pub good_until: Option<NaiveDate>,
}

impl OnShelf {
    fn is_good(&self, today: NaiveDate) -> bool {
        self.left > Volume::ZERO && self.good_until.is_none_or(|until| until >= today)
    }
}

/// The batch a job's stain was begun with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Begun {
    /// The job.
    pub job: JobId,
    /// The stain.
    pub product: ProductId,
    /// The batch.
    pub batch: String,
}

/// What buying is reckoned from.
#[derive(Debug, Clone, Copy)]
pub struct BuyFrom<'a> {
    /// What jobs still need.
    pub needs: &'a [Need],
    /// What is on the shelf.
    pub shelf: &'a [OnShelf],
    /// Stain batches that jobs were begun with.
    pub begun: &'a [Begun],
    /// The products.
    pub products: &'a [Product],
    /// Sizes on offer and the reserve.
    pub book: &'a UseBook,
    /// Today.
    pub today: NaiveDate,
}

/// Where a job's stain comes from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum StainFrom {
    /// A batch on the shelf, with its mark where it has one.
    Shelf(Option<String>),
    /// The cans to buy, all of one batch.
    New,
}

/// The stain of one job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobStain {
    /// The job.
    pub job: JobId,
    /// What it needs, with the reserve.
    pub needs: Volume,
    /// Where it comes from.
    pub from: StainFrom,
    /// The batch it was begun with, where that one does not do for the rest.
    pub breaks: Option<String>,
}

/// One product of the list.
#[derive(Debug, Clone, PartialEq)]
pub struct BuyLine {
    /// The product.
    pub product: ProductId,
    /// What the jobs need of it, by job.
    pub jobs: BTreeMap<JobId, Volume>,
    /// All of that.
    pub need: Volume,
    /// Kept in reserve beyond it.
    pub reserve: Volume,
    /// On the shelf and still good.
    pub shelf: Volume,
    /// On the shelf, but past its day.
    pub past: Volume,
    /// Still to be bought, before it is rounded to cans.
    pub lacking: Volume,
    /// The cans, or why there is no plan.
    pub plan: Result<CanPlan, CanError>,
    /// What stands behind the needs.
    pub bases: Bases,
    /// Of a stain: where each job's comes from; empty of anything else.
    pub stain: Vec<JobStain>,
    /// Whether the sharing out of batches is surely the best there is.
    pub sure: bool,
}

impl BuyLine {
    /// What it costs; nothing where there is no plan.
    pub fn price(&self) -> Money {
        self.plan.as_ref().map_or(Money::ZERO, |plan| plan.price)
    }
}

/// The whole list.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BuyPlan {
    /// A line for each product that is needed, also where the shelf has enough.
    pub lines: Vec<BuyLine>,
}

impl BuyPlan {
    /// What all of it costs.
    pub fn total(&self) -> Money {
        self.lines.iter().map(BuyLine::price).sum()
    }
}

/// Plans the buying, product by product in the order of the products.
pub fn what_to_buy(from: &BuyFrom<'_>) -> BuyPlan {
    let mut by_product: BTreeMap<ProductId, (BTreeMap<JobId, Volume>, Bases)> = BTreeMap::new();
    for need in from.needs {
        let (jobs, bases) = by_product.entry(need.product).or_default();
        *jobs.entry(need.job).or_insert(Volume::ZERO) += need.volume;
        bases.0.extend(need.bases.0.iter().copied());
    }
    let lines = from.products.iter().filter_map(|product| {
        let (jobs, bases) = by_product.remove(&product.id)?;
        Some(line(from, product, jobs, bases))
    });
    BuyPlan {
        lines: lines.collect(),
    }
}

fn line(
    from: &BuyFrom<'_>,
    product: &Product,
    jobs: BTreeMap<JobId, Volume>,
    bases: Bases,
) -> BuyLine {
    let rules = &from.book.rules;
    let need: Volume = jobs.values().copied().sum();
    let on = from.shelf.iter().filter(|on| on.product == product.id);
    let (good, past): (Vec<&OnShelf>, Vec<&OnShelf>) = on.partition(|on| on.is_good(from.today));
    let shelf: Volume = good.iter().map(|on| on.left).sum();
    let (wanted, lacking, stain, sure) = if product.kind == ProductKind::Stain {
        // The reserve of a stain is of use only in the batch of its job.
        let wanted = jobs.values().map(|need| rules.with_reserve(*need)).sum();
        let (stain, sure) = stains(from, product.id, &jobs, &good);
        let new = stain.iter().filter(|of| of.from == StainFrom::New);
        (wanted, new.map(|of| of.needs).sum(), stain, sure)
    } else {
        let wanted = rules.with_reserve(need);
        let lacking = Volume::from_ul((wanted - shelf).ul().max(0));
        (wanted, lacking, Vec::new(), true)
    };
    BuyLine {
        product: product.id,
        jobs,
        need,
        reserve: wanted - need,
        shelf,
        past: past.iter().map(|on| on.left).sum(),
        lacking,
        plan: cheapest_cans(lacking, &from.book.offers_of(product)),
        bases,
        stain,
        sure,
    }
}

/// Where each job's stain comes from: as much as can be from batches on the shelf, each job from
/// one, so that the new batch is as small as can be.
fn stains(
    from: &BuyFrom<'_>,
    product: ProductId,
    jobs: &BTreeMap<JobId, Volume>,
    good: &[&OnShelf],
) -> (Vec<JobStain>, bool) {
    let mut batches: Vec<(Option<String>, Volume, Option<NaiveDate>)> = Vec::new();
    for on in good {
        let known = batches
            .iter_mut()
            .find(|(batch, ..)| batch.is_some() && *batch == on.batch);
        match known {
            Some((_, left, until)) => {
                *left += on.left;
                *until = [*until, on.good_until].into_iter().flatten().min();
            }
            None => batches.push((on.batch.clone(), on.left, on.good_until)),
        }
    }
    // What goes off first is used first, where it makes no other difference.
    batches.sort_by_key(|(batch, _, until)| (until.unwrap_or(NaiveDate::MAX), batch.clone()));
    let begun = |job: &JobId| {
        let of = |begun: &&Begun| begun.job == *job && begun.product == product;
        from.begun.iter().rfind(of)
    };
    let asks: Vec<Asks> = jobs
        .iter()
        .map(|(job, need)| Asks {
            // A job that is under way keeps to its batch as soon as that does for the bare rest.
            needs: from.book.rules.with_reserve(*need).ul(),
            at_least: need.ul(),
            begun: begun(job).and_then(|begun| {
                batches
                    .iter()
                    .position(|(batch, ..)| batch.as_ref() == Some(&begun.batch))
            }),
        })
        .collect();
    let lefts: Vec<i64> = batches.iter().map(|(_, left, _)| left.ul()).collect();
    let Shared { from: shared, sure } = share_out(&asks, &lefts);
    let out = jobs
        .keys()
        .zip(&asks)
        .zip(shared)
        .map(|((job, asks), at)| {
            let batch = at.and_then(|at| batches.get(at));
            let begun = begun(job).map(|begun| begun.batch.clone());
            let keeps = batch.is_some_and(|(batch, ..)| *batch == begun);
            JobStain {
                job: *job,
                needs: Volume::from_ul(asks.needs),
                from: batch.map_or(StainFrom::New, |(batch, ..)| {
                    StainFrom::Shelf(batch.clone())
                }),
                breaks: begun.filter(|_| !keeps),
            }
        })
        .collect();
    (out, sure)
}
