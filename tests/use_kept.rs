//! The promise: struck passes, can sizes, mixes and rules of use are kept, undone and done again, go
//! out and in as plain files, and are reached by commands in text, JSON and CSV.

#[path = "cli/bench.rs"]
#[allow(dead_code, reason = "this file uses its own part")]
mod bench;
#[path = "files/support.rs"]
#[allow(dead_code, unused_imports, reason = "this file uses its own part")]
mod support;

use bench::Bench;
use std::collections::BTreeMap;
use std::path::Path;
use support::{NOW, ZONE, bring_in, demo_store, exported, mint, utc};
use tackfree::desk::{Action, Books, Desk, DeskError, Scope, Shop, UseAction};
use tackfree::shop::{Mix, MixBy, MixPart, PassId, UseBook, UseRules};
use tackfree::store::Store;
use tackfree::store::files::USE_NAMES;
use tackfree::units::{Density, Mass, Money, Volume};

fn shop(store: &Store) -> Shop {
    Shop::read(store, Scope::All, ZONE).unwrap()
}

fn perform(store: &mut Store, action: &UseAction) -> Result<String, DeskError> {
    act(store, &Action::Use(action.clone()))
}

fn act(store: &mut Store, action: &Action) -> Result<String, DeskError> {
    let mut mint = mint(store);
    let mut desk = Desk {
        books: store,
        now: utc(NOW),
        mint: &mut mint,
        zone: ZONE,
    };
    desk.perform(action).map(|done| done.words)
}

/// Every file of a folder.
fn contents(folder: &Path) -> BTreeMap<String, String> {
    let read = |entry: std::io::Result<std::fs::DirEntry>| {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        (name, std::fs::read_to_string(path).unwrap())
    };
    std::fs::read_dir(folder).unwrap().map(read).collect()
}

/// A measured pass of the demo.
fn measured(shop: &Shop) -> PassId {
    shop.rates.seen[0].pass
}

fn everything(store: &Store) -> Vec<UseAction> {
    let shop = shop(store);
    let product = shop.find_product("brown gel stain").unwrap().id;
    vec![
        UseAction::StrikePass {
            pass: measured(&shop),
            reason: "=the can was set down wrong".to_owned(),
        },
        UseAction::SaveOffer {
            product,
            holds: Volume::from_ul(236_588),
            price: Money::from_cents(1_150),
        },
        UseAction::SaveMix(Mix {
            product,
            by: MixBy::Weight,
            parts: vec![
                MixPart {
                    name: "dark \"walnut\"".to_owned(),
                    milliparts: 2_500,
                    density: Density::from_g_per_ml(0.923_4),
                },
                MixPart {
                    name: "spirits".to_owned(),
                    milliparts: 1_000,
                    density: None,
                },
            ],
        }),
        UseAction::SaveUseRules(UseRules {
            reserve_percent: 15,
            scale: Mass::from_g(0.1),
            ..UseRules::default()
        }),
    ]
}

#[test]
fn each_is_kept_undone_and_done_again() {
    let mut store = demo_store();
    let mut states = vec![store.use_book().unwrap()];
    assert_eq!(states[0], UseBook::default());
    for action in everything(&store) {
        let words = perform(&mut store, &action).unwrap();
        let newest = store.journal(1).unwrap().remove(0);
        assert_eq!(newest.words, words);
        states.push(store.use_book().unwrap());
        assert_ne!(states[states.len() - 1], states[states.len() - 2]);
    }
    for state in states.iter().rev().skip(1) {
        act(&mut store, &Action::Undo).unwrap();
        assert_eq!(store.use_book().unwrap(), *state);
    }
    for state in states.iter().skip(1) {
        act(&mut store, &Action::Redo).unwrap();
        assert_eq!(store.use_book().unwrap(), *state);
    }
    // Taken back one by one, all is as it was but for the rules.
    let product = states[4].mixes[0].product;
    let (pass, holds) = (states[4].struck[0].pass, states[4].offers[0].holds);
    for action in [
        UseAction::CountPass(pass),
        UseAction::RemoveOffer { product, holds },
        UseAction::RemoveMix(product),
        UseAction::SaveUseRules(UseRules::default()),
    ] {
        perform(&mut store, &action).unwrap();
        if !matches!(action, UseAction::SaveUseRules(_)) {
            assert!(perform(&mut store, &action).is_err(), "{action:?} twice");
        }
    }
    assert_eq!(store.use_book().unwrap(), UseBook::default());
}

#[test]
fn a_struck_pass_no_longer_teaches_and_stays_in_the_tally() {
    let mut store = demo_store();
    let before = shop(&store);
    let pass = measured(&before);
    let action = UseAction::StrikePass {
        pass,
        reason: "spilt".to_owned(),
    };
    perform(&mut store, &action).unwrap();
    let after = shop(&store);
    assert_ne!(after.rates, before.rates);
    let used = |shop: &Shop| -> Vec<Volume> {
        shop.tally(&shop.files)
            .iter()
            .map(tackfree::shop::TallyRow::used)
            .collect()
    };
    assert_eq!(used(&after), used(&before));
    // Screens read the open pieces only, and learn the same.
    let open = Shop::read(&store, Scope::OpenSince(utc(NOW)), ZONE).unwrap();
    assert_eq!(open.rates, after.rates);
    perform(&mut store, &UseAction::CountPass(pass)).unwrap();
    assert_eq!(shop(&store).rates, before.rates);
}

#[test]
fn what_cannot_be_is_refused_in_words() {
    let mut store = demo_store();
    let read = shop(&store);
    let product = read.find_product("brown gel stain").unwrap();
    let (id, can) = (product.id, product.can);
    let said =
        |action: &UseAction, store: &mut Store| perform(store, action).unwrap_err().to_string();
    for (action, part) in [
        (
            UseAction::StrikePass {
                pass: measured(&read),
                reason: " \u{1b}[2J ".to_owned(),
            },
            "The reason is empty: type why",
        ),
        (
            UseAction::StrikePass {
                pass: PassId(uuid::Uuid::nil()),
                reason: "x".to_owned(),
            },
            "There is no such pass",
        ),
        (
            UseAction::SaveOffer {
                product: id,
                holds: Volume::ZERO,
                price: Money::ZERO,
            },
            "A can that holds nothing",
        ),
        (
            UseAction::RemoveOffer {
                product: id,
                holds: can,
            },
            "is the can the product is priced by: change it with the product",
        ),
        (
            UseAction::SaveUseRules(UseRules {
                bare_percent: 0,
                ..UseRules::default()
            }),
            "give 30 to 100 %",
        ),
        (
            UseAction::SaveMix(Mix {
                product: id,
                by: MixBy::Volume,
                parts: Vec::new(),
            }),
            "A mix has at least two parts",
        ),
    ] {
        let words = said(&action, &mut store);
        assert!(words.contains(part), "{words}");
    }
    assert_eq!(store.use_book().unwrap(), UseBook::default());
}

#[test]
fn files_carry_all_of_it_round() {
    let mut store = demo_store();
    assert!(!contents(exported(&store).path()).contains_key(USE_NAMES[0]));
    for action in everything(&store) {
        perform(&mut store, &action).unwrap();
    }
    let first = exported(&store);
    assert!(contents(first.path()).contains_key(USE_NAMES[0]));
    let (second, _) = bring_in(first.path()).unwrap();
    assert_eq!(second.use_book().unwrap(), store.use_book().unwrap());
    assert_eq!(shop(&second), shop(&store));
    assert_eq!(contents(first.path()), contents(exported(&second).path()));
}

#[test]
fn a_file_that_does_not_read_is_told_with_its_line() {
    let mut store = demo_store();
    for action in everything(&store) {
        perform(&mut store, &action).unwrap();
    }
    let text = contents(exported(&store).path())[USE_NAMES[0]].clone();
    for (from, to, part) in [
        (
            "reserve_percent = 15",
            "reserve_percent = 150",
            "give 0 to 100",
        ),
        (
            "by = \"weight\"",
            "by = \"handful\"",
            "write weight or volume",
        ),
        (
            "parts = \"2.5\"",
            "parts = \"some\"",
            "write a number like 2 or 0.5",
        ),
        ("pass = \"", "pass = \"x", "pass"),
        ("holds = \"", "holds = \"-", "holds"),
        ("density = \"0.9234\"", "density = \"0\"", "density in g/mL"),
        ("[rules]", "[rules]\nextra = 1", "extra"),
    ] {
        let folder = exported(&store);
        let changed = text.replacen(from, to, 1);
        assert_ne!(changed, text, "{from}");
        std::fs::write(folder.path().join(USE_NAMES[0]), changed).unwrap();
        let error = bring_in(folder.path()).unwrap_err().to_string();
        assert!(
            error.starts_with("use.toml, line ") && error.contains(part),
            "{error}"
        );
    }
}

const THEN: &str = "2026-06-10 15:00";

/// The demo in a store of its own.
fn demo_bench() -> Bench {
    let bench = Bench::new();
    let folder = bench.path("demo").display().to_string();
    bench.ok(THEN, &["--demo", "export", &folder]);
    bench.ok(THEN, &["import", &folder]);
    bench
}

#[test]
fn rates_are_told_with_their_passes_and_struck_by_code() {
    let bench = demo_bench();
    let told = bench.json(THEN, &["rates", "clear wiping varnish"]);
    let seen = told["seen"].as_array().unwrap();
    let code = seen[0]["code"].as_str().unwrap();
    let rate = &told["rates"][0];
    for field in [
        "product",
        "product_id",
        "method",
        "ground",
        "wood",
        "yours_m2_per_l",
        "low_m2_per_l",
        "high_m2_per_l",
        "label_m2_per_l",
        "of_label",
        "passes",
    ] {
        assert!(!rate[field].is_null(), "{field} of {rate}");
    }
    let text = bench.ok(THEN, &["rates", "clear wiping varnish"]);
    assert!(text.contains(code) && text.contains("yours from"), "{text}");
    let said = bench.ok(THEN, &["strike", code, "--reason", "set down wrong"]);
    assert!(
        said.starts_with("Struck a pass of clear wiping varnish"),
        "{said}"
    );
    let struck = bench.json(THEN, &["rates", "clear wiping varnish"]);
    assert_eq!(struck["seen"][0]["struck"], "set down wrong");
    bench.ok(THEN, &["strike", code, "--take-back"]);
    assert_eq!(bench.json(THEN, &["rates", "clear wiping varnish"]), told);
    bench.ok(THEN, &["undo"]);
    assert_eq!(bench.json(THEN, &["rates", "clear wiping varnish"]), struck);
}

#[test]
fn the_list_to_take_along_is_text_csv_and_json() {
    let bench = demo_bench();
    let told = bench.json(THEN, &["buy"]);
    let lines = told["lines"].as_array().unwrap();
    let sum: i64 = lines
        .iter()
        .map(|line| line["price_cents"].as_i64().unwrap())
        .sum();
    assert_eq!(told["total_cents"], sum);
    assert!(sum > 0);
    let text = bench.ok(THEN, &["buy"]);
    assert!(text.contains("Every job with a piece that is not finished counts as signed"));
    // A product whose name is a formula is guarded in CSV.
    let product = lines[0]["product"].as_str().unwrap();
    bench.ok(THEN, &["product", "--change", product, "=1+1"]);
    let csv = bench.ok(THEN, &["buy", "--csv"]);
    assert!(
        csv.starts_with("product,cans,can_holds_ml,can_price,price,note\n"),
        "{csv}"
    );
    assert!(csv.contains("\n'=1+1,"), "{csv}");
    let total = format!("total,,,,{}.{:02},", sum / 100, sum % 100);
    assert_eq!(csv.lines().last(), Some(total.as_str()));
    // A shelf that is full leaves that product out.
    let have = bench.json(THEN, &["buy", "--have", "=1+1, 1 gal, B-1, 2030-01-01"]);
    assert_eq!(have["lines"][0]["price_cents"], 0);
    let past = bench.json(THEN, &["buy", "--have", "=1+1, 1 gal, B-1, 2020-01-01"]);
    assert_eq!(past["total_cents"], sum);
    let ended = bench.run(THEN, &["buy", "--have", "a gallon"]);
    assert_eq!(ended.code, 1);
    assert!(
        ended.err.contains("write the product, what is left"),
        "{}",
        ended.err
    );
    // Every job left out, nothing is to buy.
    let mut args = vec!["buy".to_owned()];
    for job in bench.json(THEN, &["jobs"])["jobs"].as_array().unwrap() {
        args.extend(["--without".to_owned(), job["no"].to_string()]);
    }
    let args: Vec<&str> = args.iter().map(String::as_str).collect();
    assert_eq!(bench.json(THEN, &args)["total_cents"], 0);
}

#[test]
fn sizes_mixes_and_allowances_by_command() {
    let bench = demo_bench();
    bench.ok(THEN, &["offer", "brown gel stain", "1/2 pt", "11.50"]);
    let sizes = bench.json(THEN, &["offer", "brown gel stain"]);
    let sizes = sizes["products"][0]["sizes"].as_array().unwrap();
    assert_eq!(
        (sizes.len(), sizes[0]["price_cents"].as_i64()),
        (2, Some(1_150))
    );
    bench.ok(THEN, &["offer", "brown gel stain", "1/2 pt", "--gone"]);
    assert_eq!(
        bench
            .run(THEN, &["offer", "brown gel stain", "1/2 pt"])
            .code,
        1
    );
    bench.ok(THEN, &["allow", "--scale", "0.1 g", "--reserve", "20%"]);
    let rules = bench.json(THEN, &["allow"]);
    assert_eq!(
        (rules["scale_g"].as_f64(), rules["reserve_percent"].as_i64()),
        (Some(0.1), Some(20))
    );
    let ended = bench.run(THEN, &["allow", "--loss", "much"]);
    assert!(
        ended.err.starts_with("--loss: \"much\" is no whole number"),
        "{}",
        ended.err
    );
    let part = ["--part", "dark: 3", "--part", "spirits: 1 at 0.78"];
    let mut args = vec!["mix", "brown gel stain", "--by", "weight"];
    args.extend(part);
    bench.ok(THEN, &args);
    let made = bench.json(THEN, &["mix", "brown gel stain", "--make", "8 oz"]);
    let grams: f64 = made["measured"]
        .as_array()
        .unwrap()
        .iter()
        .map(|part| part["grams"].as_f64().unwrap())
        .sum();
    let gram_per_ml = grams / made["makes_ml"].as_f64().unwrap();
    assert!((0.7..1.2).contains(&gram_per_ml), "{made}");
    assert!(made["makes_ml"].as_f64().unwrap() >= 236.5);
    let ended = bench.run(THEN, &["mix", "brown gel stain", "--part", "dark three"]);
    assert!(
        ended.err.contains("a colon and how many parts"),
        "{}",
        ended.err
    );
    bench.ok(THEN, &["mix", "brown gel stain", "--gone"]);
    assert_eq!(bench.run(THEN, &["mix", "brown gel stain"]).code, 1);
}

#[test]
fn finishes_are_compared_by_command() {
    let bench = demo_bench();
    let told = bench.json(THEN, &["compare", "1A", "2A"]);
    let found = told["differences"].as_array().unwrap();
    assert_eq!(found[0]["what"], "wood");
    let text = bench.ok(THEN, &["compare", "1A", "2A"]);
    for difference in found {
        let first = difference["words"]
            .as_str()
            .unwrap()
            .split(' ')
            .next()
            .unwrap();
        assert!(text.contains(first), "{text}");
    }
    assert_eq!(told["one"]["ticket"], "1A");
    assert!(told["one"]["faces"][0]["coats"].is_array());
    let ended = bench.run(THEN, &["compare", "1A", "1A"]);
    assert!(ended.err.contains("the same piece twice"), "{}", ended.err);
}

/// Every field that a verb's JSON has is named in its help.
#[test]
fn json_fields_are_documented() {
    let bench = demo_bench();
    bench.ok(
        THEN,
        &["mix", "brown gel stain", "--part", "a: 1", "--part", "b: 1"],
    );
    for args in [
        vec!["rates", "clear wiping varnish"],
        vec!["buy"],
        vec!["compare", "1A", "2A"],
        vec!["offer"],
        vec!["allow"],
        vec!["mix", "brown gel stain", "--make", "8 oz"],
    ] {
        let help = bench.ok(THEN, &[args[0], "--help"]).replace('\n', " ");
        let mut open = vec![bench.json(THEN, &args)];
        while let Some(value) = open.pop() {
            match value {
                serde_json::Value::Array(items) => open.extend(items),
                serde_json::Value::Object(fields) => {
                    for (name, value) in fields {
                        assert!(help.contains(&name), "{name} of {args:?}: {help}");
                        open.push(value);
                    }
                }
                _ => {}
            }
        }
    }
}

/// A job whose stain was begun from a can gets a second piece that the can does not do for: the Bench
/// and the Shelf say so at once, and the list takes the rest from one other batch.
#[test]
fn running_short_is_told_from_the_cans() {
    let bench = demo_bench();
    let none = bench.json(THEN, &["bench"]);
    assert_eq!(none["short"], serde_json::json!([]));
    let store = Store::open(&bench.path("shop.tackfree")).unwrap();
    let read = shop(&store);
    let begun = read.begun();
    let begun = begun.first().expect("a job of the demo is being stained");
    let no = read.job(begun.job).unwrap().no.to_string();
    let on = |of: &tackfree::shop::OnShelf| of.batch.as_ref() == Some(&begun.batch);
    let left: Volume = read
        .on_shelf()
        .into_iter()
        .filter(on)
        .map(|on| on.left)
        .sum();
    drop(store);
    let args = [
        "piece",
        &no,
        "long island",
        "--size",
        "140 x 60",
        "--thickness",
        "1 1/2",
        "--species",
        "hard maple",
        "--construction",
        "edge",
        "--recipe",
        "gel stain under a wiped film",
    ];
    bench.ok(THEN, &args);
    bench.ok(
        THEN,
        &[
            "piece",
            &no,
            "other island",
            "--size",
            "140 x 60",
            "--thickness",
            "1 1/2",
            "--species",
            "hard maple",
            "--construction",
            "edge",
            "--recipe",
            "gel stain under a wiped film",
        ],
    );
    let told = bench.json(THEN, &["bench"]);
    let short = &told["short"][0];
    assert_eq!(short["batch"], begun.batch.as_str());
    assert!(
        (short["left_ml"].as_f64().unwrap() - left.ml()).abs() < 0.01,
        "{short}"
    );
    let missing = short["needed_ml"].as_f64().unwrap() - left.ml();
    assert!((short["missing_ml"].as_f64().unwrap() - missing).abs() < 0.01 && missing > 0.0);
    assert_eq!(bench.json(THEN, &["cans"])["short"], told["short"]);
    let words = format!("stain batch {} has", begun.batch);
    for verb in ["bench", "cans"] {
        let text = bench.ok(THEN, &[verb]);
        assert!(
            text.contains("RUNNING SHORT") && text.replace("\n  ", "").contains(&words),
            "{text}"
        );
    }
    let list = bench.json(THEN, &["buy"]);
    let lines = list["lines"].as_array().unwrap();
    let line = lines
        .iter()
        .find(|line| !line["stain"].as_array().unwrap().is_empty())
        .unwrap();
    assert_ne!(line["stain"][0]["batch"], begun.batch.as_str());
    assert_eq!(line["stain"][0]["breaks_batch"], begun.batch.as_str());
}

/// What is good on the shelf, and what is past its day, is counted by the list.
#[test]
fn the_list_counts_every_can() {
    let bench = demo_bench();
    let cans = bench.json(THEN, &["cans"]);
    let told = bench.json(THEN, &["buy"]);
    for line in told["lines"].as_array().unwrap() {
        let id = line["product_id"].as_str().unwrap();
        let of = cans["cans"].as_array().unwrap().iter();
        let left: f64 = of
            .filter(|can| can["product_id"] == id)
            .map(|can| can["left_ml"].as_f64().unwrap())
            .sum();
        let counted = line["shelf_ml"].as_f64().unwrap() + line["past_ml"].as_f64().unwrap();
        assert!((left - counted).abs() < 0.01, "{line}");
    }
}
