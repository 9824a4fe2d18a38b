//! The Rack: what is drying, what is ready, what to do about it.

use super::super::forms::FormKind;
use super::super::kit::key::Key;
use super::super::kit::keymap::Keymap;
use super::super::screen::{Ctx, Place, Screen, Wish};
use super::day_end::wants_day_end;
use super::list::{self, plain};
use super::picked::{self, Picked, Step, list_keys};
use super::rack_countdown::{self, Countdown};
use super::rack_detail;
use super::rack_rows::{called, entries};
use crate::desk::{Action, FacePick};
use crate::shop::{
    CoatKind, PieceId, RackLine, RackRow, RackState, TouchVerdict, Waiting, rack_lines,
};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// What a key does here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Act {
    Go(Step),
    Open,
    Touch,
    Found(TouchVerdict),
    Detail,
    Later,
    Pass,
    Scuff,
    WipeOff,
    Countdown,
    DayEnd,
    Back,
}

const KEYS: Keymap<Act> = list_keys![Act:
    Binding { keys: &["enter"], action: Act::Open, hint: "ticket", help: "Opens the ticket of the piece." },
    Binding { keys: &["t"], action: Act::Touch, hint: "test, other time", help: "Records a touch test of the last coat with its finding, faces and time chosen." },
    Binding { keys: &["g"], action: Act::Found(TouchVerdict::DryToRecoat), hint: "powders", help: "Touch test, now: dry to recoat, it sands to powder. The clock learns from every test." },
    Binding { keys: &["o"], action: Act::Found(TouchVerdict::StillSoft), hint: "still soft", help: "Touch test, now: still soft." },
    Binding { keys: &["d"], action: Act::Found(TouchVerdict::TouchDry), hint: "touch dry", help: "Touch test, now: set to touch." },
    Binding { keys: &["k"], action: Act::Found(TouchVerdict::TackFree), hint: "tack-free", help: "Touch test, now: tack-free." },
    Binding { keys: &["p"], action: Act::Pass, hint: "pass", help: "Logs a pass of the coat that is due." },
    Binding { keys: &["s"], action: Act::Scuff, hint: "scuff", help: "Records a scuff of the last coat." },
    Binding { keys: &["w"], action: Act::WipeOff, hint: "wipe off", help: "Records that the stain was wiped off." },
    Binding { keys: &["z"], action: Act::DayEnd, hint: "day's end", help: "Shows the day's end: rags, waste and dust to see to before the shop is left." },
    Binding { keys: &["c"], action: Act::Countdown, hint: "countdown", help: "Shows the countdown to what is ready next: below the list, over the whole screen, not at all." },
    Binding { keys: &["v"], action: Act::Detail, hint: "read all", help: "Shows all stages of the coat as a page to read." },
    Binding { keys: &["f"], action: Act::Later, hint: "if later", help: "Tells when a coat that goes on later would be dry, by the forecast or the usual air." },
    Binding { keys: &["esc"], action: Act::Back, hint: "list", help: "Puts the countdown away." },
];

const ABOUT: &str = "The Rack: every piece with a wet or drying coat. What is ready stands first, then missed recoat windows, then what dries, soonest first. Likely: when a touch test is worth making. Safe: what the program holds to.";

/// The screen.
#[derive(Debug, Clone, Default)]
pub struct Rack {
    picked: Picked<PieceId>,
    countdown: Countdown,
}

impl Rack {
    /// The Rack with the first row picked.
    pub fn new() -> Self {
        Self::default()
    }

    fn picked<'a>(&self, rows: &'a [RackLine]) -> Option<&'a RackLine> {
        self.picked.index(&keys(rows)).and_then(|i| rows.get(i))
    }
}

fn rows(ctx: &Ctx<'_>) -> Vec<RackLine> {
    rack_lines(&ctx.shop.files, &ctx.gates(), ctx.clock, ctx.now)
}

fn keys(rows: &[RackLine]) -> Vec<PieceId> {
    rows.iter().map(|line| line.row.piece).collect()
}

impl Screen for Rack {
    fn title(&self, _: &Ctx<'_>) -> String {
        "Rack".to_owned()
    }

    fn key(&mut self, key: &Key, ctx: &Ctx<'_>) -> Vec<Wish> {
        let Some(act) = KEYS.find(key) else {
            return Vec::new();
        };
        let rows = rows(ctx);
        match act {
            Act::Go(step) => self.picked.step(step, &keys(&rows)),
            Act::Countdown => self.countdown = self.countdown.next(),
            Act::DayEnd => return vec![Wish::Go(Place::DayEnd)],
            Act::Back => self.countdown = Countdown::Off,
            Act::Later => {
                let film = self.picked(&rows).and_then(|line| line.film.as_ref());
                return vec![Wish::Form(FormKind::Later(film.map(|film| film.product)))];
            }
            Act::Open
            | Act::Touch
            | Act::Found(_)
            | Act::Detail
            | Act::Pass
            | Act::Scuff
            | Act::WipeOff => {
                return match self.picked(&rows) {
                    Some(line) => vec![wish(act, line, ctx)],
                    None => vec![Wish::Tell(vec![EMPTY.to_owned()])],
                };
            }
        }
        Vec::new()
    }

    fn settle(&mut self, ctx: &Ctx<'_>) {
        self.picked.settle(&keys(&rows(ctx)));
    }

    fn draw(&self, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
        let rows = rows(ctx);
        let height = usize::from(area.height);
        let width = usize::from(area.width);
        let detail = match self.picked(&rows) {
            Some(line) if self.countdown == Countdown::Off => {
                list::wrapped(&rack_detail::lines(line, false, width, ctx), width)
            }
            _ => Vec::new(),
        };
        let below = match self.countdown {
            Countdown::Full => return rack_countdown::draw(buf, area, &rows, ctx),
            Countdown::Below => rack_countdown::BELOW.min(height / 2),
            // The list keeps at least half; a detail that does not fit is read with its key.
            Countdown::Off if detail.is_empty() => 0,
            Countdown::Off => (detail.len() + 1).min(height.div_ceil(2)),
        };
        if below > 0 {
            let place = list::part(area, height - below, below);
            list::rule(buf, place, 0, ctx.theme);
            let inside = list::part(place, 1, below);
            if self.countdown == Countdown::Off {
                list::pane(buf, inside, &detail, "v", ctx.theme);
            } else {
                rack_countdown::draw(buf, inside, &rows, ctx);
            }
        }
        let area = list::part(area, 0, height - below);
        if rows.is_empty() {
            return list::pane(buf, area, &[plain(EMPTY)], "?", ctx.theme);
        }
        let entries = entries(&rows, usize::from(area.width), ctx);
        let focus = self.picked.index(&keys(&rows)).unwrap_or(0);
        list::list(buf, area, &entries, focus, ctx.theme);
    }

    fn hints(&self, width: usize, ctx: &Ctx<'_>) -> String {
        let rows = rows(ctx);
        let picked = self.picked(&rows).map(|line| &line.row);
        KEYS.hint_line(width, |act| match act {
            Act::Open | Act::Countdown | Act::Detail => picked.is_some(),
            Act::Touch => picked.is_some_and(|row| row.coat.is_some()),
            Act::Found(found) => picked.is_some_and(|row| news(row, found)),
            Act::Pass => picked.is_some_and(|row| due(row, ctx).is_some()),
            Act::Scuff => picked.is_some_and(wants_scuff),
            Act::WipeOff => {
                picked.is_some_and(|row| matches!(row.waiting, Waiting::WipeOff { .. }))
            }
            Act::DayEnd => wants_day_end(ctx),
            Act::Back => self.countdown != Countdown::Off,
            Act::Go(_) | Act::Later => true,
        })
    }

    fn help(&self, width: usize) -> Vec<String> {
        picked::help(ABOUT, &KEYS, "", width)
    }
}

const EMPTY: &str = "Nothing is drying. A piece stands here from its first coat or solvent wipe-down until it is \
                     fully cured on site. Press 1 for the Bench.";

/// The coat that can go on now.
fn due(row: &RackRow, ctx: &Ctx<'_>) -> Option<CoatKind> {
    match row.waiting {
        Waiting::Lay { kind, .. } | Waiting::Abrade { kind, .. } => Some(kind),
        Waiting::Scuff => {
            let stage = ctx.shop.file(row.piece)?.piece.stage;
            CoatKind::of_stage(stage)
        }
        _ => None,
    }
}

fn wants_scuff(row: &RackRow) -> bool {
    matches!(
        row.waiting,
        Waiting::Scuff | Waiting::Abrade { .. } | Waiting::Lay { .. }
    ) && row.coat.is_some()
}

/// Whether a test that finds this would say something the row does not show already.
fn news(row: &RackRow, found: TouchVerdict) -> bool {
    let wet = matches!(
        row.state,
        RackState::Wet | RackState::Tacky | RackState::TackFree
    );
    row.coat.is_some()
        && wet
        && match found {
            TouchVerdict::TouchDry => row.state == RackState::Wet,
            TouchVerdict::TackFree => row.state != RackState::TackFree,
            _ => true,
        }
}

/// What a key asks for on this line, or why not.
fn wish(act: Act, line: &RackLine, ctx: &Ctx<'_>) -> Wish {
    let row = &line.row;
    let pieces = vec![row.piece];
    let tell = |why: &str| {
        let waits = row.waiting.words(ctx.now, ctx.zone());
        Wish::Tell(vec![format!(
            "{}: {why} It waits: {waits}.",
            called(ctx, row.piece)
        )])
    };
    match act {
        Act::Touch if row.coat.is_some() => Wish::Form(FormKind::Touch { pieces }),
        Act::Found(verdict) if row.coat.is_some() => Wish::Act(Action::Touch {
            picks: vec![FacePick {
                piece: row.piece,
                faces: None,
            }],
            verdict,
            at: ctx.now,
        }),
        Act::Touch | Act::Found(_) => tell("there is no coat to test."),
        Act::Detail => Wish::Read {
            title: called(ctx, row.piece),
            lines: rack_detail::page(line, 76, ctx),
        },
        Act::Pass => match due(row, ctx) {
            Some(kind) => Wish::Form(FormKind::Pass { pieces, kind }),
            None if row.waiting.until().is_some() && row.coat.is_some() => {
                tell("no coat can go on yet; if it sands to powder already, g records that.")
            }
            None => tell("no coat is due."),
        },
        Act::Scuff if row.coat.is_some() => Wish::Form(FormKind::Scuff { pieces }),
        Act::Scuff => tell("there is no coat to scuff."),
        Act::WipeOff if matches!(row.waiting, Waiting::WipeOff { .. }) => {
            Wish::Form(FormKind::WipeOff { pieces })
        }
        Act::WipeOff => tell("there is no wet stain to wipe off."),
        _ => Wish::Ticket(row.piece),
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_key_table_is_sound() {
        crate::tui::global_keys::assert_screen(&super::KEYS);
    }
}
