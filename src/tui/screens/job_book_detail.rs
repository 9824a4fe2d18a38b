//! What is known of a client, a job or a piece, in lines to read.

use super::super::screen::Ctx;
use super::job_book_rows::{RowKey, children, promise};
use super::list::{Line, Tone, count, plain};
use crate::papers::shape_figures;
use crate::shape::{Opening, OpeningKind, Outline, Shape};
use crate::shop::{Client, Job, PieceFile, Ticket, cautions_for_job};
use crate::units::moment::show_date;
use crate::units::{Area, Length};

/// What the row is called.
pub(super) fn heading(row: RowKey, ctx: &Ctx<'_>) -> String {
    let shop = ctx.shop;
    match row {
        RowKey::Client(id) => shop.client(id).map(|client| client.name.clone()),
        RowKey::Job(id) => shop
            .job(id)
            .map(|job| format!("job {} {}", job.no, job.title)),
        RowKey::Piece(id) => shop.file(id).map(|file| shop.called(file)),
    }
    .unwrap_or_default()
}

/// All that is known of it, its heading left out.
pub(super) fn detail(row: RowKey, ctx: &Ctx<'_>) -> Vec<Line> {
    let shop = ctx.shop;
    match row {
        RowKey::Client(id) => shop.client(id).map(|it| client(it, ctx)),
        RowKey::Job(id) => shop.job(id).map(|it| job(it, ctx)),
        RowKey::Piece(id) => shop.file(id).map(|it| piece(it, ctx)),
    }
    .unwrap_or_default()
}

/// A labelled text of one or more lines; nothing if it is empty.
fn labelled(label: &str, text: &str) -> Vec<Line> {
    let mut lines = text.lines();
    let Some(first) = lines.next().filter(|_| !text.trim().is_empty()) else {
        return Vec::new();
    };
    let mut out = vec![plain(format!("{label}: {first}"))];
    out.extend(lines.map(|line| plain(format!("  {line}"))));
    out
}

fn client(client: &Client, ctx: &Ctx<'_>) -> Vec<Line> {
    let mut out = Vec::new();
    out.extend(labelled("telephone", &client.phone));
    out.extend(labelled("mail", &client.email));
    out.extend(labelled("address", &client.address));
    out.extend(labelled("notes", &client.notes));
    out.push(plain(
        match children(RowKey::Client(client.id), ctx).len() {
            0 => "no job yet: press j to enter the first".to_owned(),
            n => count(n, "job"),
        },
    ));
    out
}

fn cautions(job: &Job) -> impl Iterator<Item = Line> {
    cautions_for_job(job)
        .into_iter()
        .map(|caution| (Tone::Warn, format!("Caution: {}", caution.words())))
}

fn job(job: &Job, ctx: &Ctx<'_>) -> Vec<Line> {
    let today = ctx.now.with_timezone(&ctx.zone()).date_naive();
    let (promise, late) = promise(job, ctx);
    let mut out = vec![(if late { Tone::Warn } else { Tone::Text }, promise)];
    out.extend(cautions(job));
    out.extend(for_whom(job, ctx));
    match job.house_built {
        Some(year) => out.push(plain(format!("house built {year}"))),
        None => out.push(plain("year the house was built not known")),
    }
    out.extend(labelled("notes", &job.notes));
    out.push(plain(format!("taken {}", show_date(job.taken, today))));
    if children(RowKey::Job(job.id), ctx).is_empty() {
        out.push(plain("no piece yet: press n to enter the first"));
    }
    out
}

/// The client, the phone, the site.
fn for_whom(job: &Job, ctx: &Ctx<'_>) -> Vec<Line> {
    let mut out = Vec::new();
    if let Some(client) = ctx.shop.client(job.client) {
        let phone = if client.phone.is_empty() {
            String::new()
        } else {
            format!(", phone {}", client.phone)
        };
        out.push(plain(format!("for {}{phone}", client.name)));
    }
    out.extend(labelled("site", &job.site));
    out
}

fn piece(file: &PieceFile, ctx: &Ctx<'_>) -> Vec<Line> {
    let piece = &file.piece;
    let settings = &ctx.shop.settings;
    let len = |length: Length| length.show_inches(settings.length);
    let species = if piece.species.is_empty() {
        "species not given"
    } else {
        &piece.species
    };
    let mut out = vec![plain(format!(
        "{}, {species}, {}: {}",
        piece.kind.word(),
        piece.construction,
        size(&piece.shape, &len)
    ))];
    for opening in piece.shape.openings() {
        out.push(plain(format!("  {}", opening_words(opening, &len))));
    }
    if let Some(band) = piece.shape.band() {
        out.push(plain(format!(
            "  underside in band and field: the band, {} wide{}, is finished like the show faces",
            len(band),
            if piece.shape.band_round_openings() {
                " and round the openings"
            } else {
                ""
            }
        )));
    }
    let figures = shape_figures(piece, ctx.shop);
    out.extend(figures.into_iter().map(plain));
    let recipe = ctx
        .shop
        .recipe(piece.recipe)
        .map_or("a recipe no longer kept", |recipe| &recipe.name);
    let own = if piece.schedule.is_some() {
        " (its own copy, as work has started)"
    } else {
        ""
    };
    out.push(plain(format!("recipe: {recipe}{own}")));
    let ticket = Ticket::of(file);
    let total: Area = ticket.faces.iter().map(|face| face.area).sum();
    let faces: Vec<String> = ticket
        .faces
        .iter()
        .map(|face| format!("{} {}", face.key, face.area.show(settings.area())))
        .collect();
    let (count, total) = (count(faces.len(), "face"), total.show(settings.area()));
    out.push(plain(format!("{count}, {total}: {}", faces.join(", "))));
    for face in &ticket.faces {
        if let Some(reason) = &face.not_exposed {
            out.push((Tone::Warn, format!("{}: not exposed ({reason})", face.key)));
        }
    }
    if let Some(job) = ctx.shop.job(piece.job) {
        out.extend(for_whom(job, ctx));
        out.extend(cautions(job));
    }
    out
}

fn size(shape: &Shape, len: &dyn Fn(Length) -> String) -> String {
    let thick = len(shape.thickness());
    let outline = match shape.outline() {
        Outline::Rectangle { length, width } => {
            format!("{} x {} x {thick}", len(*length), len(*width))
        }
        Outline::Circle { diameter } => format!("{} across, {thick} thick", len(*diameter)),
        other => format!("{}, {thick} thick", other.words(len)),
    };
    format!("{outline}, {}", shape.profile().words(len))
}

fn opening_words(opening: &Opening, len: &dyn Fn(Length) -> String) -> String {
    let what = match opening.what {
        OpeningKind::Cutout {
            width,
            depth,
            corner_radius,
        } => {
            format!(
                "{} x {}, corner radius {}",
                len(width),
                len(depth),
                len(corner_radius)
            )
        }
        OpeningKind::Hole { diameter } => format!("{} across", len(diameter)),
    };
    let (x, y) = (len(opening.place.x), len(opening.place.y));
    let profile = opening
        .profile_words(len)
        .map_or_else(String::new, |words| format!(", {words}"));
    let purpose = opening
        .purpose_words(len)
        .map_or_else(String::new, |words| format!("; {words}"));
    format!(
        "{}: {what}{profile}, centre {x} from the left end and {y} from the front edge{purpose}",
        opening.name()
    )
}
