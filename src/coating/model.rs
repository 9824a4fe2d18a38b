//! How fast a film dries in the shop's air, against the conditions its label was written for.
//!
//! The law is the project's own reading of published evidence (an Arrhenius factor for
//! temperature, a curve for humidity, hard limits from the label); each constant says where it
//! comes from. It gives the earliest moment to *test*, not a promise: its stated uncertainty is
//! 50 per cent either way, and the touch test decides.

use super::figures::LabelFigures;
use super::product::Family;
use crate::units::{Humidity, SpreadRate, Temperature};
use serde::{Deserialize, Serialize};

/// Molar gas constant, J/(mol K): exact product of the 2019 SI's constants (CODATA 2018).
pub const GAS_CONSTANT: f64 = 8.314_462_618;

/// Reference temperature of a label that names none: 23 C (ASTM D3924, which D1640 refers to:
/// 23 +/- 2 C, 50 +/- 5 % relative humidity).
pub const STANDARD_REFERENCE: i32 = 23_000;

/// How careful the law is about cold.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[serde(rename_all = "kebab-case")]
pub enum Care {
    /// The middle of the published tables: the *likely* time. Oil 35 kJ/mol (median of the cold
    /// side, 10 C against 23 or 25 C, of 26 rows of published makers' tables) and no humidity
    /// term; water-borne 38 kJ/mol (a maker's acrylate lacquer, 23 to 50 C).
    Likely,
    /// The *safe* time. Oil 50 kJ/mol: time doubles for each 10 C (rule published in a boat-paint
    /// data book and a trade guide); five of the 26 cold-side rows are slower still. Water-borne
    /// and lacquer 44 kJ/mol, the latent heat of water.
    #[default]
    Safe,
    /// Slower than every published row seen. Oil 66 kJ/mol (also the activation energy of
    /// linolenic acid's autoxidation, J. Agric. Food Chem. 53 (2005) 9073); evaporating films
    /// 50 kJ/mol (the doubling rule); spirits 51 (top of C9-C10 alkanes' latent heats, from
    /// memory).
    Strict,
}

impl Care {
    /// The word on screen.
    pub fn word(self) -> &'static str {
        match self {
            Self::Likely => "likely",
            Self::Safe => "safe",
            Self::Strict => "strict",
        }
    }
}

/// What humidity does to the speed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum HumidityCurve {
    /// 1 up to 60 %, then falling in a line to 0.5 at 85 %. No published curve: only that humid
    /// air slows oxidation and that labels stop at 70 to 85 %. Judgement; can be turned off.
    Oxidising,
    /// (100 - RH) / 50: the vapour-pressure deficit against 50 % humidity.
    WaterLeaving,
    /// 1: solvent leaves into air that holds none of it. Damp air only stops the work (blush).
    Flat,
}

impl HumidityCurve {
    /// The dampest air that label times may hold in, tenths of a per cent: closer to 100 % the
    /// water curve would divide by nearly nothing. Judgement; labels seen go to 70 %.
    pub const MOST_REFERENCE: i32 = 950;

    /// The factor against the air that the label's times hold in. Up to 60 % an oil film knows no
    /// difference, so that only water-borne films are told apart by it there.
    pub fn against(self, humidity: Humidity, reference: Humidity) -> f64 {
        let least = Humidity::from_tenths(Self::MOST_REFERENCE).unwrap_or(reference);
        self.factor(humidity) / self.factor(reference.min(least))
    }

    /// The factor at a humidity, never below 0.
    pub fn factor(self, humidity: Humidity) -> f64 {
        let percent = humidity.percent();
        let factor = match self {
            Self::Oxidising if percent > 60.0 => 1.0 - 0.5 * (percent - 60.0) / 25.0,
            Self::Oxidising | Self::Flat => 1.0,
            Self::WaterLeaving => (100.0 - percent) / 50.0,
        };
        factor.max(0.0)
    }
}

/// How a film hardens, as far as the clock is concerned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Hardening {
    /// Takes up oxygen: oil varnish, oil, oil stain.
    Oxidises,
    /// Gives off water.
    LosesWater,
    /// Gives off a quick solvent: shellac, lacquer.
    LosesSolvent,
    /// A slow solvent wiped on: only has to leave.
    FlashesOff,
}

impl Family {
    /// How films of this family harden.
    pub fn hardening(self) -> Hardening {
        match self {
            Self::OilWipingVarnish
            | Self::OilBrushingVarnish
            | Self::OilGelStain
            | Self::OilLiquidStain
            | Self::OilConditioner
            | Self::HardwaxOil
            | Self::TungOil => Hardening::Oxidises,
            Self::WaterBorne => Hardening::LosesWater,
            Self::Shellac | Self::Lacquer => Hardening::LosesSolvent,
            Self::MineralSpirits => Hardening::FlashesOff,
        }
    }
}

/// The law of one product: what its family and its label say about its speed.
///
/// `f = min(f_max, exp[-(Ea/R)(1/T - 1/T_ref)] * g(RH) / g(RH_ref))`, and 0 below the label's least
/// temperature or above its greatest humidity.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct DryingLaw {
    /// Activation energy Ea, J/mol.
    pub energy: i32,
    /// Humidity curve g.
    pub curve: HumidityCurve,
    /// The label's own temperature.
    pub reference: Temperature,
    /// The label's own humidity.
    pub reference_humidity: Humidity,
    /// Colder than this an hour does not count.
    pub min_temp: Temperature,
    /// Damper than this an hour does not count.
    pub max_humidity: Humidity,
    /// Greatest speed `f_max`, in thousandths: 1000 lets no warm shop shorten the label's hours.
    pub cap: i32,
}

/// Speed in billionths of label time per time: whole numbers, so that a span cut in two counts
/// exactly as much as the whole.
pub(super) const PACE: i64 = 1_000_000_000;

/// What a sum over the air counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) enum Counts {
    /// Effective label time.
    Drying(DryingLaw),
    /// The time that runs a recoat window down: the clock's own or faster.
    Window(DryingLaw),
}

impl Counts {
    /// Pace in an air, in units of 1 / [`PACE`].
    #[allow(
        clippy::cast_possible_truncation,
        reason = "speeds lie between 0 and a few dozen; `as` stops at the ends anyway"
    )]
    pub(super) fn pace(&self, temperature: Temperature, humidity: Humidity) -> i64 {
        let speed = match self {
            Self::Drying(law) => law.speed(temperature, humidity),
            Self::Window(law) => law.window_speed(temperature),
        };
        (speed * PACE as f64).round() as i64
    }
}

impl DryingLaw {
    /// The temperature's part: `exp[-(Ea/R)(1/T - 1/T_ref)]`, temperatures in kelvin.
    pub fn temperature_factor(&self, temperature: Temperature) -> f64 {
        let kelvin = temperature.kelvin().max(1.0);
        let reference = self.reference.kelvin().max(1.0);
        (-f64::from(self.energy) / GAS_CONSTANT * (kelvin.recip() - reference.recip())).exp()
    }

    /// Whether the label allows this air at all.
    pub fn allows(&self, temperature: Temperature, humidity: Humidity) -> bool {
        temperature >= self.min_temp && humidity <= self.max_humidity
    }

    /// Speed against the label, 0 to `f_max`: 0.4 means that an hour counts as 24 label minutes.
    pub fn speed(&self, temperature: Temperature, humidity: Humidity) -> f64 {
        if !self.allows(temperature, humidity) {
            return 0.0;
        }
        let speed = self.temperature_factor(temperature)
            * self.curve.against(humidity, self.reference_humidity);
        speed.min(f64::from(self.cap) / 1000.0)
    }

    /// Speed at which a recoat window runs down: `max(1, temperature factor)`, since cold must not
    /// be trusted to keep a window open.
    pub fn window_speed(&self, temperature: Temperature) -> f64 {
        // No shop is hotter than 60 C; beyond it the figure would only run away.
        self.temperature_factor(temperature.min(Temperature::from(60_000)))
            .max(1.0)
    }
}

/// What the shop has set about the law, for every product.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct ModelSettings {
    /// How careful the safe time is: [`Care::Safe`], or [`Care::Strict`] for who wants it.
    pub safe: Care,
    /// Greatest speed, thousandths, held between 1000 and 1500.
    pub cap: i32,
    /// Whether damp air slows oil films (the curve is judgement, so that it can be turned off).
    pub oil_humidity: bool,
}

impl Default for ModelSettings {
    fn default() -> Self {
        Self {
            safe: Care::Safe,
            cap: 1000,
            oil_humidity: true,
        }
    }
}

impl ModelSettings {
    /// The law of a product of this family with this label, whose times hold at the label's own
    /// temperature and humidity.
    pub fn law(&self, family: Family, label: &LabelFigures, care: Care) -> DryingLaw {
        let (energy, curve) = match family.hardening() {
            Hardening::Oxidises => {
                let energy = match care {
                    Care::Likely => 35_000,
                    Care::Safe => 50_000,
                    Care::Strict => 66_000,
                };
                let damp = self.oil_humidity && care != Care::Likely;
                let curve = if damp {
                    HumidityCurve::Oxidising
                } else {
                    HumidityCurve::Flat
                };
                (energy, curve)
            }
            Hardening::LosesWater => {
                let energy = match care {
                    Care::Likely => 38_000,
                    Care::Safe => 44_000,
                    Care::Strict => 50_000,
                };
                (energy, HumidityCurve::WaterLeaving)
            }
            Hardening::LosesSolvent => {
                let energy = match care {
                    Care::Likely | Care::Safe => 44_000,
                    Care::Strict => 50_000,
                };
                (energy, HumidityCurve::Flat)
            }
            Hardening::FlashesOff => {
                let energy = match care {
                    Care::Likely | Care::Safe => 48_000,
                    Care::Strict => 51_000,
                };
                (energy, HumidityCurve::Flat)
            }
        };
        DryingLaw {
            energy,
            curve,
            reference: label.reference,
            reference_humidity: label.humidity_of_times(),
            min_temp: label.min_temp,
            max_humidity: label.max_humidity,
            cap: self.cap.clamp(1000, 1500),
        }
    }
}

/// Film factor k: how much longer a coat laid thicker than the label's takes to the next coat.
///
/// `k = max(1, s_label / s_actual)^n`, spread rates in m2/L; n = 2 for films that lose water or
/// solvent (a boat-paint data book: twice the film, about four times the time), n = 1 for oil
/// films, at least (a floor-coating maker: twice the film, at least twice the time). A thin coat
/// never shortens the wait, and none is counted as more than a hundred times longer.
pub fn film_factor(family: Family, label: SpreadRate, actual: SpreadRate) -> f64 {
    let thicker = (label.m2_per_l() / actual.m2_per_l()).max(1.0);
    let k = match family.hardening() {
        Hardening::LosesWater | Hardening::LosesSolvent => thicker * thicker,
        Hardening::Oxidises | Hardening::FlashesOff => thicker,
    };
    k.min(100.0)
}
