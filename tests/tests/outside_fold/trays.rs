//! Trays to fold: made by the engine, and written as FOLD by the program.

use std::fs;

use traywright_document::Document;
use traywright_engine::{Job, make};
use traywright_tests::jobs::{style, written};
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
    fs::write(folder.path().join("tray.kdl"), written(style_name, job))
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
        document: made.finish().document(),
        file,
    }
}
