//! The drawings: signs to scale, the sheet, the full-size template and its sheets, all escaped.

use proptest::prelude::*;
use roxmltree::Document;
use tackfree::shape::drawing::{
    Anchor, Extra, Ink, Label, Page, Picture, Plot, Signs, TemplateOf, View, escape, full_size,
    print_page, sheet, tiles,
};
use tackfree::shape::layout::{RuleBook, Seen, Standing, findings};
use tackfree::shape::{
    Construction, Corner, Corners, Cup, EdgeProfile, Ell, LiveEdges, LiveSlab, Opening,
    OpeningKind, OpeningName, Outline, Place, Purpose, Quad, Shape, Station,
};
use tackfree::units::{Length, LengthStyle};

fn mm(mm: i64) -> Length {
    Length::from_mm(mm)
}

/// 1500 x 635 with a sink cutout 750 x 400, radius 20, and a faucet hole of 35 behind it.
fn counter() -> Shape {
    let openings = vec![
        Opening {
            no: 1,
            place: Place {
                x: mm(700),
                y: mm(290),
            },
            what: OpeningKind::Cutout {
                width: mm(750),
                depth: mm(400),
                corner_radius: mm(20),
            },
            purpose: Purpose::Plain,
            profile: EdgeProfile::Square,
        },
        Opening {
            no: 1,
            place: Place {
                x: mm(700),
                y: mm(560),
            },
            what: OpeningKind::Hole { diameter: mm(35) },
            purpose: Purpose::Plain,
            profile: EdgeProfile::Square,
        },
    ];
    let outline = Outline::Rectangle {
        length: mm(1500),
        width: mm(635),
    };
    Shape::new(outline, mm(38), EdgeProfile::Square, openings, None).expect("a shape")
}

fn picture(shape: &Shape) -> Picture {
    let (standing, rules) = (Standing::default(), RuleBook::default());
    let wood = Construction::EdgeGrain;
    let found = findings(
        shape,
        wood,
        &standing,
        &rules,
        mm(12),
        LengthStyle::Sixteenths,
        &[],
    );
    Picture::new(shape, wood, &standing, &found, LengthStyle::Millimetres)
}

#[test]
fn the_plot_is_to_scale_and_names_what_is_there() {
    for signs in [Signs::Braille, Signs::Half, Signs::Ascii] {
        let plot = Plot::new(&picture(&counter()), View::default(), 78, 18, signs);
        let lines = plot.lines().join("\n");
        for word in [
            "cutout 1",
            "hole 1",
            "grain",
            "1500 mm",
            "635 mm",
            "front edge",
            "left end",
        ] {
            assert!(lines.contains(word), "{word} is missing from\n{lines}");
        }
        // Columns between the first and the last place with the outline: the piece's length.
        let inked = |col: usize| (0..18).any(|row| plot.row(row)[col].ink == Some(Ink::Outline));
        let columns: Vec<usize> = (0..78).filter(|col| inked(*col)).collect();
        let seen = (columns[columns.len() - 1] - columns[0]) as f64 * plot.mm_per_col();
        assert!((seen - 1500.0).abs() <= 2.0 * plot.mm_per_col(), "{seen}");
    }
}

#[test]
fn plain_signs_are_plain() {
    let plot = Plot::new(&picture(&counter()), View::default(), 78, 18, Signs::Ascii);
    assert!(plot.lines().join("\n").is_ascii());
}

#[test]
fn zooming_and_moving_stay_on_the_piece() {
    let mut view = View::default();
    for _ in 0..50 {
        view = view.zoomed(true).moved(0.9, -0.9);
    }
    assert!(view.zoom <= 60.0 && view.mid == (1.0, 0.0));
    for _ in 0..50 {
        view = view.zoomed(false);
    }
    assert_eq!(view, View::default());
}

/// The numbers in the full-size file are the piece's own millimetres, and the file says so: its
/// width in mm and its view box are the same figure.
#[test]
fn full_size_is_one_to_one() {
    let extra = Extra {
        guide_offset: Some(mm(3)),
        from_below: false,
    };
    let shape = counter();
    let svg = full_size(&shape, TemplateOf::Piece, extra, "3A").expect("a template");
    let doc = Document::parse(&svg).expect("sound XML");
    let root = doc.root_element();
    assert_eq!(root.attribute("width"), Some("1530mm"));
    assert_eq!(root.attribute("viewBox"), Some("0 0 1530 665"));
    let by_id = |id: &str| {
        doc.descendants()
            .find(|node| node.attribute("id") == Some(id))
            .expect("it is drawn")
            .attribute("d")
            .expect("a path")
            .to_owned()
    };
    assert_eq!(by_id("outline"), "M15 650L1515 650L1515 15L15 15Z");
    // 700 - 375 + 15 to 700 + 375 + 15; 635 - 290 - 200 + 15 to 635 - 290 + 200 + 15.
    assert_eq!(
        by_id("cutout-1"),
        "M360 160L1070 160A20 20 0 0 1 1090 180L1090 540A20 20 0 0 1 1070 560L360 560A20 20 0 0 1 \
         340 540L340 180A20 20 0 0 1 360 160Z"
    );
    assert!(by_id("cutout-1-template").starts_with("M360 157L1070 157A23 23 "));
    let circle = doc
        .descendants()
        .find(|node| node.attribute("id") == Some("hole-1"))
        .expect("the hole");
    assert_eq!(
        (
            circle.attribute("cx"),
            circle.attribute("cy"),
            circle.attribute("r")
        ),
        (Some("715"), Some("90"), Some("17.5"))
    );
    let below = Extra {
        from_below: true,
        ..Extra::default()
    };
    let svg = full_size(&shape, TemplateOf::Piece, below, "3A").expect("a template");
    // 1500 - 700 + 15.
    assert!(svg.contains("id=\"hole-1\" cx=\"815\" cy=\"90\""));
}

/// Sheets: paper size as stated, crosses of neighbours at the same place of the drawing, the
/// ruler 100 units long, every part of the outline on some sheet.
#[test]
fn sheets_lie_together_by_their_crosses() {
    let shape = counter();
    for (page, wide, tall) in [(Page::A4, 210.0, 297.0), (Page::Letter, 215.9, 279.4)] {
        let all = tiles(&shape, TemplateOf::Piece, Extra::default(), page, "3A").expect("sheets");
        let columns = all.iter().map(|tile| tile.column).max().expect("one");
        let rows = all.iter().map(|tile| tile.row).max().expect("one");
        assert_eq!(all.len(), columns * rows);
        let mut crosses = Vec::new();
        for tile in &all {
            let Some(svg) = &tile.svg else { continue };
            let doc = Document::parse(svg).expect("sound XML");
            let root = doc.root_element();
            assert_eq!(root.attribute("width"), Some(format!("{wide}mm").as_str()));
            assert_eq!(root.attribute("height"), Some(format!("{tall}mm").as_str()));
            assert_eq!(
                root.attribute("viewBox"),
                Some(format!("0 0 {wide} {tall}").as_str())
            );
            let ruler = doc
                .descendants()
                .find(|node| node.attribute("id") == Some("ruler-100-mm"))
                .and_then(|node| node.attribute("d"))
                .expect("a ruler");
            assert!(ruler.ends_with("h100"), "{ruler}");
            let shift = doc
                .descendants()
                .find_map(|node| node.attribute("transform")?.strip_prefix("translate("))
                .expect("the drawing, moved");
            let (x, y) = shift.trim_end_matches(')').split_once(' ').expect("two");
            let (x, y): (f64, f64) = (x.parse().expect("x"), y.parse().expect("y"));
            let here: Vec<(f64, f64)> = doc
                .descendants()
                .filter(|node| node.tag_name().name() == "circle" && node.attribute("id").is_none())
                .map(|node| {
                    let figure = |name| {
                        node.attribute(name)
                            .and_then(|text| text.parse::<f64>().ok())
                            .expect("mm")
                    };
                    (figure("cx") - x, figure("cy") - y)
                })
                .collect();
            assert_eq!(here.len(), 4);
            crosses.push(((tile.row, tile.column), here));
        }
        for ((row, column), here) in &crosses {
            let right = crosses.iter().find(|(at, _)| *at == (*row, *column + 1));
            if let Some((_, there)) = right {
                let shared = here
                    .iter()
                    .filter(|a| there.iter().any(|b| (a.0 - b.0).hypot(a.1 - b.1) < 1e-6))
                    .count();
                assert_eq!(shared, 2, "row {row}, column {column}");
            }
        }
        let printed = print_page(&all, page, "3A <b>");
        assert!(printed.contains("3A &lt;b&gt;") && !printed.contains("<b>"));
        assert_eq!(
            printed.matches("<svg ").count(),
            all.iter().filter(|tile| tile.svg.is_some()).count()
        );
    }
}

/// A 750 x 400 sink alone: 787 x 437 with its marks and guide line, on A4 sheets of 190 x 265 that
/// share 10: 5 across, 2 down. A sheet with no line on it is left out.
#[test]
fn one_opening_takes_only_its_own_sheets() {
    let of = TemplateOf::Opening(OpeningName::Cutout(1));
    let extra = Extra {
        guide_offset: Some(Length::from_nm(3_500_000)),
        from_below: false,
    };
    let all = tiles(&counter(), of, extra, Page::A4, "3A sink").expect("sheets");
    assert_eq!(all.len(), 10);
    let none = TemplateOf::Opening(OpeningName::Cutout(2));
    assert!(tiles(&counter(), none, extra, Page::A4, "3A").is_none());
}

/// The template for an outside cut lies inside the part by the offset: a rectangle loses it on every
/// side, a circle on its radius, and an L keeps it off its inside corner, rounded there.
#[test]
fn the_outline_has_its_template_line() {
    let points = |outline: Outline, offset: i64| -> Vec<(f64, f64)> {
        let shape = Shape::new(outline, mm(38), EdgeProfile::Square, Vec::new(), None);
        let extra = Extra {
            guide_offset: Some(mm(offset)),
            from_below: false,
        };
        let shape = shape.expect("a shape");
        let svg = full_size(&shape, TemplateOf::Piece, extra, "3A").expect("a template");
        let doc = Document::parse(&svg).expect("sound XML");
        let line = doc
            .descendants()
            .find(|node| node.attribute("id") == Some("outline-template"))
            .expect("the template's line");
        let d = line.attribute("d").expect("a path");
        d.trim_end_matches('Z')
            .split(['M', 'L'])
            .filter(|pair| !pair.is_empty())
            .map(|pair| {
                let (x, y) = pair.split_once(' ').expect("two numbers");
                (x.parse().expect("x"), y.parse().expect("y"))
            })
            .collect()
    };
    let within = |points: &[(f64, f64)]| {
        let least = |of: fn(&(f64, f64)) -> f64| points.iter().map(of).fold(f64::MAX, f64::min);
        let most = |of: fn(&(f64, f64)) -> f64| points.iter().map(of).fold(f64::MIN, f64::max);
        [least(|p| p.0), most(|p| p.0), least(|p| p.1), most(|p| p.1)]
    };
    let (length, width) = (mm(600), mm(400));
    let rectangle = points(Outline::Rectangle { length, width }, 3);
    assert_eq!(rectangle.len(), 4);
    // 15 mm are kept round the drawing.
    for (has, wanted) in within(&rectangle).iter().zip([18.0, 612.0, 18.0, 412.0]) {
        assert!((has - wanted).abs() < 1e-6, "{rectangle:?}");
    }

    let circle = points(Outline::Circle { diameter: mm(900) }, 3);
    for (x, y) in &circle {
        let radius = (x - 465.0).hypot(y - 465.0);
        assert!((radius - 447.0).abs() < 0.01, "{radius}");
    }

    // A run 300 deep over 1200, a leg 250 wide to 900: its inside corner is at 250 or 950, 300.
    let ell = Ell {
        length: mm(1200),
        width: mm(900),
        run: mm(300),
        leg: mm(250),
        open: Corner::FrontRight,
        corners: Corners::SHARP,
    };
    let line = points(Outline::L(ell.clone()), 4);
    let sides = within(&line);
    for (has, wanted) in sides.iter().zip([19.0, 1211.0, 19.0, 911.0]) {
        assert!((has - wanted).abs() < 1e-3, "{sides:?}");
    }
    let shape = Shape::new(
        Outline::L(ell),
        mm(38),
        EdgeProfile::Square,
        Vec::new(),
        None,
    );
    let seen = Seen::of(&shape.expect("an L"));
    let off = |run: &tackfree::shape::layout::Run, (x, y): (f64, f64)| {
        let (x, y) = (x - 15.0, 915.0 - y);
        let (dx, dy) = (run.to.x - run.from.x, run.to.y - run.from.y);
        let part = ((x - run.from.x) * dx + (y - run.from.y) * dy) / (dx * dx + dy * dy);
        let part = part.clamp(0.0, 1.0);
        (x - run.from.x - part * dx).hypot(y - run.from.y - part * dy)
    };
    for point in line {
        let near = seen
            .runs
            .iter()
            .map(|run| off(run, point))
            .fold(f64::MAX, f64::min);
        assert!((near - 4.0).abs() < 0.01, "{point:?} is {near} off");
    }
}

/// Outlines that their box does not tell are drawn with the measures they were made from, on the
/// screen and on the sheet: a run and its legs, four sides and the diagonals, widths at stations.
#[test]
fn every_outline_is_dimensioned() {
    let corners = Corners::SHARP;
    let (run, length, width) = (mm(640), mm(2400), mm(1800));
    let ell = Outline::L(Ell {
        length,
        width,
        run,
        leg: mm(610),
        open: Corner::FrontRight,
        corners: corners.clone(),
    });
    let cup = Outline::U(Cup {
        length,
        width,
        run,
        left: mm(610),
        right: mm(590),
        corners: corners.clone(),
    });
    // 3, 4, 5 and 1199 for the other diagonal: a trapezium a little out of square.
    let quad = Outline::Quad(Quad {
        front: mm(1600),
        right: mm(1200),
        back: mm(1601),
        left: mm(1199),
        rising: Some(mm(2000)),
        falling: Some(mm(1998)),
        corners,
    });
    let station = |at: i64, width: i64| Station {
        at: mm(at),
        width: mm(width),
        front: None,
    };
    let live = Outline::Live(LiveSlab {
        edges: LiveEdges::Both,
        stations: vec![station(0, 540), station(800, 610), station(2000, 575)],
    });
    let box_is = ["2400 mm", "1800 mm"];
    for (outline, texts, box_texts) in [
        (ell, &["run 640 mm", "leg 610 mm"][..], &box_is[..]),
        (
            cup,
            &["run 640 mm", "left leg 610 mm", "right leg 590 mm"],
            &box_is,
        ),
        (
            quad,
            &[
                "front 1600 mm",
                "right 1200 mm",
                "back 1601 mm",
                "left 1199 mm",
                "diagonal 2000 mm",
                "diagonal 1998 mm",
            ],
            &["over all"],
        ),
        (
            live,
            &["540 mm", "610 mm", "at 800 mm", "575 mm", "at 2000 mm"],
            &["2000 mm over all", "610 mm over all"],
        ),
    ] {
        let shape = Shape::new(outline, mm(38), EdgeProfile::Square, Vec::new(), None);
        let shape = shape.expect("a shape");
        let drawn = picture(&shape);
        let screen = Plot::new(&drawn, View::default(), 100, 40, Signs::Ascii);
        let screen = screen.lines().join("\n");
        let seen = Seen::of(&shape);
        let style = LengthStyle::Millimetres;
        let svg = sheet(&drawn, &seen, style, Page::A4, &[], &[]);
        let doc = Document::parse(&svg).expect("sound XML");
        let on_sheet: Vec<&str> = doc.descendants().filter_map(|node| node.text()).collect();
        for text in texts {
            assert!(on_sheet.contains(text), "{text}: {on_sheet:?}");
            assert!(screen.contains(text), "{text}:\n{screen}");
        }
        for text in box_texts {
            let found = on_sheet.iter().any(|has| has.contains(text));
            assert!(found, "{text}: {on_sheet:?}");
        }
    }
}

/// What is run along an opening's edge stands beside it.
#[test]
fn the_edge_of_an_opening_is_told_on_the_drawing() {
    let mut openings = counter().openings().to_vec();
    openings[0].profile = EdgeProfile::RoundOver(mm(6));
    let outline = counter().outline().clone();
    let shape = Shape::new(outline, mm(38), EdgeProfile::Square, openings, None);
    let drawn = picture(&shape.expect("a shape"));
    let told = |text: &str| drawn.labels.iter().any(|label| label.text == text);
    assert!(told("edge round-over 6 mm"), "{:?}", drawn.labels);
}

#[test]
fn the_sheet_has_sizes_faces_and_heading() {
    let shape = counter();
    let heading = [
        "3A <counter> & \"more\"".to_owned(),
        "for 'them'".to_owned(),
    ];
    let words: Vec<String> = (0..28).map(|no| format!("line {no}")).collect();
    let seen = Seen::of(&shape);
    let svg = sheet(
        &picture(&shape),
        &seen,
        LengthStyle::Millimetres,
        Page::A4,
        &heading,
        &words,
    );
    let doc = Document::parse(&svg).expect("sound XML");
    let texts: Vec<&str> = doc
        .descendants()
        .filter(|node| node.tag_name().name() == "text")
        .filter_map(|node| node.text())
        .collect();
    for wanted in [
        "3A <counter> & \"more\"",
        "1500 mm",
        "700 mm",
        "290 mm",
        "560 mm",
        "750 mm x 400 mm",
        "grain",
        "and 8 lines more on the ticket",
    ] {
        assert!(
            texts.contains(&wanted),
            "{wanted} is missing from {texts:?}"
        );
    }
    assert!(texts.iter().any(|text| text.starts_with("front edge")));
    assert!(texts.iter().any(|text| text.starts_with("scale 1 : ")));
}

/// Marks of findings at one spot stand apart on the sheet, each to be read.
#[test]
fn marks_of_findings_do_not_cover_each_other() {
    let mut drawn = picture(&counter());
    let spot = tackfree::shape::layout::Point { x: 700.0, y: 300.0 };
    for no in 1..=9 {
        drawn.labels.push(Label {
            ink: Ink::Finding,
            at: spot,
            anchor: Anchor::On,
            text: format!("!{no}0"),
        });
    }
    let seen = Seen::of(&counter());
    let svg = sheet(&drawn, &seen, LengthStyle::Millimetres, Page::A4, &[], &[]);
    let doc = Document::parse(&svg).expect("sound XML");
    let number = |node: &roxmltree::Node<'_, '_>, name: &str| -> f64 {
        let value = node.attribute(name).expect("a place");
        value.parse().expect("a number")
    };
    let marks: Vec<(f64, f64)> = doc
        .descendants()
        .filter(|node| node.is_element() && node.text().is_some_and(|text| text.starts_with('!')))
        .map(|node| (number(&node, "x"), number(&node, "y")))
        .collect();
    assert!(marks.len() >= 9, "{marks:?}");
    for (no, one) in marks.iter().enumerate() {
        for other in &marks[no + 1..] {
            let apart = (one.0 - other.0).abs() >= 6.0 || (one.1 - other.1).abs() >= 3.0;
            assert!(apart, "{one:?} and {other:?}");
        }
    }
}

proptest! {
    /// Whatever a name holds, the file stays sound XML and the text reads back as it was, control
    /// characters aside.
    #[test]
    fn any_text_is_escaped(name in "\\PC{0,40}", wild in any::<String>()) {
        let heading = format!("{name}{wild}");
        let svg = full_size(&counter(), TemplateOf::Piece, Extra::default(), &heading)
            .expect("a template");
        let doc = Document::parse(&svg).expect("sound XML");
        let elements = doc.descendants().filter(roxmltree::Node::is_element).count();
        let plain = full_size(&counter(), TemplateOf::Piece, Extra::default(), "3A")
            .expect("a template");
        let plain = Document::parse(&plain).expect("sound XML");
        prop_assert_eq!(elements, plain.descendants().filter(roxmltree::Node::is_element).count());
        let escaped = escape(&heading);
        prop_assert!(!escaped.contains(['<', '>', '"', '\'']));
    }

    /// The same for the words below a sheet, for reasons among them, and for the page to print.
    #[test]
    fn words_and_the_print_page_are_escaped(name in "\\PC{0,40}", wild in any::<String>()) {
        let hostile = format!("{name}</text></svg><script>\"'&{wild}");
        let shape = counter();
        let (drawn, seen) = (picture(&shape), Seen::of(&shape));
        let made = |text: &str| {
            let lines = [text.to_owned(), format!("accepted: {text}")];
            sheet(&drawn, &seen, LengthStyle::Millimetres, Page::Letter, &lines[..1], &lines)
        };
        let (svg, plain) = (made(&hostile), made("plain"));
        let doc = Document::parse(&svg).expect("sound XML");
        let plain = Document::parse(&plain).expect("sound XML");
        let elements = |doc: &Document<'_>| {
            doc.descendants().filter(roxmltree::Node::is_element).count()
        };
        prop_assert_eq!(elements(&doc), elements(&plain));
        let told = doc.descendants().filter_map(|node| node.text());
        prop_assert!(told.filter(|text| text.contains("</svg><script>\"'&")).count() >= 3);

        let of = TemplateOf::Opening(OpeningName::Hole(1));
        let page = |text: &str| {
            let sheets = tiles(&shape, of, Extra::default(), Page::A4, text).expect("sheets");
            print_page(&sheets, Page::A4, text)
        };
        let (html, plain) = (page(&hostile), page("plain"));
        prop_assert!(!html.contains("<script"));
        prop_assert_eq!(html.matches('<').count(), plain.matches('<').count());
        prop_assert_eq!(html.matches('>').count(), plain.matches('>').count());
    }

    /// A plot never panics and never runs over its box, wherever one looks.
    #[test]
    fn a_plot_keeps_to_its_box(
        cols in 1_usize..140,
        rows in 1_usize..50,
        nearer in 0_u32..12,
        right in -2.0_f64..2.0,
        up in -2.0_f64..2.0,
    ) {
        let mut view = View::default();
        for _ in 0..nearer {
            view = view.zoomed(true);
        }
        let view = view.moved(right, up);
        for signs in [Signs::Braille, Signs::Half, Signs::Ascii] {
            let plot = Plot::new(&picture(&counter()), view, cols, rows, signs);
            let lines = plot.lines();
            prop_assert_eq!(lines.len(), rows);
            for line in lines {
                prop_assert!(tackfree::units::display_width(&line) <= cols);
            }
        }
    }
}
