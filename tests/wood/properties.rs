//! What must hold for any wood, size and moisture.

use proptest::prelude::*;
use tackfree::shape::Construction;
use tackfree::units::{Humidity, Length, Temperature};
use tackfree::wood::Between;
use tackfree::wood::moisture::{
    Air, CoefficientSet, MoistureContent, SeasonBand, emc, humidity_holding,
};
use tackfree::wood::movement::{
    Axis, Build, Filling, Grain, HoldLine, clearance, mitre_opening, slot, wall_gap,
};
use tackfree::wood::sealing::{Coats, Exposure, Faces, FinishKind, cup_risk, face_seal};
use tackfree::wood::species::{Species, SpeciesTable};

use super::mc;

fn species() -> impl Strategy<Value = Species> {
    let rows: Vec<_> = SpeciesTable::new().rows().cloned().collect();
    prop::sample::select(rows)
}

fn construction() -> impl Strategy<Value = Construction> {
    prop::sample::select(Construction::ALL.to_vec())
}

fn grain() -> impl Strategy<Value = Grain> {
    prop::sample::select(Grain::ALL.to_vec())
}

fn axis() -> impl Strategy<Value = Axis> {
    prop::sample::select(Axis::ALL.to_vec())
}

fn moisture(range: std::ops::RangeInclusive<i32>) -> impl Strategy<Value = MoistureContent> {
    range.prop_map(|thousandths| MoistureContent::from_thousandths(thousandths).unwrap())
}

/// A 16th of an inch to a long top.
fn size() -> impl Strategy<Value = Length> {
    (1..=2400_i64).prop_map(|sixteenths| Length::from_64ths(sixteenths * 4))
}

fn coats() -> impl Strategy<Value = Vec<Coats>> {
    let finish = prop::sample::select(FinishKind::ALL.to_vec());
    let one = (finish, 0..=7_u8).prop_map(|(finish, coats)| Coats::new(finish, coats));
    prop::collection::vec(one, 0..=3)
}

fn ordered<T: Copy + PartialOrd>(range: Between<T>) -> bool {
    range.low() <= range.high()
}

proptest! {
    #[test]
    fn without_a_change_of_moisture_nothing_moves(
        species in species(), construction in construction(), grain in grain(), axis in axis(),
        size in size(), at in moisture(0..=200_000),
    ) {
        let build = Build { species: &species, construction, grain };
        let still = build.change(axis, size, at, at).unwrap();
        prop_assert_eq!(still.change, Between::only(Length::ZERO));
        prop_assert_eq!(still.show(), "does not move");
    }

    #[test]
    fn within_6_to_14_percent_there_and_back_is_the_same_with_the_other_sign(
        species in species(), construction in construction(), grain in grain(),
        size in size(), one in moisture(6_000..=14_000), other in moisture(6_000..=14_000),
    ) {
        prop_assume!(species.coefficients.is_some());
        let build = Build { species: &species, construction, grain };
        let there = build.change(Axis::Width, size, one, other).unwrap().change;
        let back = build.change(Axis::Width, size, other, one).unwrap().change;
        prop_assert_eq!(back, there.map(|change| -change));
    }

    #[test]
    fn by_shrinkage_there_and_back_comes_to_the_same_size(
        species in species(), size in size(),
        one in moisture(0..=40_000), other in moisture(0..=40_000),
    ) {
        let mut species = species;
        if species.shrinkage.is_some() {
            species.coefficients = None;
        } else {
            prop_assume!(one.percent() < 6.0 || other.percent() > 14.0);
        }
        for grain in [Grain::Flat, Grain::Quarter] {
            let build = Build { species: &species, construction: Construction::SolidSlab, grain };
            let there = build.change(Axis::Width, size, one, other).unwrap().change.low();
            let back = build.change(Axis::Width, size + there, other, one).unwrap().change.low();
            prop_assert!((there + back).nm().abs() <= 2, "{there:?} {back:?}");
        }
    }

    #[test]
    fn ranges_are_ordered_have_one_sign_and_hold_both_ways_of_the_wood(
        species in species(), construction in construction(), axis in axis(),
        size in size(), from in moisture(0..=40_000), to in moisture(0..=40_000),
    ) {
        let of = |grain| {
            Build { species: &species, construction, grain }
                .change(axis, size, from, to)
                .unwrap()
                .change
        };
        let unknown = of(Grain::Unknown);
        prop_assert!(ordered(unknown));
        for grain in Grain::ALL {
            let change = of(grain);
            prop_assert!(ordered(change));
            prop_assert!(unknown.contains(change.low()) && unknown.contains(change.high()));
            if to >= from {
                prop_assert!(change.low() >= Length::ZERO);
            } else {
                prop_assert!(change.high() <= Length::ZERO);
            }
        }
    }

    #[test]
    fn above_fibre_saturation_nothing_moves(
        species in species(), construction in construction(), grain in grain(), axis in axis(),
        size in size(), from in moisture(30_000..=200_000), to in moisture(30_000..=200_000),
    ) {
        let build = Build { species: &species, construction, grain };
        let change = build.change(axis, size, from, to).unwrap().change;
        prop_assert_eq!(change, Between::only(Length::ZERO));
    }

    #[test]
    fn more_moisture_is_more_movement_by_one_formula(
        species in species(), size in size(),
        points in prop::array::uniform3(6_000..=14_000_i32),
    ) {
        prop_assume!(species.coefficients.is_some());
        let mut points = points;
        points.sort_unstable();
        let [from, less, more] =
            points.map(|p| MoistureContent::from_thousandths(p).unwrap());
        let build =
            Build { species: &species, construction: Construction::FaceGrain, grain: Grain::Mixed };
        let to = |end| build.change(Axis::Width, size, from, end).unwrap().change;
        prop_assert!(to(less).high() <= to(more).high());
        prop_assert!(to(less).low() <= to(more).low());
    }

    #[test]
    fn damper_air_makes_wetter_wood(
        milli in -20_000..=132_000_i32, one in 0..=1000_i32, other in 0..=1000_i32,
    ) {
        let temperature = Temperature::from(milli);
        let air = |tenths| Air::new(temperature, Humidity::from_tenths(tenths).unwrap());
        let (low, high) = (one.min(other), one.max(other));
        prop_assert!(emc(air(low)).unwrap().content <= emc(air(high)).unwrap().content);
        if low < high {
            for set in [CoefficientSet::Celsius, CoefficientSet::Fahrenheit] {
                prop_assert!(set.percent(air(low)) < set.percent(air(high)));
            }
        }
        prop_assert!((0.0..=31.0).contains(&CoefficientSet::Celsius.percent(air(high))));
    }

    #[test]
    fn the_humidity_that_holds_wood_is_found_again(
        milli in -1_000..=50_000_i32, tenths in 10..=1000_i32,
    ) {
        let temperature = Temperature::from(milli);
        let humidity = Humidity::from_tenths(tenths).unwrap();
        let held = emc(Air::new(temperature, humidity)).unwrap().content;
        prop_assert_eq!(humidity_holding(held, temperature), Ok(humidity));
    }

    #[test]
    fn what_is_left_open_is_enough_and_no_more_than_a_32nd_too_much(
        species in species(), grain in grain(), size in size(), screw in 1..=64_i64,
        today in moisture(4_000..=20_000), dry in moisture(3_000..=16_000),
        wet in moisture(3_000..=16_000),
    ) {
        let build = Build { species: &species, construction: Construction::FaceGrain, grain };
        let year = build.year(Axis::Width, size, today, &SeasonBand::given(dry, wet)).unwrap();
        let step = Length::from_64ths(2);
        let screw = Length::from_64ths(screw);
        prop_assert!(year.outward() >= Length::ZERO && year.inward() >= Length::ZERO);
        prop_assert!(ordered(year.swing()));
        let whole = wall_gap(&year, HoldLine::OppositeEdge);
        prop_assert!(whole.leave >= year.outward() && whole.leave < year.outward() + step);
        let half = wall_gap(&year, HoldLine::Middle);
        prop_assert!(half.leave <= whole.leave && half.leave * 2 >= year.outward());
        let slot = slot(&year, screw).unwrap();
        prop_assert!(slot.length >= year.travel() + screw);
        prop_assert!(slot.length < year.travel() + screw + step * 2);
        prop_assert!(slot.round_hole >= slot.length);
        let mitre = mitre_opening(&year);
        prop_assert!(mitre.outer_when_damp >= year.outward());
        prop_assert!(mitre.inner_when_dry >= year.inward());
        prop_assert!(clearance(&year, Filling::DropIn).leave >= Length::from_mm(3));
    }

    #[test]
    fn a_face_keeps_out_between_nothing_and_everything(coats in coats()) {
        let face = face_seal(&coats);
        for exposure in Exposure::ALL {
            let percent = face.after(exposure);
            prop_assert!(ordered(percent) && percent.low() >= 0.0 && percent.high() <= 100.0);
        }
        prop_assert!(!face.words().is_empty());
    }

    #[test]
    fn the_cup_does_not_care_which_face_is_up(
        species in species(), grain in grain(), top in coats(), underside in coats(),
        from in moisture(4_000..=20_000), to in moisture(4_000..=20_000),
    ) {
        let build = Build { species: &species, construction: Construction::FaceGrain, grain };
        let (width, thickness) = (Length::from_mm(600), Length::from_mm(38));
        let risk = |a: &[Coats], b: &[Coats]| {
            cup_risk(&build, width, thickness, Faces::new(a, b), from, to).unwrap()
        };
        let (one, other) = (risk(&top, &underside), risk(&underside, &top));
        prop_assert_eq!(one.cup, other.cup);
        prop_assert!(ordered(one.cup) && one.cup.low() >= Length::ZERO);
        prop_assert!(risk(&top, &top).is_none());
        prop_assert!(one.line().ends_with('.'));
    }

    #[test]
    fn moisture_contents_read_back_as_shown_and_travel_as_numbers(tenths in 0..=2000_i32) {
        let content = MoistureContent::from_thousandths(tenths * 100).unwrap();
        prop_assert_eq!(MoistureContent::parse(&content.show()), Ok(content));
        let json = serde_json::to_string(&content).unwrap();
        prop_assert_eq!(serde_json::from_str::<MoistureContent>(&json).unwrap(), content);
    }

    #[test]
    fn a_range_written_the_wrong_way_round_is_put_in_order(one: i32, other: i32) {
        let json = format!(r#"{{"low":{one},"high":{other}}}"#);
        let range: Between<i32> = serde_json::from_str(&json).unwrap();
        prop_assert_eq!(range, Between::new(one, other));
        prop_assert!(ordered(range) && range.contains(one) && range.contains(other));
    }

    #[test]
    fn any_text_is_found_or_refused_in_one_sentence(text in ".{0,30}") {
        let table = SpeciesTable::new();
        match table.find(&text) {
            Ok(row) => prop_assert!(!row.name.is_empty()),
            Err(error) => prop_assert!(error.to_string().ends_with('.')),
        }
        if let Err(error) = MoistureContent::parse(&text) {
            prop_assert!(error.to_string().ends_with('.'));
        }
    }
}

#[test]
fn the_driest_and_wettest_are_kept_apart_by_a_region_and_by_hand() {
    let band = SeasonBand::given(mc(10.0), mc(6.0));
    assert_eq!((band.driest(), band.wettest()), (mc(6.0), mc(10.0)));
    let json = serde_json::to_string(&band).unwrap();
    assert_eq!(serde_json::from_str::<SeasonBand>(&json).unwrap(), band);
}
