//! What comes in from outside: keys, pastes, new sizes, the end of the wait, and reasons to stop.
//!
//! Two threads wait, one for the terminal and one for signals, and put what they get into one
//! queue; the loop takes from it and owns everything else.

use std::fs::File;
use std::io::{self, IsTerminal};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread;
use std::time::Duration;

use crossterm::event::{self, Event};

use super::key::Key;

/// How often the terminal is looked at while nothing comes in: one that is gone keeps the reading
/// library busy to no end.
const LOOK: Duration = Duration::from_secs(1);

/// Why the program is asked to stop from outside.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum QuitCause {
    /// SIGTERM: somebody asks it to stop.
    Terminated,
    /// SIGHUP: the terminal window was closed.
    HungUp,
    /// SIGINT from outside (in raw mode Ctrl-C is a key).
    Interrupted,
    /// The terminal can no longer be read.
    TerminalGone,
}

/// One thing that came in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Input {
    /// A key was pressed, or repeats.
    Key(Key),
    /// Text was pasted in one go.
    Paste(String),
    /// The terminal has another size now.
    Resize,
    /// Nothing came in for as long as was to be waited.
    Tick,
    /// Stop, in order.
    Quit(QuitCause),
}

/// The queue of what comes in.
#[derive(Debug)]
pub struct Inputs {
    queue: Receiver<Input>,
    terminal: Option<Tty>,
    gone_told: bool,
    #[cfg(unix)]
    signals: Option<signal_hook::iterator::Handle>,
}

impl Inputs {
    /// Starts listening to the terminal and to signals. To be called once, after the screen is
    /// open.
    ///
    /// # Errors
    /// If a thread cannot be started or the signals cannot be had.
    pub fn open() -> io::Result<Self> {
        let (sender, queue) = channel();
        #[cfg(unix)]
        let signals = Some(signals::listen(sender.clone())?);
        thread::Builder::new()
            .name("keys".into())
            .spawn(move || read_terminal(&sender))?;
        Ok(Self {
            queue,
            terminal: Tty::of_this_process(),
            gone_told: false,
            #[cfg(unix)]
            signals,
        })
    }

    /// A queue that is fed by hand, for tests and replays. When the sender is dropped the terminal
    /// counts as gone.
    pub fn by_hand() -> (Sender<Input>, Self) {
        let (sender, queue) = channel();
        let inputs = Self {
            queue,
            terminal: None,
            gone_told: false,
            #[cfg(unix)]
            signals: None,
        };
        (sender, inputs)
    }

    /// The next thing that comes in, or [`Input::Tick`] after `timeout`. That the terminal is gone
    /// is told once; after that there are only ticks (and signals), at the pace of `timeout`.
    pub fn next(&mut self, timeout: Duration) -> Input {
        let input = match self.wait(timeout) {
            Ok(input) => input,
            Err(RecvTimeoutError::Timeout) if self.is_gone() => {
                Input::Quit(QuitCause::TerminalGone)
            }
            Err(RecvTimeoutError::Timeout) => Input::Tick,
            Err(RecvTimeoutError::Disconnected) if self.gone_told => {
                thread::sleep(timeout);
                Input::Tick
            }
            Err(RecvTimeoutError::Disconnected) => Input::Quit(QuitCause::TerminalGone),
        };
        if input == Input::Quit(QuitCause::TerminalGone) {
            if self.gone_told {
                return Input::Tick;
            }
            self.gone_told = true;
        }
        input
    }

    /// Waits for as long as `timeout`, but no longer than the next look at a terminal that is gone.
    fn wait(&self, timeout: Duration) -> Result<Input, RecvTimeoutError> {
        let mut left = timeout;
        loop {
            let step = left.min(LOOK);
            let got = self.queue.recv_timeout(step);
            left -= step;
            let over = left.is_zero() || !self.gone_told && self.is_gone();
            if over || got != Err(RecvTimeoutError::Timeout) {
                return got;
            }
        }
    }

    fn is_gone(&self) -> bool {
        self.terminal.as_ref().is_some_and(Tty::is_gone)
    }
}

#[cfg(unix)]
impl Drop for Inputs {
    fn drop(&mut self) {
        if let Some(handle) = &self.signals {
            handle.close();
        }
    }
}

/// The input side of the terminal, looked at now and then: the reading library goes on trying
/// for ever when the terminal hangs up without a signal, so its silence proves nothing.
#[derive(Debug)]
enum Tty {
    Stdin,
    Device(File),
}

impl Tty {
    fn of_this_process() -> Option<Self> {
        if io::stdin().is_terminal() {
            return Some(Self::Stdin);
        }
        let device = File::open("/dev/tty").ok()?;
        device.is_terminal().then_some(Self::Device(device))
    }

    fn is_gone(&self) -> bool {
        match self {
            Self::Stdin => !io::stdin().is_terminal(),
            Self::Device(file) => !file.is_terminal(),
        }
    }
}

fn read_terminal(sender: &Sender<Input>) {
    loop {
        let input = match event::read() {
            Ok(event) => translate(event),
            Err(e) if e.kind() == io::ErrorKind::Interrupted => None,
            Err(_) => {
                let _ = sender.send(Input::Quit(QuitCause::TerminalGone));
                return;
            }
        };
        if let Some(input) = input
            && sender.send(input).is_err()
        {
            return;
        }
    }
}

fn translate(event: Event) -> Option<Input> {
    match event {
        Event::Key(key) => Key::from_event(key).map(Input::Key),
        Event::Paste(text) => Some(Input::Paste(text)),
        Event::Resize(..) => Some(Input::Resize),
        Event::FocusGained | Event::FocusLost | Event::Mouse(_) => None,
    }
}

#[cfg(unix)]
mod signals {
    use std::io;
    use std::sync::mpsc::Sender;
    use std::thread;

    use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};
    use signal_hook::iterator::{Handle, Signals};

    use super::{Input, QuitCause};
    use crate::tui::kit::terminal;

    /// A loop that has not stopped at the third request never will.
    const PATIENCE: usize = 3;

    pub(super) fn listen(sender: Sender<Input>) -> io::Result<Handle> {
        let mut signals = Signals::new([SIGTERM, SIGHUP, SIGINT])?;
        let handle = signals.handle();
        thread::Builder::new()
            .name("signals".into())
            .spawn(move || {
                for (n, signal) in signals.forever().enumerate() {
                    let cause = match signal {
                        SIGHUP => QuitCause::HungUp,
                        SIGINT => QuitCause::Interrupted,
                        _ => QuitCause::Terminated,
                    };
                    let heard = sender.send(Input::Quit(cause)).is_ok();
                    if n + 1 >= PATIENCE && heard {
                        terminal::restore();
                        std::process::exit(128 + signal);
                    }
                }
            })?;
        Ok(handle)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};

    const NOW: Duration = Duration::ZERO;

    #[test]
    fn what_is_sent_comes_in_order_then_ticks() {
        let (sender, mut inputs) = Inputs::by_hand();
        for input in [
            Input::Key(Key::Enter),
            Input::Paste("a\nb".into()),
            Input::Resize,
        ] {
            sender.send(input.clone()).unwrap();
            assert_eq!(inputs.next(NOW), input);
        }
        assert_eq!(inputs.next(NOW), Input::Tick);
        assert_eq!(inputs.next(NOW), Input::Tick);
    }

    #[test]
    fn a_terminal_that_is_gone_is_told_once() {
        let (sender, mut inputs) = Inputs::by_hand();
        sender.send(Input::Quit(QuitCause::TerminalGone)).unwrap();
        drop(sender);
        assert_eq!(inputs.next(NOW), Input::Quit(QuitCause::TerminalGone));
        assert_eq!(inputs.next(NOW), Input::Tick);
        let (sender, mut inputs) = Inputs::by_hand();
        drop(sender);
        assert_eq!(inputs.next(NOW), Input::Quit(QuitCause::TerminalGone));
        assert_eq!(inputs.next(NOW), Input::Tick);
    }

    #[test]
    fn events_are_translated() {
        let key = KeyEvent::new(KeyCode::Char('c'), KeyModifiers::CONTROL);
        assert_eq!(translate(Event::Key(key)), Some(Input::Key(Key::Ctrl('c'))));
        assert_eq!(
            translate(Event::Paste("x".into())),
            Some(Input::Paste("x".into()))
        );
        assert_eq!(translate(Event::Resize(9, 9)), Some(Input::Resize));
        assert_eq!(translate(Event::FocusLost), None);
    }
}
