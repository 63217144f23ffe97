//! `check --format json`: the report for programs.
//!
//! **Input:** checked jobs. **Output:** one object for one job and an array for several, with the keys of
//! core/CONTRACT.md, "check --format json". Lengths are mm in any unit of the job. A number that JSON cannot represent
//! is null.

use serde::{Serialize, Serializer};
use traywright_document::is_hidden;
use traywright_engine::job::{BoardKind, CreaseKind, Unit};
use traywright_engine::measure::Measure;
use traywright_engine::{Finding, Level, PassedCheck};

use crate::checked_job::{CheckedJob, TrayVerdict, TriedFix};
use crate::report::sentence::clause;

/// The object of one job.
pub fn object(checked_job: &CheckedJob) -> String {
    written(&JsonReport::of(checked_job))
}

/// A report as JSON. Hidden characters, which occur in texts alone, are escaped, so that a terminal can show it.
pub(super) fn written(report: &impl Serialize) -> String {
    let json = serde_json::to_string_pretty(report)
        .expect("names are text and numbers are finite or null");
    let mut written = String::with_capacity(json.len());
    for letter in json.chars() {
        if letter != '\n' && is_hidden(letter) {
            let units = letter.encode_utf16(&mut [0; 2]).to_vec();
            written.extend(units.iter().map(|unit| format!("\\u{unit:04x}")));
        } else {
            written.push(letter);
        }
    }
    written
}

/// The whole output of objects: the object itself, or an array if `several` were asked for.
pub fn together(objects: &[String], several: bool) -> String {
    match objects {
        [one] if !several => format!("{one}\n"),
        [] => "[]\n".to_owned(),
        all => {
            // A line break in a text is written as an escape, so each one here begins a line of JSON.
            let inner: Vec<String> = all.iter().map(|one| one.replace('\n', "\n  ")).collect();
            format!("[\n  {}\n]\n", inner.join(",\n  "))
        }
    }
}

#[derive(Serialize)]
struct JsonReport<'a> {
    job: &'a str,
    fits: bool,
    style: &'a str,
    board: Board<'a>,
    measures: Measures<'a>,
    verdict: &'static str,
    findings: Vec<Found<'a>>,
    fixes: Vec<Tried<'a>>,
    name: &'a str,
    proofs: Vec<Proved>,
}

#[derive(Serialize)]
struct Proved {
    name: &'static str,
    text: String,
}

#[derive(Serialize)]
struct Board<'a> {
    caliper: Option<f64>,
    name: Option<&'a str>,
    hinge: Option<f64>,
    kind: BoardKind,
    crease: CreaseKind,
}

#[derive(Serialize)]
struct Found<'a> {
    level: &'static str,
    code: &'a str,
    #[serde(rename = "where")]
    place: String,
    message: String,
    value: Option<f64>,
    limit: Option<f64>,
    fix: Option<String>,
}

/// A fix that was tried.
#[derive(Serialize)]
struct Tried<'a> {
    says: &'a str,
    changes: Vec<Changed<'a>>,
    leaves: usize,
}

#[derive(Serialize)]
struct Changed<'a> {
    node: &'a str,
    item: Option<&'a str>,
    key: &'a str,
    to: &'a str,
}

/// Measures in the order of the report.
struct Measures<'a>(&'a [Measure]);

impl Serialize for Measures<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(
            self.0
                .iter()
                .map(|measure| (measure.of.to_string(), number(measure.value))),
        )
    }
}

impl<'a> JsonReport<'a> {
    fn of(checked_job: &'a CheckedJob) -> Self {
        let job = &checked_job.job;
        JsonReport {
            job: &checked_job.path,
            fits: checked_job.fits(),
            style: &job.style,
            board: Board {
                caliper: number(job.board.caliper.mm()),
                name: job.board.name.as_deref(),
                hinge: number(job.board.hinge()),
                kind: job.board.kind(),
                crease: job.board.crease(),
            },
            measures: Measures(&checked_job.report().measures),
            verdict: word(checked_job.verdict()),
            findings: checked_job
                .report()
                .findings
                .iter()
                .map(|finding| Found::of(finding, checked_job))
                .collect(),
            fixes: checked_job.fixes.iter().map(Tried::of).collect(),
            name: &job.title,
            proofs: checked_job
                .report()
                .proofs
                .iter()
                .map(|passed| Proved::of(passed, job.unit))
                .collect(),
        }
    }
}

impl Proved {
    fn of(passed: &PassedCheck, unit: Unit) -> Self {
        Proved {
            name: passed.name(),
            text: passed.message(unit),
        }
    }
}

impl<'a> Tried<'a> {
    fn of(fix: &'a TriedFix) -> Self {
        let changes = fix.changes.iter().map(|change| Changed {
            node: change.node,
            item: change.item.as_deref(),
            key: &change.key,
            to: &change.to,
        });
        Tried {
            says: &fix.says,
            changes: changes.collect(),
            leaves: fix.leaves,
        }
    }
}

/// The verdict in one word.
// Source: core/CONTRACT.md, "check --format json".
pub(super) fn word(verdict: TrayVerdict) -> &'static str {
    match verdict {
        TrayVerdict::Fits => "fits",
        TrayVerdict::Watch(_) => "watch",
        TrayVerdict::DoesNotFit => "does-not-fit",
    }
}

impl<'a> Found<'a> {
    fn of(finding: &'a Finding, checked_job: &CheckedJob) -> Self {
        let unit = checked_job.job.unit;
        let fix = checked_job.advice(finding);
        Found {
            level: match finding.level {
                Level::Error => "error",
                Level::Warning => "warning",
                Level::Note => "note",
            },
            code: finding.code(),
            place: finding.place.to_string(),
            message: clause(&finding.message(unit)).to_owned(),
            value: finding.value.and_then(number),
            limit: finding.limit.and_then(number),
            fix: fix.map(|fix| clause(&fix).to_owned()),
        }
    }
}

/// Rounded once, here, to a millionth of a micrometre, so that 179.71 does not read 179.70999999999998.
pub(super) fn number(value: f64) -> Option<f64> {
    let rounded = (value * 1e9).round() / 1e9 + 0.0;
    rounded.is_finite().then_some(rounded)
}
