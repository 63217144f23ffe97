//! `cargo xtask fuzz SECONDS`: every fuzz target of `tests/fuzz`, guided by coverage, for so many seconds each.
//!
//! Given the seconds, it builds the targets with the counters of libFuzzer and runs them one after the other. New inputs
//! are kept in `target/fuzz`; a finding is left there and ends the command with 1. It needs a C++ compiler.

use std::fs;

use crate::repository::{Done, answer, cargo, run, target, top};

/// Each target, and the folder of its seeds.
const TARGETS: [(&str, &str); 5] = [
    ("check", "designs/jobs"),
    ("formula", "tests/fuzz/seeds/formula"),
    ("job", "designs/jobs"),
    ("style", "designs/styles"),
    ("wire", "tests/fuzz/seeds/wire"),
];

/// The counters that libFuzzer reads.
// Source: LLVM, "SanitizerCoverage": inline counters, the table of places, and compared values.
const FLAGS: [&str; 6] = [
    "-Cpasses=sancov-module",
    "-Cllvm-args=-sanitizer-coverage-level=4",
    "-Cllvm-args=-sanitizer-coverage-inline-8bit-counters",
    "-Cllvm-args=-sanitizer-coverage-pc-table",
    "-Cllvm-args=-sanitizer-coverage-trace-compares",
    "-Ccodegen-units=1",
];

/// An input that takes longer is a finding.
// Source: core/LIMITS.md: the program gives a job 10 s; the counters make it slower.
const LONGEST_SECONDS: u32 = 30;

/// Longer inputs only cost time: the largest seed, a style, has 12 KiB.
const LONGEST_INPUT: usize = 16 * 1024;

/// The stack of a target: the program gives the reader of a job as much.
// Source: core/cli/src/read_job.rs: 4 MiB, and 4 KiB for each byte.
const STACK_KIB: usize = 4096 + 4 * LONGEST_INPUT;

/// Builds and runs all targets.
pub(crate) fn fuzz(seconds: &str) -> Done {
    let seconds: u32 = seconds
        .parse()
        .map_err(|_| format!("`{seconds}` is no number of seconds"))?;
    let home = target()?.join("fuzz");
    let folder = top().join("tests/fuzz");
    // With a target named, scripts of builds and macros get no counters.
    let host = answer(std::process::Command::new("rustc").arg("-vV"))?;
    let host = host.lines().find_map(|line| line.strip_prefix("host: "));
    let host = host.ok_or("rustc does not name its host")?.to_owned();
    run(cargo(&["build", "--release", "--target", &host])?
        .current_dir(&folder)
        .env("CARGO_TARGET_DIR", &home)
        .env("CARGO_ENCODED_RUSTFLAGS", FLAGS.join("\u{1f}")))?;
    for (name, seeds) in TARGETS {
        let found = home.join("corpus").join(name);
        fs::create_dir_all(&found).map_err(|fault| format!("{}: {fault}", found.display()))?;
        println!("{name}: {seconds} s");
        let script = format!("ulimit -s {STACK_KIB}; exec \"$@\"");
        run(std::process::Command::new("sh")
            .current_dir(&home)
            .args(["-c", &script, "sh"])
            .arg(home.join(&host).join("release").join(name))
            .arg(format!("-max_total_time={seconds}"))
            .arg(format!("-timeout={LONGEST_SECONDS}"))
            .arg(format!("-max_len={LONGEST_INPUT}"))
            .args(["-print_final_stats=1", "-verbosity=1"])
            .args([found, top().join(seeds)]))?;
    }
    Ok(())
}
