//! Money: the shop's hourly rate, estimates with their ranges, tax, payment parts, deposit caps, the
//! notice date, what is owed and what a job slipped by.
//!
//! Lives here: the arithmetic, on amounts, hours, areas and dates. May not live here: clients, jobs
//! and pieces (the room above binds these figures to them), the store, the screen, a clock, or
//! randomness that was not handed in as a seed.
//!
//! Amounts are whole cents ([`Money`](crate::units::Money)); shares and rates are exact decimals.
//! There is **one rounding rule**: what does not come out in whole cents is rounded at its own
//! line, to the nearest cent, half a cent away from zero; totals add lines and are not rounded.

mod account;
mod calendar;
mod caps;
mod estimate;
mod hours;
mod line;
mod needs;
mod pace;
mod parts;
mod percent;
mod random;
mod share;
mod shop_rate;
mod slip;
mod step;
mod tax;

pub use account::{Bill, Paid, Settled, overdue, settle};
pub use calendar::{Holiday, federal_holidays, is_business_day, notice_until};
pub use caps::{CapFinding, DepositCap, Standing, starting_caps};
pub use estimate::{Asked, EstimateError, Made, Markups, StepHours, estimate};
pub use hours::{HoursSpread, SEED, Simulated, TRIALS, Work, simulate, work_words};
pub use line::{Line, LineKind, Totals, net_of, totals};
pub use needs::{CansBought, FinishNeed, Item, LumberNeed};
pub use pace::{Observed, Pace, learn_pace};
pub use parts::{Part, PartAmount, PartAsked, PartError, PartKind, split};
pub use percent::{Margin, Markup, Percent, PercentError, buy_for, to_cents};
pub use share::{Share, ShareError};
pub use shop_rate::{RateError, RateFigures, ShopRate, per_hour};
pub use slip::{Slip, StepSlip, slippage};
pub use step::{Driver, Start, StepKind};
pub use tax::{DEFER as TAX_DEFER, TaxChoice, TaxPlace};
