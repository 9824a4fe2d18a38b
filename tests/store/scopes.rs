//! Reading some of the pieces, and the passes that went on them.

use crate::rows::{at, id, write};
use crate::shop::{Trial, counter, table};
use tackfree::desk::{Books, Row, Scope};
use tackfree::shop::{
    Amount, AmountBasis, CoatKind, Event, EventId, Pass, PassId, PieceId, SetItem, What,
};
use tackfree::units::Volume;

#[test]
fn scopes_choose_pieces_and_their_passes() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut trial = Trial::new(&folder.path().join("shop.store"));
    let client = trial.add_client("Ada");
    let (first, second) = (
        trial.add_job(client, "kitchen"),
        trial.add_job(client, "bar"),
    );
    let draft = trial.piece_draft(first, "counter", counter());
    let a = trial.add_piece(draft);
    let draft = trial.piece_draft(second, "table", table(40));
    let b = trial.add_piece(draft);
    let mut done = trial
        .store
        .pieces(Scope::One(b))
        .expect("read")
        .remove(0)
        .piece;
    done.finished = true;
    let set = |no, minutes, item| Event {
        id: EventId(id(no)),
        at: at(minutes),
        what: What::SetList { item, done: true },
    };
    let (early, late) = (set(1, 10, SetItem::DryFit), set(2, 20, SetItem::CareSheet));
    let product = trial.store.products().expect("products")[0].id;
    let pass = |no, started| Pass {
        id: PassId(id(no)),
        kind: CoatKind::Seal,
        product,
        started: at(started),
        ended: at(started + 5),
        amount: Amount {
            volume: Volume::ZERO,
            basis: AmountBasis::Estimated,
        },
        air: None,
        drawn: tackfree::shop::Drawn::default(),
    };
    let coat = |no, pass: &Pass| Event {
        id: EventId(id(no)),
        at: pass.ended,
        what: What::Coat {
            pass: pass.id,
            kind: pass.kind,
            product,
            faces: Vec::new(),
            started: pass.started,
            used: Volume::ZERO,
        },
    };
    let (both, only_b) = (pass(71, 9), pass(70, 1));
    let coats = [coat(3, &both), coat(4, &both), coat(5, &only_b)];
    write(
        &mut trial.store,
        &[
            Row::Pass(&both),
            Row::Pass(&only_b),
            Row::Event(a, &coats[0]),
            Row::Event(b, &coats[1]),
            Row::Event(b, &coats[2]),
            Row::Piece(&done),
            Row::Event(b, &early),
            Row::Event(b, &late),
        ],
    );
    let ids = |scope| -> Vec<PieceId> {
        let files = trial.store.pieces(scope).expect("read");
        files.iter().map(|file| file.piece.id).collect()
    };
    assert_eq!(ids(Scope::All), [a, b]);
    assert_eq!(ids(Scope::Job(second)), [b]);
    assert_eq!(ids(Scope::One(a)), [a]);
    assert_eq!(ids(Scope::One(PieceId(id(9)))), []);
    assert_eq!(ids(Scope::OpenSince(at(20))), [a, b]);
    assert_eq!(ids(Scope::OpenSince(at(21))), [a]);
    let passes = |scope| -> Vec<PassId> {
        let passes = trial.store.passes(scope).expect("read");
        passes.iter().map(|pass| pass.id).collect()
    };
    assert_eq!(passes(Scope::All), [only_b.id, both.id]);
    assert_eq!(passes(Scope::One(a)), [both.id]);
    assert_eq!(passes(Scope::OpenSince(at(21))), [both.id]);
    assert_eq!(passes(Scope::Job(second)), [only_b.id, both.id]);
}
