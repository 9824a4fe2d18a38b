//! The journal says what a change changed.

use crate::shop::{Trial, counter, inches};
use tackfree::desk::{
    Action, Books, ClientDraft, JobDraft, PieceDraft, ProductDraft, RecipeDraft, Which,
};
use tackfree::shape::{FaceKey, Outline, Shape};
use tackfree::shop::Grit;
use tackfree::units::VolumeStyle;

fn trial() -> (tempfile::TempDir, Trial) {
    let folder = tempfile::tempdir().expect("a folder");
    let trial = Trial::new(&folder.path().join("shop.store"));
    (folder, trial)
}

/// The counter, cut to another width.
fn narrower() -> Shape {
    let of = counter();
    let outline = Outline::Rectangle {
        length: inches(98, 3, 8),
        width: inches(25, 0, 1),
    };
    let openings = of.openings().to_vec();
    Shape::new(outline, of.thickness(), of.profile(), openings, of.band()).expect("a shape")
}

#[test]
fn a_changed_piece_names_the_fields_and_the_faces_cut_bare() {
    let (_folder, mut trial) = trial();
    let client = trial.add_client("Ada");
    let job = trial.add_job(client, "kitchen");
    let draft = trial.piece_draft(job, "counter", counter());
    let piece = trial.add_piece(draft.clone());
    let renamed = PieceDraft {
        name: "sink counter".to_owned(),
        ..draft
    };
    let this = Which::This(piece);
    let done = trial.done(&Action::SavePiece(this, renamed.clone()));
    assert_eq!(
        done.words,
        "Changed piece 1A sink counter: name counter > sink counter"
    );
    let at = trial.now;
    trial.done(&Action::Tick {
        piece,
        faces: vec![FaceKey::Top],
        grit: Grit(80),
        at,
    });
    trial.wait(5);
    let cut = PieceDraft {
        shape: narrower(),
        ..renamed
    };
    let done = trial.done(&Action::SavePiece(this, cut));
    assert_eq!(
        done.words,
        "Changed piece 1A sink counter: size 98 3/8 x 25 1/2 > 98 3/8 x 25; bare again: front \
         edge, back edge"
    );
    let journal = trial.store.journal(1).expect("read");
    assert_eq!(journal[0].words, done.words);
}

#[test]
fn changed_settings_products_recipes_jobs_and_clients_name_the_fields() {
    let (_folder, mut trial) = trial();
    let mut settings = trial.store.settings().expect("read").expect("there");
    settings.volume = VolumeStyle::Millilitres;
    settings.shop_name = "Long Bench".to_owned();
    assert_eq!(
        trial.done(&Action::SaveSettings(settings)).words,
        "Saved the settings: shop name none > Long Bench; volume oz > mL"
    );
    let product = trial.store.products().expect("read")[0].clone();
    let mut draft = ProductDraft {
        name: product.name.clone(),
        kind: product.kind,
        family: product.family,
        label: product.label.clone(),
        can: product.can,
        price: product.price,
    };
    draft.label.min_temp = tackfree::units::Temperature::from_f(60.0);
    let said = trial
        .done(&Action::SaveProduct(Which::This(product.id), draft))
        .words;
    let begins = format!("Changed product {}: min temp ", product.name);
    assert!(
        said.starts_with(&begins) && said.ends_with(" > ~60 F"),
        "{said}"
    );
    let recipe = trial.store.recipes().expect("read")[0].clone();
    let mut draft = RecipeDraft {
        name: recipe.name.clone(),
        schedule: recipe.schedule.clone(),
    };
    draft.schedule.balance_allowance += 1;
    let said = trial
        .done(&Action::SaveRecipe(Which::This(recipe.id), draft))
        .words;
    let (was, is) = (
        recipe.schedule.balance_allowance,
        recipe.schedule.balance_allowance + 1,
    );
    assert_eq!(
        said,
        format!("Changed recipe {}: allowance {was} > {is}", recipe.name)
    );
    let client = trial.add_client("Ada");
    let draft = ClientDraft {
        name: "Ada Moor".to_owned(),
        phone: "555 0100".to_owned(),
        ..ClientDraft::default()
    };
    let done = trial.done(&Action::SaveClient(Which::This(client), draft));
    assert_eq!(
        done.words,
        "Changed client Ada Moor: name Ada > Ada Moor; phone none > 555 0100"
    );
    let job = trial.add_job(client, "kitchen");
    let draft = JobDraft {
        client,
        title: "kitchen".to_owned(),
        site: "9 Mill Lane".to_owned(),
        house_built: Some(1961),
        promised: None,
        notes: String::new(),
    };
    let said = trial.done(&Action::SaveJob(Which::This(job), draft)).words;
    assert!(
        said.starts_with("Changed job 1 kitchen for Ada Moor: notes gate code with the neighbour"),
        "{said}"
    );
    assert!(
        said.contains("> none; promised 20") && said.ends_with(" > none"),
        "{said}"
    );
}

#[test]
fn a_second_client_of_the_same_name_is_told() {
    let (_folder, mut trial) = trial();
    trial.add_client("Ada");
    let draft = ClientDraft {
        name: "ada".to_owned(),
        ..ClientDraft::default()
    };
    let done = trial.done(&Action::SaveClient(Which::New, draft));
    assert!(
        done.notes[0].starts_with("There is another client called Ada"),
        "{:?}",
        done.notes
    );
}
