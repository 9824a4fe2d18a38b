//! Volumes, masses, spread rates and areas.

use crate::units::{Area, AreaStyle, Density, Mass, SpreadRate, Volume, VolumeStyle};

use super::says;

#[test]
fn volumes_are_read_to_the_microlitre() {
    let forms = [
        ("4 oz", 118_294),
        ("4 fl oz", 118_294),
        ("4 fl. oz.", 118_294),
        ("4floz", 118_294),
        ("4 fluid ounces", 118_294),
        ("4", 118_294),
        ("1/2 pt", 236_588),
        ("½ pint", 236_588),
        ("1 qt", 946_353),
        ("1 qt 4 oz", 1_064_647),
        ("1-1/2 qt", 1_419_529),
        ("1 gal", 3_785_412),
        ("55 gal", 208_197_648),
        ("120 mL", 120_000),
        ("120ml", 120_000),
        ("0.9 L", 900_000),
        ("0.9 litres", 900_000),
        ("0", 0),
    ];
    for (text, ul) in forms {
        let read = Volume::parse(text, VolumeStyle::FluidOunces);
        assert_eq!(read, Ok(Volume::from_ul(ul)), "{text}");
    }
    let bare = Volume::parse("120", VolumeStyle::Millilitres);
    assert_eq!(bare, Ok(Volume::from_ml(120.0)));
}

#[test]
fn volumes_are_refused_in_words() {
    let read = |text| Volume::parse(text, VolumeStyle::FluidOunces);
    let forms = "write it like 4 fl oz, 1/2 pt, 1 gal or 120 mL.";
    says(
        read(" "),
        "No volume was given; write one like 4 fl oz, 1/2 pt, 1 gal or 120 mL.",
    );
    for (text, part) in [
        ("a splash", "a splash"),
        ("4 oz 3", "4 oz 3"),
        ("4 3 oz", "3 oz"),
        ("4 fl", "fl"),
        ("4 oz.. ", ". "),
    ] {
        let (typed, part) = (text.trim(), part.trim());
        let expected = format!("\"{typed}\" does not read as a volume at \"{part}\"; {forms}");
        says(read(text), &expected);
    }
    says(
        read("1/0 pt"),
        "\"1/0 pt\" has a fraction over 0; write it like 1/2 pt.",
    );
    says(
        read("-4 oz"),
        "\"-4 oz\" is below zero; a volume is zero or more, so write it without the minus.",
    );
    says(
        read("4 oz wt"),
        "\"4 oz wt\" is a weight; a volume is wanted here, like 4 fl oz or 120 mL.",
    );
    for text in ["56 gal", "9999999999999999999999 L", "208197649/1000 mL"] {
        let drum = "is more than a 55 gal drum, the most taken here; check the unit.";
        says(read(text), &format!("\"{text}\" {drum}"));
    }
}

#[test]
fn volumes_show_in_the_shops_way() {
    let show = |ml: f64, style| Volume::from_ml(ml).show(style);
    assert_eq!(show(124.2, VolumeStyle::FluidOunces), "4.2 fl oz");
    assert_eq!(show(118.294, VolumeStyle::FluidOunces), "4 fl oz");
    assert_eq!(show(124.2, VolumeStyle::Millilitres), "124 mL");
    assert_eq!(show(9.96, VolumeStyle::Millilitres), "10 mL");
    assert_eq!(show(2.54, VolumeStyle::Millilitres), "2.5 mL");
}

#[test]
fn a_split_goes_by_weight_and_leaves_nothing_over() {
    let split = |ul, weights: &[f64]| -> Vec<i64> {
        let parts = Volume::from_ul(ul).split(weights);
        parts.into_iter().map(Volume::ul).collect()
    };
    assert_eq!(split(100, &[1.0, 1.0, 1.0]), [34, 33, 33]);
    assert_eq!(split(-100, &[1.0, 1.0, 1.0]), [-34, -33, -33]);
    assert_eq!(split(10, &[3.0, 1.0]), [8, 2]);
    assert_eq!(split(10, &[1.0, f64::NAN, -1.0, 1.0]), [5, 0, 0, 5]);
    assert_eq!(split(10, &[0.0, 0.0]), [5, 5]);
    assert_eq!(split(10, &[]), Vec::<i64>::new());
    assert_eq!(split(i64::MIN, &[1.0]), [i64::MIN]);
}

#[test]
fn masses_are_read_and_shown() {
    for (text, mg) in [
        ("158 g", 158_000),
        ("158.4g", 158_400),
        ("1.2 kg", 1_200_000),
        ("5.6 oz wt", 158_757),
        ("1 lb 2 oz wt", 510_291),
        ("1 lb 2 oz", 510_291),
        ("2 lb", 907_185),
        ("½ lb", 226_796),
    ] {
        assert_eq!(Mass::parse(text), Ok(Mass::from_mg(mg)), "{text}");
    }
    assert_eq!(Mass::from_g(158.0).show(), "158 g");
    assert_eq!(Mass::from_g(158.44).show(), "158.4 g");
}

#[test]
fn masses_are_refused_in_words() {
    for (text, expected) in [
        (
            "",
            "No weight was given; write one like 158 g, 1.2 kg or 5.6 oz wt.",
        ),
        (
            "heavy",
            "\"heavy\" does not read as a weight at \"heavy\"; write it like 158 g, 1.2 kg or 5.6 oz wt.",
        ),
        (
            "1/0 lb",
            "\"1/0 lb\" has a fraction over 0; write it like 1/2 lb.",
        ),
        (
            "-5 g",
            "\"-5 g\" is below zero; a weight is zero or more, so write it without the minus.",
        ),
        (
            "158",
            "\"158\" has no unit; write g, kg, lb or oz wt behind it.",
        ),
        (
            "5.6 oz",
            "\"5.6 oz\" may be fluid ounces or ounces of weight; write oz wt for a weight.",
        ),
        (
            "5.6 fl oz",
            "\"5.6 fl oz\" is a volume; a weight is wanted here, like 158 g or 5.6 oz wt.",
        ),
        (
            "301 kg",
            "\"301 kg\" is more than 300 kg, the most taken here; check the unit.",
        ),
    ] {
        says(Mass::parse(text), expected);
    }
}

#[test]
fn density_turns_grams_into_millilitres_and_back() {
    let density = Density::from_g_per_ml(0.9).expect("above zero");
    assert_eq!(
        density.volume_of(Mass::from_g(90.0)),
        Volume::from_ml(100.0)
    );
    assert_eq!(density.mass_of(Volume::from_ml(100.0)), Mass::from_g(90.0));
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(Density::from_g_per_ml(bad), None);
        assert_eq!(SpreadRate::from_m2_per_l(bad), None);
    }
    assert!(serde_json::from_str::<Density>("0.0").is_err());
}

#[test]
fn spread_rates_are_read_and_shown() {
    for text in [
        "625 ft2/gal",
        "625 sq ft/gal",
        "625 sq. ft. per gal.",
        "625ft²/gal",
        "625 square feet per gallon",
    ] {
        let rate = SpreadRate::parse(text).expect(text);
        assert_eq!(rate.show(AreaStyle::SquareFeet), "625 sq ft/gal", "{text}");
        assert_eq!(rate.show(AreaStyle::SquareMetres), "15.3 m2/L", "{text}");
    }
    for text in ["15.3 m2/L", "15.3 m²/l", "15.3 sq m per litre"] {
        let rate = SpreadRate::parse(text).expect(text);
        assert!((rate.m2_per_l() - 15.3).abs() < 1e-12, "{text}");
    }
    let rate = SpreadRate::from_m2_per_l(10.0).expect("above zero");
    assert_eq!(rate.volume_for(Area::from_m2(2.5)), Volume::from_ml(250.0));
}

#[test]
fn spread_rates_are_refused_in_words() {
    says(
        SpreadRate::parse(""),
        "No spread rate was given; write one like 625 sq ft/gal or 15.3 m2/L.",
    );
    for (text, part) in [
        ("far", "far"),
        ("625", "625"),
        ("625 ft/gal", "ft/gal"),
        ("1/0 m2/L", "1/0 m2/L"),
    ] {
        let forms = "write it like 625 sq ft/gal or 15.3 m2/L.";
        let expected = format!("\"{text}\" does not read as a spread rate at \"{part}\"; {forms}");
        says(SpreadRate::parse(text), &expected);
    }
    for text in [
        "0 m2/L",
        "9 ft2/gal",
        "5001 ft2/gal",
        "625 m2/L",
        "-625 ft2/gal",
    ] {
        let range = "which lies between 10 and 5000 sq ft/gal; check the unit.";
        says(
            SpreadRate::parse(text),
            &format!("\"{text}\" is not a spread rate of a finish, {range}"),
        );
    }
}

#[test]
fn areas_show_in_the_shops_way() {
    for (m2, feet, metres) in [
        (1.62, "17.4 sq ft", "1.62 m2"),
        (0.05, "0.54 sq ft", "0.050 m2"),
        (0.0001, "under 0.01 sq ft", "under 0.001 m2"),
        (0.0, "0 sq ft", "0 m2"),
    ] {
        assert_eq!(Area::from_m2(m2).show(AreaStyle::SquareFeet), feet);
        assert_eq!(Area::from_m2(m2).show(AreaStyle::SquareMetres), metres);
    }
    assert_eq!(Area::from_um2(1_620_000_000_000), Area::from_m2(1.62));
    assert_eq!(Area::from_m2(1.62).um2(), 1_620_000_000_000);
}
