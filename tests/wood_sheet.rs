//! What the wood of a piece will do, through the desk and on paper: from readings, site, build and
//! coats to movement, gaps, slots, cup and the client's page. Formulas are checked against published
//! figures in `published_wood.rs`; here it is checked that a piece's records reach them.

use chrono::{DateTime, Duration, Utc};
use chrono_tz::Tz;
use tackfree::coating::id::Mint;
use tackfree::coating::{Family, LabelHours};
use tackfree::desk::{
    Action, AmountDraft, Books, ClientDraft, Desk, DeskError, Done, FacePick, PassDraft, Scope,
    Shop, Which,
};
use tackfree::papers::wood::{client_page_html, client_page_paper, wood_sheet_paper};
use tackfree::shape::{Construction, FaceKey};
use tackfree::shop::moving::{CupAnswer, ShopsAir, TodayBasis, WoodSheet, finish_of};
use tackfree::shop::{CoatKind, PieceFile, PieceWood, Site, SiteAir, Ticket};
use tackfree::store::Store;
use tackfree::store::files::load_demo;
use tackfree::wood::moisture::{Correction, Meter, MoistureContent, Reading, Region, Verdict};
use tackfree::wood::movement::{Filling, Formula, Grain, HoldLine, MovementError, Situation};
use tackfree::wood::sealing::FinishKind;

#[path = "wood_sheet/legs.rs"]
mod legs;

const ZONE: Tz = chrono_tz::America::Denver;

/// The demo shop with a desk before it.
struct Demo {
    store: Store,
    mint: Mint,
    now: DateTime<Utc>,
}

impl Demo {
    fn new() -> Self {
        let now: DateTime<Utc> = "2026-11-25T15:20:00Z".parse().expect("a moment");
        let mut store = Store::in_memory().expect("a store");
        let mut mint = Mint::new(uuid::Uuid::nil(), 7);
        load_demo(&mut store, now, &mut mint, ZONE, &LabelHours).expect("the demo");
        Self { store, mint, now }
    }

    fn perform(&mut self, action: &Action) -> Result<Done, DeskError> {
        let mut desk = Desk {
            books: &mut self.store,
            now: self.now,
            mint: &mut self.mint,
            zone: ZONE,
        };
        desk.perform(action)
    }

    fn done(&mut self, action: &Action) -> Done {
        self.perform(action)
            .unwrap_or_else(|error| panic!("{action:?}: {:?}", error.lines(self.now, ZONE)))
    }

    fn shop(&self) -> Shop {
        Shop::read(&self.store, Scope::All, ZONE).expect("the shop")
    }

    fn file(&self, ticket: &str) -> PieceFile {
        self.shop().find_piece(ticket).expect("the piece").clone()
    }

    fn sheet_with(&self, ticket: &str, air: Option<ShopsAir>) -> WoodSheet {
        let (shop, file) = (self.shop(), self.file(ticket));
        let folded = Ticket::of(&file);
        shop.wood_records(&file, &folded, air).sheet(self.now)
    }

    fn sheet(&self, ticket: &str) -> WoodSheet {
        self.sheet_with(ticket, self.shop().shops_air(self.now))
    }

    fn paper(&self, ticket: &str) -> String {
        let (shop, file) = (self.shop(), self.file(ticket));
        wood_sheet_paper(&shop, &file, &self.sheet(ticket), self.now).join("\n")
    }

    /// The same with its line breaks taken out.
    fn flat_paper(&self, ticket: &str) -> String {
        let paper = self.paper(ticket);
        paper.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    /// The site of a piece's job at a span of moisture contents.
    fn span(&mut self, ticket: &str, driest: f64, wettest: f64) {
        let job = self.file(ticket).piece.job;
        let air = Some(SiteAir::Given {
            driest: content(driest),
            wettest: content(wettest),
        });
        self.done(&Action::SaveSite(Site {
            air,
            ..Site::unknown(job)
        }));
    }

    fn read(&mut self, ticket: &str, days_ago: i64, percent: f64) {
        self.read_at(ticket, "top, middle", days_ago, percent);
    }

    fn read_at(&mut self, ticket: &str, place: &str, days_ago: i64, percent: f64) {
        let reading = Reading {
            at: self.now - Duration::days(days_ago),
            place: place.to_owned(),
            depth: None,
            meter: Meter::Oven,
            correction: Correction::InMeter,
            percent: content(percent),
        };
        let piece = self.file(ticket).piece.id;
        self.done(&Action::SaveMoisture(Which::New, piece, reading));
    }

    fn lie(&mut self, ticket: &str, change: impl FnOnce(&mut PieceWood)) {
        let mut lie = PieceWood::unsaid(self.file(ticket).piece.id);
        change(&mut lie);
        self.done(&Action::SavePieceWood(lie));
    }
}

fn content(percent: f64) -> MoistureContent {
    MoistureContent::from_percent(percent).expect("a moisture content")
}

fn mm(length: tackfree::units::Length) -> f64 {
    length.metres() * 1000.0
}

/// The window counter: hard maple, edge grain, 48 x 25 1/2 in, nothing noted in the demo.
fn counter() -> Demo {
    let mut demo = Demo::new();
    demo.read("1C", 0, 8.0);
    demo.span("1C", 6.0, 10.0);
    demo.lie("1C", |lie| lie.grain = Grain::Flat);
    demo
}

#[test]
fn movement_follows_from_reading_site_build_and_grain() {
    let demo = counter();
    let sheet = demo.sheet("1C");
    let moves = sheet.moves.expect("movement");
    // Flatsawn strips on edge are radial in width: C_R of sugar maple 0.00165 (Wood Handbook Table
    // 13-5, p. 13-16), 2 points either way: 647.7 mm x 0.00165 x 2 = 2.137 mm.
    let dry = moves.across.to_dry.change;
    assert!(dry.is_single());
    assert!((mm(dry.low()) + 2.137).abs() < 0.01, "{dry:?}");
    assert!((mm(moves.across.to_wet.change.high()) - 2.137).abs() < 0.01);
    assert_eq!(moves.across.to_dry.formula, Formula::Coefficients);
    // 2.137 mm is 2.7 of 1/32 in: a gap of 3/32 in at the back, none at the held front.
    assert!((mm(moves.fastening.main.gap.leave) - 3.0 * 25.4 / 32.0).abs() < 1e-6);
    assert!(moves.fastening.main.gap_opposite.opens_to == tackfree::units::Length::ZERO);
    // The back row stands 21 1/2 in from the held one: 546.1 x 0.00165 x 2 = 1.802 mm each way and
    // half of a 1/4 in screw, 4.977 mm, is 7/32 in rounded up; the slot twice that.
    let slot = moves.fastening.main.rows[0].slot.expect("a slot");
    assert!((mm(slot.length) - 14.0 * 25.4 / 32.0).abs() < 1e-6);
    let paper = demo.paper("1C");
    assert!(
        paper
            .contains("Width 25 1/2\" (647.7 mm) today: shrinks 3/32\" (2.1 mm) in the dry season"),
        "{paper}"
    );
    assert!(
        paper.contains("At the front edge: no gap is needed"),
        "{paper}"
    );
}

#[test]
fn a_figure_eight_turns_to_the_side_that_the_year_goes() {
    let mut demo = counter();
    demo.read("1C", 0, 10.0);
    // At its wettest today: 21 1/2 in from the held row, 546.1 x 0.00165 x 4 = 3.604 mm inward, on
    // 3/4 in between the holes: asin(3.604 / 19.05) = 10.9 degrees; outward none.
    let moves = demo.sheet("1C").moves.expect("movement");
    let eight = moves.fastening.main.eight.expect("it serves");
    assert_eq!((eight.outward_degrees, eight.inward_degrees), (0, 11));
    let paper = demo.paper("1C");
    let paper = paper.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        paper
            .contains("turns at most 11 degrees toward the held line (5/32\" (3.6 mm)), and draws"),
        "{paper}"
    );
}

#[test]
fn grain_nobody_looked_at_gives_a_range() {
    let mut demo = counter();
    demo.lie("1C", |lie| lie.grain = Grain::Unknown);
    let moves = demo.sheet("1C").moves.expect("movement");
    // Radial 0.00165 to tangential 0.00353: 2.137 to 4.573 mm.
    let wet = moves.across.to_wet.change;
    assert!((mm(wet.low()) - 2.137).abs() < 0.01, "{wet:?}");
    assert!((mm(wet.high()) - 4.573).abs() < 0.01, "{wet:?}");
    // What is left open follows from the most.
    assert!(mm(moves.fastening.main.gap.leave) >= 4.573);
}

#[test]
fn along_the_grain_an_end_grain_top_moves_like_its_width() {
    let mut demo = Demo::new();
    let file = demo.file("1C");
    let mut piece = file.piece.clone();
    piece.construction = Construction::EndGrain;
    demo.store.begin().expect("begun");
    demo.store
        .put(tackfree::desk::Row::Piece(&piece))
        .expect("put");
    demo.store
        .commit(demo.now, "Stood on end")
        .expect("committed");
    demo.read("1C", 0, 8.0);
    demo.span("1C", 6.0, 10.0);
    let moves = demo.sheet("1C").moves.expect("movement");
    let (across, along) = (moves.across.to_wet.change, moves.along.to_wet.change);
    let per = |change: tackfree::units::Length, size: tackfree::units::Length| {
        change.metres() / size.metres()
    };
    let width = moves.across.to_wet.size;
    let length = moves.along.to_wet.size;
    assert!((per(across.high(), width) - per(along.high(), length)).abs() < 1e-6);
    // So its fasteners need play along the rows too: 48/2 - 2 = 22 in from the middle, 558.8 mm x
    // 0.00353 x 2 = 3.945 mm and half of a 1/4 in screw, 7.120 mm, is 9/32 in each way; and a
    // figure-eight, which is stiff along itself, will not serve.
    let main = moves.fastening.main;
    let far = main.lengthwise.expect("play along the row");
    assert!((mm(far.from_held) - 558.8).abs() < 0.01);
    assert!((mm(far.slot.length) - 18.0 * 25.4 / 32.0).abs() < 1e-6);
    assert_eq!(main.eight, Err(MovementError::BothWays));
    let paper = demo.flat_paper("1C");
    assert!(
        paper.contains("Blocks on end move along the rows too"),
        "{paper}"
    );
    assert!(!paper.contains("clips or figure-eights"), "{paper}");
}

#[test]
fn a_round_top_has_fewer_fasteners_in_its_shorter_rows() {
    let paper = Demo::new().flat_paper("5A");
    assert!(paper.contains("Along the longest row"), "{paper}");
    assert!(paper.contains("fewer in the shorter ones"), "{paper}");
}

#[test]
fn outside_six_to_fourteen_the_wider_formula_is_used_and_said() {
    let mut demo = counter();
    demo.span("1C", 4.0, 10.0);
    let moves = demo.sheet("1C").moves.expect("movement");
    assert_eq!(moves.across.to_dry.formula, Formula::Shrinkage);
    assert_eq!(moves.across.to_wet.formula, Formula::Coefficients);
    let paper = demo.paper("1C");
    let paper = paper.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        paper.contains("eq. 13-3, p. 13-17, from green-to-ovendry shrinkage"),
        "{paper}"
    );
    assert!(paper.contains("as wanted outside 6 to 14 %"), "{paper}");
}

#[test]
fn above_fibre_saturation_no_movement_is_claimed() {
    let mut demo = Demo::new();
    demo.read("1C", 0, 45.0);
    demo.span("1C", 32.0, 60.0);
    let moves = demo.sheet("1C").moves.expect("movement");
    assert_eq!(moves.across.to_wet.formula, Formula::AboveSaturation);
    assert_eq!(
        moves.across.to_wet.change.high(),
        tackfree::units::Length::ZERO
    );
    let paper = demo.paper("1C");
    let paper = paper.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(paper.contains("does not move in the dry season"), "{paper}");
    assert!(
        paper.contains("above fibre saturation wood does not move, so nothing is claimed"),
        "{paper}"
    );
}

#[test]
fn what_is_nothing_is_not_told_as_a_figure() {
    // The first tread's faces carry the same coats: no cup, and no basis of one.
    let paper = Demo::new().flat_paper("3A");
    assert!(
        paper.contains("no cup to fear from unlike faces"),
        "{paper}"
    );
    assert!(
        !paper.contains("difference of 0.0 to 0.0 points"),
        "{paper}"
    );
    assert!(!paper.contains("0\" (0 mm)"), "{paper}");
}

#[test]
fn the_sink_counter_is_not_advised_against_how_it_is_held() {
    let paper = Demo::new().flat_paper("1A");
    assert!(paper.contains("held at the front edge"), "{paper}");
    assert!(!paper.contains("Hold the back edge"), "{paper}");
}

#[test]
fn rows_from_memory_and_commercial_groups_are_shown_as_such() {
    let mut demo = Demo::new();
    // Teak's coefficients are from memory.
    let paper = demo.paper("4A");
    assert!(paper.contains("Teak (from memory)"), "{paper}");
    assert!(
        paper.contains("This row is from memory: check it"),
        "{paper}"
    );
    demo.lie("3B", |lie| lie.wood = "white oak, comm".to_owned());
    let paper = demo.paper("3B");
    assert!(
        paper.contains(
            "White oak, commercial (a commercial group of species; read in the document)"
        ),
        "{paper}"
    );
}

#[test]
fn a_wood_the_table_does_not_know_is_asked_for_not_guessed() {
    let demo = Demo::new();
    // The library shelves say "ash", which may be several.
    let sheet = demo.sheet("6A");
    assert!(sheet.moves.is_err());
    let paper = demo.paper("6A");
    let short = paper.split("THE WOOD").next().expect("a beginning");
    let short = short.split_whitespace().collect::<Vec<_>>().join(" ");
    // The names to choose from stand in front.
    assert!(
        short.contains("Movement: \"ash\" may be Ash, black"),
        "{short}"
    );
    assert!(!paper.contains("LEAVE AND HOLD"), "{paper}");
}

#[test]
fn without_a_reading_the_shops_air_or_the_middle_of_the_year_is_taken_and_said() {
    let demo = Demo::new();
    let sheet = demo.sheet_with("1B", None);
    assert_eq!(sheet.today.basis, TodayBasis::MidYear);
    assert_eq!(sheet.today.content, sheet.band.midpoint());
    let sheet = demo.sheet("1B");
    assert_eq!(sheet.today.basis, TodayBasis::ShopAir);
    let (_, emc) = sheet.air.expect("the shop's air");
    assert_eq!(sheet.today.content, emc.expect("a figure").content);
    // No site was noted for the dining table: a usual year is taken, and said to be.
    let sheet = demo.sheet("5A");
    assert!(sheet.assumed);
    assert_eq!(
        sheet.band.basis,
        tackfree::wood::moisture::BandBasis::Region(Region::Most)
    );
    assert!(demo.paper("5A").contains("The site's air is not noted"));
}

#[test]
fn a_place_read_a_week_before_the_others_still_counts_in_todays_moisture() {
    let mut demo = Demo::new();
    demo.read_at("1C", "core", 9, 14.0);
    demo.read_at("1C", "shell", 9, 9.0);
    demo.read_at("1C", "shell", 1, 8.8);
    // Core 14 % eight days before the newest, within the 14 that a reading speaks for: the mean
    // of 14 and 8.8 %.
    let today = demo.sheet("1C").today;
    assert!((today.content.percent() - 11.4).abs() < 1e-9, "{today:?}");
    let paper = demo.flat_paper("1C");
    assert!(paper.contains("Ready to mill: not yet"), "{paper}");
    assert!(
        paper.contains("core: last read 14%, 9 days ago, over the limit of 12%"),
        "{paper}"
    );
    // Out of the reach of the rule it is left out of the mean, and said to be.
    let mut demo = Demo::new();
    demo.read_at("1C", "core", 20, 14.0);
    demo.read_at("1C", "shell", 1, 8.8);
    assert!((demo.sheet("1C").today.content.percent() - 8.8).abs() < 1e-9);
    assert!(
        demo.flat_paper("1C")
            .contains("1 place was read too long before to count in it"),
        "{}",
        demo.flat_paper("1C")
    );
}

#[test]
fn readiness_is_told_by_the_shops_own_rule() {
    let mut demo = Demo::new();
    demo.span("1C", 6.0, 10.0);
    demo.read("1C", 7, 8.6);
    demo.read("1C", 0, 8.0);
    let verdicts = |demo: &Demo| -> Vec<Verdict> {
        demo.sheet("1C").ready.iter().map(|of| of.verdict).collect()
    };
    // 0.6 points in a week: still moving.
    assert_eq!(verdicts(&demo), [Verdict::NotYet; 3]);
    assert!(
        demo.paper("1C")
            .contains("top, middle: still moving, 8.6% to 8% in 7 days.")
    );
    let rule = tackfree::wood::moisture::ReadyRule {
        within: 0.8,
        ..Default::default()
    };
    demo.done(&Action::SaveReadyRule(rule));
    assert_eq!(verdicts(&demo), [Verdict::Ready; 3]);
    // Outside the client's year only setting minds.
    demo.span("1C", 4.0, 7.0);
    assert_eq!(
        verdicts(&demo),
        [Verdict::Ready, Verdict::Ready, Verdict::WithCare]
    );
}

#[test]
fn the_curve_is_drawn_toward_what_the_shops_air_holds() {
    let demo = Demo::new();
    let sheet = demo.sheet("1A");
    let place = &sheet.places[0];
    let curve = place.curve.as_ref().expect("air is known");
    let curve = curve.as_ref().expect("four readings carry a curve");
    assert_eq!(curve.readings, 4);
    let paper = demo.paper("1A");
    let drawn: Vec<&str> = paper.lines().filter(|line| line.contains(" |")).collect();
    assert!(drawn.iter().any(|line| line.contains('o')), "{paper}");
    assert!(drawn.iter().any(|line| line.contains("...")), "{paper}");
    assert!(drawn.iter().any(|line| line.contains("----")), "{paper}");
    assert!(
        paper.lines().all(|line| line.chars().count() <= 80),
        "{paper}"
    );
    // One place with two readings: drawn, but no curve is made of it.
    assert!(sheet.places[1].curve.as_ref().expect("air").is_err());
}

#[test]
fn holding_and_situations_come_from_shape_kind_and_what_was_noted() {
    let mut demo = Demo::new();
    let fastening = |demo: &Demo, ticket: &str| demo.sheet(ticket).moves.expect("moves").fastening;
    // The sink counter is noted with a drop-in sink: its cutout is told as one.
    let sink = fastening(&demo, "1A");
    assert!(sink.situations.contains(&Situation::DropInSink));
    assert_eq!(sink.cutouts.len(), 1);
    assert!(mm(sink.cutouts[0].clearance.leave) >= 3.0);
    // A cutout that nobody said is for a sink is not told as one.
    let vanity = fastening(&demo, "4A");
    assert!(!vanity.situations.contains(&Situation::DropInSink));
    assert_eq!(vanity.cutouts[0].clearance.filling, Filling::Unsaid);
    assert_eq!(sink.cutouts[0].clearance.filling, Filling::DropIn);
    // An island is held along the middle unless it is said otherwise, and a row lies there.
    let island = demo.sheet("2A");
    assert_eq!(island.lie.held, HoldLine::Middle);
    let rows = island.moves.expect("moves").fastening.main.rows;
    assert_eq!(rows.iter().filter(|row| row.slot.is_none()).count(), 1);
    let (first, last) = (rows.first().expect("a row"), rows.last().expect("a row"));
    assert_eq!(first.from_held, last.from_held);
    // A corner opens a full mitre by the square root of two of the change of width.
    demo.lie("1C", |lie| lie.situations = vec![Situation::Corner]);
    let moves = demo.sheet("1C").moves.expect("moves");
    let mitre = moves.fastening.mitre.expect("a mitre");
    let outward = mm(moves.across.outward());
    assert!((mm(mitre.outer_when_damp) - outward * 2.0_f64.sqrt()).abs() < 0.001);
}

#[test]
fn each_family_is_the_finish_of_the_tests_or_none() {
    let wanted = [
        (Family::OilWipingVarnish, Some(FinishKind::UrethaneVarnish)),
        (
            Family::OilBrushingVarnish,
            Some(FinishKind::UrethaneVarnish),
        ),
        (Family::WaterBorne, Some(FinishKind::WaterbornePolyurethane)),
        (Family::Shellac, Some(FinishKind::Shellac)),
        (Family::HardwaxOil, Some(FinishKind::HardwaxOil)),
        (Family::TungOil, Some(FinishKind::TungOil)),
        (Family::Lacquer, Some(FinishKind::Lacquer)),
        (Family::OilGelStain, None),
        (Family::OilLiquidStain, None),
        (Family::OilConditioner, None),
        (Family::MineralSpirits, None),
    ];
    for (family, finish) in wanted {
        assert_eq!(finish_of(family), finish, "{family:?}");
    }
    assert_eq!(wanted.len(), Family::ALL.len(), "a family is missing here");
}

#[test]
fn a_finish_without_a_published_figure_says_so() {
    let demo = Demo::new();
    // Water-borne on the library shelves, all six faces.
    let sheet = demo.sheet("6B");
    let top = sheet
        .faces
        .iter()
        .find(|face| face.face == FaceKey::Top)
        .expect("a top");
    assert!(top.seal.coats_words().contains("water-borne"), "{top:?}");
    let day = top.seal.after(tackfree::wood::sealing::Exposure::Day1);
    // At least what its shellac does alone, at most everything: nothing is guessed between.
    assert!((day.low() - 65.0).abs() < 1e-9 && (day.high() - 100.0).abs() < 1e-9);
    assert!(
        demo.paper("6B")
            .contains("No published figure for water-borne polyurethane"),
        "{}",
        demo.paper("6B")
    );
}

/// The island top with two more coats on its top alone: four against two, one more than allowed.
fn unbalanced() -> Demo {
    let mut demo = Demo::new();
    for _ in 0..2 {
        demo.now += Duration::days(4);
        let piece = demo.file("2A").piece.id;
        demo.done(&Action::LogPass(PassDraft {
            picks: vec![FacePick {
                piece,
                faces: Some(vec![FaceKey::Top]),
            }],
            kind: CoatKind::Topcoat,
            product: None,
            started: demo.now - Duration::minutes(20),
            ended: demo.now,
            amount: AmountDraft::Estimate,
            air: None,
            scuffed_first: Some(tackfree::shop::ScuffMeans::Pad),
            drawn: tackfree::desk::DrawnDraft::default(),
        }));
    }
    demo.now += Duration::days(10);
    demo
}

#[test]
fn the_balance_gate_teaches_with_the_same_figure_as_the_sheet() {
    let mut demo = unbalanced();
    let piece = demo.file("2A").piece.id;
    let error = demo
        .perform(&Action::MoveAlong(vec![piece]))
        .expect_err("refused");
    let lines = error.lines(demo.now, ZONE);
    assert!(
        lines.iter().any(|line| line.contains("film coats against")),
        "{lines:?}"
    );
    let why: Vec<&String> = lines
        .iter()
        .filter(|line| line.starts_with("Why: "))
        .collect();
    assert_eq!(why.len(), 1, "{lines:?}");
    let cup = demo.sheet("2A").moves.expect("moves").cup;
    let risk = cup.risk().expect("a risk");
    assert!(!risk.is_none());
    assert!(
        why[0].contains(&risk.line()),
        "{why:?} against {}",
        risk.line()
    );
    let more = cup.one_more().expect("one more coat would help");
    assert!(more.on_underside, "the underside is the poorer face");
    assert!(more.after.cup.high() < more.before.cup.high());
    assert!(why[0].contains(&more.line()), "{why:?}");
    // A refusal for other reasons has no figure to teach.
    let other = demo.file("1A").piece.id;
    let error = demo
        .perform(&Action::MoveAlong(vec![other]))
        .expect_err("refused");
    let lines = error.lines(demo.now, ZONE);
    assert!(
        !lines.iter().any(|line| line.starts_with("Why: ")),
        "{lines:?}"
    );
}

#[test]
fn a_hidden_underside_gives_no_cup_and_asks_no_coat() {
    let mut demo = unbalanced();
    assert!(demo.sheet("2A").moves.expect("moves").cup.risk().is_some());
    let piece = demo.file("2A").piece.id;
    demo.done(&Action::DeclareHidden {
        piece,
        face: FaceKey::Underside,
        reason: "glued to a box".to_owned(),
    });
    let cup = demo.sheet("2A").moves.expect("moves").cup;
    assert_eq!(cup.answer, CupAnswer::UndersideHidden);
    let paper = demo.flat_paper("2A");
    assert!(paper.contains("so no cup is reckoned"), "{paper}");
    assert!(!paper.contains("One more coat"), "{paper}");
    assert!(!paper.contains("cup risk up to"), "{paper}");
}

#[test]
fn the_sheet_says_that_sealing_the_whole_slab_is_practice_without_source() {
    let paper = Demo::new().paper("2A");
    let paper = paper.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        paper.contains("Seal the whole slab: top, underside, every edge, end and cutout wall (common practice, no source"),
        "{paper}"
    );
}

#[test]
fn the_clients_page_says_what_the_top_will_do_and_why_the_gap_is_there() {
    let demo = counter();
    let (shop, file) = (demo.shop(), demo.file("1C"));
    let page = client_page_paper(&shop, &file, &demo.sheet("1C"), demo.now).expect("a page");
    assert!(page.iter().all(|line| line.chars().count() <= 80));
    let text = page.join("\n");
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "YOUR WINDOW COUNTER THROUGH THE YEAR",
        "Why the gap is there",
        "without at least 3/32\" (2.4 mm) the top would push against the wall",
        "in your rooms the wood will go from 6% to 10% and back through the year",
        "The moisture of the top was measured with a meter.",
    ] {
        assert!(flat.contains(words), "{words}\n{text}");
    }
    // The dining table's rooms and moisture are not known: said to the client as well.
    let file = demo.file("5A");
    let page = client_page_paper(&shop, &file, &demo.sheet("5A"), demo.now).expect("a page");
    let flat = page
        .join(" ")
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    assert!(
        flat.contains("The air of your rooms is not known yet"),
        "{flat}"
    );
    assert!(flat.contains("estimated, not measured yet"), "{flat}");
}

#[test]
fn the_clients_page_is_true_of_pieces_that_stand_free_or_are_not_sealed_yet() {
    let demo = Demo::new();
    let shop = demo.shop();
    let page = |ticket: &str| {
        let file = demo.file(ticket);
        let page = client_page_paper(&shop, &file, &demo.sheet(ticket), demo.now).expect("a page");
        let page = page.join(" ");
        page.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    // An island and a table stand free; a tread, of which nothing was noted but a joint, may not.
    for ticket in ["2A", "5A"] {
        let page = page(ticket);
        assert!(
            page.contains("It stands free, so it needs no gap"),
            "{page}"
        );
        assert!(!page.contains("against the wall"), "{page}");
    }
    // The pickup shelf is still in sanding: bare.
    let bare = demo.sheet("7B");
    assert!(bare.faces.iter().any(|face| face.seal.coats.is_empty()));
    let page_of_bare = {
        let mut demo = Demo::new();
        demo.lie("7B", |lie| lie.wood = "Hickory, true".to_owned());
        let (shop, file) = (demo.shop(), demo.file("7B"));
        let page = client_page_paper(&shop, &file, &demo.sheet("7B"), demo.now).expect("a page");
        page.join(" ")
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ")
    };
    assert!(
        page_of_bare.contains("Before it is set it will be sealed"),
        "{page_of_bare}"
    );
    assert!(!page_of_bare.contains("It is sealed"), "{page_of_bare}");
}

#[test]
fn names_are_escaped_on_the_clients_page_in_html() {
    let mut demo = counter();
    let shop = demo.shop();
    let file = demo.file("1C");
    let client = shop.client_of(&file).expect("a client");
    let draft = ClientDraft {
        name: "<script>alert(\"x\")</script> & Sons' 'tops'".to_owned(),
        ..ClientDraft::default()
    };
    demo.done(&Action::SaveClient(Which::This(client.id), draft));
    let shop = demo.shop();
    let html = client_page_html(&shop, &file, &demo.sheet("1C"), demo.now).expect("a page");
    assert!(!html.contains("<script"), "{html}");
    assert!(
        html.contains(
            "&lt;script&gt;alert(&quot;x&quot;)&lt;/script&gt; &amp; Sons&#39; &#39;tops&#39;"
        ),
        "{html}"
    );
    assert!(html.contains("<h2>Why the gap is there</h2>"), "{html}");
}
