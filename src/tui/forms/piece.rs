//! The piece form. What must be typed comes first; all that has a usual answer comes after, so
//! that the plain case is name, size, wood, save.

use super::context::{Context, words};
use crate::desk::typed::{
    FieldError, Onto, PieceTyped, construction_words, echo_band, echo_corners, echo_cutouts,
    echo_holes, echo_length, echo_lines, echo_profile, echo_shape, echo_size, kind_words, pick,
    read_corners, read_cutouts, read_piece, read_size,
};
use crate::desk::{Action, Which};
use crate::shop::{JobId, Piece, PieceFile, PieceId, Recipe};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;

const PROFILES: [&str; 7] = [
    "square",
    "eased",
    "round-over",
    "chamfer",
    "ogee",
    "cove",
    "bullnose",
];

fn stored<'a>(which: Which<PieceId>, ctx: &Context<'a>) -> Option<&'a PieceFile> {
    match which {
        Which::New => None,
        Which::This(id) => ctx.shop.file(id),
    }
}

fn start(piece: Option<&Piece>, job: Option<JobId>, ctx: &Context<'_>) -> PieceTyped {
    if let Some(piece) = piece {
        return PieceTyped::of(piece, ctx.shop);
    }
    let mut typed = PieceTyped::starting(ctx.shop);
    // Pieces of one job are mostly of one wood and one finish.
    let of_job = |file: &&PieceFile| Some(file.piece.job) == job;
    if let Some(last) = ctx
        .shop
        .files
        .iter()
        .filter(of_job)
        .max_by_key(|file| file.piece.no)
    {
        let last = PieceTyped::of(&last.piece, ctx.shop);
        typed.species = last.species;
        typed.recipe = last.recipe;
    }
    typed
}

pub(super) fn form(which: Which<PieceId>, job: Option<JobId>, ctx: &Context<'_>) -> Form {
    let file = stored(which, ctx);
    let title = match (file, job.and_then(|id| ctx.shop.job(id))) {
        (Some(file), _) => format!("Piece {}", ctx.shop.called(file)),
        (None, Some(job)) => format!("New piece for job {} {}", job.no, job.title),
        (None, None) => "New piece".to_owned(),
    };
    let typed = start(file.map(|file| &file.piece), job, ctx);
    let recipes: Vec<Choice> = ctx
        .shop
        .recipes
        .iter()
        .map(|recipe| Choice::new(recipe.id.to_string(), recipe.name.clone()))
        .collect();
    let recipe = ctx
        .shop
        .find_recipe(&typed.recipe)
        .map(|recipe| recipe.id.to_string());
    let (profile, profile_size) = typed
        .profile
        .split_once(' ')
        .unwrap_or((&typed.profile, ""));
    let kinds = words(kind_words().into_iter().map(|(_, word)| word));
    let built = words(construction_words().into_iter().map(|(_, word)| word));
    let mut fields = Vec::new();
    if file.is_none() && job.is_none() {
        let jobs: Vec<Choice> = ctx
            .shop
            .jobs
            .iter()
            .rev()
            .map(|job| Choice::new(job.id.to_string(), format!("{} {}", job.no, job.title)))
            .collect();
        let newest = jobs
            .first()
            .map_or_else(String::new, |job| job.value.clone());
        fields.push(Field::choice("job", "Job", jobs, &newest));
    }
    fields.extend([
        Field::text("name", "Name", &typed.name).hint("What the shop calls it: bar top."),
        Field::text("size", "Size", &typed.size)
            .hint("Length along the grain x width: 98 3/8 x 25 1/2. Or: round 36; oval 60 x 40; L 120 x 96, run 25, leg 24, open front right; U 120 x 96, run 25, left 24, right 24; quad front, right, back, left, diagonal 65; live both, over 96: widths."),
        Field::text("species", "Wood", &typed.species)
            .hint("Hard maple, cherry, walnut, white oak, red oak, ash, beech..."),
        Field::choice("recipe", "Recipe", recipes, &recipe.unwrap_or_default()),
        Field::choice("kind", "Kind", kinds, &typed.kind),
        Field::choice("construction", "Construction", built, &typed.construction),
        Field::text("thickness", "Thickness", &typed.thickness),
        Field::choice("profile", "Edge profile", words(PROFILES), profile),
        Field::text("profile_size", "Profile size", profile_size)
            .hint("Radius or leg: 1/4. A square edge has none."),
        Field::text("corners", "Corners", &typed.corners)
            .hint("Empty for sharp ones. round 2 all; clip 3 x 3 front left; notch 4 x 6 back right; round 1/2 inside."),
        Field::text("cutouts", "Cutouts", &typed.cutouts).hint(
            "Width x depth r corner at centre from left end, from front edge: 30 x 16 r 3/4 at 49 1/4, 12 3/4; next one. Behind it profile round-over 1/4, and what for: sink undermount negative 3/8, cooktop, outlet.",
        ),
        Field::text("holes", "Holes", &typed.holes)
            .hint("Diameter at centre from left end, from front edge: 1 3/8 at 60, 22 1/2; next one. Or by centre lines: 1 3/8 at cutout 1, 2 1/2 from back faucet."),
        Field::text("band", "Stained band below", &typed.band)
            .hint("Width of the underside's outer strip that is finished like the top; empty for none; 2 round openings."),
    ]);
    Form::new(&title, fields)
}

fn typed(form: &Form) -> PieceTyped {
    let profile = form.value("profile");
    PieceTyped {
        name: form.value("name"),
        kind: form.value("kind"),
        species: form.value("species"),
        construction: form.value("construction"),
        size: form.value("size"),
        corners: form.value("corners"),
        thickness: form.value("thickness"),
        profile: match profile.as_str() {
            "" | "square" => profile,
            name => format!("{name} {}", form.text("profile_size")),
        },
        cutouts: form.value("cutouts"),
        holes: form.value("holes"),
        band: form.value("band"),
        recipe: form.value("recipe"),
    }
}

pub(super) fn read(
    form: &Form,
    which: Which<PieceId>,
    job: Option<JobId>,
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let mut errors = Vec::new();
    let typed = typed(form);
    let stored_job = stored(which, ctx).map(|file| file.piece.job);
    let picked = form.choice("job").and_then(|id| id.parse().ok());
    let job = stored_job.or(job).or(picked);
    if job.is_none() {
        errors.push(FieldError::new(
            "job",
            "No job was picked: say which job the piece is for.",
        ));
    }
    if form.choice("profile").is_none() {
        let message = "No edge profile was picked: square, eased, round-over, chamfer, ogee, cove or bullnose.";
        errors.push(FieldError::new("profile", message));
    }
    // Any job will do to tell what else is wrong.
    let of = job.unwrap_or(JobId(uuid::Uuid::nil()));
    let draft = read_piece(&typed, of, ctx.shop).map_err(|more| {
        let square = typed.profile == "square";
        errors.extend(more.into_iter().map(|error| match error.field {
            "profile" if !square => error.at("profile_size"),
            _ => error,
        }));
    });
    match draft {
        Ok(draft) if errors.is_empty() => Ok(Action::SavePiece(which, draft)),
        _ => Err(errors),
    }
}

pub(super) fn echo(form: &Form, ctx: &Context<'_>) -> Vec<(&'static str, Option<String>)> {
    let settings = ctx.settings();
    let typed = typed(form);
    let built = pick("construction", &typed.construction, &construction_words());
    let total = match (typed.shape(settings), built) {
        (Ok(shape), Ok(built)) => Some(echo_shape(&shape, built, settings)),
        _ => None,
    };
    let outline = read_size(&typed.size, settings)
        .and_then(|outline| read_corners(&typed.corners, outline, settings))
        .ok();
    let onto = Onto {
        outline: outline.as_ref(),
        openings: &[],
    };
    let cutouts = read_cutouts(&typed.cutouts, onto, settings).unwrap_or_default();
    let over = Onto {
        openings: &cutouts,
        ..onto
    };
    let band = echo_band(&typed.band, settings);
    let profile_size = match typed.profile.as_str() {
        "" => None,
        "square" => Some("a square edge has none".to_owned()),
        _ => echo_profile(&typed.profile, settings),
    };
    vec![
        ("name", echo_lines(&typed.name)),
        ("size", echo_size(&typed.size, settings)),
        (
            "corners",
            echo_corners(&typed.corners, &typed.size, settings),
        ),
        (
            "recipe",
            form.choice("recipe").and_then(|id| recipe_words(id, ctx)),
        ),
        ("thickness", echo_length(&typed.thickness, settings)),
        ("profile_size", profile_size),
        ("cutouts", echo_cutouts(&typed.cutouts, onto, settings)),
        ("holes", echo_holes(&typed.holes, over, settings)),
        ("band", join(band, total)),
    ]
}

fn join(first: Option<String>, second: Option<String>) -> Option<String> {
    match (first, second) {
        (Some(first), Some(second)) => Some(format!("{first}; {second}")),
        (first, second) => first.or(second),
    }
}

/// What a recipe asks of the show faces, in a line.
fn recipe_words(id: &str, ctx: &Context<'_>) -> Option<String> {
    let recipe: &Recipe = ctx.shop.recipe(id.parse().ok()?)?;
    let show = &recipe.schedule.show;
    let last = show.grits.last()?;
    let mut parts = vec![format!("sanded to {last}")];
    if show.seal_coats > 0 {
        parts.push(count(show.seal_coats, "seal coat"));
    }
    if show.stained {
        parts.push("stained".to_owned());
    }
    if show.topcoats > 0 {
        parts.push(count(show.topcoats, "topcoat"));
    }
    Some(parts.join(", "))
}

fn count(count: u8, what: &str) -> String {
    if count == 1 {
        format!("1 {what}")
    } else {
        format!("{count} {what}s")
    }
}
