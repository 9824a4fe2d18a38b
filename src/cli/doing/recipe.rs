//! Enters or changes a recipe.

use super::put;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::typed::{RecipeTyped, read_recipe};
use crate::desk::{Action, Which};
use clap::Args;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree recipe \"seven thin coats\" --like \"gel stain under a wiped film\" --show-topcoats 7 --end-topcoats 7 --under-topcoats 6\n  tackfree recipe --change \"seven thin coats\" --scuff 320\n\nShow faces are the top, the long edges and the stained band; ends are the ends, the rim and the\nwalls of cutouts and holes; under is the underside, or its field. Pieces on which work has started\nkeep their own copy.";

/// What was typed.
#[derive(Debug, Args)]
pub struct RecipeArgs {
    /// What the shop calls it.
    #[arg(value_name = "NAME", required_unless_present = "change")]
    pub name: Option<String>,
    /// Changes this recipe; what is not given stays. NAME then is the new name.
    #[arg(long, value_name = "RECIPE", conflicts_with = "like")]
    pub change: Option<String>,
    /// Starts from this recipe.
    #[arg(long, value_name = "RECIPE")]
    pub like: Option<String>,
    /// Grits of the show faces, coarse to fine: "80 120 150".
    #[arg(long, value_name = "GRITS", allow_hyphen_values = true)]
    pub show_grits: Option<String>,
    /// Seal coats of the show faces.
    #[arg(long, value_name = "COATS", allow_hyphen_values = true)]
    pub show_seal: Option<String>,
    /// Whether the show faces are stained: yes or no.
    #[arg(long, value_name = "YES")]
    pub show_stain: Option<String>,
    /// Topcoats of the show faces.
    #[arg(long, value_name = "COATS", allow_hyphen_values = true)]
    pub show_topcoats: Option<String>,
    /// Grits of ends and walls.
    #[arg(long, value_name = "GRITS", allow_hyphen_values = true)]
    pub end_grits: Option<String>,
    /// Seal coats of ends and walls.
    #[arg(long, value_name = "COATS", allow_hyphen_values = true)]
    pub end_seal: Option<String>,
    /// Whether ends and walls are stained.
    #[arg(long, value_name = "YES")]
    pub end_stain: Option<String>,
    /// Topcoats of ends and walls.
    #[arg(long, value_name = "COATS", allow_hyphen_values = true)]
    pub end_topcoats: Option<String>,
    /// Grits of the underside.
    #[arg(long, value_name = "GRITS", allow_hyphen_values = true)]
    pub under_grits: Option<String>,
    /// Seal coats of the underside.
    #[arg(long, value_name = "COATS", allow_hyphen_values = true)]
    pub under_seal: Option<String>,
    /// Whether the underside is stained.
    #[arg(long, value_name = "YES")]
    pub under_stain: Option<String>,
    /// Topcoats of the underside.
    #[arg(long, value_name = "COATS", allow_hyphen_values = true)]
    pub under_topcoats: Option<String>,
    /// The wipe-down: none, dry, or the product.
    #[arg(long, value_name = "WITH")]
    pub wipe_down: Option<String>,
    /// The product of the seal coats, or none.
    #[arg(long, value_name = "PRODUCT")]
    pub sealer: Option<String>,
    /// The stain, or none.
    #[arg(long, value_name = "PRODUCT")]
    pub stain: Option<String>,
    /// The product of the topcoats, or none.
    #[arg(long, value_name = "PRODUCT")]
    pub topcoat: Option<String>,
    /// Between topcoats: a grit like 320, pad, "brown paper" or none.
    #[arg(long, value_name = "MEANS", allow_hyphen_values = true)]
    pub scuff: Option<String>,
    /// Wait between the last coat and setting, in days, or like "36 h".
    #[arg(long, value_name = "DAYS", allow_hyphen_values = true)]
    pub cure: Option<String>,
    /// How many coats show side and underside may differ.
    #[arg(long, value_name = "COATS", allow_hyphen_values = true)]
    pub allowance: Option<String>,
}

/// A recipe that asks nothing yet.
fn blank() -> RecipeTyped {
    let (none, nought) = (|| "none".to_owned(), || "0".to_owned());
    RecipeTyped {
        show_seal: nought(),
        show_topcoats: nought(),
        end_seal: nought(),
        end_topcoats: nought(),
        under_seal: nought(),
        under_topcoats: nought(),
        wipe_down: "dry".to_owned(),
        sealer: none(),
        stain: none(),
        topcoat: none(),
        scuff: none(),
        cure_days: "3".to_owned(),
        allowance: "1".to_owned(),
        ..RecipeTyped::default()
    }
}

/// Does it.
pub fn run(args: &RecipeArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let of = |text: &str| {
        let recipe = find::recipe(&shop, text)?;
        Ok::<_, Failure>((
            recipe.id,
            RecipeTyped::of(&recipe.name, &recipe.schedule, &shop),
        ))
    };
    let (which, mut typed) = match (&args.change, &args.like) {
        (Some(text), _) => {
            let (id, typed) = of(text)?;
            (Which::This(id), typed)
        }
        (None, Some(text)) => (Which::New, of(text)?.1),
        (None, None) => (Which::New, blank()),
    };
    put(&mut typed.name, args.name.as_ref());
    put(&mut typed.show_grits, args.show_grits.as_ref());
    put(&mut typed.show_seal, args.show_seal.as_ref());
    put(&mut typed.show_stain, args.show_stain.as_ref());
    put(&mut typed.show_topcoats, args.show_topcoats.as_ref());
    put(&mut typed.end_grits, args.end_grits.as_ref());
    put(&mut typed.end_seal, args.end_seal.as_ref());
    put(&mut typed.end_stain, args.end_stain.as_ref());
    put(&mut typed.end_topcoats, args.end_topcoats.as_ref());
    put(&mut typed.under_grits, args.under_grits.as_ref());
    put(&mut typed.under_seal, args.under_seal.as_ref());
    put(&mut typed.under_stain, args.under_stain.as_ref());
    put(&mut typed.under_topcoats, args.under_topcoats.as_ref());
    put(&mut typed.wipe_down, args.wipe_down.as_ref());
    put(&mut typed.sealer, args.sealer.as_ref());
    put(&mut typed.stain, args.stain.as_ref());
    put(&mut typed.topcoat, args.topcoat.as_ref());
    put(&mut typed.scuff, args.scuff.as_ref());
    put(&mut typed.cure_days, args.cure.as_ref());
    put(&mut typed.allowance, args.allowance.as_ref());
    session.perform(&Action::SaveRecipe(which, read_recipe(&typed, &shop)?))
}
