//! Bad clients, jobs, recipes, products, work and settings, each with the sentence it is answered
//! with.

use super::shop::{metric, now, shop, today};
use tackfree::desk::ClientDraft;
use tackfree::desk::typed::{
    JobTyped, ProductTyped, RecipeTyped, SettingsTyped, read_air, read_amount, read_client,
    read_faces, read_grits, read_job, read_product, read_recipe, read_scuff, read_settings,
    read_when, read_windows,
};
use tackfree::shape::FaceKey;

#[test]
fn clients() {
    let refused = |name: &str| {
        let errors = read_client(&ClientDraft {
            name: name.into(),
            ..ClientDraft::default()
        });
        errors.unwrap_err().remove(0)
    };
    assert_eq!(
        refused(" \t").message,
        "The client's name is empty: type who the work is for."
    );
    assert_eq!(
        refused(&"n".repeat(300)).message,
        "The client's name can have up to 80 characters; this has 300. Shorten it; the rest can go into the notes."
    );
    assert_eq!(refused("\u{0}\u{7}").field, "name");
    let wide = ClientDraft {
        name: "山田 花子".into(),
        ..ClientDraft::default()
    };
    assert_eq!(read_client(&wide), Ok(wide.clone()));
}

#[test]
fn jobs() {
    let good = JobTyped {
        client: "ada brook".into(),
        title: "island".into(),
        promised: "Mar 20".into(),
        ..JobTyped::default()
    };
    assert!(read_job(&good, None, &shop(), today()).is_ok());
    let refused = |change: &dyn Fn(&mut JobTyped)| {
        let mut typed = good.clone();
        change(&mut typed);
        let mut errors = read_job(&typed, None, &shop(), today()).unwrap_err();
        assert_eq!(errors.len(), 1);
        errors.remove(0)
    };
    let past = refused(&|job| job.promised = "2026-03-05".into());
    assert_eq!(
        (past.field, past.message.as_str()),
        (
            "promised",
            "A promise cannot lie in the past: \"2026-03-05\" is Thu Mar 5 2026 and today is Fri Mar 6 2026; write today's date or a later one."
        )
    );
    assert_eq!(
        refused(&|job| job.promised = "soon".into()).message,
        "\"soon\" does not read as a date; write it like Dec 5, 12/5, 2026-12-05, friday, in 2 weeks or +10d."
    );
    assert_eq!(
        refused(&|job| job.house_built = "1066".into()).message,
        "1066 is not a year a house was built in; type four digits, or leave it empty."
    );
    assert_eq!(
        refused(&|job| job.house_built = "old".into()).message,
        "\"old\" is no year: type four digits, like 1962, or leave it empty."
    );
    assert_eq!(refused(&|job| job.client = "Eve".into()).field, "client");
    // A promise that stands may pass by, in either way of writing.
    let mut before = shop().jobs.remove(0);
    before.promised = chrono::NaiveDate::from_ymd_opt(2026, 2, 1);
    let typed = JobTyped {
        title: "later".into(),
        ..JobTyped::of(&before, &shop())
    };
    let draft = read_job(&typed, Some(&before), &shop(), today()).unwrap();
    assert_eq!(draft.promised, before.promised);
}

#[test]
fn recipes() {
    let shop = shop();
    let stained = shop
        .recipes
        .iter()
        .find(|recipe| recipe.schedule.stain.is_some())
        .unwrap();
    let good = RecipeTyped::of(&stained.name, &stained.schedule, &shop);
    let refused = |change: &dyn Fn(&mut RecipeTyped)| {
        let mut typed = good.clone();
        change(&mut typed);
        let errors = read_recipe(&typed, &shop).unwrap_err();
        assert_eq!(errors.len(), 1, "{errors:?}");
        (errors[0].field, errors[0].message.clone())
    };
    for (change, field, message) in [
        (
            (&|t: &mut RecipeTyped| t.show_grits = "80 eighty".into()) as &dyn Fn(&mut RecipeTyped),
            "show_grits",
            "\"eighty\" is no grit: type the numbers on the paper, coarse to fine, for example 80 120 150.",
        ),
        (
            &|t| t.end_grits = "120 80".into(),
            "end_grits",
            "The grits of the ends and walls must rise from coarse to fine and lie between 24 and 3000; 80 does not fit.",
        ),
        (
            &|t| t.under_topcoats = "2".into(),
            "under_topcoats",
            "Show faces get 6 coats and the underside 3: they may differ by at most 1. Add coats to the poorer side.",
        ),
        (
            &|t| t.end_topcoats = "5".into(),
            "end_topcoats",
            "Ends, cutout walls and holes go through the same stain and at least as many coats as the show faces.",
        ),
        (
            &|t| t.end_stain = "no".into(),
            "end_stain",
            "Ends, cutout walls and holes go through the same stain and at least as many coats as the show faces.",
        ),
        (
            &|t| t.stain = "none".into(),
            "stain",
            "The schedule asks for stain but names no product for it: pick one.",
        ),
        (
            &|t| t.stain = "hardwax oil".into(),
            "stain",
            "hardwax oil is a topcoat, not a stain: pick another product.",
        ),
        (
            &|t| t.allowance = "4".into(),
            "allowance",
            "A difference of 4 coats between show side and underside is not balanced; the most that can be allowed is 3.",
        ),
        (
            &|t| t.show_topcoats = "six".into(),
            "show_topcoats",
            "\"six\" is no number of topcoats: type a whole number, 0 for none.",
        ),
        (
            &|t| t.scuff = "steel wool".into(),
            "scuff",
            "\"steel wool\" is no way to scuff: say a grit like 320, pad, brown paper or none.",
        ),
        (
            &|t| t.cure_days = "soon".into(),
            "cure_days",
            "\"soon\" does not read as a time: type it like 45 min, 2 h, 1 h 30 min or 3 days.",
        ),
    ] {
        let (at, said) = refused(change);
        assert_eq!((at, said.as_str()), (field, message));
    }
    assert!(read_grits("").is_err());
}

#[test]
fn products() {
    let shop = shop();
    let good = ProductTyped::of(&shop.products[2], &shop);
    let refused = |change: &dyn Fn(&mut ProductTyped)| {
        let mut typed = good.clone();
        change(&mut typed);
        let errors = read_product(&typed, &shop).unwrap_err();
        assert_eq!(errors.len(), 1, "{errors:?}");
        (errors[0].field, errors[0].message.clone())
    };
    for (change, field, message) in [
        (
            (&|t: &mut ProductTyped| t.spread = "625".into()) as &dyn Fn(&mut ProductTyped),
            "spread",
            "\"625\" does not read as a spread rate at \"625\"; write it like 625 sq ft/gal or 15.3 m2/L.",
        ),
        (
            &|t| t.density = "7.2".into(),
            "density",
            "\"7.2\" has no unit: type the label's figure, for example 7.2 lb/gal or 0.86 g/mL.",
        ),
        (
            &|t| t.density = "72 lb/gal".into(),
            "density",
            "\"72 lb/gal\" is no density of a finish, which lies between 4 and 25 lb/gal: type the label's figure, for example 7.2 lb/gal or 0.86 g/mL.",
        ),
        (
            &|t| t.solids = "125%".into(),
            "solids",
            "125% cannot be: volume solids lie between 0 and 100 per cent.",
        ),
        (
            &|t| t.touch = "2".into(),
            "touch",
            "\"2\" does not say minutes, hours or days: type it like 45 min, 2 h, 1 h 30 min or 3 days.",
        ),
        (
            &|t| t.touch = "-2 h".into(),
            "touch",
            "\"-2 h\" is below zero: type it like 45 min, 2 h, 1 h 30 min or 3 days.",
        ),
        (
            &|t| t.windows = "24 h to 6 h".into(),
            "windows",
            "The recoat windows of clear wiping varnish must follow one another: each opens after the one before it has closed, and closes after it opens.",
        ),
        (
            &|t| t.price = "-5".into(),
            "price",
            "A can's price is nothing or more: write it without the minus.",
        ),
        (
            &|t| t.can = "0".into(),
            "can",
            "The can of clear wiping varnish must hold something: type its size, for example 1 qt.",
        ),
        (
            &|t| t.min_temp = "68 K".into(),
            "min_temp",
            "\"68 K\" does not read as a temperature: type it like 55 F or 13 C.",
        ),
        (
            &|t| t.max_humidity = "850".into(),
            "max_humidity",
            "\"850\" is no humidity: type 0 to 100, like 85.",
        ),
        (
            &|t| {
                t.basis = "label".into();
                t.density = String::new();
            },
            "density",
            "No figure was given: type the label's, or say that the figures are those of the family.",
        ),
    ] {
        let (at, said) = refused(change);
        assert_eq!((at, said.as_str()), (field, message));
    }
    assert!(read_windows("6 h to").is_err());
    assert!(read_windows(" ; ").is_err());
}

#[test]
fn work() {
    let settings = shop().settings;
    let said = |text: &str| read_amount(text, &settings).unwrap_err().message;
    assert_eq!(
        said("884 g > 1042 g"),
        "The can weighs more after (1042 g) than before (884 g): weigh again, or swap the two."
    );
    assert_eq!(
        said("158 g"),
        "\"158 g\" is one weight: weigh the can before and after and type both, like 1042 g > 884 g."
    );
    assert_eq!(
        said("0"),
        "A pass uses something: type how much, or leave the amount empty for an estimate."
    );
    assert_eq!(
        said("1042 > 884"),
        "\"884\" has no unit; write g, kg, lb or oz wt behind it."
    );
    assert_eq!(
        said("-4 oz"),
        "\"-4 oz\" is below zero; a volume is zero or more, so write it without the minus."
    );
    let air = read_air("300 45", &metric().settings).unwrap_err();
    assert_eq!(air.field, "air");
    let zone = settings.zone;
    assert_eq!(
        read_when("tomorrow 8:00", now(), zone).unwrap_err().message,
        "\"tomorrow 8:00\" has not come yet (it is 12:00 pm); write when it happened."
    );
    let keys = [
        FaceKey::Top,
        FaceKey::Underside,
        FaceKey::Left,
        FaceKey::Cutout(1),
    ];
    assert_eq!(
        read_faces("top, rim", &keys).unwrap_err().message,
        "\"rim\" is no face of this piece: say all, top, underside, left end or cutout 1 wall."
    );
    assert_eq!(
        read_scuff("5000").unwrap_err().message,
        "5000 is no grit of paper: they lie between 24 and 3000."
    );
}

#[test]
fn settings() {
    let good = SettingsTyped::of(&shop().settings);
    let zone = SettingsTyped {
        zone: "Mars".into(),
        ..good.clone()
    };
    assert_eq!(
        read_settings(&zone).unwrap_err()[0].message,
        "\"Mars\" is no time zone: type its name from the IANA list, for example America/Chicago."
    );
    let length = SettingsTyped {
        length: "cubits".into(),
        ..good
    };
    assert_eq!(
        read_settings(&length).unwrap_err()[0].message,
        "\"cubits\" is not among them: say 1/16 in, 1/32 in or mm."
    );
}
