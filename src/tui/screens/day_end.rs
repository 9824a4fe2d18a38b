//! The day's end: what today's products leave to be done, ticked one by one, and the day closed.

use super::super::forms::FormKind;
use super::super::kit::key::Key;
use super::super::kit::keymap::{Binding, Keymap};
use super::super::screen::{Ctx, Place, Screen, Wish};
use super::list::{self, Entry, Line, Tone, plain};
use super::picked;
use crate::desk::Action;
use crate::papers::{call_words, day_state_words};
use crate::shop::{Call, Chore, DayEnd, RagWay, day_of, is_late, left_open};
use crate::units::moment::show_date;
use chrono::{Days, NaiveDate};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// What a key does here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Act {
    Tick,
    Flat,
    Can,
    Earlier,
    TakeBack,
    Close,
    Up,
    Down,
    DayBefore,
    DayAfter,
    Back,
}

const KEYS: Keymap<Act> = Keymap(&[
    Binding {
        keys: &["space"],
        action: Act::Tick,
        hint: "done now",
        help: "Ticks the chore as done now; of oily rags, asks how.",
    },
    Binding {
        keys: &["x"],
        action: Act::Close,
        hint: "close day",
        help: "Closes the day. Oily rags that are not logged hold it until you write why.",
    },
    Binding {
        keys: &["f"],
        action: Act::Flat,
        hint: "rags outside",
        help: "Oily rags were laid flat outdoors now.",
    },
    Binding {
        keys: &["w"],
        action: Act::Can,
        hint: "rags in water",
        help: "Oily rags went into a lidded metal can of water now.",
    },
    Binding {
        keys: &["-"],
        action: Act::Earlier,
        hint: "earlier",
        help: "Ticks the chore with the time it was done: 20 for 20 minutes ago.",
    },
    Binding {
        keys: &["backspace", "delete"],
        action: Act::TakeBack,
        hint: "",
        help: "Takes a tick back that was a mistake.",
    },
    Binding {
        keys: &["left"],
        action: Act::DayBefore,
        hint: "day before",
        help: "To the day before.",
    },
    Binding {
        keys: &["right"],
        action: Act::DayAfter,
        hint: "",
        help: "To the day after, up to today.",
    },
    Binding {
        keys: &["up"],
        action: Act::Up,
        hint: "",
        help: "To the chore above.",
    },
    Binding {
        keys: &["down"],
        action: Act::Down,
        hint: "",
        help: "To the chore below.",
    },
    Binding {
        keys: &["esc"],
        action: Act::Back,
        hint: "back",
        help: "Back to the Bench.",
    },
]);

/// How far back days are shown: a year.
const MOST_BACK: u64 = 365;

const ABOUT: &str = "The day's end: the rags, waste and dust that the passes, wipes, scuffs and sanding logged on this day leave to be seen to. The list follows from the log; what is ticked stays in it.";

/// The screen.
#[derive(Debug, Clone, Default)]
pub struct DayEndScreen {
    /// Days back from today.
    back: u64,
    row: usize,
}

impl DayEndScreen {
    /// On today, or on this many days before.
    pub fn open(&mut self, back: u64) {
        self.back = back;
        self.row = 0;
    }

    fn day(&self, ctx: &Ctx<'_>) -> NaiveDate {
        let today = day_of(ctx.now, ctx.zone());
        today
            .checked_sub_days(Days::new(self.back))
            .unwrap_or(today)
    }

    /// From today to the day that was left open, if one was; else a day at a time.
    fn day_before(&self, ctx: &Ctx<'_>) -> u64 {
        let today = day_of(ctx.now, ctx.zone());
        let left = open_before(ctx).filter(|_| self.back == 0);
        let to_it = left.and_then(|end| u64::try_from((today - end.day).num_days()).ok());
        to_it.unwrap_or(self.back + 1).min(MOST_BACK)
    }

    fn end(&self, ctx: &Ctx<'_>) -> DayEnd {
        ctx.shop.day_end(self.day(ctx))
    }

    fn tick(act: Act, call: &Call, ctx: &Ctx<'_>, day: NaiveDate) -> Wish {
        let way = match act {
            Act::Flat => Some(RagWay::FlatOutdoors),
            Act::Can => Some(RagWay::WaterCan),
            _ => None,
        };
        if act == Act::Earlier || call.chore == Chore::OilyRags && way.is_none() {
            return Wish::Form(FormKind::Chore(day, call.chore));
        }
        Wish::Act(Action::TickChore {
            day,
            chore: call.chore,
            way,
            at: ctx.now,
        })
    }
}

impl Screen for DayEndScreen {
    fn title(&self, _: &Ctx<'_>) -> String {
        "Day's end".to_owned()
    }

    fn key(&mut self, key: &Key, ctx: &Ctx<'_>) -> Vec<Wish> {
        let Some(act) = KEYS.find(key) else {
            return Vec::new();
        };
        let (day, end) = (self.day(ctx), self.end(ctx));
        let last = end.calls.len().saturating_sub(1);
        let picked = end.calls.get(self.row.min(last));
        match act {
            Act::Up => self.row = self.row.min(last).saturating_sub(1),
            Act::Down => self.row = (self.row + 1).min(last),
            Act::DayBefore => self.open(self.day_before(ctx)),
            Act::DayAfter => self.open(self.back.saturating_sub(1)),
            Act::Back => return vec![Wish::Go(Place::Bench)],
            Act::Close if end.rags().is_some() => {
                return vec![Wish::Form(FormKind::CloseDay(day))];
            }
            Act::Close => return vec![Wish::Act(Action::CloseDay { day, reason: None })],
            Act::Flat | Act::Can => {
                return vec![match end.call(Chore::OilyRags) {
                    Some(call) => Self::tick(act, call, ctx, day),
                    None => Wish::Tell(vec!["This day's log leaves no oily rags.".to_owned()]),
                }];
            }
            Act::Tick | Act::Earlier => {
                return vec![match picked {
                    Some(call) => Self::tick(act, call, ctx, day),
                    None => Wish::Tell(vec![EMPTY.to_owned()]),
                }];
            }
            Act::TakeBack => {
                return picked
                    .map(|call| {
                        Wish::Act(Action::UntickChore {
                            day,
                            chore: call.chore,
                        })
                    })
                    .into_iter()
                    .collect();
            }
        }
        Vec::new()
    }

    fn settle(&mut self, _: &Ctx<'_>) {}

    fn draw(&self, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
        let end = self.end(ctx);
        let today = day_of(ctx.now, ctx.zone());
        let mut head: Vec<Line> = vec![(
            Tone::Title,
            format!(
                "Day's end, {}: {}",
                show_date(end.day, today),
                day_state_words(&end, ctx.shop, ctx.now)
            ),
        )];
        if end.calls.is_empty() {
            head.push(plain(EMPTY));
        }
        if self.back == 0
            && let Some(other) = open_before(ctx)
        {
            head.push((
                Tone::Warn,
                format!("{} Press left.", left_words(&other, ctx)),
            ));
        }
        let width = usize::from(area.width);
        let head = list::wrapped(&head, width);
        list::pane(buf, list::part(area, 0, head.len()), &head, "?", ctx.theme);
        let entries: Vec<Entry> = end
            .calls
            .iter()
            .map(|call| Entry::row(lines(call, ctx)))
            .collect();
        let body = list::part(area, head.len() + 1, usize::from(area.height));
        let focus = self.row.min(end.calls.len().saturating_sub(1));
        list::list(buf, body, &entries, focus, ctx.theme);
    }

    fn hints(&self, width: usize, ctx: &Ctx<'_>) -> String {
        let end = self.end(ctx);
        let rags = end.rags().is_some();
        KEYS.hint_line(width, |act| match act {
            Act::Flat | Act::Can => rags,
            Act::Tick | Act::Earlier => !end.calls.is_empty(),
            Act::Close => end.is_open(),
            _ => true,
        })
    }

    fn help(&self, width: usize) -> Vec<String> {
        picked::help(ABOUT, &KEYS, "", width)
    }
}

const EMPTY: &str = "Nothing was logged on this day that leaves rags, waste or dust to be seen to.";

/// One chore: what it is, whether it is done, and what to do.
fn lines(call: &Call, ctx: &Ctx<'_>) -> Vec<Line> {
    let done = call.is_done();
    let tick = if done { "[x]" } else { "[ ]" };
    let tone = if done { Tone::Good } else { Tone::Text };
    let words = call_words(call, ctx.shop, ctx.now);
    let mut out = vec![(tone, format!("{tick} {}: {words}", call.chore.words()))];
    if !done {
        out.push((Tone::Warn, format!("    {}", call.chore.caution().words())));
    }
    out
}

/// Whether the way here is worth a hint: late, with the day not closed.
pub(super) fn wants_day_end(ctx: &Ctx<'_>) -> bool {
    let today = day_of(ctx.now, ctx.zone());
    is_late(ctx.now, ctx.zone()) && ctx.shop.day_end(today).is_open()
}

/// The newest day before today that was left open.
pub(in crate::tui) fn open_before(ctx: &Ctx<'_>) -> Option<DayEnd> {
    let shop = ctx.shop;
    let today = day_of(ctx.now, ctx.zone());
    left_open(today, &shop.files, &shop.products, &shop.days, ctx.zone())
}

/// That it was left open, in a sentence.
pub(in crate::tui) fn left_words(end: &DayEnd, ctx: &Ctx<'_>) -> String {
    let today = day_of(ctx.now, ctx.zone());
    format!(
        "{} was not closed: {}.",
        show_date(end.day, today),
        missing_words(end, ctx)
    )
}

/// What is not done, the rags with what they are of.
pub(in crate::tui) fn missing_words(end: &DayEnd, ctx: &Ctx<'_>) -> String {
    if let Some(rags) = end.rags() {
        return format!(
            "oily rags of {} are not logged",
            ctx.shop.causes_words(rags)
        );
    }
    let missing: Vec<&str> = end.to_do().iter().map(|chore| chore.words()).collect();
    if missing.is_empty() {
        "all its chores are ticked".to_owned()
    } else {
        format!("not ticked: {}", missing.join(", "))
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_key_table_is_sound() {
        crate::tui::global_keys::assert_screen(&super::KEYS);
    }
}
