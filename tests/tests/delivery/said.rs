//! What a call says where the file system refuses something for good, and what it does instead.

use std::fs;
use std::path::Path;

use traywright_tests::system_program;

use crate::faults::{STRIP, calls, traced};
use crate::{CALL, NEXT, contents, desk, names};

/// The words of a call during which these faults are put in, and its exit code. None without strace.
fn told(desk: &Path, call: &[&str], faults: &[&str]) -> Option<(Option<i32>, String)> {
    let strace = system_program("strace", "refusals of the file system")?;
    let faults: Vec<String> = faults.iter().map(|fault| (*fault).to_owned()).collect();
    let (code, said) = traced(&strace, desk, call, &faults);
    let words: Vec<&str> = said.split_whitespace().collect();
    Some((code, words.join(" ")))
}

#[test]
fn without_locks_the_call_says_so_and_names_what_it_cannot_repair() {
    let desk = desk();
    let none = "flock:error=ENOLCK:when=1+";
    let Some((code, said)) = told(desk.path(), &STRIP, &[none, "fsync:signal=SIGKILL:when=5"])
    else {
        return;
    };
    assert_eq!(code, None, "{said}");
    let (code, said) = told(desk.path(), &STRIP, &[none]).expect("strace is there");
    assert_eq!(code, Some(0), "{said}");
    for words in [
        "out keeps no locks",
        "No locks available",
        "this file system keeps no locks that would tell, so it stays",
    ] {
        assert!(said.contains(words), "no `{words}` in {said}");
    }
    let (code, said) = told(desk.path(), &NEXT, &[]).expect("strace is there");
    assert_eq!(code, Some(0), "{said}");
    assert!(
        said.contains("its hidden folder has been removed"),
        "{said}"
    );
}

#[test]
fn a_hidden_folder_that_cannot_be_removed_is_said() {
    let desk = desk();
    let Some((code, said)) = told(desk.path(), &CALL, &["rmdir:error=EBUSY:when=1+"]) else {
        return;
    };
    assert_eq!(code, Some(0), "{said}");
    assert!(
        said.contains("cannot be removed: Device or resource busy"),
        "{said}"
    );
    assert!(said.contains("Wrote out/lens.svg"), "{said}");
    let (code, said) = told(desk.path(), &NEXT, &[]).expect("strace is there");
    assert_eq!(code, Some(0), "{said}");
    let left = contents(&desk.path().join("out"));
    assert!(
        names(&left).iter().all(|name| !name.starts_with('.')),
        "{:?}",
        names(&left)
    );
}

#[test]
fn files_that_cannot_be_put_back_are_said_with_what_to_do() {
    let desk = desk();
    // The list comes into place by the first `rename`, and the first old file is replaced by the second.
    let Some((code, said)) = told(desk.path(), &CALL, &["rename:error=EROFS:when=3+"]) else {
        return;
    };
    assert_eq!(code, Some(2), "{said}");
    for words in [
        "some files are new and some old",
        "The next call into this folder",
        "what-happened.txt",
    ] {
        assert!(said.contains(words), "no `{words}` in {said}");
    }
    let (code, said) = told(desk.path(), &NEXT, &[]).expect("strace is there");
    assert_eq!(code, Some(0), "{said}");
    assert!(said.contains("All of them are in place now."), "{said}");
}

// The first `flock` is that of the folder, the second that of the hidden folder, the third again of the folder.
#[test]
fn a_lock_that_fails_where_others_worked_ends_the_call() {
    for number in [2, 3] {
        let desk = desk();
        let before = contents(&desk.path().join("out"));
        let fault = format!("flock:error=ENOLCK:when={number}");
        let Some((code, said)) = told(desk.path(), &STRIP, &[&fault]) else {
            return;
        };
        assert_eq!(code, Some(2), "{said}");
        assert!(said.contains("No locks available"), "{said}");
        assert_eq!(contents(&desk.path().join("out")), before);
    }
}

/// One file that replaces an old one, and whose folder the disk does not confirm: the second `fsync` is that of the
/// folder, the first that of the file. The first `rename` moves the file, the second brings the list into place.
#[test]
fn a_single_file_that_cannot_be_put_back_leaves_the_old_one_where_it_is_said() {
    const SINGLE: [&str; 6] = ["strip", "lens.kdl", "--as", "svg", "--into", "out"];
    let unconfirmed = "fsync:error=EIO:when=2";
    let start = || {
        let desk = desk();
        fs::write(desk.path().join("out/lens-strip.svg"), "old").expect("it can be written");
        desk
    };
    let read = |path: &Path| fs::read_to_string(path).unwrap_or_default();

    let desk = start();
    let Some((code, said)) = told(desk.path(), &SINGLE, &[unconfirmed]) else {
        return;
    };
    assert_eq!(code, Some(2), "{said}");
    assert_eq!(read(&desk.path().join("out/lens-strip.svg")), "old");

    let desk = start();
    let faults = [unconfirmed, "rename:error=EROFS:when=2+"];
    let (code, said) = told(desk.path(), &SINGLE, &faults).expect("strace is there");
    assert_eq!(code, Some(2), "{said}");
    let old = said.split_once("The old one is ").expect("it is named").1;
    let old = old.split_once(": move it away").expect("it is named").0;
    assert_eq!(read(&desk.path().join(old)), "old");

    let desk = start();
    let faults = [unconfirmed, "rename:error=EROFS:when=3+"];
    let (code, said) = told(desk.path(), &SINGLE, &faults).expect("strace is there");
    assert_eq!(code, Some(2), "{said}");
    let (code, said) = told(desk.path(), &NEXT, &[]).expect("strace is there");
    assert_eq!(code, Some(0), "{said}");
    assert!(said.contains("All of them are back now."), "{said}");
    assert_eq!(read(&desk.path().join("out/lens-strip.svg")), "old");
}

#[test]
fn no_target_is_ever_missing_where_hard_links_are_refused() {
    let desk = desk();
    let refused = "linkat:error=EPERM:when=1+";
    let Some((code, said)) = told(desk.path(), &CALL, &[refused]) else {
        return;
    };
    assert_eq!(code, Some(0), "{said}");
    let strace = system_program("strace", "refusals of the file system").expect("it was there");
    crate::renew(desk.path());
    let moves = calls(&strace, desk.path(), &CALL);
    for (name, number) in moves.iter().filter(|(name, _)| name.starts_with("rename")) {
        crate::renew(desk.path());
        let kill = format!("{name}:signal=SIGKILL:when={number}");
        let (code, _) = told(desk.path(), &CALL, &[refused, &kill]).expect("strace is there");
        assert_eq!(code, None);
        let left = contents(&desk.path().join("out"));
        let whole = |name: &str| {
            let file = left.iter().find(|(there, _)| there == name);
            file.is_some_and(|(_, bytes)| bytes.len() > 1_000 || bytes.starts_with(b"the old lens"))
        };
        assert!(whole("lens.svg") && whole("lens.dxf"), "{:?}", names(&left));
    }
}
