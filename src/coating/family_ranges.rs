//! The range in which the labels of a family lie, figure by figure, and how each range was found.
//!
//! Gathered from makers' data sheets and, where none was seen, from trade pages or from memory;
//! each range says which. The can label always wins. Tack-free and dry to handle are on few
//! labels: no range was found for them, nor for a film's thickness.

use super::figures::{Figure, LabelFigures, Voc};
use super::product::{Family, Span};
use crate::units::{Humidity, Length};

/// How a range was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Seen {
    /// Read in published makers' data sheets or on labels.
    Sheets,
    /// Read in trade pages that report labels.
    SecondHand,
    /// Reckoned from the make-up of the product.
    Reckoned,
    /// From memory, at least one of its ends; no source was seen.
    Memory,
}

impl Seen {
    /// The words behind the range.
    pub fn words(self) -> &'static str {
        match self {
            Self::Sheets => "makers' sheets",
            Self::SecondHand => "trade pages",
            Self::Reckoned => "reckoned",
            Self::Memory => "from memory",
        }
    }
}

/// A range of one figure, in the unit of [`measure`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FamilyRange {
    /// Its low end.
    pub low: f64,
    /// Its high end; the same as the low one where one figure is all there is.
    pub high: f64,
    /// How it was found.
    pub seen: Seen,
}

impl FamilyRange {
    /// Whether a figure lies in it. A hundredth beyond an end still does: labels round.
    pub fn holds(&self, figure: f64) -> bool {
        let slack = 0.01 * (self.high - self.low).abs().max(self.high.abs());
        (self.low - slack..=self.high + slack).contains(&figure)
    }
}

/// A figure as a number: m2/L, micrometres, per cent, g/mL, g/L, degrees Celsius, and minutes for
/// every time; of recoat windows the opening of the first that does not open at once. `None` for
/// one that is not given.
pub fn measure(label: &LabelFigures, figure: Figure) -> Option<f64> {
    let minutes = |span: Span| span.as_minutes() as f64;
    let micrometres = |film: Length| film.nm() as f64 / 1000.0;
    match figure {
        Figure::Spread => Some(label.spread.m2_per_l()),
        Figure::WetFilm => label.wet_film.map(micrometres),
        Figure::DryFilm => label.dry_film.map(micrometres),
        Figure::Solids => Some(label.solids_pct),
        Figure::Density => Some(label.density.g_per_ml()),
        Figure::Voc => label.voc.map(Voc::g_per_l),
        Figure::Reference => Some(label.reference.c()),
        Figure::ReferenceHumidity => label.reference_humidity.map(Humidity::percent),
        Figure::Touch => Some(minutes(label.touch)),
        Figure::TackFree => Some(minutes(label.tack_free)),
        Figure::Windows => {
            let mut opens = label.windows.iter().map(|window| minutes(window.opens));
            let first = opens.clone().find(|opens| *opens > 0.0);
            first.or_else(|| opens.next_back())
        }
        Figure::Handle => Some(minutes(label.handle)),
        Figure::LightUse => Some(minutes(label.light_use)),
        Figure::FullCure => Some(minutes(label.full_cure)),
        Figure::MinTemp => Some(label.min_temp.c()),
        Figure::MaxHumidity => Some(label.max_humidity.percent()),
    }
}

/// The range of a figure in a family, if one was found; of recoat windows the opening.
pub fn usual_range(family: Family, figure: Figure) -> Option<FamilyRange> {
    let (low, high, seen) = match figure {
        Figure::Spread => spread(family)?,
        Figure::Solids => solids(family)?,
        Figure::Density => density(family),
        Figure::Voc => voc(family)?,
        // Can labels name 77 F (25 C) or 70 F (21 C), some European sheets 20 C.
        Figure::Reference => (20.0, 25.0, Seen::Sheets),
        Figure::Touch => hours(touch(family)),
        Figure::Windows => hours(opens(family)),
        Figure::LightUse => days(light_use(family)?),
        Figure::FullCure => days(full_cure(family)?),
        Figure::MinTemp => min_temp(family),
        Figure::MaxHumidity => max_humidity(family),
        Figure::WetFilm
        | Figure::DryFilm
        | Figure::ReferenceHumidity
        | Figure::TackFree
        | Figure::Handle => return None,
    };
    Some(FamilyRange { low, high, seen })
}

/// When the recoat window of a family closes, in minutes; `None` where its labels set no limit.
pub fn usual_closing(family: Family) -> Option<FamilyRange> {
    use Family as F;
    let (low, high, seen) = hours(match family {
        F::OilWipingVarnish => (24.0, 24.0, Seen::SecondHand),
        F::OilBrushingVarnish => (12.0, 24.0, Seen::SecondHand),
        F::OilConditioner => (2.0, 2.0, Seen::Memory),
        F::WaterBorne => (12.0, 12.0, Seen::SecondHand),
        F::Lacquer => (12.0, 12.0, Seen::Sheets),
        F::OilGelStain
        | F::OilLiquidStain
        | F::Shellac
        | F::HardwaxOil
        | F::TungOil
        | F::MineralSpirits => return None,
    });
    Some(FamilyRange { low, high, seen })
}

/// Low end, high end, how it was found.
type Ends = (f64, f64, Seen);

fn hours((low, high, seen): Ends) -> Ends {
    (low * 60.0, high * 60.0, seen)
}

fn days((low, high, seen): Ends) -> Ends {
    (low * 1440.0, high * 1440.0, seen)
}

/// m2/L.
fn spread(family: Family) -> Option<Ends> {
    use Family as F;
    Some(match family {
        F::OilWipingVarnish => (12.3, 18.4, Seen::Sheets),
        F::OilBrushingVarnish => (7.4, 17.2, Seen::Sheets),
        F::OilGelStain => (7.4, 19.6, Seen::Sheets),
        F::OilLiquidStain | F::OilConditioner => (9.8, 14.7, Seen::Memory),
        F::WaterBorne => (8.6, 14.7, Seen::Sheets),
        F::Shellac => (7.4, 12.3, Seen::Memory),
        F::HardwaxOil => (20.0, 30.0, Seen::SecondHand),
        F::TungOil => (9.8, 12.3, Seen::Memory),
        F::Lacquer => (6.3, 8.1, Seen::Sheets),
        F::MineralSpirits => return None,
    })
}

/// Per cent of the volume.
fn solids(family: Family) -> Option<Ends> {
    use Family as F;
    Some(match family {
        F::OilWipingVarnish => (20.0, 30.0, Seen::Memory),
        F::OilBrushingVarnish => (33.0, 45.0, Seen::Sheets),
        F::OilGelStain => (25.0, 45.0, Seen::Memory),
        F::OilLiquidStain => (20.0, 40.0, Seen::Memory),
        F::OilConditioner => (5.0, 20.0, Seen::Memory),
        F::WaterBorne => (22.0, 35.0, Seen::Memory),
        F::Shellac => (13.0, 17.0, Seen::Reckoned),
        F::HardwaxOil => (50.0, 100.0, Seen::Memory),
        F::TungOil => (50.0, 50.0, Seen::Reckoned),
        F::Lacquer => (16.0, 17.0, Seen::Sheets),
        F::MineralSpirits => return None,
    })
}

/// g/mL.
fn density(family: Family) -> Ends {
    use Family as F;
    match family {
        F::OilWipingVarnish => (0.84, 0.88, Seen::Memory),
        F::OilBrushingVarnish => (0.90, 0.95, Seen::Sheets),
        F::OilGelStain => (0.88, 1.00, Seen::Memory),
        F::OilLiquidStain => (0.85, 0.95, Seen::Memory),
        F::OilConditioner => (0.80, 0.85, Seen::Memory),
        F::WaterBorne => (1.00, 1.05, Seen::Sheets),
        F::Shellac => (0.84, 0.86, Seen::Reckoned),
        F::HardwaxOil => (0.88, 0.98, Seen::Memory),
        F::TungOil => (0.87, 0.90, Seen::Reckoned),
        F::Lacquer => (0.90, 0.92, Seen::Memory),
        F::MineralSpirits => (0.77, 0.79, Seen::Memory),
    }
}

/// g/L.
fn voc(family: Family) -> Option<Ends> {
    use Family as F;
    Some(match family {
        F::OilWipingVarnish => (446.0, 565.0, Seen::Sheets),
        F::OilBrushingVarnish => (446.0, 448.0, Seen::Sheets),
        F::OilGelStain => (250.0, 550.0, Seen::Memory),
        F::WaterBorne => (236.0, 275.0, Seen::Sheets),
        F::Shellac => (0.0, 730.0, Seen::Memory),
        F::HardwaxOil => (0.0, 500.0, Seen::Memory),
        F::Lacquer => (275.0, 673.0, Seen::Sheets),
        // All of it leaves: its weight.
        F::MineralSpirits => (770.0, 790.0, Seen::Reckoned),
        F::OilLiquidStain | F::OilConditioner | F::TungOil => return None,
    })
}

/// Hours.
fn touch(family: Family) -> Ends {
    use Family as F;
    match family {
        F::OilWipingVarnish => (2.0, 6.0, Seen::Sheets),
        F::OilBrushingVarnish => (1.0, 3.0, Seen::Sheets),
        F::OilGelStain => (8.0, 24.0, Seen::Sheets),
        F::OilLiquidStain => (2.0, 8.0, Seen::Memory),
        F::OilConditioner => (5.0 / 60.0, 0.25, Seen::SecondHand),
        F::WaterBorne => (0.5, 1.0, Seen::Sheets),
        F::Shellac => (0.1, 0.5, Seen::Memory),
        F::HardwaxOil => (6.0, 12.0, Seen::SecondHand),
        F::TungOil => (24.0, 72.0, Seen::SecondHand),
        F::Lacquer => (10.0 / 60.0, 0.25, Seen::Sheets),
        F::MineralSpirits => (0.25, 20.0 / 60.0, Seen::SecondHand),
    }
}

/// Hours from the coat to the opening of the window.
fn opens(family: Family) -> Ends {
    use Family as F;
    match family {
        F::OilWipingVarnish => (4.0, 24.0, Seen::Sheets),
        F::OilBrushingVarnish => (6.0, 12.0, Seen::Sheets),
        F::OilGelStain => (12.0, 24.0, Seen::Sheets),
        F::OilConditioner | F::MineralSpirits => (0.25, 0.5, Seen::SecondHand),
        F::WaterBorne => (2.0, 4.0, Seen::Sheets),
        F::Shellac => (0.5, 1.0, Seen::Sheets),
        F::OilLiquidStain | F::HardwaxOil => (8.0, 24.0, Seen::SecondHand),
        F::TungOil => (24.0, 72.0, Seen::SecondHand),
        F::Lacquer => (1.0, 2.0, Seen::Sheets),
    }
}

/// Days.
fn light_use(family: Family) -> Option<Ends> {
    use Family as F;
    Some(match family {
        F::OilWipingVarnish => (1.0, 3.0, Seen::SecondHand),
        F::OilBrushingVarnish => (2.0, 3.0, Seen::Sheets),
        F::WaterBorne => (7.0, 10.0, Seen::SecondHand),
        F::Shellac | F::Lacquer => (1.0, 1.0, Seen::Memory),
        F::HardwaxOil => (1.0, 2.0, Seen::SecondHand),
        F::TungOil => (7.0, 10.0, Seen::Sheets),
        F::OilGelStain | F::OilLiquidStain | F::OilConditioner | F::MineralSpirits => return None,
    })
}

/// Days. For stains: until a topcoat may go on.
fn full_cure(family: Family) -> Option<Ends> {
    use Family as F;
    Some(match family {
        F::OilWipingVarnish => (21.0, 30.0, Seen::SecondHand),
        F::OilBrushingVarnish => (7.0, 30.0, Seen::SecondHand),
        F::OilGelStain | F::OilLiquidStain => (1.0, 3.0, Seen::SecondHand),
        F::WaterBorne => (21.0, 30.0, Seen::Memory),
        F::Shellac => (7.0, 7.0, Seen::Memory),
        F::HardwaxOil => (7.0, 14.0, Seen::Memory),
        F::TungOil => (30.0, 30.0, Seen::Sheets),
        F::Lacquer => (7.0, 7.0, Seen::SecondHand),
        F::OilConditioner | F::MineralSpirits => return None,
    })
}

/// Degrees Celsius.
fn min_temp(family: Family) -> Ends {
    use Family as F;
    match family {
        F::OilWipingVarnish => (10.0, 16.0, Seen::Sheets),
        F::OilBrushingVarnish | F::WaterBorne => (10.0, 13.0, Seen::Sheets),
        F::OilGelStain => (16.0, 16.0, Seen::Memory),
        F::OilLiquidStain => (16.0, 16.0, Seen::SecondHand),
        F::OilConditioner | F::Shellac | F::TungOil | F::MineralSpirits => {
            (10.0, 10.0, Seen::Memory)
        }
        F::HardwaxOil => (12.0, 16.0, Seen::SecondHand),
        F::Lacquer => (15.0, 15.0, Seen::Memory),
    }
}

/// Per cent.
fn max_humidity(family: Family) -> Ends {
    use Family as F;
    match family {
        F::OilWipingVarnish => (70.0, 85.0, Seen::Sheets),
        F::OilBrushingVarnish => (85.0, 85.0, Seen::Sheets),
        F::WaterBorne => (80.0, 85.0, Seen::Sheets),
        F::HardwaxOil => (85.0, 85.0, Seen::SecondHand),
        F::OilConditioner | F::TungOil | F::MineralSpirits => (85.0, 85.0, Seen::Memory),
        F::OilGelStain | F::OilLiquidStain | F::Shellac => (70.0, 70.0, Seen::Memory),
        F::Lacquer => (65.0, 65.0, Seen::Memory),
    }
}
