//! Bench hours and step times, shown and changed; slots of single days.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::desk::typed::{
    read_bench_figure, read_hours, read_interruptions, read_slot, read_step_time, write_hours,
    write_step_time,
};
use crate::desk::{Action, Shop};
use crate::papers::{SheetWords, slot_code};
use crate::shop::{BenchBook, SlotMeans, Step, WEEK, long_day};
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree hours\n  tackfree hours --mon '8-12, 12:30-5' --sat 8-12\n  tackfree hours --weekdays 7:30-16:00 --rack 8\n  tackfree hours --fri none\n\nWithout options the hours are shown. Single days are changed with tackfree slot. With --json: week\n[day, hours], rack_places, settle_minutes, settle_scuff_minutes, setup_keeps_minutes,\ninterruptions_in_ten_days, interruption_minutes, seed.";
/// Examples and fields.
pub const TIMES_MORE: &str = "Examples:\n  tackfree steptimes\n  tackfree steptimes coat '7 + 0.55 a sq ft'\n  tackfree steptimes scuff '3-4-6 + 0.3-0.4-0.6 a sq ft'\n  tackfree steptimes coat --start\n\nMinutes of a step are fixed + rate x area; each figure alone or as low-likely-high. The starting\nranges are ours, to be replaced by your own clock. With --json: [step, fixed_minutes,\nminutes_per_sq_ft, standing], each figure [low, likely, high].";
/// Examples and fields.
pub const SLOT_MORE: &str = "Examples:\n  tackfree slot '2pm measure Miller 1h'\n  tackfree slot 'Fri away'\n  tackfree slot 'site visit Tue 9-11'\n  tackfree slot 'Sat open 8-12'\n  tackfree slot 'away Dec 21 to Dec 24'\n  tackfree slot --remove 3f09c2\n\nTime that is taken, a day off, or bench hours added, on one day. Hours of one to four without am or\npm are in the afternoon. Without anything typed the slots from today on are listed, each with the\ncode that removes it. With --json: [code, id, day, means, from, to, what].";

/// What was typed.
#[derive(Debug, Args, Default)]
pub struct HoursArgs {
    /// Monday.
    #[arg(long, value_name = "HOURS")]
    pub mon: Option<String>,
    /// Tuesday.
    #[arg(long, value_name = "HOURS")]
    pub tue: Option<String>,
    /// Wednesday.
    #[arg(long, value_name = "HOURS")]
    pub wed: Option<String>,
    /// Thursday.
    #[arg(long, value_name = "HOURS")]
    pub thu: Option<String>,
    /// Friday.
    #[arg(long, value_name = "HOURS")]
    pub fri: Option<String>,
    /// Saturday.
    #[arg(long, value_name = "HOURS")]
    pub sat: Option<String>,
    /// Sunday.
    #[arg(long, value_name = "HOURS")]
    pub sun: Option<String>,
    /// Monday to Friday.
    #[arg(long, value_name = "HOURS", conflicts_with_all = ["mon", "tue", "wed", "thu", "fri"])]
    pub weekdays: Option<String>,
    /// Places for drying pieces, or none for no limit.
    #[arg(long, value_name = "PLACES")]
    pub rack: Option<String>,
    /// Minutes until sanding dust has settled.
    #[arg(long, value_name = "MINUTES")]
    pub settle: Option<String>,
    /// The same after a scuff.
    #[arg(long, value_name = "MINUTES")]
    pub settle_scuff: Option<String>,
    /// Minutes a set-up stands after a pass.
    #[arg(long, value_name = "MINUTES")]
    pub setup_keeps: Option<String>,
    /// Interruptions, like "2 a day, 10-20-60 min".
    #[arg(long, value_name = "TEXT")]
    pub interruptions: Option<String>,
    /// What chance begins with.
    #[arg(long, value_name = "NUMBER")]
    pub seed: Option<String>,
}

#[derive(Serialize)]
struct HoursJson {
    week: Vec<DayJson>,
    rack_places: Option<u32>,
    settle_minutes: u32,
    settle_scuff_minutes: u32,
    setup_keeps_minutes: u32,
    interruptions_in_ten_days: u32,
    interruption_minutes: [f64; 3],
    seed: u32,
}

#[derive(Serialize)]
struct DayJson {
    day: &'static str,
    hours: String,
}

/// Shows or changes bench hours.
pub fn run(args: &HoursArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let mut book = shop.plan.bench.clone();
    let days = [
        (&args.mon, "mon"),
        (&args.tue, "tue"),
        (&args.wed, "wed"),
        (&args.thu, "thu"),
        (&args.fri, "fri"),
        (&args.sat, "sat"),
        (&args.sun, "sun"),
    ];
    let mut changed = false;
    let mut week: [Vec<crate::shop::DaySpan>; 7] = WEEK.map(|day| book.week.day(day).to_vec());
    for (no, (typed, field)) in days.into_iter().enumerate() {
        let weekday = args.weekdays.as_ref().filter(|_| no < 5);
        if let Some(text) = typed.as_ref().or(weekday) {
            week[no] = read_hours(field, text)?;
            changed = true;
        }
    }
    if changed {
        book.week =
            crate::shop::WeekHours::new(week).map_err(|error| Failure::said(error.to_string()))?;
    }
    if let Some(text) = &args.rack {
        let none = matches!(text.trim(), "none" | "no limit");
        book.rack = if none {
            None
        } else {
            Some(read_bench_figure("rack", text)?)
        };
        changed = true;
    }
    for (typed, field, to) in [
        (&args.settle, "settle", &mut book.settle),
        (&args.settle_scuff, "settle_scuff", &mut book.settle_scuff),
        (&args.setup_keeps, "setup_keeps", &mut book.keep),
        (&args.seed, "seed", &mut book.seed),
    ] {
        if let Some(text) = typed {
            *to = read_bench_figure(field, text)?;
            changed = true;
        }
    }
    if let Some(text) = &args.interruptions {
        book.interruptions = read_interruptions(text)?;
        changed = true;
    }
    if changed {
        return session.perform(&Action::SaveBench(Box::new(book)));
    }
    show(&book)
}

fn show(book: &BenchBook) -> Result<Answer, Failure> {
    let mut lines: Vec<String> = WEEK
        .iter()
        .map(|day| {
            format!(
                "{:<10} {}",
                long_day(*day),
                write_hours(book.week.day(*day))
            )
        })
        .collect();
    lines.push(match book.rack {
        Some(places) => format!("Rack: {places} places for drying pieces"),
        None => "Rack: no limit".to_owned(),
    });
    lines.push(format!(
        "Dust settles in {} min after sanding, {} after a scuff (common practice, no source)",
        book.settle, book.settle_scuff
    ));
    lines.push(format!("A set-up stands {} min after a pass", book.keep));
    let [low, likely, high] = book.interruptions.minutes.minutes();
    lines.push(format!(
        "Interruptions: {} in ten days, {low:.0}-{likely:.0}-{high:.0} min",
        book.interruptions.in_ten_days
    ));
    let week = WEEK.iter().map(|day| DayJson {
        day: long_day(*day),
        hours: write_hours(book.week.day(*day)),
    });
    Answer::new(
        lines,
        HoursJson {
            week: week.collect(),
            rack_places: book.rack,
            settle_minutes: book.settle,
            settle_scuff_minutes: book.settle_scuff,
            setup_keeps_minutes: book.keep,
            interruptions_in_ten_days: book.interruptions.in_ten_days,
            interruption_minutes: [low, likely, high],
            seed: book.seed,
        },
    )
}

/// What was typed.
#[derive(Debug, Args)]
pub struct SteptimesArgs {
    /// The kind of step.
    #[arg(value_name = "STEP")]
    pub step: Option<String>,
    /// Its time, like "7 + 0.55 a sq ft".
    #[arg(value_name = "TIME")]
    pub time: Option<String>,
    /// Takes your own figure away again.
    #[arg(long, conflicts_with = "time", requires = "step")]
    pub start: bool,
}

#[derive(Serialize)]
struct TimeJson {
    step: &'static str,
    fixed_minutes: [f64; 3],
    minutes_per_sq_ft: [f64; 3],
    standing: String,
}

/// Shows or changes step times.
pub fn steptimes(args: &SteptimesArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let mut book = shop.plan.bench.clone();
    let Some(word) = &args.step else {
        return show_times(&book);
    };
    let words: Vec<(Step, String)> = Step::ALL.map(|step| (step, step.code().to_owned())).into();
    let step = crate::desk::typed::pick("step", word, &words)?;
    if args.start {
        book.times.reset(step);
    } else {
        let Some(text) = &args.time else {
            return Err(Failure::said(format!(
                "Say its time, like: tackfree steptimes {} '7 + 0.55 a sq ft'",
                step.code()
            )));
        };
        book.times
            .set(step, read_step_time(text)?)
            .map_err(|error| Failure::said(error.to_string()))?;
    }
    session.perform(&Action::SaveBench(Box::new(book)))
}

fn show_times(book: &BenchBook) -> Result<Answer, Failure> {
    let mut lines = Vec::new();
    let mut rows = Vec::new();
    for step in Step::ALL {
        let time = book.times.of(step);
        let standing = book.times.standing(step).words();
        lines.push(format!(
            "{:<10} {}; {} ({standing})",
            step.code(),
            step.words(),
            write_step_time(time, step)
        ));
        let fine = |figures: [f64; 3]| figures.map(|figure| (figure * 1000.0).round() / 1000.0);
        rows.push(TimeJson {
            step: step.code(),
            fixed_minutes: fine(time.fixed.minutes()),
            minutes_per_sq_ft: fine(time.rate.per_sq_ft()),
            standing: standing.to_owned(),
        });
    }
    lines.push("Starting ranges, to be replaced by your own clock.".to_owned());
    Answer::new(lines, rows)
}

/// What was typed.
#[derive(Debug, Args)]
pub struct SlotArgs {
    /// What, when: "2pm measure Miller 1h", "Fri away", "Sat open 8-12".
    #[arg(num_args = 0.., value_name = "SLOT")]
    pub slot: Vec<String>,
    /// Removes the slot with this code.
    #[arg(long, value_name = "CODE", conflicts_with = "slot")]
    pub remove: Option<String>,
}

#[derive(Serialize)]
struct SlotJson {
    code: String,
    id: String,
    day: String,
    means: &'static str,
    from: Option<String>,
    to: Option<String>,
    what: String,
}

/// Adds, removes or lists slots.
pub fn slot(args: &SlotArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    if let Some(code) = &args.remove {
        let code = code.trim().to_lowercase();
        let mut found = shop
            .plan
            .slots
            .iter()
            .filter(|slot| slot_code(slot.id) == code || slot.id.to_string() == code);
        return match (found.next(), found.next()) {
            (Some(slot), None) => session.perform(&Action::RemoveSlot(slot.id)),
            _ => Err(Failure::said(
                "There is no slot with that code, or more than one: tackfree slot lists them.",
            )),
        };
    }
    if args.slot.is_empty() {
        return list(&shop, session);
    }
    let drafts = read_slot(&args.slot.join(" "), session.today(&shop))?;
    session.perform(&Action::AddSlots(drafts))
}

fn list(shop: &Shop, session: &Session<'_>) -> Result<Answer, Failure> {
    let today = session.today(shop);
    let words = SheetWords {
        shop,
        now: session.now,
    };
    let (mut lines, mut rows) = (Vec::new(), Vec::new());
    for slot in shop.plan.slots.iter().filter(|slot| slot.day >= today) {
        lines.push(format!(
            "{}  {}: {}",
            slot_code(slot.id),
            words.day(slot.day),
            slot.words()
        ));
        let (means, span) = match slot.means {
            SlotMeans::DayOff => ("day-off", None),
            SlotMeans::Taken(span) => ("taken", Some(span)),
            SlotMeans::Added(span) => ("added", Some(span)),
        };
        let typed = span.map(crate::shop::DaySpan::typed);
        let ends = typed.as_deref().and_then(|typed| typed.split_once('-'));
        rows.push(SlotJson {
            code: slot_code(slot.id),
            id: slot.id.to_string(),
            day: slot.day.to_string(),
            means,
            from: ends.map(|(from, _)| from.to_owned()),
            to: ends.map(|(_, to)| to.to_owned()),
            what: slot.what.clone(),
        });
    }
    if lines.is_empty() {
        lines.push("No slots from today on.".to_owned());
    }
    Answer::new(lines, rows)
}
