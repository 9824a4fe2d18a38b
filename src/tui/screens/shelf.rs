//! The Shelf: what was used per job and in all, and the products with their figures.

use super::super::forms::FormKind;
use super::super::kit::draw;
use super::super::kit::key::Key;
use super::super::kit::keymap::Keymap;
use super::super::screen::{Ctx, Screen, Wish};
use super::list::{self, Entry, plain};
use super::picked::{self, Picked, Step, list_keys};
use super::shelf_passes;
use super::shelf_products;
use super::shelf_tally::{self, UseKey};
use crate::coating::ProductId;
use crate::desk::{Action, Which};
use crate::shop::{JobId, PassId};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// What a key does here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Act {
    Go(Step),
    Open,
    Read,
    NextView,
    LastView,
    New,
    Afresh,
    Back,
}

const KEYS: Keymap<Act> = list_keys![Act:
    Binding { keys: &["enter"], action: Act::Open, hint: "open", help: "On a line of use: lists its passes. On a pass: corrects how much it used. On a product: edits it." },
    Binding { keys: &["v"], action: Act::Read, hint: "all figures", help: "On a product: shows all its figures, each with where it came from, as a page to read." },
    Binding { keys: &["right", "tab"], action: Act::NextView, hint: "next view", help: "Goes on to the next view: per job, in all, products." },
    Binding { keys: &["left", "shift-tab"], action: Act::LastView, hint: "view before", help: "Goes back to the view before." },
    Binding { keys: &["n"], action: Act::New, hint: "new product", help: "Enters a new product." },
    Binding { keys: &["f"], action: Act::Afresh, hint: "learn afresh", help: "On a product: touch tests made so far no longer count for its drying; they stay on the tickets." },
    Binding { keys: &["esc"], action: Act::Back, hint: "back", help: "Goes from the passes back to the tally." },
];

const ABOUT: &str = "The Shelf: the tally of stain, sealer and topcoat per job and in all, planned against used so far, and the products with the figures of their cans.";
const MORE: &str = "Measured means read off or weighed; estimated means area over the spread rate. The amount of a pass can be corrected later: press enter on a line of use, then on the pass.";

/// The three views.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum View {
    #[default]
    PerJob,
    InAll,
    Products,
}

impl View {
    const ALL: [(Self, &'static str); 3] = [
        (Self::PerJob, "per job"),
        (Self::InAll, "in all"),
        (Self::Products, "products"),
    ];

    fn turned(self, by: usize) -> Self {
        let at = Self::ALL
            .iter()
            .position(|(view, _)| *view == self)
            .unwrap_or(0);
        Self::ALL[(at + by) % Self::ALL.len()].0
    }
}

/// The passes opened: of a job, or of all.
#[derive(Debug, Clone)]
struct Passes {
    job: Option<JobId>,
    picked: Picked<PassId>,
}

/// The screen.
#[derive(Debug, Clone, Default)]
pub struct Shelf {
    view: View,
    used: Picked<UseKey>,
    in_all: Picked<UseKey>,
    products: Picked<ProductId>,
    passes: Option<Passes>,
}

impl Shelf {
    /// The Shelf at its first view.
    pub fn new() -> Self {
        Self::default()
    }

    /// The view in words, the one shown in brackets.
    fn views(&self) -> String {
        let names = View::ALL.map(|(view, name)| {
            if view == self.view {
                format!("[{name}]")
            } else {
                format!(" {name} ")
            }
        });
        names.join(" ")
    }

    fn step(&mut self, step: Step, ctx: &Ctx<'_>) {
        match (&mut self.passes, self.view) {
            (Some(passes), _) => passes
                .picked
                .step(step, &shelf_passes::keys(passes.job, ctx)),
            (None, View::PerJob) => self.used.step(step, &shelf_tally::keys_per_job(ctx)),
            (None, View::InAll) => self.in_all.step(step, &shelf_tally::keys_in_all(ctx)),
            (None, View::Products) => self.products.step(step, &shelf_products::keys(ctx)),
        }
    }

    /// The product picked, if touch tests have taught anything of it.
    fn taught(&self, ctx: &Ctx<'_>) -> Option<ProductId> {
        if self.view != View::Products || self.passes.is_some() {
            return None;
        }
        let product = self.products.get(&shelf_products::keys(ctx))?;
        ctx.shop.tuning.contains_key(&product).then_some(product)
    }

    fn afresh(&self, ctx: &Ctx<'_>) -> Vec<Wish> {
        vec![match self.taught(ctx) {
            Some(product) => Wish::Act(Action::LearnAfresh(product)),
            None => Wish::Tell(vec![
                "No touch test has taught anything of a product picked here; pick one in the view of products."
                    .to_owned(),
            ]),
        }]
    }

    fn open(&mut self, ctx: &Ctx<'_>) -> Vec<Wish> {
        if let Some(passes) = &self.passes {
            let pass = passes.picked.get(&shelf_passes::keys(passes.job, ctx));
            return pass
                .map(|pass| Wish::Form(FormKind::CorrectPass(pass)))
                .into_iter()
                .collect();
        }
        let used = match self.view {
            View::PerJob => self.used.get(&shelf_tally::keys_per_job(ctx)),
            View::InAll => self.in_all.get(&shelf_tally::keys_in_all(ctx)),
            View::Products => {
                let product = self.products.get(&shelf_products::keys(ctx));
                let form = |product| Wish::Form(FormKind::Product(Which::This(product)));
                return product.map(form).into_iter().collect();
            }
        };
        if let Some(used) = used {
            let mut picked = Picked::default();
            if let Some(pass) = shelf_passes::first_of(used, ctx) {
                picked.pick(pass, &shelf_passes::keys(used.job, ctx));
            }
            self.passes = Some(Passes {
                job: used.job,
                picked,
            });
        }
        Vec::new()
    }

    fn read(&self, ctx: &Ctx<'_>) -> Vec<Wish> {
        if self.view != View::Products || self.passes.is_some() {
            return Vec::new();
        }
        let picked = self.products.get(&shelf_products::keys(ctx));
        let product = picked.and_then(|id| ctx.shop.product(id));
        let page = product.map(|product| Wish::Read {
            title: product.name.clone(),
            lines: shelf_products::page(product, ctx),
        });
        page.into_iter().collect()
    }

    fn entries(&self, width: usize, ctx: &Ctx<'_>) -> (Vec<Entry>, usize) {
        if let Some(passes) = &self.passes {
            let at = passes.picked.index(&shelf_passes::keys(passes.job, ctx));
            return (shelf_passes::entries(passes.job, ctx), at.unwrap_or(0));
        }
        let (entries, at) = match self.view {
            View::PerJob => (
                shelf_tally::per_job(width, ctx),
                self.used.index(&shelf_tally::keys_per_job(ctx)),
            ),
            View::InAll => (
                shelf_tally::in_all(width, ctx),
                self.in_all.index(&shelf_tally::keys_in_all(ctx)),
            ),
            View::Products => (
                shelf_products::entries(ctx),
                self.products.index(&shelf_products::keys(ctx)),
            ),
        };
        (entries, at.unwrap_or(0))
    }

    fn empty(&self) -> &'static str {
        match (&self.passes, self.view) {
            (Some(_), _) => "No pass was logged here yet. Press esc to go back.",
            (None, View::Products) => {
                "No product on the shelf yet. Press n to enter the first one."
            }
            (None, _) => {
                "Nothing to tally yet: what is planned follows from the pieces and their recipes. \
                 Press 4 for the Job book and enter a client, a job and a piece."
            }
        }
    }
}

impl Screen for Shelf {
    fn title(&self, ctx: &Ctx<'_>) -> String {
        match &self.passes {
            None => "Shelf".to_owned(),
            Some(Passes { job: None, .. }) => "Shelf: all passes".to_owned(),
            Some(Passes { job: Some(job), .. }) => {
                format!("Shelf: passes of {}", shelf_tally::job_called(*job, ctx))
            }
        }
    }

    fn key(&mut self, key: &Key, ctx: &Ctx<'_>) -> Vec<Wish> {
        self.products.stop_awaiting();
        match KEYS.find(key) {
            Some(Act::Go(step)) => self.step(step, ctx),
            Some(Act::Open) => return self.open(ctx),
            Some(Act::Read) => return self.read(ctx),
            Some(Act::NextView | Act::LastView) if self.passes.is_some() => {}
            Some(Act::NextView) => self.view = self.view.turned(1),
            Some(Act::LastView) => self.view = self.view.turned(View::ALL.len() - 1),
            Some(Act::New) => {
                self.products.await_new();
                return vec![Wish::Form(FormKind::Product(Which::New))];
            }
            Some(Act::Afresh) => return self.afresh(ctx),
            Some(Act::Back) => self.passes = None,
            None => {}
        }
        Vec::new()
    }

    fn settle(&mut self, ctx: &Ctx<'_>) {
        self.used.settle(&shelf_tally::keys_per_job(ctx));
        self.in_all.settle(&shelf_tally::keys_in_all(ctx));
        if self.products.settle(&shelf_products::keys(ctx)).is_some() {
            self.view = View::Products;
            self.passes = None;
        }
        if let Some(passes) = &mut self.passes {
            passes.picked.settle(&shelf_passes::keys(passes.job, ctx));
        }
    }

    fn draw(&self, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
        let width = usize::from(area.width);
        let mut area = area;
        if self.passes.is_none() {
            draw::put(buf, area, 0, 0, &self.views(), ctx.theme.accent);
            area = list::part(area, 1, usize::from(area.height));
        }
        let (entries, at) = self.entries(width, ctx);
        if entries.iter().any(|entry| entry.pickable) {
            list::list(buf, area, &entries, at, ctx.theme);
        } else {
            list::pane(buf, area, &[plain(""), plain(self.empty())], "?", ctx.theme);
        }
    }

    fn hints(&self, width: usize, ctx: &Ctx<'_>) -> String {
        let any = self
            .entries(width, ctx)
            .0
            .iter()
            .any(|entry| entry.pickable);
        KEYS.hint_line(width, |act| match act {
            Act::Open => any,
            Act::Read => any && self.view == View::Products && self.passes.is_none(),
            Act::NextView | Act::LastView => self.passes.is_none(),
            Act::New => self.view == View::Products && self.passes.is_none(),
            Act::Afresh => self.taught(ctx).is_some(),
            Act::Back => self.passes.is_some(),
            Act::Go(_) => true,
        })
    }

    fn help(&self, width: usize) -> Vec<String> {
        picked::help(ABOUT, &KEYS, MORE, width)
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_key_table_is_sound() {
        crate::tui::global_keys::assert_screen(&super::KEYS);
    }
}
