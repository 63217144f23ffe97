//! Signals at any moment: the old set or the new one, and nothing hidden; after `kill -9` once the next call is done.

use std::fs;
use std::os::unix::process::ExitStatusExt;
use std::path::Path;
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use rustix::process::{Pid, Signal, kill_process};
use tempfile::TempDir;
use traywright_tests::thorough::part_of;
use traywright_tests::{program, run};

use crate::verdicts::{Verdicts, Whole};
use crate::{CALL, contents, desk, names, renew};

/// Moments for each kind of signal.
const MOMENTS: usize = 70;

/// Runs the call and sends signals at these moments; the exit code, none if a signal ended it.
fn disturbed(desk: &Path, signals: &[(Duration, Signal)]) -> Option<i32> {
    let mut child = Command::new(program())
        .current_dir(desk)
        .args(CALL)
        .stdin(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .expect("the program can be started");
    let begun = Instant::now();
    for (moment, signal) in signals {
        thread::sleep(moment.saturating_sub(begun.elapsed()));
        if matches!(child.try_wait(), Ok(None)) {
            kill_process(Pid::from_child(&child), *signal).expect("it runs");
        }
    }
    let status = child.wait().expect("it ends");
    assert!(status.code().is_some() || status.signal().is_some());
    status.code()
}

/// Random moments within a whole call, and a bit after its end.
fn moments(desk: &Path, seed: u64) -> impl Iterator<Item = Duration> {
    let begun = Instant::now();
    disturbed(desk, &[]);
    let whole = begun.elapsed();
    let mut state = seed;
    std::iter::from_fn(move || {
        // Source: D. E. Knuth, MMIX, the multiplier and increment of a linear congruential generator.
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let part = (state >> 40) as f64 / (1_u64 << 24) as f64;
        Some(whole.mul_f64(part * 1.1))
    })
}

fn start() -> (TempDir, Whole) {
    let desk = desk();
    let whole = Whole::of(desk.path(), &CALL, || renew(desk.path()));
    (desk, whole)
}

#[test]
fn a_signal_at_any_moment_leaves_a_whole_set_and_nothing_hidden() {
    let (desk, whole) = start();
    let mut verdicts = Verdicts::default();
    for (name, signal) in [
        ("TERM", Signal::TERM),
        ("INT", Signal::INT),
        ("HUP", Signal::HUP),
    ] {
        let moments = moments(desk.path(), 11 + signal.as_raw() as u64);
        for moment in moments.take(part_of(MOMENTS)) {
            renew(desk.path());
            let code = disturbed(desk.path(), &[(moment, signal)]);
            verdicts.take(name, &format!("{moment:?}"), whole.judge(desk.path(), code));
        }
    }
    verdicts.print("signals at random moments");
    assert_eq!(
        (verdicts.repaired, verdicts.lost.len()),
        (0, 0),
        "{:#?}",
        verdicts.lost
    );
}

#[test]
fn a_second_signal_ends_the_call_at_once_and_leaves_a_whole_set_and_nothing_hidden() {
    let (desk, whole) = start();
    let mut verdicts = Verdicts::default();
    for moment in moments(desk.path(), 5).take(part_of(MOMENTS)) {
        renew(desk.path());
        let signals = [
            (moment, Signal::INT),
            (moment + Duration::from_millis(1), Signal::INT),
        ];
        let code = disturbed(desk.path(), &signals);
        verdicts.take(
            "INT twice",
            &format!("{moment:?}"),
            whole.judge(desk.path(), code),
        );
    }
    verdicts.print("two signals at random moments");
    assert!(verdicts.lost.is_empty(), "{:#?}", verdicts.lost);
}

#[test]
fn a_call_that_was_killed_at_any_moment_is_repaired_by_the_next_one() {
    let (desk, whole) = start();
    let mut verdicts = Verdicts::default();
    for moment in moments(desk.path(), 9).take(part_of(MOMENTS)) {
        renew(desk.path());
        let code = disturbed(desk.path(), &[(moment, Signal::KILL)]);
        verdicts.take(
            "KILL",
            &format!("{moment:?}"),
            whole.judge(desk.path(), code),
        );
    }
    verdicts.print("kill -9 at random moments");
    assert!(verdicts.lost.is_empty(), "{:#?}", verdicts.lost);
}

// Source: POSIX.1-2024, "ulimit": -f counts in units of 512 bytes; some shells take 1,024.
#[test]
fn a_limit_on_the_size_of_files_is_an_error_and_leaves_the_old_files() {
    let desk = desk();
    for blocks in [0, 1, 2, 4, 8] {
        let script = format!("ulimit -f {blocks}; exec \"$@\"");
        let output = Command::new("sh")
            .current_dir(desk.path())
            .args(["-c", &script, "sh"])
            .arg(program())
            .args(CALL)
            .stdin(Stdio::null())
            .output()
            .expect("a shell can be started");
        assert_eq!(
            output.status.code(),
            Some(2),
            "{blocks} blocks: {:?}",
            output.status
        );
        let out = contents(&desk.path().join("out"));
        assert_eq!(names(&out), ["lens.dxf", "lens.svg"]);
    }
}

/// Single files are written whole too, or not at all.
#[test]
fn a_new_job_is_whole_or_not_there_after_a_kill() {
    let desk = desk();
    let new = desk.path().join("new.kdl");
    let begun = Instant::now();
    let whole = run(desk.path(), &["start", "new.kdl"]);
    let took = begun.elapsed();
    assert_eq!(whole.code, 0, "{}", whole.stderr);
    let text = fs::read_to_string(&new).expect("it was written");
    for part in 0..part_of(MOMENTS) {
        let _ = fs::remove_file(&new);
        let mut child = Command::new(program())
            .current_dir(desk.path())
            .args(["start", "new.kdl"])
            .stdin(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("the program can be started");
        thread::sleep(took.mul_f64(part as f64 / part_of(MOMENTS) as f64));
        let _ = child.kill();
        child.wait().expect("it ends");
        let there = fs::read_to_string(&new);
        assert!(
            there.is_err() || there.is_ok_and(|there| there == text),
            "half a job"
        );
    }
    let _ = fs::remove_file(&new);
    assert_eq!(run(desk.path(), &["start", "new.kdl"]).code, 0);
    let left = contents(desk.path());
    assert!(
        names(&left).iter().all(|name| !name.starts_with('.')),
        "{:?}",
        names(&left)
    );
}
