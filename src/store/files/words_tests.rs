//! Quantities come back exactly, and nonsense does not.

use super::*;
use proptest::prelude::*;

#[test]
fn quantities_read_as_the_reference_shows_them() {
    let inches = |whole, num, den| Length::from_inches(whole, num, den).unwrap();
    assert_eq!(
        length(inches(98, 3, 8), LengthStyle::Sixteenths),
        "98 3/8 in"
    );
    assert_eq!(length(inches(0, 3, 64), LengthStyle::Sixteenths), "3/64 in");
    assert_eq!(
        length(inches(98, 3, 8), LengthStyle::Millimetres),
        "2498.725 mm"
    );
    assert_eq!(volume(Volume::from_ul(118_294)), "118.294 mL");
    assert_eq!(span(Span::minutes(90)), "90 min");
    assert_eq!(span(Span::hours(6)), "6 h");
    assert_eq!(span(Span::days(3)), "3 d");
    assert_eq!(minutes("3h20m"), Some(200));
    assert_eq!(minutes("1 d 12 h"), Some(2160));
    for nonsense in [
        "",
        "6",
        "6 x",
        "h",
        "6 h 3",
        "-6 h",
        "99999999999999999999 h",
    ] {
        assert_eq!(minutes(nonsense), None, "{nonsense}");
    }
    assert!(
        read_length("98 3/8").is_err(),
        "a length without a unit is anybody's guess"
    );
    assert!(read_volume("4").is_err());
    assert!(read_temperature("900 F").is_err());
    assert!(read_humidity("101 %").is_err());
}

proptest! {
    #[test]
    fn what_is_written_reads_back_exactly(
        nm in 0..=Length::MAX.nm(), sixty_fourths in 0_i64..=76_800, ul in 0_i64..=i64::MAX,
        mg in 0_i64..=i64::MAX, um2 in 1_i64..=i64::MAX, mins in 0_i64..=5_000_000,
        rate in 1e-3_f64..1e6, milli_c in -60_000_i32..=150_000, tenths in 0_i32..=1000,
    ) {
        for nm in [nm, sixty_fourths * NM_PER_64TH] {
            for style in [LengthStyle::Sixteenths, LengthStyle::Millimetres] {
                let given = Length::from_nm(nm);
                prop_assert_eq!(read_length(&length(given, style)), Ok(given));
            }
        }
        let (v, m, s) = (Volume::from_ul(ul), Mass::from_mg(mg), Span::minutes(mins));
        prop_assert_eq!(read_volume(&volume(v)), Ok(v));
        prop_assert_eq!(read_mass(&mass(m)), Ok(m));
        prop_assert_eq!(read_span(&span(s)), Ok(s));
        let text = area(Area::from_um2(um2));
        prop_assert_eq!(read_area(&text).map(area), Some(text));
        let r = SpreadRate::from_m2_per_l(rate).unwrap();
        prop_assert_eq!(read_spread(&spread(r)), Ok(r));
        let d = Density::from_g_per_ml(rate).unwrap();
        prop_assert_eq!(read_density(&density(d)), Ok(d));
        prop_assert_eq!(read_percent(&percent(rate)), Ok(rate));
        let t = Temperature::from(milli_c);
        prop_assert_eq!(read_temperature(&temperature(t)), Ok(t));
        let h = Humidity::from_tenths(tenths).unwrap();
        prop_assert_eq!(read_humidity(&humidity(h)), Ok(h));
        let f = Length::from_nm(nm % 5_000_000 + 1);
        prop_assert_eq!(read_film(&film(f)), Ok(f));
        let v = Voc::from_g_per_l(f64::from(tenths) * 2.117).unwrap();
        prop_assert_eq!(read_voc(&voc(v)), Ok(v));
    }
}
