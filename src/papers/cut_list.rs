//! The cut list and the lumber to buy, on paper.

use super::PAPER_WIDTH;
use super::cutting::fine;
use super::layout::{Columns, wrap};
use crate::desk::Shop;
use crate::shape::layout::{Seen, length_of_mm};
use crate::shape::lumber::{
    Boards, GlueUp, Lay, LumberError, LumberRules, Strip, boards, glue_up, gross_board_feet,
    round_up_quarter,
};
use crate::shop::PieceFile;
use crate::units::{Length, LengthStyle};

/// The strips of one piece and what they come to.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceLumber {
    /// The glue-up.
    pub glue_up: GlueUp,
    /// Board feet of the outline at its finished thickness.
    pub net: f64,
    /// Board feet to buy by the waste figure.
    pub gross: f64,
}

/// Reckons the strips of a piece, lying as asked; lengths that follow from the form are rounded up
/// to what the shop's tape shows.
///
/// # Errors
/// What cannot be reckoned: see [`LumberError`].
pub fn piece_lumber(
    file: &PieceFile,
    lay: Lay,
    rules: &LumberRules,
    style: LengthStyle,
) -> Result<PieceLumber, LumberError> {
    let piece = &file.piece;
    let seen = Seen::of(&piece.shape);
    let (low, high) = seen.extent();
    let crossways = lay == Lay::Width;
    let (start, across) = if crossways {
        (low.x, high.x - low.x)
    } else {
        (low.y, high.y - low.y)
    };
    let reach = |from: Length, to: Length| {
        on_tape(
            seen.reach(start + from.mm(), start + to.mm(), crossways),
            style,
        )
    };
    let thickness = piece.shape.thickness();
    let glue_up = glue_up(
        on_tape(across, style),
        thickness,
        piece.construction,
        rules,
        reach,
    )?;
    let net = piece.shape.volume_board_feet();
    Ok(PieceLumber {
        glue_up,
        net,
        gross: gross_board_feet(net, rules.waste_percent)?,
    })
}

/// A length that follows from the form, up to the next step of the tape; a micrometre over one is
/// the reckoning's, not the wood's.
fn on_tape(mm: f64, style: LengthStyle) -> Length {
    length_of_mm(mm - 0.001).up_to_step(style)
}

/// The boards for the strips of several pieces together.
///
/// # Errors
/// As for [`boards`].
pub fn lumber_to_buy(lumber: &[PieceLumber], rules: &LumberRules) -> Result<Boards, LumberError> {
    let strips: Vec<Strip> = lumber
        .iter()
        .flat_map(|piece| piece.glue_up.strips.iter().copied())
        .collect();
    boards(&strips, rules)
}

/// Cut list and lumber of some pieces.
///
/// # Errors
/// A strip or waste that cannot be. Boards too small for a strip are told on the paper.
pub fn cut_list_paper(
    shop: &Shop,
    files: &[&PieceFile],
    lay: Lay,
    rules: &LumberRules,
) -> Result<Vec<String>, LumberError> {
    let say = |length: Length| fine(length, &shop.settings);
    let mut out = Vec::new();
    let mut all = Vec::new();
    for file in files {
        let piece = &file.piece;
        let lumber = piece_lumber(file, lay, rules, shop.settings.length)?;
        if !out.is_empty() {
            out.push(String::new());
        }
        let way = match lay {
            Lay::Length => "along its length",
            Lay::Width => "from front to back",
        };
        out.extend(wrap(
            &format!(
                "Cut list of {}: {}, {}, strips {way}",
                shop.called(file),
                piece.species,
                piece.construction
            ),
            PAPER_WIDTH,
            2,
        ));
        let mut columns = Columns::default();
        columns.row(["", "strips", "seen", "long", "rip", "from dressed"]);
        for strip in &lumber.glue_up.strips {
            columns.row([
                "[ ]",
                &strip.count.to_string(),
                &say(strip.seen),
                &say(strip.long),
                &say(strip.rip),
                &say(strip.from),
            ]);
        }
        out.extend(columns.lines(2, PAPER_WIDTH));
        out.extend(indented(
            &format!(
                "blank {} across the strips, {} left at each end, {} at each side; all alike they would be {} wide",
                say(lumber.glue_up.blank),
                say(rules.end_trim),
                say(rules.side_trim),
                say(lumber.glue_up.even)
            ),
        ));
        out.push(format!(
            "  {:.2} board feet net, {:.2} at {} % waste (net / {:.2}): buy {:.2}, by quarters",
            lumber.net,
            lumber.gross,
            rules.waste_percent,
            f64::from(100 - rules.waste_percent.min(100)) / 100.0,
            round_up_quarter(lumber.gross)
        ));
        let minds = lumber.glue_up.minds.iter();
        out.extend(minds.flat_map(|line| indented(&format!("mind: {line}"))));
        all.push(lumber);
    }
    out.push(String::new());
    out.push("LUMBER TO BUY".to_owned());
    out.extend(lumber_lines(&all, rules, &say));
    Ok(out)
}

fn lumber_lines(
    all: &[PieceLumber],
    rules: &LumberRules,
    say: &impl Fn(Length) -> String,
) -> Vec<String> {
    let net: f64 = all.iter().map(|piece| piece.net).sum();
    let gross: f64 = all.iter().map(|piece| piece.gross).sum();
    let mut out = vec![format!(
        "  {net:.2} board feet net, {gross:.2} by the waste figure: {:.2}, by quarters",
        round_up_quarter(gross)
    )];
    match lumber_to_buy(all, rules) {
        Err(error) => out.extend(indented(&error.to_string())),
        Ok(bought) => {
            out.push(format!(
                "  {} boards of {}/4 x {} x {}: {:.2} board feet as sold",
                bought.boards.len(),
                rules.quarters,
                say(rules.board_width),
                say(rules.board_length),
                bought.board_feet
            ));
            for (no, board) in (1..).zip(&bought.boards) {
                let pieces: Vec<String> = board
                    .pieces
                    .iter()
                    .map(|(rip, long)| format!("{} x {}", say(*rip), say(*long)))
                    .collect();
                out.extend(indented(&format!("board {no}: {}", counted(&pieces))));
            }
        }
    }
    out
}

/// `2 of 3" x 98", 3" x 40"`.
fn counted(pieces: &[String]) -> String {
    let mut out: Vec<(usize, &String)> = Vec::new();
    for piece in pieces {
        match out.iter_mut().find(|(_, has)| *has == piece) {
            Some((count, _)) => *count += 1,
            None => out.push((1, piece)),
        }
    }
    let words: Vec<String> = out
        .into_iter()
        .map(|(count, piece)| {
            if count == 1 {
                piece.clone()
            } else {
                format!("{count} of {piece}")
            }
        })
        .collect();
    words.join(", ")
}

fn indented(words: &str) -> Vec<String> {
    let lines = wrap(words, PAPER_WIDTH - 2, 2);
    lines.into_iter().map(|line| format!("  {line}")).collect()
}
