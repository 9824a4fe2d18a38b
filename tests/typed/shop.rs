//! A small shop to type into.

use chrono::{DateTime, NaiveDate, TimeZone, Utc};
use tackfree::coating::id::Mint;
use tackfree::desk::Shop;
use tackfree::shop::{Client, ClientId, Job, JobId, Settings, ready_products, ready_recipes};
use tackfree::units::{LengthStyle, TemperatureStyle, VolumeStyle};
use uuid::Uuid;

/// A Friday noon in Chicago.
pub fn now() -> DateTime<Utc> {
    Utc.with_ymd_and_hms(2026, 3, 6, 18, 0, 0).unwrap()
}

pub fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 3, 6).unwrap()
}

pub fn job_id() -> JobId {
    JobId(Uuid::from_u128(900))
}

/// A shop with the starting products and recipes, one client and one job.
pub fn shop() -> Shop {
    let mut mint = Mint::new(Uuid::nil(), 7);
    let products = ready_products(&mut mint, 1_000);
    let recipes = ready_recipes(&products, &mut mint, 1_000);
    let client = Client {
        id: ClientId(Uuid::from_u128(800)),
        name: "Ada Brook".to_owned(),
        phone: String::new(),
        email: String::new(),
        address: String::new(),
        notes: String::new(),
    };
    let job = Job {
        id: job_id(),
        no: 1,
        client: client.id,
        title: "kitchen".to_owned(),
        site: String::new(),
        house_built: None,
        promised: None,
        notes: String::new(),
        taken: today(),
    };
    Shop {
        clients: vec![client],
        jobs: vec![job],
        products,
        recipes,
        ..Shop::blank(Settings::starting(chrono_tz::America::Chicago))
    }
}

/// The same shop in metric.
pub fn metric() -> Shop {
    let mut shop = shop();
    shop.settings.length = LengthStyle::Millimetres;
    shop.settings.temperature = TemperatureStyle::Celsius;
    shop.settings.volume = VolumeStyle::Millilitres;
    shop
}
