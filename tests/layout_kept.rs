//! What is kept of a layout: how a piece stands, what was accepted, the shop's own figures; undone,
//! done again, carried out and in, and never silently lost or kept too long.

use chrono::{DateTime, Utc};
use tackfree::coating::LabelHours;
use tackfree::coating::id::Mint;
use tackfree::desk::typed::{
    CheckTyped, LumberTyped, PieceTyped, RouterTyped, StandingTyped, read_check, read_lumber,
    read_piece, read_router, read_standing,
};
use tackfree::desk::{
    Action, Books, ClientDraft, Desk, DeskError, JobDraft, Made, Scope, Shop, Which,
};
use tackfree::papers::{findings_paper, ticket_paper};
use tackfree::shape::layout::{About, Figure, Rule, SourceKind, Weight};
use tackfree::shop::{LayoutBook, PieceId, Settings};
use tackfree::store::Store;
use tackfree::store::files::{export, import};
use tackfree::units::{Length, LengthStyle};

const ZONE: chrono_tz::Tz = chrono_tz::UTC;

struct Office {
    store: Store,
    mint: Mint,
    now: DateTime<Utc>,
    piece: PieceId,
    typed: PieceTyped,
}

impl Office {
    /// A counter whose sink stands 1 1/2 in behind the front edge.
    fn open() -> Self {
        let now = "2026-11-23T08:00:00Z".parse().expect("a moment");
        let mut office = Self {
            store: Store::in_memory().expect("a store"),
            mint: Mint::new(uuid::Uuid::nil(), 5),
            now,
            piece: PieceId(uuid::Uuid::nil()),
            typed: PieceTyped::default(),
        };
        office
            .desk()
            .furnish(&Settings::starting(ZONE))
            .expect("a start");
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
            promised: None,
            notes: String::new(),
        };
        let Made::Job(job) = office.act(&Action::SaveJob(Which::New, draft)).made else {
            panic!("no job");
        };
        let shop = office.shop();
        office.typed = PieceTyped {
            name: "counter".to_owned(),
            size: "90 x 25".to_owned(),
            species: "maple".to_owned(),
            cutouts: "30 x 16 r 3/4 at 45, 9 1/2".to_owned(),
            recipe: "hardwax oil on all sides".to_owned(),
            ..PieceTyped::starting(&shop)
        };
        let draft = read_piece(&office.typed, job, &shop).expect("a piece");
        let Made::Piece(piece) = office.act(&Action::SavePiece(Which::New, draft)).made else {
            panic!("no piece");
        };
        office.piece = piece;
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

    fn refused(&mut self, action: &Action) -> DeskError {
        self.desk().perform(action).expect_err("it is refused")
    }

    fn shop(&self) -> Shop {
        Shop::read(&self.store, Scope::All, ZONE).expect("the shop")
    }

    fn accept(&self, reason: &str) -> Action {
        Action::AcceptFinding {
            piece: self.piece,
            rule: Rule::StripFront,
            about: About("cutout-1".to_owned()),
            reason: reason.to_owned(),
        }
    }

    fn stands(&self, typed: &StandingTyped) -> Action {
        let standing = read_standing(typed, &Settings::starting(ZONE)).expect("it reads");
        Action::SaveStanding(self.piece, Box::new(standing))
    }

    fn accepted(&self) -> Option<String> {
        let shop = self.shop();
        let file = shop.file(self.piece).expect("the piece");
        let found = shop.findings(file);
        let strip = found
            .iter()
            .find(|finding| finding.rule == Rule::StripFront);
        strip.and_then(|finding| finding.accepted.clone())
    }

    fn resize(&mut self, cutouts: &str) {
        let shop = self.shop();
        let job = shop.file(self.piece).expect("the piece").piece.job;
        cutouts.clone_into(&mut self.typed.cutouts);
        let draft = read_piece(&self.typed, job, &shop).expect("a piece");
        self.act(&Action::SavePiece(Which::This(self.piece), draft));
    }
}

fn standing() -> StandingTyped {
    StandingTyped {
        joints: "across 12; along 20".to_owned(),
        overhangs: "back 12, brackets 6 every 20; left 6".to_owned(),
        span: "40".to_owned(),
        appliances: "10 to 34; 60 to 84, barrier".to_owned(),
        drip: "3/8".to_owned(),
        height: "36".to_owned(),
        accessible: "yes".to_owned(),
    }
}

#[test]
fn an_acceptance_is_journalled_kept_on_the_ticket_and_undone() {
    let mut office = Office::open();
    assert_eq!(office.accepted(), None);
    let done = office.act(&office.accept("the sink sheet asks it"));
    assert!(
        done.words
            .contains("strip-front at cutout 1 of 1A counter: the sink sheet asks it")
    );
    assert_eq!(office.accepted().as_deref(), Some("the sink sheet asks it"));
    let shop = office.shop();
    let file = shop.file(office.piece).expect("the piece");
    let paper = ticket_paper(&shop, file, &LabelHours, office.now).join(" ");
    let paper = paper.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        paper.contains("Accepted: the sink sheet asks it"),
        "{paper}"
    );
    office.act(&Action::Undo);
    assert_eq!(office.accepted(), None);
    office.act(&Action::Redo);
    assert_eq!(office.accepted().as_deref(), Some("the sink sheet asks it"));
    let words: Vec<String> = office
        .store
        .journal(10)
        .expect("a journal")
        .into_iter()
        .map(|line| line.words)
        .collect();
    assert!(
        words
            .iter()
            .any(|words| words.starts_with("Accepted strip-front")),
        "{words:?}"
    );
    let withdraw = Action::WithdrawAccepted {
        piece: office.piece,
        rule: Rule::StripFront,
        about: About("cutout-1".to_owned()),
    };
    office.act(&withdraw);
    assert_eq!(office.accepted(), None);
    assert!(matches!(
        office.refused(&withdraw),
        DeskError::FindingOpen { .. }
    ));
}

#[test]
fn nothing_is_accepted_without_a_reason_or_without_a_finding() {
    let mut office = Office::open();
    let none = office.accept("  ");
    assert!(matches!(office.refused(&none), DeskError::Empty { .. }));
    let other = Action::AcceptFinding {
        piece: office.piece,
        rule: Rule::StripBack,
        about: About("cutout-1".to_owned()),
        reason: "why not".to_owned(),
    };
    let said = office.refused(&other).to_string();
    assert!(said.contains("strip-back at cutout 1"), "{said}");
}

/// Moved nearer to the edge it is open again; moved clear of it and back it does not return.
#[test]
fn an_acceptance_holds_for_what_was_accepted_and_no_more() {
    let mut office = Office::open();
    office.act(&office.accept("the sink sheet asks it"));
    office.resize("30 x 16 r 3/4 at 45, 9 5/8");
    assert_eq!(office.accepted().as_deref(), Some("the sink sheet asks it"));
    office.resize("30 x 16 r 3/4 at 45, 9 1/4");
    assert_eq!(office.accepted(), None);
    office.resize("30 x 16 r 3/4 at 45, 12 1/2");
    office.resize("30 x 16 r 3/4 at 45, 9 1/2");
    assert_eq!(office.accepted(), None);
}

#[test]
fn how_a_piece_stands_is_checked_kept_and_undone() {
    let mut office = Office::open();
    office.act(&office.stands(&standing()));
    let shop = office.shop();
    let file = shop.file(office.piece).expect("the piece");
    let found = shop.findings(file);
    let of = |rule| found.iter().filter(|finding| finding.rule == rule).count();
    // Across 12 stands 18 in off the cutout's left side; along 20 is 2 1/2 in behind it.
    assert_eq!(of(Rule::JointStrip), 1);
    assert_eq!(of(Rule::BracketReach), 1);
    assert_eq!(of(Rule::BracketApart), 1);
    assert_eq!(of(Rule::Span), 1);
    assert_eq!(of(Rule::JointSteam), 1);
    assert_eq!(of(Rule::Steam), 1);
    assert_eq!(of(Rule::HeightMost), 1);
    assert_eq!(of(Rule::Drip), 0);
    assert!(!findings_paper(&shop, file).is_empty());
    let again = StandingTyped::of(&shop.layout_of(office.piece).standing, &shop.settings);
    assert_eq!(again, standing());
    let beside = StandingTyped {
        joints: "across 200".to_owned(),
        ..StandingTyped::default()
    };
    let beside = office.stands(&beside);
    assert!(office.refused(&beside).to_string().contains("200"));
    office.act(&Action::Undo);
    assert!(office.shop().layout_of(office.piece).is_unsaid());
    // A piece with a standing can be removed, and the removal undone, standing and all.
    office.act(&Action::Redo);
    let kept = office.shop().layout_of(office.piece);
    office.act(&Action::RemovePiece(office.piece));
    assert!(office.shop().layouts.is_empty());
    office.act(&Action::Undo);
    assert_eq!(office.shop().layout_of(office.piece), kept);
}

fn own_figures(settings: &Settings) -> LayoutBook {
    let mut book = LayoutBook::default();
    let rule = CheckTyped {
        figure: "10".to_owned(),
        weight: "serious".to_owned(),
        made: "yes".to_owned(),
    };
    let setting = read_check(Rule::EndStrip, &rule, settings).expect("it reads");
    book.rules.set(Rule::EndStrip, setting).expect("it suits");
    let off = CheckTyped {
        weight: "note".to_owned(),
        made: "no".to_owned(),
        figure: "3/8".to_owned(),
    };
    let setting = read_check(Rule::Drip, &off, settings).expect("it reads");
    book.rules.set(Rule::Drip, setting).expect("it suits");
    let share = CheckTyped {
        figure: "60 %".to_owned(),
        weight: "note".to_owned(),
        made: "yes".to_owned(),
    };
    let setting = read_check(Rule::BracketReach, &share, settings).expect("it reads");
    book.rules
        .set(Rule::BracketReach, setting)
        .expect("it suits");
    let router = RouterTyped {
        bit: "12 mm".to_owned(),
        cutting_length: "2".to_owned(),
        flutes: "3".to_owned(),
        rpm: "18,000".to_owned(),
        chip: "0.1 mm".to_owned(),
        depth: "9 passes".to_owned(),
        clean_up: "wall 1/8".to_owned(),
        guide: "bushing 30 mm".to_owned(),
    };
    book.router = read_router(&router, settings).expect("it reads");
    let lumber = LumberTyped {
        strip: "1 3/4".to_owned(),
        end_trim: "0".to_owned(),
        side_trim: "1/4".to_owned(),
        kerf: "3/16".to_owned(),
        waste: "25 %".to_owned(),
        board_width: "8".to_owned(),
        board_length: "144".to_owned(),
        quarters: "6/4".to_owned(),
        page: "a4".to_owned(),
    };
    (book.lumber, book.page) = read_lumber(&lumber, settings).expect("it reads");
    book
}

#[test]
fn the_shops_own_figures_are_kept_undone_and_refused_when_impossible() {
    let mut office = Office::open();
    let settings = office.shop().settings;
    let book = own_figures(&settings);
    let done = office.act(&Action::SaveLayoutBook(Box::new(book.clone())));
    for said in [
        "end-strip 10\" as serious",
        "drip not checked",
        "60 %",
        "the router",
        "a4",
    ] {
        assert!(done.words.contains(said), "{said}: {}", done.words);
    }
    let shop = office.shop();
    assert_eq!(shop.layout, book);
    assert_eq!(shop.layout.rules.kind(Rule::EndStrip), SourceKind::Shop);
    assert_eq!(
        shop.layout.rules.setting(Rule::EndStrip).weight,
        Weight::Serious
    );
    // Typed again as shown, nothing changes.
    let router = RouterTyped::of(&book.router, &settings);
    assert_eq!(read_router(&router, &settings), Ok(book.router));
    let lumber = LumberTyped::of(&book.lumber, book.page, &settings);
    assert_eq!(
        read_lumber(&lumber, &settings),
        Ok((book.lumber, book.page))
    );
    office.act(&Action::Undo);
    assert_eq!(office.shop().layout, LayoutBook::default());
    let mut wide = book.clone();
    wide.router.bit = Length::from_mm(40);
    let said = office
        .refused(&Action::SaveLayoutBook(Box::new(wide)))
        .to_string();
    assert!(said.contains("40 mm"), "{said}");
    let mut waste = book;
    waste.lumber.waste_percent = 95;
    let said = office
        .refused(&Action::SaveLayoutBook(Box::new(waste)))
        .to_string();
    assert!(said.contains("95"), "{said}");
}

#[test]
fn all_of_it_travels_out_and_in() {
    for style in [LengthStyle::Sixteenths, LengthStyle::Millimetres] {
        let mut office = Office::open();
        let mut settings = office.shop().settings;
        let book = own_figures(&settings);
        office.act(&Action::SaveLayoutBook(Box::new(book)));
        office.act(&office.stands(&standing()));
        office.act(&office.accept("the sink \"sheet\" asks it"));
        settings.length = style;
        office.act(&Action::SaveSettings(settings));
        let folder = tempfile::tempdir().expect("a folder");
        let out = folder.path().join("out");
        export(&office.store, &out, ZONE).expect("it goes out");
        let mut other = Store::in_memory().expect("a store");
        import(
            &mut other,
            &out,
            office.now,
            &mut Mint::new(uuid::Uuid::nil(), 9),
            ZONE,
            &LabelHours,
        )
        .expect("it comes in");
        let (had, has) = (
            office.shop(),
            Shop::read(&other, Scope::All, ZONE).expect("the shop"),
        );
        assert_eq!(has.layout, had.layout);
        assert_eq!(has.layouts, had.layouts);
        let again = folder.path().join("again");
        export(&other, &again, ZONE).expect("it goes out");
        let text = |folder: &std::path::Path| {
            std::fs::read_to_string(folder.join("layout.toml")).expect("a file")
        };
        assert_eq!(text(&out), text(&again));
        // A shop of an earlier version has no such file.
        std::fs::remove_file(out.join("layout.toml")).expect("it was there");
        let mut earlier = Store::in_memory().expect("a store");
        let mint = &mut Mint::new(uuid::Uuid::nil(), 9);
        import(&mut earlier, &out, office.now, mint, ZONE, &LabelHours).expect("it comes in");
        let shop = Shop::read(&earlier, Scope::All, ZONE).expect("the shop");
        assert_eq!(shop.layout, LayoutBook::default());
        assert!(shop.layouts.is_empty());
    }
}

#[test]
fn a_bad_layout_file_is_refused_with_its_line() {
    let office = Office::open();
    let piece = office.piece.0.to_string();
    let bad = [
        (
            "[[check]]\ncheck = \"nonsense\"\nweight = \"note\"\nmade = true\n".to_owned(),
            "nonsense",
        ),
        (
            "[[check]]\ncheck = \"drip\"\nfigure = \"3\"\nweight = \"note\"\nmade = true\n"
                .to_owned(),
            "has no unit",
        ),
        (
            format!("[[stands]]\npiece = \"{piece}\"\njoints = \"across 900 in\"\n"),
            "900",
        ),
        ("[[stands]]\npiece = \"nobody\"\n".to_owned(), "nobody"),
        (
            format!(
                "[[accepted]]\npiece = \"{piece}\"\ncheck = \"drip\"\nabout = \"front\"\nmissing = \"0 in\"\nweight = \"note\"\nreason = \" \"\n"
            ),
            "reason",
        ),
    ];
    for (text, wanted) in bad {
        let folder = tempfile::tempdir().expect("a folder");
        let out = folder.path().join("out");
        export(&office.store, &out, ZONE).expect("it goes out");
        std::fs::write(out.join("layout.toml"), &text).expect("written");
        let mut other = Store::in_memory().expect("a store");
        let mint = &mut Mint::new(uuid::Uuid::nil(), 9);
        let said = import(&mut other, &out, office.now, mint, ZONE, &LabelHours)
            .expect_err("it is refused")
            .to_string();
        assert!(said.starts_with("layout.toml, line 1"), "{said}");
        assert!(said.contains(wanted), "{said}");
    }
}

#[test]
fn what_does_not_read_names_its_field() {
    let settings = Settings::starting(ZONE);
    let wrong = StandingTyped {
        joints: "sideways 12".to_owned(),
        overhangs: "back".to_owned(),
        span: "x".to_owned(),
        appliances: "24".to_owned(),
        drip: "-1".to_owned(),
        height: "high".to_owned(),
        accessible: "perhaps".to_owned(),
    };
    let errors = read_standing(&wrong, &settings).expect_err("nothing reads");
    let fields: Vec<&str> = errors.iter().map(|error| error.field).collect();
    assert_eq!(
        fields,
        [
            "joints",
            "overhangs",
            "appliances",
            "span",
            "drip",
            "height",
            "accessible"
        ]
    );
    let rule = CheckTyped {
        figure: "0".to_owned(),
        weight: "note".to_owned(),
        made: "yes".to_owned(),
    };
    let share = read_check(Rule::BracketReach, &rule, &settings).expect_err("no share");
    assert!(share[0].message.contains("1 to 100"), "{share:?}");
    let nought = read_check(Rule::JointSteam, &rule, &settings).expect("nought is a figure");
    assert_eq!(nought.figure, Figure::Length(Length::ZERO));
}
