//! Enters or changes a client.

use super::put;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::typed::read_client;
use crate::desk::{Action, ClientDraft, Which};
use clap::Args;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree client \"Ada Quill\" --phone 555-0142\n  tackfree client --change \"Ada Quill\" --email ada@example.org";

/// What was typed.
#[derive(Debug, Args)]
pub struct ClientArgs {
    /// Who the work is for.
    #[arg(value_name = "NAME", required_unless_present = "change")]
    pub name: Option<String>,
    /// Changes this client; what is not given stays. NAME then is the new name.
    #[arg(long, value_name = "CLIENT")]
    pub change: Option<String>,
    /// Telephone number.
    #[arg(long)]
    pub phone: Option<String>,
    /// Mail address.
    #[arg(long)]
    pub email: Option<String>,
    /// Postal address.
    #[arg(long)]
    pub address: Option<String>,
    /// Notes.
    #[arg(long)]
    pub notes: Option<String>,
}

/// Does it.
pub fn run(args: &ClientArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let (which, mut draft) = match &args.change {
        None => (Which::New, ClientDraft::default()),
        Some(text) => {
            let client = find::client(&shop, text)?;
            let draft = ClientDraft {
                name: client.name.clone(),
                phone: client.phone.clone(),
                email: client.email.clone(),
                address: client.address.clone(),
                notes: client.notes.clone(),
            };
            (Which::This(client.id), draft)
        }
    };
    put(&mut draft.name, args.name.as_ref());
    put(&mut draft.phone, args.phone.as_ref());
    put(&mut draft.email, args.email.as_ref());
    put(&mut draft.address, args.address.as_ref());
    put(&mut draft.notes, args.notes.as_ref());
    session.perform(&Action::SaveClient(which, read_client(&draft)?))
}
