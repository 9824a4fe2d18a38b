//! A shop with cans of varnish and of stain, and pieces that wait for them.

use crate::shop::{Trial, ZONE, hours};
use chrono::{DateTime, Utc};
use tackfree::coating::{Family, Product};
use tackfree::desk::{
    Action, AmountDraft, Books, CanAction, CanDraft, CanPick, CanRefusal, CanTake, DeskError, Done,
    DrawnDraft, FacePick, Made, PassDraft, RecipeDraft, Which,
};
use tackfree::shop::{
    CanId, CanState, CoatKind, Grit, GroupPlan, Keeps, PieceId, Schedule, WipeDown,
};
use tackfree::units::{Mass, Money, Volume};

pub const NOW: &str = "2026-11-20T15:00:00Z";

pub fn ml(ml: i64) -> Volume {
    Volume::from_ul(ml * 1000)
}

pub fn grams(g: f64) -> Mass {
    Mass::from_g(g)
}

pub struct Shelf {
    pub trial: Trial,
}

impl Shelf {
    pub fn new() -> Self {
        Self {
            trial: Trial::at(NOW),
        }
    }

    pub fn now(&self) -> DateTime<Utc> {
        self.trial.now
    }

    pub fn later(&mut self, more: f64) {
        self.trial.now += hours(more);
    }

    pub fn product(&self, family: Family) -> Product {
        let products = self.trial.store.products().expect("products");
        let found = products
            .into_iter()
            .find(|product| product.family == family);
        found.expect("the product")
    }

    pub fn draft(&self, product: &Product, size: Volume, batch: &str) -> CanDraft {
        CanDraft {
            product: product.id,
            size,
            held: None,
            price: Some(Money::from_cents(2_899)),
            on: self.now().with_timezone(&ZONE).date_naive(),
            batch: batch.to_owned(),
            keeps: Keeps::default(),
            empty: None,
            place: String::new(),
        }
    }

    pub fn act(&mut self, action: CanAction) -> Result<Done, DeskError> {
        self.trial.perform(&Action::Can(action))
    }

    pub fn done(&mut self, action: CanAction) -> Done {
        self.trial.done(&Action::Can(action))
    }

    pub fn receive(&mut self, draft: CanDraft) -> CanId {
        let Made::Can(can) = self.done(CanAction::Receive(draft, 1)).made else {
            panic!("a can");
        };
        can
    }

    /// A quart of varnish, opened, its empty weight known.
    pub fn varnish(&mut self) -> CanId {
        let product = self.trial.varnish();
        let mut draft = self.draft(&product, Volume::from_ul(946_353), "V-1");
        draft.empty = Some(grams(130.0));
        let can = self.receive(draft);
        let at = self.now();
        self.done(CanAction::Open { can, at });
        can
    }

    pub fn can(&self, id: CanId) -> CanState {
        self.trial.shop().cans.can(id).expect("the can").clone()
    }

    /// A recipe that stains once; pieces made from now on follow it.
    pub fn stains(&mut self) -> Product {
        let stain = self.product(Family::OilGelStain);
        let varnish = self.trial.varnish();
        let plan = GroupPlan {
            grits: vec![Grit(120)],
            seal_coats: 0,
            stained: true,
            topcoats: 3,
        };
        let schedule = Schedule {
            show: plan.clone(),
            end_grain: plan.clone(),
            underside: plan,
            wipe_down: WipeDown::NotAsked,
            sealer: None,
            stain: Some(stain.id),
            topcoat: Some(varnish.id),
            scuff: None,
            cure_before_set: varnish.label.light_use,
            balance_allowance: 1,
        };
        let draft = RecipeDraft {
            name: "stained".to_owned(),
            schedule,
        };
        let action = Action::SaveRecipe(Which::New, draft);
        let Made::Recipe(recipe) = self.trial.done(&action).made else {
            panic!("a recipe");
        };
        self.trial.recipe = recipe;
        stain
    }

    pub fn pass_draft(
        &self,
        piece: PieceId,
        kind: CoatKind,
        amount: AmountDraft,
        drawn: DrawnDraft,
    ) -> PassDraft {
        PassDraft {
            picks: vec![FacePick { piece, faces: None }],
            kind,
            product: None,
            started: self.now(),
            ended: self.now(),
            amount,
            air: None,
            scuffed_first: None,
            drawn,
        }
    }

    pub fn pass(
        &mut self,
        piece: PieceId,
        amount: AmountDraft,
        drawn: DrawnDraft,
    ) -> Result<Done, DeskError> {
        let draft = self.pass_draft(piece, CoatKind::Topcoat, amount, drawn);
        self.trial.perform(&Action::LogPass(draft))
    }
}

/// These cans, each without an amount of its own.
pub fn from(cans: &[CanId]) -> DrawnDraft {
    let takes = cans.iter().map(|can| CanTake {
        can: *can,
        amount: None,
    });
    DrawnDraft {
        cans: CanPick::These(takes.collect()),
        ..DrawnDraft::default()
    }
}

pub fn sure(mut drawn: DrawnDraft) -> DrawnDraft {
    drawn.sure = true;
    drawn
}

/// What was asked, in words.
pub fn asked(answer: Result<Done, DeskError>) -> String {
    match answer {
        Err(error @ DeskError::Can(CanRefusal::Doubtful(_))) => {
            assert!(error.is_question());
            let words = error.to_string();
            assert!(
                words.ends_with("Correct it, or say that you are sure."),
                "{words}"
            );
            words
        }
        other => panic!("nothing was asked: {other:?}"),
    }
}

/// Why it cannot be, in words.
pub fn refused(answer: Result<Done, DeskError>) -> String {
    match answer {
        Err(error) if !error.is_question() => error.to_string(),
        other => panic!("it was not refused: {other:?}"),
    }
}
