//! Shop air: what it is now, the last days as plots, the readings one by one.

use super::super::forms::FormKind;
use super::super::kit::key::Key;
use super::super::kit::keymap::Keymap;
use super::super::screen::{Ctx, Screen, Wish};
use super::air_plot::{self, Figure, LEGEND};
use super::list::{self, Cell, Entry, Line, Tone, beside, count, plain};
use super::picked::{self, Picked, Step, list_keys};
use crate::coating::psychro::dew_point;
use crate::coating::{AirBasis, AirReading, ShopAir};
use crate::desk::{Action, Which};
use crate::units::TemperatureStyle;
use crate::units::moment::{show_moment, show_span};
use chrono::{DateTime, Duration, Utc};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// What a key does here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Act {
    Go(Step),
    New,
    Correct,
    Remove,
    Import,
    Forecast,
    Clear,
    Longer,
    Shorter,
    Usual,
}

const KEYS: Keymap<Act> = list_keys![Act:
    Binding { keys: &["n"], action: Act::New, hint: "new reading", help: "Logs a reading, now or earlier." },
    Binding { keys: &["enter", "e"], action: Act::Correct, hint: "correct", help: "Corrects the reading picked." },
    Binding { keys: &["x"], action: Act::Remove, hint: "remove", help: "Takes the reading picked out of the log." },
    Binding { keys: &["i"], action: Act::Import, hint: "import", help: "Reads a data logger's CSV file into the log." },
    Binding { keys: &["o"], action: Act::Forecast, hint: "forecast", help: "Types the air to come; without it the usual air of the hour counts." },
    Binding { keys: &["c"], action: Act::Clear, hint: "clear forecast", help: "Takes the forecast away." },
    Binding { keys: &["right"], action: Act::Longer, hint: "more days", help: "Shows more days." },
    Binding { keys: &["left"], action: Act::Shorter, hint: "fewer", help: "Shows fewer days." },
    Binding { keys: &["v"], action: Act::Usual, hint: "usual day", help: "Shows the usual air by hour of the day, learned from the log." },
];

const ABOUT: &str = "Shop air: what the drying clock reckons with. A reading holds for twelve hours; after that the shop's usual air of the hour counts, and the Rack says so.";

const EMPTY: &str = "No reading yet: the clock takes the label's own conditions. Press r (from any screen) or n \
                     and type what the thermometer and the hygrometer say: 68F 45.";

/// Days that can be shown.
const DAYS: [u64; 4] = [1, 3, 7, 28];

/// The screen.
#[derive(Debug, Clone)]
pub struct Air {
    picked: Picked<DateTime<Utc>>,
    /// Which of [`DAYS`].
    days: usize,
}

impl Default for Air {
    fn default() -> Self {
        Self {
            picked: Picked::default(),
            days: 1,
        }
    }
}

impl Air {
    fn days(&self) -> u64 {
        DAYS[self.days.min(DAYS.len() - 1)]
    }

    /// The readings of the days shown, newest first.
    fn readings(&self, ctx: &Ctx<'_>) -> Vec<AirReading> {
        let days = i64::try_from(self.days()).unwrap_or(1);
        let from = ctx.now - Duration::days(days);
        ctx.shop.air.between(from, ctx.now).rev().collect()
    }
}

fn keys(readings: &[AirReading]) -> Vec<DateTime<Utc>> {
    readings.iter().map(|reading| reading.at).collect()
}

/// `68 F, 45 %`.
fn air_words(air: ShopAir, style: TemperatureStyle) -> String {
    format!("{}, {}", air.temperature.show(style), air.humidity.show())
}

/// `dew point 46 F`; nothing where the air is so dry that there is none.
fn dew_words(air: ShopAir, style: TemperatureStyle) -> String {
    dew_point(air.temperature, air.humidity)
        .map_or_else(String::new, |dew| format!("dew point {}", dew.show(style)))
}

/// What the air is now and how it is known.
fn now_lines(ctx: &Ctx<'_>) -> Vec<Line> {
    let style = ctx.shop.settings.temperature;
    let (air, basis) = ctx.clock.air_at(ctx.now);
    let Some(air) = air else {
        return vec![plain(EMPTY)];
    };
    let dew = dew_words(air, style);
    let words = format!("Now {}; {dew}", air_words(air, style));
    let moment = |at| show_moment(at, ctx.now, ctx.zone());
    let (tone, how) = match basis {
        AirBasis::Read { at } => (
            Tone::Dim,
            format!("read {}, {} ago", moment(at), show_span(ctx.now - at)),
        ),
        AirBasis::Usual { last, days } => (
            Tone::Warn,
            format!(
                "no reading since {}: the usual air of this hour, from {}",
                moment(last),
                count(usize::from(days), "day")
            ),
        ),
        AirBasis::Forecast => (Tone::Warn, "by the forecast typed in".to_owned()),
        AirBasis::Assumed => (Tone::Warn, "assumed; no reading yet".to_owned()),
    };
    let mut lines = vec![plain(words), (tone, how)];
    lines.extend(forecast_line(ctx));
    lines
}

/// The forecast still to come: `Forecast: 58 F, 60 % until Thu 7:00 am`.
fn forecast_line(ctx: &Ctx<'_>) -> Option<Line> {
    let style = ctx.shop.settings.temperature;
    let moment = |at| show_moment(at, ctx.now, ctx.zone());
    let steps: Vec<String> = ctx
        .shop
        .forecast
        .steps()
        .iter()
        .filter(|step| step.until > ctx.now)
        .map(|step| {
            let from = if step.from > ctx.now {
                format!("from {} ", moment(step.from))
            } else {
                String::new()
            };
            format!(
                "{} {from}until {}",
                air_words(step.air, style),
                moment(step.until)
            )
        })
        .collect();
    (!steps.is_empty()).then(|| plain(format!("Forecast: {}", steps.join("; "))))
}

fn row(reading: &AirReading, ctx: &Ctx<'_>) -> Entry {
    let style = ctx.shop.settings.temperature;
    let cells = [
        Cell::left(show_moment(reading.at, ctx.now, ctx.zone()), 18),
        Cell::right(reading.air.temperature.show(style), 9),
        Cell::right(reading.air.humidity.show(), 7),
        Cell::left(dew_words(reading.air, style), 20),
    ];
    Entry::row(beside(&cells).into_iter().map(plain).collect())
}

/// The usual day, hour by hour, as a page to read.
fn usual_lines(ctx: &Ctx<'_>) -> Vec<String> {
    let style = ctx.shop.settings.temperature;
    let Some(usual) = ctx.shop.air.usual(ctx.now) else {
        return vec![EMPTY.to_owned()];
    };
    let mut lines = vec![format!(
        "Learned from {} of readings in the four weeks before the last one.",
        count(usize::from(usual.days()), "day")
    )];
    lines.extend((0..24).map(|hour| {
        let air = usual.hour(hour);
        format!("{hour:>2}:00  {}", air_words(air, style))
    }));
    lines
}

impl Screen for Air {
    fn title(&self, _: &Ctx<'_>) -> String {
        "Shop air".to_owned()
    }

    fn key(&mut self, key: &Key, ctx: &Ctx<'_>) -> Vec<Wish> {
        let Some(act) = KEYS.find(key) else {
            return Vec::new();
        };
        let readings = self.readings(ctx);
        let picked = self.picked.get(&keys(&readings));
        match act {
            Act::Go(step) => self.picked.step(step, &keys(&readings)),
            Act::New => {
                self.picked.await_new();
                return vec![Wish::Form(FormKind::Air(Which::New))];
            }
            Act::Correct => {
                return match picked {
                    Some(at) => vec![Wish::Form(FormKind::Air(Which::This(at)))],
                    None => vec![Wish::Tell(vec![EMPTY.to_owned()])],
                };
            }
            Act::Remove => {
                return match picked {
                    Some(at) => vec![Wish::Act(Action::RemoveAir(at))],
                    None => vec![Wish::Tell(vec![EMPTY.to_owned()])],
                };
            }
            Act::Import => return vec![Wish::Form(FormKind::AirImport)],
            Act::Forecast => return vec![Wish::Form(FormKind::Forecast)],
            Act::Clear => return vec![Wish::Act(Action::ClearForecast)],
            Act::Longer => self.days = (self.days + 1).min(DAYS.len() - 1),
            Act::Shorter => self.days = self.days.saturating_sub(1),
            Act::Usual => {
                return vec![Wish::Read {
                    title: "The usual day in this shop".to_owned(),
                    lines: usual_lines(ctx),
                }];
            }
        }
        Vec::new()
    }

    fn settle(&mut self, ctx: &Ctx<'_>) {
        let readings = self.readings(ctx);
        self.picked.settle(&keys(&readings));
    }

    fn draw(&self, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
        let (width, height) = (usize::from(area.width), usize::from(area.height));
        let head = list::wrapped(&now_lines(ctx), width);
        list::pane(buf, area, &head, "v", ctx.theme);
        let mut top = head.len();
        if !ctx.shop.air.is_empty() {
            top += 1;
            top += self.draw_plots(buf, list::part(area, top, height), ctx);
        }
        let below = list::part(area, top, height);
        let readings = self.readings(ctx);
        let days = count(usize::try_from(self.days()).unwrap_or(1), "day");
        let mut entries = vec![Entry::heading(format!(
            "Last {days}: {}",
            count(readings.len(), "reading")
        ))];
        entries.extend(readings.iter().map(|reading| row(reading, ctx)));
        let focus = self.picked.index(&keys(&readings)).unwrap_or(0);
        list::list(buf, below, &entries, focus, ctx.theme);
    }

    fn hints(&self, width: usize, ctx: &Ctx<'_>) -> String {
        let any = !self.readings(ctx).is_empty();
        KEYS.hint_line(width, |act| match act {
            Act::Correct | Act::Remove => any,
            Act::Clear => !ctx.shop.forecast.steps().is_empty(),
            Act::Longer => self.days + 1 < DAYS.len(),
            Act::Shorter => self.days > 0,
            Act::Usual => !ctx.shop.air.is_empty(),
            _ => true,
        })
    }

    fn help(&self, width: usize) -> Vec<String> {
        picked::help(ABOUT, &KEYS, "", width)
    }
}

impl Air {
    /// Draws the plots, beside each other where there is room; gives back the rows they took.
    fn draw_plots(&self, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) -> usize {
        let (width, height) = (usize::from(area.width), usize::from(area.height));
        let rows = (height * 3 / 5).min(14);
        let figures = [
            Figure::Temperature(ctx.shop.settings.temperature),
            Figure::Humidity,
        ];
        let half = width.saturating_sub(2) / 2;
        if half < 30 || rows < 5 {
            return 0;
        }
        for (figure, col) in figures.into_iter().zip([0, half + 2]) {
            let place = list::columns(list::part(area, 0, rows), col, half);
            air_plot::draw(buf, place, figure, self.days(), ctx);
        }
        list::pane(
            buf,
            list::part(area, rows, 1),
            &[(Tone::Dim, LEGEND.to_owned())],
            "v",
            ctx.theme,
        );
        rows + 1
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_key_table_is_sound() {
        crate::tui::global_keys::assert_screen(&super::KEYS);
    }
}
