//! Notes what is known of a job's site, or shows it.

use super::put;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::typed::{SiteTyped, read_site};
use crate::desk::{Action, Shop};
use crate::shop::{Job, Site};
use clap::Args;
use serde::Serialize;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree site 1 --winter \"70F 30\" --summer \"75F 55\" --radiant yes\n  tackfree site 2 --region \"most of the United States\"\n  tackfree site 2 --span \"6 to 9\"\n  tackfree site 2 --region none\n  tackfree site 1\n\nRegions: most of the United States; dry Southwest; damp, warm coast (Wood Handbook ch. 13, Table\n13-2); the beginning of a word is enough. One way of saying the air takes the place of another. With --json and nothing to change:\njob_no, winter, summer, region, span, radiant_floor, new_slab, driest_pct, wettest_pct, basis.";

/// What was typed.
#[derive(Debug, Args)]
pub struct SiteArgs {
    /// The job.
    pub job: String,
    /// Indoor air in winter, like "70F 30".
    #[arg(long, value_name = "AIR", allow_hyphen_values = true)]
    pub winter: Option<String>,
    /// Indoor air in summer, like "75F 55".
    #[arg(long, value_name = "AIR", allow_hyphen_values = true)]
    pub summer: Option<String>,
    /// A region of the handbook, or none to leave the air open.
    #[arg(long, conflicts_with_all = ["winter", "summer", "span"])]
    pub region: Option<String>,
    /// The driest and wettest the wood gets there, like "6 to 9".
    #[arg(long, conflicts_with_all = ["winter", "summer"])]
    pub span: Option<String>,
    /// Heating in the floor: yes or no.
    #[arg(long, value_name = "YES")]
    pub radiant: Option<String>,
    /// A new concrete slab: yes or no.
    #[arg(long, value_name = "YES")]
    pub slab: Option<String>,
}

#[derive(Serialize)]
struct SiteJson {
    job_no: u32,
    winter: String,
    summer: String,
    region: String,
    span: String,
    radiant_floor: bool,
    new_slab: bool,
    driest_pct: Option<f64>,
    wettest_pct: Option<f64>,
    basis: Option<String>,
}

/// Does it.
pub fn run(args: &SiteArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let job = find::job(&shop, &args.job)?;
    let site = shop.wood.site(job.id);
    let mut typed = SiteTyped::of(&site, &shop.settings);
    let air = [&args.winter, &args.summer];
    let all = [&args.region, &args.span, &args.radiant, &args.slab];
    if air.into_iter().chain(all).all(Option::is_none) {
        return show(&shop, job, &site, typed);
    }
    // What is said now takes the place of what was said in another way.
    if air.into_iter().any(Option::is_some) {
        typed.region.clear();
        typed.span.clear();
    }
    if args.region.is_some() {
        typed.winter.clear();
        typed.summer.clear();
        typed.span.clear();
    }
    if args.span.is_some() {
        typed.winter.clear();
        typed.summer.clear();
        typed.region.clear();
    }
    put(&mut typed.winter, args.winter.as_ref());
    put(&mut typed.summer, args.summer.as_ref());
    put(&mut typed.region, args.region.as_ref());
    put(&mut typed.span, args.span.as_ref());
    put(&mut typed.radiant, args.radiant.as_ref());
    put(&mut typed.slab, args.slab.as_ref());
    let read = read_site(&typed, job.id, &shop.settings)?;
    session.perform(&Action::SaveSite(read))
}

fn show(shop: &Shop, job: &Job, site: &Site, typed: SiteTyped) -> Result<Answer, Failure> {
    let band = site.band().ok().flatten();
    let style = shop.settings.temperature;
    let mut lines = match &band {
        None => vec![format!("The site's air of job {} is not noted.", job.no)],
        Some(band) => vec![
            format!("Wood {} through the year at job {}.", band.show(), job.no),
            format!("Basis: {}.", band.basis_words(style)),
            format!("Target: {}.", band.midpoint().show()),
        ],
    };
    for note in site.notes() {
        lines.push(format!("Mind the {}: {}", note.words(), note.caution()));
    }
    let json = SiteJson {
        job_no: job.no,
        winter: typed.winter,
        summer: typed.summer,
        region: typed.region,
        span: typed.span,
        radiant_floor: site.radiant_floor,
        new_slab: site.new_slab,
        driest_pct: band.map(|band| band.driest().percent()),
        wettest_pct: band.map(|band| band.wettest().percent()),
        basis: band.map(|band| band.basis_words(style)),
    };
    Answer::new(lines, json)
}
