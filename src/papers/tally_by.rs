//! The tally by job, client, product or month, on paper and as a table.

use super::PAPER_WIDTH;
use super::layout::{Columns, wrap};
use crate::desk::Shop;
use crate::shop::{
    CoatKind, FaceFilm, GroupKey, MethodFilm, ShelfSums, TallyBy, TallyGroup, TallyOf, UseRow,
    tally_by,
};
use crate::units::{AreaStyle, Volume};

/// Square metres in a square foot, exactly.
const M2_PER_SQ_FT: f64 = 0.092_903_04;
/// Micrometres in a mil, exactly.
const UM_PER_MIL: f64 = 25.4;

/// The groups of the whole shop.
pub fn tally_groups(shop: &Shop, by: TallyBy) -> Vec<TallyGroup> {
    let of = TallyOf {
        files: &shop.files,
        jobs: &shop.jobs,
        passes: &shop.passes,
        products: &shop.products,
        cans: &shop.cans,
        rates: &shop.rates,
        zone: shop.settings.zone,
    };
    tally_by(&of, by)
}

/// What a group is called.
pub fn group_name(key: GroupKey, shop: &Shop) -> String {
    match key {
        GroupKey::Job(id) => shop.job(id).map_or_else(
            || "a job gone".to_owned(),
            |job| format!("job {} {}", job.no, job.title),
        ),
        GroupKey::Client(id) => shop
            .client(id)
            .map_or_else(|| "a client gone".to_owned(), |client| client.name.clone()),
        GroupKey::Product(id) => shop.product(id).map_or_else(
            || "a product gone".to_owned(),
            |product| product.name.clone(),
        ),
        GroupKey::Month(year, month) => format!("{year}-{month:02}"),
    }
}

/// `$0.31/ft2`; nothing where no area was coated.
pub fn cost_rate(cents_per_m2: Option<f64>, shop: &Shop) -> String {
    let Some(cents) = cents_per_m2 else {
        return String::new();
    };
    match shop.settings.area() {
        AreaStyle::SquareFeet => format!("${:.2}/ft2", cents * M2_PER_SQ_FT / 100.0),
        AreaStyle::SquareMetres => format!("${:.2}/m2", cents / 100.0),
    }
}

/// `2.4 mil wet, 0.7 mil dry`.
pub fn film_words(wet_um: f64, dry_um: f64, shop: &Shop) -> String {
    match shop.settings.area() {
        AreaStyle::SquareFeet => format!(
            "{:.1} mil wet, {:.2} mil dry",
            wet_um / UM_PER_MIL,
            dry_um / UM_PER_MIL
        ),
        AreaStyle::SquareMetres => format!("{wet_um:.0} um wet, {dry_um:.0} um dry"),
    }
}

fn product_name(row: &UseRow, shop: &Shop) -> String {
    shop.product(row.product).map_or_else(
        || "a product gone".to_owned(),
        |product| product.name.clone(),
    )
}

/// Groups on paper.
pub fn groups_paper(heading: &str, groups: &[TallyGroup], shop: &Shop) -> Vec<String> {
    let mut out = wrap(heading, PAPER_WIDTH, 2);
    if groups.is_empty() {
        out.push("  Nothing used and nothing planned.".to_owned());
    }
    for group in groups {
        out.push(String::new());
        out.extend(wrap(&group_name(group.key, shop), PAPER_WIDTH, 2));
        out.extend(group_lines(group, shop));
    }
    out
}

fn group_lines(group: &TallyGroup, shop: &Shop) -> Vec<String> {
    let (volume, mut out) = (shop.settings.volume, Vec::new());
    let mut columns = Columns::at_most(&[22, 7]);
    columns.row([
        "product", "as", "planned", "used", "estimate", "cost", "rate",
    ]);
    for row in &group.rows {
        columns.row([
            &product_name(row, shop),
            row.kind.word(),
            &row.planned
                .map_or_else(|| "-".to_owned(), |planned| planned.show(volume)),
            &row.used().show(volume),
            &row.estimated_share()
                .map_or_else(String::new, |share| format!("{:.0}%", share * 100.0)),
            &row.cost.show(),
            &cost_rate(row.cents_per_m2(), shop),
        ]);
    }
    if !group.rows.is_empty() {
        out.extend(columns.lines(2, PAPER_WIDTH));
    }
    for row in &group.rows {
        for words in row_words(row, shop) {
            let words = format!(
                "{} as {}: {words}",
                product_name(row, shop),
                row.kind.word()
            );
            out.extend(under(&words));
        }
    }
    if group.jars.volume > Volume::ZERO {
        out.extend(under(&format!(
            "jars poured off: {}, {}",
            group.jars.volume.show(volume),
            group.jars.cost.show()
        )));
    }
    if let Some(shelf) = group.shelf.filter(|shelf| shelf.came.volume > Volume::ZERO) {
        out.extend(under(&shelf_words(&shelf, shop)));
    }
    let rate = cost_rate(group.cents_per_m2(), shop);
    let rate = if rate.is_empty() {
        rate
    } else {
        format!(", {rate} of wood")
    };
    out.push(format!("  cost {}{rate}", group.cost().show()));
    out
}

fn under(words: &str) -> Vec<String> {
    wrap(words, PAPER_WIDTH - 4, 2)
        .into_iter()
        .map(|line| format!("    {line}"))
        .collect()
}

fn row_words(row: &UseRow, shop: &Shop) -> Vec<String> {
    let said = |volume: Volume| volume.show(shop.settings.volume);
    let mut out = Vec::new();
    // Stain is wiped off again and wipes dry away: only films are told.
    if row.kind.is_film() && !row.films.is_empty() {
        let sides: Vec<String> = row.films.iter().map(|film| side(film, shop)).collect();
        out.push(format!("one coat {}", sides.join("; ")));
    }
    if row.lost > Volume::ZERO {
        out.push(format!("{} of it in rag and tray", said(row.lost)));
    }
    if !row.batches.is_empty() {
        out.push(format!("batch {}", row.batches.join(", ")));
    }
    if row.no_can > Volume::ZERO && row.no_can < row.used() {
        out.push(format!(
            "{} from no named can, reckoned at the can price ({})",
            said(row.no_can),
            row.cost_at_price.show()
        ));
    } else if row.no_can > Volume::ZERO {
        out.push("no can named: reckoned at the can price".to_owned());
    }
    out
}

fn side(film: &MethodFilm, shop: &Shop) -> String {
    let basis = if film.measured {
        ""
    } else {
        " (partly the label's rate)"
    };
    format!(
        "{} {}{basis}",
        film.method.word(),
        film_words(film.film.wet_um, film.film.dry_um, shop)
    )
}

fn shelf_words(shelf: &ShelfSums, shop: &Shop) -> String {
    let said = |volume: Volume| volume.show(shop.settings.volume);
    let sums = &shelf.sums;
    let mut parts = vec![
        format!("{} on the wood", said(sums.on_wood.volume)),
        format!(
            "{} on the shelf ({})",
            said(shelf.left.volume),
            shelf.left.cost.show()
        ),
    ];
    for (qty, words) in [
        (sums.rag, "in rags and trays"),
        (sums.jars, "in jars"),
        (sums.lost, "lost"),
        (sums.discarded, "thrown away"),
    ] {
        if qty.volume > Volume::ZERO {
            parts.push(format!("{} {words}", said(qty.volume)));
        }
    }
    match sums.found.volume.ul() {
        0 => {}
        more if more < 0 => {
            parts.push(format!(
                "less {} found beyond the reckoning",
                said(-sums.found.volume)
            ));
        }
        _ => parts.push(format!(
            "{} found missing by weighing",
            said(sums.found.volume)
        )),
    }
    format!(
        "cans: {} came in for {}: {}",
        said(shelf.came.volume),
        shelf.came.cost.show(),
        parts.join(", ")
    )
}

/// The films of the faces of pieces, on paper.
pub fn faces_paper(films: &[FaceFilm], shop: &Shop) -> Vec<String> {
    let mut columns = Columns::at_most(&[6, 18, 8, 6]);
    columns.row([
        "piece",
        "face",
        "as",
        "coats",
        "film of all coats, before sanding between",
    ]);
    let films = films.iter().filter(|film| film.kind != CoatKind::Stain);
    for film in films {
        let piece = shop.file(film.piece);
        let basis = if film.measured {
            ""
        } else {
            " (partly estimated)"
        };
        columns.row([
            &piece.map_or_else(String::new, |file| shop.ticket_no(file)),
            &film.face.to_string(),
            film.kind.word(),
            &film.coats.to_string(),
            &format!(
                "{}{basis}",
                film_words(film.film.wet_um, film.film.dry_um, shop)
            ),
        ]);
    }
    columns.lines(2, PAPER_WIDTH)
}

/// The columns of the table, units in their names.
pub const TALLY_COLUMNS: &[&str] = &[
    "group",
    "product",
    "used_as",
    "coated_m2",
    "planned_ml",
    "used_ml",
    "measured_ml",
    "estimated_ml",
    "estimated_share",
    "lost_ml",
    "at_label_ml",
    "cost",
    "cost_at_can_price",
    "cost_per_m2",
    "batches",
    "wiped_wet_um",
    "wiped_dry_um",
    "brushed_wet_um",
    "brushed_dry_um",
    "sprayed_wet_um",
    "sprayed_dry_um",
];

/// The rows of the table: one for each product of a group, and one for its jars.
pub fn tally_table(groups: &[TallyGroup], shop: &Shop) -> Vec<Vec<String>> {
    let mut out = Vec::new();
    for group in groups {
        let name = group_name(group.key, shop);
        for row in &group.rows {
            out.push(table_row(&name, row, shop));
        }
        if group.jars.volume > Volume::ZERO {
            let mut cells = vec![name.clone(), String::new(), "jar".to_owned()];
            cells.resize(TALLY_COLUMNS.len(), String::new());
            let at = |column: &str| TALLY_COLUMNS.iter().position(|name| *name == column);
            for (column, text) in [
                ("used_ml", ml(group.jars.volume)),
                ("cost", dollars(group.jars.cost)),
            ] {
                if let Some(cell) = at(column).and_then(|at| cells.get_mut(at)) {
                    *cell = text;
                }
            }
            out.push(cells);
        }
    }
    out
}

fn ml(volume: Volume) -> String {
    format!("{:.3}", volume.ml())
}

/// Without the currency's sign and without commas, for a column of numbers.
fn dollars(money: crate::units::Money) -> String {
    money.show().replace(['$', ','], "")
}

fn table_row(name: &str, row: &UseRow, shop: &Shop) -> Vec<String> {
    use crate::coating::Method;
    let mut cells = vec![
        name.to_owned(),
        product_name(row, shop),
        row.kind.word().to_owned(),
        format!("{:.4}", row.coated.m2()),
        row.planned.map_or_else(String::new, ml),
        ml(row.used()),
        ml(row.measured),
        ml(row.estimated),
        row.estimated_share()
            .map_or_else(String::new, |share| format!("{share:.3}")),
        ml(row.lost),
        ml(row.at_label),
        dollars(row.cost),
        dollars(row.cost_at_price),
        row.cents_per_m2()
            .map_or_else(String::new, |cents| format!("{:.4}", cents / 100.0)),
        row.batches.join("; "),
    ];
    for method in Method::ALL {
        let film = row.films.iter().find(|film| film.method == method);
        for of in [
            |film: &MethodFilm| film.film.wet_um,
            |film: &MethodFilm| film.film.dry_um,
        ] {
            cells.push(film.map_or_else(String::new, |film| format!("{:.1}", of(film))));
        }
    }
    cells
}
