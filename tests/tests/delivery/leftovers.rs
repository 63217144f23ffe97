//! What the next call does with the hidden folder of a call that was killed.
//!
//! The hidden folders are written by hand, from the description in core/CONTRACT.md, "Delivery".

use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use serde_json::{Value, json};
use tempfile::TempDir;
use traywright_tests::run;
use traywright_tests::skip;

use crate::{NEXT, contents, desk, names};

/// A call that was killed after it had moved one of its files: `vial.svg` is in place, `lens.svg` waits.
fn killed(list: &str) -> (TempDir, PathBuf) {
    let desk = desk();
    let out = desk.path().join("out");
    let hidden = out.join(".traywright-abc123");
    for folder in ["new", "old"] {
        fs::create_dir_all(hidden.join(folder)).expect("a folder can be made");
    }
    fs::write(out.join("vial.svg"), "the new vial.svg").expect("a file can be written");
    fs::write(hidden.join("new/lens.svg"), "the new lens.svg").expect("a file can be written");
    // Written in one tick of the kernel's clock, old and new would have the same time.
    let old = File::options().write(true).open(out.join("lens.svg"));
    let earlier = SystemTime::now() - Duration::from_secs(60);
    let aged = old.and_then(|old| old.set_modified(earlier));
    aged.expect("a file can have another time");
    fs::hard_link(out.join("lens.svg"), hidden.join("old/lens.svg")).expect("a link can be made");
    let moves = json!({ "traywright": 1, "moves": [
        { "name": "vial.svg", "folder": 1, "new": stamp(&out.join("vial.svg")), "old": null },
        { "name": "lens.svg", "folder": 1, "new": stamp(&hidden.join("new/lens.svg")),
          "old": stamp(&out.join("lens.svg")) },
    ] });
    fs::write(hidden.join(list), moves.to_string()).expect("a list can be written");
    fs::write(hidden.join("what-happened.txt"), "").expect("a note can be written");
    (desk, hidden)
}

fn stamp(file: &Path) -> Value {
    let there = file.metadata().expect("it is there");
    let modified = there.modified().expect("it has a time");
    let since = modified.duration_since(UNIX_EPOCH).expect("it is later");
    let modified = i64::try_from(since.as_nanos()).expect("it fits");
    json!({ "bytes": there.len(), "modified": modified })
}

fn read(out: &Path, name: &str) -> String {
    fs::read_to_string(out.join(name)).unwrap_or_default()
}

#[track_caller]
fn next(desk: &Path, said: &str) {
    let outcome = run(desk, &NEXT);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let words = outcome.stderr.split_whitespace().collect::<Vec<_>>();
    let words = words.join(" ");
    assert!(words.contains(said), "{words}");
}

#[test]
fn the_next_call_finishes_the_moves_of_a_killed_one() {
    let (desk, hidden) = killed("moves.json");
    next(desk.path(), "All of them are in place now.");
    let out = desk.path().join("out");
    assert_eq!(read(&out, "lens.svg"), "the new lens.svg");
    assert_eq!(read(&out, "vial.svg"), "the new vial.svg");
    assert!(!hidden.exists());
}

#[test]
fn the_next_call_goes_on_with_undoing() {
    let (desk, hidden) = killed("undo.json");
    next(desk.path(), "All of them are back now.");
    let out = desk.path().join("out");
    assert_eq!(read(&out, "lens.svg"), "the old lens.svg");
    assert_eq!(names(&contents(&out)), ["lens.dxf", "lens.svg", "next.svg"]);
    assert!(!hidden.exists());
}

#[test]
fn a_folder_without_a_list_has_changed_nothing_and_is_removed() {
    let (desk, hidden) = killed("moves.part");
    next(desk.path(), "its hidden folder has been removed");
    assert_eq!(
        read(&desk.path().join("out"), "lens.svg"),
        "the old lens.svg"
    );
    assert!(!hidden.exists());
}

#[test]
fn a_file_that_was_changed_since_is_named_and_stays() {
    for list in ["moves.json", "undo.json"] {
        let (desk, hidden) = killed(list);
        let out = desk.path().join("out");
        for name in ["lens.svg", "vial.svg"] {
            // A new file of that name, as most programs save.
            fs::remove_file(out.join(name)).expect("a file can be removed");
            fs::write(out.join(name), "by hand").expect("a file can be written");
        }
        let file = match list {
            "moves.json" => "lens.svg",
            _ => "vial.svg",
        };
        next(
            desk.path(),
            &format!("{file}: it was changed after the interruption"),
        );
        assert_eq!(read(&out, "lens.svg"), "by hand");
        assert_eq!(read(&out, "vial.svg"), "by hand");
        assert!(hidden.join("new/lens.svg").exists(), "the new file is lost");
    }
}

#[test]
fn a_new_file_that_is_lost_is_named_and_nothing_is_called_done() {
    for lost in ["out/.traywright-abc123/new/lens.svg", "out/vial.svg"] {
        let (desk, hidden) = killed("moves.json");
        fs::remove_file(desk.path().join(lost)).expect("a file can be removed");
        let name = lost.rsplit('/').next().expect("a name");
        next(desk.path(), &format!("{name}: its new file is lost"));
        let out = desk.path().join("out");
        assert_eq!(read(&out, "lens.svg"), "the old lens.svg");
        assert!(hidden.join("moves.json").exists());
    }
}

#[test]
fn a_list_that_leads_elsewhere_or_cannot_be_read_is_named_and_stays() {
    for (from, to) in [
        ("lens.svg", "../lens.kdl"),
        ("\"traywright\":1", "\"traywright\":2"),
        ("{", ""),
    ] {
        let (desk, hidden) = killed("moves.json");
        let list = hidden.join("moves.json");
        let text = fs::read_to_string(&list).expect("it was written");
        fs::write(&list, text.replace(from, to)).expect("a list can be written");
        next(desk.path(), "and it stays");
        assert!(list.exists());
        assert!(read(desk.path(), "lens.kdl").contains("tray"));
    }
}

#[test]
fn a_folder_with_something_else_in_it_is_named_and_stays() {
    for list in ["moves.part", "moves.json", "undo.json"] {
        let (desk, hidden) = killed(list);
        fs::write(hidden.join("mine.txt"), "keep").expect("a file can be written");
        next(desk.path(), "it holds out/.traywright-abc123/mine.txt");
        assert!(hidden.join("mine.txt").exists());
        assert_eq!(
            read(&desk.path().join("out"), "lens.svg"),
            "the old lens.svg"
        );
    }
}

#[test]
fn the_folder_of_another_user_is_named_and_stays() {
    let (desk, hidden) = killed("moves.json");
    // An owner without a name in the list of users.
    if std::os::unix::fs::chown(&hidden, Some(54_321), None).is_err() {
        skip(
            "the hidden folder of another user",
            "only the administrator may give a folder away",
        );
        return;
    }
    next(desk.path(), "it is another user's, so it stays.");
    assert!(hidden.join("moves.json").exists());
    assert_eq!(
        read(&desk.path().join("out"), "lens.svg"),
        "the old lens.svg"
    );
}

#[test]
fn the_folder_of_a_call_that_still_runs_is_left_alone() {
    let (desk, hidden) = killed("moves.json");
    let lock = File::open(&hidden).expect("a folder can be opened");
    lock.lock().expect("a folder can be locked");
    let outcome = run(desk.path(), &NEXT);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    assert!(
        !outcome.stderr.contains("earlier call"),
        "{}",
        outcome.stderr
    );
    assert!(hidden.exists());
    assert_eq!(
        read(&desk.path().join("out"), "lens.svg"),
        "the old lens.svg"
    );
}

// A time before 1970 has no place in a list; the size alone counts.
#[test]
fn a_file_with_the_time_of_a_dead_clock_is_replaced_too() {
    let desk = desk();
    let old = File::options()
        .append(true)
        .open(desk.path().join("out/lens.svg"));
    let before = SystemTime::UNIX_EPOCH - Duration::from_secs(9);
    let set = old.expect("it is there").set_modified(before);
    set.expect("a time can be set");
    let outcome = run(desk.path(), &crate::CALL);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
}
