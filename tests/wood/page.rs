//! What the client is told.

use tackfree::shape::Construction;
use tackfree::units::{Length, Temperature, TemperatureStyle};
use tackfree::wood::Standing;
use tackfree::wood::client_page::{ClientPageInput, Sealed, Topic, client_page};
use tackfree::wood::moisture::{Region, SeasonBand, SiteNote};
use tackfree::wood::movement::{Axis, Gap, Grain, HoldLine, Situation, Surroundings, wall_gap};
use tackfree::wood::sealing::{Coats, Faces, FinishKind, cup_risk};
use tackfree::wood::species::Species;

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
        gap_ends: Gap {
            leave: Length::ZERO,
            opens_to: inches(1.0 / 32.0),
        },
        legs: &[],
        surroundings: Surroundings::Walls { ends: false },
        sealed: Sealed {
            done: true,
            hidden: &[],
        },
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
    assert!(of(Topic::Hold)[1].starts_with("The sink is held by its clips"));
    assert!(of(Topic::Year)[2].contains("shrinks less than 1/32\" (0.1 mm)"));
    assert!(of(Topic::Sealing)[1].contains("cup"));
    // Table 4-2: 70 F and 35 % hold wood at 6.9 %.
    assert!(
        of(Topic::Air)[0].contains("about 35 % humidity"),
        "{:?}",
        of(Topic::Air)
    );
    let basis = of(Topic::Basis).join(" ");
    for words in ["eq. 4-5", "eq. 13-2", "Heat in the floor"] {
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

/// 25 1/2 in of flatsawn sugar maple at 7 %, a year from 6 to 10 %: 0.270 in to grow, 0.090 in to
/// shrink (25.5 x 0.00353 a point, Wood Handbook Table 13-5).
fn plain(species: &Species) -> ClientPageInput<'_> {
    ClientPageInput {
        piece: "counter",
        build: flat(species, Grain::Flat),
        length: inches(96.0),
        width: inches(25.5),
        gap_ends: Gap {
            leave: inches(1.0 / 32.0),
            opens_to: inches(2.0 / 32.0),
        },
        legs: &[],
        surroundings: Surroundings::Walls { ends: false },
        sealed: Sealed {
            done: true,
            hidden: &[],
        },
        today: mc(7.0),
        band: SeasonBand::given(mc(6.0), mc(10.0)),
        notes: &[],
        situations: &[],
        held: HoldLine::OppositeEdge,
        cup: None,
        room: Temperature::from_f(70.0),
        style: TemperatureStyle::Fahrenheit,
    }
}

fn told(input: &ClientPageInput<'_>, topic: Topic) -> String {
    let page = client_page(input).unwrap();
    let about = page.sentences.iter().filter(|s| s.topic == topic);
    about.map(|s| s.text.as_str()).collect::<Vec<_>>().join(" ")
}

#[test]
fn it_is_called_sealed_only_when_it_is() {
    let maple = wood("Maple, sugar");
    let mut input = plain(&maple);
    assert!(told(&input, Topic::Sealing).starts_with("It is sealed on every side, the ends"));
    input.sealed.done = false;
    let coming = told(&input, Topic::Sealing);
    assert!(
        coming.starts_with("Before it is set it will be sealed"),
        "{coming}"
    );
    assert!(!coming.contains("It is sealed"), "{coming}");
    let hidden = ["underside".to_owned()];
    input.sealed.hidden = &hidden;
    let coming = told(&input, Topic::Sealing);
    assert!(
        coming.contains("Left out as not exposed: underside."),
        "{coming}"
    );
    input.sealed.done = true;
    let told = told(&input, Topic::Sealing);
    assert!(!told.contains("every side, the ends"), "{told}");
    assert!(
        told.contains("Left out as not exposed: underside."),
        "{told}"
    );
}

#[test]
fn a_top_that_stands_free_is_told_of_no_wall() {
    let maple = wood("Maple, sugar");
    let mut input = plain(&maple);
    input.surroundings = Surroundings::Free;
    input.held = HoldLine::Middle;
    // Half of 0.270 in on each side, up to 5/32.
    let gap = told(&input, Topic::Gap);
    assert!(
        gap.contains("stands free") && gap.contains("at least 5/32\""),
        "{gap}"
    );
    assert!(!gap.contains("wall"), "{gap}");
}

#[test]
fn held_at_the_back_the_front_and_the_ends_still_have_their_figures() {
    let maple = wood("Maple, sugar");
    let mut input = plain(&maple);
    input.held = HoldLine::ThisEdge;
    input.surroundings = Surroundings::Walls { ends: true };
    input.situations = &[Situation::BetweenWalls];
    let gap = told(&input, Topic::Gap);
    for words in [
        "Its back edge is held and does not move, so it needs no gap.",
        // 0.270 in up to 9/32, 0.090 in up to 3/32.
        "Its front edge moves out by up to 9/32\" (7.1 mm) in the damp season and in by up to 3/32\"",
        "Where each end meets a wall, the gap is there for the damp season: without at least 1/32\"",
    ] {
        assert!(gap.contains(words), "{words}\n{gap}");
    }
    let hold = told(&input, Topic::Hold);
    assert!(
        hold.contains("held at its back edge") && hold.contains("both ends share"),
        "{hold}"
    );
}

#[test]
fn blocks_on_end_move_in_their_length_and_the_page_says_so() {
    let maple = wood("Maple, sugar");
    let mut input = plain(&maple);
    input.build.construction = Construction::EndGrain;
    input.surroundings = Surroundings::Walls { ends: true };
    // 96 in x 0.00353 x 3 points, half of it at each end, 0.508 in, up to 17/32.
    let year = input
        .build
        .year(Axis::Length, input.length, mc(7.0), &input.band)
        .unwrap();
    input.gap_ends = wall_gap(&year, HoldLine::Middle);
    assert_eq!(input.gap_ends.leave, inches(17.0 / 32.0));
    let why = told(&input, Topic::Why);
    assert!(
        why.contains("both its width and its length lie across the grain"),
        "{why}"
    );
    let gap = told(&input, Topic::Gap);
    assert!(gap.contains("without at least 17/32\""), "{gap}");
    let advice = Situation::BetweenWalls.advice().line();
    assert!(!advice.contains("full gap of its width"), "{advice}");
}

#[test]
fn the_page_speaks_to_the_client_not_to_the_shop() {
    let maple = wood("Maple, sugar");
    let mut input = plain(&maple);
    input.notes = &SiteNote::ALL;
    input.situations = &Situation::ALL;
    for region in Region::ALL {
        input.band = SeasonBand::from_region(region);
        let page = client_page(&input).unwrap();
        for sentence in &page.sentences {
            for words in [
                "type its",
                "meter the top",
                "log the",
                "your own figures",
                "held: ",
                "this edge",
            ] {
                assert!(!sentence.text.contains(words), "{words}: {}", sentence.text);
            }
        }
    }
    input.band = SeasonBand::given(mc(6.0), mc(10.0));
    assert!(told(&input, Topic::Basis).contains("figures of the shop's own"));
}
