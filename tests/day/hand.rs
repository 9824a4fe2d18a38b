//! A hand at work: a store in memory, a clock the test puts, pieces, and actions through the desk.

use chrono::{DateTime, Duration, NaiveDate, NaiveDateTime, TimeZone, Utc};
use chrono_tz::Tz;
use tackfree::coating::id::Mint;
use tackfree::desk::{
    Action, AmountDraft, Books, ClientDraft, Desk, DeskError, Done, FacePick, JobDraft, Made,
    PassDraft, PieceDraft, Scope, Shop, Which,
};
use tackfree::shape::{Construction, EdgeProfile, Outline, Shape};
use tackfree::shop::{
    CoatKind, DayEnd, EventId, JobId, PassId, PieceId, PieceKind, ScuffMeans, Settings, Ticket,
    Waiting, waiting,
};
use tackfree::store::Store;
use tackfree::units::Length;

/// Where the shop is.
pub const ZONE: Tz = chrono_tz::America::Chicago;

/// A time on the shop's clock: `2026-11-25 09:00`. Where clocks went back, the first of the two.
pub fn clock(text: &str) -> DateTime<Utc> {
    let local = NaiveDateTime::parse_from_str(text, "%Y-%m-%d %H:%M").expect("a time");
    let at = ZONE.from_local_datetime(&local).earliest();
    at.expect("a time there is").with_timezone(&Utc)
}

pub fn date(text: &str) -> NaiveDate {
    text.parse().expect("a date")
}

/// The hand.
pub struct Hand {
    pub store: Store,
    pub now: DateTime<Utc>,
    pub mint: Mint,
    pub job: JobId,
}

impl Hand {
    /// A furnished shop with a client and a job.
    pub fn at(now: &str) -> Self {
        let mut hand = Self {
            store: Store::in_memory().expect("a store"),
            now: clock(now),
            mint: Mint::new(uuid::Uuid::nil(), 5),
            job: JobId(uuid::Uuid::nil()),
        };
        hand.desk()
            .furnish(&Settings::starting(ZONE))
            .expect("furnished");
        let draft = ClientDraft {
            name: "Ada Finch".to_owned(),
            ..ClientDraft::default()
        };
        let Made::Client(client) = hand.done(&Action::SaveClient(Which::New, draft)).made else {
            panic!("a client");
        };
        let draft = JobDraft {
            client,
            title: "kitchen".to_owned(),
            site: String::new(),
            house_built: None,
            promised: None,
            notes: String::new(),
        };
        let Made::Job(job) = hand.done(&Action::SaveJob(Which::New, draft)).made else {
            panic!("a job");
        };
        hand.job = job;
        hand
    }

    pub fn desk(&mut self) -> Desk<'_> {
        Desk {
            books: &mut self.store,
            now: self.now,
            mint: &mut self.mint,
            zone: ZONE,
        }
    }

    /// Does it; a second goes by, as between any two actions.
    pub fn try_to(&mut self, action: &Action) -> Result<Done, DeskError> {
        let done = self.desk().perform(action);
        self.now += Duration::seconds(1);
        done
    }

    #[track_caller]
    pub fn done(&mut self, action: &Action) -> Done {
        self.try_to(action).unwrap_or_else(|error| {
            panic!(
                "{action:?}: {:#?}",
                error.lines(clock("2026-11-25 09:00"), ZONE)
            )
        })
    }

    #[track_caller]
    pub fn refused(&mut self, action: &Action) -> String {
        let (now, error) = (self.now, self.try_to(action).expect_err("a refusal"));
        error.lines(now, ZONE).join("\n")
    }

    pub fn goes_on(&mut self, now: &str) {
        self.now = clock(now);
    }

    /// A rectangular shelf that follows the recipe of this name.
    pub fn piece(&mut self, name: &str, recipe: &str) -> PieceId {
        let inches = |n| Length::from_inches(n, 0, 1).expect("a length");
        let outline = Outline::Rectangle {
            length: inches(36),
            width: inches(12),
        };
        let shape = Shape::new(outline, inches(1), EdgeProfile::Square, Vec::new(), None);
        let recipe = self.shop().find_recipe(recipe).expect("a recipe").id;
        let draft = PieceDraft {
            job: self.job,
            name: name.to_owned(),
            kind: PieceKind::Shelf,
            species: "hard maple".to_owned(),
            construction: Construction::FaceGrain,
            shape: shape.expect("a shelf"),
            recipe,
        };
        match self.done(&Action::SavePiece(Which::New, draft)).made {
            Made::Piece(id) => id,
            other => panic!("{other:?}"),
        }
    }

    pub fn shop(&self) -> Shop {
        Shop::read(&self.store, Scope::All, ZONE).expect("the shop")
    }

    pub fn ticket(&self, piece: PieceId) -> Ticket {
        Ticket::of(self.shop().file(piece).expect("the piece"))
    }

    pub fn end(&self, day: &str) -> DayEnd {
        self.shop().day_end(date(day))
    }

    /// What the piece waits for, in words.
    pub fn waits(&self, piece: PieceId) -> Waiting {
        let shop = self.shop();
        let clock = shop.clock();
        waiting(&self.ticket(piece), &shop.gates(&clock), self.now)
    }

    /// Every grit on every face, each grit in one go.
    pub fn sand(&mut self, piece: PieceId) {
        for grit in self.ticket(piece).grits() {
            let ticket = self.ticket(piece);
            let wants = |face: &&tackfree::shop::FaceState| {
                ticket.plan(face).grits.contains(&grit) && !face.ticks.contains_key(&grit)
            };
            let faces: Vec<_> = ticket
                .faces
                .iter()
                .filter(wants)
                .map(|face| face.key)
                .collect();
            if faces.is_empty() {
                continue;
            }
            let at = self.now;
            self.done(&Action::Tick {
                piece,
                faces,
                grit,
                at,
            });
        }
    }

    pub fn wipe(&mut self, piece: PieceId) {
        let (picks, at) = (picks(&[piece]), self.now);
        self.done(&Action::Wipe { picks, at });
    }

    pub fn move_on(&mut self, piece: PieceId) {
        self.done(&Action::MoveAlong(vec![piece]));
    }

    /// Sanded, wiped and moved along at once.
    pub fn through_sanding(&mut self, piece: PieceId) {
        self.sand(piece);
        if self.ticket(piece).schedule.asks_wipe_down() {
            self.wipe(piece);
        }
        self.move_on(piece);
    }

    pub fn pass_draft(&self, pieces: &[PieceId], kind: CoatKind) -> PassDraft {
        PassDraft {
            picks: picks(pieces),
            kind,
            product: None,
            started: self.now - Duration::minutes(10),
            ended: self.now,
            amount: AmountDraft::Estimate,
            air: None,
            scuffed_first: None,
            drawn: tackfree::desk::DrawnDraft::default(),
        }
    }

    /// A pass of ten minutes that has just ended.
    #[track_caller]
    pub fn pass(&mut self, pieces: &[PieceId], kind: CoatKind) -> PassId {
        let draft = self.pass_draft(pieces, kind);
        match self.done(&Action::LogPass(draft)).made {
            Made::Pass(id) => id,
            other => panic!("{other:?}"),
        }
    }

    /// The same, scuffed just before.
    #[track_caller]
    pub fn scuffed_pass(&mut self, pieces: &[PieceId], means: ScuffMeans) -> PassId {
        let draft = PassDraft {
            scuffed_first: Some(means),
            ..self.pass_draft(pieces, CoatKind::Topcoat)
        };
        match self.done(&Action::LogPass(draft)).made {
            Made::Pass(id) => id,
            other => panic!("{other:?}"),
        }
    }

    /// The newest line of a piece's log.
    pub fn last_line(&self, piece: PieceId) -> EventId {
        self.shop().file(piece).unwrap().events.last().unwrap().id
    }

    /// The newest words of the journal.
    pub fn journal(&self) -> String {
        self.store.journal(1).unwrap()[0].words.clone()
    }
}

/// These pieces, the faces next in line.
pub fn picks(pieces: &[PieceId]) -> Vec<FacePick> {
    pieces
        .iter()
        .map(|piece| FacePick {
            piece: *piece,
            faces: None,
        })
        .collect()
}
