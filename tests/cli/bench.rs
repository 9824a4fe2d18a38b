//! What the tests of the commands stand on: a store in a folder of its own, a clock held still,
//! and the binary.

use serde_json::Value;
use std::path::PathBuf;
use std::process::{Command, Stdio};
use tempfile::TempDir;

/// How a run ended.
#[derive(Debug)]
pub struct Ended {
    pub code: i32,
    pub out: String,
    pub err: String,
}

impl Ended {
    /// The error lines.
    pub fn reasons(&self) -> Vec<&str> {
        self.err
            .lines()
            .filter(|line| line.starts_with("- "))
            .collect()
    }
}

/// A shop of its own.
pub struct Bench {
    folder: TempDir,
}

impl Bench {
    pub fn new() -> Self {
        Self {
            folder: tempfile::tempdir().expect("a folder for the test"),
        }
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub fn command(&self, now: &str, args: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_tackfree"));
        command
            .args(args)
            .env("TACKFREE_NOW", now)
            .env("TACKFREE_STORE", self.path("shop.tackfree"))
            .env("TZ", "America/Chicago")
            .env("HOME", self.folder.path())
            .env("XDG_DATA_HOME", self.path("data"))
            .stdin(Stdio::null());
        command
    }

    /// Runs it at a moment and tells how it ended.
    pub fn run(&self, now: &str, args: &[&str]) -> Ended {
        let output = self.command(now, args).output().expect("the binary runs");
        Ended {
            code: output.status.code().expect("it ends by itself"),
            out: String::from_utf8(output.stdout).expect("text"),
            err: String::from_utf8(output.stderr).expect("text"),
        }
    }

    /// Runs what must work.
    pub fn ok(&self, now: &str, args: &[&str]) -> String {
        let ended = self.run(now, args);
        assert_eq!(
            (ended.code, ended.err.as_str()),
            (0, ""),
            "{args:?}: {ended:?}"
        );
        ended.out
    }

    /// Runs what must work, with --json.
    pub fn json(&self, now: &str, args: &[&str]) -> Value {
        let mut all = args.to_vec();
        all.push("--json");
        serde_json::from_str(&self.ok(now, &all)).expect("JSON")
    }

    /// Runs what a gate must hold back.
    pub fn refused(&self, now: &str, args: &[&str]) -> Ended {
        let ended = self.run(now, args);
        assert_eq!(
            (ended.code, ended.out.as_str()),
            (3, ""),
            "{args:?}: {ended:?}"
        );
        assert!(!ended.reasons().is_empty(), "{args:?}: {ended:?}");
        ended
    }

    /// A client, a job, and the top whose areas were worked out by hand.
    pub fn with_top(now: &str) -> Self {
        let bench = Self::new();
        bench.ok(now, &["client", "Nell Harrow", "--phone", "555 0100"]);
        bench.ok(
            now,
            &["job", "Nell Harrow", "galley counter", "--built", "1990"],
        );
        bench.ok(
            now,
            &[
                "piece",
                "1",
                "galley top",
                "--size",
                "98 3/8 x 25 1/2",
                "--thickness",
                "1 1/2",
                "--species",
                "hard maple",
                "--construction",
                "edge",
                "--cutout",
                "30 x 16 r 3/4 at 49 1/4, 12 3/4",
                "--hole",
                "1 3/8 at 49 1/4, 22",
                "--band",
                "2",
                "--recipe",
                "gel stain under a wiped film",
            ],
        );
        bench
    }
}
