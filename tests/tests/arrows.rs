//! Who may depend on whom.
//!
//! Source: the map in DEVELOPERS.md: engine → document; nest → document; job → engine, document; cli → job, engine, nest, document;
//! page → job, engine, document and, for WebAssembly, the exporters; exporters → document; the exporters pdf and booklet → paper; tests → engine, nest, document (and the built executable);
//! xtask → nothing; and the engine, the job and the nesting use no file, thread, process, environment or clock.

#[path = "arrows/modules.rs"]
mod modules;

use std::collections::BTreeSet;
use std::path::Path;

use serde_json::Value;
use traywright_tests::{cargo, files, repository};

#[test]
fn every_arrow_between_our_packages_is_on_the_map() {
    let house = House::read();
    let folders = house.folders();
    let mut allowed = BTreeSet::new();
    for from in &folders {
        let arrows = arrows_from(from).iter().map(|to| (*to).to_owned());
        allowed.extend(
            arrows
                .filter(|to| folders.contains(to))
                .map(|to| (from.clone(), to)),
        );
    }
    assert_eq!(house.arrows(), allowed);
}

#[test]
fn the_document_depends_on_serde_its_json_base64_and_libm_alone() {
    // Source: the map: an exporter's author gets the document and the wire, and links nothing beyond that but the
    // functions that have the same bits on every system and the letters in which bytes travel.
    let house = House::read();
    assert_eq!(
        house.foreign("core/document"),
        ["base64", "libm", "serde", "serde_json"]
    );
}

#[test]
fn xtask_depends_on_nothing() {
    let house = House::read();
    assert_eq!(house.foreign("xtask"), Vec::<String>::new());
}

#[test]
fn the_engine_the_job_and_the_nesting_use_no_side_effects() {
    // Source: the map: both run wherever a front end runs them, and give the same bytes on any day and any system.
    const SIDE_EFFECTS: [&str; 7] = [
        "std::fs",
        "std::thread",
        "std::env",
        "std::process",
        "std::time",
        "std::io",
        "std::net",
    ];
    let mut read = 0;
    for folder in ["core/engine/src", "core/job/src", "core/nest/src"] {
        for file in files(folder, "rs") {
            read += 1;
            let text = std::fs::read_to_string(&file).expect("a source file can be read");
            // `std::{…}` would hide a module from the search.
            for word in SIDE_EFFECTS.iter().chain(&["std::{"]) {
                assert!(!text.contains(word), "{} uses {word}", file.display());
            }
        }
    }
    assert!(read > 100, "only {read} files were read");
}

fn arrows_from(folder: &str) -> &'static [&'static str] {
    match folder {
        "core/document" | "xtask" => &[],
        "core/engine" | "core/nest" => &["core/document"],
        "core/job" => &["core/document", "core/engine"],
        "tests" => &["core/document", "core/engine", "core/nest"],
        "core/cli" => &["core/document", "core/engine", "core/job", "core/nest"],
        "core/page" => &[
            "core/document",
            "core/engine",
            "core/job",
            "exporters/booklet",
            "exporters/dxf",
            "exporters/fold",
            "exporters/html",
            "exporters/look",
            "exporters/pdf",
            "exporters/solid",
            "exporters/svg",
        ],
        "exporters/pdf" | "exporters/booklet" => {
            &["core/document", "exporters/look", "exporters/paper"]
        }
        "exporters/svg" | "exporters/dxf" | "exporters/html" | "exporters/paper" => {
            &["core/document", "exporters/look"]
        }
        exporter if exporter.starts_with("exporters/") => &["core/document"],
        other => panic!("{other} has no place on the map"),
    }
}

/// What cargo knows about the packages of the workspace.
struct House {
    packages: Vec<Value>,
}

impl House {
    fn read() -> House {
        let output = cargo()
            .args(["metadata", "--no-deps", "--format-version", "1"])
            .output()
            .expect("cargo can be started");
        assert!(output.status.success(), "cargo metadata: {output:?}");
        let metadata: Value = serde_json::from_slice(&output.stdout).expect("cargo writes JSON");
        let packages = metadata["packages"]
            .as_array()
            .expect("packages are listed");
        House {
            packages: packages.clone(),
        }
    }

    fn folders(&self) -> Vec<String> {
        self.packages.iter().map(folder).collect()
    }

    /// Every dependency of one of ours on another one, for whatever purpose, by folders.
    fn arrows(&self) -> BTreeSet<(String, String)> {
        let mut arrows = BTreeSet::new();
        for package in &self.packages {
            for dependency in dependencies(package) {
                if let Some(path) = dependency["path"].as_str() {
                    arrows.insert((folder(package), below_top(Path::new(path))));
                }
            }
        }
        arrows
    }

    /// The packages of others on which the one in a folder depends, for whatever purpose.
    fn foreign(&self, wanted: &str) -> Vec<String> {
        let package = self
            .packages
            .iter()
            .find(|package| folder(package) == wanted)
            .expect("the folder holds a package");
        let mut names: Vec<String> = dependencies(package)
            .iter()
            .filter(|dependency| dependency["path"].is_null())
            .filter_map(|dependency| dependency["name"].as_str())
            .map(ToOwned::to_owned)
            .collect();
        names.sort();
        names
    }
}

fn dependencies(package: &Value) -> &[Value] {
    package["dependencies"]
        .as_array()
        .map_or(&[], Vec::as_slice)
}

fn folder(package: &Value) -> String {
    let manifest = package["manifest_path"]
        .as_str()
        .expect("a package has a manifest");
    below_top(
        Path::new(manifest)
            .parent()
            .expect("a manifest lies in a folder"),
    )
}

fn below_top(path: &Path) -> String {
    path.strip_prefix(repository())
        .expect("our packages lie in the repository")
        .to_string_lossy()
        .into_owned()
}
