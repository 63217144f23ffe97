//! Names of lines and of the file, for people who open it in a drawing program.
//!
//! Given what a run is a part of; gives its path with an id that stands once in the file and a title in words. Given the
//! document, gives what the file is of, for programs: job, style and card, never a time or a place.

use std::collections::BTreeMap;

use svg::Node;
use svg::node::Text;
use svg::node::element::{Element, Path, Title};
use traywright_document::{Document, Part};
use traywright_look::DrawingFile;

use crate::words;

/// Names that were given so far.
pub(crate) struct Names<'a> {
    document: &'a Document,
    words: Option<&'a DrawingFile>,
    given: BTreeMap<String, usize>,
}

impl<'a> Names<'a> {
    /// Names in these words; without words the paths have ids alone.
    pub(crate) fn new(document: &'a Document, words: Option<&'a DrawingFile>) -> Names<'a> {
        Names {
            document,
            words,
            given: BTreeMap::new(),
        }
    }

    /// A path with its name.
    pub(crate) fn path(&mut self, part: Part, data: String) -> Path {
        let id = match part {
            Part::Outline => "outline".to_owned(),
            Part::Hole => "hole".to_owned(),
            Part::Slit => "slit".to_owned(),
            Part::Crease { panel } => match self.document.panels.get(panel) {
                Some(panel) => format!("crease-{}", plain(&panel.name)),
                None => "crease".to_owned(),
            },
            _ => "line".to_owned(),
        };
        let times = self.given.entry(id.clone()).or_default();
        *times += 1;
        let id = match times {
            1 => id,
            more => format!("{id}-{more}"),
        };
        let path = Path::new().set("id", id).set("d", data);
        match self.words {
            Some(words) => path.add(Title::new(self.title(words, part))),
            None => path,
        }
    }

    fn title(&self, words: &DrawingFile, part: Part) -> String {
        match part {
            Part::Outline => words.drawing.outline.clone(),
            Part::Hole => words.drawing.hole.clone(),
            Part::Slit => words.drawing.slit.clone(),
            Part::Crease { panel } => match self.document.panels.get(panel) {
                Some(panel) => {
                    let fold = panel.hinge.as_ref().map_or(0.0, |hinge| hinge.fold_deg);
                    words.crease_of(&words::printable(&panel.name), fold)
                }
                None => words.drawing.crease.clone(),
            },
            _ => String::new(),
        }
    }
}

/// A name in letters that every program takes for an id.
// Source: XML 1.0, production 5 (Name); of its letters those that also CSS takes without escapes.
fn plain(name: &str) -> String {
    let letter = |letter: char| match letter {
        letter if letter.is_ascii_alphanumeric() || letter == '_' => letter.to_ascii_lowercase(),
        _ => '-',
    };
    name.chars().map(letter).collect()
}

/// What the file is of.
// Source: SVG 1.1, 21.2: metadata holds elements of other namespaces.
pub(crate) fn metadata(document: &Document) -> Element {
    let mut tray = Element::new("traywright:tray");
    tray.assign("xmlns:traywright", "urn:traywright:tray");
    let caliper = format!("{} mm", document.board.caliper);
    for (name, said) in [
        ("job", Some(&document.title)),
        ("style", Some(&document.style)),
        ("board", document.board.name.as_ref()),
        ("caliper", Some(&caliper)),
    ] {
        let Some(said) = said else { continue };
        let mut element = Element::new(format!("traywright:{name}"));
        element.append(Text::new(words::printable(said)));
        tray.append(element);
    }
    let mut metadata = Element::new("metadata");
    metadata.append(tray);
    metadata
}
