//! The real binary in a pseudo-terminal: keys in, the screen out.

use portable_pty::{Child, CommandBuilder, PtySize, native_pty_system};
use std::io::{Read, Write};
use std::path::Path;
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

/// How long a wanted text may take to appear before the test fails. Generous, since it only says
/// when to give up; nothing is measured.
const PATIENCE: Duration = Duration::from_secs(30);

/// A running program and its screen.
pub struct Terminal {
    child: Box<dyn Child + Send + Sync>,
    keys: Box<dyn Write + Send>,
    screen: Arc<Mutex<vt100::Parser>>,
}

impl Terminal {
    /// Starts the program on a store at a fixed time.
    pub fn start(store: &Path, now: &str, rows: u16, cols: u16) -> Self {
        Self::start_with(&["--store", &store.to_string_lossy()], now, rows, cols)
    }

    /// Starts the program with arguments of its own.
    pub fn start_with(arguments: &[&str], now: &str, rows: u16, cols: u16) -> Self {
        let pair = native_pty_system()
            .openpty(PtySize {
                rows,
                cols,
                pixel_width: 0,
                pixel_height: 0,
            })
            .expect("a pseudo-terminal");
        let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_tackfree"));
        command.args(arguments);
        command.env("TACKFREE_NOW", now);
        command.env("TERM", "xterm-256color");
        command.env("TZ", "UTC");
        command.env_remove("TACKFREE_STORE");
        command.env_remove("NO_COLOR");
        let child = pair
            .slave
            .spawn_command(command)
            .expect("the program starts");
        drop(pair.slave);
        let screen = Arc::new(Mutex::new(vt100::Parser::new(rows, cols, 0)));
        let mut output = pair.master.try_clone_reader().expect("its output");
        let parser = Arc::clone(&screen);
        std::thread::spawn(move || {
            let mut buffer = [0_u8; 4096];
            while let Ok(read) = output.read(&mut buffer) {
                if read == 0 {
                    break;
                }
                parser.lock().expect("the screen").process(&buffer[..read]);
            }
        });
        let keys = pair.master.take_writer().expect("its keyboard");
        Self {
            child,
            keys,
            screen,
        }
    }

    /// The screen as text.
    pub fn text(&self) -> String {
        self.screen.lock().expect("the screen").screen().contents()
    }

    /// Whether the program has the alternate screen.
    pub fn has_alternate_screen(&self) -> bool {
        self.screen
            .lock()
            .expect("the screen")
            .screen()
            .alternate_screen()
    }

    /// Waits until the screen shows `wanted`.
    pub fn see(&self, wanted: &str) {
        self.until(&format!("{wanted:?} on the screen"), |text| {
            flat(text).contains(wanted)
        });
    }

    /// Waits until the screen has shown all of `wanted`, going down for what is not there yet.
    pub fn see_all_below(&mut self, wanted: &[&str]) {
        let mut seen = String::new();
        loop {
            let text = self.text();
            seen.push_str(&flat(&text));
            let Some(missing) = wanted.iter().find(|wanted| !seen.contains(**wanted)) else {
                return;
            };
            self.press(&["down"]);
            self.until(&format!("{missing:?} further down"), |now| now != text);
        }
    }

    /// Waits until the screen no longer shows `gone`.
    pub fn see_no(&self, gone: &str) {
        self.until(&format!("{gone:?} to go"), |text| {
            !flat(text).contains(gone)
        });
    }

    fn until(&self, what: &str, holds: impl Fn(&str) -> bool) {
        let end = Instant::now() + PATIENCE;
        loop {
            let text = self.text();
            if holds(&text) {
                return;
            }
            assert!(
                Instant::now() < end,
                "waited for {what}; the screen shows:\n{text}"
            );
            std::thread::sleep(Duration::from_millis(10));
        }
    }

    /// Types text.
    pub fn type_text(&mut self, text: &str) {
        self.keys.write_all(text.as_bytes()).expect("typing");
        self.keys.flush().expect("typing");
    }

    /// Presses named keys, one after the other.
    pub fn press(&mut self, names: &[&str]) {
        for name in names {
            let bytes = match *name {
                "enter" => "\r",
                "esc" => "\x1b",
                "tab" => "\t",
                "up" => "\x1b[A",
                "down" => "\x1b[B",
                "right" => "\x1b[C",
                "left" => "\x1b[D",
                "backspace" => "\x7f",
                "home" => "\x1b[H",
                "end" => "\x1b[F",
                "F2" => "\x1bOQ",
                "space" => " ",
                "ctrl-c" => "\x03",
                "ctrl-u" => "\x15",
                other => other,
            };
            self.type_text(bytes);
            if *name == "esc" {
                // So that the terminal's reader does not take it for the start of a longer key.
                std::thread::sleep(Duration::from_millis(60));
            }
        }
    }

    /// Sends a signal.
    #[cfg(unix)]
    pub fn signal(&self, name: &str) {
        let pid = self
            .child
            .process_id()
            .expect("a running program")
            .to_string();
        let sent = std::process::Command::new("kill")
            .args([name, &pid])
            .status()
            .expect("kill");
        assert!(sent.success());
    }

    /// Waits for the program to end; its exit code.
    pub fn wait(&mut self) -> u32 {
        let end = Instant::now() + PATIENCE;
        loop {
            if let Some(status) = self.child.try_wait().expect("its status") {
                return status.exit_code();
            }
            assert!(
                Instant::now() < end,
                "it does not end; the screen shows:\n{}",
                self.text()
            );
            std::thread::sleep(Duration::from_millis(10));
        }
    }

    /// Kills the program as hard as the system can.
    pub fn kill(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

impl Drop for Terminal {
    fn drop(&mut self) {
        let _ = self.child.kill();
    }
}

/// The screen as one line, so that a wrapped sentence can be looked for.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
