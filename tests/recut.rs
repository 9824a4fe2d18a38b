//! Wood cut after work has started is bare wood, whatever was ticked before.

use chrono::{DateTime, Utc};
use tackfree::coating::LabelHours;
use tackfree::coating::id::Mint;
use tackfree::desk::typed::{PieceTyped, read_piece};
use tackfree::desk::{Action, ClientDraft, Desk, JobDraft, Made, Scope, Shop, Which};
use tackfree::shape::FaceKey;
use tackfree::shop::{Grit, PieceId, Settings, Stage, Ticket};
use tackfree::store::Store;
use tackfree::store::files::{export, import};

const ZONE: chrono_tz::Tz = chrono_tz::UTC;

struct Office {
    store: Store,
    mint: Mint,
    now: DateTime<Utc>,
}

impl Office {
    fn open() -> Self {
        let now = "2026-11-23T08:00:00Z".parse().expect("a moment");
        let mut office = Self {
            store: Store::in_memory().expect("a store"),
            mint: Mint::new(uuid::Uuid::nil(), 5),
            now,
        };
        office
            .desk()
            .furnish(&Settings::starting(ZONE))
            .expect("a start");
        office
    }

    fn desk(&mut self) -> Desk<'_> {
        Desk {
            books: &mut self.store,
            now: self.now,
            mint: &mut self.mint,
            zone: ZONE,
        }
    }

    fn act(&mut self, action: &Action) -> tackfree::desk::Done {
        self.desk().perform(action).expect("the action")
    }

    fn shop(&self) -> Shop {
        Shop::read(&self.store, Scope::All, ZONE).expect("the shop")
    }

    fn ticket(&self, piece: PieceId) -> Ticket {
        Ticket::of(self.shop().file(piece).expect("the piece"))
    }

    /// A counter with a hole, every face through every grit and moved along.
    fn sanded_counter(&mut self) -> (PieceId, PieceTyped) {
        let client = ClientDraft {
            name: "Ada Finch".to_owned(),
            ..ClientDraft::default()
        };
        let Made::Client(client) = self.act(&Action::SaveClient(Which::New, client)).made else {
            panic!("no client");
        };
        let draft = JobDraft {
            client,
            title: "Kitchen".to_owned(),
            site: String::new(),
            house_built: None,
            promised: None,
            notes: String::new(),
        };
        let Made::Job(job) = self.act(&Action::SaveJob(Which::New, draft)).made else {
            panic!("no job");
        };
        let shop = self.shop();
        let typed = PieceTyped {
            name: "counter".to_owned(),
            size: "60 x 25".to_owned(),
            species: "maple".to_owned(),
            holes: "1 3/8 at 30, 20".to_owned(),
            recipe: "hardwax oil on all sides".to_owned(),
            ..PieceTyped::starting(&shop)
        };
        let draft = read_piece(&typed, job, &shop).expect("a piece");
        let Made::Piece(piece) = self.act(&Action::SavePiece(Which::New, draft)).made else {
            panic!("no piece");
        };
        let ticket = self.ticket(piece);
        for grit in ticket.grits() {
            let faces: Vec<FaceKey> = ticket
                .faces
                .iter()
                .filter(|face| ticket.plan(face).grits.contains(&grit))
                .map(|face| face.key)
                .collect();
            let at = self.now;
            self.act(&Action::Tick {
                piece,
                faces,
                grit,
                at,
            });
        }
        let picks = vec![tackfree::desk::FacePick { piece, faces: None }];
        self.act(&Action::Wipe {
            picks,
            at: self.now,
        });
        self.act(&Action::MoveAlong(vec![piece]));
        assert_eq!(self.ticket(piece).stage, Stage::Topcoats);
        (piece, typed)
    }

    fn change(&mut self, piece: PieceId, typed: &PieceTyped) -> tackfree::desk::Done {
        let shop = self.shop();
        let job = shop.jobs[0].id;
        let draft = read_piece(typed, job, &shop).expect("a piece");
        self.act(&Action::SavePiece(Which::This(piece), draft))
    }
}

#[test]
fn a_hole_drilled_wider_is_bare_and_brings_the_piece_back_to_sanding() {
    let mut office = Office::open();
    let (piece, typed) = office.sanded_counter();
    let wider = PieceTyped {
        holes: "1 1/2 at 30, 20".to_owned(),
        ..typed
    };
    let done = office.change(piece, &wider);
    assert!(
        done.notes.iter().any(|note| note.contains("hole 1 wall")),
        "{done:?}"
    );
    let ticket = office.ticket(piece);
    assert_eq!(ticket.stage, Stage::Sanding);
    for face in &ticket.faces {
        assert_eq!(
            face.ticks.is_empty(),
            face.key == FaceKey::Hole(1),
            "{}",
            face.key
        );
    }
    assert!(
        office
            .desk()
            .perform(&Action::MoveAlong(vec![piece]))
            .is_err()
    );

    // What was cut anew comes back the same from the plain files.
    let folder = tempfile::tempdir().expect("a folder");
    let (first, second) = (folder.path().join("first"), folder.path().join("second"));
    export(&office.store, &first, ZONE).expect("an export");
    let mut other = Store::in_memory().expect("a store");
    let mut mint = Mint::new(uuid::Uuid::nil(), 11);
    import(&mut other, &first, office.now, &mut mint, ZONE, &LabelHours).expect("an import");
    export(&other, &second, ZONE).expect("an export");
    for name in ["log.csv", "pieces.csv", "openings.csv"] {
        let read = |folder: &std::path::Path| std::fs::read(folder.join(name)).expect("a file");
        assert!(read(&first) == read(&second), "{name} differs");
    }
}

#[test]
fn a_trimmed_end_is_bare_and_other_names_cut_nothing() {
    let mut office = Office::open();
    let (piece, typed) = office.sanded_counter();
    let named = PieceTyped {
        name: "long counter".to_owned(),
        ..typed.clone()
    };
    office.change(piece, &named);
    assert_eq!(office.ticket(piece).stage, Stage::Topcoats);
    let trimmed = PieceTyped {
        size: "59 1/2 x 25".to_owned(),
        ..typed
    };
    office.change(piece, &trimmed);
    let ticket = office.ticket(piece);
    assert_eq!(ticket.stage, Stage::Sanding);
    let bare: Vec<FaceKey> = ticket
        .faces
        .iter()
        .filter(|face| !face.ticks.contains_key(&Grit(80)))
        .map(|face| face.key)
        .collect();
    assert_eq!(bare, [FaceKey::Left, FaceKey::Right]);
}
