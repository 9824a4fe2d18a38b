//! Shop air.

use crate::units::{Humidity, Temperature, TemperatureStyle, parse_air};

use super::says;

#[test]
fn shop_air_is_read_and_shown() {
    let air = |c, percent| {
        let humidity = Humidity::from_percent(percent).expect("a humidity");
        Ok((Temperature::from_c(c), humidity))
    };
    let read = |text| parse_air(text, TemperatureStyle::Fahrenheit);
    for text in [
        "68F 45",
        "68 F, 45 %",
        "68 45",
        "68°F 45% RH",
        "68 deg f 45rh",
        "20C 45%",
        "20c 45",
    ] {
        assert_eq!(read(text), air(20.0, 45.0), "{text}");
    }
    assert_eq!(read("-5C 60.5"), air(-5.0, 60.5));
    // A decimal comma, where a letter parts the two.
    for text in ["20,5C 45,5", "20,5 °C, 45,5 %", "20.5 deg C 45,5 rh"] {
        assert_eq!(read(text), air(20.5, 45.5), "{text}");
    }
    assert_eq!(read("68,45"), air(20.0, 45.0), "two numbers");
    assert_eq!(read("68,45%rh"), air(20.0, 45.0), "two numbers");
    assert_eq!(
        parse_air("20 45", TemperatureStyle::Celsius),
        air(20.0, 45.0)
    );
    let temperature = Temperature::from_f(69.0);
    assert_eq!(temperature.show(TemperatureStyle::Fahrenheit), "69 F");
    assert_eq!(temperature.show(TemperatureStyle::Celsius), "20.6 C");
    assert_eq!(
        Humidity::from_tenths(455).map(Humidity::show),
        Some("45.5%".into())
    );
}

#[test]
fn shop_air_is_refused_in_words() {
    let unlikely = |shown: &str| {
        format!(
            "{shown} is outside -20 C to 50 C (-4 F to 122 F), which no shop air is; check whether it is in F or in C."
        )
    };
    let nonsense = |text: &str, part: &str| {
        format!(
            "\"{text}\" does not read as shop air at \"{part}\"; write temperature and humidity like 68F 45 or 20C 45."
        )
    };
    for (text, expected) in [
        (
            " ",
            "No shop air was given; write temperature and humidity like 68F 45.".into(),
        ),
        (
            "68F",
            "\"68F\" has no humidity; write temperature and humidity like 68F 45.".into(),
        ),
        ("warm 45", nonsense("warm 45", "warm 45")),
        ("68F damp", nonsense("68F damp", "damp")),
        ("68F 45 C", nonsense("68F 45 C", "C")),
        ("68C 45", unlikely("68 C (154.4 F)")),
        ("-21 C 45", unlikely("-21 C (-5.8 F)")),
        ("123 45", unlikely("123 F (50.6 C)")),
        (
            "68F 101",
            "A humidity of 101 % cannot be; write a number from 0 to 100.".into(),
        ),
        (
            "68F -1",
            "A humidity of -1 % cannot be; write a number from 0 to 100.".into(),
        ),
    ] {
        says(parse_air(text, TemperatureStyle::Fahrenheit), &expected);
    }
}

#[test]
fn stored_air_cannot_be_impossible() {
    assert!(serde_json::from_str::<Humidity>("1001").is_err());
    assert!(serde_json::from_str::<Humidity>("-1").is_err());
    let cold: Temperature = serde_json::from_str("-300000").expect("a number");
    assert_eq!(cold.milli_c(), -273_150);
    assert_eq!(Temperature::from_c(f64::NEG_INFINITY), cold);
}
