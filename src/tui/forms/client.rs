//! The client form.

use super::context::{Context, note};
use crate::desk::typed::{FieldError, echo_lines, read_client};
use crate::desk::{Action, ClientDraft, Which};
use crate::shop::{Client, ClientId};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;

fn stored<'a>(which: Which<ClientId>, ctx: &Context<'a>) -> Option<&'a Client> {
    match which {
        Which::New => None,
        Which::This(id) => ctx.shop.client(id),
    }
}

pub(super) fn form(which: Which<ClientId>, ctx: &Context<'_>) -> Form {
    let client = stored(which, ctx);
    let start = |of: fn(&Client) -> &String| client.map_or("", |client| of(client).as_str());
    let title = client.map_or_else(
        || "New client".to_owned(),
        |one| format!("Client {}", one.name),
    );
    Form::new(
        &title,
        vec![
            Field::text("name", "Name", start(|c| &c.name)).hint("Who the work is for."),
            Field::text("phone", "Telephone", start(|c| &c.phone)),
            Field::text("email", "Mail", start(|c| &c.email)),
            Field::text("address", "Address", start(|c| &c.address)),
            Field::note("notes", "Notes", start(|c| &c.notes)),
        ],
    )
}

pub(super) fn read(
    form: &Form,
    which: Which<ClientId>,
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let draft = read_client(&ClientDraft {
        name: form.value("name"),
        phone: form.value("phone"),
        email: form.value("email"),
        address: form.value("address"),
        notes: note(
            form,
            "notes",
            stored(which, ctx).map_or("", |client| &client.notes),
        ),
    })?;
    Ok(Action::SaveClient(which, draft))
}

pub(super) fn echo(form: &Form) -> Vec<(&'static str, Option<String>)> {
    vec![("name", echo_lines(form.text("name")))]
}
