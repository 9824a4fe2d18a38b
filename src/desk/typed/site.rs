//! A job's site as typed: its air, its floor.

use super::error::{FieldError, keep};
use super::words::{pick, plain, yes_no};
use super::work::read_air;
use crate::shop::{JobId, Settings, Site, SiteAir};
use crate::units::{Temperature, TemperatureStyle};
use crate::wood::moisture::{Air, MoistureContent, Region};

/// A site, field by field, as text. Winter and summer air, or a region, or a span of moisture; all
/// of them empty leaves the air open.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct SiteTyped {
    /// Indoor air in winter: `70F 30`.
    pub winter: String,
    /// Indoor air in summer: `75F 55`.
    pub summer: String,
    /// A region of the handbook, or `none`.
    pub region: String,
    /// The driest and wettest the wood gets: `6 to 9`.
    pub span: String,
    /// Heating in the floor: yes or no.
    pub radiant: String,
    /// A new concrete slab: yes or no.
    pub slab: String,
}

/// The regions with their words.
pub fn region_words() -> Vec<(Region, String)> {
    let bare = |words: &'static str| words.strip_prefix("the ").unwrap_or(words);
    Region::ALL
        .into_iter()
        .map(|region| (region, bare(region.words()).to_owned()))
        .collect()
}

fn yes(on: bool) -> String {
    if on { "yes" } else { "no" }.to_owned()
}

fn write_air(air: Air, settings: &Settings) -> String {
    let humidity = air.humidity.percent();
    let shown = air.temperature.show(settings.temperature).replace(' ', "");
    // A figure that the shop's scale does not show exactly is written in Celsius.
    let f = (air.temperature.f() * 10.0).round() / 10.0;
    let exact = match settings.temperature {
        TemperatureStyle::Fahrenheit => Temperature::from_f(f) == air.temperature,
        TemperatureStyle::Celsius => air.temperature.milli_c() % 100 == 0,
    };
    if exact {
        format!("{shown} {humidity}")
    } else {
        format!("{}C {humidity}", air.temperature.c())
    }
}

impl SiteTyped {
    /// A site as it would be typed.
    pub fn of(site: &Site, settings: &Settings) -> Self {
        let mut typed = Self {
            radiant: yes(site.radiant_floor),
            slab: yes(site.new_slab),
            ..Self::default()
        };
        match site.air {
            None => {}
            Some(SiteAir::Air { winter, summer }) => {
                typed.winter = write_air(winter, settings);
                typed.summer = write_air(summer, settings);
            }
            Some(SiteAir::Region(region)) => {
                let words = region_words().into_iter().find(|(of, _)| *of == region);
                typed.region = words.map(|(_, word)| word).unwrap_or_default();
            }
            Some(SiteAir::Given { driest, wettest }) => {
                typed.span = format!("{} to {}", driest.percent(), wettest.percent());
            }
        }
        typed
    }
}

/// Reads a site.
///
/// # Errors
/// Everything that does not read, or does not go together, each at its field.
pub fn read_site(
    typed: &SiteTyped,
    job: JobId,
    settings: &Settings,
) -> Result<Site, Vec<FieldError>> {
    let mut errors = Vec::new();
    let air_at = |field: &'static str, text: &str| {
        read_air(text, settings)
            .map(|air| air.map(Air::from))
            .map_err(|error| error.at(field))
    };
    let winter = keep(air_at("winter", &typed.winter), &mut errors).flatten();
    let summer = keep(air_at("summer", &typed.summer), &mut errors).flatten();
    let region = match plain(&typed.region).as_str() {
        "" | "none" => None,
        _ => keep(pick("region", &typed.region, &region_words()), &mut errors),
    };
    let span = match typed.span.trim() {
        "" => None,
        text => keep(read_span(text), &mut errors),
    };
    let radiant_floor = keep(yes_no("radiant", &typed.radiant), &mut errors);
    let new_slab = keep(yes_no("slab", &typed.slab), &mut errors);
    if errors.is_empty() {
        let air = together(winter, summer, region, span);
        if let Some(air) = keep(air, &mut errors) {
            return Ok(Site {
                job,
                air,
                radiant_floor: radiant_floor.unwrap_or(false),
                new_slab: new_slab.unwrap_or(false),
            });
        }
    }
    Err(errors)
}

/// One of the three ways, or none.
fn together(
    winter: Option<Air>,
    summer: Option<Air>,
    region: Option<Region>,
    span: Option<(MoistureContent, MoistureContent)>,
) -> Result<Option<SiteAir>, FieldError> {
    let twice = |field| {
        FieldError::new(
            field,
            "Say the site's air in one way: winter and summer air, or a region, or the driest and \
             wettest; leave the others empty.",
        )
    };
    match (winter, summer, region, span) {
        (None, None, None, None) => Ok(None),
        (Some(winter), Some(summer), None, None) => Ok(Some(SiteAir::Air { winter, summer })),
        (None, None, Some(region), None) => Ok(Some(SiteAir::Region(region))),
        (None, None, None, Some((driest, wettest))) => Ok(Some(SiteAir::Given { driest, wettest })),
        (Some(_), None, None, None) => Err(FieldError::new(
            "summer",
            "Winter air alone makes no year: type the summer air too, like 75F 55.",
        )),
        (None, Some(_), None, None) => Err(FieldError::new(
            "winter",
            "Summer air alone makes no year: type the winter air too, like 70F 30.",
        )),
        (_, _, Some(_), _) => Err(twice("region")),
        (_, _, None, Some(_)) => Err(twice("span")),
    }
}

/// `6 to 9`, `6-9`.
fn read_span(text: &str) -> Result<(MoistureContent, MoistureContent), FieldError> {
    let lower = text.to_lowercase();
    let (one, other) = lower
        .split_once(" to ")
        .or_else(|| lower.split_once('-'))
        .ok_or_else(|| {
            FieldError::new(
                "span",
                "Type the driest and the wettest moisture content, like 6 to 9.",
            )
        })?;
    let content =
        |text: &str| MoistureContent::parse(text).map_err(|error| FieldError::said("span", &error));
    Ok((content(one)?, content(other)?))
}

/// What wood makes of the site's air, in words; none where nothing was understood.
pub fn echo_site(typed: &SiteTyped, settings: &Settings) -> Option<String> {
    let job = JobId(uuid::Uuid::nil());
    let band = read_site(typed, job, settings).ok()?.band().ok()??;
    Some(format!(
        "wood {}, target {}",
        band.show(),
        band.midpoint().show()
    ))
}
