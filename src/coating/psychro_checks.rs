//! What to check before a pass goes on: dew point, the label's limits, the wood's moisture, the
//! wipe flashed off, the stain dry. Each finding is data: what, how it stands, the figure, the
//! limit, and who says so.

use super::air_log_kinds::ShopAir;
use super::drying::DryingClock;
use super::model::Hardening;
use super::product::{Family, Product, ProductKind, Span};
use super::psychro::dew_margin;
use crate::units::moment::show_moment;
use crate::units::{Humidity, Temperature, TemperatureStyle};
use chrono::{DateTime, Utc};
use chrono_tz::Tz;

/// Least margin of the surface over the dew point, degrees Celsius (5 F).
pub const DEW_MARGIN: f64 = 3.0;
const DEW_SOURCE: &str = "ISO 8502-4 practice: surface at least 3 C (5 F) above the dew point";
const LABEL: &str = "the product's limits; the can label always wins";
/// Colder than this oil films are slow enough for a word.
const OIL_WARM: i32 = 18_000;
const OIL_WARM_SOURCE: &str = "a woodworking magazine: most finishes need 65 to 70 F for 8 h";
/// Damper than this oil films are slow enough for a word.
const OIL_DRY: i32 = 700;
const OIL_DRY_SOURCE: &str = "can labels stop at 70 to 85 % humidity; judgement";
/// Moisture content above which the wood is worth a word, and above which it is not coated.
const WOOD: (f64, f64) = (10.0, 12.0);
const WOOD_SOURCE: &str =
    "cabinet parts at most 10 % (ANSI/KCMA A161.1), interior wood 12 % (trade page); judgement";
/// Label time a stain needs under a topcoat of another base.
const OTHER_BASE_HOURS: i64 = 24;
const STAIN_SOURCE: &str = "a stain maker's data sheet: 24 h under a topcoat of another base";
const OWN_BASE_SOURCE: &str = "the stain's own recoat time";
const FLASH_SOURCE: &str =
    "a wipe must be gone before a coat (finishing writer); the wipe's own time";

/// How a check stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stands {
    /// In order.
    Fine,
    /// Not known: nothing was measured.
    Unknown,
    /// Allowed, with care.
    Mind,
    /// Wait, or change the conditions first.
    Hold,
}

/// What was checked, with its figure and its limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Check {
    /// Surface over dew point.
    DewPoint {
        /// Degrees Celsius above it; none without shop air.
        margin_c: Option<f64>,
        /// Degrees Celsius asked.
        least_c: f64,
    },
    /// The colder of air and surface against the least it may be.
    Cold {
        /// As measured.
        temperature: Option<Temperature>,
        /// The limit it is held to.
        least: Temperature,
    },
    /// Humidity against the most it may be.
    Damp {
        /// As measured.
        humidity: Option<Humidity>,
        /// The limit it is held to.
        most: Humidity,
    },
    /// Moisture content of the wood, per cent.
    Wood {
        /// As measured.
        percent: Option<f64>,
        /// The limit it is held to.
        most: f64,
    },
    /// The wipe's solvent gone.
    FlashOff {
        /// When it is.
        ready: DateTime<Utc>,
    },
    /// The stain dry for a topcoat of this base.
    StainDry {
        /// When it is.
        ready: DateTime<Utc>,
    },
    /// The sample board that the job asked for, still to be approved.
    SampleOpen,
}

/// One finding.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Finding {
    /// What, with figure and limit.
    pub check: Check,
    /// How it stands.
    pub stands: Stands,
    /// Who says so.
    pub source: &'static str,
}

/// What is known before a pass.
#[derive(Clone, Copy)]
pub struct BeforePass<'a> {
    /// What goes on.
    pub product: &'a Product,
    /// When.
    pub at: DateTime<Utc>,
    /// Shop air, if it is known.
    pub air: Option<ShopAir>,
    /// Temperature of the wood's surface, if it was measured; else it is taken as the air's.
    pub surface: Option<Temperature>,
    /// Moisture meter's reading of the wood, per cent.
    pub wood_percent: Option<f64>,
    /// The wipe on the bare wood and when it was wiped.
    pub wipe: Option<(&'a Product, DateTime<Utc>)>,
    /// The stain below and from when its drying counts.
    pub stain: Option<(&'a Product, DateTime<Utc>)>,
    /// The clock.
    pub clock: &'a dyn DryingClock,
}

/// Label time a stain needs before this topcoat: its own recoat time, and at least 24 hours where
/// the topcoat hardens in another way (another base).
pub fn stain_wait(stain: &Product, topcoat: Family) -> Span {
    let own = stain.label.windows.first().map(|window| window.opens);
    let own = own.unwrap_or(Span::hours(OTHER_BASE_HOURS));
    if same_base(stain.family, topcoat) {
        own
    } else {
        own.max(Span::hours(OTHER_BASE_HOURS))
    }
}

fn same_base(one: Family, other: Family) -> bool {
    let base = |family: Family| match family.hardening() {
        Hardening::Oxidises | Hardening::FlashesOff => 0,
        Hardening::LosesWater => 1,
        Hardening::LosesSolvent => 2,
    };
    base(one) == base(other) && (base(one) != 2 || one == other)
}

/// Every check that applies before this pass, in the order above. A wood reading is asked for
/// where the coat goes on bare wood (`stain` and `wipe` say nothing about that: the caller leaves
/// the finding out where a coat lies below).
pub fn before_pass(before: &BeforePass<'_>) -> Vec<Finding> {
    let mut findings = Vec::with_capacity(6);
    let label = &before.product.label;
    let oil = before.product.family.hardening() == Hardening::Oxidises;
    let coldest = before.air.map(|air| {
        let surface = before.surface.unwrap_or(air.temperature);
        (air, surface, surface.min(air.temperature))
    });

    let margin =
        coldest.map(|(air, surface, _)| dew_margin(surface, air.temperature, air.humidity));
    findings.push(Finding {
        check: Check::DewPoint {
            margin_c: margin,
            least_c: DEW_MARGIN,
        },
        stands: known(margin, |margin| *margin < DEW_MARGIN, |_| false),
        source: DEW_SOURCE,
    });

    let temperature = coldest.map(|(_, _, coldest)| coldest);
    let warm = Temperature::from(OIL_WARM).max(label.min_temp);
    let chilly = oil && temperature.is_some_and(|t| t >= label.min_temp && t < warm);
    findings.push(Finding {
        check: Check::Cold {
            temperature,
            least: if chilly { warm } else { label.min_temp },
        },
        stands: known(temperature, |t| *t < label.min_temp, |_| chilly),
        source: if chilly { OIL_WARM_SOURCE } else { LABEL },
    });

    let humidity = before.air.map(|air| air.humidity);
    let dry = Humidity::from_tenths(OIL_DRY)
        .map_or(label.max_humidity, |dry| dry.min(label.max_humidity));
    let humid = oil && humidity.is_some_and(|h| h <= label.max_humidity && h > dry);
    findings.push(Finding {
        check: Check::Damp {
            humidity,
            most: if humid { dry } else { label.max_humidity },
        },
        stands: known(humidity, |h| *h > label.max_humidity, |_| humid),
        source: if humid { OIL_DRY_SOURCE } else { LABEL },
    });

    let over = before.wood_percent.is_some_and(|percent| percent > WOOD.1);
    findings.push(Finding {
        check: Check::Wood {
            percent: before.wood_percent,
            most: if over { WOOD.1 } else { WOOD.0 },
        },
        stands: known(before.wood_percent, |_| over, |percent| *percent > WOOD.0),
        source: WOOD_SOURCE,
    });

    let by = |ready: DateTime<Utc>| {
        if before.at < ready {
            Stands::Hold
        } else {
            Stands::Fine
        }
    };
    if let Some((wipe, wiped)) = before.wipe
        && let Some(window) = wipe.label.windows.first()
    {
        let ready = before.clock.reached(wipe, wiped, window.opens);
        findings.push(Finding {
            check: Check::FlashOff { ready },
            stands: by(ready),
            source: FLASH_SOURCE,
        });
    }
    if let Some((stain, laid)) = before.stain
        && before.product.kind != ProductKind::Stain
    {
        let ready = before
            .clock
            .reached(stain, laid, stain_wait(stain, before.product.family));
        findings.push(Finding {
            check: Check::StainDry { ready },
            stands: by(ready),
            source: if same_base(stain.family, before.product.family) {
                OWN_BASE_SOURCE
            } else {
                STAIN_SOURCE
            },
        });
    }
    findings
}

fn known<T>(figure: Option<T>, hold: impl Fn(&T) -> bool, mind: impl Fn(&T) -> bool) -> Stands {
    match figure {
        None => Stands::Unknown,
        Some(figure) if hold(&figure) => Stands::Hold,
        Some(figure) if mind(&figure) => Stands::Mind,
        Some(_) => Stands::Fine,
    }
}

impl Finding {
    /// In words: `wood 2.6 F over the dew point, 5.4 F asked`.
    pub fn words(&self, now: DateTime<Utc>, zone: Tz, style: TemperatureStyle) -> String {
        let degrees = |c: f64| match style {
            TemperatureStyle::Fahrenheit => format!("{:.1} F", c * 9.0 / 5.0),
            TemperatureStyle::Celsius => format!("{c:.1} C"),
        };
        match self.check {
            Check::DewPoint {
                margin_c: Some(margin),
                least_c,
            } if margin.is_finite() && margin >= 0.0 => format!(
                "wood {} over the dew point, {} asked",
                degrees(margin),
                degrees(least_c)
            ),
            Check::DewPoint {
                margin_c: Some(margin),
                ..
            } if margin < 0.0 => {
                format!("wood {} under the dew point: it sweats", degrees(-margin))
            }
            Check::DewPoint {
                margin_c: Some(_), ..
            } => "dry air: no dew point".to_owned(),
            Check::DewPoint { margin_c: None, .. } => {
                "dew point not known: log the shop air".to_owned()
            }
            Check::Cold {
                temperature: Some(temperature),
                least,
            } => format!(
                "{}, {} at least",
                temperature.show(style),
                least.show(style)
            ),
            Check::Cold {
                temperature: None,
                least,
            } => format!("temperature not known, {} at least", least.show(style)),
            Check::Damp {
                humidity: Some(humidity),
                most,
            } => format!("{} humidity, {} at most", humidity.show(), most.show()),
            Check::Damp {
                humidity: None,
                most,
            } => format!("humidity not known, {} at most", most.show()),
            Check::Wood {
                percent: Some(percent),
                most,
            } => format!("wood at {percent:.1} % moisture, {most:.0} % at most"),
            Check::Wood {
                percent: None,
                most,
            } => format!("wood moisture not measured, {most:.0} % at most"),
            Check::FlashOff { ready } => after("wipe flashed off", "flashes off", ready, now, zone),
            Check::StainDry { ready } => after("stain dry", "stain dry", ready, now, zone),
            Check::SampleOpen => "the sample board is not approved yet".to_owned(),
        }
    }
}

fn after(past: &str, ahead: &str, ready: DateTime<Utc>, now: DateTime<Utc>, zone: Tz) -> String {
    let word = if ready <= now { past } else { ahead };
    format!("{word} {}", show_moment(ready, now, zone))
}
