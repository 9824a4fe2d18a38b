//! Clients, jobs, pieces, recipes, products and settings by keys.

use crate::hands::{act, echo, errors, open, piece_id, press, two_tops};
use crate::shop::{job_id, now, shop, today};
use chrono::{Days, NaiveDate};
use tackfree::coating::{Family, Figure, FigureSource, ProductKind, Span};
use tackfree::desk::typed::PieceTyped;
use tackfree::desk::{Action, ClientDraft, JobDraft, PieceDraft, Which};
use tackfree::shape::{
    Construction, Corner, Corners, Cut, EdgeProfile, Opening, OpeningKind, Outline, Place, Purpose,
    Shape,
};
use tackfree::shop::{PieceKind, ScuffMeans};
use tackfree::tui::forms::FormKind;
use tackfree::tui::kit::form::FormAction;
use tackfree::units::{Length, LengthStyle, TemperatureStyle};

fn inches(whole: i64, num: i64, den: i64) -> Length {
    Length::from_inches(whole, num, den).unwrap()
}

#[test]
fn a_client() {
    let shop = shop();
    let action = act(
        FormKind::Client(Which::New),
        &shop,
        "Ada Brook<enter>555 0100<enter><enter>12 Mill Road<enter>pays late<enter>",
    );
    let draft = ClientDraft {
        name: "Ada Brook".into(),
        phone: "555 0100".into(),
        email: String::new(),
        address: "12 Mill Road".into(),
        notes: "pays late".into(),
    };
    assert_eq!(action, Action::SaveClient(Which::New, draft));
}

#[test]
fn a_client_changed_keeps_what_was_not_touched() {
    let mut shop = shop();
    shop.clients[0].notes = "first line\nsecond line".into();
    let id = shop.clients[0].id;
    let action = act(FormKind::Client(Which::This(id)), &shop, " Mill<F2>");
    let Action::SaveClient(Which::This(_), draft) = action else {
        panic!("{action:?}")
    };
    assert_eq!(draft.name, "Ada Brook Mill");
    assert_eq!(
        draft.notes, "first line\nsecond line",
        "two lines stay two lines"
    );
}

#[test]
fn a_job() {
    let mut shop = shop();
    shop.clients[0].address = "12 Mill Road".into();
    let client = shop.clients[0].id;
    let keys = "island<enter><enter><enter>in 2 weeks<enter>1962<enter><enter>";
    let action = act(FormKind::Job(Which::New, Some(client)), &shop, keys);
    let draft = JobDraft {
        client,
        title: "island".into(),
        site: "12 Mill Road".into(),
        house_built: Some(1962),
        promised: today().checked_add_days(Days::new(14)),
        notes: String::new(),
    };
    assert_eq!(action, Action::SaveJob(Which::New, draft));
}

#[test]
fn a_job_with_its_client_to_pick() {
    let mut shop = shop();
    let mut other = shop.clients[0].clone();
    other.id.0 = uuid::Uuid::from_u128(801);
    other.name = "Bo Reed".into();
    shop.clients.push(other.clone());
    let mut form = open(FormKind::Job(Which::New, None), &shop);
    press(&mut form, &shop, "<enter>");
    assert_eq!(errors(&form)[0].0, "client", "left without a client");
    press(&mut form, &shop, "<up>reed<enter>bar");
    assert_eq!(errors(&form), []);
    press(&mut form, &shop, "<F2>");
    let Some(Action::SaveJob(_, draft)) = form.submit(&shop, now()) else {
        panic!()
    };
    assert_eq!((draft.client, draft.title.as_str()), (other.id, "bar"));
}

#[test]
fn a_job_promised_long_ago_can_be_changed() {
    let mut shop = shop();
    shop.jobs[0].promised = NaiveDate::from_ymd_opt(2025, 12, 1);
    let action = act(FormKind::Job(Which::This(job_id()), None), &shop, "<F2>");
    let Action::SaveJob(_, draft) = action else {
        panic!("{action:?}")
    };
    assert_eq!(draft.promised, shop.jobs[0].promised);
    assert_eq!(draft.title, "kitchen");
}

#[test]
fn the_plain_piece_takes_few_keys() {
    let shop = shop();
    let keys = "top<enter>60 x 24<enter>ash<F2>";
    let action = act(FormKind::Piece(Which::New, Some(job_id())), &shop, keys);
    let outline = Outline::Rectangle {
        length: inches(60, 0, 1),
        width: inches(24, 0, 1),
    };
    let shape = Shape::new(
        outline,
        inches(1, 1, 2),
        EdgeProfile::Square,
        Vec::new(),
        None,
    )
    .unwrap();
    let draft = PieceDraft {
        job: job_id(),
        name: "top".into(),
        kind: PieceKind::Counter,
        species: "ash".into(),
        construction: Construction::EdgeGrain,
        shape,
        recipe: shop.recipes[0].id,
    };
    assert_eq!(action, Action::SavePiece(Which::New, draft));
}

#[test]
fn the_whole_piece() {
    let shop = shop();
    let keys = "sink top<enter>98 3/8 x 25 1/2<enter>hard maple<enter>gel<enter>isl<enter>end<enter>\
                <enter>round<enter>1/4<enter>round 1 all<enter>30 x 16 r 3/4 at 49 1/4, 12 3/4<enter>\
                1 3/8 at 70, 22 1/2<enter>2<enter>";
    let action = act(FormKind::Piece(Which::New, Some(job_id())), &shop, keys);
    let Action::SavePiece(Which::New, draft) = action else {
        panic!("{action:?}")
    };
    let outline = Outline::Cornered {
        length: inches(98, 3, 8),
        width: inches(25, 1, 2),
        corners: Corners::new(Corner::OUTER.map(|corner| (corner, Cut::Round(inches(1, 0, 1))))),
    };
    let openings = vec![
        Opening {
            no: 1,
            place: Place {
                x: inches(49, 1, 4),
                y: inches(12, 3, 4),
            },
            what: OpeningKind::Cutout {
                width: inches(30, 0, 1),
                depth: inches(16, 0, 1),
                corner_radius: inches(0, 3, 4),
            },
            purpose: Purpose::Plain,
            profile: EdgeProfile::Square,
        },
        Opening {
            no: 1,
            place: Place {
                x: inches(70, 0, 1),
                y: inches(22, 1, 2),
            },
            what: OpeningKind::Hole {
                diameter: inches(1, 3, 8),
            },
            purpose: Purpose::Plain,
            profile: EdgeProfile::Square,
        },
    ];
    let profile = EdgeProfile::RoundOver(inches(0, 1, 4));
    let band = Some(inches(2, 0, 1));
    let shape = Shape::new(outline, inches(1, 1, 2), profile, openings, band).unwrap();
    assert_eq!(draft.shape, shape);
    assert_eq!(
        (draft.kind, draft.construction),
        (PieceKind::Island, Construction::EndGrain)
    );
    assert_eq!(draft.recipe, shop.recipes[1].id);
}

#[test]
fn what_was_understood_of_a_piece_is_said() {
    let shop = shop();
    let mut form = open(FormKind::Piece(Which::New, Some(job_id())), &shop);
    press(&mut form, &shop, "top<enter>8' 2 3/8\" x 25 1/2<enter>ash");
    assert_eq!(echo(&form, "size"), "8' 2 3/8\" x 2' 1 1/2\", 17.4 sq ft");
    assert_eq!(echo(&form, "thickness"), "1 1/2\"");
    assert_eq!(
        echo(&form, "recipe"),
        "sanded to 180, 1 seal coat, 4 topcoats"
    );
    assert_eq!(
        echo(&form, "band"),
        "no band; 6 faces, 37.4 sq ft to finish"
    );
    assert_eq!(echo(&form, "profile_size"), "a square edge has none");
}

#[test]
fn the_next_piece_of_a_job_starts_from_the_last() {
    let mut shop = two_tops();
    shop.files[1].piece.recipe = shop.recipes[2].id;
    let form = open(FormKind::Piece(Which::New, Some(job_id())), &shop);
    assert_eq!(form.form.text("species"), "hard maple");
    assert_eq!(
        form.form.choice("recipe"),
        Some(shop.recipes[2].id.to_string().as_str())
    );
}

#[test]
fn a_piece_opened_and_saved_stays_the_same() {
    let mut shop = two_tops();
    let piece = &mut shop.files[0].piece;
    let typed = PieceTyped {
        cutouts: "2: 30 x 16 r 3/4 at 49, 12; 7: 10 x 10 at 80, 12".into(),
        profile: "chamfer 1/8".into(),
        band: "2 1/64".into(),
        ..PieceTyped::of(piece, &crate::shop::shop())
    };
    piece.shape = typed.shape(&crate::shop::shop().settings).unwrap();
    let shape = piece.shape.clone();
    let action = act(
        FormKind::Piece(Which::This(piece_id(0)), None),
        &shop,
        "<F2>",
    );
    let Action::SavePiece(Which::This(_), draft) = action else {
        panic!("{action:?}")
    };
    assert_eq!(draft.shape, shape);
    assert_eq!(draft.job, job_id());
}

#[test]
fn a_recipe_copied() {
    let shop = shop();
    let stained = &shop.recipes[1];
    let kind = FormKind::Recipe(Which::New, Some(stained.id));
    let keys = "thicker<enter><enter><enter><enter><backspace>7<enter><enter><enter><enter><backspace>7<enter>\
                <enter><enter><enter><backspace>6<F2>";
    let action = act(kind, &shop, keys);
    let Action::SaveRecipe(Which::New, draft) = action else {
        panic!("{action:?}")
    };
    let mut schedule = stained.schedule.clone();
    schedule.show.topcoats = 7;
    schedule.end_grain.topcoats = 7;
    schedule.underside.topcoats = 6;
    assert_eq!((draft.name.as_str(), draft.schedule), ("thicker", schedule));
}

#[test]
fn every_recipe_opened_and_saved_stays_the_same() {
    let mut shop = shop();
    shop.recipes[0].schedule.scuff = Some(ScuffMeans::FinePaper(tackfree::shop::Grit(360)));
    shop.recipes[0].schedule.cure_before_set = Span::hours(36);
    for recipe in &shop.recipes {
        let action = act(
            FormKind::Recipe(Which::This(recipe.id), None),
            &shop,
            "<F2>",
        );
        let Action::SaveRecipe(_, draft) = action else {
            panic!("{action:?}")
        };
        assert_eq!(draft.schedule, recipe.schedule, "{}", recipe.name);
    }
}

#[test]
fn a_product_follows_its_family_until_typed_over() {
    let shop = shop();
    let mut form = open(FormKind::Product(Which::New), &shop);
    press(
        &mut form,
        &shop,
        "satin<enter><enter><enter><enter><enter><enter><ctrl-u>500 sq ft/gal",
    );
    press(&mut form, &shop, "<pgup><down>water<enter>");
    assert_eq!(
        form.form.text("spread"),
        "500 sq ft/gal",
        "typed over, so it stays"
    );
    assert_eq!(form.form.text("windows"), "~3 h to 12 h");
    assert_eq!(
        echo(&form, "windows"),
        "next coat from 3 hours to 12 hours, later abrade first; family range opens after 2 to 4 h, shuts after 12 h, check the can label"
    );
    press(&mut form, &shop, "<F2>");
    let Some(Action::SaveProduct(Which::New, draft)) = form.submit(&shop, now()) else {
        panic!("{:?}", errors(&form))
    };
    assert_eq!(
        (draft.family, draft.kind),
        (Family::WaterBorne, ProductKind::Topcoat)
    );
    assert_eq!(draft.label.from(FigureSource::Label), [Figure::Spread]);
    assert_eq!(draft.label.touch, Span::minutes(45));
}

#[test]
fn every_product_opened_and_saved_stays_the_same() {
    let shop = shop();
    for product in &shop.products {
        let action = act(FormKind::Product(Which::This(product.id)), &shop, "<F2>");
        let Action::SaveProduct(_, draft) = action else {
            panic!("{action:?}")
        };
        assert_eq!(
            (draft.label, draft.can),
            (product.label.clone(), product.can)
        );
    }
}

#[test]
fn the_settings() {
    let shop = shop();
    let keys = "Brook tops<enter><enter>mill<enter>cels<enter><enter>berlin<enter>dark<enter>";
    let action = act(FormKind::Settings, &shop, keys);
    let Action::SaveSettings(settings) = action else {
        panic!("{action:?}")
    };
    assert_eq!(settings.shop_name, "Brook tops");
    assert_eq!(settings.length, LengthStyle::Millimetres);
    assert_eq!(settings.temperature, TemperatureStyle::Celsius);
    assert_eq!(settings.zone, chrono_tz::Europe::Berlin);
    assert_eq!(settings.volume, shop.settings.volume);
}

#[test]
fn escape_is_the_callers() {
    let shop = shop();
    let mut form = open(FormKind::Client(Which::New), &shop);
    assert_eq!(press(&mut form, &shop, "Bo<esc>"), FormAction::Cancel);
    assert!(form.form.is_touched());
}
