//! What the figures of a booklet show, told by an example of its exporter's, and what a depth buffer says of that.
//!
//! Given a document; gives for every figure the surfaces and edges as the eye has them, and the stretches of edges that are
//! drawn, as JSON. `outside/visible.py` judges them.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::OnceLock;

use serde_json::Value;
use traywright_document::{Document, wire};

use crate::{cargo, python, target_folder};

/// The figures of a booklet, a list.
///
/// # Panics
/// When the example cannot be built, or does not end well.
pub fn sights(document: &Document) -> Vec<Value> {
    let mut child = Command::new(example())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("the example can be started");
    let mut stdin = child.stdin.take().expect("it listens");
    stdin
        .write_all(&wire::encode(document))
        .expect("it takes the document");
    drop(stdin);
    let output = child.wait_with_output().expect("it ends");
    assert!(output.status.success(), "the example ends well");
    serde_json::from_slice(&output.stdout).expect("it writes JSON")
}

/// The example, built with all that is built for tests, so that nothing is built twice.
fn example() -> &'static Path {
    static EXAMPLE: OnceLock<PathBuf> = OnceLock::new();
    EXAMPLE.get_or_init(|| {
        let built = cargo()
            .args([
                "build",
                "--quiet",
                "--locked",
                "--workspace",
                "--example",
                "sightings",
            ])
            .status()
            .expect("cargo can be started");
        assert!(built.success(), "the example builds");
        target_folder().join("debug/examples/sightings")
    })
}

/// What the depth buffer counted in these figures, or what it found wrong; none if it cannot be asked.
///
/// # Panics
/// When the script prints something else than JSON.
pub fn judged(sights: &[Value]) -> Option<Result<Value, String>> {
    let file = tempfile::NamedTempFile::new().expect("a file can be made");
    let text = Value::from(sights.to_vec()).to_string();
    fs::write(file.path(), text).expect("a file can be written");
    let told = python("visible.py", &[file.path().to_str().expect("plain")])?;
    Some(told.map(|told| serde_json::from_str(&told).expect("the script prints JSON")))
}
