//! Every action a person can take: the one language between keys, commands and the store.

use crate::coating::{Family, FigureBasis, LabelFigures, ProductId, ProductKind};
use crate::shape::layout::{About, Rule, Standing};
use crate::shape::{Construction, FaceKey, Shape};
use crate::shop::{
    Air, ClientId, CoatKind, Grit, JobId, LayoutBook, PassId, PieceId, PieceKind, RecipeId,
    Schedule, ScuffMeans, SetItem, Settings, TouchVerdict,
};
use crate::units::{Mass, Money, Volume};
use chrono::{DateTime, NaiveDate, Utc};

/// New, or a change of one that is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Which<T> {
    /// A new one.
    New,
    /// This one.
    This(T),
}

/// A client as typed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ClientDraft {
    /// Name.
    pub name: String,
    /// Telephone.
    pub phone: String,
    /// Mail address.
    pub email: String,
    /// Postal address.
    pub address: String,
    /// Notes.
    pub notes: String,
}

/// A job as typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobDraft {
    /// Whose.
    pub client: ClientId,
    /// Title.
    pub title: String,
    /// Site address.
    pub site: String,
    /// Year the house was built.
    pub house_built: Option<i32>,
    /// Promised set date.
    pub promised: Option<NaiveDate>,
    /// Notes.
    pub notes: String,
}

/// A piece as typed, its shape already checked.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceDraft {
    /// The job it belongs to.
    pub job: JobId,
    /// Name.
    pub name: String,
    /// Kind.
    pub kind: PieceKind,
    /// Species.
    pub species: String,
    /// Construction.
    pub construction: Construction,
    /// Shape.
    pub shape: Shape,
    /// Recipe.
    pub recipe: RecipeId,
}

/// A recipe as typed.
#[derive(Debug, Clone, PartialEq)]
pub struct RecipeDraft {
    /// Name.
    pub name: String,
    /// Schedule.
    pub schedule: Schedule,
}

/// A product as typed.
#[derive(Debug, Clone, PartialEq)]
pub struct ProductDraft {
    /// Name.
    pub name: String,
    /// Kind.
    pub kind: ProductKind,
    /// Family.
    pub family: Family,
    /// Where the figures came from.
    pub basis: FigureBasis,
    /// Figures.
    pub label: LabelFigures,
    /// Can size.
    pub can: Volume,
    /// Can price.
    pub price: Money,
}

/// A piece and the faces meant: these, or those next in line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FacePick {
    /// The piece.
    pub piece: PieceId,
    /// The faces; none means those the schedule asks for next.
    pub faces: Option<Vec<FaceKey>>,
}

impl FacePick {
    /// The same picks with every piece once: a piece picked twice is one piece, and its faces are
    /// those of both picks.
    pub(super) fn once_each(picks: &[Self]) -> Vec<Self> {
        let mut out: Vec<Self> = Vec::new();
        for pick in picks {
            match out.iter_mut().find(|other| other.piece == pick.piece) {
                None => out.push(pick.clone()),
                Some(other) => {
                    if let (Some(faces), Some(more)) = (&mut other.faces, &pick.faces) {
                        faces.extend(more);
                    }
                }
            }
        }
        for faces in out.iter_mut().filter_map(|pick| pick.faces.as_mut()) {
            let mut seen = Vec::new();
            faces.retain(|face| {
                let first = !seen.contains(face);
                seen.push(*face);
                first
            });
        }
        out
    }
}

/// How much was used, as typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AmountDraft {
    /// Not measured: area over the label's spread rate.
    Estimate,
    /// Read off.
    Volume(Volume),
    /// Can weighed before and after.
    Weighed {
        /// Before.
        before: Mass,
        /// After.
        after: Mass,
    },
}

/// A pass as typed.
#[derive(Debug, Clone, PartialEq)]
pub struct PassDraft {
    /// The pieces and their faces.
    pub picks: Vec<FacePick>,
    /// What kind of coat.
    pub kind: CoatKind,
    /// The product; none means the schedule's.
    pub product: Option<ProductId>,
    /// Start.
    pub started: DateTime<Utc>,
    /// End.
    pub ended: DateTime<Utc>,
    /// How much.
    pub amount: AmountDraft,
    /// Shop air.
    pub air: Option<Air>,
    /// Scuffed or abraded just before, with this.
    pub scuffed_first: Option<ScuffMeans>,
}

/// One action.
#[derive(Debug, Clone, PartialEq)]
pub enum Action {
    /// Save the settings.
    SaveSettings(Settings),
    /// Add or change a client.
    SaveClient(Which<ClientId>, ClientDraft),
    /// Add or change a job.
    SaveJob(Which<JobId>, JobDraft),
    /// Add or change a piece.
    SavePiece(Which<PieceId>, PieceDraft),
    /// Add or change a recipe.
    SaveRecipe(Which<RecipeId>, RecipeDraft),
    /// Add or change a product.
    SaveProduct(Which<ProductId>, ProductDraft),
    /// Remove a client without jobs.
    RemoveClient(ClientId),
    /// Remove a job without pieces.
    RemoveJob(JobId),
    /// Remove a piece on which nothing was logged.
    RemovePiece(PieceId),
    /// Remove a recipe no piece follows.
    RemoveRecipe(RecipeId),
    /// These faces carry this grit.
    Tick {
        /// The piece.
        piece: PieceId,
        /// The faces.
        faces: Vec<FaceKey>,
        /// The grit.
        grit: Grit,
        /// When.
        at: DateTime<Utc>,
    },
    /// A tick was a mistake.
    Untick {
        /// The piece.
        piece: PieceId,
        /// The face.
        face: FaceKey,
        /// The grit.
        grit: Grit,
        /// When.
        at: DateTime<Utc>,
    },
    /// Wiped down.
    Wipe {
        /// Pieces and faces.
        picks: Vec<FacePick>,
        /// When.
        at: DateTime<Utc>,
    },
    /// One pass over one or more pieces.
    LogPass(PassDraft),
    /// Correct how much a pass used.
    CorrectPass {
        /// The pass.
        pass: PassId,
        /// How much.
        amount: AmountDraft,
    },
    /// Stain wiped off.
    WipeOff {
        /// Pieces and faces.
        picks: Vec<FacePick>,
        /// When.
        at: DateTime<Utc>,
    },
    /// Scuffed.
    Scuff {
        /// Pieces and faces.
        picks: Vec<FacePick>,
        /// With what.
        means: ScuffMeans,
        /// When.
        at: DateTime<Utc>,
    },
    /// Touch test.
    Touch {
        /// Pieces and faces.
        picks: Vec<FacePick>,
        /// What it found.
        verdict: TouchVerdict,
        /// When.
        at: DateTime<Utc>,
    },
    /// Sanded back.
    SandBack {
        /// The piece.
        piece: PieceId,
        /// The faces.
        faces: Vec<FaceKey>,
        /// To this grit.
        to: Grit,
        /// Why.
        reason: String,
        /// When.
        at: DateTime<Utc>,
    },
    /// A face will be hidden.
    DeclareHidden {
        /// The piece.
        piece: PieceId,
        /// The face.
        face: FaceKey,
        /// Why.
        reason: String,
    },
    /// That face is exposed after all.
    WithdrawHidden {
        /// The piece.
        piece: PieceId,
        /// The face.
        face: FaceKey,
    },
    /// Move pieces to the next stage that asks something.
    MoveAlong(Vec<PieceId>),
    /// Move a piece one stage back.
    MoveBack(PieceId),
    /// Tick or untick a line of the set list.
    SetList {
        /// The piece.
        piece: PieceId,
        /// Which line.
        item: SetItem,
        /// Whether it is done.
        done: bool,
    },
    /// How a piece will stand.
    SaveStanding(PieceId, Box<Standing>),
    /// A layout finding is taken as it is.
    AcceptFinding {
        /// The piece.
        piece: PieceId,
        /// Which check.
        rule: Rule,
        /// About what.
        about: About,
        /// Why.
        reason: String,
    },
    /// That finding is open again.
    WithdrawAccepted {
        /// The piece.
        piece: PieceId,
        /// Which check.
        rule: Rule,
        /// About what.
        about: About,
    },
    /// Save the shop's own figures for layout and cutting.
    SaveLayoutBook(Box<LayoutBook>),
    /// Undo the newest action.
    Undo,
    /// Do again what was undone last.
    Redo,
}
