//! Every action a person can take: the one language between keys, commands and the store.

use super::air_import::AirImport;
use super::air_rows::DryingRules;
use super::can_action::{CanAction, DrawnDraft};
use super::day_plan::PromiseDraft;
use super::day_steps::StepEnd;
pub use super::pick::FacePick;
use super::typed::SlotDraft;
use super::use_action::UseAction;
use crate::coating::{Family, ForecastStep, LabelFigures, ProductId, ProductKind, ShopAir};
use crate::shape::layout::{About, Rule, Standing};
use crate::shape::{Construction, FaceKey, Shape};
use crate::shop::{
    Air, BenchBook, Chore, ClientId, CoatKind, EventId, Grit, JobId, KeptSheet, LayoutBook, PassId,
    PieceId, PieceKind, PieceWood, RagWay, ReadingId, RecipeId, Schedule, ScuffMeans, SetItem,
    Settings, Site, SlotId, StepKey, TouchVerdict, WoodId,
};
use crate::units::{Mass, Money, Volume};
use crate::wood::moisture::{Reading, ReadyRule};
use crate::wood::species::OwnWood;
use chrono::{DateTime, NaiveDate, Utc};
use serde::Serialize;

/// New, or a change of one that is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Which<T> {
    /// A new one.
    New,
    /// This one.
    This(T),
}

/// A client as typed.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
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
    /// Figures, each with where it came from.
    pub label: LabelFigures,
    /// Can size.
    pub can: Volume,
    /// Can price.
    pub price: Money,
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
    /// Can weighed after; before, it weighed what it was weighed last.
    WeighedAfter(Mass),
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
    /// Which cans it came from, what stayed in rag and tray, how it was put on.
    pub drawn: DrawnDraft,
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
    /// Correct how much a pass used, from which cans, with what loss, put on how.
    CorrectPassUse {
        /// The pass.
        pass: PassId,
        /// How much.
        amount: AmountDraft,
        /// From where, and how.
        drawn: DrawnDraft,
    },
    /// Something done with cans.
    Can(CanAction),
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
    /// Log a reading of the shop's air, now or at an earlier time. At a second that has one it
    /// takes that one's place.
    LogAir {
        /// When it was read.
        at: DateTime<Utc>,
        /// What was read.
        air: ShopAir,
        /// Whether the person insists on a temperature that was questioned.
        sure: bool,
    },
    /// Correct a reading: its time, its air, or both.
    CorrectAir {
        /// The reading, by its second.
        reading: DateTime<Utc>,
        /// When it was read.
        at: DateTime<Utc>,
        /// What was read.
        air: ShopAir,
        /// Whether the person insists.
        sure: bool,
    },
    /// Take a reading out, by its second.
    RemoveAir(DateTime<Utc>),
    /// Bring in a data logger's file.
    ImportAir(AirImport),
    /// Type a forecast of the shop's air; it takes the place of what was foretold for that time.
    Foretell(ForecastStep),
    /// Take the forecast away.
    ClearForecast,
    /// Touch tests of a product made so far no longer count.
    LearnAfresh(ProductId),
    /// Set what drying is reckoned by.
    SetDrying(DryingRules),
    /// Correct when lines of a piece's log were done.
    CorrectTime {
        /// The piece.
        piece: PieceId,
        /// The lines, all of one moment; a coat's takes its whole pass along.
        lines: Vec<EventId>,
        /// When they were done.
        at: DateTime<Utc>,
    },
    /// Correct when a pass was laid, on all its pieces.
    CorrectPassTime {
        /// The pass.
        pass: PassId,
        /// Start.
        started: DateTime<Utc>,
        /// End.
        ended: DateTime<Utc>,
    },
    /// A chore of a day's end is done.
    TickChore {
        /// The day whose chore it is.
        day: NaiveDate,
        /// Which.
        chore: Chore,
        /// How, of oily rags.
        way: Option<RagWay>,
        /// When.
        at: DateTime<Utc>,
    },
    /// That tick was a mistake.
    UntickChore {
        /// The day whose chore it is.
        day: NaiveDate,
        /// Which.
        chore: Chore,
    },
    /// Close a day.
    CloseDay {
        /// The day.
        day: NaiveDate,
        /// Why, although oily rags are not logged.
        reason: Option<String>,
    },
    /// Note or correct a moisture reading.
    SaveMoisture(Which<ReadingId>, PieceId, Reading),
    /// Remove a moisture reading.
    RemoveMoisture(ReadingId),
    /// Note what is known of a job's site.
    SaveSite(Site),
    /// Note how a piece lies and is held.
    SavePieceWood(PieceWood),
    /// Add or change a wood of the shop's own.
    SaveWood(Which<WoodId>, OwnWood),
    /// Remove a wood of the shop's own.
    RemoveWood(WoodId),
    /// Change the rule by which pieces count as ready.
    SaveReadyRule(ReadyRule),
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
    /// Something about use: rates, can sizes, mixes, allowances.
    Use(UseAction),
    /// Save what days are planned by.
    SaveBench(Box<BenchBook>),
    /// Change the bench hours of single days.
    AddSlots(Vec<SlotDraft>),
    /// Take such a change away.
    RemoveSlot(SlotId),
    /// Keep a sheet: its order stands for the rest of the day unless that costs lateness.
    KeepSheet(Box<KeptSheet>),
    /// Begin a step of the sheet.
    StartStep {
        /// Which.
        key: StepKey,
        /// When.
        at: DateTime<Utc>,
    },
    /// Finish the step under way: it is logged.
    FinishStep(StepEnd),
    /// Put the step under way down, nothing logged.
    DropStep,
    /// Promise a set date and keep the record of it.
    PinPromise(PromiseDraft),
    /// Something of money or hours.
    Money(Box<super::money::MoneyAction>),
    /// Undo the newest action.
    Undo,
    /// Do again what was undone last.
    Redo,
}
