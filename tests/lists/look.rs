//! Drawing a screen into text, and what must hold of every drawing.

use super::sample::Sample;
use ratatui::buffer::{Buffer, CellWidth};
use ratatui::layout::Rect;
use tackfree::tui::kit::Key;
use tackfree::tui::screen::{Screen, Wish};

/// The area a screen has on the smallest terminal.
pub const SMALL: (u16, u16) = (80, 21);
/// The area on a larger one.
pub const LARGE: (u16, u16) = (120, 37);

/// Draws; fails if a cell outside the area was touched or a wide character hangs over its edge.
pub fn draw(screen: &dyn Screen, sample: &Sample, (w, h): (u16, u16)) -> Vec<String> {
    let area = Rect::new(1, 1, w, h);
    let mut buf = Buffer::empty(Rect::new(0, 0, w + 2, h + 2));
    for cell in &mut buf.content {
        cell.set_char('~');
    }
    for y in area.top()..area.bottom() {
        for x in area.left()..area.right() {
            buf[(x, y)].set_char(' ');
        }
    }
    screen.draw(&mut buf, area, &sample.ctx());
    let mut rows = Vec::new();
    for y in 0..h + 2 {
        let mut row = String::new();
        let mut x = 0;
        while x < w + 2 {
            let symbol = buf[(x, y)].symbol();
            let cells = symbol.cell_width().max(1);
            if area.contains((x, y).into()) {
                assert!(x + cells <= area.right(), "{symbol:?} hangs over the edge");
                row.push_str(symbol);
            } else {
                assert_eq!(symbol, "~", "drawn outside at {x},{y}");
            }
            x += cells;
        }
        if y > 0 && y <= h {
            rows.push(row.trim_end().to_owned());
        }
    }
    rows
}

/// The drawing as a picture to keep, the hints below it as the program shows them.
pub fn picture(screen: &dyn Screen, sample: &Sample, size: (u16, u16)) -> String {
    let rows = draw(screen, sample, size);
    assert!(
        rows.iter().all(|row| !row.contains('…')),
        "something is cut:\n{}",
        rows.join("\n")
    );
    let hints = screen.hints(usize::from(size.0), &sample.ctx());
    format!(
        "{}\n{}\n[{hints}]",
        screen.title(&sample.ctx()),
        rows.join("\n")
    )
}

/// The words drawn, in alphabetical order, lines and marks left out.
fn words(screen: &dyn Screen, sample: &Sample, size: (u16, u16)) -> Vec<String> {
    let text = draw(screen, sample, size).join(" ");
    let mut words: Vec<String> = text
        .split([' ', '│', '─'])
        .filter(|w| !w.is_empty())
        .map(str::to_owned)
        .collect();
    words.sort();
    words
}

/// No word is cut or written over: on a tall terminal each width shows the same words as the
/// widest that has the same layout.
pub fn nothing_is_lost(screen: &dyn Screen, sample: &Sample) {
    for widths in [[80, 81, 83, 88, 94, 99], [110, 111, 115, 120, 133, 160]] {
        let all = words(screen, sample, (widths[5], 110));
        assert!(!all.is_empty());
        for width in widths {
            assert_eq!(
                words(screen, sample, (width, 110)),
                all,
                "at {width} columns"
            );
        }
    }
}

/// Draws at every odd size without a panic or a stroke outside its place.
pub fn any_size(screen: &dyn Screen, sample: &Sample) {
    for w in [0, 1, 2, 3, 5, 9, 17, 30, 40, 79, 81, 109, 110, 111, 200] {
        for h in [0, 1, 2, 3, 5, 8, 13, 24, 60] {
            draw(screen, sample, (w, h));
            screen.hints(usize::from(w), &sample.ctx());
            screen.help(usize::from(w));
        }
    }
}

/// Presses keys by their names; what the last one wished.
pub fn press(screen: &mut dyn Screen, sample: &Sample, keys: &str) -> Vec<Wish> {
    let mut wishes = Vec::new();
    for name in keys.split_whitespace() {
        wishes = screen.key(&Key::from_name(name).expect(name), &sample.ctx());
    }
    wishes
}

/// Whether the drawing says this, wherever its lines are broken.
pub fn says(rows: &[String], words: &str) -> bool {
    let squeeze = |s: &str| s.split_whitespace().collect::<Vec<_>>().join(" ");
    squeeze(&rows.join(" ")).contains(&squeeze(words))
}
