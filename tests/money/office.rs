//! A shop with one client, one job and two counters, and ways to act in it.

use chrono::{DateTime, Duration, NaiveDate, Utc};
use tackfree::coating::id::Mint;
use tackfree::desk::typed::{PieceTyped, read_parts, read_piece};
use tackfree::desk::{
    Action, AgreedPrice, AgreementDraft, Books, ClientDraft, Desk, DeskError, Done, JobDraft, Made,
    MoneyAction, Scope, Shop, Which,
};
use tackfree::shop::{Job, JobId, PieceId, Settings, Signed, SignedAt};
use tackfree::store::Store;
use tackfree::units::Money;

pub const ZONE: chrono_tz::Tz = chrono_tz::UTC;

pub struct Office {
    pub store: Store,
    pub mint: Mint,
    pub now: DateTime<Utc>,
    pub job: JobId,
    pub pieces: [PieceId; 2],
}

pub fn money(text: &str) -> Money {
    Money::parse(text).unwrap()
}

pub fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

impl Office {
    pub fn open() -> Self {
        let nil = uuid::Uuid::nil();
        let mut office = Self {
            store: Store::in_memory().unwrap(),
            mint: Mint::new(nil, 5),
            now: "2026-11-23T08:00:00Z".parse().unwrap(),
            job: JobId(nil),
            pieces: [PieceId(nil); 2],
        };
        office.desk().furnish(&Settings::starting(ZONE)).unwrap();
        let client = ClientDraft {
            name: "Ada Finch".to_owned(),
            ..ClientDraft::default()
        };
        let Made::Client(client) = office.act(&Action::SaveClient(Which::New, client)).made else {
            panic!("no client");
        };
        let draft = JobDraft {
            client,
            title: "Kitchen".to_owned(),
            site: String::new(),
            house_built: None,
            promised: Some(date("2026-12-18")),
            notes: String::new(),
        };
        let Made::Job(job) = office.act(&Action::SaveJob(Which::New, draft)).made else {
            panic!("no job");
        };
        office.job = job;
        for (at, size) in ["90 x 25", "60 x 25"].into_iter().enumerate() {
            let shop = office.shop();
            let typed = PieceTyped {
                name: format!("counter {}", at + 1),
                size: size.to_owned(),
                species: "hard maple".to_owned(),
                recipe: "hardwax oil on all sides".to_owned(),
                ..PieceTyped::starting(&shop)
            };
            let draft = read_piece(&typed, job, &shop).unwrap();
            let Made::Piece(piece) = office.act(&Action::SavePiece(Which::New, draft)).made else {
                panic!("no piece");
            };
            office.pieces[at] = piece;
        }
        office
    }

    pub fn desk(&mut self) -> Desk<'_> {
        Desk {
            books: &mut self.store,
            now: self.now,
            mint: &mut self.mint,
            zone: ZONE,
        }
    }

    pub fn shop(&self) -> Shop {
        Shop::read(&self.store, Scope::All, ZONE).unwrap()
    }

    pub fn the_job(&self) -> Job {
        self.shop().job(self.job).unwrap().clone()
    }

    pub fn act(&mut self, action: &Action) -> Done {
        match self.desk().perform(action) {
            Ok(done) => done,
            Err(error) => panic!("{action:?}: {error}"),
        }
    }

    pub fn does(&mut self, action: MoneyAction) -> Done {
        self.act(&Action::Money(Box::new(action)))
    }

    pub fn refused(&mut self, action: MoneyAction) -> String {
        let journal = self.store.journal(1).unwrap();
        let answer = self.desk().perform(&Action::Money(Box::new(action)));
        let error: DeskError = answer.expect_err("it must be refused");
        assert_eq!(
            self.store.journal(1).unwrap(),
            journal,
            "nothing is written"
        );
        error.to_string()
    }

    pub fn later(&mut self, minutes: i64) -> DateTime<Utc> {
        self.now += Duration::minutes(minutes);
        self.now
    }

    pub fn signed(&self, by: &str) -> Signed {
        Signed {
            on: self.now.date_naive(),
            by: by.to_owned(),
        }
    }

    pub fn agreement(&self, net: &str, tax: &str, pay: &str) -> AgreementDraft {
        AgreementDraft {
            job: self.job,
            signed: self.signed("Ada Finch"),
            at: SignedAt::Home,
            price: AgreedPrice::Own {
                net: money(net),
                tax: money(tax),
            },
            starts: None,
            promised: None,
            parts: read_parts(pay, self.now.date_naive()).unwrap(),
        }
    }
}
