//! The terminal taken over and, whatever happens, given back.

use std::io::{self, IsTerminal, Stdout, Write};
use std::mem::ManuallyDrop;
use std::sync::Once;
use std::sync::atomic::{AtomicBool, Ordering};

use crossterm::event::{DisableBracketedPaste, EnableBracketedPaste};
use crossterm::terminal::{
    EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode, enable_raw_mode,
};
use crossterm::{cursor, queue};
use ratatui::backend::CrosstermBackend;
use ratatui::{Frame, Terminal};

/// Whether the terminal is ours at the moment. Process-wide, as the terminal is.
static TAKEN: AtomicBool = AtomicBool::new(false);
static HOOK: Once = Once::new();

/// The terminal as a screen: raw mode, the alternate screen, bracketed paste, cursor hidden.
/// Dropping it gives the terminal back.
#[derive(Debug)]
pub struct Screen {
    /// Never dropped: its own clean-up prints to standard error when the terminal is gone, which
    /// panics where that is the same terminal. [`restore`] does all that is needed.
    terminal: ManuallyDrop<Terminal<CrosstermBackend<Stdout>>>,
}

impl Screen {
    /// Takes the terminal over. Also installs, once, a panic hook that gives it back before any
    /// hook that was there already speaks; so install other hooks before.
    ///
    /// # Errors
    /// If standard output is not a terminal, or it cannot be written or switched; whatever was
    /// switched until then is given back.
    pub fn open() -> io::Result<Self> {
        if !io::stdout().is_terminal() {
            return Err(io::Error::new(
                io::ErrorKind::Unsupported,
                "The screen needs a terminal, and standard output is not one; \
                 run it in a terminal window.",
            ));
        }
        HOOK.call_once(|| {
            let before = std::panic::take_hook();
            std::panic::set_hook(Box::new(move |info| {
                restore();
                before(info);
            }));
        });
        // Said first, so that a failure or signal half-way still puts everything back.
        TAKEN.store(true, Ordering::SeqCst);
        take().inspect_err(|_| restore())
    }

    /// Draws one frame.
    ///
    /// # Errors
    /// If the terminal cannot be written, which mostly means that it is gone.
    pub fn draw(&mut self, view: impl FnOnce(&mut Frame<'_>)) -> io::Result<()> {
        self.terminal.draw(view).map(|_| ())
    }

    /// Forgets what is on the screen, so that the next frame is drawn in full.
    ///
    /// # Errors
    /// If the terminal cannot be written.
    pub fn redraw_all(&mut self) -> io::Result<()> {
        // Not `clear`: that asks the terminal where its cursor is, and the answer would be read by
        // whoever waits for keys.
        let size = self.terminal.size()?;
        self.terminal.resize(size.into())
    }

    /// Rings the terminal's bell. Silent if the terminal is gone.
    pub fn ring() {
        let mut out = io::stdout();
        let _ = out.write_all(b"\x07").and_then(|()| out.flush());
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        restore();
    }
}

fn take() -> io::Result<Screen> {
    enable_raw_mode()?;
    let mut out = io::stdout();
    queue!(
        out,
        EnterAlternateScreen,
        EnableBracketedPaste,
        cursor::Hide
    )?;
    out.flush()?;
    Ok(Screen {
        terminal: ManuallyDrop::new(Terminal::new(CrosstermBackend::new(out))?),
    })
}

/// Gives the terminal back if it is ours, else does nothing: can be called from anywhere, as
/// often as one likes. A terminal that is gone cannot be told anything, so errors are passed over.
pub fn restore() {
    if !TAKEN.swap(false, Ordering::SeqCst) {
        return;
    }
    // Each on its own: one that fails must not keep the others from happening.
    let _ = disable_raw_mode();
    let mut out = io::stdout();
    let _ = queue!(
        out,
        DisableBracketedPaste,
        cursor::Show,
        LeaveAlternateScreen
    );
    let _ = out.flush();
}

#[cfg(all(test, unix))]
#[path = "terminal_tests.rs"]
mod tests;
