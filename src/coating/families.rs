//! Ready figures for each product family, to start from until the can's label is typed in.
//!
//! Each figure lies inside the range of its family wherever a range was found (gathered from
//! makers' data sheets and, where none was seen, from memory; the can label always wins): the
//! middle of it or near for spread, solids and density; for dry to recoat what most labels say,
//! seldom the quick end. Tack-free and dry to handle are on few labels: those are our own, between
//! touch and recoat, and after it.

use super::figures::{FigureSet, LabelFigures, Voc};
use super::model::STANDARD_REFERENCE;
use super::product::{Family, ProductKind, RecoatWindow, Span};
use crate::units::{Density, Humidity, SpreadRate, Temperature};

/// One family's row: spread m2/L, solids %, density g/mL, touch and tack-free minutes, recoat from
/// and to (minutes), handle (hours), light use and full cure (days), least degC, most RH %.
struct Row {
    kind: ProductKind,
    spread: f64,
    solids: f64,
    density: f64,
    touch: i64,
    tack_free: i64,
    opens: i64,
    closes: Option<i64>,
    handle_h: i64,
    light_d: i64,
    cure_d: i64,
    min_c: f64,
    max_rh: i32,
}

fn row(family: Family) -> Row {
    use Family as F;
    use ProductKind as K;
    let (kind, spread, solids, density) = match family {
        F::OilWipingVarnish => (K::Topcoat, 15.3, 25.0, 0.86),
        F::OilBrushingVarnish => (K::Topcoat, 12.3, 40.0, 0.92),
        F::OilGelStain => (K::Stain, 14.7, 35.0, 0.94),
        F::OilLiquidStain => (K::Stain, 12.3, 30.0, 0.90),
        F::OilConditioner => (K::Sealer, 12.3, 12.0, 0.82),
        F::WaterBorne => (K::Topcoat, 11.7, 26.0, 1.03),
        F::Shellac => (K::Sealer, 9.8, 15.0, 0.85),
        F::HardwaxOil => (K::Topcoat, 25.0, 75.0, 0.93),
        F::TungOil => (K::Topcoat, 9.8, 50.0, 0.88),
        F::Lacquer => (K::Topcoat, 7.2, 16.5, 0.91),
        F::MineralSpirits => (K::Wipe, 20.0, 0.0, 0.78),
    };
    // touch, tack-free, opens, closes (minutes); handle (hours); light use, full cure (days)
    let (touch, tack_free, opens, closes, handle_h, light_d, cure_d) = match family {
        F::OilWipingVarnish => (180, 300, 360, Some(1440), 24, 3, 30),
        F::OilBrushingVarnish => (180, 360, 480, Some(1440), 24, 3, 30),
        F::OilGelStain => (480, 720, 1440, None, 24, 3, 3),
        F::OilLiquidStain => (240, 480, 1440, None, 24, 3, 3),
        F::OilConditioner => (10, 15, 15, Some(120), 1, 1, 3),
        F::WaterBorne => (45, 60, 180, Some(720), 12, 7, 21),
        F::Shellac => (20, 30, 60, None, 4, 1, 7),
        F::HardwaxOil => (600, 720, 1440, None, 24, 2, 14),
        F::TungOil => (1440, 2880, 4320, None, 96, 10, 30),
        F::Lacquer => (12, 30, 120, Some(720), 6, 1, 7),
        F::MineralSpirits => (20, 25, 30, None, 1, 1, 1),
    };
    let (min_c, max_rh) = match family {
        F::OilWipingVarnish => (13.0, 850),
        F::OilBrushingVarnish | F::OilConditioner | F::TungOil | F::MineralSpirits => (10.0, 850),
        F::OilGelStain | F::OilLiquidStain => (16.0, 700),
        F::WaterBorne => (13.0, 800),
        F::Shellac => (10.0, 700),
        F::HardwaxOil => (16.0, 850),
        F::Lacquer => (15.0, 650),
    };
    Row {
        kind,
        spread,
        solids,
        density,
        touch,
        tack_free,
        opens,
        closes,
        handle_h,
        light_d,
        cure_d,
        min_c,
        max_rh,
    }
}

/// VOC in g/L where makers' sheets were seen: their middle, or what most of them say.
fn usual_voc(family: Family) -> Option<f64> {
    match family {
        Family::OilWipingVarnish => Some(500.0),
        Family::OilBrushingVarnish => Some(447.0),
        Family::WaterBorne => Some(236.0),
        Family::Lacquer => Some(673.0),
        _ => None,
    }
}

/// What a product of this family is used for unless said otherwise.
pub fn usual_kind(family: Family) -> ProductKind {
    row(family).kind
}

/// The family's starting figures.
///
/// # Panics
/// Never: the table above holds only figures that the types accept, and a test asks for each.
pub fn usual_figures(family: Family) -> LabelFigures {
    let row = row(family);
    LabelFigures {
        spread: SpreadRate::from_m2_per_l(row.spread)
            .expect("spread rates of the table are positive"),
        wet_film: None,
        dry_film: None,
        solids_pct: row.solids,
        density: Density::from_g_per_ml(row.density).expect("densities of the table are positive"),
        voc: usual_voc(family).and_then(Voc::from_g_per_l),
        // Labels name 20 to 25 C; between them lies the standard's.
        reference: Temperature::from(STANDARD_REFERENCE),
        reference_humidity: None,
        touch: Span::minutes(row.touch),
        tack_free: Span::minutes(row.tack_free),
        windows: vec![RecoatWindow {
            opens: Span::minutes(row.opens),
            closes: row.closes.map(Span::minutes),
            scuff: false,
        }],
        handle: Span::hours(row.handle_h),
        light_use: Span::days(row.light_d),
        full_cure: Span::days(row.cure_d),
        min_temp: Temperature::from_c(row.min_c),
        max_humidity: Humidity::from_tenths(row.max_rh)
            .expect("humidities of the table lie within 0 to 100 per cent"),
        from_label: FigureSet::NONE,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::coating::family_ranges::{measure, usual_range};
    use crate::coating::{Figure, FigureBasis, Product, ProductId};
    use crate::units::{Money, Volume};

    #[test]
    fn every_family_makes_a_product_that_stands() {
        for family in Family::ALL {
            let product = Product {
                id: ProductId(uuid::Uuid::nil()),
                name: family.word().to_owned(),
                kind: usual_kind(family),
                family,
                label: usual_figures(family),
                can: Volume::from_ul(946_353),
                price: Money::from_cents(2_500),
            };
            assert_eq!(product.check(), Ok(()), "{}", family.word());
            assert_eq!(product.check_orders(), Ok(()), "{}", family.word());
            assert_eq!(product.doubts(), [], "{}", family.word());
            assert_eq!(product.basis(), FigureBasis::FamilyRange);
            for figure in Figure::ALL {
                if let (Some(is), Some(range)) =
                    (measure(&product.label, figure), usual_range(family, figure))
                {
                    assert!(
                        range.low <= range.high && range.holds(is),
                        "{} {}: {is} is outside {range:?}",
                        family.word(),
                        figure.code()
                    );
                }
            }
            let label = &product.label;
            assert!(label.touch <= label.tack_free && label.tack_free <= label.windows[0].opens);
        }
    }
}
