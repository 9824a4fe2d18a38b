//! The arguments: what can be asked, and the help that says it in the trade's words.

use super::answer::Answer;
use super::args_days::DaysVerb;
use super::args_layout::LayoutVerb;
use super::args_money::MoneyVerb;
use super::args_use::UseVerb;
use super::doing::{
    air, amend, chore, client, close, drying, export, fasten, forecast, hide, import, job, learned,
    logger, moisture, move_along, own_wood, pass, piece, product, recipe, remove, retime, sandback,
    scuff, setlist, shop, site, tick, touch, undo, wipe,
};
use super::failure::Failure;
use super::reading::{
    bench, clients, day, jobs, journal, later, log, place, products, rack, ready, recipes, ticket,
    wood, woods,
};
use super::session::Session;
use clap::{Parser, Subcommand};
use std::ffi::OsString;
use std::path::PathBuf;

/// Where the options stand that go with every verb.
const ANYWHERE: &str = "With every verb";

/// Reads the arguments; help and the version are printed at once.
///
/// # Errors
/// What does not read, clean of control characters: it was typed.
pub fn read_args(words: impl IntoIterator<Item = OsString>) -> Result<Args, Failure> {
    Args::try_parse_from(words).map_err(|error| {
        if !error.use_stderr() {
            error.exit();
        }
        Failure::Usage(error.to_string().lines().map(str::to_owned).collect())
    })
}

/// What the program was asked.
#[derive(Debug, Parser)]
#[command(
    name = "tackfree",
    version,
    about = "The whole job of a one-person wood-top shop: measure, sand, seal, stain, coat, set, and what it took.",
    long_about = "The whole job of a one-person wood-top shop: measure, sand, seal, stain, coat, set, and what it took.\n\nWithout a verb the screen opens. With a verb one thing is read or done and printed, for scripts and for the printer; the same gates hold as on the screen.\n\nPieces are named by their ticket number (3A), jobs by their number, clients, recipes and products by their whole name; each also by its identifier.",
    after_help = "The store is --store PATH, else the one that TACKFREE_STORE names, else the platform's data folder. TACKFREE_NOW (like 2026-11-25 14:00, by the machine's time zone or the one TZ names; 2026-11-25T14:00:00-05:00 by its own) holds the clock still.\nExit codes: 0 done, 1 not done (the sentence says why), 2 arguments that do not read, 3 refused by a gate (every reason on its own line), 4 the answer could not be written (what was done stays done).",
    subcommand_value_name = "VERB",
    subcommand_help_heading = "Verbs",
    disable_help_subcommand = false
)]
pub struct Args {
    /// The store to work on; made if it is not there.
    #[arg(long, value_name = "PATH", global = true, help_heading = ANYWHERE)]
    pub store: Option<PathBuf>,
    /// Works on an invented shop in a throw-away store, gone at the end.
    #[arg(long, global = true, conflicts_with = "store", help_heading = ANYWHERE)]
    pub demo: bool,
    /// Prints JSON instead of text (with a verb).
    #[arg(long, global = true, help_heading = ANYWHERE)]
    pub json: bool,
    /// What to do; none opens the screen.
    #[command(subcommand)]
    pub verb: Option<Verb>,
}

/// One thing to read or to do.
#[derive(Debug, Subcommand)]
pub enum Verb {
    /// Tells which pieces are ready and what each of the others waits for.
    #[command(after_help = ready::MORE)]
    Ready,
    /// Lists every piece with a wet or drying coat: its stage, what comes when, its window, why it
    /// is slow.
    #[command(after_help = rack::MORE)]
    Rack(rack::RackArgs),
    /// Cans, use, rates and what to buy.
    #[command(flatten)]
    Use(UseVerb),
    /// Prints the shop ticket of a piece: stages, sanding sheet, coats, set list, log, amounts.
    #[command(after_help = ticket::MORE)]
    Ticket(ticket::TicketArgs),
    /// Lists the log of a piece, each line with the code by which its time is corrected.
    #[command(after_help = log::MORE)]
    Log(log::LogArgs),
    /// Lists what a day leaves to be done before the shop is left: rags, waste, dust.
    #[command(after_help = day::MORE)]
    Day(day::DayArgs),
    /// Prints the wood sheet of a piece: moisture, year, movement, gaps, slots, sealing and cup.
    #[command(after_help = wood::MORE)]
    Wood(wood::WoodArgs),
    /// Prints the page for the client: what the top will do through the year and why the gap is there.
    #[command(after_help = wood::CLIENT_MORE)]
    ClientPage(wood::ClientPageArgs),
    /// Lists the woods with the source and standing of their figures.
    #[command(after_help = woods::MORE)]
    Woods(woods::WoodsArgs),
    /// Lists the pieces stage by stage: sanding, sealing, staining, topcoats, set.
    #[command(after_help = bench::MORE)]
    Bench,
    /// Lists the clients.
    #[command(after_help = clients::MORE)]
    Clients,
    /// Lists the jobs with their promised dates.
    #[command(after_help = jobs::MORE)]
    Jobs,
    /// Lists the recipes: grits, coats and products of each finish schedule.
    #[command(after_help = recipes::MORE)]
    Recipes,
    /// Lists the products with the figures of their labels, or shows one with every source.
    #[command(after_help = products::MORE)]
    Products(products::ProductsArgs),
    /// Tells what was done and when, newest first.
    #[command(after_help = journal::MORE)]
    Journal(journal::JournalArgs),
    /// Tells where the store lies and how much is in it.
    #[command(after_help = place::MORE)]
    Where,
    /// Enters a client, or changes one.
    #[command(after_help = client::MORE)]
    Client(client::ClientArgs),
    /// Enters a job for a client, or changes one.
    #[command(after_help = job::MORE)]
    Job(job::JobArgs),
    /// Enters a piece of a job, or changes one: its faces and areas follow from its shape.
    #[command(after_help = piece::MORE)]
    Piece(piece::PieceArgs),
    /// Enters a product, or changes one; a figure not given is its family's usual one.
    #[command(after_help = product::MORE)]
    Product(Box<product::ProductArgs>),
    /// Enters a recipe, most easily like another, or changes one.
    #[command(after_help = recipe::MORE)]
    Recipe(Box<recipe::RecipeArgs>),
    /// Shows or changes the shop's settings: name, units, zone.
    #[command(after_help = shop::MORE)]
    Shop(shop::ShopArgs),
    /// Removes a client without jobs, a job without pieces, a piece without work, an unused recipe, a reading, a wood of your own.
    #[command(after_help = remove::MORE)]
    Remove(remove::RemoveArgs),
    /// Notes a moisture reading of a piece, corrects one, or lists them.
    #[command(after_help = moisture::MORE)]
    Moisture(moisture::MoistureArgs),
    /// Notes the air and the floor at a job's site, or shows them.
    #[command(after_help = site::MORE)]
    Site(site::SiteArgs),
    /// Notes how a piece's wood lies and how it will be held, or shows it.
    #[command(after_help = fasten::MORE)]
    Fasten(fasten::FastenArgs),
    /// Adds a wood of your own to the table, or changes one.
    #[command(after_help = own_wood::MORE)]
    OwnWood(own_wood::OwnWoodArgs),
    /// Shows or changes the rule by which a piece counts as dry and steady.
    #[command(after_help = own_wood::RULE_MORE)]
    Steady(own_wood::SteadyArgs),
    /// Ticks a grit on faces of a piece: each looked at, none skipped.
    #[command(after_help = tick::MORE)]
    Tick(tick::TickArgs),
    /// Takes a tick back that was a mistake; later ticks of that face go with it.
    #[command(after_help = tick::UNTICK_MORE)]
    Untick(tick::UntickArgs),
    /// Logs the wipe-down between the last grit and the first coat.
    #[command(after_help = wipe::MORE)]
    Wipe(wipe::WipeArgs),
    /// Logs one pass: one product, applied once, in one go, on one or more pieces.
    #[command(after_help = pass::MORE)]
    Pass(pass::PassArgs),
    /// Logs that the stain was wiped off.
    #[command(after_help = wipe::OFF_MORE)]
    WipedOff(wipe::WipeArgs),
    /// Logs a scuff, or the abrading that a missed window asks for.
    #[command(after_help = scuff::MORE)]
    Scuff(scuff::ScuffArgs),
    /// Logs a touch test of the last coat.
    #[command(after_help = touch::MORE)]
    Touch(touch::TouchArgs),
    /// Logs the shop's air, now or at an earlier time, and lists it.
    #[command(after_help = air::MORE)]
    Air(air::AirArgs),
    /// Brings a data logger's file into the log of the shop's air.
    #[command(after_help = logger::MORE)]
    Logger(logger::LoggerArgs),
    /// Types what the shop's air will be, or takes that away.
    #[command(after_help = forecast::MORE)]
    Forecast(forecast::ForecastArgs),
    /// Tells when a coat planned for later would be dry.
    #[command(after_help = later::MORE)]
    Later(later::LaterArgs),
    /// Tells what touch tests have taught of each product, or begins to learn one anew.
    #[command(after_help = learned::MORE)]
    Learned(learned::LearnedArgs),
    /// Tells or sets what drying is reckoned by.
    #[command(after_help = drying::MORE)]
    Drying(drying::DryingArgs),
    /// Sands faces back to a grit, with the reason; their finer ticks and coats are to do again.
    #[command(after_help = sandback::MORE)]
    Sandback(sandback::SandbackArgs),
    /// Declares a face not exposed (glued to another part, say), with the written reason.
    #[command(after_help = hide::MORE)]
    Hide(hide::HideArgs),
    /// Withdraws that declaration: the face is exposed after all.
    #[command(after_help = hide::SHOW_MORE)]
    Show(hide::ShowArgs),
    /// Moves pieces along to the next stage that asks something.
    #[command(after_help = move_along::MORE)]
    Move(move_along::MoveArgs),
    /// Moves a piece one stage back.
    #[command(after_help = move_along::BACK_MORE)]
    Back(move_along::BackArgs),
    /// Ticks a line of the set list.
    #[command(after_help = setlist::MORE)]
    Setlist(setlist::SetlistArgs),
    /// Corrects how much a pass used.
    #[command(after_help = amend::MORE)]
    Amend(amend::AmendArgs),
    /// Corrects when a line of the log, or a pass, was done; what depends on it follows.
    #[command(after_help = retime::MORE)]
    Retime(retime::RetimeArgs),
    /// Ticks a chore of a day's end: oily rags laid flat outdoors, sander bag emptied.
    #[command(after_help = chore::MORE)]
    Chore(chore::ChoreArgs),
    /// Closes the day; oily rags that are not logged hold it until the reason is written.
    #[command(after_help = close::MORE)]
    Close(close::CloseArgs),
    /// Layout, cutting and drawing.
    #[command(flatten)]
    Layout(LayoutVerb),
    /// Order of work and promises.
    #[command(flatten)]
    Days(DaysVerb),
    /// Estimate, agreement, hours, bills.
    #[command(flatten)]
    Money(MoneyVerb),
    /// Undoes the newest action, also after a restart.
    #[command(after_help = undo::MORE)]
    Undo,
    /// Does again what was undone last.
    #[command(after_help = undo::REDO_MORE)]
    Redo,
    /// Writes the whole shop as plain files into a new folder.
    #[command(after_help = export::MORE)]
    Export(export::ExportArgs),
    /// Brings a whole shop in from plain files, into a store without clients.
    #[command(after_help = import::MORE)]
    Import(import::ImportArgs),
}

impl Verb {
    /// Does it.
    pub(super) fn run(&self, session: &mut Session<'_>) -> Result<Answer, Failure> {
        match self {
            Self::Ready => ready::run(session),
            Self::Rack(args) => rack::run(args, session),
            Self::Use(verb) => verb.run(session),
            Self::Ticket(args) => ticket::run(args, session),
            Self::Log(args) => log::run(args, session),
            Self::Day(args) => day::run(args, session),
            Self::Wood(args) => wood::run(args, session),
            Self::ClientPage(args) => wood::client_page(args, session),
            Self::Woods(args) => woods::run(args, session),
            Self::Bench => bench::run(session),
            Self::Clients => clients::run(session),
            Self::Jobs => jobs::run(session),
            Self::Recipes => recipes::run(session),
            Self::Products(args) => products::run(args, session),
            Self::Journal(args) => journal::run(args, session),
            Self::Where => place::run(session),
            Self::Client(args) => client::run(args, session),
            Self::Job(args) => job::run(args, session),
            Self::Piece(args) => piece::run(args, session),
            Self::Product(args) => product::run(args, session),
            Self::Recipe(args) => recipe::run(args, session),
            Self::Shop(args) => shop::run(args, session),
            Self::Remove(args) => remove::run(args, session),
            Self::Moisture(args) => moisture::run(args, session),
            Self::Site(args) => site::run(args, session),
            Self::Fasten(args) => fasten::run(args, session),
            Self::OwnWood(args) => own_wood::run(args, session),
            Self::Steady(args) => own_wood::steady(args, session),
            Self::Tick(args) => tick::run(args, session),
            Self::Untick(args) => tick::untick(args, session),
            Self::Wipe(args) => wipe::run(args, session),
            Self::Pass(args) => pass::run(args, session),
            Self::WipedOff(args) => wipe::off(args, session),
            Self::Scuff(args) => scuff::run(args, session),
            Self::Touch(args) => touch::run(args, session),
            Self::Air(args) => air::run(args, session),
            Self::Logger(args) => logger::run(args, session),
            Self::Forecast(args) => forecast::run(args, session),
            Self::Later(args) => later::run(args, session),
            Self::Learned(args) => learned::run(args, session),
            Self::Drying(args) => drying::run(args, session),
            Self::Sandback(args) => sandback::run(args, session),
            Self::Hide(args) => hide::run(args, session),
            Self::Show(args) => hide::show(args, session),
            Self::Move(args) => move_along::run(args, session),
            Self::Back(args) => move_along::back(args, session),
            Self::Setlist(args) => setlist::run(args, session),
            Self::Amend(args) => amend::run(args, session),
            Self::Retime(args) => retime::run(args, session),
            Self::Chore(args) => chore::run(args, session),
            Self::Close(args) => close::run(args, session),
            Self::Layout(verb) => verb.run(session),
            Self::Days(verb) => verb.run(session),
            Self::Money(verb) => verb.run(session),
            Self::Undo => undo::run(session),
            Self::Redo => undo::redo(session),
            Self::Export(args) => export::run(args, session),
            Self::Import(args) => import::run(args, session),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Args;
    use clap::CommandFactory;

    #[test]
    fn the_arguments_hang_together_and_every_verb_says_more_than_its_line() {
        let mut command = Args::command();
        command.build();
        command.clone().debug_assert();
        for verb in command
            .get_subcommands()
            .filter(|verb| verb.get_name() != "help")
        {
            let name = verb.get_name();
            assert!(verb.get_about().is_some(), "{name} says nothing");
            let more = verb
                .get_after_help()
                .map(ToString::to_string)
                .unwrap_or_default();
            assert!(
                more.contains("tackfree ") || more.contains("--json"),
                "{name} shows no example"
            );
            for argument in verb.get_arguments() {
                assert!(
                    argument.get_help().is_some(),
                    "{name}: {} says nothing",
                    argument.get_id()
                );
            }
        }
    }

    #[test]
    fn no_option_sounds_like_a_way_past_a_gate() {
        for verb in Args::command().get_subcommands() {
            for argument in verb.get_arguments() {
                let long = argument.get_long().unwrap_or_default();
                for word in ["force", "skip", "anyway", "override", "ignore", "unchecked"] {
                    assert!(!long.contains(word), "{} has --{long}", verb.get_name());
                }
            }
        }
    }
}
