//! The styles of a call: the shipped ones and those in the folders that the maker names.
//!
//! **Input:** folders. **Output:** [`Styles`] with the text of every `*.ron` file in them, under the name of its stem.
//! **Errors:** a folder or file that cannot be read, and a name that another file has.

use std::fs;
use std::path::{Path, PathBuf};

use traywright_engine::Style;
use traywright_job::library::{StyleText, Styles};

use crate::error::CliError;

/// The shipped styles and those of the folders.
pub(crate) fn styles(folders: &[PathBuf]) -> Result<Styles, CliError> {
    let mut styles = Styles::shipped();
    for file in style_files(folders)? {
        styles.add(style_of(&file)?)?;
    }
    Ok(styles)
}

/// The files of styles in all folders, those of one folder in the order of their names.
pub(crate) fn style_files(folders: &[PathBuf]) -> Result<Vec<PathBuf>, CliError> {
    let mut files = Vec::new();
    let mut seen: Vec<PathBuf> = Vec::new();
    for folder in folders {
        // The same folder named twice is no conflict of two files.
        let folder_itself = folder.canonicalize().unwrap_or_else(|_| folder.clone());
        if !seen.contains(&folder_itself) {
            seen.push(folder_itself);
            files.extend(files_in(folder)?);
        }
    }
    Ok(files)
}

/// The style in one file, independent of others.
///
/// # Refuses
/// A file that cannot be read as text with a name.
pub(crate) fn style_of(file: &Path) -> Result<StyleText, CliError> {
    let path = file.display().to_string();
    let error = |words: &str| CliError::sentence(format_args!("the style {path} {words}"));
    let Some(name) = file.file_stem().and_then(|stem| stem.to_str()) else {
        return Err(error("has a name that is not UTF-8: rename it"));
    };
    let cannot = |cause: std::io::Error| error(&format!("cannot be read: {cause}"));
    let about = fs::metadata(file).map_err(cannot)?;
    if !about.is_file() {
        return Err(error("is no file"));
    }
    if about.len() > Style::MOST_BYTES as u64 {
        let most = Style::MOST_BYTES / 1024;
        let size = about.len().div_ceil(1024);
        return Err(error(&format!(
            "is {size} KiB large, and a style has at most {most} KiB: is it the right file?"
        )));
    }
    let bytes = fs::read(file).map_err(cannot)?;
    match String::from_utf8(bytes) {
        Ok(text) => Ok(StyleText::new(name, &path, text)),
        Err(_) => Err(error("is not UTF-8 text")),
    }
}

/// The `*.ron` files of a folder in the order of their names.
fn files_in(folder: &Path) -> Result<Vec<PathBuf>, CliError> {
    let unreadable = |error: std::io::Error| {
        let folder = folder.display();
        CliError::sentence(format_args!(
            "the folder of styles {folder} cannot be read: {error}"
        ))
    };
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).map_err(unreadable)? {
        let path = entry.map_err(unreadable)?.path();
        if path.extension().is_some_and(|extension| extension == "ron") {
            files.push(path);
        }
    }
    files.sort();
    Ok(files)
}

#[cfg(test)]
mod tests {
    use traywright_job::error::InputError;

    use super::*;

    fn sentence(outcome: Result<Styles, CliError>) -> String {
        match outcome {
            Err(CliError::Sentence(words) | CliError::Input(InputError::Sentence(words))) => words,
            other => panic!("no sentence: {other:?}"),
        }
    }

    fn folder_with(files: &[&str]) -> tempfile::TempDir {
        let folder = tempfile::tempdir().expect("a temporary folder");
        for file in files {
            fs::write(folder.path().join(file), "Style()").expect("a file in it");
        }
        folder
    }

    // Source: core/CONTRACT.md, "Commands" and "Styles shipped".
    #[test]
    fn folders_add_styles_and_redefine_none() {
        let one = folder_with(&["lens-nest.ron", "notes.txt"]);
        let other = folder_with(&["lens-nest.ron"]);
        let folders = |list: &[&tempfile::TempDir]| -> Vec<PathBuf> {
            list.iter().map(|folder| folder.path().to_owned()).collect()
        };

        let found = styles(&folders(&[&one, &one])).expect("one folder, named twice");
        assert_eq!(
            found.get("lens-nest").map(|style| &*style.text),
            Some("Style()")
        );
        assert!(found.get("notes").is_none());

        let said = sentence(styles(&folders(&[&one, &other])));
        for folder in [&one, &other] {
            let file = folder.path().join("lens-nest.ron");
            assert!(said.contains(&file.display().to_string()), "{said}");
        }

        let shipped = styles(&[]).expect("the shipped styles");
        for name in shipped.names() {
            let again = folder_with(&[&format!("{name}.ron")]);
            let said = sentence(styles(&folders(&[&again])));
            assert!(said.contains("ships with the program"), "{said}");
        }

        let said = sentence(styles(&[PathBuf::from("no-such-folder")]));
        assert!(said.contains("no-such-folder"), "{said}");
    }
}
