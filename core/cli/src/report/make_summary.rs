//! The end of the output of `make`: warnings, the files written, and what to do next.
//!
//! **Input:** the trays and the paths of their files. **Output:** lines for standard error. Never names a file that
//! does not exist yet.

use std::path::{Path, PathBuf};

use traywright_job::checked_job::CheckedJob;
use traywright_job::report::sentence::paragraph;
use traywright_job::report::{dimensions, pads, text};

/// The summary after files have been written.
pub(crate) fn written(trays: &[&CheckedJob], warnings: &[String], files: &[PathBuf]) -> String {
    let mut said = String::new();
    for tray in trays {
        said.push_str(&text::verdict(tray));
        said.push_str(&text::changes(tray));
    }
    for warning in warnings {
        said.push_str(&paragraph("", warning));
    }
    if files.iter().any(|file| ends_in(file, "pdf")) {
        said.extend(trays.iter().filter_map(|tray| in_one_piece(tray)));
    }
    let names: Vec<String> = files
        .iter()
        .map(|file| file.display().to_string())
        .collect();
    said.push_str(&paragraph("", &format!("Wrote {}.", names.join(", "))));
    said.extend(trays.iter().map(|tray| pads::to_cut(&tray.job)));
    said.push_str(&paragraph("", &next(trays, files)));
    said
}

/// The summary after a refusal; `fit` are the trays that would have been written.
pub(crate) fn nothing_written(fit: &[&CheckedJob]) -> String {
    let said = match fit.len() {
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
fn next(trays: &[&CheckedJob], files: &[PathBuf]) -> String {
    let ends = |wanted: &str| files.iter().any(|file| ends_in(file, wanted));
    let jobs = match trays {
        [tray] if tray.path.contains(char::is_whitespace) => format!("'{}'", tray.path),
        [tray] => tray.path.clone(),
        _ => "JOB.kdl".to_owned(),
    };
    let items: usize = trays.iter().map(|tray| tray.job.items.len()).sum();
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
    let print = if ends("pdf") {
        "print the PDF at 100 %, never fitted to the page, and measure its bars: if they are as long as they say".to_owned()
    } else if ends("svg") {
        format!(
            "print at 100 %, never fitted to the page{}, and measure the bar: if it is as long as it says",
            paper(trays)
        )
    } else if files.iter().all(|file| is_booklet(file)) {
        return format!("Next: open it, or print it at any size. {order}. {lies}");
    } else {
        return format!(
            "Next: open the file in the program that it is for; its lengths are in mm. {order}. {lies}"
        );
    };
    let join = if ends("pdf") {
        ", join the sheets where there are several"
    } else {
        ""
    };
    format!("Next: {print}{join}, crease, cut and fold. {order}. {lies}")
}

/// Whether a file has the blank in that format; a booklet is a PDF without it.
fn ends_in(file: &Path, wanted: &str) -> bool {
    file.extension().is_some_and(|ending| ending == wanted) && !is_booklet(file)
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

/// The paper, if a single tray is in one piece in one file.
fn paper(trays: &[&CheckedJob]) -> String {
    let [tray] = trays else { return String::new() };
    dimensions::sheet(tray).map_or(String::new(), |sheet| format!(", on {}", sheet.words()))
}
