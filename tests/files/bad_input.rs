//! Files that are wrong: each is refused in one clear sentence that says where.

use super::support::{NOW, ZONE, bring_in, demo_but, demo_store, demo_with, mint, refusal, utc};
use tackfree::coating::LabelHours;
use tackfree::store::files::{FilesError, NAMES, WOOD_NAMES, demo_files, import};

#[test]
fn each_of_the_ten_files_must_be_there() {
    for name in NAMES {
        let folder = demo_with("extra.txt", b"");
        std::fs::remove_file(folder.path().join(name)).unwrap();
        let said = refusal(&folder);
        assert!(said.starts_with(&format!("{name} is missing")), "{said}");
    }
    let nowhere = tempfile::tempdir().unwrap();
    let nowhere = nowhere.path().join("none");
    let said = bring_in(&nowhere).unwrap_err().to_string();
    assert!(said.contains("cannot be read"), "{said}");
}

#[test]
fn a_store_with_clients_is_left_alone() {
    let mut store = demo_store();
    let folder = demo_with("extra.txt", b"");
    let mut mint = mint(&store);
    let before = super::shop(&store);
    let answer = import(
        &mut store,
        folder.path(),
        utc(NOW),
        &mut mint,
        ZONE,
        &LabelHours,
    );
    assert_eq!(answer, Err(FilesError::NotEmpty));
    assert_eq!(before, super::shop(&store));
}

/// File, passage, what stands there instead, and what the answer must say.
// One case a line, as a table.
#[rustfmt::skip]
const CASES: &[(&str, &str, &str, &str)] = &[
    ("shop.toml", "format = 2", "format = 3", "shop.toml, line 1: these files are of format 3"),
    ("shop.toml", "format = 2", "format = 0", "there is no format 0"),
    ("shop.toml", "look = \"auto\"", "look = \"neon\"", "shop.toml, line 7: look: \"neon\" is not one of auto"),
    ("shop.toml", "look = \"auto\"", "zone = \"Mars/Base\"\nlook = \"auto\"", "is no time zone"),
    ("shop.toml", "look = \"auto\"", "colour = \"red\"", "shop.toml, line 7: this does not read"),
    ("products.toml", "spread = \"20 m2/L\"", "spread = \"x\"", "products.toml, line 1: spread: \"x\" does not read"),
    ("products.toml", "solids = \"15 %\"", "solids = \"150 %\"", "Volume solids of dewaxed shellac"),
    ("products.toml", "id = \"shellac\"", "id = \"spirits\"", "the product \"spirits\" is there already"),
    ("products.toml", "name = \"hardwax oil\"", "name = \"Mineral Spirits\"", "product named"),
    ("products.toml", "kind = \"sealer\"", "kind = \"glue\"", "\"glue\" is not one of wipe, sealer"),
    ("products.toml", "kind = \"stain\"", "kind = \"wipe\"", "brown gel stain is a wipe, not a stain"),
    ("recipes.toml", "sealer = \"shellac\"", "sealer = \"varnish\"", "recipes.toml, line 1: there is no product \"varnish\""),
    ("recipes.toml", "with spirits", "wet", "\"wet\" is not one of none, dry, with PRODUCT"),
    ("recipes.toml", "grits = [80, 120, 150, 180]", "grits = [120, 80]", "must rise from coarse to fine"),
    ("clients.csv", "id,name,phone", "id,nom,phone", "clients.csv, line 1: there is no column called \"nom\""),
    ("clients.csv", "id,name,phone", "id,id,phone", "the column \"id\" stands twice"),
    ("clients.csv", "brandvik,", "odenwald,", "clients.csv, line 3: the client \"odenwald\" is there already"),
    ("clients.csv", "Theo Brandvik", " ", "clients.csv, line 3: name is empty"),
    ("clients.csv", "brandvik,Theo", "two words,Theo", "\"two words\" is no key"),
    ("clients.csv", "brandvik,Theo Brandvik,", "brandvik,", "has 5 cells and the first line has 6"),
    ("jobs.csv", "kitchen,1,odenwald", "kitchen,1,nobody", "jobs.csv, line 2: client: there is no client \"nobody\""),
    ("jobs.csv", "island,2,", "island,1,", "the job number \"1\" is there already"),
    ("jobs.csv", ",1924,", ",19,", "\"19\" is not a year a house was built in"),
    ("jobs.csv", ",+13d,", ",soon,", "promised: \"soon\" does not read as a date"),
    ("pieces.csv", "range,kitchen", "range,attic", "pieces.csv, line 3: job: there is no job \"attic\""),
    ("pieces.csv", "range,kitchen,B", "range,kitchen,A", "the ticket \"1A\" is there already"),
    ("pieces.csv", "36 1/4 in", "36 1/4", "has no unit; write in or mm behind it"),
    ("pieces.csv", "36 1/4 in", "300 ft", "is more than 100 ft"),
    ("pieces.csv", "36 1/4 in", "36 1/0 in", "has a fraction over 0"),
    ("pieces.csv", "36 1/4 in", "-4 in", "is below zero"),
    ("pieces.csv", "sink counter", "a name that is much too long for the board of any shop", "name can have up to 40 characters"),
    ("pieces.csv", ",gel-stained", ",mustard", "there is no recipe \"mustard\""),
    ("pieces.csv", "edge-grain", "flat", "\"flat\" is not one of face-grain"),
    ("openings.csv", "sink,cutout", "attic,cutout", "openings.csv, line 2: there is no piece \"attic\""),
    ("openings.csv", "30 in,16 in", "130 in,16 in", "pieces.csv, line 2: Cutout 1 is 130\" x 16\" but the top is only 98 3/8\" long"),
    ("openings.csv", "22 3/4 in", "18 in", "cross"),
    ("openings.csv", "sink,hole,1", "sink,hole,0", "no number of an opening"),
    ("passes.csv", "seal-sink,seal,shellac", "seal-sink,seal,wax", "there is no product \"wax\""),
    ("passes.csv", "seal-sink,seal,shellac", "seal-sink,seal,gel-stain", "brown gel stain is a stain, not a sealer"),
    ("passes.csv", "688 g,624 g", "624 g,688 g", "the can weighs more after than before"),
    ("passes.csv", "estimated,,,,68 F", "estimated,,,,900 F", "is no temperature of a shop"),
    ("passes.csv", "estimated,,,,68 F,45 %", "estimated,,,,68 F,", "humidity is empty: shop air has both"),
    ("passes.csv", "measured,4 fl oz", "measured,", "amount is empty: a measured amount is written"),
    ("passes.csv", "measured,4 fl oz", "measured,4 oz wt", "is a weight"),
    ("passes.csv", "-5d 09:10,-5d 09:25", "-5d 09:30,-5d 09:25", "the pass ends before it starts"),
    ("log.csv", "sink,-6d 08:20,tick,due", "attic,-6d 08:20,tick,due", "log.csv, line 2: piece: there is no piece \"attic\""),
    ("log.csv", "sink,-6d 08:20,tick,due", "sink,-6d 08:20,tick,lid", "\"lid\" is no face"),
    ("log.csv", "sink,-6d 08:20,tick,due", "sink,-6d 08:20,tick,rim", "rim: this piece has no such face"),
    ("log.csv", "sink,-6d 08:20,tick,due", "sink,-6d 08:20,polish,due", "what: \"polish\" is not one of tick"),
    ("log.csv", "sink,-6d 08:20,tick,due", "sink,+1d 08:20,tick,due", "is still to come"),
    ("log.csv", "sink,-6d 08:20,tick,due", "sink,,tick,due", "at is empty"),
    ("log.csv", "sink,-6d 08:20,tick,due,80,,", "sink,-6d 08:20,tick,due,80,seal-sink,", "pass has no meaning for \"tick\""),
    ("log.csv", "sink,,coat,due,,seal-sink", "sink,now,coat,due,,seal-sink", "a coat is logged at the end of its pass"),
    ("log.csv", "sink,,coat,due,,seal-sink", "sink,,coat,due,,seal-moon", "there is no pass \"seal-moon\""),
    ("log.csv", "brown-paper", "steel-wool", "\"steel-wool\" is not one of fine-paper-320"),
];

#[test]
fn what_is_wrong_is_said_with_its_place() {
    for (file, from, to, wants) in CASES {
        let said = refusal(&demo_but(file, from, to));
        assert!(said.contains(wants), "{file}: {to}: {said}");
        assert!(said.contains(", line "), "no place: {said}");
        assert!(said.len() < 2500 && !said.contains('\n'), "{said}");
    }
}

fn demo_text(name: &str) -> Vec<u8> {
    let (_, text) = demo_files()
        .into_iter()
        .find(|(file, _)| *file == name)
        .unwrap();
    text.as_bytes().to_vec()
}

#[test]
fn bytes_that_are_no_text_are_refused() {
    for name in NAMES.into_iter().chain(WOOD_NAMES) {
        for (bytes, wants) in [(&[0xFF, 0xFE][..], "UTF-8"), (b"\0", "NUL")] {
            let mut text = demo_text(name);
            let second = text.iter().position(|b| *b == b'\n').unwrap() + 1;
            text.splice(second..second, bytes.iter().copied());
            let said = refusal(&demo_with(name, &text));
            assert!(said.starts_with(&format!("{name}, line 2:")), "{said}");
            assert!(said.contains(wants), "{said}");
        }
    }
}

#[test]
fn a_cell_without_end_is_refused() {
    for (cell, quote) in [("x", ""), ("\"x", "\""), ("x\n", "\"")] {
        let mut text = demo_text("clients.csv");
        text.extend(b"long,");
        text.extend(quote.as_bytes());
        text.extend(cell.repeat(10 * 1024 * 1024 / cell.len()).as_bytes());
        let said = refusal(&demo_with("clients.csv", &text));
        assert!(
            said.starts_with("clients.csv, line 8: a cell is longer than 1 MiB"),
            "{said}"
        );
    }
    // The same bytes in a TOML file are a long name.
    let name = "x".repeat(10 * 1024 * 1024);
    let said = refusal(&demo_but("shop.toml", "Copperleaf Top Shop", &name));
    assert!(
        said.contains("name can have up to 80 characters; this has 10485760"),
        "{said}"
    );
}

#[test]
fn empty_and_foreign_files_are_refused() {
    for name in [
        "clients.csv",
        "jobs.csv",
        "pieces.csv",
        "openings.csv",
        "passes.csv",
        "log.csv",
    ] {
        let said = refusal(&demo_with(name, b""));
        assert!(
            said.starts_with(&format!("{name}, line 1: the column ")),
            "{said}"
        );
        let said = refusal(&demo_with(name, b"%PDF-1.7 and so on\nx\n"));
        assert!(
            said.starts_with(&format!("{name}, line 1: there is no column")),
            "{said}"
        );
    }
    let said = refusal(&demo_with("shop.toml", b""));
    assert!(
        said.starts_with("shop.toml, line 1: this does not read"),
        "{said}"
    );
    let said = refusal(&demo_with("recipes.toml", b"[[recipe]]\nid = \n"));
    assert!(
        said.starts_with("recipes.toml, line 2: this does not read"),
        "{said}"
    );
}

#[cfg(unix)]
#[test]
fn a_folder_in_place_of_a_file_is_refused() {
    let folder = demo_with("extra.txt", b"");
    std::fs::remove_file(folder.path().join("log.csv")).unwrap();
    std::fs::create_dir(folder.path().join("log.csv")).unwrap();
    let said = refusal(&folder);
    assert!(
        said.contains("log.csv cannot be read: it is not a file"),
        "{said}"
    );
}

#[test]
fn what_is_quoted_in_an_answer_is_clean_and_short() {
    let odd = format!("soon\u{1b}]0;x\u{7}{}", "y".repeat(5000));
    let said = refusal(&demo_but("jobs.csv", "+13d", &odd));
    assert!(
        !said.contains(char::is_control) && said.len() < 600,
        "{said}"
    );
    assert!(
        said.ends_with("write it like 2026-12-05, today, +9d or -3d."),
        "{said}"
    );
}

#[test]
fn control_sequences_are_left_out_and_told() {
    let folder = demo_but(
        "clients.csv",
        "Theo Brandvik",
        "Theo \u{1b}[31mBrand\u{7}vik\u{202e}",
    );
    let (store, report) = bring_in(folder.path()).unwrap();
    let shop = super::shop(&store);
    assert!(
        shop.clients
            .iter()
            .any(|client| client.name == "Theo Brandvik")
    );
    assert_eq!(
        report.notes,
        ["clients.csv, line 3: name: 7 control characters were left out."]
    );
    let guarded = shop
        .clients
        .iter()
        .find(|client| client.name.starts_with("Ruth"))
        .unwrap();
    assert_eq!(
        guarded.phone, "+1 303 555 0188",
        "the apostrophe guards, and is no part of it"
    );
}

#[test]
fn a_shop_without_products_keeps_those_that_are_there() {
    let mut store = tackfree::store::Store::in_memory().unwrap();
    let mut mint = mint(&store);
    let mut desk = tackfree::desk::Desk {
        books: &mut store,
        now: utc(NOW),
        mint: &mut mint,
        zone: ZONE,
    };
    desk.furnish(&tackfree::shop::Settings::starting(ZONE))
        .unwrap();
    let folder = demo_with("products.toml", b"");
    for name in ["recipes.toml", "schedules.toml"] {
        std::fs::write(folder.path().join(name), "").unwrap();
    }
    let emptied = [
        "openings.csv",
        "passes.csv",
        "log.csv",
        "fastening.csv",
        "moisture.csv",
        "cans.csv",
        "can_log.csv",
        "draws.csv",
        "hours.csv",
        "breaks.csv",
    ];
    for name in emptied {
        let text = demo_text(name);
        let first = text.split(|b| *b == b'\n').next().unwrap().to_vec();
        std::fs::write(folder.path().join(name), [first, b"\n".to_vec()].concat()).unwrap();
    }
    let pieces = "id,job,letter,name,kind,species,construction,length,width,diameter,thickness,edge,\
                  edge_size,band,recipe\n\
                  one,kitchen,,side top,counter,maple,edge-grain,1 m,600 mm,,40 mm,square,,,hardwax oil on all sides\n";
    std::fs::write(folder.path().join("pieces.csv"), pieces).unwrap();
    let report = import(
        &mut store,
        folder.path(),
        utc(NOW),
        &mut mint,
        ZONE,
        &LabelHours,
    )
    .unwrap();
    assert_eq!((report.products, report.recipes, report.pieces), (7, 4, 1));
    let shop = super::shop(&store);
    let recipe = shop.recipe(shop.files[0].piece.recipe).unwrap();
    assert_eq!(recipe.name, "hardwax oil on all sides");
}
