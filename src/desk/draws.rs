//! What a pass draws from which can, how it was put on, and what is asked about that.

use super::action::AmountDraft;
use super::books::{BooksError, Scope};
use super::can_action::{CanPick, CanTake, DrawnDraft, TakeAmount};
use super::can_checks::Asking;
use super::can_error::{CanDoubt, CanRefusal};
use super::error::DeskError;
use super::passes::in_volume;
use super::perform::Desk;
use crate::coating::Product;
use crate::shop::{
    Amount, AmountBasis, CanBook, CanStanding, CanState, CoatKind, Draw, Drawn, JobId, Known, Loss,
    Pass, PassId, Settings, Weights,
};
use crate::units::{Mass, Volume};
use chrono::{DateTime, Utc};
use std::collections::BTreeSet;

/// The pass that draws.
pub(super) struct Drawing<'a> {
    /// Which, if it is on the books already.
    pub(super) pass: Option<PassId>,
    pub(super) kind: CoatKind,
    pub(super) product: &'a Product,
    pub(super) ended: DateTime<Utc>,
    /// By area and the label's spread rate.
    pub(super) expected: Volume,
    /// The jobs of its pieces, with their numbers.
    pub(super) jobs: &'a [(JobId, u32)],
}

impl Desk<'_> {
    /// The amount of a pass and where it came from; what is doubtful is asked.
    pub(super) fn draw(
        &self,
        of: &Drawing<'_>,
        amount: AmountDraft,
        typed: &DrawnDraft,
        notes: &mut Vec<String>,
    ) -> Result<(Amount, Drawn), DeskError> {
        let settings = self.settings()?;
        let products = self.books.products()?;
        let mut records = self.books.cans(Scope::All)?;
        // A pass that is corrected does not stand in its own way.
        records.passes.retain(|pass| Some(pass.id) != of.pass);
        let others = records.passes.clone();
        let book = records.fold(&products);
        let takes = takes(&book, typed, of, notes)?;
        let (amount, draws) = shared_out(&takes, amount, of, &settings, notes)?;
        let lost = match typed.lost.filter(|mass| *mass > Mass::ZERO) {
            None => None,
            Some(mass) => {
                let lost = Loss::weighed(mass, of.product.label.density);
                if lost.volume >= amount.volume {
                    return Err(CanRefusal::LostMore {
                        lost: lost.volume.show(settings.volume),
                        used: amount.volume.show(settings.volume),
                    }
                    .into());
                }
                (lost.volume > Volume::ZERO).then_some(lost)
            }
        };
        let mut asking = Asking::new(self, &settings);
        far_use(&mut asking, of, amount, &settings);
        for (draw, (state, _)) in draws.iter().zip(&takes) {
            asking.there(state, of.ended);
            match draw.weights {
                Some(weights) => asking.weights(state, of.product, weights, of.ended),
                None => asking.left(state, draw.volume, of.ended),
            }
            asking.age(state, of.ended);
        }
        if of.kind == CoatKind::Stain {
            self.batches(&mut asking, of, &takes, (&book, &others))?;
        }
        notes.extend(asking.answered(typed.sure)?);
        for (state, _) in &takes {
            if state.standing == CanStanding::Sealed {
                notes.push(format!(
                    "{} counts as opened with this pass.",
                    state.can.called()
                ));
            }
        }
        let from = Drawn {
            draws,
            lost,
            method: typed.method,
        };
        Ok((amount, from))
    }

    /// A stain from another batch than the rest of its job.
    fn batches(
        &self,
        asking: &mut Asking<'_>,
        of: &Drawing<'_>,
        takes: &[(&CanState, Option<TakeAmount>)],
        (book, others): (&CanBook, &[Pass]),
    ) -> Result<(), DeskError> {
        let named =
            |state: &CanState| format!("{} (batch {})", state.can.called(), state.can.batch);
        let with_batch = || {
            takes
                .iter()
                .map(|(state, _)| *state)
                .filter(|s| !s.can.batch.is_empty())
        };
        let mut all = with_batch();
        if let Some(first) = all.next()
            && let Some(other) = all.find(|state| state.can.batch != first.can.batch)
        {
            asking.ask(CanDoubt::TwoBatches {
                one: named(first),
                other: named(other),
            });
        }
        for (job, no) in of.jobs {
            let mut before: BTreeSet<String> = BTreeSet::new();
            let passes = self.books.passes(Scope::Job(*job))?;
            for pass in &passes {
                let counts = Some(pass.id) != of.pass
                    && pass.kind == CoatKind::Stain
                    && pass.product == of.product.id
                    && others.iter().any(|other| other.id == pass.id);
                for draw in pass.drawn.draws.iter().filter(|_| counts) {
                    if let Some(state) = book.can(draw.can)
                        && !state.can.batch.is_empty()
                    {
                        before.insert(state.can.batch.clone());
                    }
                }
            }
            for state in with_batch() {
                if !before.is_empty() && !before.contains(&state.can.batch) {
                    asking.ask(CanDoubt::OtherBatch {
                        can: state.can.called(),
                        batch: state.can.batch.clone(),
                        job: no.to_string(),
                        before: before.iter().cloned().collect::<Vec<_>>().join(", "),
                    });
                }
            }
        }
        Ok(())
    }
}

type Take<'a> = (&'a CanState, Option<TakeAmount>);

/// The cans meant.
fn takes<'a>(
    book: &'a CanBook,
    typed: &DrawnDraft,
    of: &Drawing<'_>,
    notes: &mut Vec<String>,
) -> Result<Vec<Take<'a>>, DeskError> {
    let named = match &typed.cans {
        CanPick::NoCan => return Ok(Vec::new()),
        CanPick::These(takes) => takes,
        CanPick::Usual => {
            let open: Vec<&CanState> = book
                .cans
                .iter()
                .filter(|state| state.can.product == of.product.id)
                .filter(|state| state.standing == CanStanding::Open)
                .collect();
            return Ok(match open.as_slice() {
                [one] => vec![(*one, None)],
                [] => Vec::new(),
                several => {
                    let names: Vec<String> = several.iter().map(|s| s.can.no.to_string()).collect();
                    notes.push(format!(
                        "No can is named, and several of {} are open ({}): this pass stands \
                         outside their balance until you say which.",
                        of.product.name,
                        names.join(", ")
                    ));
                    Vec::new()
                }
            });
        }
    };
    let mut out: Vec<Take<'a>> = Vec::new();
    for CanTake { can, amount } in named {
        let state = book.can(*can).ok_or(BooksError::Missing { what: "can" })?;
        if state.can.product != of.product.id {
            return Err(CanRefusal::OtherProduct {
                can: state.can.called(),
                is: "another product".to_owned(),
                needs: of.product.name.clone(),
            }
            .into());
        }
        if out.iter().any(|(known, _)| known.can.id == *can) {
            return Err(CanRefusal::Twice(state.can.called()).into());
        }
        out.push((state, *amount));
    }
    Ok(out)
}

/// The weight a can had before, where only the weight after was typed.
fn before_of(state: &CanState, at: DateTime<Utc>) -> Result<Mass, DeskError> {
    let no = |why| CanRefusal::NoBefore {
        can: state.can.called(),
        why,
    };
    match (state.weighed, state.known) {
        (None, _) => Err(no("was not weighed yet").into()),
        (Some((when, _)), _) if when > at => Err(no("was weighed only after that time").into()),
        (Some((_, mass)), Known::Weighed(_)) => Ok(mass),
        (Some(_), _) => Err(no("was drawn on since it was weighed").into()),
    }
}

/// The amount of the pass, and what of it came from which can.
fn shared_out(
    takes: &[Take<'_>],
    amount: AmountDraft,
    of: &Drawing<'_>,
    settings: &Settings,
    notes: &mut Vec<String>,
) -> Result<(Amount, Vec<Draw>), DeskError> {
    if takes.iter().any(|(_, amount)| amount.is_some()) {
        if amount != AmountDraft::Estimate {
            return Err(CanRefusal::AmountTwice.into());
        }
        return can_by_can(takes, of, settings, notes);
    }
    let amount = match (amount, takes) {
        (AmountDraft::WeighedAfter(after), [(state, _)]) => AmountDraft::Weighed {
            before: before_of(state, of.ended)?,
            after,
        },
        (AmountDraft::WeighedAfter(_), []) => return Err(CanRefusal::BeforeOfWhat.into()),
        (AmountDraft::WeighedAfter(_) | AmountDraft::Weighed { .. }, [_, _, ..]) => {
            return Err(CanRefusal::WeighEach.into());
        }
        (other, _) => other,
    };
    let amount = in_volume(amount, of.product, of.expected, settings, notes)?;
    let weights = match amount.basis {
        AmountBasis::Weighed { before, after } => Some(Weights { before, after }),
        _ => None,
    };
    // Each can gives what it has; the last one the rest.
    let (mut rest, mut draws) = (amount.volume, Vec::new());
    for (at, (state, _)) in takes.iter().enumerate() {
        let volume = if at + 1 == takes.len() {
            rest
        } else {
            rest.min(state.left_at(of.ended)).max(Volume::ZERO)
        };
        rest -= volume;
        draws.push(Draw {
            can: state.can.id,
            volume,
            weights,
        });
    }
    Ok((amount, draws))
}

fn can_by_can(
    takes: &[Take<'_>],
    of: &Drawing<'_>,
    settings: &Settings,
    notes: &mut Vec<String>,
) -> Result<(Amount, Vec<Draw>), DeskError> {
    let (mut draws, mut all_weighed) = (Vec::new(), true);
    let (mut befores, mut afters) = (Mass::ZERO, Mass::ZERO);
    for (state, amount) in takes {
        let amount = match amount {
            None => return Err(CanRefusal::SomeAmounts(state.can.called()).into()),
            Some(TakeAmount::Volume(volume)) => AmountDraft::Volume(*volume),
            Some(TakeAmount::Weighed { before, after }) => AmountDraft::Weighed {
                before: match before {
                    Some(before) => *before,
                    None => before_of(state, of.ended)?,
                },
                after: *after,
            },
        };
        // Doubts about the whole are not doubts about a part.
        let part = in_volume(amount, of.product, of.expected, settings, &mut Vec::new())?;
        let weights = if let AmountBasis::Weighed { before, after } = part.basis {
            befores += before;
            afters += after;
            Some(Weights { before, after })
        } else {
            all_weighed = false;
            None
        };
        draws.push(Draw {
            can: state.can.id,
            volume: part.volume,
            weights,
        });
    }
    let volume = draws.iter().map(|draw| draw.volume).sum();
    let basis = if all_weighed {
        AmountBasis::Weighed {
            before: befores,
            after: afters,
        }
    } else {
        AmountBasis::Measured
    };
    let amount = Amount { volume, basis };
    super::passes::reasonable(amount, of.expected, settings, notes)?;
    Ok((amount, draws))
}

/// Ten times the expected, or a tenth of it.
fn far_use(asking: &mut Asking<'_>, of: &Drawing<'_>, amount: Amount, settings: &Settings) {
    if !amount.basis.is_measured() {
        return;
    }
    let (used, usual) = (amount.volume.ul(), of.expected.ul().max(1));
    let times = if used >= usual.saturating_mul(10) {
        "10 times or more"
    } else if used.saturating_mul(10) <= usual {
        "a tenth or less of"
    } else {
        return;
    };
    asking.ask(CanDoubt::FarUse {
        amount: amount.volume.show(settings.volume),
        times,
        expected: of.expected.show(settings.volume),
    });
}
