//! Block digits, five rows tall, to be read from across a shop.

/// What the digits are drawn with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ink {
    /// Full blocks.
    Block,
    /// `#`, for terminals without block characters.
    Hash,
}

/// How many rows the digits take.
pub const ROWS: usize = 5;

/// The five rows of one sign on a grid, `#` where there is ink.
fn sign(c: char) -> Option<[&'static str; ROWS]> {
    Some(match c {
        '0' => ["###", "# #", "# #", "# #", "###"],
        '1' => [" # ", "## ", " # ", " # ", "###"],
        '2' => ["###", "  #", "###", "#  ", "###"],
        '3' => ["###", "  #", " ##", "  #", "###"],
        '4' => ["# #", "# #", "###", "  #", "  #"],
        '5' => ["###", "#  ", "###", "  #", "###"],
        '6' => ["###", "#  ", "###", "# #", "###"],
        '7' => ["###", "  #", "  #", "  #", "  #"],
        '8' => ["###", "# #", "###", "# #", "###"],
        '9' => ["###", "# #", "###", "  #", "###"],
        ':' => [" ", "#", " ", "#", " "],
        ' ' => [" ", " ", " ", " ", " "],
        'h' => ["#  ", "#  ", "###", "# #", "# #"],
        'm' => ["     ", "     ", "#####", "# # #", "# # #"],
        _ => return None,
    })
}

/// The text in block digits: `0` to `9`, `:`, space, `h` and `m`. Each grid point is `thick` cells
/// wide; 2 looks square in most terminals, 1 is for narrow places. All rows are equally wide.
/// `None` if there is another character in it.
pub fn big(text: &str, thick: usize, ink: Ink) -> Option<[String; ROWS]> {
    let dot = match ink {
        Ink::Block => '█',
        Ink::Hash => '#',
    };
    let mut rows: [String; ROWS] = Default::default();
    for (n, c) in text.chars().enumerate() {
        let points = sign(c)?;
        for (row, points) in rows.iter_mut().zip(points) {
            if n > 0 {
                row.extend(std::iter::repeat_n(' ', thick));
            }
            for point in points.chars() {
                let cell = if point == '#' { dot } else { ' ' };
                row.extend(std::iter::repeat_n(cell, thick));
            }
        }
    }
    Some(rows)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_as_drawn() {
        let rows = big("4:20", 1, Ink::Hash).unwrap();
        assert_eq!(
            rows,
            [
                "# #   ### ###",
                "# # #   # # #",
                "###   ### # #",
                "  # # #   # #",
                "  #   ### ###"
            ]
        );
        assert_eq!(big("1", 2, Ink::Block).unwrap()[1], "████  ");
    }

    #[test]
    fn every_sign_is_even_and_told_apart() {
        let signs: Vec<_> = "0123456789: hm".chars().map(|c| sign(c).unwrap()).collect();
        for (i, a) in signs.iter().enumerate() {
            assert!(a.iter().all(|row| row.len() == a[0].len()));
            assert!(signs[..i].iter().all(|b| a != b));
        }
    }

    #[test]
    fn what_has_no_sign_is_not_drawn() {
        assert_eq!(big("12 pm", 1, Ink::Block), None);
        assert_eq!(big("", 2, Ink::Block).unwrap()[0], "");
    }
}
