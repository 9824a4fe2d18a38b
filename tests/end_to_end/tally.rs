//! What the job took, reckoned by hand, against what the program says.

use std::f64::consts::PI;
use std::path::Path;

/// The tally from the command line against areas and spread rates reckoned here, by hand.
pub fn tally_by_hand(store: &Path) {
    let answer = std::process::Command::new(env!("CARGO_BIN_EXE_tackfree"))
        .args(["--store", &store.to_string_lossy(), "tally", "1", "--json"])
        .env("TACKFREE_NOW", "2026-11-30T11:00:00Z")
        .output()
        .expect("the tally");
    assert!(answer.status.success(), "{answer:?}");
    let tally: serde_json::Value = serde_json::from_slice(&answer.stdout).expect("JSON");

    // Square inches, each face from its formula.
    let cutout = 30.0 * 16.0 - (4.0 - PI) * 0.75 * 0.75;
    let hole = PI * 1.375 * 1.375 / 4.0;
    let top = 98.375 * 25.5 - cutout - hole;
    let cutout_wall = (2.0 * (30.0 + 16.0) - 8.0 * 0.75 + 2.0 * PI * 0.75) * 1.5;
    let hole_wall = PI * 1.375 * 1.5;
    let edges = 2.0 * 98.375 * 1.5 + 2.0 * 25.5 * 1.5;
    // The band is two inches wide; the cutout lies inside it (4 3/4 in from front and back), the
    // hole as well (from 22 5/16 to 23 11/16 in of 25 1/2, and the inset ends at 23 1/2): so a
    // sliver of the hole lies in the band.
    let inset = (98.375 - 4.0) * (25.5 - 4.0);
    let radius: f64 = 1.375 / 2.0;
    let reach: f64 = 23.5 - 23.0;
    let sliver = radius * radius * (reach / radius).acos()
        - reach * (radius * radius - reach * reach).sqrt();
    let field = inset - cutout - (hole - sliver);
    let band = 98.375 * 25.5 - inset - sliver;
    let stained = top + band + edges + cutout_wall + hole_wall;

    let square_metre = |square_inches: f64| square_inches * 0.0254 * 0.0254;
    // Millilitres: area over the family's spread rate (m2/L), as the ready-made products state.
    let millilitres = |area: f64, spread: f64| square_metre(area) / spread * 1000.0;
    let expected = [
        ("seal", millilitres(field, 9.8)),
        ("stain", millilitres(stained, 14.7)),
        ("topcoat", millilitres(6.0 * stained + 5.0 * field, 15.3)),
    ];
    let rows = rows_of(&tally);
    for (kind, by_hand) in expected {
        let row = rows
            .iter()
            .find(|row| row["used_as"] == kind)
            .unwrap_or_else(|| panic!("no {kind} in {tally:#}"));
        for field in ["used_ml", "planned_ml", "estimated_ml"] {
            let told = row[field]
                .as_f64()
                .unwrap_or_else(|| panic!("no {field} in {row:#}"));
            // Each pass is kept to the microlitre; eight passes cannot be further off than this.
            assert!(
                (told - by_hand).abs() < 0.02,
                "{kind} {field}: {told} against {by_hand} by hand"
            );
        }
        assert_eq!(row["measured_ml"].as_f64(), Some(0.0));
    }
}

/// The product lines of a tally, wherever the answer keeps them.
fn rows_of(tally: &serde_json::Value) -> Vec<serde_json::Value> {
    fn gather(value: &serde_json::Value, out: &mut Vec<serde_json::Value>) {
        match value {
            serde_json::Value::Array(all) => all.iter().for_each(|one| gather(one, out)),
            serde_json::Value::Object(map)
                if map.contains_key("used_ml") && map.contains_key("used_as") =>
            {
                out.push(value.clone());
            }
            serde_json::Value::Object(map) => map.values().for_each(|one| gather(one, out)),
            _ => {}
        }
    }
    let mut out = Vec::new();
    gather(tally, &mut out);
    out
}
