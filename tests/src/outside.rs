//! Checkers that are not ours: where they are, and what is said when they are missing.
//!
//! Given a checker's name, it gives where it lies, or says loudly, past the capture of test output, that a check is
//! skipped and how to get the checker. It never lets a check pass in silence.

use std::env;
use std::fs;
use std::io::{self, Write};
use std::path::PathBuf;
use std::process::{Command, Output};

use serde_json::Value;

use crate::{repository, target_folder};

/// Runs a script of `tests/outside` with the Python of the outside checks: what it printed, or what it complained of.
///
/// None when that Python is missing, which has then been said.
///
/// # Panics
/// When the Python is there and cannot be started.
pub fn python(script: &str, arguments: &[&str]) -> Option<Result<String, String>> {
    let home = target_folder().join("outside-checks");
    let interpreter = home.join("bin/python");
    if !home.join("requirements.txt").is_file() {
        skip(
            script,
            "its Python is missing: run `cargo xtask test`, which makes it (Debian package python3-venv)",
        );
        return None;
    }
    let output = Command::new(interpreter)
        .arg(repository().join("tests/outside").join(script))
        .args(arguments)
        .env("PYTHONDONTWRITEBYTECODE", "1")
        .output()
        .expect("the Python of the outside checks can be started");
    Some(said(&output))
}

/// What a script of [`python`] measured, which it prints as JSON, or what it complained of.
///
/// # Panics
/// When it prints something else.
pub fn measured(script: &str, arguments: &[&str]) -> Option<Result<Value, String>> {
    let said = python(script, arguments)?;
    Some(said.map(|text| serde_json::from_str(&text).expect("the script prints JSON")))
}

/// Runs a script of `tests/outside` with Node.js and the JavaScript packages of the outside checks: what it printed, or
/// what it complained of.
///
/// None when Node.js or the packages are missing, which has then been said.
///
/// # Panics
/// When Node.js is there and cannot be started.
pub fn node(script: &str, arguments: &[&str]) -> Option<Result<String, String>> {
    let interpreter = system_program("node", script)?;
    let home = target_folder().join("outside-node");
    if !home.join("installed.json").is_file() {
        skip(
            script,
            "its JavaScript packages are missing: run `cargo xtask test`, which installs them (Debian package npm)",
        );
        return None;
    }
    let output = Command::new(interpreter)
        .arg(repository().join("tests/outside").join(script))
        .args(arguments)
        .env("NODE_PATH", home.join("node_modules"))
        .output()
        .expect("Node.js can be started");
    Some(said(&output))
}

/// Runs a script of `tests/page` with Node.js, without packages of others: the JSON that it printed, or what it complained
/// of.
///
/// None when Node.js is missing, which has then been said.
///
/// # Panics
/// When Node.js is there and cannot be started, or the script prints something else.
pub fn page_script(script: &str, arguments: &[&str]) -> Option<Result<Value, String>> {
    let interpreter = system_program("node", script)?;
    let output = Command::new(interpreter)
        .arg(repository().join("tests/page").join(script))
        .args(arguments)
        .output()
        .expect("Node.js can be started");
    Some(said(&output).map(|text| serde_json::from_str(&text).expect("the script prints JSON")))
}

/// The module of the page (`traywright.wasm`) or the page itself (`traywright.html`), if it was built.
///
/// None when it is missing, which has then been said.
pub fn built_page(file: &str, check: &str) -> Option<PathBuf> {
    let built = target_folder().join("page").join(file);
    if built.is_file() {
        return Some(built);
    }
    skip(
        check,
        "the page is missing: run `cargo xtask page` (Debian packages rustc-web rust-web-src lld binaryen)",
    );
    None
}

fn said(output: &Output) -> Result<String, String> {
    let words = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    if output.status.success() {
        Ok(words(&output.stdout))
    } else {
        Err(words(&output.stderr))
    }
}

/// Where a program of `tests/outside/programs.txt` lies, for the check of that name.
///
/// None when it is missing, which has then been said.
///
/// # Panics
/// When the program is not in the list.
pub fn system_program(name: &str, check: &str) -> Option<PathBuf> {
    let list = repository().join("tests/outside/programs.txt");
    let list = fs::read_to_string(list).expect("the list of outside programs can be read");
    let package = list
        .lines()
        .map(|line| line.split_whitespace().collect::<Vec<_>>())
        .find(|words| words.first() == Some(&name))
        .and_then(|words| words.get(1).map(|package| (*package).to_owned()))
        .unwrap_or_else(|| panic!("{name} is not in tests/outside/programs.txt"));
    let path = env::var_os("PATH").unwrap_or_default();
    let found = env::split_paths(&path)
        .map(|folder| folder.join(name))
        .find(|path| path.is_file());
    if found.is_none() {
        skip(
            check,
            &format!(
                "{name} is missing: install the package {package} (apt-get install {package})"
            ),
        );
    }
    found
}

/// Says that a check is skipped; `cargo xtask test` counts these lines.
pub fn skip(check: &str, why: &str) {
    // The print macros are captured in a test that passes, and nobody would see it.
    writeln!(io::stderr(), "SKIPPED outside check `{check}`: {why}")
        .expect("the terminal can be written to");
}
