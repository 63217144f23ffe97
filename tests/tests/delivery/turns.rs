//! One folder takes the files of one call at a time.

use std::fs::{self, File};
use std::process::{Command, Stdio};
use std::thread;
use std::time::Duration;

use traywright_tests::{program, run};

use crate::{CALL, contents, desk, names};

#[test]
fn a_call_waits_for_another_one_that_writes_into_its_folder() {
    let desk = desk();
    let out = File::open(desk.path().join("out")).expect("a folder can be opened");
    out.lock().expect("a folder can be locked");
    let child = Command::new(program())
        .current_dir(desk.path())
        .args(CALL)
        .stdin(Stdio::null())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program can be started");
    // Long enough for the call to reach the folder; too short only makes the test weaker.
    thread::sleep(Duration::from_secs(2));
    let before = contents(&desk.path().join("out"));
    assert_eq!(names(&before), ["lens.dxf", "lens.svg"]);
    out.unlock().expect("a lock can be given back");
    let output = child.wait_with_output().expect("it ends");
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(0), "{said}");
    assert!(
        said.contains("another call of traywright writes into out"),
        "{said}"
    );
    let after = contents(&desk.path().join("out"));
    assert_eq!(
        names(&after),
        ["lens.dxf", "lens.svg", "vial.dxf", "vial.svg"]
    );
}

#[test]
fn calls_into_one_folder_at_once_leave_the_whole_set_of_one_of_them() {
    let desk = desk();
    let versions = [("one", 90), ("two", 91), ("three", 92)];
    let mut whole = Vec::new();
    for (folder, length) in versions {
        let folder = desk.path().join(folder);
        fs::create_dir(&folder).expect("a folder can be made");
        for name in ["lens.kdl", "vial.kdl"] {
            fs::write(folder.join(name), crate::job(length)).expect("a job can be written");
        }
        let outcome = run(&folder, &CALL);
        assert_eq!(outcome.code, 0, "{}", outcome.stderr);
        whole.push(contents(&folder.join("out")));
    }
    for _ in 0..5 {
        let start = |folder: &str| {
            Command::new(program())
                .current_dir(desk.path().join(folder))
                .args(&CALL[..5])
                .args(["--into", "../out"])
                .stdin(Stdio::null())
                .stderr(Stdio::null())
                .spawn()
                .expect("the program can be started")
        };
        let mut calls = versions.map(|(folder, _)| start(folder));
        for call in &mut calls {
            assert_eq!(call.wait().expect("it ends").code(), Some(0));
        }
        let out = contents(&desk.path().join("out"));
        assert!(whole.contains(&out), "a mixed set: {:?}", names(&out));
    }
}
