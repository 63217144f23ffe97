//! Runs the test runner and counts what it says.
//!
//! Given a cargo command, it shows both streams as they come and adds up the runner's own result lines. A check that
//! says it was skipped counts as skipped although its test passed. It never decides what a count means.

use std::io::{BufRead, BufReader, Read};
use std::process::{Command, Stdio};
use std::thread;

use crate::repository::Done;

/// The words with which a test says that an outside checker is missing.
pub(crate) const SKIPPED: &str = "SKIPPED outside check";

/// The runner's own counts, added up over all test programs.
#[derive(Debug, Default)]
pub(crate) struct Tally {
    passed: usize,
    failed: usize,
    ignored: usize,
    /// The lines of the checks that were skipped.
    pub(crate) skips: Vec<String>,
    /// The lines of the tests that failed.
    pub(crate) failures: Vec<String>,
    /// Whether a call of the runner ended badly, be it without a single result.
    pub(crate) broken: bool,
}

impl Tally {
    /// Runs one call of the runner and adds its counts.
    pub(crate) fn add(&mut self, command: &mut Command) -> Done {
        let mut child = command
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .map_err(|fault| format!("cargo cannot be started: {fault}"))?;
        let complaints = child.stderr.take().ok_or("cargo has no second stream")?;
        let answers = child.stdout.take().ok_or("cargo has no first stream")?;
        let listener = thread::spawn(move || echo(complaints, |line| eprintln!("{line}")));
        let mut lines = echo(answers, |line| println!("{line}"));
        lines.extend(listener.join().map_err(|_| "a stream broke off")?);
        let status = child.wait().map_err(|fault| format!("cargo: {fault}"))?;
        self.broken |= !status.success();
        for line in &lines {
            self.read(line);
        }
        Ok(())
    }

    /// The last line of the whole run.
    pub(crate) fn summary(&self) -> String {
        let skipped = self.skips.len();
        format!(
            "{} passed, {} failed, {} skipped",
            self.passed.saturating_sub(skipped),
            self.failed,
            self.ignored + skipped
        )
    }

    fn read(&mut self, line: &str) {
        if line.contains(SKIPPED) {
            self.skips.push(line.to_owned());
        } else if line.starts_with("test ") && line.ends_with("... FAILED") {
            self.failures.push(line.to_owned());
        } else if let Some(counts) = line.strip_prefix("test result: ") {
            self.passed += count(counts, "passed");
            self.failed += count(counts, "failed");
            self.ignored += count(counts, "ignored");
        }
    }
}

fn echo(stream: impl Read, show: impl Fn(&str)) -> Vec<String> {
    BufReader::new(stream)
        .split(b'\n')
        .map_while(Result::ok)
        .map(|line| String::from_utf8_lossy(&line).into_owned())
        .inspect(|line| show(line))
        .collect()
}

/// The number before a word, as in `ok. 3 passed; 0 failed`.
fn count(counts: &str, word: &str) -> usize {
    counts
        .split(['.', ';'])
        .filter_map(|part| part.trim().strip_suffix(word))
        .find_map(|number| number.trim().parse().ok())
        .unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::Tally;

    #[test]
    fn the_runners_lines_are_added_up_and_skips_are_no_passes() {
        // Source: output of cargo 1.95, copied by hand.
        let mut tally = Tally::default();
        for line in [
            "test a ... ok",
            "test b ... FAILED",
            "test result: FAILED. 5 passed; 1 failed; 2 ignored; 0 measured; 0 filtered out; finished in 0.05s",
            "SKIPPED outside check `size`: no rsvg-convert",
            "test result: ok. 4 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.05s",
        ] {
            tally.read(line);
        }
        assert_eq!(tally.summary(), "8 passed, 1 failed, 3 skipped");
        assert_eq!(tally.failures, ["test b ... FAILED"]);
    }
}
