//! The outside checkers: a Python and JavaScript packages of their own, and programs of the system.
//!
//! Given the lists in `tests/outside`, it makes or updates the Python in `target/outside-checks` and the JavaScript in
//! `target/outside-node`, and says which programs are missing and how to install them. It installs nothing outside the target folder.

use std::env;
use std::fs;
use std::path::PathBuf;
use std::process::Command;

use crate::repository::{Done, answer, target, top};

/// Makes the Python of the outside checks, or brings it up to its list of packages.
pub(crate) fn prepare_python() -> Done {
    let wanted_path = top().join("tests/outside/requirements.txt");
    let wanted = fs::read_to_string(&wanted_path)
        .map_err(|fault| format!("{}: {fault}", wanted_path.display()))?;
    let home = target()?.join("outside-checks");
    let installed = home.join("requirements.txt");
    if fs::read_to_string(&installed).is_ok_and(|text| text == wanted) {
        return Ok(());
    }
    println!(
        "Preparing the Python of the outside checks in {} …",
        home.display()
    );
    answer(
        Command::new("python3")
            .args(["-m", "venv", "--clear"])
            .arg(&home),
    )
    .map_err(|fault| {
        format!(
            "{fault}Install python3 and its venv module (apt-get install python3 python3-venv)."
        )
    })?;
    answer(
        Command::new(home.join("bin/python"))
            .args([
                "-m",
                "pip",
                "install",
                "--quiet",
                "--disable-pip-version-check",
            ])
            .arg("--requirement")
            .arg(&wanted_path),
    )?;
    fs::write(&installed, wanted).map_err(|fault| format!("{}: {fault}", installed.display()))
}

/// Installs the JavaScript packages of the outside checks, or brings them up to their list.
pub(crate) fn prepare_node() -> Done {
    let wanted_path = top().join("tests/outside/package.json");
    let wanted = fs::read_to_string(&wanted_path)
        .map_err(|fault| format!("{}: {fault}", wanted_path.display()))?;
    let home = target()?.join("outside-node");
    let installed = home.join("installed.json");
    if fs::read_to_string(&installed).is_ok_and(|text| text == wanted) {
        return Ok(());
    }
    println!(
        "Preparing the JavaScript of the outside checks in {} …",
        home.display()
    );
    let write = |path: PathBuf| {
        fs::write(&path, &wanted).map_err(|fault| format!("{}: {fault}", path.display()))
    };
    fs::create_dir_all(&home).map_err(|fault| format!("{}: {fault}", home.display()))?;
    write(home.join("package.json"))?;
    answer(
        Command::new("npm")
            .args([
                "install",
                "--silent",
                "--no-audit",
                "--no-fund",
                "--ignore-scripts",
            ])
            .current_dir(&home),
    )
    .map_err(|fault| format!("{fault}Install Node.js with npm (apt-get install nodejs npm)."))?;
    write(installed)
}

/// One sentence for each program that is listed and not there.
pub(crate) fn missing_programs() -> Done<Vec<String>> {
    let path = top().join("tests/outside/programs.txt");
    let text = fs::read_to_string(&path).map_err(|fault| format!("{}: {fault}", path.display()))?;
    let mut missing = Vec::new();
    for line in text.lines().filter(|line| !line.starts_with('#')) {
        let mut words = line.split_whitespace();
        let (Some(program), Some(package)) = (words.next(), words.next()) else {
            continue;
        };
        let purpose = words.collect::<Vec<_>>().join(" ");
        if find(program).is_none() {
            missing.push(format!(
                "{program} is missing: {purpose}. Install the package {package} (apt-get install {package})."
            ));
        }
    }
    Ok(missing)
}

fn find(program: &str) -> Option<PathBuf> {
    env::split_paths(&env::var_os("PATH")?)
        .map(|folder| folder.join(program))
        .find(|path| path.is_file())
}
