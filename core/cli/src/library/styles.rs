//! Styles by name: those that ship with the program and those in folders of the maker's.
//!
//! Given the folders, gives the text of every `*.ron` file in them under the name of its stem. Never reads the text.

use std::borrow::Cow;
use std::fs;
use std::path::{Path, PathBuf};

use crate::error::CliError;

/// (name, path to show, text), in the order of the names; written by `build.rs`.
const SHIPPED: &[(&str, &str, &str)] = &include!(concat!(env!("OUT_DIR"), "/shipped_styles.rs"));

/// A style file larger than this is none. Common practice, none published.
const LARGEST: u64 = 1024 * 1024;

/// All styles, in the order of their names.
#[derive(Debug)]
pub(crate) struct Styles {
    list: Vec<StyleText>,
}

/// One style before anybody has read it.
#[derive(Debug)]
pub(crate) struct StyleText {
    /// Its name: the stem of its file.
    pub(crate) name: String,
    /// The file as the maker knows it.
    pub(crate) path: String,
    /// What stands in it.
    pub(crate) text: Cow<'static, str>,
}

impl Styles {
    /// The shipped styles and those of the folders.
    ///
    /// # Refuses
    /// A folder or file that cannot be read, and a name that another file has.
    pub(crate) fn find(folders: &[PathBuf]) -> Result<Self, CliError> {
        let mut list: Vec<StyleText> = SHIPPED.iter().map(StyleText::shipped).collect();
        let mut seen: Vec<PathBuf> = Vec::new();
        for folder in folders {
            // The same folder named twice is no clash of two files.
            let folder_itself = folder.canonicalize().unwrap_or_else(|_| folder.clone());
            if seen.contains(&folder_itself) {
                continue;
            }
            seen.push(folder_itself);
            for file in style_files(folder)? {
                list.push(read_new(&file, &list)?);
            }
        }
        list.sort_by(|one, other| one.name.cmp(&other.name));
        Ok(Styles { list })
    }

    /// All of them.
    pub(crate) fn all(&self) -> &[StyleText] {
        &self.list
    }

    /// The style of that name.
    pub(crate) fn get(&self, name: &str) -> Option<&StyleText> {
        self.list.iter().find(|style| style.name == name)
    }

    /// Their names in order.
    pub(crate) fn names(&self) -> Vec<&str> {
        self.list.iter().map(|style| style.name.as_str()).collect()
    }
}

impl StyleText {
    fn shipped(&(name, path, text): &(&str, &str, &'static str)) -> Self {
        StyleText {
            name: name.to_owned(),
            path: path.to_owned(),
            text: Cow::Borrowed(text),
        }
    }

    /// The style of one file, whatever others there are.
    ///
    /// # Refuses
    /// What cannot be read as a file of text with a name.
    pub(crate) fn of_file(file: &Path) -> Result<Self, CliError> {
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
        if about.len() > LARGEST {
            return Err(error(&format!("is larger than {} KiB", LARGEST / 1024)));
        }
        let bytes = fs::read(file).map_err(cannot)?;
        match String::from_utf8(bytes) {
            Ok(text) => Ok(StyleText {
                name: name.to_owned(),
                path: path.clone(),
                text: Cow::Owned(text),
            }),
            Err(_) => Err(error("is not UTF-8 text")),
        }
    }

    /// The text of the style of that name that ships with the program, if there is one.
    pub(crate) fn shipped_as(name: &str) -> Option<&'static str> {
        let found = SHIPPED.iter().find(|(shipped, ..)| *shipped == name);
        found.map(|(.., text)| *text)
    }
}

/// The `*.ron` files of a folder in the order of their names.
fn style_files(folder: &Path) -> Result<Vec<PathBuf>, CliError> {
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

fn read_new(file: &Path, known: &[StyleText]) -> Result<StyleText, CliError> {
    let style = StyleText::of_file(file)?;
    match known.iter().find(|other| other.name == style.name) {
        Some(other) => Err(CliError::sentence(format_args!(
            "the style {} {}",
            style.path,
            clash(&style.name, other)
        ))),
        None => Ok(style),
    }
}

fn clash(name: &str, other: &StyleText) -> String {
    match &other.text {
        Cow::Borrowed(_) => format!(
            "has the name of the style `{name}` that ships with the program ({}): rename the file",
            other.path
        ),
        Cow::Owned(_) => format!("has the same name as {}: rename one of the two", other.path),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sentence(make_summary: Result<Styles, CliError>) -> String {
        match make_summary {
            Err(CliError::Sentence(words)) => words,
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

    // Source: the contract, "Everywhere" and "Styles shipped".
    #[test]
    fn folders_add_styles_and_redefine_none() {
        let one = folder_with(&["lens-nest.ron", "notes.txt"]);
        let other = folder_with(&["lens-nest.ron"]);
        let folders = |list: &[&tempfile::TempDir]| -> Vec<PathBuf> {
            list.iter().map(|folder| folder.path().to_owned()).collect()
        };

        let found = Styles::find(&folders(&[&one, &one])).expect("one folder, named twice");
        assert_eq!(
            found.get("lens-nest").map(|style| &*style.text),
            Some("Style()")
        );
        assert!(found.get("notes").is_none());

        let said = sentence(Styles::find(&folders(&[&one, &other])));
        for folder in [&one, &other] {
            let file = folder.path().join("lens-nest.ron");
            assert!(said.contains(&file.display().to_string()), "{said}");
        }

        let shipped = Styles::find(&[]).expect("the shipped styles");
        for name in shipped.names() {
            let again = folder_with(&[&format!("{name}.ron")]);
            let said = sentence(Styles::find(&folders(&[&again])));
            assert!(said.contains("ships with the program"), "{said}");
        }

        let said = sentence(Styles::find(&[PathBuf::from("no-such-folder")]));
        assert!(said.contains("no-such-folder"), "{said}");
    }
}
