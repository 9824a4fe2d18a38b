use super::keep;
use super::look::{draw, nothing_is_lost, press, says};
use super::sample::{Sample, at_work, bare};
use tackfree::desk::{Action, Which};
use tackfree::tui::forms::FormKind;
use tackfree::tui::screen::{Screen, Wish};
use tackfree::tui::screens::recipes::Recipes;

fn opened(sample: &Sample) -> Recipes {
    let mut recipes = Recipes::new();
    recipes.settle(&sample.ctx());
    recipes
}

#[test]
fn looks_as_kept() {
    let (sample, none) = (at_work(), bare());
    let mut recipes = opened(&sample);
    keep!("recipes_clear", &recipes, &sample);
    press(&mut recipes, &sample, "down");
    keep!("recipes_stained", &recipes, &sample);
    keep!("recipes_empty", &opened(&none), &none);
}

#[test]
fn no_word_is_lost() {
    let sample = at_work();
    let mut recipes = opened(&sample);
    for _ in 0..4 {
        nothing_is_lost(&recipes, &sample);
        press(&mut recipes, &sample, "down");
    }
}

#[test]
fn the_schedule_stands_in_the_order_of_work() {
    let sample = at_work();
    let mut recipes = opened(&sample);
    press(&mut recipes, &sample, "down");
    let text = draw(&recipes, &sample, (120, 60)).join("\n");
    let order = [
        "1 Sand",
        "show faces: 80, 120",
        "2 Wipe down with mineral spirits",
        "3 Seal coats of dewaxed shellac sealer",
        "underside 1",
        "4 Stain with brown gel stain",
        "show faces, ends and walls",
        "5 Topcoats of clear wiping varnish",
        "show faces 6, ends and walls 6, underside 5",
        "with plain brown paper",
        "6 Cure before it is set: 3 days",
        "may differ by 1 film coat",
        "Followed by 2 pieces, each with its own copy",
    ];
    let mut from = 0;
    for words in order {
        let at = text[from..].find(words);
        from += at.unwrap_or_else(|| panic!("{words} after {from} in\n{text}"));
    }
}

#[test]
fn keys_edit_copy_add_and_remove() {
    let sample = at_work();
    let mut recipes = opened(&sample);
    let id = sample.shop.recipes[1].id;
    let form = |kind| [Wish::Form(kind)];
    assert_eq!(
        press(&mut recipes, &sample, "down enter"),
        form(FormKind::Recipe(Which::This(id), None))
    );
    assert_eq!(
        press(&mut recipes, &sample, "e"),
        form(FormKind::Recipe(Which::This(id), None))
    );
    assert_eq!(
        press(&mut recipes, &sample, "k"),
        form(FormKind::Recipe(Which::New, Some(id)))
    );
    assert_eq!(
        press(&mut recipes, &sample, "n"),
        form(FormKind::Recipe(Which::New, None))
    );
    assert_eq!(
        press(&mut recipes, &sample, "x"),
        [Wish::Act(Action::RemoveRecipe(id))]
    );
    let none = bare();
    let told = press(&mut opened(&none), &none, "e");
    assert!(matches!(told.as_slice(), [Wish::Tell(lines)] if says(lines, "Press n")));
}
