//! One folder takes the files of one call at a time.

use std::fs::{self, File};
use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};

use traywright_tests::{program, run};

use crate::{CALL, contents, desk, names};

#[test]
fn a_call_waits_for_another_one_that_writes_into_its_folder() {
    let desk = desk();
    let out = File::open(desk.path().join("out")).expect("a folder can be opened");
    out.lock().expect("a folder can be locked");
    let mut child = Command::new(program())
        .current_dir(desk.path())
        .args(CALL)
        .stdin(Stdio::null())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program can be started");
    let stderr = child.stderr.take().expect("it is piped");
    let mut lines = BufReader::new(stderr).lines().map_while(Result::ok);
    let waits = "another call of traywright writes into out";
    assert!(lines.any(|line| line.contains(waits)));
    let before = contents(&desk.path().join("out"));
    assert_eq!(names(&before), ["lens.dxf", "lens.svg"]);
    out.unlock().expect("a lock can be given back");
    let said: Vec<String> = lines.collect();
    let status = child.wait().expect("it ends");
    assert_eq!(status.code(), Some(0), "{said:?}");
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
