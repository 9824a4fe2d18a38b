use super::keep;
use super::look::{draw, nothing_is_lost, press, says};
use super::sample::{Sample, at_work, bare, empty, planned};
use tackfree::desk::Which;
use tackfree::shop::CoatKind;
use tackfree::tui::forms::FormKind;
use tackfree::tui::screen::{Screen, Wish};
use tackfree::tui::screens::shelf::Shelf;
use tackfree::units::{LengthStyle, VolumeStyle};

fn opened(sample: &Sample) -> Shelf {
    let mut shelf = Shelf::new();
    shelf.settle(&sample.ctx());
    shelf
}

#[test]
fn looks_as_kept() {
    let sample = at_work();
    let mut shelf = opened(&sample);
    keep!("shelf_per_job", &shelf, &sample);
    press(&mut shelf, &sample, "down down enter");
    keep!("shelf_passes", &shelf, &sample);
    press(&mut shelf, &sample, "esc tab");
    keep!("shelf_in_all", &shelf, &sample);
    press(&mut shelf, &sample, "right");
    keep!("shelf_products", &shelf, &sample);
    let (none, bare) = (empty(), bare());
    keep!("shelf_empty", &opened(&none), &none);
    let mut shelf = opened(&bare);
    press(&mut shelf, &bare, "left");
    keep!("shelf_no_products", &shelf, &bare);
}

#[test]
fn all_figures_of_a_product_are_a_page_to_read() {
    let sample = at_work();
    let mut shelf = opened(&sample);
    assert_eq!(
        press(&mut shelf, &sample, "v"),
        [],
        "there is no product in the tally"
    );
    press(&mut shelf, &sample, "left");
    let wishes = press(&mut shelf, &sample, "down down v");
    let [Wish::Read { title, lines }] = &wishes[..] else {
        panic!("{wishes:?}")
    };
    assert_eq!(title, "clear wiping varnish");
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path("../snapshots");
    settings.set_prepend_module_to_snapshot(false);
    settings.bind(|| insta::assert_snapshot!("shelf_product_page", lines.join("\n")));
    for line in lines {
        assert!(line.len() <= 78, "{line}");
    }
    for figure in tackfree::coating::Figure::ALL {
        assert!(says(lines, figure.word()), "{figure:?}");
    }
}

#[test]
fn no_word_is_lost() {
    let sample = at_work();
    let mut shelf = opened(&sample);
    nothing_is_lost(&shelf, &sample);
    press(&mut shelf, &sample, "enter down");
    nothing_is_lost(&shelf, &sample);
    press(&mut shelf, &sample, "esc right");
    nothing_is_lost(&shelf, &sample);
    press(&mut shelf, &sample, "right");
    nothing_is_lost(&shelf, &sample);
}

#[test]
fn measured_and_estimated_are_told_apart_in_words() {
    let sample = at_work();
    let rows = draw(&opened(&sample), &sample, (120, 100));
    let style = VolumeStyle::FluidOunces;
    let island = sample.shop.find_piece("12A").unwrap();
    let both = sample
        .shop
        .files
        .iter()
        .filter(|f| f.piece.job == island.piece.job);
    let plan = both
        .map(|f| planned(&sample.shop.products, f, CoatKind::Topcoat))
        .sum::<tackfree::units::Volume>();
    assert!(
        says(
            &rows,
            &format!("clear wiping varnish, topcoat {}", plan.show(style))
        ),
        "{rows:#?}"
    );
    // Of two coats on the island one was weighed and one estimated.
    let topcoats: Vec<_> = sample
        .shop
        .passes
        .iter()
        .filter(|p| p.kind == CoatKind::Topcoat)
        .collect();
    let (first, second) = (topcoats[0].amount.volume, topcoats[1].amount.volume);
    let words = format!(
        "used: {} measured, {} estimated at the usual spread rate of its family (check the can label)",
        second.show(style),
        first.show(style)
    );
    assert!(says(&rows, &words), "{words} in {rows:#?}");
    assert!(says(&rows, "nothing used yet; planned at"));
}

#[test]
fn the_totals_are_the_sums_of_their_lines() {
    let sample = at_work();
    let mut shelf = opened(&sample);
    let cents = |text: &str| -> i64 {
        text.trim_start_matches('$')
            .replace([',', '.'], "")
            .parse()
            .unwrap()
    };
    for keys in ["home", "right"] {
        press(&mut shelf, &sample, keys);
        let rows = draw(&shelf, &sample, (120, 150));
        let lines: Vec<i64> = rows
            .iter()
            .skip(3)
            .filter(|row| !row.contains("cost so far"))
            .filter_map(|row| {
                row.split_whitespace()
                    .next_back()
                    .filter(|w| w.starts_with('$'))
            })
            .map(cents)
            .collect();
        let total = rows[1].split("cost so far ").nth(1).unwrap();
        let total = cents(total.split([' ']).next().unwrap().trim_end_matches(','));
        assert!(total > 0 && lines.len() > 3);
        assert_eq!(lines.iter().sum::<i64>(), total);
    }
}

#[test]
fn enter_goes_to_the_passes_and_on_to_a_correction() {
    let sample = at_work();
    let mut shelf = opened(&sample);
    // Third line of the first job: topcoat. Its newest pass is the weighed one.
    assert_eq!(press(&mut shelf, &sample, "down down enter"), []);
    assert!(shelf.title(&sample.ctx()).contains("job 12"));
    let topcoats: Vec<_> = sample
        .shop
        .passes
        .iter()
        .filter(|p| p.kind == CoatKind::Topcoat)
        .collect();
    assert_eq!(
        press(&mut shelf, &sample, "enter"),
        [Wish::Form(FormKind::CorrectPass(topcoats[1].id))]
    );
    let rows = draw(&shelf, &sample, (120, 60));
    assert!(says(&rows, "weighed: can"));
    assert!(says(&rows, "12A island top: top, underside band"));
    press(&mut shelf, &sample, "esc");
    assert_eq!(shelf.title(&sample.ctx()), "Shelf");
}

#[test]
fn products_are_edited_and_entered() {
    let mut sample = at_work();
    let mut shelf = opened(&sample);
    let second = sample.shop.products[1].clone();
    assert_eq!(
        press(&mut shelf, &sample, "shift-tab down enter"),
        [Wish::Form(FormKind::Product(Which::This(second.id)))]
    );
    assert_eq!(
        press(&mut shelf, &sample, "n"),
        [Wish::Form(FormKind::Product(Which::New))]
    );
    let mut fresh = second;
    fresh.id.0 = uuid::Uuid::from_u128(5);
    sample.shop.products.push(fresh.clone());
    shelf.settle(&sample.ctx());
    assert_eq!(
        press(&mut shelf, &sample, "enter"),
        [Wish::Form(FormKind::Product(Which::This(fresh.id)))],
        "the new one is picked"
    );
}

#[test]
fn the_units_are_the_shops() {
    let mut sample = at_work();
    sample.shop.settings.volume = VolumeStyle::Millilitres;
    sample.shop.settings.length = LengthStyle::Millimetres;
    let mut shelf = opened(&sample);
    for keys in ["home", "enter", "esc tab", "tab"] {
        press(&mut shelf, &sample, keys);
        let text = draw(&shelf, &sample, (120, 150)).join("\n");
        assert!(text.contains(" mL") && !text.contains("fl oz"), "{text}");
        assert!(!text.contains("sq ft"), "{text}");
    }
}
