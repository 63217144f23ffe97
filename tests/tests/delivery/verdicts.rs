//! What became of a call that was disturbed, and the table of all of them.

use std::collections::BTreeMap;
use std::io::{self, Write};
use std::path::Path;

use traywright_tests::run;

use crate::{Contents, NEXT, contents};

/// The two sets of files that a call may leave.
pub(crate) struct Whole {
    old: Contents,
    new: Contents,
}

/// What became of one call.
pub(crate) enum Verdict {
    /// A whole set, the one that its exit code promises, and nothing else.
    Clean,
    /// So after the next call.
    Repaired,
    /// Anything else.
    Lost(String),
}

impl Whole {
    /// Runs the call once without a disturbance, and once more prepares its folder.
    pub(crate) fn of(desk: &Path, call: &[&str], renew: impl Fn()) -> Whole {
        renew();
        let out = desk.join("out");
        let old = contents(&out);
        let outcome = run(desk, call);
        assert_eq!(outcome.code, 0, "{}", outcome.stderr);
        let new = contents(&out);
        renew();
        assert!(old != new && old == contents(&out));
        Whole { old, new }
    }

    /// Judges the folder after a call that ended with this code, or by a signal.
    pub(crate) fn judge(&self, desk: &Path, code: Option<i32>) -> Verdict {
        let out = desk.join("out");
        let found = contents(&out);
        let promised = match code {
            Some(0) => found == self.new,
            // Ended by a signal, or at once by the second one.
            None | Some(130) => found == self.old || found == self.new,
            Some(_) => found == self.old,
        };
        if promised {
            return Verdict::Clean;
        }
        let next = run(desk, &NEXT);
        let mut after = contents(&out);
        let others = after.len();
        after.retain(|(name, _)| name != "next.svg");
        let whole = after == self.old || after == self.new;
        if next.code == 0 && others == after.len() + 1 && whole {
            return Verdict::Repaired;
        }
        let names = |contents: &Contents| -> Vec<String> {
            contents
                .iter()
                .map(|(name, bytes)| format!("{name} {}", bytes.len()))
                .collect()
        };
        let (found, after) = (names(&found), names(&after));
        Verdict::Lost(format!(
            "code {code:?}: {found:?}, then {after:?}; {}",
            next.stderr
        ))
    }
}

/// How many calls had which end.
#[derive(Default)]
pub(crate) struct Verdicts {
    rows: BTreeMap<String, [usize; 3]>,
    pub(crate) repaired: usize,
    pub(crate) lost: Vec<String>,
}

impl Verdicts {
    pub(crate) fn take(&mut self, kind: &str, moment: &str, verdict: Verdict) {
        let row = self.rows.entry(kind.to_owned()).or_default();
        match verdict {
            Verdict::Clean => row[0] += 1,
            Verdict::Repaired => {
                row[1] += 1;
                self.repaired += 1;
            }
            Verdict::Lost(found) => {
                row[2] += 1;
                self.lost.push(format!("{kind} at {moment}: {found}"));
            }
        }
    }

    /// Prints the table; `--nocapture` shows it.
    pub(crate) fn print(&self, title: &str) {
        let mut table = format!("{title}: clean, repaired by the next call, lost\n");
        for (kind, [clean, repaired, lost]) in &self.rows {
            table.push_str(&format!(
                "  {kind:<22} {clean:>5} {repaired:>5} {lost:>5}\n"
            ));
        }
        print!("{table}");
        io::stdout().flush().expect("the table can be printed");
    }
}
