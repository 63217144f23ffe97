//! The end of the output of `make`: warnings, the files written, and what to do next.
//!
//! **Input:** the trays and the paths of their files. **Output:** lines for standard error. Never names a file that
//! does not exist yet.

use std::path::{Path, PathBuf};

use traywright_engine::job::FileLines;
use traywright_job::checked_job::CheckedJob;
use traywright_job::report::sentence::paragraph;
use traywright_job::report::{dimensions, labels, machine, pads, text};

/// What is said about a tray after its files have been written.
#[derive(Clone, Debug)]
pub(crate) struct TrayNotes {
    /// The job's file as the maker named it.
    pub(crate) path: String,
    /// The verdict, warnings and fixes.
    verdict: String,
    /// The paper that would hold in one piece a tray spread over several sheets.
    in_one_piece: Option<String>,
    /// The paper of a tray in one piece in one file.
    paper: String,
    /// What the owner of a machine should know.
    machine: String,
    /// The labels that its files do not have.
    labels: String,
    /// The pads to cut.
    pads: String,
    items: usize,
    /// Whether its files for a machine have no bar to measure.
    has_bare_lines: bool,
    /// Whether its PDF is one page for a print shop.
    has_whole_page: bool,
}

impl TrayNotes {
    /// The notes on a tray that fits.
    pub(crate) fn of(tray: &CheckedJob) -> Self {
        let sheet = dimensions::sheet(tray);
        TrayNotes {
            path: tray.path.clone(),
            verdict: text::verdict(tray) + &text::changes(tray),
            in_one_piece: in_one_piece(tray),
            paper: sheet.map_or(String::new(), |sheet| format!(", on {}", sheet.words())),
            machine: machine::notes(tray),
            labels: labels::notes(tray),
            pads: pads::to_cut(tray),
            items: tray.job.items.len(),
            has_bare_lines: tray.job.output.machine.lines == FileLines::Bare,
            has_whole_page: tray.job.output.paper.bleed().is_some(),
        }
    }
}

/// The summary after files have been written.
pub(crate) fn written(trays: &[&TrayNotes], warnings: &[String], files: &[PathBuf]) -> String {
    let mut said = String::new();
    for tray in trays {
        said.push_str(&tray.verdict);
    }
    for warning in warnings {
        said.push_str(&paragraph("", warning));
    }
    if files.iter().any(|file| ends_in(file, "pdf")) {
        said.extend(trays.iter().filter_map(|tray| tray.in_one_piece.as_deref()));
    }
    if files.iter().any(|file| is_for_a_machine(file)) {
        said.extend(trays.iter().map(|tray| tray.machine.as_str()));
    }
    if files.iter().any(|file| is_a_drawing(file)) {
        said.extend(trays.iter().map(|tray| tray.labels.as_str()));
    }
    said.push_str(&names(files));
    said.extend(trays.iter().map(|tray| tray.pads.as_str()));
    said.push_str(&paragraph("", &next(trays, files)));
    said
}

/// The files that were written.
pub(crate) fn names(files: &[PathBuf]) -> String {
    let names: Vec<String> = files
        .iter()
        .map(|file| file.display().to_string())
        .collect();
    paragraph("", &format!("Wrote {}.", names.join(", ")))
}

/// The summary after a refusal; `fit` is the number of trays that would have been written.
pub(crate) fn nothing_written(fit: usize) -> String {
    let said = match fit {
        0 => "Nothing was written.".to_owned(),
        1 => "Nothing was written. `--keep-going` writes the tray that fits.".to_owned(),
        number => {
            format!("Nothing was written. `--keep-going` writes the {number} trays that fit.")
        }
    };
    paragraph("", &said)
}

/// The next actions of the hands. A PDF spreads the blank over sheets and an SVG does not, so only the SVG needs a
/// large one.
fn next(trays: &[&TrayNotes], files: &[PathBuf]) -> String {
    let ends = |wanted: &str| files.iter().any(|file| ends_in(file, wanted));
    let jobs = match trays {
        [tray] if tray.path.contains(char::is_whitespace) => format!("'{}'", tray.path),
        [tray] => tray.path.clone(),
        _ => "JOB.kdl".to_owned(),
    };
    let items: usize = trays.iter().map(|tray| tray.items).sum();
    let lies = if items == 1 {
        "Check that the item lies still."
    } else {
        "Check that the items lie still."
    };
    let order = if files.iter().any(|file| is_booklet(file)) {
        "The booklet shows every step".to_owned()
    } else {
        format!("`traywright check {jobs}` gives the order of folds")
    };
    let are_whole = trays.iter().all(|tray| tray.has_whole_page);
    let print = if ends("pdf") && are_whole {
        "let a print shop print the PDF at 100 %, or your own printer if its paper holds the page, and measure the bars. If they are as long as they say".to_owned()
    } else if ends("pdf") {
        "print the PDF at 100 %, never fitted to the page, and measure its bars. If they are as long as they say".to_owned()
    } else if ends("svg") && !trays.iter().any(|tray| tray.has_bare_lines) {
        format!(
            "print at 100 %, never fitted to the page{}, and measure the bar. If it is as long as it says",
            paper(trays)
        )
    } else if files.iter().all(|file| is_booklet(file)) {
        return format!("Next: open it, or print it at any size. {order}. {lies}");
    } else {
        let lengths = lengths(files);
        return format!(
            "Next: open the file in the program that it is for; {lengths}. {order}. {lies}"
        );
    };
    let join = if ends("pdf") && !are_whole {
        ", join the sheets if there are several"
    } else {
        ""
    };
    format!("Next: {print}{join}, then crease, cut and fold. {order}. {lies}")
}

/// The unit of the files that a maker does not print.
// Source: core/CONTRACT.md, "Files: glTF".
fn lengths(files: &[PathBuf]) -> &'static str {
    let is_solid = |file: &PathBuf| ends_in(file, "glb");
    if files.iter().all(is_solid) {
        "its lengths are in metres"
    } else if files.iter().any(is_solid) {
        "its lengths are in mm, in a `.glb` file in metres"
    } else {
        "its lengths are in mm"
    }
}

/// Whether a file has the blank in that format; a booklet is a PDF without it.
fn ends_in(file: &Path, wanted: &str) -> bool {
    file.extension().is_some_and(|ending| ending == wanted) && !is_booklet(file)
}

/// Whether a file has the lines along which a machine works.
fn is_for_a_machine(file: &Path) -> bool {
    ends_in(file, "svg") || ends_in(file, "dxf")
}

/// Whether a file draws the blank at true size.
fn is_a_drawing(file: &Path) -> bool {
    is_for_a_machine(file) || ends_in(file, "pdf") && !is_booklet(file)
}

// Source: core/CONTRACT.md, "Files".
fn is_booklet(file: &Path) -> bool {
    file.to_string_lossy().ends_with("-booklet.pdf")
}

/// The paper that would hold in one piece a tray spread over several sheets.
fn in_one_piece(tray: &CheckedJob) -> Option<String> {
    let sheet = dimensions::sheet(tray)?;
    let job = &tray.job;
    let spread = sheet.name != job.output.paper.page().name && job.output.paper.bleed().is_none();
    spread.then(|| {
        paragraph(
            "",
            &format!(
                "{}: on {} paper it prints in one piece.",
                tray.path, sheet.name
            ),
        )
    })
}

/// The paper, if there is a single tray.
fn paper<'a>(trays: &[&'a TrayNotes]) -> &'a str {
    match trays {
        [tray] => &tray.paper,
        _ => "",
    }
}
