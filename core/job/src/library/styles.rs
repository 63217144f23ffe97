//! The texts of styles: those that ship with the program and those that the maker adds.
//!
//! **Input:** texts with their names. **Output:** styles by name, not yet read. **Errors:** a name used for two styles.

use std::borrow::Cow;

use crate::error::InputError;

/// (name, path to show, text), in the order of the names; written by `build.rs`.
const SHIPPED: &[(&str, &str, &str)] = &include!(concat!(env!("OUT_DIR"), "/shipped_styles.rs"));

/// Like `SHIPPED`, for the pieces that are not trays: they show how card folds.
const TRIALS: &[(&str, &str, &str)] = &include!(concat!(env!("OUT_DIR"), "/trial_styles.rs"));

/// The name of the strip for measuring a card.
pub(crate) const STRIP: &str = "strip";

/// All styles, in the order of their names.
#[derive(Debug)]
pub struct Styles {
    list: Vec<StyleText>,
    trials: Vec<StyleText>,
}

/// One style, not yet read.
#[derive(Debug)]
pub struct StyleText {
    /// Its name: the stem of its file.
    pub name: String,
    /// The file as the maker knows it.
    pub path: String,
    /// Its contents.
    pub text: Cow<'static, str>,
}

impl Styles {
    /// The shipped styles.
    pub fn shipped() -> Self {
        let mut list: Vec<StyleText> = SHIPPED.iter().map(StyleText::shipped).collect();
        list.sort_by(|one, other| one.name.cmp(&other.name));
        Styles {
            list,
            trials: TRIALS.iter().map(StyleText::shipped).collect(),
        }
    }

    /// Adds a style of the maker.
    ///
    /// # Errors
    /// A name that another style has.
    pub fn add(&mut self, style: StyleText) -> Result<(), InputError> {
        if let Some(other) = self.get(&style.name) {
            return Err(InputError::sentence(format_args!(
                "the style {} {}",
                style.path,
                clash(&style.name, other)
            )));
        }
        let place = self.list.partition_point(|other| other.name < style.name);
        self.list.insert(place, style);
        Ok(())
    }

    /// All styles of trays.
    pub fn all(&self) -> &[StyleText] {
        &self.list
    }

    /// The shipped pieces that are not trays.
    pub fn trials(&self) -> &[StyleText] {
        &self.trials
    }

    /// The style with that name, of a tray or of another piece.
    pub fn get(&self, name: &str) -> Option<&StyleText> {
        let mut all = self.list.iter().chain(&self.trials);
        all.find(|style| style.name == name)
    }

    /// The names of the styles of trays in order.
    pub fn names(&self) -> Vec<&str> {
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

    /// A style of the maker; `path` is its file as the maker named it.
    pub fn new(name: &str, path: &str, text: String) -> Self {
        StyleText {
            name: name.to_owned(),
            path: path.to_owned(),
            text: Cow::Owned(text),
        }
    }

    /// The text of the style of that name that ships with the program, if there is one.
    pub fn shipped_as(name: &str) -> Option<&'static str> {
        let mut all = SHIPPED.iter().chain(TRIALS);
        let found = all.find(|(shipped, ..)| *shipped == name);
        found.map(|(.., text)| *text)
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
