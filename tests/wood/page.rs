//! What the client is told.

use tackfree::units::{Temperature, TemperatureStyle};
use tackfree::wood::Standing;
use tackfree::wood::client_page::{ClientPageInput, Topic, client_page};
use tackfree::wood::moisture::{Region, SeasonBand, SiteNote};
use tackfree::wood::movement::{Grain, HoldLine, Situation};
use tackfree::wood::sealing::{Coats, Faces, FinishKind, cup_risk};

use super::{air_f, flat, inches, mc, wood};

#[test]
fn the_page_says_what_the_top_does_and_why_the_gap_is_there() {
    let maple = wood("Maple, sugar");
    let build = flat(&maple, Grain::Flat);
    let band = SeasonBand::from_air(air_f(70.0, 30.0), air_f(75.0, 55.0)).unwrap();
    let varnish = |coats| [Coats::new(FinishKind::UrethaneVarnish, coats)];
    let faces = Faces::new(&varnish(3), &varnish(2));
    let cup = cup_risk(
        &build,
        inches(25.5),
        inches(1.5),
        faces,
        mc(7.0),
        band.wettest(),
    )
    .unwrap();
    let mut input = ClientPageInput {
        piece: "island top",
        build,
        length: inches(96.0),
        width: inches(25.5),
        legs: &[],
        today: mc(7.0),
        band,
        notes: &[SiteNote::RadiantFloor],
        situations: &[Situation::BackToWall, Situation::DropInSink],
        held: HoldLine::OppositeEdge,
        cup: Some(cup),
        room: Temperature::from_f(70.0),
        style: TemperatureStyle::Fahrenheit,
    };
    let page = client_page(&input).unwrap();
    let of = |topic| -> Vec<_> {
        let about = page.sentences.iter().filter(|s| s.topic == topic);
        about.map(|s| s.text.as_str()).collect()
    };
    let topics: Vec<_> = page.sentences.iter().map(|s| s.topic).collect();
    assert!(topics.is_sorted());
    for topic in [
        Topic::Why,
        Topic::Year,
        Topic::Gap,
        Topic::Hold,
        Topic::Sealing,
        Topic::Air,
    ] {
        assert!(!of(topic).is_empty(), "{topic:?}");
    }
    assert!(of(Topic::Gap)[0].contains("would push against the wall"));
    assert_eq!(of(Topic::Hold).len(), 2);
    assert!(of(Topic::Hold)[1].starts_with("At the drop-in sink, held: "));
    assert!(of(Topic::Year)[2].contains("shrinks less than 1/32\" (0.1 mm)"));
    assert!(of(Topic::Sealing)[1].contains("cup"));
    // Table 4-2: 70 F and 35 % hold wood at 6.9 %.
    assert!(
        of(Topic::Air)[0].contains("about 35 % humidity"),
        "{:?}",
        of(Topic::Air)
    );
    let basis = of(Topic::Basis).join(" ");
    for words in ["eq. 4-5", "eq. 13-2", "Floor heat"] {
        assert!(basis.contains(words), "{basis}");
    }
    assert_eq!(page.standing, Standing::SecondHand);

    // From a region's range, which is from memory, the page is so too.
    input.band = SeasonBand::from_region(Region::Most);
    input.held = HoldLine::ThisEdge;
    let page = client_page(&input).unwrap();
    assert_eq!(page.standing, Standing::Memory);
    assert!(
        page.sentences
            .iter()
            .any(|s| s.text.contains("needs no gap"))
    );
}
