//! The terminal is given back and nothing said is lost, however the program ends.
#![cfg(unix)]

#[allow(dead_code)] // Shared with the other tests that use a terminal.
mod pty;

use pty::Terminal;
use std::path::Path;

const NOW: &str = "2026-11-23T08:00:00Z";

/// A shop with one piece, its ticket open.
fn with_a_ticket(store: &Path) -> Terminal {
    let mut terminal = Terminal::start(store, NOW, 24, 80);
    terminal.see("Begin with the client");
    terminal.type_text("Ada Finch");
    terminal.press(&["F2"]);
    terminal.see("New job");
    terminal.type_text("Bar");
    terminal.press(&["F2"]);
    terminal.see("New piece");
    terminal.type_text("bar top");
    terminal.press(&["enter"]);
    terminal.type_text("72 x 18");
    terminal.press(&["enter"]);
    terminal.type_text("black walnut");
    terminal.press(&["F2"]);
    terminal.see("Ticket 1A bar top");
    terminal
}

#[test]
fn what_the_screen_confirmed_survives_a_kill() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = folder.path().join("shop.tackfree");
    let mut terminal = with_a_ticket(&store);
    let faces = [
        "top",
        "underside",
        "front edge",
        "back edge",
        "left end",
        "right end",
    ];
    for (at, face) in faces.iter().enumerate() {
        terminal.press(&["space"]);
        terminal.see(&format!("Ticked 80 grit on {face} of 1A bar top"));
        terminal.kill();
        terminal = Terminal::start(&store, NOW, 24, 80);
        terminal.see("1A bar top");
        let wanted = if at + 1 < faces.len() {
            format!("80 grit: {} of 6 faces", at + 1)
        } else {
            "120 grit: 0 of 6 faces".to_owned()
        };
        terminal.see(&wanted);
        terminal.press(&["enter"]);
        terminal.see("Ticket 1A bar top");
        for _ in 0..=at {
            terminal.press(&["down"]);
        }
    }
    // Undo and do again live on the disk too.
    terminal.press(&["u"]);
    terminal.see("Undone: Ticked 80 grit on right end");
    terminal.kill();
    let mut terminal = Terminal::start(&store, NOW, 24, 80);
    terminal.see("80 grit: 5 of 6 faces");
    terminal.press(&["a"]);
    terminal.see("Done again: Ticked 80 grit on right end");
    terminal.kill();
    let terminal = Terminal::start(&store, NOW, 24, 80);
    terminal.see("120 grit: 0 of 6 faces");
}

#[test]
fn every_way_out_gives_the_terminal_back() {
    for way in ["q", "ctrl-c", "-TERM", "-HUP", "-INT"] {
        let folder = tempfile::tempdir().expect("a folder");
        let store = folder.path().join("shop.tackfree");
        let mut terminal = with_a_ticket(&store);
        assert!(terminal.has_alternate_screen());
        if way.starts_with('-') {
            terminal.signal(way);
        } else {
            terminal.press(&[way]);
        }
        terminal.wait();
        terminal.see_no("Ticket 1A bar top");
        assert!(
            !terminal.has_alternate_screen(),
            "{way} leaves the screen taken"
        );
    }
}

#[test]
fn a_window_closed_in_the_middle_of_a_form_ends_the_program_and_keeps_the_store() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = folder.path().join("shop.tackfree");
    let mut terminal = with_a_ticket(&store);
    terminal.press(&["space"]);
    terminal.see("Ticked 80 grit on top");
    terminal.press(&["e"]);
    terminal.see("Piece 1A bar top");
    terminal.type_text("half a na");
    // What the system sends to a program whose window is closed.
    terminal.signal("-HUP");
    terminal.wait();
    let terminal = Terminal::start(&store, NOW, 24, 80);
    terminal.see("80 grit: 1 of 6 faces");
}

#[test]
fn a_second_screen_sees_what_the_first_has_done() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = folder.path().join("shop.tackfree");
    let mut first = with_a_ticket(&store);
    let mut second = Terminal::start(&store, NOW, 24, 80);
    second.see("80 grit: 0 of 6 faces");
    first.press(&["space"]);
    first.see("Ticked 80 grit on top");
    second.press(&["down"]);
    second.see("80 grit: 1 of 6 faces");
    second.press(&["enter"]);
    second.see("Ticket 1A bar top");
    second.press(&["down", "space"]);
    second.see("Ticked 80 grit on underside");
    first.press(&["down"]);
    first.see("80 grit: 2 of 6 faces");
}

#[test]
fn a_store_that_is_none_is_told_in_a_sentence_and_not_touched() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = folder.path().join("letter.txt");
    std::fs::write(&store, "Dear Ada, the top is ready.\n".repeat(200)).expect("a letter");
    let mut terminal = Terminal::start(&store, NOW, 24, 80);
    terminal.see("is not a tackfree store");
    assert_ne!(terminal.wait(), 0);
    let after = std::fs::read_to_string(&store).expect("the letter");
    assert!(after.starts_with("Dear Ada"));
}

/// A session of its own, as with `nohup` or a dropped connection: no signal tells that the terminal
/// is gone.
#[cfg(target_os = "linux")]
#[test]
fn a_terminal_that_vanishes_without_a_signal_ends_the_program() {
    use portable_pty::{CommandBuilder, PtySize, native_pty_system};
    use std::io::Read;
    use std::time::{Duration, Instant};
    let folder = tempfile::tempdir().expect("a folder");
    let (store, pid) = (folder.path().join("s.tackfree"), folder.path().join("pid"));
    let pair = native_pty_system()
        .openpty(PtySize::default())
        .expect("a pseudo-terminal");
    let script = format!(
        "exec 3<&0; setsid sh -c 'echo $$ > {}; exec {} --store {}' <&3 & wait",
        pid.display(),
        env!("CARGO_BIN_EXE_tackfree"),
        store.display()
    );
    let mut command = CommandBuilder::new("sh");
    command.args(["-c", &script]);
    command.env("TERM", "xterm-256color");
    // The clock stands still, so that the next minute never comes to wake the program.
    command.env("TACKFREE_NOW", NOW);
    let mut shell = pair.slave.spawn_command(command).expect("a shell");
    drop(pair.slave);
    let mut output = pair.master.try_clone_reader().expect("its output");
    let (mut seen, mut buffer) = (String::new(), [0_u8; 4096]);
    while !seen.contains("Begin") {
        let read = output.read(&mut buffer).expect("the program draws");
        assert!(read > 0, "it ended: {seen}");
        seen.push_str(&String::from_utf8_lossy(&buffer[..read]));
    }
    let pid = std::fs::read_to_string(&pid).expect("its number");
    let process = Path::new("/proc").join(pid.trim());
    assert!(process.exists());
    drop(output);
    drop(pair.master);
    let end = Instant::now() + Duration::from_secs(30);
    while process.exists() {
        assert!(Instant::now() < end, "it does not end");
        std::thread::sleep(Duration::from_millis(20));
    }
    let _ = shell.wait();
}
