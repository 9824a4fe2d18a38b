//! Money and hours at the desk: prices, estimates, agreements, changes, samples, bills, the clock.
//!
//! Lives here: what may be done and the words it leaves in the journal. May not live here: the
//! arithmetic (`crate::money`), the records (`crate::shop`), SQL, the screen.

mod action;
mod bills;
mod clock;
mod deals;
mod prices;
mod reckon;
mod refusal;
mod rows;
mod samples;

pub use action::{
    AgreedPrice, AgreementDraft, ChangeDraft, HoursDraft, InvoiceDraft, MoneyAction, PaymentDraft,
    SampleDraft,
};
pub use reckon::{JobEstimate, NOTICE_CAUTION};
pub use refusal::MoneyRefusal;
pub use rows::{HoursOf, MoneyKey, MoneyRow};

use crate::desk::error::DeskError;
use crate::desk::perform::{Desk, Done};

impl Desk<'_> {
    /// One action on money or hours.
    pub(super) fn on_money(&mut self, action: &MoneyAction) -> Result<Done, DeskError> {
        match action {
            MoneyAction::SavePrices(book) => self.save_prices(book),
            MoneyAction::SaveTerms(terms) => self.save_terms(terms),
            MoneyAction::GiveEstimate { job, valid_until } => {
                self.give_estimate(*job, *valid_until)
            }
            MoneyAction::Sign(draft) => self.sign(draft),
            MoneyAction::SaveChange(which, draft) => self.save_change(*which, draft),
            MoneyAction::SignChange(id, signed) => self.sign_change(*id, signed),
            MoneyAction::SaveSample(which, draft) => self.save_sample(*which, draft),
            MoneyAction::ApproveSample(id, signed) => self.approve_sample(*id, signed),
            MoneyAction::SaveInvoice(which, draft) => self.save_invoice(*which, draft),
            MoneyAction::SavePayment(which, draft) => self.save_payment(*which, draft),
            MoneyAction::SaveHours(which, draft) => self.save_hours(*which, draft),
            MoneyAction::Remove(key) => self.remove_money(*key),
            MoneyAction::StartClock {
                job,
                pieces,
                step,
                at,
            } => self.start_clock(*job, pieces, *step, *at),
            MoneyAction::PauseClock { at, why } => self.pause_clock(*at, why),
            MoneyAction::GoOn { at } => self.go_on(*at),
            MoneyAction::StopClock { at } => self.stop_clock(*at),
        }
    }
}
