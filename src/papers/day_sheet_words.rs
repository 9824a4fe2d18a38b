//! The lines of the day sheet in words: what to do, why then, what changed, what would save a job.

use crate::desk::Shop;
use crate::shape::FaceKey;
use crate::shop::day_sheet::{Because, Change, Changed, Cure, LateJob, Line, Why};
use crate::shop::promise::WhatIf;
use crate::shop::{JobId, PieceId, StepCode, StepKey};
use crate::units::moment::{show_date, show_moment, show_span};
use chrono::{DateTime, Duration, NaiveDate, Utc};

/// Words over one snapshot at one moment.
#[derive(Clone, Copy)]
pub struct SheetWords<'a> {
    /// The shop.
    pub shop: &'a Shop,
    /// The moment.
    pub now: DateTime<Utc>,
}

impl SheetWords<'_> {
    /// A moment on the shop's clock.
    pub fn at(&self, at: DateTime<Utc>) -> String {
        show_moment(at, self.now, self.shop.settings.zone)
    }

    /// A time of day alone.
    pub fn clock(&self, at: DateTime<Utc>) -> String {
        show_moment(at, at, self.shop.settings.zone)
    }

    /// A day.
    pub fn day(&self, day: NaiveDate) -> String {
        show_date(day, crate::shop::day_of(self.now, self.shop.settings.zone))
    }

    /// A piece as it is called.
    pub fn piece(&self, id: PieceId) -> String {
        self.shop
            .file(id)
            .map_or_else(|| "the piece".to_owned(), |file| self.shop.called(file))
    }

    /// A job with its number: `job 2 Island and bar`.
    pub fn job(&self, id: JobId) -> String {
        self.shop.job(id).map_or_else(
            || "the job".to_owned(),
            |job| format!("job {} {}", job.no, job.title),
        )
    }

    /// A step of a piece: `coat 2 on 3A sink counter`.
    pub fn step(&self, key: StepKey) -> String {
        format!("{} on {}", key.step.words(), self.piece(key.piece))
    }

    /// What to do: `3A sink counter: coat 2 of 6, wiping varnish, all 9 faces`.
    pub fn line(&self, line: &Line) -> String {
        let mut parts = vec![self.what(line)];
        if let Some(product) = line.product.and_then(|id| self.shop.product(id)) {
            parts.push(product.name.clone());
        }
        if let Some(means) = line.means {
            parts.push(format!("with {}", means.words()));
        }
        parts.push(self.faces(line));
        format!("{}: {}", self.piece(line.key.piece), parts.join(", "))
    }

    fn what(&self, line: &Line) -> String {
        match line.key.step {
            StepCode::Coat(_, _) if line.of > 1 => {
                format!("{} of {}", line.key.step.words(), line.of)
            }
            StepCode::Scuff(..) if line.abrades => {
                line.key.step.words().replacen("scuff", "abrade", 1)
            }
            StepCode::Coat(crate::shop::CoatKind::Stain, _) => "stain on, wipe off".to_owned(),
            StepCode::Set => match self
                .shop
                .file(line.key.piece)
                .and_then(|f| self.shop.job(f.piece.job))
            {
                Some(job) if !job.site.is_empty() => format!("set at {}", job.site),
                _ => "set on site".to_owned(),
            },
            step => step.words(),
        }
    }

    fn faces(&self, line: &Line) -> String {
        let all = self.shop.file(line.key.piece).map_or(0, |file| {
            file.piece.shape.faces(file.piece.construction).len()
        });
        if line.faces.len() == all {
            return "all faces".to_owned();
        }
        if line.faces.len() <= 3 {
            let names: Vec<String> = line.faces.iter().map(FaceKey::to_string).collect();
            return names.join(", ");
        }
        format!("{} of {all} faces", line.faces.len())
    }

    /// From when to when; the parts where breaks part it.
    pub fn times(&self, line: &Line) -> String {
        let one = |from, to| format!("{} to {}", self.clock(from), self.clock(to));
        if line.parts.len() < 2 {
            return one(line.start, line.end);
        }
        let parts: Vec<String> = line
            .parts
            .iter()
            .map(|part| one(part.from, part.to))
            .collect();
        parts.join(", ")
    }

    /// Why then and why it, as one sentence without its end; empty where nothing is to be said.
    pub fn why(&self, line: &Line) -> String {
        let mut words: Vec<String> = line.why.iter().map(|why| self.reason(*why)).collect();
        if line.extra > 0 {
            words.push(format!(
                "its window will have shut: {} min of abrading in it",
                line.extra
            ));
        }
        if line.setup > 0 {
            words.push(match line.key.step {
                StepCode::Set => format!("{} min of the way in it", line.setup),
                _ => format!("{} min of set-up in it", line.setup),
            });
        }
        words.retain(|word| !word.is_empty());
        words.join("; ")
    }

    fn reason(&self, why: Why) -> String {
        match why {
            Why::UnderWay => "under way".to_owned(),
            Why::WipeOffNow => "stain is wiped off before it sets".to_owned(),
            Why::Dry(at) => format!("dry to recoat {}", self.at(at)),
            Why::Free(at) => format!("free from {}", self.at(at)),
            Why::Cured(at) => format!("cured {}", self.at(at)),
            Why::BenchOpens => "first thing when the bench opens".to_owned(),
            Why::Dust(piece) => format!(
                "waits for clean air: dust and wet coats do not go together ({})",
                self.piece(piece)
            ),
            Why::Rack => "waits for a place on the rack or clean air".to_owned(),
            Why::WouldBeCut => "sooner the break or closing time would cut it off".to_owned(),
            Why::Shuts(at) => format!("its window shuts {}", self.at(at)),
            Why::NothingElse(at) => format!("nothing else is ready before {}", self.at(at)),
            Why::LastOfAll => "nothing else is left to do".to_owned(),
            Why::LeastSlack(job, spare) => {
                format!(
                    "{} has the least to spare, {}",
                    self.job(job),
                    show_span(spare)
                )
            }
            Why::Late(job) => format!("{} is late", self.job(job)),
            Why::SharesSetUp => "the product is set up already".to_owned(),
            Why::DriesOverNight(at) => {
                format!("dries while the bench is shut, until {}", self.at(at))
            }
            Why::LongestToGo => "the sooner it is on, the sooner it dries".to_owned(),
        }
    }

    /// A change against the kept sheet.
    pub fn changed(&self, changed: Changed) -> String {
        match changed {
            Changed::Moved { key, was, now } => {
                format!(
                    "{}: {} (was {})",
                    self.step(key),
                    self.at(now),
                    self.at(was)
                )
            }
            Changed::New { key, now } => format!("{}: {} (new)", self.step(key), self.at(now)),
            Changed::Job { job, was, now } => {
                format!(
                    "{} ends {} (was {})",
                    self.job(job),
                    self.at(now),
                    self.at(was)
                )
            }
        }
    }

    /// By how much a job is late and why.
    pub fn late(&self, late: &LateJob) -> String {
        let head = format!(
            "{} will be {} late",
            self.job(late.job),
            show_span(late.late)
        );
        match &late.because {
            None => head,
            Some(Because::Itself { .. }) if self.is_gone(late.job) => {
                format!("{head}: the promised day is gone by")
            }
            Some(Because::Itself { alone }) => format!(
                "{head}: with nothing else to do it would end {}, its own drying and bench hours need that long",
                self.at(*alone)
            ),
            Some(Because::Others { alone, jobs }) => {
                let others: Vec<String> = jobs
                    .iter()
                    .map(|(job, minutes)| {
                        format!(
                            "{} {}",
                            self.job(*job),
                            show_span(Duration::minutes(*minutes))
                        )
                    })
                    .collect();
                format!(
                    "{head}: alone it would end {}, but the hands are wanted before it by {}",
                    self.at(*alone),
                    others.join(", ")
                )
            }
        }
    }

    fn is_gone(&self, job: JobId) -> bool {
        let today = crate::shop::day_of(self.now, self.shop.settings.zone);
        let promised = self.shop.job(job).and_then(|job| job.promised);
        promised.is_some_and(|day| day < today)
    }

    /// One cure and what comes of it.
    pub fn cure(&self, cure: &Cure) -> String {
        let then = match cure.late {
            None => format!("then it ends {}, in time", self.at(cure.end)),
            Some(late) => format!(
                "then it ends {}, still {} late",
                self.at(cure.end),
                show_span(late)
            ),
        };
        match cure.change {
            Change::Hours(day, span) => format!("work {}, {}: {then}", self.day(day), span.words()),
            Change::Recipe(id) => {
                let name = self
                    .shop
                    .recipe(id)
                    .map_or("another recipe", |recipe| recipe.name.as_str());
                format!("its pieces not yet begun by the recipe {name}: {then}")
            }
            Change::OtherPromise(job, day) => {
                format!(
                    "promise {} for {} instead: {then}",
                    self.job(job),
                    self.day(day)
                )
            }
            Change::OwnPromise(day) => format!("or promise it for {}", self.day(day)),
        }
    }

    /// A what-if of a promise.
    pub fn what_if(&self, what: WhatIf) -> String {
        match what {
            WhatIf::FewerCoats => "one topcoat fewer".to_owned(),
            WhatIf::Recipe(id) => {
                let name = self
                    .shop
                    .recipe(id)
                    .map_or("another", |recipe| recipe.name.as_str());
                format!("by the recipe {name}")
            }
            WhatIf::Saturday => "with Saturdays 8 to 12".to_owned(),
        }
    }
}
