//! The licences of everything that the release contains.
//!
//! Asks cargo which packages are linked and copies the licence texts that they bring along. A package without a text
//! is listed with the licence it declares. It never judges a licence.

use std::fs;
use std::path::{Path, PathBuf};

use crate::repository::{Done, answer, cargo, exporters, list};

/// Writes `LIST.txt` and one folder of texts a package.
pub(crate) fn licences(folder: &Path) -> Done {
    fs::create_dir_all(folder).map_err(|fault| format!("{}: {fault}", folder.display()))?;
    let packages = linked_packages()?;
    let sources = source_folders()?;
    let mut lines = Vec::new();
    for (package, licence) in &packages {
        let source = sources.iter().find(|source| source.ends_with(package));
        let texts = source
            .map(|source| licence_texts(source))
            .transpose()?
            .unwrap_or_default();
        for text in &texts {
            let into = folder.join(package);
            let name = text.file_name().unwrap_or_default();
            fs::create_dir_all(&into)
                .and_then(|()| fs::copy(text, into.join(name)))
                .map_err(|fault| format!("{}: {fault}", text.display()))?;
        }
        let remark = if texts.is_empty() {
            " (brings no text)"
        } else {
            ""
        };
        lines.push(format!("{package}: {licence}{remark}\n"));
    }
    let path = folder.join("LIST.txt");
    fs::write(&path, lines.concat()).map_err(|fault| format!("{}: {fault}", path.display()))
}

/// Packages of others that end up in the program or an exporter, as `NAME-VERSION`, with their licences.
fn linked_packages() -> Done<Vec<(String, String)>> {
    let mut tree = cargo(&[
        "tree",
        "--edges",
        "normal,no-proc-macro",
        "--prefix",
        "none",
    ])?;
    tree.args(["--format", "{p}|{l}", "--package", "traywright"]);
    for exporter in exporters()? {
        tree.args(["--package", &exporter]);
    }
    let text = answer(&mut tree)?;
    let mut packages: Vec<(String, String)> = text
        .lines()
        .filter_map(|line| line.split_once('|'))
        // Our own packages are the ones with a folder behind their version.
        .filter(|(package, _)| !package.contains("(/"))
        .filter_map(|(package, licence)| {
            let (name, version) = package.split_once(" v")?;
            let version = version.split(' ').next()?;
            Some((
                format!("{name}-{version}"),
                licence.trim_end_matches(" (*)").to_owned(),
            ))
        })
        .collect();
    packages.sort();
    packages.dedup();
    Ok(packages)
}

/// The folders in which the sources of all packages lie.
fn source_folders() -> Done<Vec<PathBuf>> {
    let metadata = answer(&mut cargo(&[
        "metadata",
        "--format-version",
        "1",
        "--locked",
    ])?)?;
    let folders = metadata
        .split("\"manifest_path\":\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .filter_map(|manifest| Path::new(manifest).parent().map(Path::to_path_buf));
    Ok(folders.collect())
}

fn licence_texts(source: &Path) -> Done<Vec<PathBuf>> {
    let is_licence = |path: &PathBuf| {
        let name = path
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .to_uppercase();
        ["LICEN", "COPYING", "NOTICE", "UNLICENSE"]
            .iter()
            .any(|start| name.starts_with(start))
            && path.is_file()
    };
    Ok(list(source)?.into_iter().filter(is_licence).collect())
}
