//! Builds the program and every exporter, once in a test process.
//!
//! Given the place of the running test, it gives the program in the same target folder and profile, with the
//! exporters' libraries beside it. Cargo does not build a library that nothing links, so a test must ask for it.
//! It never names an exporter: a folder of `exporters/` whose manifest says `cdylib` is one.

use std::env;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

use crate::repository;

/// The built program; the exporters' libraries lie beside it.
///
/// # Panics
/// When the program or an exporter does not build.
pub fn program() -> &'static Path {
    static PROGRAM: OnceLock<PathBuf> = OnceLock::new();
    PROGRAM.get_or_init(|| {
        let place = BuildPlace::of_this_test();
        build(&place);
        let program = place
            .profile_folder()
            .join(format!("traywright{}", env::consts::EXE_SUFFIX));
        assert!(
            program.is_file(),
            "cargo built no program at {}",
            program.display()
        );
        program
    })
}

/// Cargo at the repository's top, building into the target folder of the running test.
pub fn cargo() -> Command {
    let mut cargo = Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    cargo
        .current_dir(repository())
        .env("CARGO_TARGET_DIR", target_folder());
    cargo
}

/// The target folder of the running test.
pub fn target_folder() -> PathBuf {
    BuildPlace::of_this_test().target
}

/// Where cargo put the running test, `TARGET/PROFILE/deps/NAME-HASH`.
struct BuildPlace {
    target: PathBuf,
    profile: String,
}

impl BuildPlace {
    fn of_this_test() -> Self {
        let test = env::current_exe().expect("a running test knows its own file");
        let profile = test
            .ancestors()
            .skip(1)
            .find(|folder| !folder.ends_with("deps"))
            .expect("cargo puts a test into a folder");
        BuildPlace {
            target: profile
                .parent()
                .expect("a profile's folder lies in the target folder")
                .to_path_buf(),
            profile: profile
                .file_name()
                .expect("a profile's folder has a name")
                .to_string_lossy()
                .into_owned(),
        }
    }

    fn profile_folder(&self) -> PathBuf {
        self.target.join(&self.profile)
    }
}

fn build(place: &BuildPlace) {
    // The folder of cargo's `dev` profile is called `debug`.
    let profile = match place.profile.as_str() {
        "debug" => "dev",
        other => other,
    };
    let mut cargo = cargo();
    cargo
        .args(["build", "--quiet", "--locked", "--profile", profile])
        .args(["--package", "traywright"]);
    for exporter in exporters() {
        cargo.args(["--package", &exporter]);
    }
    let outcome = cargo.output().expect("cargo can be started");
    assert!(
        outcome.status.success(),
        "the program under test does not build:\n{}",
        String::from_utf8_lossy(&outcome.stderr)
    );
}

/// The packages in `exporters/` that are built as libraries to load.
fn exporters() -> Vec<String> {
    let folder = repository().join("exporters");
    let mut names: Vec<String> = fs::read_dir(&folder)
        .expect("the exporters' folder can be read")
        .filter_map(|entry| fs::read_to_string(entry.ok()?.path().join("Cargo.toml")).ok())
        .filter(|manifest| manifest.contains("\"cdylib\""))
        .filter_map(|manifest| package_name(&manifest))
        .collect();
    names.sort();
    names
}

fn package_name(manifest: &str) -> Option<String> {
    let line = manifest
        .lines()
        .find_map(|line| line.strip_prefix("name = \""))?;
    Some(line.trim_end_matches('"').to_owned())
}
