//! Finds exporters: beside the program, and in the folders that the maker adds.
//!
//! **Input:** the folders of `--plugins`. **Output:** the libraries named `libtraywright_NAME.so` (with the platform's
//! prefix and suffix) in the order of their names. Beside the program means its own folder, or `../lib/traywright`
//! where it is installed. Never opens a library: that happens in a separate process.

use std::env;
use std::env::consts::{DLL_PREFIX, DLL_SUFFIX};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use traywright_job::nearest::suggestion;

use crate::error::CliError;
use crate::exporter_file::{ExporterFile, name_of};

/// All exporters, in the order of their names.
///
/// # Refuses
/// A folder that cannot be read, and a name that two folders have.
pub(crate) fn find(plugins: &[PathBuf]) -> Result<Vec<ExporterFile>, CliError> {
    let mut found = Vec::new();
    let mut seen = Vec::new();
    for folder in own_folders() {
        // The folders beside the program were not asked for, so a missing one counts as empty.
        if first_time(&folder, &mut seen) && folder.exists() {
            found.extend(libraries(&folder)?);
        }
    }
    for folder in plugins {
        if first_time(folder, &mut seen) {
            found.extend(libraries(folder)?);
        }
    }
    found.sort_by(|one, other| one.name.cmp(&other.name));
    match found.windows(2).find(|pair| pair[0].name == pair[1].name) {
        Some(pair) => Err(clash(&pair[0], &pair[1])),
        None => Ok(found),
    }
}

/// The exporter with that name.
///
/// # Refuses
/// A name that no exporter has, with the nearest one or the file that was looked for.
pub(crate) fn named<'a>(
    name: &str,
    known: &'a [ExporterFile],
) -> Result<&'a ExporterFile, CliError> {
    if let Some(exporter) = known.iter().find(|exporter| exporter.name == name) {
        return Ok(exporter);
    }
    let names: Vec<&str> = known
        .iter()
        .map(|exporter| exporter.name.as_str())
        .collect();
    let fix = if names.is_empty() {
        nothing_found()
    } else {
        suggestion(name, &names)
    };
    Err(CliError::sentence(format_args!(
        "there is no exporter `{name}`; {fix}"
    )))
}

/// The message if there is no exporter at all.
pub(crate) fn nothing_found() -> String {
    let beside = own_folders()
        .first()
        .map(|folder| format!(" beside the program in {}", folder.display()))
        .unwrap_or_default();
    format!(
        "there is no library {DLL_PREFIX}traywright_NAME{DLL_SUFFIX}{beside}; add its folder with `--plugins DIR`"
    )
}

fn own_folders() -> Vec<PathBuf> {
    let program = env::current_exe().unwrap_or_default();
    match program.parent() {
        Some(folder) => vec![
            folder.to_owned(),
            folder.join("..").join("lib").join("traywright"),
        ],
        None => Vec::new(),
    }
}

/// The same folder named twice is no conflict of two files.
fn first_time(folder: &Path, seen: &mut Vec<PathBuf>) -> bool {
    let itself = folder.canonicalize().unwrap_or_else(|_| folder.to_owned());
    let new = !seen.contains(&itself);
    seen.push(itself);
    new
}

fn libraries(folder: &Path) -> Result<Vec<ExporterFile>, CliError> {
    let unreadable = |error: io::Error| {
        let folder = folder.display();
        let cause = format_args!("the folder of exporters {folder} cannot be read: {error}");
        CliError::sentence(cause)
    };
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).map_err(unreadable)? {
        let path = entry.map_err(unreadable)?.path();
        if let Some(name) = name_of(&path) {
            found.push(ExporterFile {
                name: name.to_owned(),
                path,
            });
        }
    }
    Ok(found)
}

fn clash(one: &ExporterFile, other: &ExporterFile) -> CliError {
    CliError::sentence(format_args!(
        "the exporter `{}` is there twice, as {} and as {}: take one of them away",
        one.name,
        one.path.display(),
        other.path.display()
    ))
}
