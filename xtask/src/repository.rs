//! The tree and how cargo is called in it.
//!
//! Gives the repository's folders, its files and its exporters. Never changes anything.

use std::env;
use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// What was asked for, or a sentence about why it was not done.
pub(crate) type Done<T = ()> = Result<T, String>;

/// The top folder of the repository.
pub(crate) fn top() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("xtask lies one folder below the top")
}

/// The target folder that cargo uses, found from where this very program lies.
pub(crate) fn target() -> Done<PathBuf> {
    let own = env::current_exe().map_err(|fault| format!("where am I? {fault}"))?;
    own.parent()
        .and_then(Path::parent)
        .map(Path::to_path_buf)
        .ok_or_else(|| format!("{} is in no target folder", own.display()))
}

/// Cargo, at the top of the repository, building into the same target folder.
pub(crate) fn cargo(arguments: &[&str]) -> Done<Command> {
    let mut cargo = Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    cargo
        .current_dir(top())
        .args(arguments)
        .env("CARGO_TARGET_DIR", target()?);
    Ok(cargo)
}

/// Runs a command to its end; a failure names it.
pub(crate) fn run(command: &mut Command) -> Done {
    let status = command.status().map_err(|fault| cannot(command, &fault))?;
    if status.success() {
        Ok(())
    } else {
        Err(format!("{} failed: {status}", name_of(command)))
    }
}

/// Runs a command to its end and gives what it printed; a failure shows what it complained of.
pub(crate) fn answer(command: &mut Command) -> Done<String> {
    let output = command.output().map_err(|fault| cannot(command, &fault))?;
    if output.status.success() {
        String::from_utf8(output.stdout)
            .map_err(|_| format!("{} printed no text", name_of(command)))
    } else {
        Err(format!(
            "{} failed: {}\n{}",
            name_of(command),
            output.status,
            String::from_utf8_lossy(&output.stderr)
        ))
    }
}

/// Every file that belongs to the tree, in order, as a path from the top.
pub(crate) fn files() -> Done<Vec<PathBuf>> {
    let mut found = Vec::new();
    walk(top(), &mut found)?;
    found.sort();
    Ok(found)
}

/// The packages in `exporters/` that are built as libraries to load.
pub(crate) fn exporters() -> Done<Vec<String>> {
    let mut names: Vec<String> = list(&top().join("exporters"))?
        .iter()
        .filter_map(|folder| fs::read_to_string(folder.join("Cargo.toml")).ok())
        .filter(|manifest| manifest.contains("\"cdylib\""))
        .filter_map(|manifest| {
            let line = manifest
                .lines()
                .find_map(|line| line.strip_prefix("name = \""))?;
            Some(line.trim_end_matches('"').to_owned())
        })
        .collect();
    names.sort();
    Ok(names)
}

/// The file name of the library that a package of that name builds.
pub(crate) fn library_name(package: &str) -> String {
    format!(
        "{}{}{}",
        env::consts::DLL_PREFIX,
        package.replace('-', "_"),
        env::consts::DLL_SUFFIX
    )
}

/// Everything in a folder, in order.
pub(crate) fn list(folder: &Path) -> Done<Vec<PathBuf>> {
    let entries = fs::read_dir(folder).map_err(|fault| format!("{}: {fault}", folder.display()))?;
    let mut paths: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).collect();
    paths.sort();
    Ok(paths)
}

fn walk(folder: &Path, found: &mut Vec<PathBuf>) -> Done {
    const NOT_OURS: [&str; 4] = [".git", "target", "out", "__pycache__"];
    for path in list(folder)? {
        let name = path.file_name().and_then(OsStr::to_str).unwrap_or_default();
        if NOT_OURS.contains(&name) {
            continue;
        }
        if path.is_dir() {
            walk(&path, found)?;
        } else if let Ok(below_top) = path.strip_prefix(top()) {
            found.push(below_top.to_path_buf());
        }
    }
    Ok(())
}

fn cannot(command: &Command, fault: &std::io::Error) -> String {
    format!("{} cannot be started: {fault}", name_of(command))
}

fn name_of(command: &Command) -> String {
    let arguments = command.get_args().take(3);
    std::iter::once(command.get_program())
        .chain(arguments)
        .map(OsStr::to_string_lossy)
        .collect::<Vec<_>>()
        .join(" ")
}
