//! Products and what they do on wood: the label's figures, film and spread, and when a coat is
//! dry.
//!
//! Lives here: products, pass amounts, the drying clock. May not live here: pieces, faces'
//! histories, the store, the screen, or any reading of a clock; time is passed in.

pub mod cans;
mod drying;
pub mod families;
pub mod family_ranges;
mod figures;
pub mod id;
mod product;
mod product_doubts;
mod recoat_words;

pub use drying::{DryingClock, LabelHours, Recoat, recoat_state};
pub use figures::{Figure, FigureSet, FigureSource, LabelFigures, Voc};
pub use id::ProductId;
pub use product::{Family, FigureBasis, Product, ProductError, ProductKind, RecoatWindow, Span};
pub use product_doubts::{Doubt, show_film};
pub use rates::Method;
pub use recoat_words::{after_windows, span_words, windows_words};

// Use: film, learned rates, cans.
pub mod film;
pub mod rates;

// The drying clock by the shop's air.
pub mod air_clock;
mod air_clock_cost;
mod air_clock_why;
pub mod air_log;
pub mod air_log_csv;
mod air_log_csv_head;
mod air_log_csv_rows;
mod air_log_csv_scale;
mod air_log_csv_time;
mod air_log_kinds;
mod air_log_sums;
mod air_log_usual;
pub mod forecast;
pub mod learning;
pub mod model;
pub mod psychro;
pub mod psychro_checks;

pub use air_clock::{Reach, ShopAirClock, Tuning, Twin, beyond_sight, show_reached};
pub use air_clock_cost::{Cost, Held};
pub use air_clock_why::{Slows, Speed};
pub use air_log::AirLog;
pub use air_log_csv::{
    DateOrder, FileHumidity, FileScale, LoggerAnswers, LoggerColumns, LoggerError, LoggerQuestion,
    LoggerRead, LoggerReport, Refused, read_logger,
};
pub use air_log_kinds::{
    AirAt, AirBasis, AirReading, Assumed, Coverage, Inserted, Merged, ReadingError, ShopAir,
};
pub use air_log_usual::{LEARNS_FROM, UsualDay};
pub use forecast::{Forecast, ForecastError, ForecastStep, PassTimes, SafeLikely, WindowTimes};
pub use learning::{FilmStage, Found, Learned, TouchTest, learn, look_again};
pub use model::{Care, DryingLaw, Hardening, HumidityCurve, ModelSettings, film_factor};
pub use psychro_checks::{BeforePass, Check, Finding, Stands, before_pass, stain_wait};
