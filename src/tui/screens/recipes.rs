//! The Recipes: finish schedules written once, each shown step by step.

use super::super::forms::FormKind;
use super::super::kit::key::Key;
use super::super::kit::keymap::Keymap;
use super::super::screen::{Ctx, Screen, Wish};
use super::list::{self, Entry, count, plain, wrapped};
use super::picked::{self, Picked, Step, list_keys};
use super::recipes_words;
use crate::desk::{Action, Which};
use crate::shop::{Recipe, RecipeId};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// What a key does here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Act {
    Go(Step),
    Edit,
    Copy,
    New,
    Remove,
    Read,
}

const KEYS: Keymap<Act> = list_keys![Act:
    Binding { keys: &["enter", "e"], action: Act::Edit, hint: "edit", help: "Edits the recipe. Pieces on which work has started keep their own copy." },
    Binding { keys: &["k"], action: Act::Copy, hint: "copy", help: "Makes a new recipe from a copy of this one." },
    Binding { keys: &["n"], action: Act::New, hint: "new", help: "Writes a new recipe." },
    Binding { keys: &["x"], action: Act::Remove, hint: "remove", help: "Removes the recipe, if no piece follows it. It can be undone." },
    Binding { keys: &["v"], action: Act::Read, hint: "read all", help: "Shows the whole schedule as a page to read." },
];

const ABOUT: &str = "The Recipes: finish schedules, each written once and followed by as many pieces as you like. A piece takes its own copy when work on it starts, so a later change never rewrites what was done.";
const EMPTY: &str = "No recipe yet. Press n to write the first one: its grits, seal coats, stain and topcoats for each group of faces.";

/// The screen.
#[derive(Debug, Clone, Default)]
pub struct Recipes {
    picked: Picked<RecipeId>,
}

impl Recipes {
    /// The recipes with the first picked.
    pub fn new() -> Self {
        Self::default()
    }

    fn picked<'a>(&self, ctx: &Ctx<'a>) -> Option<&'a Recipe> {
        self.picked
            .index(&keys(ctx))
            .and_then(|i| ctx.shop.recipes.get(i))
    }
}

fn keys(ctx: &Ctx<'_>) -> Vec<RecipeId> {
    ctx.shop.recipes.iter().map(|recipe| recipe.id).collect()
}

impl Screen for Recipes {
    fn title(&self, _: &Ctx<'_>) -> String {
        "Recipes".to_owned()
    }

    fn key(&mut self, key: &Key, ctx: &Ctx<'_>) -> Vec<Wish> {
        self.picked.stop_awaiting();
        let Some(act) = KEYS.find(key) else {
            return Vec::new();
        };
        match act {
            Act::Go(step) => {
                self.picked.step(step, &keys(ctx));
                return Vec::new();
            }
            Act::New => {
                self.picked.await_new();
                return vec![Wish::Form(FormKind::Recipe(Which::New, None))];
            }
            _ => {}
        }
        let Some(recipe) = self.picked(ctx) else {
            return vec![Wish::Tell(vec![EMPTY.to_owned()])];
        };
        vec![match act {
            Act::Copy => {
                self.picked.await_new();
                Wish::Form(FormKind::Recipe(Which::New, Some(recipe.id)))
            }
            Act::Remove => Wish::Act(Action::RemoveRecipe(recipe.id)),
            Act::Read => Wish::Read {
                title: recipe.name.clone(),
                lines: recipes_words::detail(recipe, ctx)
                    .into_iter()
                    .map(|(_, line)| line)
                    .collect(),
            },
            _ => Wish::Form(FormKind::Recipe(Which::This(recipe.id), None)),
        }]
    }

    fn settle(&mut self, ctx: &Ctx<'_>) {
        self.picked.settle(&keys(ctx));
    }

    fn draw(&self, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
        let Some(recipe) = self.picked(ctx) else {
            return list::pane(buf, area, &[plain(EMPTY)], "?", ctx.theme);
        };
        let (width, height) = (usize::from(area.width), usize::from(area.height));
        let left = (width / 3).min(40);
        let entries: Vec<Entry> = ctx
            .shop
            .recipes
            .iter()
            .map(|recipe| {
                let pieces = count(recipes_words::followers(recipe, ctx).len(), "piece");
                Entry::row(vec![
                    plain(&recipe.name),
                    (list::Tone::Dim, format!("  {pieces}")),
                ])
            })
            .collect();
        let focus = self.picked.index(&keys(ctx)).unwrap_or(0);
        list::list(
            buf,
            list::columns(area, 0, left),
            &entries,
            focus,
            ctx.theme,
        );
        list::rule_down(buf, area, left + 1, ctx.theme);
        let mut lines = vec![(list::Tone::Title, recipe.name.clone())];
        lines.extend(recipes_words::detail(recipe, ctx));
        let place = list::columns(area, left + 3, width);
        // Room between the steps where there is enough of it.
        let airy = recipes_words::spaced(&lines);
        let fits = wrapped(&airy, usize::from(place.width)).len() <= height;
        list::pane(
            buf,
            place,
            if fits { &airy } else { &lines },
            "v",
            ctx.theme,
        );
    }

    fn hints(&self, width: usize, ctx: &Ctx<'_>) -> String {
        let any = self.picked(ctx).is_some();
        KEYS.hint_line(width, |act| any || act == Act::New)
    }

    fn help(&self, width: usize) -> Vec<String> {
        picked::help(ABOUT, &KEYS, "", width)
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_key_table_is_sound() {
        crate::tui::global_keys::assert_screen(&super::KEYS);
    }
}
