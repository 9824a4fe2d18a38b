//! The terminal is really taken and really given back: this test binary runs itself in a
//! pseudo-terminal, in a part that only a set variable switches on.

use std::io::{Read, Write};
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

use portable_pty::{CommandBuilder, ExitStatus, PtySize, native_pty_system};

use super::{Screen, restore};
use crate::tui::kit::Key;
use crate::tui::kit::events::{Input, Inputs};

const PART: &str = "KIT_TEST_PART";
const LEAVE: &str = "\x1b[?1049l";
const ENTER: &str = "\x1b[?1049h";

/// Not a test of its own: what the tests below run in a terminal. Without the variable it only
/// shows that giving back a terminal that was never taken does nothing.
#[test]
fn part() {
    let Ok(part) = std::env::var(PART) else {
        restore();
        restore();
        return;
    };
    if part == "panic" {
        let _screen = Screen::open().unwrap();
        panic!("seen after the screen");
    }
    let mut screen = Screen::open().unwrap();
    let mut inputs = Inputs::open().unwrap();
    let mut heard = String::from("READY");
    loop {
        // In full, so that every word goes out in one piece.
        let shown = screen
            .redraw_all()
            .and_then(|()| screen.draw(|f| f.render_widget(heard.as_str(), f.area())));
        if shown.is_err() {
            break;
        }
        match inputs.next(Duration::from_secs(3600)) {
            Input::Quit(cause) => heard = format!("QUIT-{cause:?}"),
            Input::Key(Key::Ctrl('c')) => heard = "CTRL-C".to_owned(),
            Input::Key(key) => {
                heard = format!("KEY-{}", key.name());
                continue;
            }
            Input::Paste(text) => {
                heard = format!("PASTE-{}", text.replace(['\r', '\n'], "/"));
                continue;
            }
            Input::Resize => {
                heard = format!("SIZE-{:?}", crossterm::terminal::size().unwrap()).replace(' ', "");
                continue;
            }
            Input::Tick => continue,
        }
        break;
    }
    drop(screen);
    let _ = writeln!(std::io::stdout(), "AFTER {heard}");
    std::process::exit(7);
}

/// A child of this binary running one part, and everything it wrote so far.
struct Child {
    master: Option<Box<dyn portable_pty::MasterPty + Send>>,
    output: Receiver<Vec<u8>>,
    writer: Option<Box<dyn Write + Send>>,
    process: Box<dyn portable_pty::Child + Send + Sync>,
    seen: String,
}

impl Child {
    fn run(part: &str) -> Self {
        let size = PtySize {
            rows: 24,
            cols: 80,
            pixel_width: 0,
            pixel_height: 0,
        };
        let pair = native_pty_system().openpty(size).unwrap();
        let mut command = CommandBuilder::new(std::env::current_exe().unwrap());
        let name = format!("{}::part", module_path!().split_once("::").unwrap().1);
        command.args([name.as_str(), "--exact", "--nocapture", "--test-threads=1"]);
        command.env(PART, part);
        command.env("TERM", "xterm-256color");
        let child = pair.slave.spawn_command(command).unwrap();
        let mut reader = pair.master.try_clone_reader().unwrap();
        let (sender, output) = channel();
        std::thread::spawn(move || {
            let mut bytes = [0; 1024];
            while let Ok(n @ 1..) = reader.read(&mut bytes) {
                if sender.send(bytes[..n].to_vec()).is_err() {
                    break;
                }
            }
        });
        let writer = pair.master.take_writer().unwrap();
        let master = Some(pair.master);
        Self {
            master,
            output,
            writer: Some(writer),
            process: child,
            seen: String::new(),
        }
    }

    /// Reads until `what` is there. The minute only keeps a failure from hanging.
    fn until(&mut self, what: &str) {
        while !self.seen.contains(what) {
            match self.output.recv_timeout(Duration::from_secs(60)) {
                Ok(bytes) => self.seen.push_str(&String::from_utf8_lossy(&bytes)),
                Err(e) => {
                    let _ = self.process.kill();
                    panic!("no {what:?}, {e}: {:?}", self.seen);
                }
            }
        }
    }

    fn say(&mut self, bytes: &str) {
        let writer = self.writer.as_mut().unwrap();
        writer.write_all(bytes.as_bytes()).unwrap();
        writer.flush().unwrap();
    }

    fn end(&mut self) -> ExitStatus {
        while let Ok(bytes) = self.output.recv_timeout(Duration::from_secs(60)) {
            self.seen.push_str(&String::from_utf8_lossy(&bytes));
        }
        self.process.wait().unwrap()
    }

    fn given_back_once_before(&self, word: &str) {
        let leave = self.seen.find(LEAVE).expect("left the alternate screen");
        assert_eq!(self.seen.matches(LEAVE).count(), 1);
        assert!(self.seen.find(ENTER).unwrap() < leave);
        let tail = &self.seen[leave..];
        assert!(
            tail.contains(word),
            "{word:?} comes after the screen is given back: {tail:?}"
        );
        for code in ["\x1b[?2004l", "\x1b[?25h"] {
            assert!(self.seen.contains(code), "{code:?}");
        }
    }
}

#[test]
fn a_panic_gives_the_terminal_back_first() {
    let mut child = Child::run("panic");
    child.end();
    child.given_back_once_before("seen after the screen");
}

#[test]
fn signals_end_it_in_order() {
    for (signal, word) in [
        ("TERM", "Terminated"),
        ("HUP", "HungUp"),
        ("INT", "Interrupted"),
    ] {
        let mut child = Child::run("loop");
        child.until("READY");
        let id = child.process.process_id().unwrap().to_string();
        let sent = std::process::Command::new("kill")
            .args(["-s", signal, &id])
            .status()
            .unwrap();
        assert!(sent.success());
        let status = child.end();
        assert_eq!(status.exit_code(), 7);
        child.given_back_once_before(&format!("AFTER QUIT-{word}"));
    }
}

#[test]
fn keys_pastes_and_sizes_come_through() {
    let mut child = Child::run("loop");
    child.until("READY");
    child.say("\x1b[5~");
    child.until("KEY-pgup");
    child.say("\x1b[200~one\rtwo\x1b[201~");
    child.until("PASTE-one/two");
    let size = PtySize {
        rows: 30,
        cols: 100,
        pixel_width: 0,
        pixel_height: 0,
    };
    child.master.as_ref().unwrap().resize(size).unwrap();
    child.until("SIZE-(100,30)");
    child.say("\x03");
    assert_eq!(child.end().exit_code(), 7);
    child.given_back_once_before("AFTER CTRL-C");
}

#[test]
fn a_window_that_is_closed_ends_it() {
    let mut child = Child::run("loop");
    child.until("READY");
    // With nobody to listen, what the next key draws makes the reading thread let go of its hold
    // on the terminal; ours goes here, and with the last one the terminal hangs up.
    child.output = channel().1;
    child.say("x");
    child.writer = None;
    child.master = None;
    for _ in 0..600 {
        if let Some(status) = child.process.try_wait().unwrap() {
            assert_eq!(status.exit_code(), 7, "{status:?}");
            return;
        }
        std::thread::sleep(Duration::from_millis(100));
    }
    let _ = child.process.kill();
    panic!("it went on without its terminal");
}
