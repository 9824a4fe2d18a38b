//! The form for what is known of a job's site.

use super::context::Context;
use crate::desk::Action;
use crate::desk::typed::{FieldError, SiteTyped, echo_site, read_site, region_words};
use crate::shop::JobId;
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;

pub(super) fn form(job: JobId, ctx: &Context<'_>) -> Form {
    let site = ctx.shop.wood.site(job);
    let t = SiteTyped::of(&site, ctx.settings());
    let mut regions = vec![Choice::new(
        "none",
        "none: say the air above or the span below",
    )];
    regions.extend(
        region_words()
            .into_iter()
            .map(|(_, word)| Choice::new(word.clone(), word)),
    );
    let picked = if t.region.is_empty() {
        "none"
    } else {
        &t.region
    };
    let title = ctx.shop.job(job).map_or_else(String::new, |job| {
        format!("Site of job {} {}", job.no, job.title)
    });
    Form::new(
        &title,
        vec![
            Field::text("winter", "Winter air indoors", &t.winter)
                .hint("Temperature and humidity, like 70F 30. Leave empty for a region."),
            Field::text("summer", "Summer air indoors", &t.summer).hint("Like 75F 55."),
            Field::choice("region", "Or a region", regions, picked)
                .hint("Installation moisture of interior wood, Wood Handbook Table 13-2."),
            Field::text("span", "Or wood moisture", &t.span)
                .hint("The driest and wettest it gets there, like 6 to 9."),
            Field::toggle("radiant", "Radiant floor", site.radiant_floor),
            Field::toggle("slab", "New slab", site.new_slab),
        ],
    )
}

fn typed(form: &Form) -> SiteTyped {
    SiteTyped {
        winter: form.value("winter"),
        summer: form.value("summer"),
        region: form.value("region"),
        span: form.value("span"),
        radiant: form.value("radiant"),
        slab: form.value("slab"),
    }
}

pub(super) fn read(form: &Form, job: JobId, ctx: &Context<'_>) -> Result<Action, Vec<FieldError>> {
    Ok(Action::SaveSite(read_site(
        &typed(form),
        job,
        ctx.settings(),
    )?))
}

pub(super) fn echo(form: &Form, ctx: &Context<'_>) -> Vec<(&'static str, Option<String>)> {
    let typed = typed(form);
    let words = echo_site(&typed, ctx.settings());
    let at = if !typed.span.is_empty() {
        "span"
    } else if !typed.summer.is_empty() {
        "summer"
    } else {
        "region"
    };
    ["summer", "region", "span"]
        .map(|field| (field, words.clone().filter(|_| field == at)))
        .into()
}
