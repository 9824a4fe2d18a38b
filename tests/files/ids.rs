//! Identifiers in the files, kept or made.

use super::support::{NOW, ZONE, column, export_but, mint, utc};
use chrono::Duration;
use tackfree::coating::LabelHours;
use tackfree::store::Store;
use tackfree::store::files::import;

#[test]
fn a_line_without_an_id_may_follow_lines_with_ids_that_lie_ahead_of_the_clock() {
    let folder = export_but("log.csv", |rows| {
        let (piece, id) = (column(rows, "piece"), column(rows, "id"));
        let of = rows[1][piece].clone();
        let last = rows.iter().rposition(|row| row[piece] == of).unwrap();
        rows[last][id] = String::new();
    });
    let mut store = Store::in_memory().unwrap();
    let mut mint = mint(&store);
    // The lines were made when the clock of their machine was a minute further on.
    let now = utc(NOW) - Duration::minutes(1);
    import(&mut store, folder.path(), now, &mut mint, ZONE, &LabelHours).unwrap();
}
