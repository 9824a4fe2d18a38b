//! `passes.csv`, and the sharing of each pass over the pieces it lies on.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::{Ring, word};
use super::meaning::{Words, coat_kind, pick, word as name};
use super::people::ID_CURE;
use super::recipes::fits;
use super::shelf::Shelf;
use super::table::{Line, Table};
use super::times;
use super::words;
use crate::coating::Method;
use crate::shop::{Air, Amount, AmountBasis, Drawn, Loss, Pass, PassId, PieceFile, What};
use crate::units::{Area, Density, Mass, Volume};

pub(super) const PASSES: &[&str] = &[
    "id",
    "kind",
    "product",
    "started",
    "ended",
    "basis",
    "amount",
    "before",
    "after",
    "temperature",
    "humidity",
    "method",
    "lost",
    "lost_volume",
];

/// Columns that files of earlier versions lack.
const LATER_PASSES: &[&str] = &["method", "lost", "lost_volume"];

const METHODS: Words<Method> = &[
    (Method::Wiped, "wiped"),
    (Method::Brushed, "brushed"),
    (Method::Sprayed, "sprayed"),
];

const FILE: &str = "passes.csv";

/// One coat line of a pass: which line of whose log.
pub(super) struct Part {
    /// The piece, by its place in the list.
    pub(super) piece: usize,
    /// The event, by its place in that piece's log.
    pub(super) event: usize,
    /// The area coated, in square metres.
    pub(super) m2: f64,
    /// The share as written, if it was.
    pub(super) used: Option<Volume>,
    /// The line in `log.csv`.
    pub(super) line: u64,
}

/// A pass as read.
pub(super) struct Read {
    /// Its key in the files.
    pub(super) key: String,
    /// The pass; its amount stands once it is settled.
    pub(super) pass: Pass,
    /// Its coat lines, as the replay meets them.
    pub(super) parts: Vec<Part>,
    line: u64,
    amount: Option<Volume>,
}

/// Reads the passes; the ring leads to their places in the list.
pub(super) fn read(
    reading: &mut Reading<'_>,
    shelf: &Shelf,
) -> Result<(Vec<Read>, Ring<usize>), FilesError> {
    let (mut out, mut ring) = (Vec::new(), Ring::new("pass"));
    let (now, zone) = (reading.now, reading.zone);
    Table::open_with(&reading.source, FILE, PASSES, LATER_PASSES)?.each(|line| {
        let key = line.must("id", ID_CURE, word)?;
        let id = reading
            .keys
            .of(&key)
            .ok_or_else(|| line.fail(ring.twice(&key)))?;
        ring.hang(&key, out.len())
            .map_err(|fault| line.fail(fault))?;
        let moment = |column| {
            line.must(
                column,
                "write a time like 2026-11-20T14:00:00.000Z",
                |text| times::read_moment(text, now, zone),
            )
        };
        let kind = line.must("kind", "write seal, stain or topcoat", coat_kind)?;
        let product = line.must("product", "write the id of the product", |key| {
            shelf.ring.find(key).map_err(|fault| fault.to_string())
        })?;
        if let Some(product) = shelf.product(product) {
            fits(product, kind.product_kind()).map_err(|fault| line.fail(fault))?;
        }
        let density = shelf.product(product).map(|product| product.label.density);
        let (basis, amount) = basis(line)?;
        let volume = Volume::ZERO;
        let pass = Pass {
            id: PassId(id),
            kind,
            product,
            started: moment("started")?,
            ended: moment("ended")?,
            amount: Amount { volume, basis },
            air: air(line)?,
            drawn: drawn(line, density)?,
        };
        out.push(Read {
            key,
            pass,
            parts: Vec::new(),
            line: line.no,
            amount,
        });
        Ok(())
    })?;
    Ok((out, ring))
}

fn basis(line: &Line<'_>) -> Result<(AmountBasis, Option<Volume>), FilesError> {
    let amount = line.maybe("amount", words::read_volume)?;
    let basis = match line.cell("basis") {
        "estimated" => {
            line.nothing_in(&["before", "after"], "estimated")?;
            AmountBasis::Estimated
        }
        "measured" => {
            line.nothing_in(&["before", "after"], "measured")?;
            line.must("amount", "a measured amount is written", words::read_volume)?;
            AmountBasis::Measured
        }
        "weighed" => {
            let can = |column| line.must(column, "write what the can weighed", words::read_mass);
            let (before, after) = (can("before")?, can("after")?);
            if after > before {
                let why = "the can weighs more after than before; swap the two.".to_owned();
                return Err(line.bad("after", &why));
            }
            AmountBasis::Weighed { before, after }
        }
        other => {
            let other = super::table::short(other);
            let why = format!("\"{other}\" is not one of estimated, measured, weighed.");
            return Err(line.bad("basis", &why));
        }
    };
    Ok((basis, amount))
}

/// How it was put on, and what stayed in rag and tray; its volume is reckoned if it is not written.
fn drawn(line: &Line<'_>, density: Option<Density>) -> Result<Drawn, FilesError> {
    let method = line.maybe("method", |text| pick(METHODS, text))?;
    let Some(mass) = line.maybe("lost", words::read_mass)? else {
        line.nothing_in(&["lost_volume"], "nothing lost")?;
        return Ok(Drawn {
            method,
            ..Drawn::default()
        });
    };
    let volume = line
        .maybe("lost_volume", words::read_volume)?
        .or_else(|| density.map(|density| density.volume_of(mass)))
        .unwrap_or(Volume::ZERO);
    if mass <= Mass::ZERO || volume <= Volume::ZERO {
        return Err(line.bad("lost", "what was lost is more than nothing, or left empty."));
    }
    Ok(Drawn {
        draws: Vec::new(),
        lost: Some(Loss { mass, volume }),
        method,
    })
}

fn air(line: &Line<'_>) -> Result<Option<Air>, FilesError> {
    let temperature = line.maybe("temperature", words::read_temperature)?;
    let humidity = line.maybe("humidity", words::read_humidity)?;
    match (temperature, humidity) {
        (None, None) => Ok(None),
        (Some(temperature), Some(humidity)) => Ok(Some(Air {
            temperature,
            humidity,
        })),
        (Some(_), None) => line
            .must("humidity", "shop air has both", words::read_humidity)
            .map(|_| None),
        (None, Some(_)) => line
            .must("temperature", "shop air has both", words::read_temperature)
            .map(|_| None),
    }
}

/// Sets the amount of each pass where the file left it to be worked out, and holds or fills in
/// the shares of its pieces.
pub(super) fn settle(
    passes: &mut [Read],
    shelf: &Shelf,
    files: &mut [PieceFile],
) -> Result<(), FilesError> {
    for read in passes {
        let at = |fault: Fault| fault.at(FILE, read.line);
        let pass = || super::table::short(&read.key);
        if read.parts.is_empty() {
            return Err(at(Fault::NoCoat { pass: pass() }));
        }
        let areas: Vec<f64> = read.parts.iter().map(|part| part.m2).collect();
        let total = Area::from_m2(areas.iter().sum());
        let product = shelf.product(read.pass.product);
        let reckoned = product.map(|product| match read.pass.amount.basis {
            AmountBasis::Weighed { before, after } => {
                product.label.density.volume_of(before - after)
            }
            _ => product.label.spread.volume_for(total),
        });
        let whole = read.amount.or(reckoned).unwrap_or(Volume::ZERO);
        // The wall of the smallest hole takes less than a microlitre by estimate.
        if whole.ul() <= 0 && read.pass.amount.basis.is_measured() {
            let cure = "a pass uses something".to_owned();
            return Err(at(Fault::Empty {
                what: "amount",
                cure,
            }));
        }
        let by_area = whole.split(&areas);
        let said: Vec<Volume> = read.parts.iter().filter_map(|part| part.used).collect();
        let shares = if said.is_empty() {
            by_area.clone()
        } else {
            said
        };
        let sum: Volume = shares.iter().sum();
        if shares.len() != read.parts.len() || sum != whole {
            let (shares, amount) = (words::volume(sum), words::volume(whole));
            return Err(at(Fault::Shares {
                pass: pass(),
                shares,
                amount,
            }));
        }
        for ((part, share), fair) in read.parts.iter().zip(shares).zip(by_area) {
            // Areas are kept to the square micrometre, so the odd microlitre may fall otherwise.
            if (share - fair).ul().abs() > 2 {
                let (share, by_area) = (words::volume(share), words::volume(fair));
                return Err(Fault::Share {
                    pass: pass(),
                    share,
                    by_area,
                }
                .at("log.csv", part.line));
            }
            let event = files
                .get_mut(part.piece)
                .and_then(|file| file.events.get_mut(part.event));
            if let Some(What::Coat { used, .. }) = event.map(|event| &mut event.what) {
                *used = share;
            }
        }
        if read
            .pass
            .drawn
            .lost
            .is_some_and(|lost| lost.volume >= whole)
        {
            let why = "more was lost than the pass used.".to_owned();
            return Err(at(Fault::Value { what: "lost", why }));
        }
        read.pass.amount.volume = whole;
    }
    Ok(())
}

/// A pass's cells.
pub(super) fn pass_row(pass: &Pass) -> Vec<String> {
    let (before, after) = match pass.amount.basis {
        AmountBasis::Weighed { before, after } => (words::mass(before), words::mass(after)),
        _ => (String::new(), String::new()),
    };
    let air = |show: fn(Air) -> String| pass.air.map_or(String::new(), show);
    let lost = |show: fn(Loss) -> String| pass.drawn.lost.map_or_else(String::new, show);
    vec![
        pass.id.to_string(),
        pass.kind.word().to_owned(),
        pass.product.to_string(),
        times::moment(pass.started),
        times::moment(pass.ended),
        pass.amount.basis.word().to_owned(),
        words::volume(pass.amount.volume),
        before,
        after,
        air(|air| words::temperature(air.temperature)),
        air(|air| words::humidity(air.humidity)),
        pass.drawn
            .method
            .map_or_else(String::new, |method| name(METHODS, &method).to_owned()),
        lost(|lost| words::mass(lost.mass)),
        lost(|lost| words::volume(lost.volume)),
    ]
}
