//! The labels and pictures of a job that no drawing of its face can have.
//!
//! **Input:** a checked job whose tray fits. **Output:** for each label on the face that is not drawn a sentence: where
//! it belongs, how it is read, and what to write into the job to print it. **Does not** place a label.

use traywright_document::{Document, DrawnFace, Orientation, PanelLabel};
use traywright_engine::wording::{length, quoted};

use super::sentence::paragraph;
use crate::checked_job::CheckedJob;

/// The sentences about labels that are not printed, or nothing.
pub fn notes(checked_job: &CheckedJob) -> String {
    let Ok(tray) = &checked_job.tray else {
        return String::new();
    };
    if checked_job.job.labels.is_empty() && checked_job.job.prints.is_empty() {
        return String::new();
    }
    let document = tray.unrounded().document();
    pictures(checked_job, &document) + &labels(checked_job, &document)
}

/// That some pictures are not printed.
fn pictures(checked_job: &CheckedJob, document: &Document) -> String {
    let pictures = document.flat.panel_pictures.iter();
    let far = pictures.filter(|picture| !picture.is_drawn()).count();
    if far == 0 {
        return String::new();
    }
    let (now, other) = faces(document);
    let pictures = match far {
        1 => "1 picture belongs".to_owned(),
        count => format!("{count} pictures belong"),
    };
    let words = format!(
        "{}: {pictures} on the face \"{other}\", and the lines are on the face \"{now}\": SVG and PDF leave out what belongs on the other face. Write draw face=\"{other}\" into the job to print it.",
        checked_job.path
    );
    paragraph("", &words)
}

fn labels(checked_job: &CheckedJob, document: &Document) -> String {
    let labels = &document.flat.panel_labels;
    let far: Vec<&PanelLabel> = labels.iter().filter(|label| !label.is_drawn()).collect();
    if far.is_empty() {
        return String::new();
    }
    let all = missing(document, far.len(), labels.len());
    let mut said = paragraph("", &format!("{}: {all}", checked_job.path));
    for label in far {
        said.push_str(&paragraph("  ", &place(document, label)));
    }
    said
}

/// The words of a job for the drawn face and for the other one.
fn faces(document: &Document) -> (&'static str, &'static str) {
    match document.output.drawn_face {
        DrawnFace::Inside => ("inside", "outside"),
        DrawnFace::Outside => ("outside", "inside"),
    }
}

/// That some labels are not printed, and how to print them.
fn missing(document: &Document, far: usize, all: usize) -> String {
    let (now, other) = faces(document);
    let labels = match far {
        1 => "1 label belongs".to_owned(),
        count => format!("{count} labels belong"),
    };
    let way_out = match far == all {
        true => format!(
            "Write draw face=\"{other}\" into the job to print them, or write them by hand:"
        ),
        false => "No drawing has the labels of both faces, so write these by hand:".to_owned(),
    };
    format!(
        "{labels} on the face \"{other}\", and the lines are on the face \"{now}\": SVG, PDF and DXF do not have them. {way_out}"
    )
}

/// Where a label that is not printed belongs.
fn place(document: &Document, label: &PanelLabel) -> String {
    let panel = document.panels.get(label.panel);
    let name = panel.map_or("", |panel| panel.name.as_str());
    let unit = document.unit;
    let from_corner = label.at - document.flat.extent.least;
    format!(
        "{} on {name}: {}, capitals {} high; its middle lies behind the point {} from the left and {} from the lower edge of the drawing.",
        quoted(&label.text),
        how_read(document, label),
        length(label.height, unit),
        length(from_corner.x, unit),
        length(from_corner.y, unit),
    )
}

/// How the words lie for whoever looks at the finished tray.
fn how_read(document: &Document, label: &PanelLabel) -> &'static str {
    let inside = document.output.drawn_face == DrawnFace::Inside;
    let up = match inside == (document.stands == Orientation::RootDown) {
        true => 1.0,
        false => -1.0,
    };
    let out = if label.is_drawn() { up } else { -up };
    let slope = document
        .panels
        .get(label.panel)
        .map_or(0.0, |panel| panel.pose.rows[2][2] * out);
    // Source: core/CONTRACT.md, "Labels on panels": a panel within 45° of level is read from above or from below.
    let level = std::f64::consts::FRAC_1_SQRT_2;
    match slope {
        slope if slope > level => "read from above",
        slope if slope < -level => "read from below",
        _ => "upright as the panel stands in the finished tray",
    }
}
