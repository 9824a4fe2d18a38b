//! The arguments: what can be asked, and the help that says it in the trade's words.

use super::answer::Answer;
use super::doing::{
    accept, air, allow, amend, can, checks, chore, client, close, drying, export, fasten, forecast,
    hide, hours, import, job, learned, logger, mix, moisture, move_along, offer, own_wood, pass,
    piece, product, promise, recipe, remove, retime, sandback, scuff, setlist, shop, site, stands,
    steps, strike, template, tick, touch, undo, wipe,
};
use super::failure::Failure;
use super::money::{bills, clock, deal, estimate, places, prices, samples, slip};
use super::reading::{
    bench, buy, cans, clients, compare, cutlist, cutplan, day, daysheet, draw, findings, jobs,
    journal, later, log, place, products, rack, rates, ready, recipes, tally, ticket, wood, woods,
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
    /// Lists the cans on the shelf: what is left and how that is known, batch, age, place; or one with
    /// its log.
    #[command(after_help = cans::MORE)]
    Cans(cans::CansArgs),
    /// Tells what was used, what was planned and what it cost, for a job or in all.
    #[command(after_help = tally::MORE)]
    Tally(tally::TallyArgs),
    /// Tells your own spread rates beside the labels', with the passes that stand behind them.
    #[command(after_help = rates::MORE)]
    Rates(rates::RatesArgs),
    /// Plans what to buy for the jobs to come: the cheapest cans, one batch of stain a job.
    #[command(after_help = buy::MORE)]
    Buy(buy::BuyArgs),
    /// Tells how the finish of a piece differs from that of another, or of its sample.
    #[command(after_help = compare::MORE)]
    Compare(compare::CompareArgs),
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
    /// Logs what happened to cans: received, opened, weighed, mixed, a jar poured off, thrown away.
    #[command(after_help = can::MORE)]
    Can(Box<can::CanArgs>),
    /// Corrects how much a pass used.
    #[command(after_help = amend::MORE)]
    Amend(amend::AmendArgs),
    /// Strikes a pass out of the spread rates, or takes it back.
    #[command(after_help = strike::MORE)]
    Strike(strike::StrikeArgs),
    /// Lists the can sizes on offer, adds one or takes one away.
    #[command(after_help = offer::MORE)]
    Offer(offer::OfferArgs),
    /// Notes how the shop mixes a product, or measures a mix out.
    #[command(after_help = mix::MORE)]
    Mix(mix::MixArgs),
    /// Shows or sets what planning of use allows for: reserve, loss, bare wood, scale and cup.
    #[command(after_help = allow::MORE)]
    Allow(allow::AllowArgs),
    /// Corrects when a line of the log, or a pass, was done; what depends on it follows.
    #[command(after_help = retime::MORE)]
    Retime(retime::RetimeArgs),
    /// Ticks a chore of a day's end: oily rags laid flat outdoors, sander bag emptied.
    #[command(after_help = chore::MORE)]
    Chore(chore::ChoreArgs),
    /// Closes the day; oily rags that are not logged hold it until the reason is written.
    #[command(after_help = close::MORE)]
    Close(close::CloseArgs),
    /// Tells what the layout checks find on a piece: what, where, how much is missing, what cures it.
    #[command(after_help = findings::MORE)]
    Findings(findings::FindingsArgs),
    /// Takes a layout finding as it is, with the written reason.
    #[command(after_help = accept::MORE)]
    Accept(accept::AcceptArgs),
    /// Opens a finding again that was accepted.
    #[command(after_help = accept::REOPEN_MORE)]
    Reopen(accept::ReopenArgs),
    /// Shows or notes how a piece will stand: joints, overhangs, appliances, height.
    #[command(after_help = stands::MORE)]
    Stands(stands::StandsArgs),
    /// Shows or changes the layout checks: figure, weight, whether made.
    #[command(after_help = checks::MORE)]
    Checks(checks::ChecksArgs),
    /// Shows or changes the shop's router: bit, guide, speed, depth of a pass.
    #[command(after_help = checks::ROUTER_MORE)]
    Router(Box<checks::RouterVerbArgs>),
    /// Shows or changes how the shop glues up and buys: strips, waste, boards, paper.
    #[command(after_help = checks::BOARDS_MORE)]
    Boards(Box<checks::BoardsArgs>),
    /// Plans a cut: template, passes, feed, what to mind.
    #[command(after_help = cutplan::MORE)]
    Cutplan(Box<cutplan::CutplanArgs>),
    /// Lists the strips of pieces and the lumber to buy, board feet net and gross.
    #[command(after_help = cutlist::MORE)]
    Cutlist(cutlist::CutlistArgs),
    /// Draws a piece to scale in signs, its findings marked.
    #[command(after_help = draw::MORE)]
    Draw(draw::DrawArgs),
    /// Writes the dimensioned sheet of a piece as SVG.
    #[command(after_help = template::SHEET_MORE)]
    Sheet(template::SheetArgs),
    /// Writes a full-size template of a piece or an opening, over sheets of paper.
    #[command(after_help = template::MORE)]
    Template(template::TemplateArgs),
    /// Tells what to do when today and the next days, why, and which job will be late.
    #[command(after_help = daysheet::MORE)]
    Daysheet(daysheet::DaysheetArgs),
    /// Makes the day sheet anew from now, tells what changed, and keeps its order for the day.
    #[command(after_help = steps::REPLAN_MORE)]
    Replan,
    /// Begins a step of the day sheet.
    #[command(after_help = steps::BEGIN_MORE)]
    Begin(steps::BeginArgs),
    /// Finishes the step under way and logs it.
    #[command(after_help = steps::FINISH_MORE)]
    Finish(steps::FinishArgs),
    /// Shows or changes the bench hours, rack places, and what else days are planned by.
    #[command(after_help = hours::MORE)]
    Hours(Box<hours::HoursArgs>),
    /// Shows or changes how long steps take.
    #[command(after_help = hours::TIMES_MORE)]
    Steptimes(hours::SteptimesArgs),
    /// Notes time taken by other work, a day off, or bench hours added; lists or removes them.
    #[command(after_help = hours::SLOT_MORE)]
    Slot(hours::SlotArgs),
    /// Tells when a job can be set, as odds; promises a date; tells how promises were kept.
    #[command(after_help = promise::MORE)]
    Promise(promise::PromiseArgs),
    /// Shows or changes what the shop prices by: its hour, markups, woods, terms.
    #[command(after_help = prices::MORE)]
    Prices(Box<prices::PricesArgs>),
    /// Enters a place and its sales tax, changes it or takes it out.
    #[command(after_help = places::TAX_MORE)]
    Taxplace(places::TaxPlaceArgs),
    /// Enters a place's cap on deposits, changes it or takes it out.
    #[command(after_help = places::CAP_MORE)]
    Cap(places::CapArgs),
    /// Says where a job is taxed, whose deposit cap counts, whether it asks for a sample.
    #[command(after_help = estimate::TERMS_MORE)]
    Terms(estimate::TermsArgs),
    /// Adds a line of its own to a job's estimate (bought in, or anything else), or changes one.
    #[command(after_help = estimate::ITEM_MORE)]
    Item(estimate::ItemArgs),
    /// Estimates a job: hours likely and in ranges, price by line, tax; keeps it when given.
    #[command(after_help = estimate::MORE)]
    Estimate(estimate::EstimateArgs),
    /// Tells the shop's pace at each step: learned, or where it starts.
    #[command(after_help = estimate::PACE_MORE)]
    Pace,
    /// Signs the agreement of a job: price, payments, dates; checks deposit cap and notice.
    #[command(after_help = deal::SIGN_MORE)]
    Sign(deal::SignArgs),
    /// Writes a change order, changes one, or notes that it was signed.
    #[command(after_help = deal::CHANGE_MORE)]
    Change(deal::ChangeArgs),
    /// Notes a sample board, or that it was approved.
    #[command(after_help = samples::SAMPLE_MORE)]
    Sampleboard(samples::SampleArgs),
    /// Tells the deal of a job: agreement, changes, samples, invoices, payments, balance.
    #[command(after_help = deal::MORE)]
    Deal(deal::DealArgs),
    /// Writes an invoice, or corrects one.
    #[command(after_help = bills::INVOICE_MORE)]
    Invoice(bills::InvoiceArgs),
    /// Takes a payment, or corrects one.
    #[command(after_help = bills::PAID_MORE)]
    Paid(bills::PaidArgs),
    /// Tells what is owed by job and client, what is overdue and since when.
    #[command(after_help = bills::OWED_MORE)]
    Owed(bills::OwedArgs),
    /// Prints a reminder to send for what is billed and open.
    #[command(after_help = bills::REMIND_MORE)]
    Remind(bills::RemindArgs),
    /// Starts, interrupts and stops the clock on a step.
    #[command(after_help = clock::CLOCK_MORE)]
    Clock(clock::ClockArgs),
    /// Lists the hours log, or types hours later and corrects them.
    #[command(after_help = clock::HOURS_MORE)]
    Hourslog(clock::HoursArgs),
    /// Holds a job's hours against its estimate: slippage by step in time, dollars and per cent.
    #[command(after_help = slip::SLIP_MORE)]
    Slip(slip::SlipArgs),
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
            Self::Cans(args) => cans::run(args, session),
            Self::Tally(args) => tally::run(args, session),
            Self::Rates(args) => rates::run(args, session),
            Self::Buy(args) => buy::run(args, session),
            Self::Compare(args) => compare::run(args, session),
            Self::Strike(args) => strike::run(args, session),
            Self::Offer(args) => offer::run(args, session),
            Self::Mix(args) => mix::run(args, session),
            Self::Allow(args) => allow::run(args, session),
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
            Self::Can(args) => can::run(args, session),
            Self::Amend(args) => amend::run(args, session),
            Self::Retime(args) => retime::run(args, session),
            Self::Chore(args) => chore::run(args, session),
            Self::Close(args) => close::run(args, session),
            Self::Findings(args) => findings::run(args, session),
            Self::Accept(args) => accept::run(args, session),
            Self::Reopen(args) => accept::reopen(args, session),
            Self::Stands(args) => stands::run(args, session),
            Self::Checks(args) => checks::run(args, session),
            Self::Router(args) => checks::router(args, session),
            Self::Boards(args) => checks::boards(args, session),
            Self::Cutplan(args) => cutplan::run(args, session),
            Self::Cutlist(args) => cutlist::run(args, session),
            Self::Draw(args) => draw::run(args, session),
            Self::Sheet(args) => template::sheet(args, session),
            Self::Template(args) => template::run(args, session),
            Self::Daysheet(args) => daysheet::run(args, session),
            Self::Replan => steps::replan(session),
            Self::Begin(args) => steps::begin(args, session),
            Self::Finish(args) => steps::finish(args, session),
            Self::Hours(args) => hours::run(args, session),
            Self::Steptimes(args) => hours::steptimes(args, session),
            Self::Slot(args) => hours::slot(args, session),
            Self::Promise(args) => promise::run(args, session),
            Self::Prices(args) => prices::run(args, session),
            Self::Taxplace(args) => places::tax_place(args, session),
            Self::Cap(args) => places::cap(args, session),
            Self::Terms(args) => estimate::terms(args, session),
            Self::Item(args) => estimate::item(args, session),
            Self::Estimate(args) => estimate::run(args, session),
            Self::Pace => estimate::pace(session),
            Self::Sign(args) => deal::sign(args, session),
            Self::Change(args) => deal::change(args, session),
            Self::Sampleboard(args) => samples::sample(args, session),
            Self::Deal(args) => deal::run(args, session),
            Self::Invoice(args) => bills::invoice(args, session),
            Self::Paid(args) => bills::paid(args, session),
            Self::Owed(args) => bills::owed(args, session),
            Self::Remind(args) => bills::remind(args, session),
            Self::Clock(args) => clock::clock(args, session),
            Self::Hourslog(args) => clock::hours(args, session),
            Self::Slip(args) => slip::slip(args, session),
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
