//! The Job book: clients, their jobs, the pieces of each.

use super::super::forms::FormKind;
use super::super::kit::key::Key;
use super::super::kit::keymap::Keymap;
use super::super::screen::{Ctx, Screen, Wish};
use super::job_book_detail as detail;
use super::job_book_rows::{self as rows, RowKey, children, parent};
use super::list::{self, plain, wrapped};
use super::picked::{self, Picked, Step, list_keys};
use crate::desk::{Action, Which};
use crate::shop::{ClientId, JobId};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// What a key does here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Act {
    Go(Step),
    Open,
    Unfold,
    Fold,
    Piece,
    Job,
    Client,
    Edit,
    Remove,
    Read,
}

const KEYS: Keymap<Act> = list_keys![Act:
    Binding { keys: &["enter"], action: Act::Open, hint: "open", help: "Opens the ticket of a piece; folds or unfolds a client or a job." },
    Binding { keys: &["right"], action: Act::Unfold, hint: "", help: "Unfolds a client or a job." },
    Binding { keys: &["left"], action: Act::Fold, hint: "", help: "Folds a client or a job; from a piece goes up to its job." },
    Binding { keys: &["n"], action: Act::Piece, hint: "new piece", help: "Enters a new piece in this job." },
    Binding { keys: &["j"], action: Act::Job, hint: "new job", help: "Enters a new job for this client." },
    Binding { keys: &["c"], action: Act::Client, hint: "new client", help: "Enters a new client." },
    Binding { keys: &["e"], action: Act::Edit, hint: "edit", help: "Edits the client, job or piece." },
    Binding { keys: &["x"], action: Act::Remove, hint: "remove", help: "Removes the client, job or piece. What has work on record or something under it stays. It can be undone." },
    Binding { keys: &["v"], action: Act::Read, hint: "read all", help: "Shows all that is known of it as a page to read." },
];

const ABOUT: &str = "The Job book: clients, their jobs, and the pieces of each job with what they wait for. Below or beside the outline stands what is known of the row picked.";
const EMPTY: &str =
    "No client yet. Press c to enter the first client; the first job and piece follow.";

/// The screen.
#[derive(Debug, Clone, Default)]
pub struct JobBook {
    picked: Picked<RowKey>,
    folded: Vec<RowKey>,
}

impl JobBook {
    /// The Job book, all unfolded.
    pub fn new() -> Self {
        Self::default()
    }

    fn keys(&self, ctx: &Ctx<'_>) -> Vec<RowKey> {
        rows::keys(&self.folded, ctx)
    }

    fn set_folded(&mut self, row: RowKey, folded: bool) {
        self.folded.retain(|key| *key != row);
        if folded {
            self.folded.push(row);
        }
    }

    fn open(&mut self, row: RowKey) -> Vec<Wish> {
        if let RowKey::Piece(piece) = row {
            return vec![Wish::Ticket(piece)];
        }
        let folded = self.folded.contains(&row);
        self.set_folded(row, !folded);
        Vec::new()
    }

    /// Folds the row; what is folded already, or is a piece, goes up instead.
    fn fold(&mut self, row: RowKey, ctx: &Ctx<'_>) {
        let leaf = matches!(row, RowKey::Piece(_)) || self.folded.contains(&row);
        match parent(row, ctx) {
            Some(up) if leaf => {
                let keys = self.keys(ctx);
                self.picked.pick(up, &keys);
            }
            _ if leaf => {}
            _ => self.set_folded(row, true),
        }
    }

    fn new_job(&mut self, client: ClientId) -> Vec<Wish> {
        self.set_folded(RowKey::Client(client), false);
        self.picked.await_new();
        vec![Wish::Form(FormKind::Job(Which::New, Some(client)))]
    }

    fn new_piece(&mut self, job: JobId, ctx: &Ctx<'_>) -> Vec<Wish> {
        self.set_folded(RowKey::Job(job), false);
        if let Some(client) = parent(RowKey::Job(job), ctx) {
            self.set_folded(client, false);
        }
        self.picked.await_new();
        vec![Wish::Form(FormKind::Piece(Which::New, Some(job)))]
    }

    /// A new piece for the job picked; on a client, for its only job.
    fn piece_for(&mut self, row: RowKey, ctx: &Ctx<'_>) -> Vec<Wish> {
        let job = match row {
            RowKey::Job(job) => Some(job),
            RowKey::Piece(piece) => ctx.shop.file(piece).map(|file| file.piece.job),
            RowKey::Client(_) => match children(row, ctx)[..] {
                [RowKey::Job(job)] => Some(job),
                [] => {
                    return tell(
                        "There is no job for this client yet. Press j to enter one; its pieces follow.",
                    );
                }
                _ => {
                    return tell(
                        "There are several jobs for this client: go down to one of them and press n.",
                    );
                }
            },
        };
        job.map_or_else(Vec::new, |job| self.new_piece(job, ctx))
    }
}

fn tell(words: &str) -> Vec<Wish> {
    vec![Wish::Tell(vec![words.to_owned()])]
}

fn edit(row: RowKey, ctx: &Ctx<'_>) -> Wish {
    Wish::Form(match row {
        RowKey::Client(client) => FormKind::Client(Which::This(client)),
        RowKey::Job(job) => {
            FormKind::Job(Which::This(job), ctx.shop.job(job).map(|job| job.client))
        }
        RowKey::Piece(piece) => FormKind::Piece(
            Which::This(piece),
            ctx.shop.file(piece).map(|file| file.piece.job),
        ),
    })
}

fn remove(row: RowKey) -> Wish {
    Wish::Act(match row {
        RowKey::Client(client) => Action::RemoveClient(client),
        RowKey::Job(job) => Action::RemoveJob(job),
        RowKey::Piece(piece) => Action::RemovePiece(piece),
    })
}

impl Screen for JobBook {
    fn title(&self, _: &Ctx<'_>) -> String {
        "Job book".to_owned()
    }

    fn key(&mut self, key: &Key, ctx: &Ctx<'_>) -> Vec<Wish> {
        self.picked.stop_awaiting();
        let Some(act) = KEYS.find(key) else {
            return Vec::new();
        };
        let keys = self.keys(ctx);
        match act {
            Act::Client => {
                self.picked.await_new();
                return vec![Wish::Form(FormKind::Client(Which::New))];
            }
            Act::Go(step) => {
                self.picked.step(step, &keys);
                return Vec::new();
            }
            _ => {}
        }
        let Some(row) = self.picked.get(&keys) else {
            return tell(EMPTY);
        };
        match act {
            Act::Open => return self.open(row),
            Act::Unfold => self.set_folded(row, false),
            Act::Fold => self.fold(row, ctx),
            Act::Piece => return self.piece_for(row, ctx),
            Act::Job => {
                return rows::client_of(row, ctx)
                    .map_or_else(Vec::new, |client| self.new_job(client));
            }
            Act::Edit => return vec![edit(row, ctx)],
            Act::Remove => return vec![remove(row)],
            Act::Read => {
                let lines = detail::detail(row, ctx)
                    .into_iter()
                    .map(|(_, line)| line)
                    .collect();
                return vec![Wish::Read {
                    title: detail::heading(row, ctx),
                    lines,
                }];
            }
            Act::Go(_) | Act::Client => {}
        }
        Vec::new()
    }

    fn settle(&mut self, ctx: &Ctx<'_>) {
        let keys = self.keys(ctx);
        self.picked.settle(&keys);
    }

    fn draw(&self, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
        let keys = self.keys(ctx);
        let Some(row) = self.picked.get(&keys) else {
            return list::pane(buf, area, &[plain(EMPTY)], "?", ctx.theme);
        };
        let (width, height) = (usize::from(area.width), usize::from(area.height));
        let focus = self.picked.index(&keys).unwrap_or(0);
        let mut lines = vec![(list::Tone::Title, detail::heading(row, ctx))];
        lines.extend(detail::detail(row, ctx));
        if width >= WIDE {
            let left = width / 2 + 4;
            let entries = rows::entries(&keys, &self.folded, left, ctx);
            list::list(
                buf,
                list::columns(area, 0, left),
                &entries,
                focus,
                ctx.theme,
            );
            list::rule_down(buf, area, left + 1, ctx.theme);
            list::pane(
                buf,
                list::columns(area, left + 3, width),
                &lines,
                "v",
                ctx.theme,
            );
        } else {
            // The detail takes what it needs, up to half.
            let wanted = wrapped(&lines, width).len() + 1;
            let below = wanted.min(height / 2);
            let entries = rows::entries(&keys, &self.folded, width, ctx);
            list::list(
                buf,
                list::part(area, 0, height - below),
                &entries,
                focus,
                ctx.theme,
            );
            list::rule(buf, area, height - below, ctx.theme);
            list::pane(
                buf,
                list::part(area, height - below + 1, below),
                &lines,
                "v",
                ctx.theme,
            );
        }
    }

    fn hints(&self, width: usize, ctx: &Ctx<'_>) -> String {
        let picked = self.picked.get(&self.keys(ctx));
        KEYS.hint_line(width, |act| act == Act::Client || picked.is_some())
    }

    fn help(&self, width: usize) -> Vec<String> {
        picked::help(ABOUT, &KEYS, "", width)
    }
}

/// The width from which the detail stands beside the outline.
const WIDE: usize = 110;

#[cfg(test)]
mod tests {
    #[test]
    fn the_key_table_is_sound() {
        crate::tui::global_keys::assert_screen(&super::KEYS);
    }
}
