//! Faults at every call of the system that a delivery makes, put there by strace: errors, signals, and `kill -9`.
//!
//! The source of the faults is strace's injection; the files are compared with those of an undisturbed call. Only the
//! first thread is traced, which delivers; so the exporters' processes are not disturbed.

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

use traywright_tests::thorough::part_of;
use traywright_tests::{program, system_program};

use crate::verdicts::{Verdicts, Whole};
use crate::{CALL, desk, renew};

/// Delivers two files from the first thread alone: one replaces an old file, one is new.
pub(crate) const STRIP: [&str; 6] = ["strip", "lens.kdl", "--as", "svg,dxf", "--into", "out"];

/// The calls of the system by which files come into place or vanish.
const CALLS: &str = "openat,write,fsync,mkdir,link,linkat,symlink,rename,renameat2,flock,statx,chmod,fchmod,fchmodat,\
                     chown,fchownat,unlink,unlinkat,rmdir,getdents64";

/// What happens to one call of the system.
#[derive(Clone, Debug)]
struct Fault {
    call: String,
    /// Which of the calls of that name in the first thread.
    number: usize,
    /// For example `error=EIO`.
    what: &'static str,
    /// Whether all later calls of that name fail too.
    lasts: bool,
}

/// Every call of a delivery, by its name and number.
pub(crate) fn calls(strace: &Path, desk: &Path, call: &[&str]) -> Vec<(String, usize)> {
    let trace = desk.join("trace");
    let status = Command::new(strace)
        .current_dir(desk)
        .args(["-y", "-qq", "-o", "trace", "-e", &format!("trace={CALLS}")])
        .arg(program())
        .args(call)
        .stdin(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .expect("strace can be started");
    assert!(status.success());
    let text = fs::read_to_string(trace).expect("strace writes a trace");
    let mut counts = std::collections::HashMap::<&str, usize>::new();
    let mut found = Vec::new();
    for line in text.lines() {
        let Some((name, rest)) = line.split_once('(') else {
            continue;
        };
        let number = counts.entry(name).or_default();
        *number += 1;
        let delivers = ["\"out", "/out/", "/out>"]
            .iter()
            .any(|mark| rest.contains(mark));
        if delivers {
            found.push((name.to_owned(), *number));
        }
    }
    assert!(found.len() > 40, "few calls of the system: {found:?}");
    found
}

fn every(calls: &[(String, usize)], kinds: &[(&'static str, bool)]) -> Vec<Fault> {
    let of_call = |(call, number): &(String, usize)| {
        let (call, number) = (call.clone(), *number);
        kinds.iter().map(move |(what, lasts)| Fault {
            call: call.clone(),
            number,
            what,
            lasts: *lasts,
        })
    };
    let all: Vec<Fault> = calls.iter().flat_map(of_call).collect();
    // A step that shares no factor with the number of kinds, so that the part has calls and kinds of every sort.
    let mut step = all.len() / part_of(all.len());
    while common_factor(step, kinds.len()) > 1 {
        step += 1;
    }
    all.into_iter().step_by(step).collect()
}

// Source: Euclid, Elements, book VII, proposition 2.
fn common_factor(one: usize, other: usize) -> usize {
    match other {
        0 => one,
        _ => common_factor(other, one % other),
    }
}

fn inject(strace: &Path, desk: &Path, call: &[&str], fault: &Fault) -> Option<i32> {
    let Fault {
        call: name,
        number,
        what,
        lasts,
    } = fault;
    let lasts = if *lasts { "+" } else { "" };
    let fault = format!("{name}:{what}:when={number}{lasts}");
    traced(strace, desk, call, &[fault]).0
}

/// Runs a call with faults of strace: its exit code, none if a signal ended it, and what it said.
pub(crate) fn traced(
    strace: &Path,
    desk: &Path,
    call: &[&str],
    faults: &[String],
) -> (Option<i32>, String) {
    let names = faults.iter().filter_map(|fault| fault.split(':').next());
    // Only calls that are traced can fail.
    let traced = match faults {
        [] => "none".to_owned(),
        _ => names.collect::<Vec<_>>().join(","),
    };
    let inject = faults.iter().map(|fault| format!("--inject={fault}"));
    let output = Command::new(strace)
        .current_dir(desk)
        .args(["-qq", "-o", "/dev/null"])
        .arg(format!("--trace={traced}"))
        .args(inject)
        .arg(program())
        .args(call)
        .env("LC_ALL", "C")
        .stdin(Stdio::null())
        .output()
        .expect("strace can be started");
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    (output.status.code(), said)
}

/// Disturbs both calls with each kind of fault.
fn try_all(kinds: &[(&'static str, bool)], title: &str) -> Option<Verdicts> {
    let strace = system_program("strace", title)?;
    let mut verdicts = Verdicts::default();
    for call in [&CALL[..], &STRIP[..]] {
        let desk = desk();
        let renew = || {
            renew(desk.path());
            fs::write(desk.path().join("out/lens-strip.svg"), "old").expect("it can be written");
        };
        let whole = Whole::of(desk.path(), call, renew);
        for fault in every(&calls(&strace, desk.path(), call), kinds) {
            renew();
            let code = inject(&strace, desk.path(), call, &fault);
            let moment = format!("{fault:?} in {}", call[0]);
            let kind = format!(
                "{} {}",
                fault.what,
                if fault.lasts { "and on" } else { "once" }
            );
            verdicts.take(&kind, &moment, whole.judge(desk.path(), code));
        }
    }
    verdicts.print(title);
    Some(verdicts)
}

#[test]
fn an_error_at_any_call_leaves_a_whole_set() {
    let kinds = [
        ("error=ENOSPC", false),
        ("error=EIO", false),
        ("error=EACCES", false),
        ("error=EROFS", false),
        ("error=EDQUOT", false),
        ("error=EXDEV", false),
        ("error=EROFS", true),
        ("error=ENOSPC", true),
    ];
    if let Some(verdicts) = try_all(&kinds, "errors at every call") {
        assert!(verdicts.lost.is_empty(), "{:#?}", verdicts.lost);
    }
}

#[test]
fn a_signal_at_any_call_leaves_a_whole_set_and_nothing_hidden() {
    let kinds = [
        ("signal=SIGTERM", false),
        ("signal=SIGINT", false),
        ("signal=SIGHUP", false),
        // At this call, and at every later one of its name.
        ("signal=SIGINT", true),
    ];
    if let Some(verdicts) = try_all(&kinds, "signals at every call") {
        assert_eq!(
            (verdicts.repaired, verdicts.lost.len()),
            (0, 0),
            "{:#?}",
            verdicts.lost
        );
    }
}

#[test]
fn a_kill_at_any_call_is_repaired_by_the_next_call() {
    if let Some(verdicts) = try_all(&[("signal=SIGKILL", false)], "kill -9 at every call") {
        assert!(verdicts.lost.is_empty(), "{:#?}", verdicts.lost);
    }
}
