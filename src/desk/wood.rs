//! Moisture readings, sites, how pieces lie and are held, the shop's own woods, the rule of
//! readiness.

use super::action::Which;
use super::books::{BooksError, Key, Row, Scope};
use super::error::DeskError;
use super::people::{NAME_MOST, line, needed, verb};
use super::perform::{Desk, Done, Made};
use super::snapshot::Shop;
use super::wood_error::WoodRefusal;
use crate::shop::{
    JobId, Moisture, PieceId, PieceWood, ReadingId, ShopWood, Site, SiteAir, WoodId,
};
use crate::wood::moisture::{MoistureContent, Reading, ReadyRule};
use crate::wood::species::{OwnWood, OwnWoodError, SpeciesTable};

/// Longest source of a wood's figures.
const SOURCE_MOST: usize = 200;

/// To the nearest tenth of a per cent, which is what is kept.
fn to_tenths(content: MoistureContent) -> MoistureContent {
    let tenths = (content.thousandths() + 50) / 100;
    MoistureContent::from_thousandths(tenths * 100).unwrap_or(content)
}

impl Desk<'_> {
    pub(super) fn save_moisture(
        &mut self,
        which: Which<ReadingId>,
        piece: PieceId,
        reading: &Reading,
    ) -> Result<Done, DeskError> {
        let (shop, file) = self.piece_file(piece)?;
        let called = shop.called(&file);
        let mut notes = Vec::new();
        let reading = Reading {
            place: line(
                "The place of the reading",
                &reading.place,
                NAME_MOST,
                &mut notes,
            )?,
            percent: to_tenths(reading.percent),
            ..reading.clone()
        };
        reading.check().map_err(WoodRefusal::from)?;
        if reading.at > self.now {
            return Err(WoodRefusal::Ahead.into());
        }
        let id = match which {
            Which::New => ReadingId(self.id()),
            Which::This(id) => known(&shop, piece, id)?.id,
        };
        let words = match which {
            Which::New => format!("Read {} of {called}", reading.words()),
            Which::This(_) => format!("Corrected a reading of {called}: {}", reading.words()),
        };
        self.books
            .put(Row::Moisture(&Moisture { id, piece, reading }))?;
        Ok(Done::made(words, Made::Moisture(id)).with_notes(notes))
    }

    pub(super) fn remove_moisture(&mut self, id: ReadingId) -> Result<Done, DeskError> {
        let shop = self.shop(Scope::All)?;
        let missing = BooksError::Missing {
            what: "moisture reading",
        };
        let of = shop
            .wood
            .readings
            .iter()
            .find(|of| of.id == id)
            .ok_or(missing)?;
        let called = shop
            .file(of.piece)
            .map_or_else(String::new, |file| shop.called(file));
        let words = format!("Removed the reading {} of {called}", of.reading.words());
        self.remove(Key::Moisture(id), words)
    }

    pub(super) fn save_site(&mut self, site: &Site) -> Result<Done, DeskError> {
        let job = self.job_called(site.job)?;
        let air = site.air.map(|air| match air {
            SiteAir::Given { driest, wettest } => {
                let (one, other) = (to_tenths(driest), to_tenths(wettest));
                SiteAir::Given {
                    driest: one.min(other),
                    wettest: one.max(other),
                }
            }
            other => other,
        });
        let site = Site { air, ..*site };
        let band = site.band().map_err(WoodRefusal::from)?;
        let style = self.settings()?.temperature;
        self.books.put(Row::Site(&site))?;
        let (words, mut notes) = match band {
            None => (format!("Left the site's air of {job} open"), Vec::new()),
            Some(band) => (
                format!("Noted the site's air of {job}: wood {}", band.show()),
                vec![format!("The year: {}.", band.basis_words(style))],
            ),
        };
        notes.extend(site.notes().iter().map(|note| note.caution().to_owned()));
        Ok(Done::said(words).with_notes(notes))
    }

    fn job_called(&self, id: JobId) -> Result<String, DeskError> {
        let jobs = self.books.jobs()?;
        let job = jobs
            .iter()
            .find(|job| job.id == id)
            .ok_or(BooksError::Missing { what: "job" })?;
        Ok(format!("job {} {}", job.no, job.title))
    }

    pub(super) fn save_piece_wood(&mut self, of: &PieceWood) -> Result<Done, DeskError> {
        let (shop, file) = self.piece_file(of.piece)?;
        let called = shop.called(&file);
        let mut of = of.clone();
        if of.wood.trim().is_empty() {
            of.wood.clear();
        } else {
            let table = shop.wood.table();
            let row = table.find(&of.wood).map_err(WoodRefusal::from)?;
            of.wood.clone_from(&row.name);
        }
        of.check().map_err(WoodRefusal::from)?;
        of.situations.sort_unstable();
        of.situations.dedup();
        self.books.put(Row::PieceWood(&of))?;
        let wood = if of.wood.is_empty() {
            file.piece.species.clone()
        } else {
            of.wood.clone()
        };
        Ok(Done::said(format!(
            "Noted how {called} lies and is held: {wood}, {}",
            of.grain.words()
        )))
    }

    pub(super) fn save_wood(
        &mut self,
        which: Which<WoodId>,
        wood: &OwnWood,
    ) -> Result<Done, DeskError> {
        let shop = self.shop(Scope::All)?;
        let mut notes = Vec::new();
        let cure = "type what the shop calls it.";
        let wood = OwnWood {
            name: needed("The wood's name", &wood.name, NAME_MOST, cure, &mut notes)?,
            botanical: line("The botanical name", &wood.botanical, NAME_MOST, &mut notes)?,
            source: line("The source", &wood.source, SOURCE_MOST, &mut notes)?,
            shrinkage: wood.shrinkage.map(|of| rounded(of, 1e3)),
            coefficients: wood.coefficients.map(|of| rounded(of, 1e8)),
            gravity: wood.gravity.map(|of| rounded((of, of), 1e3).0),
        };
        let turned = |pair: Option<(f64, f64)>| pair.is_some_and(|(radial, other)| radial > other);
        if turned(wood.shrinkage) || turned(wood.coefficients) {
            notes.push(
                "Its radial figure is above the tangential one, which no wood of the table has: is \
                 radial first, tangential second?"
                    .to_owned(),
            );
        }
        let id = match which {
            Which::New => WoodId(self.id()),
            Which::This(id) => {
                let before = own(&shop, id)?;
                if before.wood.name != wood.name {
                    unused(&shop, &before.wood.name)?;
                }
                id
            }
        };
        let mut table = SpeciesTable::new();
        for other in shop.wood.own.iter().filter(|own| own.id != id) {
            let _ = table.add(other.wood.clone());
        }
        table.add(wood.clone()).map_err(refused)?;
        let words = format!("{} wood {}", verb(&which), wood.name);
        self.books.put(Row::Wood(&ShopWood { id, wood }))?;
        Ok(Done::made(words, Made::Wood(id)).with_notes(notes))
    }

    pub(super) fn remove_wood(&mut self, id: WoodId) -> Result<Done, DeskError> {
        let shop = self.shop(Scope::All)?;
        let name = own(&shop, id)?.wood.name.clone();
        unused(&shop, &name)?;
        self.remove(Key::Wood(id), format!("Removed wood {name}"))
    }

    pub(super) fn save_ready_rule(&mut self, rule: &ReadyRule) -> Result<Done, DeskError> {
        let rule = ReadyRule {
            within: rounded((rule.within, rule.within), 10.0).0,
            care_over: to_tenths(rule.care_over),
            stop_over: to_tenths(rule.stop_over),
            ..*rule
        };
        rule.check().map_err(WoodRefusal::from)?;
        self.books.put(Row::ReadyRule(&rule))?;
        Ok(Done::said(format!(
            "Changed the rule of readiness: {}",
            rule.words()
        )))
    }
}

fn known(shop: &Shop, piece: PieceId, id: ReadingId) -> Result<&Moisture, BooksError> {
    let what = "moisture reading";
    shop.moisture(piece)
        .iter()
        .find(|of| of.id == id)
        .ok_or(BooksError::Missing { what })
}

fn own(shop: &Shop, id: WoodId) -> Result<&ShopWood, BooksError> {
    let what = "wood of your own";
    shop.wood
        .own
        .iter()
        .find(|own| own.id == id)
        .ok_or(BooksError::Missing { what })
}

/// Both figures to whole parts of one, as they are kept.
fn rounded((one, other): (f64, f64), parts: f64) -> (f64, f64) {
    let round = |value: f64| (value * parts).round() / parts;
    (round(one), round(other))
}

#[allow(clippy::needless_pass_by_value)] // so that it goes into map_err
fn refused(error: OwnWoodError) -> WoodRefusal {
    WoodRefusal::Own {
        why: error.to_string(),
    }
}

/// Whether no piece is of this wood.
fn unused(shop: &Shop, name: &str) -> Result<(), WoodRefusal> {
    let same = |other: &str| other.trim().to_lowercase() == name.trim().to_lowercase();
    let of: Vec<String> = shop
        .files
        .iter()
        .filter(|file| {
            let noted = shop.wood.noted(file.piece.id);
            same(&file.piece.species) || noted.is_some_and(|of| same(&of.wood))
        })
        .map(|file| shop.called(file))
        .collect();
    let pieces = match of.as_slice() {
        [] => return Ok(()),
        [one] => format!("{one} is"),
        [one, rest @ ..] => format!("{one} and {} more are", rest.len()),
    };
    let name = name.to_owned();
    Err(WoodRefusal::InUse { pieces, name })
}
