//! A shop to try a store with.

use chrono::{DateTime, Duration, Utc};
use chrono_tz::Tz;
use rusqlite::Connection;
use rusqlite::types::ValueRef;
use std::fmt::Write as _;
use std::path::Path;
use tackfree::coating::id::Mint;
use tackfree::desk::{
    Action, Books, BooksError, ClientDraft, Desk, DeskError, Done, JobDraft, Made, PieceDraft,
    Which,
};
use tackfree::shape::{
    Construction, EdgeProfile, Opening, OpeningKind, Outline, Place, Purpose, Shape,
};
use tackfree::shop::{ClientId, JobId, PieceId, PieceKind, RecipeId, Settings};
use tackfree::store::Store;
use tackfree::units::Length;

/// Where the shop is.
pub const ZONE: Tz = chrono_tz::America::New_York;

/// When it opens.
pub fn opening() -> DateTime<Utc> {
    DateTime::from_timestamp_millis(1_790_000_000_123).expect("a moment in the calendar")
}

/// A folder for many small writes: in memory where the system offers that, to spare the disk.
pub fn light_folder() -> tempfile::TempDir {
    tempfile::tempdir_in("/dev/shm")
        .or_else(|_| tempfile::tempdir())
        .expect("a folder")
}

/// A store with a desk before it.
pub struct Trial {
    pub store: Store,
    pub now: DateTime<Utc>,
    pub mint: Mint,
}

impl Trial {
    /// A new, furnished shop at `path`.
    pub fn new(path: &Path) -> Self {
        let mut trial = Self::over(Store::open(path).expect("a new store"));
        trial
            .desk()
            .furnish(&Settings::starting(ZONE))
            .expect("furnished");
        trial
    }

    /// A store that is there.
    pub fn over(store: Store) -> Self {
        let last = store.last_id().expect("the last identifier");
        Self {
            store,
            now: opening(),
            mint: Mint::new(last, 7),
        }
    }

    pub fn desk(&mut self) -> Desk<'_> {
        Desk {
            books: &mut self.store,
            now: self.now,
            mint: &mut self.mint,
            zone: ZONE,
        }
    }

    pub fn wait(&mut self, minutes: i64) {
        self.now += Duration::minutes(minutes);
    }

    pub fn perform(&mut self, action: &Action) -> Result<Done, DeskError> {
        self.desk().perform(action)
    }

    pub fn done(&mut self, action: &Action) -> Done {
        self.perform(action)
            .unwrap_or_else(|error| panic!("{action:?}: {error}"))
    }

    pub fn add_client(&mut self, name: &str) -> ClientId {
        let draft = ClientDraft {
            name: name.to_owned(),
            ..ClientDraft::default()
        };
        match self.done(&Action::SaveClient(Which::New, draft)).made {
            Made::Client(id) => id,
            other => panic!("{other:?}"),
        }
    }

    pub fn add_job(&mut self, client: ClientId, title: &str) -> JobId {
        let draft = JobDraft {
            client,
            title: title.to_owned(),
            site: "9 Mill Lane".to_owned(),
            house_built: Some(1961),
            promised: Some((self.now + Duration::days(60)).date_naive()),
            notes: "gate code with the neighbour\nsecond line".to_owned(),
        };
        match self.done(&Action::SaveJob(Which::New, draft)).made {
            Made::Job(id) => id,
            other => panic!("{other:?}"),
        }
    }

    pub fn recipe(&self, no: usize) -> RecipeId {
        self.store.recipes().expect("recipes")[no].id
    }

    pub fn piece_draft(&self, job: JobId, name: &str, shape: Shape) -> PieceDraft {
        PieceDraft {
            job,
            name: name.to_owned(),
            kind: PieceKind::Counter,
            species: "hard maple".to_owned(),
            construction: Construction::EdgeGrain,
            shape,
            recipe: self.recipe(0),
        }
    }

    pub fn add_piece(&mut self, draft: PieceDraft) -> PieceId {
        match self.done(&Action::SavePiece(Which::New, draft)).made {
            Made::Piece(id) => id,
            other => panic!("{other:?}"),
        }
    }
}

pub fn inches(whole: i64, num: i64, den: i64) -> Length {
    Length::from_inches(whole, num, den).expect("an exact length")
}

/// 98 3/8 x 25 1/2 x 1 1/2 with a sink cutout, a tap hole and a stained band.
pub fn counter() -> Shape {
    let cutout = Opening {
        no: 1,
        place: Place {
            x: inches(40, 0, 1),
            y: inches(12, 1, 2),
        },
        what: OpeningKind::Cutout {
            width: inches(30, 0, 1),
            depth: inches(16, 0, 1),
            corner_radius: inches(0, 3, 4),
        },
        purpose: Purpose::Plain,
        profile: EdgeProfile::Square,
    };
    let hole = Opening {
        no: 2,
        place: Place {
            x: inches(40, 0, 1),
            y: inches(22, 1, 4),
        },
        what: OpeningKind::Hole {
            diameter: inches(1, 3, 8),
        },
        purpose: Purpose::Plain,
        profile: EdgeProfile::Square,
    };
    let outline = Outline::Rectangle {
        length: inches(98, 3, 8),
        width: inches(25, 1, 2),
    };
    let profile = EdgeProfile::RoundOver(inches(0, 1, 8));
    // The hole first: the order of the openings is the person's.
    Shape::new(
        outline,
        inches(1, 1, 2),
        profile,
        vec![hole, cutout],
        Some(inches(2, 0, 1)),
    )
    .expect("a counter")
}

/// A round table of this many inches.
pub fn table(across: i64) -> Shape {
    let outline = Outline::Circle {
        diameter: inches(across, 0, 1),
    };
    let profile = EdgeProfile::Chamfer(inches(0, 1, 4));
    Shape::new(outline, inches(1, 1, 4), profile, Vec::new(), None).expect("a table")
}

/// Reads every row of every table of shop data, by a connection of its own, so only what was
/// committed.
pub struct Dumper {
    conn: Connection,
    queries: Vec<String>,
}

impl Dumper {
    pub fn new(path: &Path) -> Self {
        let conn = Connection::open(path).expect("a second connection");
        let sql = "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT IN \
                   ('journal', 'image', 'pen') ORDER BY name";
        let mut statement = conn.prepare(sql).expect("tables");
        let queries: Vec<String> = statement
            .query_map([], |row| row.get::<_, String>(0))
            .expect("tables")
            .map(|name| format!("SELECT '{0}', * FROM {0}", name.expect("a name")))
            .collect();
        assert!(queries.len() >= 10, "tables of shop data");
        drop(statement);
        Self { conn, queries }
    }

    /// One line a row, in order.
    pub fn dump(&self) -> String {
        let mut lines = Vec::new();
        for query in &self.queries {
            let mut statement = self.conn.prepare_cached(query).expect("a table");
            let width = statement.column_count();
            let mut rows = statement.query([]).expect("rows");
            while let Some(row) = rows.next().expect("a row") {
                let mut line = String::new();
                for at in 0..width {
                    let _ = match row.get_ref(at).expect("a cell") {
                        ValueRef::Null => write!(line, "-|"),
                        ValueRef::Integer(number) => write!(line, "{number}|"),
                        ValueRef::Text(text) => {
                            write!(line, "{:?}|", std::str::from_utf8(text).expect("text"))
                        }
                        other => panic!("{query}: {other:?}"),
                    };
                }
                lines.push(line);
            }
        }
        lines.sort();
        lines.join("\n")
    }
}

/// One look at every table.
pub fn dump(path: &Path) -> String {
    Dumper::new(path).dump()
}

/// Everything a store answers with, in one text.
pub fn all_read(store: &Store) -> Result<String, BooksError> {
    use tackfree::desk::Scope;
    Ok(format!(
        "{:#?}\n{:#?}\n{:#?}\n{:#?}\n{:#?}\n{:#?}\n{:#?}",
        store.settings()?,
        store.clients()?,
        store.jobs()?,
        store.products()?,
        store.recipes()?,
        store.pieces(Scope::All)?,
        store.passes(Scope::All)?,
    ))
}
