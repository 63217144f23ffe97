//! What the program is made of: packages from one place, under licences that let anybody use it, each in one version.
//!
//! Source: the licences, README.md and the project's own rule (MIT, Apache, BSD, Zlib, ISC, Unicode, OFL; MPL-2.0 for a
//! package used unchanged); how licences are combined, SPDX 2.3, annex D, read by the crate `spdx`.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use serde_json::Value;
use spdx::{Expression, ParseMode};
use traywright_tests::{cargo, files, repository};

const LICENCES: [&str; 11] = [
    "0BSD",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "ISC",
    "MIT",
    "MPL-2.0",
    "OFL-1.1",
    "Unicode-3.0",
    "Unicode-DFS-2016",
    "Zlib",
];

/// Packages that come in two versions, because others ask for an old one.
const TWICE: [&str; 5] = ["heck", "miniz_oxide", "num-traits", "syn", "unicode-width"];

/// Files that may contain unsafe code: the interface between program and exporters on both sides of it, and the
/// interface of the page's module.
const UNSAFE: [&str; 4] = [
    "core/cli/src/exporter_child.rs",
    "core/document/src/plugin_api.rs",
    "core/page/src/door.rs",
    "core/page/src/exporting.rs",
];

/// Why a licence does not do; none if it does.
fn refused(licence: &str) -> Option<String> {
    let expression = match Expression::parse_mode(licence, ParseMode::LAX) {
        Ok(expression) => expression,
        Err(why) => return Some(why.to_string()),
    };
    let may_use = expression.evaluate(|part| {
        let id = part.license.id().map(|id| id.name);
        id.is_some_and(|id| LICENCES.contains(&id))
    });
    (!may_use).then(|| licence.to_owned())
}

#[test]
fn every_licence_lets_anybody_use_the_program() {
    let about = cargo().arg("-vV").output().expect("cargo can be started");
    let about = String::from_utf8(about.stdout).expect("cargo writes UTF-8");
    let platform = about.lines().find_map(|line| line.strip_prefix("host: "));
    let platform = platform.expect("cargo names the system that it runs on");
    let output = cargo()
        .args([
            "metadata",
            "--format-version",
            "1",
            "--locked",
            "--offline",
            "--filter-platform",
            platform,
        ])
        .output()
        .expect("cargo can be started");
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    let metadata: Value = serde_json::from_slice(&output.stdout).expect("cargo writes JSON");
    let packages = metadata["packages"]
        .as_array()
        .expect("packages are listed");
    assert!(packages.len() > 150, "{} packages", packages.len());
    for package in packages {
        let licence = package["license"].as_str().unwrap_or("none stated");
        assert_eq!(refused(licence), None, "{}", package["name"]);
    }
}

#[test]
fn licences_are_told_apart() {
    for good in [
        "MIT/Apache-2.0",
        "MIT OR GPL-3.0-only",
        "(MIT OR Apache-2.0) AND Unicode-3.0",
    ] {
        assert_eq!(refused(good), None);
    }
    for bad in ["GPL-3.0-only", "MIT AND AGPL-3.0-only", "none stated"] {
        assert!(refused(bad).is_some(), "{bad}");
    }
}

#[test]
fn packages_come_from_one_registry_and_once() {
    let lock = fs::read_to_string(repository().join("Cargo.lock")).expect("it can be read");
    let mut versions: BTreeMap<&str, usize> = BTreeMap::new();
    for package in lock.split("[[package]]\n").skip(1) {
        let value = |key: &str| {
            let line = package.lines().find_map(|line| line.strip_prefix(key));
            line.map(|value| value.trim_matches('"'))
        };
        let name = value("name = ").expect("a package has a name");
        *versions.entry(name).or_default() += 1;
        let source = value("source = ");
        let is_ours = name == "xtask" || name.starts_with("traywright");
        assert_eq!(source.is_none(), is_ours, "{name}");
        let registry = "registry+https://github.com/rust-lang/crates.io-index";
        assert!(
            source.is_none_or(|source| source == registry),
            "{name}: {source:?}"
        );
    }
    let twice: Vec<&str> = versions
        .into_iter()
        .filter(|(_, count)| *count > 1)
        .map(|(name, _)| name)
        .collect();
    assert_eq!(twice, TWICE);
}

#[test]
fn unsafe_code_is_allowed_in_the_files_that_need_it_alone() {
    // The compiler refuses it elsewhere: `unsafe_code` is denied to all packages, which each of them takes on.
    let manifest = fs::read_to_string(repository().join("Cargo.toml")).expect("it can be read");
    assert!(manifest.contains("unsafe_code = \"deny\""));
    let mut allowed = BTreeSet::new();
    for folder in ["core", "exporters", "tests", "xtask"] {
        for file in files(folder, "rs") {
            let text = fs::read_to_string(&file).expect("a source file can be read");
            let name = file
                .strip_prefix(repository())
                .unwrap_or(&file)
                .display()
                .to_string();
            let is_this = name == "tests/tests/dependencies.rs";
            if !is_this && text.contains("allow(unsafe_code") {
                allowed.insert(name);
            }
        }
        for manifest in files(folder, "toml")
            .iter()
            .filter(|file| file.ends_with("Cargo.toml"))
        {
            let text = fs::read_to_string(manifest).expect("a manifest can be read");
            let denies = ["[lints]\nworkspace = true", "unsafe_code = \"deny\""];
            assert!(
                denies.iter().any(|line| text.contains(line)),
                "{}",
                manifest.display()
            );
        }
    }
    assert_eq!(allowed, UNSAFE.map(str::to_owned).into());
}
