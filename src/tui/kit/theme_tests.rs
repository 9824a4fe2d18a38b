use super::*;

type Rgb = (u8, u8, u8);

/// The xterm 256-colour table from 16 on: a 6x6x6 cube and 24 greys.
fn rgb(index: u8) -> Rgb {
    assert!(index >= 16, "0 to 15 belong to the terminal, not to us");
    if index >= 232 {
        let grey = 8 + 10 * (index - 232);
        return (grey, grey, grey);
    }
    let level = |n: u8| [0, 95, 135, 175, 215, 255][usize::from(n % 6)];
    let n = index - 16;
    (level(n / 36), level(n / 6), level(n))
}

/// WCAG 2.1, definition of relative luminance (W3C Recommendation, 5 June 2018).
fn luminance((r, g, b): Rgb) -> f64 {
    let linear = |c: u8| {
        let c = f64::from(c) / 255.0;
        if c <= 0.03928 {
            c / 12.92
        } else {
            ((c + 0.055) / 1.055).powf(2.4)
        }
    };
    0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b)
}

/// WCAG 2.1, definition of contrast ratio; success criterion 1.4.3 asks for 4.5.
fn contrast(a: Rgb, b: Rgb) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

fn colour(c: Option<Color>) -> Option<Rgb> {
    match c {
        None => None,
        Some(Color::Indexed(i)) => Some(rgb(i)),
        Some(other) => panic!("{other:?} depends on the terminal's palette"),
    }
}

fn check(theme: &Theme, backgrounds: &[u8]) {
    for (role, style) in theme.roles() {
        assert!(
            !style.add_modifier.contains(Modifier::DIM),
            "{role}: contrast unknown"
        );
        let own = colour(style.bg);
        let Some(ink) = colour(style.fg) else {
            assert!(own.is_none(), "{role}: a background without a text colour");
            continue;
        };
        for grey in backgrounds {
            let ground = own.unwrap_or((*grey, *grey, *grey));
            let ratio = contrast(ink, ground);
            assert!(
                ratio >= 4.5,
                "{:?} {role} on {ground:?}: {ratio:.2}",
                theme.kind
            );
            if let Some(own) = own {
                // The strip itself must stand out too: WCAG 2.1, 1.4.11 asks for 3.
                assert!(contrast(own, (*grey, *grey, *grey)) >= 3.0, "{role} strip");
            }
        }
    }
}

#[test]
fn the_yardstick_agrees_with_its_definition() {
    // WCAG 2.1: black on white is 21 to 1, the largest ratio there is.
    assert!((contrast((0, 0, 0), (255, 255, 255)) - 21.0).abs() < 1e-9);
    assert!((contrast((9, 9, 9), (9, 9, 9)) - 1.0).abs() < 1e-9);
}

#[test]
fn every_pair_holds_its_contrast() {
    check(&Theme::dark(), &(0..=0x1e).collect::<Vec<_>>());
    check(&Theme::light(), &(0xee..=0xff).collect::<Vec<_>>());
    check(&Theme::either(), &[0x00, 0xff]);
}

#[test]
fn the_plain_look_has_no_colour() {
    for look in [Look::Auto, Look::Dark, Look::Light, Look::Plain] {
        let theme = Theme::from_env(look, true);
        for (role, style) in theme.roles() {
            assert_eq!((style.fg, style.bg), (None, None), "{role}");
        }
    }
    assert_eq!(Theme::from_env(Look::Plain, false), Theme::plain());
}

#[test]
fn what_must_be_told_apart_differs_without_colour() {
    for theme in [
        Theme::plain(),
        Theme::either(),
        Theme::dark(),
        Theme::light(),
    ] {
        let marks = |s: Style| (s.add_modifier, s.bg.is_some());
        assert_ne!(marks(theme.text), marks(theme.warn));
        assert_ne!(marks(theme.text), marks(theme.title));
        assert_ne!(marks(theme.text), marks(theme.selected));
        assert_ne!(marks(theme.text), marks(theme.banner));
    }
}

#[test]
fn looks_have_words_and_hints() {
    assert_eq!(Look::from_word("dark"), Some(Look::Dark));
    assert_eq!(Look::from_word("blue"), None);
    assert_eq!(
        Look::Auto.with_background_hint(Some("15;default;0")),
        Look::Dark
    );
    assert_eq!(Look::Auto.with_background_hint(Some("0;15")), Look::Light);
    assert_eq!(Look::Auto.with_background_hint(Some("what")), Look::Auto);
    assert_eq!(Look::Light.with_background_hint(Some("15;0")), Look::Light);
}
