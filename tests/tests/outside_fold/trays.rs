//! Trays to fold: made by the engine, and written as FOLD by the program.

use std::fs;

use traywright_document::Document;
use traywright_engine::job::{Cut, DrawnFace};
use traywright_engine::{Job, make};
use traywright_tests::jobs::style;
use traywright_tests::{repository, run};

/// A tray that was made as a document, and its FOLD file as the program writes it.
pub(crate) struct Tray {
    pub(crate) name: String,
    pub(crate) document: Document,
    pub(crate) file: String,
}

/// Makes a tray twice: as a document by the engine, and as a file by the program.
pub(crate) fn tray(name: String, style_name: &str, job: &Job) -> Tray {
    let place = ["designs/styles", "tests/styles"]
        .map(|folder| format!("{folder}/{style_name}.ron"))
        .into_iter()
        .find(|place| repository().join(place).is_file())
        .expect("the style is in the tree");
    let made = make(&style(&place), job).unwrap_or_else(|refusal| panic!("{name}: {refusal:#?}"));
    let folder = tempfile::tempdir().expect("a folder can be made");
    fs::write(folder.path().join("tray.kdl"), words(style_name, job))
        .expect("a job can be written");
    let styles = repository().join("tests/styles");
    let styles = styles.to_str().expect("the repository has a plain name");
    let outcome = run(
        folder.path(),
        &["make", "tray.kdl", "--as", "fold", "--styles", styles],
    );
    assert_eq!(outcome.code, 0, "{name}: {}", outcome.stderr);
    let file = fs::read_to_string(folder.path().join("tray.fold")).expect("the file can be read");
    Tray {
        name,
        document: made.document(),
        file,
    }
}

/// A job as a maker writes it.
fn words(style: &str, job: &Job) -> String {
    let (size, item, board, fit) = (&job.box_size, &job.items[0], &job.board, &job.fit);
    let measures = |[length, width, depth]: [f64; 3]| {
        format!("length=(mm){length} width=(mm){width} depth=(mm){depth}")
    };
    let cut = match job.slot.cut {
        Cut::Cross => "cross",
        Cut::Doors => "doors",
        Cut::Open => "open",
    };
    let face = match job.drawn_face {
        DrawnFace::Inside => "inside",
        DrawnFace::Outside => "outside",
    };
    [
        format!("tray style=\"{style}\""),
        format!("box {}", measures([size.length, size.width, size.depth])),
        format!(
            "item \"item\" {}",
            measures([item.length, item.width, item.depth])
        ),
        format!(
            "board caliper=(mm){} hinge=(mm){}",
            board.caliper, board.hinge
        ),
        format!(
            "fit box=(mm){} item=(mm){} play=(mm){}",
            fit.around_tray, fit.around_item, fit.play
        ),
        format!("slot cut=\"{cut}\""),
        format!("draw face=\"{face}\"\n"),
    ]
    .join("\n")
}
