//! The estimate of a job from the shop's records, and what the job slipped by.

use super::refusal::MoneyRefusal;
use crate::coating::cans::CanOffer;
use crate::desk::Shop;
use crate::money::{
    Asked, FinishNeed, LumberNeed, Made, Pace, Percent, ShopRate, Slip, StepKind, StepSlip, Work,
    estimate, slippage,
};
use crate::shop::{
    HoursEntry, Job, PieceFile, PieceId, Ticket, job_work, minutes_by_step, paces, planned_use,
    step_done,
};
use crate::units::{Money, Volume};
use chrono::{DateTime, Utc};
use rust_decimal::Decimal;
use std::collections::BTreeMap;

/// Said with every notice date.
pub const NOTICE_CAUTION: &str = "16 CFR 429: Saturdays count, Sundays and federal holidays do not. \
                                  State rules may give longer; no legal advice.";

/// Confidences at which a total is told besides the one asked, in per cent.
const LOOKED_AT: [u32; 4] = [50, 70, 80, 90];

/// An estimate with what it was made from.
#[derive(Debug, Clone, PartialEq)]
pub struct JobEstimate {
    /// The estimate.
    pub made: Made,
    /// The hour it was made at.
    pub rate: ShopRate,
    /// The confidence it was made at.
    pub confidence: Percent,
    /// What the total would be at other confidences.
    pub at: Vec<(Percent, Money)>,
    /// The shop's pace at each step.
    pub paces: BTreeMap<StepKind, Pace>,
    /// The work, piece by piece.
    pub work: Vec<(PieceId, Vec<Work>)>,
}

impl Shop {
    /// The estimate of a job. The shop must have been read whole, and so must the hours: they teach
    /// its pace.
    ///
    /// # Errors
    /// A job with nothing to price, figures that make no rate, cans that cannot be planned.
    pub fn estimate_job(
        &self,
        job: &Job,
        hours: &[HoursEntry],
        now: DateTime<Utc>,
    ) -> Result<JobEstimate, MoneyRefusal> {
        let files = self.files_of(job);
        let terms = self.money.terms(job.id);
        if files.is_empty() && terms.items.is_empty() {
            return Err(MoneyRefusal::NothingToPrice(job.no));
        }
        let rate = ShopRate::of(&self.prices.rate)?;
        let confidence = terms.confidence.unwrap_or(self.prices.confidence);
        let paces = paces(&self.files, hours, now);
        let work = job_work(&files);
        let all: Vec<Work> = work.iter().flat_map(|(_, of)| of.iter().copied()).collect();
        let waste = Percent::whole(self.layout.lumber.waste_percent);
        let (finish, lumber) = (self.finish_needed(&files), self.lumber_needed(&files));
        let asked = Asked {
            work: &all,
            paces: &paces,
            hour: rate.sell,
            confidence,
            finish: &finish,
            allowance: self.prices.allowance,
            lumber: &lumber,
            waste,
            items: &terms.items,
            markups: self.prices.markups,
            minimum: self.prices.minimum,
            place: self.prices.place(&terms.place),
        };
        let made = estimate(&asked)?;
        let at = LOOKED_AT
            .into_iter()
            .map(Percent::whole)
            .map(|confidence| {
                let made = estimate(&Asked {
                    confidence,
                    ..asked
                })?;
                Ok((confidence, made.totals.total()))
            })
            .collect::<Result<_, MoneyRefusal>>()?;
        Ok(JobEstimate {
            made,
            rate,
            confidence,
            at,
            paces,
            work,
        })
    }

    fn files_of(&self, job: &Job) -> Vec<&PieceFile> {
        let of_job = |file: &&PieceFile| file.piece.job == job.id;
        self.files.iter().filter(of_job).collect()
    }

    /// Planned use of each product over all pieces, so that one can serves several.
    fn finish_needed(&self, files: &[&PieceFile]) -> Vec<FinishNeed> {
        let mut needs: Vec<(crate::coating::ProductId, Volume)> = Vec::new();
        for planned in files
            .iter()
            .flat_map(|file| planned_use(file, &self.products))
        {
            match needs.iter_mut().find(|(id, _)| *id == planned.product) {
                Some((_, need)) => *need += planned.volume,
                None => needs.push((planned.product, planned.volume)),
            }
        }
        let need = |(id, need): (_, Volume)| {
            let product = self.product(id)?;
            let offer = CanOffer {
                holds: product.can,
                price: product.price,
            };
            Some(FinishNeed {
                name: product.name.clone(),
                need,
                offers: vec![offer],
            })
        };
        needs.into_iter().filter_map(need).collect()
    }

    fn lumber_needed(&self, files: &[&PieceFile]) -> Vec<LumberNeed> {
        let mut woods: BTreeMap<&str, f64> = BTreeMap::new();
        for file in files {
            let wood = woods.entry(file.piece.species.as_str()).or_default();
            *wood += file.piece.shape.volume_board_feet();
        }
        woods
            .into_iter()
            .map(|(wood, net)| LumberNeed {
                name: wood.to_owned(),
                // To the hundredth of a board foot, as lumber is written.
                net: Decimal::try_from(net).unwrap_or_default().round_dp(2),
                each: self.prices.board_foot(wood),
            })
            .collect()
    }

    /// What a job has slipped by against the estimate that counts; none where none was given.
    pub fn slip(&self, job: &Job, hours: &[HoursEntry], now: DateTime<Utc>) -> Option<Slip> {
        let kept = self.money.estimate(job.id)?;
        let tickets: Vec<Ticket> = self.files_of(job).into_iter().map(Ticket::of).collect();
        let worked = minutes_by_step(job.id, hours, now);
        let steps = StepKind::ALL
            .into_iter()
            .filter_map(|step| {
                let of_step = kept.steps.iter().find(|of| of.step == step);
                let estimated = of_step.map_or(0, |of| of.minutes);
                let actual = worked.get(&step).copied().unwrap_or(0);
                let done =
                    !tickets.is_empty() && tickets.iter().all(|ticket| step_done(ticket, step));
                (estimated + actual > 0).then_some(StepSlip {
                    step,
                    estimated,
                    actual,
                    done,
                })
            })
            .collect();
        Some(slippage(steps, kept.hour))
    }
}
