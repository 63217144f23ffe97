//! `cargo xtask plugins DIR`: the exporters' libraries, built and placed into a folder.
//!
//! Given a folder, made if missing, it puts one library an exporter into it. The program finds them there when it is
//! called with `--plugins DIR`.

use std::fs;
use std::path::Path;

use crate::repository::{Done, cargo, exporters, library_name, run, target};

/// Builds the exporters in the release profile and places their libraries.
pub(crate) fn plugins(folder: &Path) -> Done {
    for library in build_release(&[])? {
        println!("{}", place(&library, folder)?);
    }
    Ok(())
}

/// Builds the exporters, and other packages with them, in the release profile; gives the exporters' file names.
pub(crate) fn build_release(others: &[&str]) -> Done<Vec<String>> {
    let exporters = exporters()?;
    let mut build = cargo(&["build", "--release", "--locked"])?;
    for package in exporters
        .iter()
        .map(String::as_str)
        .chain(others.iter().copied())
    {
        build.args(["--package", package]);
    }
    run(&mut build)?;
    Ok(exporters.iter().map(|name| library_name(name)).collect())
}

/// Copies a built file into a folder, made if missing; gives the new path.
pub(crate) fn place(file: &str, folder: &Path) -> Done<String> {
    let from = target()?.join("release").join(file);
    let into = folder.join(file);
    fs::create_dir_all(folder)
        .and_then(|()| fs::copy(&from, &into))
        .map_err(|fault| format!("{} to {}: {fault}", from.display(), into.display()))?;
    Ok(into.display().to_string())
}
