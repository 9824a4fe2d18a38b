//! What can be typed about cans.

use clap::{Args, Subcommand};

/// What was typed.
#[derive(Debug, Args)]
pub struct CanArgs {
    /// What happened to it.
    #[command(subcommand)]
    pub what: CanVerb,
}

/// What happened to a can.
#[derive(Debug, Subcommand)]
pub enum CanVerb {
    /// Cans came in: one, or several alike.
    Receive(ReceiveArgs),
    /// A can was opened.
    Open(OpenArgs),
    /// A can was weighed as it stands, lid and all.
    Weigh(WeighArgs),
    /// Several cans were poured together into one batch.
    Mix(MixArgs),
    /// A touch-up jar was poured off for a client or a job.
    Jar(JarArgs),
    /// Something was lost outside a pass: spilled, skinned over.
    Lose(LoseArgs),
    /// A can was thrown away with what was left.
    Discard(DiscardArgs),
    /// A can stands somewhere else.
    Move(MoveCanArgs),
    /// What is said of a can is corrected.
    Correct(CorrectArgs),
    /// A line of a can's log was a mistake.
    Strike(StrikeArgs),
    /// A can that was never used is taken off the books.
    Remove(OneArgs),
}

/// What is said of a can.
#[derive(Debug, Args)]
pub struct SaidArgs {
    /// The size it holds; the product's can unless said.
    #[arg(long, allow_hyphen_values = true)]
    pub size: Option<String>,
    /// What was in it when it came; full unless said.
    #[arg(long, value_name = "VOLUME", allow_hyphen_values = true)]
    pub held: Option<String>,
    /// What was paid for one; the product's price unless said.
    #[arg(long, allow_hyphen_values = true)]
    pub price: Option<String>,
    /// The day it came; today unless said.
    #[arg(long, value_name = "DAY", allow_hyphen_values = true)]
    pub on: Option<String>,
    /// Batch number as printed.
    #[arg(long, allow_hyphen_values = true)]
    pub batch: Option<String>,
    /// How long it keeps from the day it came: "3 years", "18 months".
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub keeps: Option<String>,
    /// How long it keeps once opened: "12 months".
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub keeps_open: Option<String>,
    /// What the empty can weighs with its lid.
    #[arg(long, value_name = "WEIGHT", allow_hyphen_values = true)]
    pub empty: Option<String>,
    /// Where it stands.
    #[arg(long)]
    pub place: Option<String>,
}

/// Cans that came.
#[derive(Debug, Args)]
pub struct ReceiveArgs {
    /// The product.
    pub product: String,
    /// How many alike.
    #[arg(long, default_value_t = 1)]
    pub count: u32,
    /// What is said of them.
    #[command(flatten)]
    pub said: SaidArgs,
}

/// A can that was opened.
#[derive(Debug, Args)]
pub struct OpenArgs {
    /// The can.
    pub can: String,
    /// When; now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
}

/// A can on the scale.
#[derive(Debug, Args)]
pub struct WeighArgs {
    /// The can.
    pub can: String,
    /// What it weighs: 1042 g, 36.8 oz, "2 lb 4 oz".
    #[arg(num_args = 1.., required = true)]
    pub weight: Vec<String>,
    /// When; now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// Says yes to what was asked.
    #[arg(long)]
    pub sure: bool,
}

/// Cans poured together.
#[derive(Debug, Args)]
pub struct MixArgs {
    /// The cans; all that is left of each, or so much: 7 "8: 4 oz".
    #[arg(required = true)]
    pub cans: Vec<String>,
    /// The size of the can it was mixed in.
    #[arg(long, allow_hyphen_values = true)]
    pub size: Option<String>,
    /// What that can weighs empty.
    #[arg(long, value_name = "WEIGHT", allow_hyphen_values = true)]
    pub empty: Option<String>,
    /// Where it stands.
    #[arg(long)]
    pub place: Option<String>,
    /// When; now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// Says yes to what was asked.
    #[arg(long)]
    pub sure: bool,
}

/// A jar.
#[derive(Debug, Args)]
pub struct JarArgs {
    /// The can.
    pub can: String,
    /// How much: "2 fl oz".
    #[arg(allow_hyphen_values = true)]
    pub volume: String,
    /// For this client.
    #[arg(long, required_unless_present = "job", conflicts_with = "job")]
    pub client: Option<String>,
    /// For this job.
    #[arg(long)]
    pub job: Option<String>,
    /// When; now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// Says yes to what was asked.
    #[arg(long)]
    pub sure: bool,
}

/// A loss.
#[derive(Debug, Args)]
pub struct LoseArgs {
    /// The can.
    pub can: String,
    /// How much: "2 fl oz".
    #[arg(allow_hyphen_values = true)]
    pub volume: String,
    /// Why: spilled, skinned over.
    pub reason: String,
    /// When; now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// Says yes to what was asked.
    #[arg(long)]
    pub sure: bool,
}

/// A can that goes.
#[derive(Debug, Args)]
pub struct DiscardArgs {
    /// The can.
    pub can: String,
    /// Why: empty, skinned over, past its shelf life.
    pub reason: String,
    /// When; now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
}

/// A can's new place.
#[derive(Debug, Args)]
pub struct MoveCanArgs {
    /// The can.
    pub can: String,
    /// Where it stands now.
    pub place: String,
    /// When; now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
}

/// What is corrected; what is not said stays.
#[derive(Debug, Args)]
pub struct CorrectArgs {
    /// The can.
    pub can: String,
    /// What is in it.
    #[arg(long)]
    pub product: Option<String>,
    /// What is said of it.
    #[command(flatten)]
    pub said: SaidArgs,
}

/// A line of a can's log.
#[derive(Debug, Args)]
pub struct StrikeArgs {
    /// The can.
    pub can: String,
    /// The line: last, or its code (tackfree cans 7 lists them).
    pub line: String,
}

/// One can.
#[derive(Debug, Args)]
pub struct OneArgs {
    /// The can.
    pub can: String,
}
