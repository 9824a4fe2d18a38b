//! Units against published sources. Each number stands beside the document that it is taken from;
//! where the document's text was not at hand when this was written, it says "from memory".
#![allow(clippy::float_cmp, reason = "exact definitions must come out exactly")]

use tackfree::units::{
    Area, BareUnit, Density, Length, Mass, SpreadRate, Temperature, Volume, VolumeStyle,
};

fn near(found: f64, published: f64, tolerance: f64) {
    let off = (found - published).abs();
    assert!(
        off <= tolerance,
        "{found} is not {published} within {tolerance}"
    );
}

#[test]
fn an_inch_is_25_4_mm_and_a_foot_12_inches() {
    // NIST Handbook 44, Appendix C, tables of length: 1 inch = 2.54 centimeters (exactly),
    // 1 foot = 0.3048 meter (exactly). From memory.
    let read = |text| Length::parse(text, BareUnit::Inches);
    assert_eq!(read("1 in"), read("25.4 mm"));
    assert_eq!(read("1 ft"), read("12 in"));
    assert_eq!(read("1 ft"), read("0.3048 m"));
    assert_eq!(read("1/64 in"), Ok(Length::from_nm(396_875)));
    assert_eq!(Length::from_64ths(64).mm(), 25.4);
}

#[test]
fn a_gallon_is_231_cubic_inches() {
    // NIST Handbook 44, Appendix C, section 5, units of capacity or volume: 1 gallon (U.S.) = 231
    // cubic inches (exactly), read in a reprint of that appendix. The subdivision in 4 quarts,
    // 8 pints, 128 fluid ounces and 3.785 411 784 liters: same appendix, from memory, and both
    // follow from the tables of 16 CFR 500.19 below.
    let cubic_inch_ml = 2.54_f64.powi(3);
    near(231.0 * cubic_inch_ml, 3_785.411_784, 1e-9);
    let read = |text| Volume::parse(text, VolumeStyle::FluidOunces);
    // A gallon is 3,785,411.784 microlitres, kept to the microlitre.
    assert_eq!(read("1 gal"), Ok(Volume::from_ul(3_785_412)));
    assert_eq!(read("1 gal"), read("128 fl oz"));
    assert_eq!(read("1 gal"), read("4 qt"));
    assert_eq!(read("1 gal"), read("8 pt"));
    // 1000 fluid ounces are 29,573,529.5625 microlitres: 1 fl oz = 29.573 529 562 5 mL (exactly).
    assert_eq!(read("1000 fl oz"), Ok(Volume::from_ul(29_573_530)));
    near(Volume::from_ml(1000.0).us_fl_oz(), 33.814_022_7, 1e-6);
    near(Volume::from_ul(3_785_412).gallons(), 1.0, 1e-6);
}

#[test]
fn a_square_foot_is_0_09290304_m2() {
    // NIST Handbook 44, Appendix C, area: 1 square foot = 929.030 4 square centimeters (exactly),
    // 1 square inch = 6.451 6 square centimeters (exactly). From memory.
    assert_eq!(Area::from_sq_ft(1.0).m2(), 0.092_903_04);
    near(Area::from_sq_in(1.0).m2(), 0.000_645_16, 1e-18);
    near(Area::from_sq_ft(1.0).sq_in(), 144.0, 1e-12);
}

#[test]
fn a_pound_is_453_59237_g() {
    // NIST Handbook 44, Appendix C, avoirdupois weight: 1 pound = 453.592 37 grams (exactly)
    // = 16 ounces. From memory.
    assert_eq!(Mass::parse("1 lb"), Ok(Mass::from_mg(453_592)));
    assert_eq!(Mass::parse("100 lb"), Ok(Mass::from_mg(45_359_237)));
    assert_eq!(Mass::parse("16 oz wt"), Mass::parse("1 lb"));
    // 1 lb/gal = 0.11982643 g/mL: arithmetic from the two exact definitions.
    let density = Density::from_lb_per_gal(1.0).map(Density::g_per_ml);
    near(density.unwrap_or_default(), 0.119_826_43, 5e-9);
}

#[test]
fn the_factors_for_package_labels_come_out() {
    // 16 CFR 500.19(a), table "SI Metric Inch/Pound Conversion Factors", six significant digits.
    let inches = |text| Length::parse(text, BareUnit::Inches).map(Length::mm);
    assert_eq!(inches("1 in"), Ok(25.4)); // 1 inch = 2.54 cm, exactly
    assert_eq!(inches("1 ft"), Ok(304.8)); // 1 foot = 30.48 cm, exactly
    near(Length::from_mm(1).inches(), 0.039_370, 5e-7); // 1 millimeter = 0.039 370 in
    near(Area::from_sq_in(1.0).m2() * 1e4, 6.4516, 1e-12); // 1 square inch = 6.4516 cm2, exactly
    near(Area::from_sq_ft(1.0).m2() * 1e4, 929.0304, 1e-9); // 1 square foot = 929.0304 cm2, exactly
    near(Area::from_m2(1.0).sq_ft(), 10.7639, 5e-5); // 1 square meter = 10.763 9 ft2
    let ml = |text| {
        let read = Volume::parse(text, VolumeStyle::FluidOunces);
        read.map(Volume::ml).unwrap_or_default()
    };
    near(ml("100 fl oz"), 2957.35, 5e-3); // 1 fluid ounce = 29.573 5 mL
    // 1 liquid pint = 473.177 mL: the table's last digit is one high, since a gallon of 231 cubic
    // inches makes 473.176 473 mL.
    near(ml("1 pt"), 473.177, 1.001e-3);
    near(ml("1 qt"), 946.353, 1e-3); // 1 liquid quart = 946.353 mL
    near(ml("1 gal"), 3785.41, 5e-3); // 1 gallon = 3.785 41 L
    near(Volume::from_ml(1000.0).gallons(), 0.264_172, 5e-7); // 1 liter = 0.264 172 gallon
    let g = |text| Mass::parse(text).map(Mass::g).unwrap_or_default();
    near(g("100 oz wt"), 2834.95, 5e-3); // 1 ounce = 28.349 5 g
    near(g("1 lb"), 453.592, 1e-3); // 1 pound = 453.592 g
    near(Mass::from_g(1000.0).lb(), 2.204_62, 5e-6); // 1 kilogram = 2.204 62 lb
}

#[test]
fn temperatures_meet_at_the_fixed_points() {
    // NIST Special Publication 811, Appendix B.8: t/degC = (t/degF - 32)/1.8;
    // T/K = t/degC + 273.15. From memory.
    assert_eq!(Temperature::from_f(32.0).milli_c(), 0);
    assert_eq!(Temperature::from_f(212.0).milli_c(), 100_000);
    assert_eq!(Temperature::from_f(-40.0), Temperature::from_c(-40.0));
    assert_eq!(Temperature::from_c(0.0).kelvin(), 273.15);
}

#[test]
fn a_gallon_one_mil_thick_covers_1604_square_feet() {
    // A gauge maker's published formula page and a trade consultant's notes: 1604 ft2 per gallon
    // at 1 mil. Exactly 231 in3 / 0.001 in / 144 = 1604.1667 ft2 mil/gal.
    let rate = SpreadRate::from_sq_ft_per_gal(231.0 / 0.001 / 144.0).expect("above zero");
    near(rate.sq_ft_per_gal(), 1604.1667, 5e-5);
    near(rate.wet_film_um(), 25.4, 1e-9);
    // A maker's general-information sheet: one litre at 1 um covers 1000 m2.
    let litre = SpreadRate::from_m2_per_l(1000.0).expect("above zero");
    near(litre.wet_film_um(), 1.0, 1e-12);
}

#[test]
fn a_square_foot_per_gallon_in_metric() {
    // Arithmetic from the exact definitions: 0.09290304 / 3.785411784.
    let rate = SpreadRate::from_sq_ft_per_gal(1.0).expect("above zero");
    near(rate.m2_per_l(), 0.024_542_39, 5e-9);
    let rate = SpreadRate::from_m2_per_l(1.0).expect("above zero");
    near(rate.sq_ft_per_gal(), 40.7458, 5e-5);
    // A maker's advice page: one litre at 1 mil covers 423.8 ft2.
    let mil = SpreadRate::from_m2_per_l(1000.0 / 25.4).expect("above zero");
    let square_feet = mil.m2_per_l() / Area::from_sq_ft(1.0).m2();
    near(square_feet, 423.8, 0.05);
}

#[test]
fn wet_films_agree_with_published_data_sheets() {
    // Published makers' data sheets: spread at the stated solids and the wet film they print.
    for (m2_per_l, wet_um, tolerance) in [
        (12.0, 83.0, 0.5),  // 48 % solids at 40 um dry: wet 83 um
        (18.0, 56.0, 0.5),  // 45 % solids at 25 um dry, a wood varnish: wet 56 um
        (8.20, 122.0, 0.5), // 41 % solids at 50 um dry: wet 122 um
    ] {
        let rate = SpreadRate::from_m2_per_l(m2_per_l).expect("above zero");
        near(rate.wet_film_um(), wet_um, tolerance);
    }
    // The same sheets in US units: 12 m2/L is printed as 481 ft2/gal (by way of 1604 and
    // 1.6 mil, hence the width), 8.20 m2/L as 329 ft2/gal (by way of 2 mil, 50.8 um).
    let rate = SpreadRate::from_sq_ft_per_gal(481.0).expect("above zero");
    near(rate.wet_film_um(), 83.0, 2.0);
    // A published worked example: a wet film of 10 mil is 160.417 ft2/gal.
    let rate = SpreadRate::from_sq_ft_per_gal(160.417).expect("above zero");
    near(rate.wet_film_um(), 254.0, 0.001);
}

#[test]
fn seventy_gallons_for_1400_square_feet_at_80_mil() {
    // A published worked example: 1400 ft2 at 80 mil wet, 100 % solids, is 70 gal (rounded).
    let rate = SpreadRate::from_sq_ft_per_gal(1604.1667 / 80.0).expect("above zero");
    let gallons = rate.volume_for(Area::from_sq_ft(1400.0)).gallons();
    near(gallons, 69.83, 0.02);
    assert_eq!(gallons.round(), 70.0);
}
