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
        let mut texts = Vec::new();
        if let Some(source) = sources.iter().find(|source| source.ends_with(package)) {
            licence_texts(source, &mut texts)?;
            copy_all(&texts, source, &folder.join(package))?;
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

/// Licence texts anywhere in a package, for a font or a table may have its own.
fn licence_texts(folder: &Path, found: &mut Vec<PathBuf>) -> Done {
    const BEGINNINGS: [&str; 4] = ["LICEN", "COPYING", "NOTICE", "UNLICENSE"];
    for path in list(folder)? {
        let name = path
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .to_uppercase();
        if path.is_dir() {
            licence_texts(&path, found)?;
        } else if BEGINNINGS
            .iter()
            .any(|beginning| name.starts_with(beginning))
        {
            found.push(path);
        }
    }
    Ok(())
}

fn copy_all(texts: &[PathBuf], source: &Path, into: &Path) -> Done {
    for text in texts {
        let target = into.join(text.strip_prefix(source).unwrap_or(text));
        let folder = target.parent().unwrap_or(into);
        fs::create_dir_all(folder)
            .and_then(|()| fs::copy(text, &target))
            .map_err(|fault| format!("{}: {fault}", text.display()))?;
    }
    Ok(())
}
