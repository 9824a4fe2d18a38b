//! The promise: a mix is scaled to the volume needed, in whole steps of the scale, never short, the
//! shares as near to the recipe as the scale lets them be; two sheets that contradict themselves.

use proptest::prelude::*;
use tackfree::coating::ProductId;
use tackfree::coating::film::theoretical_spread;
use tackfree::shop::{Mix, MixBy, MixError, MixPart};
use tackfree::units::{Density, Mass, Volume};
use uuid::Uuid;

fn density(g_per_ml: f64) -> Density {
    Density::from_g_per_ml(g_per_ml).unwrap()
}

fn mix(by: MixBy, parts: &[(&str, u32, Option<f64>)]) -> Mix {
    Mix {
        product: ProductId(Uuid::nil()),
        by,
        parts: parts
            .iter()
            .map(|(name, milliparts, rho)| MixPart {
                name: (*name).to_owned(),
                milliparts: *milliparts,
                density: rho.map(density),
            })
            .collect(),
    }
}

fn gram() -> Mass {
    Mass::from_g(1.0)
}

const CUP: Volume = Volume::from_ul(5_000);

/// By hand: 200 mL at 0.9 g/mL is 180 g; 2 + 1 + 1 parts are 90, 45 and 45 g.
#[test]
fn parts_by_weight_with_the_mixs_density() {
    let mix = mix(
        MixBy::Weight,
        &[
            ("brown", 2000, None),
            ("red", 1000, None),
            ("spirits", 1000, None),
        ],
    );
    let scaled = mix
        .scaled(Volume::from_ml(200.0), density(0.9), gram(), CUP)
        .unwrap();
    let grams: Vec<f64> = scaled.parts.iter().map(|p| p.weigh.unwrap().g()).collect();
    assert_eq!(grams, [90.0, 45.0, 45.0]);
    assert!(scaled.worst < 1e-12 && !scaled.by_parts);
    assert_eq!(scaled.makes, Volume::from_ml(200.0));
}

/// By hand: three equal parts of 10 g are 3.33 g each: 4, 3, 3 on a scale of a gram, the first a
/// fifth too much (4/10 against 1/3), the others a tenth too little.
#[test]
fn what_the_scale_does_to_the_shares_is_said() {
    let equal = mix(
        MixBy::Weight,
        &[("a", 1000, None), ("b", 1000, None), ("c", 1000, None)],
    );
    let scaled = equal
        .scaled(Volume::from_ml(10.0), density(1.0), gram(), CUP)
        .unwrap();
    let grams: Vec<f64> = scaled.parts.iter().map(|p| p.weigh.unwrap().g()).collect();
    assert_eq!(grams, [4.0, 3.0, 3.0]);
    assert!((scaled.parts[0].off - 0.2).abs() < 1e-12);
    assert!((scaled.parts[1].off + 0.1).abs() < 1e-12);
    assert!((scaled.worst - 0.2).abs() < 1e-12);
    // On a scale of 0.1 g: 3.4, 3.3, 3.3.
    let fine = equal
        .scaled(Volume::from_ml(10.0), density(1.0), Mass::from_g(0.1), CUP)
        .unwrap();
    assert!((fine.worst - 0.02).abs() < 1e-9);
}

/// By hand: 3 parts of 0.92 g/mL and 1 part of 0.78 g/mL by volume, 400 mL: 300 and 100 mL, which
/// weigh 276 and 78 g. By weight 3 + 1 fill 3/0.92 + 1/0.78 = 4.5429 mL for 4 g: 0.88049 g/mL, so 400
/// mL weigh 352.2 g, 353 in whole grams: 265 and 88.
#[test]
fn with_every_density_volumes_can_be_weighed() {
    let parts = [
        ("gel stain", 3000, Some(0.92)),
        ("mineral spirits", 1000, Some(0.78)),
    ];
    let volume = Volume::from_ml(400.0);
    let scaled = mix(MixBy::Volume, &parts)
        .scaled(volume, density(0.9), gram(), CUP)
        .unwrap();
    let grams: Vec<f64> = scaled.parts.iter().map(|p| p.weigh.unwrap().g()).collect();
    assert_eq!(grams, [276.0, 78.0]);
    assert!(scaled.by_parts);
    let scaled = mix(MixBy::Weight, &parts)
        .scaled(volume, density(0.9), gram(), CUP)
        .unwrap();
    let grams: Vec<f64> = scaled.parts.iter().map(|p| p.weigh.unwrap().g()).collect();
    assert_eq!(grams, [265.0, 88.0]);
    assert!((scaled.makes.ml() - 353.0 / 0.880_49).abs() < 0.01);
}

/// By hand: 2 + 1 parts of 100 mL in steps of 5 mL: 66.7 and 33.3 are 65 and 35.
#[test]
fn without_densities_volumes_are_measured() {
    let mix = mix(MixBy::Volume, &[("a", 2000, None), ("b", 1000, Some(0.8))]);
    let scaled = mix
        .scaled(Volume::from_ml(100.0), density(0.9), gram(), CUP)
        .unwrap();
    let ml: Vec<f64> = scaled
        .parts
        .iter()
        .map(|p| p.measure.unwrap().ml())
        .collect();
    assert_eq!(ml, [65.0, 35.0]);
    assert!(scaled.parts.iter().all(|part| part.weigh.is_none()));
}

#[test]
fn what_cannot_be_mixed_is_said() {
    let scaled = |mix: &Mix, ml: f64| mix.scaled(Volume::from_ml(ml), density(0.9), gram(), CUP);
    let one = mix(MixBy::Weight, &[("a", 1000, None)]);
    assert_eq!(scaled(&one, 5.0), Err(MixError::OnePart));
    let none = mix(MixBy::Weight, &[("a", 0, None), ("b", 1, None)]);
    assert_eq!(scaled(&none, 5.0), Err(MixError::Amount("a".to_owned())));
    let twice = mix(MixBy::Weight, &[("a", 1, None), ("A", 1, None)]);
    assert_eq!(scaled(&twice, 5.0), Err(MixError::Twice("A".to_owned())));
    let two = mix(MixBy::Weight, &[("a", 1, None), ("b", 1, None)]);
    assert_eq!(scaled(&two, 0.0), Err(MixError::Nothing));
    assert_eq!(scaled(&two, 1e6), Err(MixError::Nothing));
    let names: Vec<String> = (0..21).map(|n| format!("part {n}")).collect();
    let many: Vec<(&str, u32, Option<f64>)> = names.iter().map(|n| (n.as_str(), 1, None)).collect();
    assert_eq!(
        mix(MixBy::Weight, &many).check(),
        Err(MixError::TooManyParts)
    );
}

proptest! {
    /// Never short, never a step more than need be, each part within a step of its exact share of
    /// the rounded sum, whole steps throughout.
    #[test]
    fn a_mix_is_never_short_and_never_a_step_off(
        parts in prop::collection::vec((1u32..10_000, 0.7f64..1.2), 2..8),
        ml in 1.0f64..5_000.0,
        step_mg in prop::sample::select(vec![10i64, 100, 500, 1_000, 5_000]),
        by_weight in any::<bool>(),
        known in any::<bool>(),
    ) {
        let names: Vec<String> = (0..parts.len()).map(|n| format!("part {n}")).collect();
        let by = if by_weight { MixBy::Weight } else { MixBy::Volume };
        let of: Vec<(&str, u32, Option<f64>)> = names
            .iter()
            .zip(&parts)
            .map(|(name, (share, rho))| (name.as_str(), *share, known.then_some(*rho)))
            .collect();
        let needed = Volume::from_ml(ml);
        let cup = Volume::from_ul(step_mg);
        let scaled = mix(by, &of).scaled(needed, density(0.9), Mass::from_mg(step_mg), cup).unwrap();
        prop_assert!(scaled.makes.ul() + 1 >= needed.ul(), "{} of {}", scaled.makes.ul(), needed.ul());
        let amount = |part: &tackfree::shop::Measured| {
            part.weigh.map_or_else(|| part.measure.unwrap().ul(), tackfree::units::Mass::mg)
        };
        let sum: i64 = scaled.parts.iter().map(amount).sum();
        let exact: f64 = scaled.parts.iter().map(|part| part.exact).sum();
        let step = step_mg as f64;
        prop_assert!(sum as f64 >= exact - 1e-3 && (sum as f64) < exact + step + 1e-3);
        for part in &scaled.parts {
            prop_assert_eq!(amount(part) % step_mg, 0);
            let share = part.exact / exact * sum as f64;
            prop_assert!((amount(part) as f64 - share).abs() < step + 1e-3);
            prop_assert!(part.off.abs() <= scaled.worst + 1e-12);
        }
    }
}

/// Two published makers' data sheets said to contradict themselves. The one that states 450-500
/// ft2/gal with 2.7 mil wet is asked about (`tests/published_products.rs`): 594 by the identity, a
/// quarter apart. The other states 639 ft2/gal at 59 % and 1.5 mil, and 37 um beside it: 631 and 650
/// by the identity, 3 % apart at the most. That is rounding, far below the fifth that is asked about;
/// to ask there would be to ask about nearly every sheet.
#[test]
fn a_sheet_that_is_rounded_is_not_asked_about() {
    let at = |um: f64| theoretical_spread(59.0, um).unwrap().sq_ft_per_gal();
    assert!((at(1.5 * 25.4) - 631.0).abs() < 0.5, "{}", at(1.5 * 25.4));
    assert!((at(37.0) - 650.0).abs() < 0.5, "{}", at(37.0));
    let mut label =
        tackfree::coating::families::usual_figures(tackfree::coating::Family::OilBrushingVarnish);
    label.spread = tackfree::units::SpreadRate::from_sq_ft_per_gal(639.0).unwrap();
    label.solids_pct = 59.0;
    label.wet_film = None;
    label.dry_film = Some(tackfree::units::Length::from_metres_rounded(37e-6));
    let product = tackfree::coating::Product {
        id: ProductId(Uuid::nil()),
        name: "sheet".to_owned(),
        kind: tackfree::coating::ProductKind::Topcoat,
        family: tackfree::coating::Family::OilBrushingVarnish,
        label,
        can: Volume::from_ml(946.0),
        price: tackfree::units::Money::from_cents(2_700),
    };
    let films = |product: &tackfree::coating::Product| {
        use tackfree::coating::Doubt;
        let doubts = product.doubts();
        doubts
            .iter()
            .any(|doubt| matches!(doubt, Doubt::WetFilm { .. } | Doubt::DryFilm { .. }))
    };
    assert!(!films(&product));
    // A quarter more coverage than the film allows, and it is.
    let mut apart = product;
    apart.label.spread = tackfree::units::SpreadRate::from_sq_ft_per_gal(800.0).unwrap();
    assert!(films(&apart));
}
