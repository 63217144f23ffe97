//! Delivery of files: all of a call or none, whatever happens while they are written, and what the next call repairs.
//!
//! Source of every expectation: core/CONTRACT.md, "Delivery". Times only end a test that has failed.

mod faults;
mod full;
mod leftovers;
mod replaced;
mod said;
mod signals;
mod turns;
mod verdicts;

use std::fs;
use std::path::{Path, PathBuf};

use tempfile::TempDir;

/// Names and contents of the files in a folder, in the order of the names. A folder has no content.
type Contents = Vec<(String, Vec<u8>)>;

/// A job whose item has this length.
fn job(length: usize) -> String {
    format!(
        "tray style=\"single-slot\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
         item \"lens\" length=(mm){length} width=(mm)61 depth=(mm)28\nboard caliper=(mm)0.29\n"
    )
}

/// A folder with the jobs `lens` and `vial`. In its folder `out` stand an old `lens.svg` and `lens.dxf`.
fn desk() -> TempDir {
    let desk = tempfile::tempdir().expect("a folder can be made");
    for (name, length) in [("lens", 96), ("vial", 88), ("next", 80)] {
        let path = desk.path().join(name).with_extension("kdl");
        fs::write(path, job(length)).expect("a job can be written");
    }
    renew(desk.path());
    desk
}

/// Empties `out` but for two old files.
fn renew(desk: &Path) {
    let out = desk.join("out");
    let _ = fs::remove_dir_all(&out);
    fs::create_dir(&out).expect("a folder can be made");
    for name in ["lens.svg", "lens.dxf"] {
        fs::write(out.join(name), format!("the old {name}")).expect("a file can be written");
    }
}

/// The call whose files are delivered: two old files are replaced, two are new.
const CALL: [&str; 7] = [
    "make", "lens.kdl", "vial.kdl", "--as", "svg,dxf", "--into", "out",
];

/// A later call into the same folder, which writes another file.
const NEXT: [&str; 6] = ["make", "next.kdl", "--as", "svg", "--into", "out"];

fn contents(folder: &Path) -> Contents {
    let entries = fs::read_dir(folder).expect("a folder can be read");
    let entry = |path: PathBuf| {
        let name = path.file_name().expect("a name").to_string_lossy();
        let bytes = match path.is_dir() {
            true => Vec::new(),
            false => fs::read(&path).expect("a file can be read"),
        };
        (name.into_owned(), bytes)
    };
    let mut all: Contents = entries
        .map(|each| entry(each.expect("an entry").path()))
        .collect();
    all.sort();
    all
}

/// Names alone, for messages.
fn names(contents: &Contents) -> Vec<&str> {
    contents.iter().map(|(name, _)| name.as_str()).collect()
}
