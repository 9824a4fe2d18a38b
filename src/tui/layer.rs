//! What lies over the screen: tickets, sheets, forms, pages, answers.

use super::forms::OpenForm;
use super::kit::pager::Pager;
use super::screen::Screen;
use super::screens::ticket::TicketScreen;
use super::screens::wood::WoodScreen;
use super::screens::woods::WoodsScreen;

/// What lies over the screen.
#[derive(Debug)]
pub enum Layer {
    /// A ticket.
    Ticket(Box<TicketScreen>),
    /// A wood sheet.
    Wood(Box<WoodScreen>),
    /// The table of woods.
    Woods(Box<WoodsScreen>),
    /// A form.
    Form(Box<OpenForm>),
    /// Lines to read, with a heading.
    Read(String, Pager),
    /// Lines that answer what was just tried.
    Tell(Pager),
}

impl Layer {
    /// The screen it is, if it is one.
    pub(super) fn screen(&self) -> Option<&dyn Screen> {
        match self {
            Self::Ticket(screen) => Some(screen.as_ref()),
            Self::Wood(screen) => Some(screen.as_ref()),
            Self::Woods(screen) => Some(screen.as_ref()),
            Self::Form(_) | Self::Read(..) | Self::Tell(_) => None,
        }
    }

    /// The same, to be changed.
    pub(super) fn screen_mut(&mut self) -> Option<&mut dyn Screen> {
        match self {
            Self::Ticket(screen) => Some(screen.as_mut()),
            Self::Wood(screen) => Some(screen.as_mut()),
            Self::Woods(screen) => Some(screen.as_mut()),
            Self::Form(_) | Self::Read(..) | Self::Tell(_) => None,
        }
    }
}
