//! Pieces and their openings. However many pieces are asked for, the number of queries is the
//! same.

use super::cells::{Cells, all, json, run, word};
use super::error::Fault;
use super::events;
use super::passes::Chosen;
use crate::desk::Scope;
use crate::shape::{EdgeProfile, Opening, OpeningKind, Outline, Place, Purpose, Shape, ShapeDraft};
use crate::shop::{Piece, PieceFile, PieceId, Schedule};
use crate::units::Length;
use rusqlite::{Connection, params, params_from_iter};
use std::collections::HashMap;

/// A piece as its row has it, the shape not yet checked.
struct Bare {
    piece: PieceId,
    draft: ShapeDraft,
    schedule: Schedule,
    build: Box<dyn FnOnce(Shape) -> Piece>,
}

pub(super) fn pieces(conn: &Connection, scope: Scope) -> Result<Vec<PieceFile>, Fault> {
    let chosen = Chosen::from(scope);
    let sql = format!(
        "SELECT piece.id, piece.job, piece.no, piece.name, piece.kind, piece.species, \
         piece.construction, piece.recipe, piece.stage, piece.finished, piece.outline, \
         piece.length_nm, piece.width_nm, piece.diameter_nm, piece.thickness_nm, piece.profile, \
         piece.profile_nm, piece.band_nm, piece.form, piece.band_round, piece.schedule, \
         CASE WHEN piece.schedule IS NULL THEN recipe.schedule END \
         FROM piece JOIN job ON job.id = piece.job JOIN recipe ON recipe.id = piece.recipe \
         WHERE {} ORDER BY job.no, piece.no",
        chosen.sql
    );
    let bare = all(conn, &sql, params_from_iter(&chosen.value), read)?;
    let mut openings = openings(conn, &chosen)?;
    let mut logs = events::logs(conn, &chosen)?;
    let mut files = Vec::with_capacity(bare.len());
    for mut bare in bare {
        bare.draft.openings = openings.remove(&bare.piece).unwrap_or_default();
        let shape = Shape::try_from(bare.draft).map_err(|error| {
            let why = error.to_string();
            let why = why.trim_end_matches('.');
            Fault::damaged(format!(
                "the shape of the piece {} cannot be ({why})",
                bare.piece
            ))
        })?;
        files.push(PieceFile {
            piece: (bare.build)(shape),
            schedule: bare.schedule,
            events: logs.remove(&bare.piece).unwrap_or_default(),
        });
    }
    Ok(files)
}

fn read(row: &mut Cells<'_>) -> Result<Bare, Fault> {
    let (id, job, no, name) = (row.parse()?, row.parse()?, row.take()?, row.take()?);
    let (kind, species, construction) = (row.word()?, row.take()?, row.word()?);
    let (recipe, stage, finished) = (row.parse()?, row.word()?, row.take()?);
    let (word, sizes): (String, _) = (row.take()?, [row.take()?, row.take()?, row.take()?]);
    let thickness = Length::from_nm(row.take()?);
    let profile = profile(row)?;
    let band = row.take::<Option<i64>>()?.map(Length::from_nm);
    let form: Option<Outline> = row.maybe_json()?;
    let draft = ShapeDraft {
        outline: outline(row, &word, sizes, form)?,
        thickness,
        profile,
        openings: Vec::new(),
        band,
        band_round_openings: row.take()?,
    };
    let own: Option<Schedule> = row.maybe_json()?;
    let schedule = match (&own, row.maybe_json()?) {
        (Some(own), _) => own.clone(),
        (None, Some(recipe)) => recipe,
        (None, None) => return Err(row.wrong(&"it has no schedule")),
    };
    let build = Box::new(move |shape| Piece {
        id,
        job,
        no,
        name,
        kind,
        species,
        construction,
        shape,
        recipe,
        schedule: own,
        stage,
        finished,
    });
    Ok(Bare {
        piece: id,
        draft,
        schedule,
        build,
    })
}

fn outline(
    row: &Cells<'_>,
    word: &str,
    sizes: [Option<i64>; 3],
    form: Option<Outline>,
) -> Result<Outline, Fault> {
    match (word, sizes, form) {
        ("rectangle", [Some(length), Some(width), None], None) => Ok(Outline::Rectangle {
            length: Length::from_nm(length),
            width: Length::from_nm(width),
        }),
        ("circle", [None, None, Some(diameter)], None) => Ok(Outline::Circle {
            diameter: Length::from_nm(diameter),
        }),
        (word, [None, None, None], Some(form)) if form.word() == word => Ok(form),
        _ => Err(row.wrong(&"the outline does not add up")),
    }
}

fn profile(row: &mut Cells<'_>) -> Result<EdgeProfile, Fault> {
    let word: String = row.take()?;
    let size = row.take::<Option<i64>>()?.map(Length::from_nm);
    EdgeProfile::of_code(&word.replace('_', "-"), size)
        .ok_or_else(|| row.wrong(&"the edge profile does not add up"))
}

/// The word a profile is kept by.
fn profile_word(profile: EdgeProfile) -> String {
    profile.code().replace('-', "_")
}

/// Its size; none for a square edge.
fn profile_size(profile: EdgeProfile) -> Option<i64> {
    (!profile.is_square()).then(|| profile.reach().nm())
}

fn openings(conn: &Connection, chosen: &Chosen) -> Result<HashMap<PieceId, Vec<Opening>>, Fault> {
    let sql = format!(
        "SELECT opening.piece, opening.kind, opening.no, opening.x_nm, opening.y_nm, \
         opening.width_nm, opening.depth_nm, opening.corner_nm, opening.diameter_nm, \
         opening.purpose, opening.profile, opening.profile_nm \
         FROM piece CROSS JOIN opening ON opening.piece = piece.id WHERE {} \
         ORDER BY opening.piece, opening.pos",
        chosen.sql
    );
    let mut by_piece: HashMap<PieceId, Vec<Opening>> = HashMap::new();
    let rows = all(conn, &sql, params_from_iter(&chosen.value), |row| {
        let piece: PieceId = row.parse()?;
        let kind: String = row.take()?;
        let no = row.take()?;
        let place = Place {
            x: Length::from_nm(row.take()?),
            y: Length::from_nm(row.take()?),
        };
        let mut size = || Ok::<_, Fault>(row.take::<Option<i64>>()?.map(Length::from_nm));
        let sizes = (size()?, size()?, size()?, size()?);
        let what = match (kind.as_str(), sizes) {
            ("cutout", (Some(width), Some(depth), Some(corner_radius), None)) => {
                OpeningKind::Cutout {
                    width,
                    depth,
                    corner_radius,
                }
            }
            ("hole", (None, None, None, Some(diameter))) => OpeningKind::Hole { diameter },
            _ => return Err(row.wrong(&"the sizes of an opening do not add up")),
        };
        let purpose = row.maybe_json()?.unwrap_or_default();
        let opening = Opening {
            no,
            place,
            what,
            purpose,
            profile: profile(row)?,
        };
        Ok((piece, opening))
    })?;
    for (piece, opening) in rows {
        by_piece.entry(piece).or_default().push(opening);
    }
    Ok(by_piece)
}

pub(super) fn put_piece(conn: &Connection, piece: &Piece) -> Result<(), Fault> {
    let outline = piece.shape.outline();
    let (length, width, diameter, form) = match outline {
        Outline::Rectangle { length, width } => (Some(*length), Some(*width), None, None),
        Outline::Circle { diameter } => (None, None, Some(*diameter), None),
        form => (None, None, None, Some(json(form)?)),
    };
    let profile = piece.shape.profile();
    run(
        conn,
        "INSERT INTO piece (id, job, no, name, kind, species, construction, outline, length_nm, \
         width_nm, diameter_nm, thickness_nm, profile, profile_nm, band_nm, recipe, schedule, \
         stage, finished, form, band_round) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, \
         ?12, ?13, ?14, ?15, ?16, ?17, ?18, ?19, ?20, ?21) ON CONFLICT (id) DO UPDATE SET job = excluded.job, \
         no = excluded.no, name = excluded.name, kind = excluded.kind, \
         species = excluded.species, construction = excluded.construction, \
         outline = excluded.outline, length_nm = excluded.length_nm, \
         width_nm = excluded.width_nm, diameter_nm = excluded.diameter_nm, \
         thickness_nm = excluded.thickness_nm, profile = excluded.profile, \
         profile_nm = excluded.profile_nm, band_nm = excluded.band_nm, \
         recipe = excluded.recipe, schedule = excluded.schedule, stage = excluded.stage, \
         finished = excluded.finished, form = excluded.form, band_round = excluded.band_round",
        params![
            piece.id.to_string(),
            piece.job.to_string(),
            piece.no,
            piece.name,
            word(&piece.kind)?,
            piece.species,
            word(&piece.construction)?,
            outline.word(),
            length.map(Length::nm),
            width.map(Length::nm),
            diameter.map(Length::nm),
            piece.shape.thickness().nm(),
            profile_word(profile),
            profile_size(profile),
            piece.shape.band().map(Length::nm),
            piece.recipe.to_string(),
            piece.schedule.as_ref().map(json).transpose()?,
            word(&piece.stage)?,
            piece.finished,
            form,
            piece.shape.band_round_openings(),
        ],
    )?;
    put_openings(conn, piece)
}

fn put_openings(conn: &Connection, piece: &Piece) -> Result<(), Fault> {
    let id = piece.id.to_string();
    let now = piece.shape.openings();
    let stored: Vec<(String, u8)> = all(
        conn,
        "SELECT kind, no FROM opening WHERE piece = ?1",
        [&id],
        |row| Ok((row.take()?, row.take()?)),
    )?;
    for (kind, no) in stored {
        if !now
            .iter()
            .any(|opening| kind_word(opening) == kind && opening.no == no)
        {
            let sql = "DELETE FROM opening WHERE piece = ?1 AND kind = ?2 AND no = ?3";
            run(conn, sql, params![id, kind, no])?;
        }
    }
    for (opening, pos) in now.iter().zip(0_i64..) {
        let (width, depth, corner, diameter) = match opening.what {
            OpeningKind::Cutout {
                width,
                depth,
                corner_radius,
            } => (Some(width), Some(depth), Some(corner_radius), None),
            OpeningKind::Hole { diameter } => (None, None, None, Some(diameter)),
        };
        let said = opening.purpose != Purpose::Plain;
        let purpose = said.then(|| json(&opening.purpose)).transpose()?;
        run(
            conn,
            "INSERT INTO opening (piece, kind, no, pos, x_nm, y_nm, width_nm, depth_nm, \
             corner_nm, diameter_nm, purpose, profile, profile_nm) \
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13) \
             ON CONFLICT (piece, kind, no) DO UPDATE SET pos = excluded.pos, \
             x_nm = excluded.x_nm, y_nm = excluded.y_nm, width_nm = excluded.width_nm, \
             depth_nm = excluded.depth_nm, corner_nm = excluded.corner_nm, \
             diameter_nm = excluded.diameter_nm, purpose = excluded.purpose, \
             profile = excluded.profile, profile_nm = excluded.profile_nm",
            params![
                id,
                kind_word(opening),
                opening.no,
                pos,
                opening.place.x.nm(),
                opening.place.y.nm(),
                width.map(Length::nm),
                depth.map(Length::nm),
                corner.map(Length::nm),
                diameter.map(Length::nm),
                purpose,
                profile_word(opening.profile),
                profile_size(opening.profile),
            ],
        )?;
    }
    Ok(())
}

fn kind_word(opening: &Opening) -> &'static str {
    match opening.what {
        OpeningKind::Cutout { .. } => "cutout",
        OpeningKind::Hole { .. } => "hole",
    }
}

pub(super) fn remove_piece(conn: &Connection, piece: PieceId) -> Result<usize, Fault> {
    let id = piece.to_string();
    super::layouts::remove_layout(conn, piece)?;
    run(conn, "DELETE FROM opening WHERE piece = ?1", [&id])?;
    super::wood::forget_piece(conn, &id)?;
    run(conn, "DELETE FROM piece WHERE id = ?1", [&id])
}
