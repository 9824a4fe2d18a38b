//! The program: reads its arguments, the clock, the environment, randomness and the machine's
//! zone, and hands them on. Nothing else in the house reads any of these.

#![forbid(unsafe_code)]

use chrono::Utc;
use chrono_tz::Tz;
use std::env;
use std::io::{self, IsTerminal, Write};
use std::path::PathBuf;
use std::process::ExitCode;
use tackfree::cli::{self, Failure, Surroundings};

fn main() -> ExitCode {
    match ended() {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            for line in failure.lines() {
                say(&line);
            }
            ExitCode::from(failure.code())
        }
    }
}

fn ended() -> Result<(), Failure> {
    // A fault of the program's own is one sentence to the person; whoever hunts it sets
    // RUST_BACKTRACE and gets the whole trace.
    if filled("RUST_BACKTRACE").is_none() {
        std::panic::set_hook(Box::new(|_| {
            say(
                "tackfree met a fault of its own and stopped. What it had confirmed is saved; \
                 start it again.",
            );
        }));
    }
    let args = cli::read_args(env::args_os())?;
    cli::run(&args, &surroundings()?, &mut io::stdout())
}

/// One line to the person. If even that cannot be written there is nobody to tell.
fn say(line: &str) {
    let _ = writeln!(io::stderr(), "{line}");
}

fn surroundings() -> Result<Surroundings, Failure> {
    let zone = zone();
    let fixed = match filled("TACKFREE_NOW") {
        Some(text) => Some(cli::read_now(&text.to_string_lossy(), zone)?),
        None => None,
    };
    let mut random = [0_u8; 8];
    getrandom::fill(&mut random).map_err(|error| Failure::unexpected(error.to_string()))?;
    let folders = directories::ProjectDirs::from("", "", "tackfree");
    Ok(Surroundings {
        now: Box::new(move || fixed.unwrap_or_else(Utc::now)),
        zone,
        random: u64::from_le_bytes(random),
        store: filled("TACKFREE_STORE").map(PathBuf::from),
        data_folder: folders.map(|folders| folders.data_dir().to_path_buf()),
        no_color: filled("NO_COLOR").is_some(),
        background: env::var("COLORFGBG").ok(),
        ascii: !speaks_unicode(),
        on_terminal: io::stdout().is_terminal(),
    })
}

/// A variable that is there and not empty.
fn filled(name: &str) -> Option<std::ffi::OsString> {
    env::var_os(name).filter(|value| !value.is_empty())
}

/// The zone of `TZ` where that names one of the IANA list, else the machine's, else UTC.
fn zone() -> Tz {
    let said = env::var("TZ")
        .ok()
        .and_then(|name| name.trim_start_matches(':').parse().ok());
    let of_machine = || {
        iana_time_zone::get_timezone()
            .ok()
            .and_then(|name| name.parse().ok())
    };
    said.or_else(of_machine).unwrap_or(Tz::UTC)
}

/// Whether the locale takes more than ASCII. One that is not set says nothing against it.
fn speaks_unicode() -> bool {
    let locale = ["LC_ALL", "LC_CTYPE", "LANG"].into_iter().find_map(filled);
    locale.is_none_or(|locale| {
        let locale = locale.to_string_lossy().to_lowercase();
        locale.contains("utf-8") || locale.contains("utf8")
    })
}
