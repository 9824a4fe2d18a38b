use super::keep;
use super::look::{SMALL, draw, nothing_is_lost, press, says};
use super::sample::{Sample, at_work, empty};
use tackfree::desk::{Action, Which};
use tackfree::tui::forms::FormKind;
use tackfree::tui::screen::{Screen, Wish};
use tackfree::tui::screens::job_book::JobBook;

fn opened(sample: &Sample) -> JobBook {
    let mut book = JobBook::new();
    book.settle(&sample.ctx());
    book
}

#[test]
fn looks_as_kept() {
    let sample = at_work();
    let mut book = opened(&sample);
    keep!("job_book_client", &book, &sample);
    press(&mut book, &sample, "down");
    keep!("job_book_job", &book, &sample);
    press(&mut book, &sample, "down");
    keep!("job_book_piece", &book, &sample);
    press(&mut book, &sample, "home enter");
    keep!("job_book_folded", &book, &sample);
    let none = empty();
    keep!("job_book_empty", &opened(&none), &none);
}

#[test]
fn no_word_is_lost() {
    let sample = at_work();
    let mut book = opened(&sample);
    for _ in 0..12 {
        nothing_is_lost(&book, &sample);
        press(&mut book, &sample, "down");
    }
}

#[test]
fn dates_lateness_and_cautions_are_said_in_words() {
    let sample = at_work();
    let mut book = opened(&sample);
    let rows = draw(&book, &sample, (160, 60));
    assert!(says(&rows, "promised Wed Mar 18, 6 days left"), "{rows:#?}");
    assert!(says(&rows, "promised Tue Mar 10, 2 days late"), "{rows:#?}");
    assert!(says(&rows, "no date promised"));
    assert!(says(&rows, "13D round table set Mon Mar 2"), "{rows:#?}");
    press(&mut book, &sample, "down");
    let rows = draw(&book, &sample, (80, 60));
    assert!(says(&rows, "Caution: House built before 1978"));
    assert!(says(&rows, "(40 CFR 745 subpart E)"));
    press(&mut book, &sample, "down");
    let rows = draw(&book, &sample, (80, 60));
    assert!(
        says(&rows, "98\" x 26\" x 1 1/2\", round-over 1/4\""),
        "{rows:#?}"
    );
    assert!(
        says(&rows, "cutout 1: 30\" x 16\", corner radius 3/4\""),
        "{rows:#?}"
    );
    assert!(says(&rows, "hole 1: 1 3/8\" across"), "{rows:#?}");
}

#[test]
fn an_empty_book_leads() {
    let none = empty();
    let mut book = opened(&none);
    let lead = "No client yet. Press c to enter the first client; the first job and piece follow.";
    assert!(says(&draw(&book, &none, SMALL), lead));
    assert_eq!(
        press(&mut book, &none, "n"),
        [Wish::Tell(vec![lead.to_owned()])]
    );
    assert_eq!(
        press(&mut book, &none, "c"),
        [Wish::Form(FormKind::Client(Which::New))]
    );
    assert_eq!(book.hints(80, &none.ctx()), "c new client");
}

#[test]
fn new_things_belong_to_what_is_picked() {
    let sample = at_work();
    let mut book = opened(&sample);
    let island = sample.job("12");
    let piece_in = |job| [Wish::Form(FormKind::Piece(Which::New, Some(job)))];
    // Maren has one job, so a piece can only be for it.
    assert_eq!(press(&mut book, &sample, "n"), piece_in(island));
    assert_eq!(press(&mut book, &sample, "down down n"), piece_in(island));
    let job_for = |client| [Wish::Form(FormKind::Job(Which::New, Some(client)))];
    assert_eq!(press(&mut book, &sample, "j"), job_for(sample.client(0)));
    // Two jobs: which one is not guessed.
    let several = press(&mut book, &sample, "home enter down n");
    assert!(matches!(several.as_slice(), [Wish::Tell(lines)] if lines[0].contains("several jobs")));
    let none = press(&mut book, &sample, "end n");
    assert!(matches!(none.as_slice(), [Wish::Tell(lines)] if lines[0].contains("Press j")));
}

#[test]
fn enter_opens_tickets_and_folds_the_rest() {
    let sample = at_work();
    let mut book = opened(&sample);
    let island = sample.piece("12A");
    assert_eq!(
        press(&mut book, &sample, "down down enter"),
        [Wish::Ticket(island)]
    );
    let open = draw(&book, &sample, (80, 60));
    assert_eq!(press(&mut book, &sample, "up enter"), []);
    assert!(says(&draw(&book, &sample, (80, 60)), "2 pieces folded"));
    press(&mut book, &sample, "enter down");
    assert_eq!(draw(&book, &sample, (80, 60)), open);
    // Left goes up from a piece, then folds, then goes up again.
    assert_eq!(press(&mut book, &sample, "left left left left"), []);
    assert!(says(&draw(&book, &sample, (80, 60)), "1 job folded"));
    assert_eq!(
        press(&mut book, &sample, "right down right down enter"),
        [Wish::Ticket(island)]
    );
}

#[test]
fn rows_are_edited_and_removed_as_what_they_are() {
    let sample = at_work();
    let mut book = opened(&sample);
    let (client, job, piece) = (sample.client(0), sample.job("12"), sample.piece("12A"));
    let this = Which::This;
    assert_eq!(
        press(&mut book, &sample, "e"),
        [Wish::Form(FormKind::Client(this(client)))]
    );
    assert_eq!(
        press(&mut book, &sample, "x"),
        [Wish::Act(Action::RemoveClient(client))]
    );
    assert_eq!(
        press(&mut book, &sample, "down e"),
        [Wish::Form(FormKind::Job(Which::This(job), Some(client)))]
    );
    assert_eq!(
        press(&mut book, &sample, "x"),
        [Wish::Act(Action::RemoveJob(job))]
    );
    assert_eq!(
        press(&mut book, &sample, "down e"),
        [Wish::Form(FormKind::Piece(Which::This(piece), Some(job)))]
    );
    assert_eq!(
        press(&mut book, &sample, "x"),
        [Wish::Act(Action::RemovePiece(piece))]
    );
    let read = press(&mut book, &sample, "v");
    let [Wish::Read { title, lines }] = read.as_slice() else {
        panic!("{read:?}")
    };
    assert_eq!(title, "12A island top");
    assert!(says(lines, "hole 1 wall"));
}

#[test]
fn what_was_just_entered_is_picked() {
    let full = at_work();
    let mut growing = empty();
    let mut book = opened(&growing);
    growing.shop.clients.push(full.shop.clients[0].clone());
    book.settle(&growing.ctx());
    growing.shop.jobs.push(full.shop.jobs[0].clone());
    book.settle(&growing.ctx());
    growing.shop.files.push(full.shop.files[0].clone());
    book.settle(&growing.ctx());
    let piece = full.shop.files[0].piece.id;
    assert_eq!(press(&mut book, &growing, "enter"), [Wish::Ticket(piece)]);
}

#[test]
fn long_and_wide_names_wrap_and_stay_whole() {
    let mut sample = at_work();
    sample.shop.clients[0].name = ["木村e\u{301}"; 75].join(" ");
    sample.shop.jobs[0].title = ["counter"; 40].join(" ");
    let mut book = opened(&sample);
    nothing_is_lost(&book, &sample);
    press(&mut book, &sample, "down");
    for size in [(80, 110), (120, 110)] {
        let text = draw(&book, &sample, size).join(" ");
        // Once in the outline, once where the job says whom it is for.
        assert_eq!(text.matches("木村e\u{301}").count(), 150);
    }
}
