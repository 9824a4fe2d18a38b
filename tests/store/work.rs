//! What a person might do next, from a random number: mostly the sensible thing, so that pieces get
//! on, with rework, second thoughts and refusals mixed in.

use crate::shop::{Trial, ZONE, counter, inches, table};
use chrono::Duration;
use proptest::prelude::*;
use tackfree::desk::{
    Action, AmountDraft, Books, ClientDraft, FacePick, JobDraft, PassDraft, ProductDraft,
    RecipeDraft, Scope, Shop, Which,
};
use tackfree::shape::{EdgeProfile, FaceKey, Outline, Shape};
use tackfree::shop::{
    Air, CoatKind, Grit, PieceFile, ScuffMeans, SetItem, Settings, Stage, Ticket, TouchVerdict,
};
use tackfree::units::{Humidity, Mass, Money, Temperature, Volume};

/// Something to do; the numbers choose among what is there.
#[derive(Debug, Clone, Copy)]
pub enum Wish {
    Advance(u8),
    Client(u8),
    Job(u8),
    Piece(u8, u8),
    Rename(u8),
    Reshape(u8),
    SandBack(u8, u8),
    Untick(u8, u8),
    Touch(u8, u8),
    Hide(u8, u8),
    Show(u8, u8),
    Together(u8, u8),
    Correct(u8, u8),
    SetList(u8, u8),
    Back(u8),
    Product(u8, u8),
    Recipe(u8),
    Settings(u8),
    RemovePiece(u8),
    RemoveJob(u8),
    RemoveClient(u8),
    RemoveRecipe(u8),
    Undo,
    Redo,
    Reopen,
}

/// A wish out of thin air.
pub fn wish() -> impl Strategy<Value = Wish> {
    let n = any::<u8>;
    prop_oneof![
        30 => n().prop_map(Wish::Advance),
        1 => n().prop_map(Wish::Client),
        1 => n().prop_map(Wish::Job),
        2 => (n(), n()).prop_map(|(a, b)| Wish::Piece(a, b)),
        1 => n().prop_map(Wish::Rename),
        2 => n().prop_map(Wish::Reshape),
        2 => (n(), n()).prop_map(|(a, b)| Wish::SandBack(a, b)),
        1 => (n(), n()).prop_map(|(a, b)| Wish::Untick(a, b)),
        1 => (n(), n()).prop_map(|(a, b)| Wish::Touch(a, b)),
        1 => (n(), n()).prop_map(|(a, b)| Wish::Hide(a, b)),
        1 => (n(), n()).prop_map(|(a, b)| Wish::Show(a, b)),
        2 => (n(), n()).prop_map(|(a, b)| Wish::Together(a, b)),
        1 => (n(), n()).prop_map(|(a, b)| Wish::Correct(a, b)),
        1 => (n(), n()).prop_map(|(a, b)| Wish::SetList(a, b)),
        1 => n().prop_map(Wish::Back),
        1 => (n(), n()).prop_map(|(a, b)| Wish::Product(a, b)),
        1 => n().prop_map(Wish::Recipe),
        1 => n().prop_map(Wish::Settings),
        1 => n().prop_map(Wish::RemovePiece),
        1 => n().prop_map(Wish::RemoveJob),
        1 => n().prop_map(Wish::RemoveClient),
        1 => n().prop_map(Wish::RemoveRecipe),
        8 => Just(Wish::Undo),
        6 => Just(Wish::Redo),
        1 => Just(Wish::Reopen),
    ]
}

fn pick<T>(all: &[T], n: u8) -> Option<&T> {
    all.get(usize::from(n) % all.len().max(1))
}

/// The action wished for, if there is anything to do it on.
pub fn action(trial: &Trial, wish: Wish) -> Option<Action> {
    let shop = Shop::read(&trial.store, Scope::All, ZONE).expect("the shop reads");
    let file = |n: u8| pick(&shop.files, n);
    let face = |n: u8, m: u8| Some((file(n)?.piece.id, pick(&Ticket::of(file(n)?).faces, m)?.key));
    let this = |n: u8| {
        vec![FacePick {
            piece: file(n).map_or(none(), |f| f.piece.id),
            faces: None,
        }]
    };
    Some(match wish {
        Wish::Undo => Action::Undo,
        Wish::Redo => Action::Redo,
        Wish::Advance(n) => next(trial, file(n)?),
        Wish::Client(n) => Action::SaveClient(Which::New, client(&format!("Client {n}"))),
        Wish::Job(n) => Action::SaveJob(Which::New, job(trial, pick(&shop.clients, n)?.id)),
        Wish::Piece(n, m) => {
            let shape = if m % 3 == 0 {
                table(20 + i64::from(m % 9))
            } else {
                counter()
            };
            let mut draft = trial.piece_draft(pick(&shop.jobs, n)?.id, "top", shape);
            draft.recipe = pick(&shop.recipes, m)?.id;
            Action::SavePiece(Which::New, draft)
        }
        Wish::Rename(n) => {
            let id = pick(&shop.clients, n)?.id;
            Action::SaveClient(Which::This(id), client(&format!("Client {}", n % 3)))
        }
        Wish::Reshape(n) => reshape(trial, file(n)?, n),
        Wish::SandBack(n, m) => {
            let (piece, key) = face(n, m)?;
            let reason = "a run in the coat".to_owned();
            Action::SandBack {
                piece,
                faces: vec![key],
                to: Grit(120),
                reason,
                at: trial.now,
            }
        }
        Wish::Untick(n, m) => {
            let (piece, face) = face(n, m)?;
            Action::Untick {
                piece,
                face,
                grit: Grit(80),
                at: trial.now,
            }
        }
        Wish::Touch(n, m) => {
            let verdict = *pick(&TouchVerdict::ALL, m)?;
            Action::Touch {
                picks: this(n),
                verdict,
                at: trial.now,
            }
        }
        Wish::Hide(n, m) => {
            let (piece, face) = face(n, m)?;
            Action::DeclareHidden {
                piece,
                face,
                reason: "glued to the wall".to_owned(),
            }
        }
        Wish::Show(n, m) => {
            let (piece, face) = face(n, m)?;
            Action::WithdrawHidden { piece, face }
        }
        Wish::Together(n, m) => {
            let mut picks = this(n);
            picks.extend(this(m));
            picks.dedup_by_key(|pick| pick.piece);
            coat(trial, picks, *pick(&CoatKind::ALL, n)?)
        }
        Wish::Correct(n, m) => {
            let pass = pick(&shop.passes, n)?.id;
            let volume = Volume::from_ul(60_000 + i64::from(m) * 100);
            Action::CorrectPass {
                pass,
                amount: AmountDraft::Volume(volume),
            }
        }
        Wish::SetList(n, m) => {
            let item = *pick(&SetItem::ALL, m)?;
            Action::SetList {
                piece: file(n)?.piece.id,
                item,
                done: m % 2 == 0,
            }
        }
        Wish::Back(n) => Action::MoveBack(file(n)?.piece.id),
        other => return books(&shop, other),
    })
}

/// Wishes about what is not a piece's log.
fn books(shop: &Shop, wish: Wish) -> Option<Action> {
    Some(match wish {
        Wish::Product(n, m) => {
            let product = pick(&shop.products, n)?;
            let draft = ProductDraft {
                name: product.name.clone(),
                kind: product.kind,
                family: product.family,
                label: product.label.clone(),
                can: product.can,
                price: Money::from_cents(i64::from(m)),
            };
            Action::SaveProduct(Which::This(product.id), draft)
        }
        Wish::Recipe(n) => {
            let mut schedule = pick(&shop.recipes, n)?.schedule.clone();
            schedule.balance_allowance = 1 + n % 3;
            let name = format!("recipe {n}");
            Action::SaveRecipe(Which::New, RecipeDraft { name, schedule })
        }
        Wish::Settings(n) => Action::SaveSettings(Settings {
            shop_name: format!("Shop {}", n % 2),
            ..Settings::starting(ZONE)
        }),
        Wish::RemovePiece(n) => Action::RemovePiece(pick(&shop.files, n)?.piece.id),
        Wish::RemoveJob(n) => Action::RemoveJob(pick(&shop.jobs, n)?.id),
        Wish::RemoveClient(n) => Action::RemoveClient(pick(&shop.clients, n)?.id),
        Wish::RemoveRecipe(n) => Action::RemoveRecipe(pick(&shop.recipes, n)?.id),
        _ => return None,
    })
}

fn none() -> tackfree::shop::PieceId {
    tackfree::shop::PieceId(uuid::Uuid::nil())
}

fn client(name: &str) -> ClientDraft {
    ClientDraft {
        name: name.to_owned(),
        ..ClientDraft::default()
    }
}

fn job(trial: &Trial, client: tackfree::shop::ClientId) -> JobDraft {
    JobDraft {
        client,
        title: "kitchen".to_owned(),
        site: String::new(),
        house_built: None,
        promised: Some((trial.now + Duration::days(90)).date_naive()),
        notes: String::new(),
    }
}

fn reshape(trial: &Trial, file: &PieceFile, n: u8) -> Action {
    let old = &file.piece.shape;
    let openings = if n.is_multiple_of(2) {
        Vec::new()
    } else {
        old.openings().to_vec()
    };
    let band = (n.is_multiple_of(3) && matches!(old.outline(), Outline::Rectangle { .. }))
        .then(|| inches(2, 0, 1));
    let shape = Shape::new(
        old.outline().clone(),
        old.thickness(),
        EdgeProfile::Square,
        openings,
        band,
    );
    let mut draft = trial.piece_draft(file.piece.job, "top", shape.expect("less is cut away"));
    draft.recipe = file.piece.recipe;
    Action::SavePiece(Which::This(file.piece.id), draft)
}

fn coat(trial: &Trial, picks: Vec<FacePick>, kind: CoatKind) -> Action {
    let air = Air {
        temperature: Temperature::from_c(23.0), // The labels' own.
        humidity: Humidity::from_tenths(455).expect("a humidity"),
    };
    let amount = AmountDraft::Weighed {
        before: Mass::from_mg(900_000),
        after: Mass::from_mg(800_000),
    };
    Action::LogPass(PassDraft {
        picks,
        kind,
        product: None,
        started: trial.now - Duration::minutes(20),
        ended: trial.now,
        amount: if kind == CoatKind::Topcoat {
            amount
        } else {
            AmountDraft::Estimate
        },
        air: (kind == CoatKind::Seal).then_some(air),
        scuffed_first: Some(ScuffMeans::FinePaper(Grit(320))),
        drawn: tackfree::desk::DrawnDraft::default(),
    })
}

/// What the schedule asks of a piece next.
pub fn next(trial: &Trial, file: &PieceFile) -> Action {
    let (ticket, piece, at) = (Ticket::of(file), file.piece.id, trial.now);
    let picks = vec![FacePick { piece, faces: None }];
    let kind = match ticket.stage {
        Stage::Sanding => {
            let first = ticket.faces.iter().find_map(|face| {
                let grits = &ticket.plan(face).grits;
                grits
                    .iter()
                    .find(|grit| !face.ticks.contains_key(grit))
                    .copied()
            });
            if let Some(grit) = first {
                let ready = |face: &&tackfree::shop::FaceState| {
                    let grits = &ticket.plan(face).grits;
                    grits.iter().find(|grit| !face.ticks.contains_key(grit)) == Some(&grit)
                };
                let faces: Vec<FaceKey> = ticket
                    .faces
                    .iter()
                    .filter(ready)
                    .map(|face| face.key)
                    .collect();
                return Action::Tick {
                    piece,
                    faces,
                    grit,
                    at,
                };
            }
            let unwiped =
                |face: &tackfree::shop::FaceState| face.wiped.is_none() && face.coats.is_empty();
            if ticket.schedule.asks_wipe_down() && ticket.faces.iter().any(unwiped) {
                return Action::Wipe { picks, at };
            }
            return Action::MoveAlong(vec![piece]);
        }
        Stage::Set => {
            let item = SetItem::ALL
                .into_iter()
                .find(|item| !ticket.set_list.contains_key(item));
            return Action::SetList {
                piece,
                item: item.unwrap_or(SetItem::Clips),
                done: true,
            };
        }
        stage => CoatKind::of_stage(stage).expect("a stage of coats"),
    };
    let wet = |face: &tackfree::shop::FaceState| {
        face.last_coat()
            .is_some_and(|c| c.kind == CoatKind::Stain && c.wiped_off.is_none())
    };
    if ticket.faces.iter().any(wet) {
        Action::WipeOff { picks, at }
    } else if ticket.due_faces(kind).is_empty() {
        Action::MoveAlong(vec![piece])
    } else {
        coat(trial, picks, kind)
    }
}

/// The file of the only piece.
pub fn only(trial: &Trial) -> PieceFile {
    trial.store.pieces(Scope::All).expect("read").remove(0)
}
