//! One small shelf with three coats of oil varnish before it, and a desk to work at.

use chrono::{DateTime, Duration, Utc};
use chrono_tz::Tz;
use tackfree::coating::id::Mint;
use tackfree::coating::{Family, Product, ShopAir, ShopAirClock};
use tackfree::desk::{
    Action, AmountDraft, Books, ClientDraft, Desk, DeskError, Done, FacePick, JobDraft, Made,
    PassDraft, PieceDraft, RecipeDraft, Scope, Shop, Which,
};
use tackfree::shape::{Construction, EdgeProfile, FaceKey, Outline, Shape};
use tackfree::shop::{
    Blocker, CoatKind, Grit, GroupPlan, JobId, PieceId, PieceKind, RackLine, RecipeId, Schedule,
    Settings, TouchVerdict, WipeDown, rack_lines,
};
use tackfree::store::Store;
use tackfree::units::{Humidity, Length, Temperature};

pub const ZONE: Tz = chrono_tz::America::Chicago;

pub fn utc(text: &str) -> DateTime<Utc> {
    text.parse().expect("a moment")
}

pub fn air(c: f64, percent: f64) -> ShopAir {
    ShopAir {
        temperature: Temperature::from_c(c),
        humidity: Humidity::from_percent(percent).expect("a humidity"),
    }
}

pub fn hours(hours: f64) -> Duration {
    Duration::from_std(std::time::Duration::from_secs_f64(hours * 3600.0)).expect("a span")
}

/// Whether two moments lie within a minute of each other.
pub fn near(one: DateTime<Utc>, other: DateTime<Utc>) -> bool {
    (one - other).num_seconds().abs() <= 60
}

pub struct Trial {
    pub store: Store,
    pub now: DateTime<Utc>,
    pub mint: Mint,
    pub job: JobId,
    pub recipe: RecipeId,
}

impl Trial {
    /// A shop with a client, a job and a recipe of three coats on every face.
    pub fn at(now: &str) -> Self {
        Self::over(Store::in_memory().expect("a store"), now)
    }

    pub fn over(store: Store, now: &str) -> Self {
        let nil = uuid::Uuid::nil();
        let mut trial = Self {
            store,
            now: utc(now),
            mint: Mint::new(nil, 7),
            job: JobId(nil),
            recipe: RecipeId(nil),
        };
        trial
            .desk()
            .furnish(&Settings::starting(ZONE))
            .expect("furnished");
        let client = ClientDraft {
            name: "Ada Brook".to_owned(),
            ..ClientDraft::default()
        };
        let Made::Client(client) = trial.done(&Action::SaveClient(Which::New, client)).made else {
            panic!("a client");
        };
        let job = JobDraft {
            client,
            title: "shelves".to_owned(),
            site: String::new(),
            house_built: None,
            promised: None,
            notes: String::new(),
        };
        let Made::Job(job) = trial.done(&Action::SaveJob(Which::New, job)).made else {
            panic!("a job");
        };
        trial.job = job;
        let plan = GroupPlan {
            grits: vec![Grit(120)],
            seal_coats: 0,
            stained: false,
            topcoats: 3,
        };
        let varnish = trial.varnish();
        let schedule = Schedule {
            show: plan.clone(),
            end_grain: plan.clone(),
            underside: plan,
            wipe_down: WipeDown::NotAsked,
            sealer: None,
            stain: None,
            topcoat: Some(varnish.id),
            scuff: None,
            cure_before_set: varnish.label.light_use,
            balance_allowance: 1,
        };
        let recipe = RecipeDraft {
            name: "three coats".to_owned(),
            schedule,
        };
        let Made::Recipe(recipe) = trial.done(&Action::SaveRecipe(Which::New, recipe)).made else {
            panic!("a recipe");
        };
        trial.recipe = recipe;
        trial
    }

    pub fn desk(&mut self) -> Desk<'_> {
        Desk {
            books: &mut self.store,
            now: self.now,
            mint: &mut self.mint,
            zone: ZONE,
        }
    }

    pub fn perform(&mut self, action: &Action) -> Result<Done, DeskError> {
        self.desk().perform(action)
    }

    pub fn done(&mut self, action: &Action) -> Done {
        self.perform(action)
            .unwrap_or_else(|error| panic!("{action:?}: {error}"))
    }

    pub fn shop(&self) -> Shop {
        Shop::read(&self.store, Scope::All, ZONE).expect("the shop")
    }

    pub fn clock(&self) -> ShopAirClock {
        self.shop().clock()
    }

    /// The newest words of the journal.
    pub fn words(&self) -> String {
        self.store.journal(1).expect("a journal")[0].words.clone()
    }

    pub fn lines(&self) -> usize {
        self.store.journal(100_000).expect("a journal").len()
    }

    /// The oil wiping varnish of the starting shelf: dry to recoat at 6 h, window to 24 h.
    pub fn varnish(&self) -> Product {
        let products = self.store.products().expect("products");
        let found = products
            .into_iter()
            .find(|product| product.family == Family::OilWipingVarnish);
        found.expect("an oil varnish")
    }

    pub fn log(&mut self, c: f64, percent: f64) -> Done {
        self.log_at(self.now, c, percent)
    }

    pub fn log_at(&mut self, at: DateTime<Utc>, c: f64, percent: f64) -> Done {
        let (air, sure) = (air(c, percent), false);
        self.done(&Action::LogAir { at, air, sure })
    }

    /// A shelf, sanded and ready for its first coat.
    pub fn shelf(&mut self) -> PieceId {
        let inches = |n| Length::from_inches(n, 0, 1).expect("a length");
        let outline = Outline::Rectangle {
            length: inches(30),
            width: inches(10),
        };
        let shape =
            Shape::new(outline, inches(1), EdgeProfile::Square, Vec::new(), None).expect("a shelf");
        let draft = PieceDraft {
            job: self.job,
            name: "shelf".to_owned(),
            kind: PieceKind::Shelf,
            species: "maple".to_owned(),
            construction: Construction::EdgeGrain,
            shape,
            recipe: self.recipe,
        };
        let Made::Piece(piece) = self.done(&Action::SavePiece(Which::New, draft)).made else {
            panic!("a piece");
        };
        let faces = self.faces(piece);
        let (grit, at) = (Grit(120), self.now);
        self.done(&Action::Tick {
            piece,
            faces,
            grit,
            at,
        });
        self.done(&Action::MoveAlong(vec![piece]));
        piece
    }

    pub fn faces(&self, piece: PieceId) -> Vec<FaceKey> {
        let shop = self.shop();
        let file = shop.file(piece).expect("the piece");
        let faces = file.piece.shape.faces(file.piece.construction);
        faces.iter().map(|face| face.key).collect()
    }

    pub fn coat_with(&mut self, piece: PieceId, amount: AmountDraft) -> Result<Done, DeskError> {
        let draft = PassDraft {
            picks: vec![FacePick { piece, faces: None }],
            kind: CoatKind::Topcoat,
            product: None,
            started: self.now,
            ended: self.now,
            amount,
            air: None,
            scuffed_first: None,
            drawn: tackfree::desk::DrawnDraft::default(),
        };
        self.perform(&Action::LogPass(draft))
    }

    /// A coat now, or every reason why not.
    pub fn coat(&mut self, piece: PieceId) -> Result<Done, DeskError> {
        self.coat_with(piece, AmountDraft::Estimate)
    }

    pub fn test(&mut self, piece: PieceId, verdict: TouchVerdict) -> Done {
        let at = self.now;
        self.done(&Action::Touch {
            picks: vec![FacePick { piece, faces: None }],
            verdict,
            at,
        })
    }

    /// The Rack's line of a piece.
    pub fn line(&self, piece: PieceId) -> RackLine {
        let shop = self.shop();
        let clock = shop.clock();
        let lines = rack_lines(&shop.files, &shop.gates(&clock), &clock, self.now);
        let found = lines.into_iter().find(|line| line.row.piece == piece);
        found.expect("a line")
    }
}

/// When the coat below is dry, by the gates that refused.
pub fn ready(refused: Result<Done, DeskError>) -> DateTime<Utc> {
    let Err(DeskError::Refused { refusals, .. }) = refused else {
        panic!("{refused:?}");
    };
    for blocker in &refusals[0].blockers {
        if let Blocker::NotDry { ready, .. } = blocker {
            return *ready;
        }
    }
    panic!("{refusals:?}");
}
