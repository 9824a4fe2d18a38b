//! The Rack in full: for each coat the stage its film is in, safe and likely moments of the stages
//! to come, its window, its hours so far, and what holds it back. Pure; a screen and a listing
//! draw the same lines from here.

use super::check::Gates;
use super::dry_stage::{DryStage, denied_from};
use super::event::{CoatKind, ScuffMeans, TouchVerdict};
use super::face_state::Coat;
use super::id::PassId;
use super::piece::PieceFile;
use super::rack::{RackRow, rack};
use super::schedule::Grit;
use super::ticket::Ticket;
use crate::coating::{
    Cost, Learned, Product, ProductId, Recoat, RecoatWindow, SafeLikely, ShopAirClock, Speed,
    look_again,
};
use chrono::{DateTime, Utc};

/// What a missed window is abraded with where the schedule names nothing that abrades: 320 paper
/// (320 to 400 is what most writers and labels ask between coats).
pub const ABRADES_WITH: ScuffMeans = ScuffMeans::FinePaper(Grit(320));

/// When a film reaches a stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Milestone {
    /// The stage.
    pub stage: DryStage,
    /// Safe and likely; a touch test moves both.
    pub times: SafeLikely,
    /// Whether the film gets there at all in the air that is known and expected; if not, the times
    /// are far off and not worth showing.
    pub in_sight: bool,
}

/// The window for the next coat.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FilmWindow {
    /// How it stands now.
    pub state: Recoat,
    /// The label's window that is meant: the open one, or the next to open; the last where all
    /// have shut.
    pub label: RecoatWindow,
    /// When that one shuts, if it does; never later than plain hours would have it.
    pub shuts: Option<DateTime<Utc>>,
}

/// The film of the coat that decides for a piece.
#[derive(Debug, Clone, PartialEq)]
pub struct Film {
    /// Of what.
    pub product: ProductId,
    /// From which pass.
    pub pass: PassId,
    /// From when its drying counts.
    pub laid: DateTime<Utc>,
    /// The stage it is in, by the safe clock and by touch tests.
    pub stage: DryStage,
    /// All stages after wet, in order, past ones too.
    pub milestones: Vec<Milestone>,
    /// The window for the next coat.
    pub window: FilmWindow,
    /// Effective label-hours so far, by the safe clock with what tests have taught.
    pub had: f64,
    /// Label-hours until dry to recoat, its thickness taken into account.
    pub asked: f64,
    /// Film factor: above 1 where the pass was measured and went on thicker than the label's.
    pub thickness: f64,
    /// How fast it dries now, in which air, and what holds it back.
    pub speed: Speed,
    /// The stretch that cost it most, where that is over and it is not dry to recoat yet.
    pub cost: Option<Cost>,
    /// What touch tests have taught of the product.
    pub learned: Learned,
    /// The last touch test of it.
    pub touch: Option<(DateTime<Utc>, TouchVerdict)>,
    /// When to test again, after a test that found it not dry to recoat.
    pub look_again: Option<DateTime<Utc>>,
    /// What to abrade with, should the window be missed.
    pub abrades_with: ScuffMeans,
}

/// One line of the Rack, in full.
#[derive(Debug, Clone, PartialEq)]
pub struct RackLine {
    /// The row, as the gates see it; the order of lines is that of [`rack`].
    pub row: RackRow,
    /// The film that decides; none where only a wipe-down flashes off.
    pub film: Option<Film>,
}

/// The lines of the Rack, ready now first. `gates` must hold to the same clock.
pub fn rack_lines(
    files: &[PieceFile],
    gates: &Gates<'_>,
    clock: &ShopAirClock,
    now: DateTime<Utc>,
) -> Vec<RackLine> {
    rack(files, gates, now)
        .into_iter()
        .map(|row| {
            let film = files
                .iter()
                .find(|file| file.piece.id == row.piece)
                .and_then(|file| film(file, &row, gates, clock, now));
            RackLine { row, film }
        })
        .collect()
}

fn film(
    file: &PieceFile,
    row: &RackRow,
    gates: &Gates<'_>,
    clock: &ShopAirClock,
    now: DateTime<Utc>,
) -> Option<Film> {
    let ticket = Ticket::of(file);
    let face = ticket.face(row.face?)?;
    let coat = face.last_coat()?;
    let product = gates.product(coat.product)?;
    let (laid, thickness) = (coat.dries_from(), gates.thickness(coat));
    let clock = clock.with_film(thickness);
    let milestones: Vec<Milestone> = DryStage::TO_COME
        .into_iter()
        .filter_map(|stage| milestone(stage, coat, product, &clock))
        .collect();
    // A later stage does not make up for an earlier one that a thick film has not reached.
    let stage = milestones
        .iter()
        .take_while(|milestone| milestone.in_sight && milestone.times.safe <= now)
        .last()
        .map_or(DryStage::Wet, |milestone| milestone.stage);
    let opens = product.label.windows.first()?.opens;
    let recoat = milestones
        .iter()
        .find(|milestone| milestone.stage == DryStage::Recoat)?;
    let soft = coat
        .touch
        .filter(|(_, verdict)| *verdict < TouchVerdict::DryToRecoat);
    let abrades = |means: &ScuffMeans| means.abrades();
    let had = clock.effective(product, laid, now);
    let asked = opens.as_minutes() as f64 / 60.0 * clock.film_for(product, opens);
    Some(Film {
        product: product.id,
        pass: coat.pass,
        laid,
        stage,
        window: window(gates.recoat(face, now)?, product, laid, &clock)?,
        had,
        asked,
        thickness,
        speed: clock.speed(product, now),
        cost: (had < asked)
            .then(|| clock.costliest(product, laid, now))
            .flatten(),
        learned: clock.tuning(product.id).safe,
        touch: coat.touch,
        look_again: soft.map(|_| recoat.times.safe),
        abrades_with: ticket
            .schedule
            .scuff
            .filter(abrades)
            .unwrap_or(ABRADES_WITH),
        milestones,
    })
}

fn milestone(
    stage: DryStage,
    coat: &Coat,
    product: &Product,
    clock: &ShopAirClock,
) -> Option<Milestone> {
    let (span, laid) = (stage.span(product)?, coat.dries_from());
    let reach = clock.safe().reach(product, laid, span);
    let mut times = clock.times(product, laid, span);
    let mut in_sight = reach.in_sight;
    // What a thumb has found goes before any clock.
    let Some((at, found)) = coat.touch else {
        return Some(Milestone {
            stage,
            times,
            in_sight,
        });
    };
    if stage.verdict().is_some_and(|shows| found >= shows) {
        let at = match stage {
            DryStage::Recoat => coat.recoat_tested.unwrap_or(at),
            DryStage::Handle => coat.handle_tested.unwrap_or(at),
            _ => at,
        };
        times = SafeLikely {
            safe: times.safe.min(at),
            likely: times.likely.min(at),
        };
        in_sight = true;
    } else if denied_from(found).is_some_and(|least| stage >= least) {
        // Not there yet; and what comes after dry to recoat does not come before it.
        let rests_on = stage.min(DryStage::Recoat).span(product)?;
        let first = clock.times(product, laid, rests_on);
        times = SafeLikely {
            safe: times.safe.max(look_again(laid, at, first.safe)),
            likely: times.likely.max(look_again(laid, at, first.likely)),
        };
    }
    Some(Milestone {
        stage,
        times,
        in_sight,
    })
}

/// The window that counts now.
fn window(
    state: Recoat,
    product: &Product,
    laid: DateTime<Utc>,
    clock: &ShopAirClock,
) -> Option<FilmWindow> {
    let windows = &product.label.windows;
    let shuts = |window: &RecoatWindow| {
        window
            .closes
            .map(|span| clock.window_end(product, laid, span))
    };
    let (label, shuts) = match state {
        Recoat::Wait { .. } => windows.first().map(|window| (window, shuts(window)))?,
        // The state tells when it shuts; the label's window is the one that says so.
        Recoat::Open { shuts: open, .. } => windows
            .iter()
            .find(|window| shuts(window) == open)
            .or(windows.last())
            .map(|window| (window, open))?,
        Recoat::Lifts { shut, .. } => windows
            .iter()
            .find(|window| shuts(window).is_none_or(|shuts| shuts > shut))
            .map(|window| (window, shuts(window)))?,
        Recoat::Missed { since } => (windows.last()?, Some(since)),
    };
    Some(FilmWindow {
        state,
        label: *label,
        shuts,
    })
}

impl RackLine {
    /// What to call the coat: `coat 3`, `stain`, `wipe-down`.
    pub fn coat_words(&self) -> String {
        match self.row.coat {
            Some((CoatKind::Stain, no)) if no <= 1 => "stain".to_owned(),
            Some((kind, no)) => format!("{} {no}", kind.coat_word()),
            None => "wipe-down".to_owned(),
        }
    }
}

impl Film {
    /// The stages still to come at a moment, by the safe clock.
    pub fn to_come(&self, now: DateTime<Utc>) -> impl Iterator<Item = &Milestone> {
        self.milestones
            .iter()
            .filter(move |milestone| milestone.times.safe > now)
    }

    /// When it reaches a stage.
    pub fn milestone(&self, stage: DryStage) -> Option<&Milestone> {
        self.milestones
            .iter()
            .find(|milestone| milestone.stage == stage)
    }
}
