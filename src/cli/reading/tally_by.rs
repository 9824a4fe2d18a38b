//! The tally by job, client, product or month.

use super::{fine, rounded};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::desk::Shop;
use crate::papers::{
    TALLY_COLUMNS, faces_paper, group_name, groups_paper, tally_groups, tally_table,
};
use crate::shop::{
    FaceFilm, GroupKey, JobId, PieceFile, ShelfSums, TallyBy, TallyGroup, UseRow, face_films,
    use_lines,
};
use crate::store::files::guarded_csv;
use clap::ValueEnum;
use serde::Serialize;

/// What it is added up by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum By {
    /// Job by job.
    Job,
    /// Client by client.
    Client,
    /// Product by product, with what became of its cans.
    Product,
    /// Month by month.
    Month,
}

impl By {
    fn of(self) -> TallyBy {
        match self {
            Self::Job => TallyBy::Job,
            Self::Client => TallyBy::Client,
            Self::Product => TallyBy::Product,
            Self::Month => TallyBy::Month,
        }
    }

    fn word(self) -> &'static str {
        match self {
            Self::Job => "job",
            Self::Client => "client",
            Self::Product => "product",
            Self::Month => "month",
        }
    }
}

#[derive(Serialize)]
struct TallyJson {
    by: &'static str,
    groups: Vec<GroupJson>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    faces: Vec<FaceJson>,
}

#[derive(Serialize)]
struct GroupJson {
    group: String,
    id: String,
    cost_cents: i64,
    wood_m2: f64,
    cost_cents_per_m2: Option<f64>,
    jars_ml: f64,
    jars_cents: i64,
    rows: Vec<RowJson>,
    shelf: Option<ShelfJson>,
}

#[derive(Serialize)]
struct RowJson {
    product: String,
    product_id: String,
    used_as: &'static str,
    coated_m2: f64,
    planned_ml: Option<f64>,
    used_ml: f64,
    measured_ml: f64,
    estimated_ml: f64,
    estimated_share: Option<f64>,
    lost_ml: f64,
    at_label_ml: f64,
    no_can_ml: f64,
    cost_cents: i64,
    cost_at_price_cents: i64,
    cost_cents_per_m2: Option<f64>,
    batches: Vec<String>,
    films: Vec<FilmJson>,
}

#[derive(Serialize)]
struct FilmJson {
    method: &'static str,
    coated_m2: f64,
    on_wood_ml: f64,
    wet_um: f64,
    dry_um: f64,
    measured: bool,
}

#[derive(Serialize)]
struct ShelfJson {
    came_ml: f64,
    came_cents: i64,
    left_ml: f64,
    left_cents: i64,
    on_wood_ml: f64,
    rag_ml: f64,
    jars_ml: f64,
    lost_ml: f64,
    discarded_ml: f64,
    found_ml: f64,
}

#[derive(Serialize)]
struct FaceJson {
    piece: String,
    face: String,
    used_as: &'static str,
    coats: usize,
    wet_um: f64,
    dry_um: f64,
    measured: bool,
}

impl RowJson {
    fn of(row: &UseRow, shop: &Shop) -> Self {
        Self {
            product: group_name(GroupKey::Product(row.product), shop),
            product_id: row.product.to_string(),
            used_as: row.kind.word(),
            coated_m2: fine(row.coated.m2()),
            planned_ml: row.planned.map(|planned| rounded(planned.ml())),
            used_ml: rounded(row.used().ml()),
            measured_ml: rounded(row.measured.ml()),
            estimated_ml: rounded(row.estimated.ml()),
            estimated_share: row.estimated_share().map(fine),
            lost_ml: rounded(row.lost.ml()),
            at_label_ml: rounded(row.at_label.ml()),
            no_can_ml: rounded(row.no_can.ml()),
            cost_cents: row.cost.cents(),
            cost_at_price_cents: row.cost_at_price.cents(),
            cost_cents_per_m2: row.cents_per_m2().map(rounded),
            batches: row.batches.clone(),
            films: row
                .films
                .iter()
                .map(|film| FilmJson {
                    method: film.method.word(),
                    coated_m2: fine(film.area.m2()),
                    on_wood_ml: rounded(film.on_wood.ml()),
                    wet_um: rounded(film.film.wet_um),
                    dry_um: rounded(film.film.dry_um),
                    measured: film.measured,
                })
                .collect(),
        }
    }
}

impl ShelfJson {
    fn of(shelf: &ShelfSums) -> Self {
        let sums = &shelf.sums;
        Self {
            came_ml: rounded(shelf.came.volume.ml()),
            came_cents: shelf.came.cost.cents(),
            left_ml: rounded(shelf.left.volume.ml()),
            left_cents: shelf.left.cost.cents(),
            on_wood_ml: rounded(sums.on_wood.volume.ml()),
            rag_ml: rounded(sums.rag.volume.ml()),
            jars_ml: rounded(sums.jars.volume.ml()),
            lost_ml: rounded(sums.lost.volume.ml()),
            discarded_ml: rounded(sums.discarded.volume.ml()),
            found_ml: rounded(sums.found.volume.ml()),
        }
    }
}

impl GroupJson {
    fn of(group: &TallyGroup, shop: &Shop) -> Self {
        Self {
            group: group_name(group.key, shop),
            id: match group.key {
                GroupKey::Job(id) => id.to_string(),
                GroupKey::Client(id) => id.to_string(),
                GroupKey::Product(id) => id.to_string(),
                GroupKey::Month(year, month) => format!("{year}-{month:02}"),
            },
            cost_cents: group.cost().cents(),
            wood_m2: fine(group.wood.m2()),
            cost_cents_per_m2: group.cents_per_m2().map(rounded),
            jars_ml: rounded(group.jars.volume.ml()),
            jars_cents: group.jars.cost.cents(),
            rows: group
                .rows
                .iter()
                .map(|row| RowJson::of(row, shop))
                .collect(),
            shelf: group.shelf.as_ref().map(ShelfJson::of),
        }
    }
}

/// The films on the faces of one job's pieces.
fn faces(job: JobId, shop: &Shop) -> Vec<FaceFilm> {
    let of_job = |file: &&PieceFile| file.piece.job == job;
    let files: Vec<PieceFile> = shop.files.iter().filter(of_job).cloned().collect();
    let lines = use_lines(&files, &shop.passes, &shop.products, &shop.cans);
    face_films(&lines, &shop.products)
}

/// Reads it; `job` leaves only that job, with the film on every face.
pub fn run(by: By, job: Option<JobId>, csv: bool, shop: &Shop) -> Result<Answer, Failure> {
    let mut groups = tally_groups(shop, by.of());
    let mut films = Vec::new();
    if let Some(job) = job {
        if by != By::Job {
            return Err(Failure::said(
                "One job is tallied by job: say --by job, or leave the job out.",
            ));
        }
        groups.retain(|group| group.key == GroupKey::Job(job));
        films = faces(job, shop);
    }
    let json = TallyJson {
        by: by.word(),
        groups: groups
            .iter()
            .map(|group| GroupJson::of(group, shop))
            .collect(),
        faces: films
            .iter()
            .map(|film| FaceJson {
                piece: shop
                    .file(film.piece)
                    .map_or_else(String::new, |file| shop.ticket_no(file)),
                face: film.face.to_string(),
                used_as: film.kind.word(),
                coats: film.coats,
                wet_um: rounded(film.film.wet_um),
                dry_um: rounded(film.film.dry_um),
                measured: film.measured,
            })
            .collect(),
    };
    if csv {
        let bytes =
            guarded_csv(TALLY_COLUMNS, &tally_table(&groups, shop)).map_err(Failure::unexpected)?;
        let text = String::from_utf8(bytes).map_err(Failure::unexpected)?;
        return Answer::new(text.lines().map(str::to_owned).collect(), json);
    }
    let mut lines = groups_paper(&format!("TALLY by {}", by.word()), &groups, shop);
    if !films.is_empty() {
        lines.push(String::new());
        lines.extend(faces_paper(&films, shop));
    }
    Answer::new(lines, json)
}
