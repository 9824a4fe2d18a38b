//! Enters or changes a piece.

use super::put;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::typed::{PieceTyped, read_piece};
use crate::desk::{Action, Which};
use clap::Args;

/// Examples.
pub const MORE: &str = "Example:\n  tackfree piece 1 \"bar top\" --size \"98 3/8 x 25 1/2\" --thickness \"1 1/2\" --kind bar \\\n    --species \"hard maple\" --construction edge --profile \"round-over 1/4\" \\\n    --cutout \"30 x 16 r 3/4 at 49 1/4, 12 3/4\" --hole \"1 3/8 at 75, 22 1/2\" \\\n    --band \"2 round openings\" --recipe \"gel stain under a wiped film\"\n\nPlaces are of the centre, from the left end and from the front edge. A size without a unit is in\nthe shop's own (inches or mm); 8' 2 3/8\", 98-3/8, 2500mm and 2.5 m read too.\n\nOther outlines:\n  --size \"oval 60 x 40\"\n  --size \"L 120 x 96, run 25 1/2, leg 24, open front right\"\n  --size \"U 120 x 96, run 25 1/2, left 24, right 24\"\n  --size \"quad 60, 25 1/2, 59 7/8, 25 1/4, diagonal 65, other 64 7/8\"   (front, right, back, left)\n  --size \"live both, over 96: 21 1/2, 22 1/4, 24, 23\"   or  \"live front: 21 1/2 at 0, 24 at 60\"\n  --corner \"round 2 all\"   --corner \"clip 3 x 3 front left\"   --corner \"notch 4 x 6 back right\"\n\nWhat an opening is for stands behind its place:\n  --cutout \"30 x 16 r 3/4 at 49 1/4, 12 3/4 sink undermount negative 3/8, overall 32 x 18,\n    cabinet 36, walls 3/4, front rail 3\"   (or bowl 30 x 16: the reveal is then added)\n  --cutout \"33 x 18 at centre sink apron-front zero\"   (only an apron, which lies at the front, takes one\n    place; all else two)\n  --cutout \"28 x 20 at 20, 12 cooktop\"\n  --hole \"1 3/8 at cutout 1, 2 1/2 from back faucet\"\n\nSo does what is run along its edge (square where nothing is said):\n  --cutout \"20 x 14 r 1 at 49, 12 profile round-over 1/4 sink undermount zero\"";

/// What was typed.
#[derive(Debug, Args)]
pub struct PieceArgs {
    /// The job it belongs to, by its number or title.
    #[arg(
        value_name = "JOB",
        required_unless_present = "change",
        conflicts_with = "change"
    )]
    pub job: Option<String>,
    /// What the shop calls it.
    #[arg(
        value_name = "NAME",
        required_unless_present = "change",
        conflicts_with = "change"
    )]
    pub name: Option<String>,
    /// Changes this piece; what is not given stays.
    #[arg(long, value_name = "PIECE")]
    pub change: Option<String>,
    /// The new name, with --change.
    #[arg(long, value_name = "NAME", requires = "change")]
    pub rename: Option<String>,
    /// Length along the grain x width, round and the diameter, or an oval, L, U, quad or live edge.
    #[arg(long, allow_hyphen_values = true)]
    pub size: Option<String>,
    /// A corner that is not sharp: round, clip or notch, the size, which; once for each, or none.
    #[arg(long, allow_hyphen_values = true)]
    pub corner: Vec<String>,
    /// Thickness (1 1/2 in or 38 mm unless said).
    #[arg(long, allow_hyphen_values = true)]
    pub thickness: Option<String>,
    /// counter, island, bar, vanity, table, shelf, tread or sample.
    #[arg(long)]
    pub kind: Option<String>,
    /// The wood; a new piece must say it.
    #[arg(long)]
    pub species: Option<String>,
    /// face, edge or end grain, or slab.
    #[arg(long)]
    pub construction: Option<String>,
    /// square, eased 1/16, round-over 1/4, chamfer 1/8, ogee 1/2, cove 1/4 or bullnose 3/4.
    #[arg(long, allow_hyphen_values = true)]
    pub profile: Option<String>,
    /// A cutout: width x depth, r corner radius, at its centre, and what for; once for each, or none.
    #[arg(long, allow_hyphen_values = true)]
    pub cutout: Vec<String>,
    /// A hole: diameter at its centre, and what for; once for each, or none.
    #[arg(long, allow_hyphen_values = true)]
    pub hole: Vec<String>,
    /// Width of the stained band of the underside: 2, 2 round openings, or none.
    #[arg(long, allow_hyphen_values = true)]
    pub band: Option<String>,
    /// The recipe it follows; the first one unless said.
    #[arg(long)]
    pub recipe: Option<String>,
}

/// Does it.
pub fn run(args: &PieceArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let (which, job, mut typed) = match &args.change {
        None => {
            let job = find::job(&shop, args.job.as_deref().unwrap_or(""))?;
            (Which::New, job.id, PieceTyped::starting(&shop))
        }
        Some(text) => {
            let piece = &find::piece(&shop, text)?.piece;
            (
                Which::This(piece.id),
                piece.job,
                PieceTyped::of(piece, &shop),
            )
        }
    };
    put(&mut typed.name, args.name.as_ref().or(args.rename.as_ref()));
    put(&mut typed.size, args.size.as_ref());
    put(&mut typed.thickness, args.thickness.as_ref());
    put(&mut typed.kind, args.kind.as_ref());
    put(&mut typed.species, args.species.as_ref());
    put(&mut typed.construction, args.construction.as_ref());
    put(&mut typed.profile, args.profile.as_ref());
    if !args.corner.is_empty() {
        typed.corners = args.corner.join("; ");
    }
    if !args.cutout.is_empty() {
        typed.cutouts = args.cutout.join("; ");
    }
    if !args.hole.is_empty() {
        typed.holes = args.hole.join("; ");
    }
    put(&mut typed.band, args.band.as_ref());
    put(&mut typed.recipe, args.recipe.as_ref());
    session.perform(&Action::SavePiece(which, read_piece(&typed, job, &shop)?))
}
