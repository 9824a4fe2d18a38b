//! What a coat would do if it went on at a moment to come: safe and likely times by the forecast or
//! the shop's usual air.

use super::snapshot::Shop;
use crate::coating::{AirBasis, PassTimes, Product, ProductKind, SafeLikely, Speed, show_reached};
use crate::units::moment::show_span;
use chrono::{DateTime, Utc};

/// The times of a coat planned for later.
#[derive(Debug, Clone, PartialEq)]
pub struct LaterPass {
    /// When each stage comes.
    pub times: PassTimes,
    /// How fast it starts to dry, and in which air.
    pub speed: Speed,
}

/// One stage of it: its name, when it likely comes, when it surely has.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LaterStage {
    /// The stage.
    pub stage: &'static str,
    /// The moments.
    pub times: SafeLikely,
    /// For an opening window: when it shuts, if it does.
    pub shuts: Option<DateTime<Utc>>,
}

impl LaterPass {
    /// A coat of this product laid at `at`.
    pub fn of(shop: &Shop, product: &Product, at: DateTime<Utc>) -> Self {
        let clock = shop.clock();
        Self {
            times: clock.pass_times(product, at),
            speed: clock.speed(product, at),
        }
    }

    /// The stages in order; a wipe only flashes off.
    pub fn stages(&self, kind: ProductKind) -> Vec<LaterStage> {
        let plain = |stage, times| LaterStage {
            stage,
            times,
            shuts: None,
        };
        let windows = self.times.windows.iter().map(|window| LaterStage {
            stage: match kind {
                ProductKind::Wipe => "flashed off",
                _ => "dry to recoat",
            },
            times: window.opens,
            shuts: window.shuts,
        });
        if kind == ProductKind::Wipe {
            return windows.collect();
        }
        let mut stages = vec![
            plain("set to touch", self.times.touch),
            plain("tack-free", self.times.tack_free),
        ];
        stages.extend(windows);
        stages.extend([
            plain("dry to handle", self.times.handle),
            plain("light use", self.times.light_use),
            plain("full cure", self.times.full_cure),
        ]);
        stages
    }
}

/// The same as lines to read.
pub fn later_lines(
    shop: &Shop,
    product: &Product,
    at: DateTime<Utc>,
    now: DateTime<Utc>,
) -> Vec<String> {
    let zone = shop.settings.zone;
    let told = |moment| show_reached(moment, now, zone);
    let later = LaterPass::of(shop, product, at);
    let mut lines = vec![format!(
        "{} laid {}, in {}:",
        product.name,
        told(at),
        show_span(at - now)
    )];
    for stage in later.stages(product.kind) {
        let window = match stage.shuts {
            Some(shuts) if shuts <= stage.times.safe => format!(
                "; window shuts {} already: abrade before the next coat",
                told(shuts)
            ),
            Some(shuts) => format!("; window shuts {}", told(shuts)),
            None => String::new(),
        };
        lines.push(format!(
            "  {:<15}likely {}, safe {}{window}",
            stage.stage,
            told(stage.times.likely),
            told(stage.times.safe)
        ));
    }
    let basis = match later.speed.basis {
        AirBasis::Forecast => "by the forecast typed in, then the shop's usual air of the hour",
        AirBasis::Assumed => "by the label's own air: none was ever logged here",
        AirBasis::Read { .. } | AirBasis::Usual { .. } => {
            "by the last reading while it holds, then the shop's usual air of the hour"
        }
    };
    lines.push(format!("Reckoned {basis}."));
    let slow = later.speed.words(now, zone, shop.settings.temperature);
    if later.speed.is_slow() && !slow.is_empty() {
        lines.push(format!("Slow at first: {slow}."));
    }
    lines
}
