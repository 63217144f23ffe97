//! Fixes that were tried: changes of a job with which its tray is checked again.

use traywright_engine::finding::{Change, Finding, changes_in_words};
use traywright_engine::{Level, Refusal, Style, check_again};

use crate::checked_job::{CheckedJob, TriedFix};
use crate::job_file::{changed, read};
use crate::library::Boards;

/// Fixes that a report names.
// Source: core/CONTRACT.md, "check --format json".
const MOST: usize = 3;

/// Sets of changes that are tried at most: each is a whole check.
const MOST_TRIES: usize = 8;

/// The changes that the findings of a job propose and that help, the best first, at most three.
///
/// `text` is what the job was read from. Of a tray that does not fit, a fix leaves fewer errors than there are. Of one
/// that fits, it removes a warning and brings no error.
pub fn tried(checked: &CheckedJob, text: &str, style: &Style, boards: &Boards) -> Vec<TriedFix> {
    let level = match checked.fits() {
        false => Level::Error,
        true => Level::Warning,
    };
    let mut ways: Vec<(&Finding, &Vec<Change>)> = Vec::new();
    for finding in checked.findings(level) {
        let proposed = finding.fix.iter().flat_map(|fix| &fix.ways);
        let new = proposed.filter(|way| !ways.iter().any(|(_, known)| known == way));
        let new: Vec<_> = new.map(|way| (finding, way)).collect();
        ways.extend(new);
    }
    let tried = ways
        .into_iter()
        .take(MOST_TRIES)
        .filter_map(|(finding, way)| {
            let text = changed(text, way)?;
            let job = read(&checked.path, text.as_bytes(), boards).ok()?;
            let (leaves, remains) = match check_again(style, &job) {
                Ok(tray) => (0, has(&tray.report().findings, finding)),
                Err(Refusal::Tray(report)) => {
                    let errors = report.findings.iter().filter(|found| found.is_error());
                    (errors.count(), has(&report.findings, finding))
                }
                Err(Refusal::Job(_) | Refusal::Style(_)) => return None,
            };
            let helps = match checked.fits() {
                false => leaves < checked.findings(Level::Error).count(),
                true => leaves == 0 && !remains,
            };
            helps.then(|| TriedFix {
                says: changes_in_words(way),
                changes: way.clone(),
                leaves,
            })
        });
    let mut fixes: Vec<TriedFix> = tried.collect();
    fixes.sort_by_key(|fix| fix.leaves);
    fixes.truncate(MOST);
    fixes
}

/// Whether the same is found at the same place again.
fn has(findings: &[Finding], finding: &Finding) -> bool {
    let same = |other: &Finding| other.code() == finding.code() && other.place == finding.place;
    findings.iter().any(same)
}
