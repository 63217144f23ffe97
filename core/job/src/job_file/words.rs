//! The words that a key takes, each with its meaning.
//!
//! The reader looks up the meaning of a word, the writer the word for a meaning.

use traywright_engine::job::{Cut, DrawnFace, DxfVersion, Grain, ItemShape};

/// `item shape=`.
pub(super) const SHAPES: [(&str, ItemShape); 3] = [
    ("rectangle", ItemShape::Rectangle),
    ("oval", ItemShape::Oval),
    ("round", ItemShape::Round),
];

/// `board grain=`.
pub(super) const GRAINS: [(&str, Grain); 2] = [("length", Grain::Length), ("width", Grain::Width)];

/// `slot cut=`.
pub(super) const CUTS: [(&str, Cut); 3] = [
    ("cross", Cut::Cross),
    ("doors", Cut::Doors),
    ("open", Cut::Open),
];

/// `draw face=`.
pub(super) const FACES: [(&str, DrawnFace); 2] = [
    ("inside", DrawnFace::Inside),
    ("outside", DrawnFace::Outside),
];

/// `dxf version=`.
pub(super) const DXF_VERSIONS: [(&str, DxfVersion); 2] =
    [("R2000", DxfVersion::R2000), ("R12", DxfVersion::R12)];

/// The word with that meaning.
pub(super) fn word_for<T: PartialEq>(words: &[(&'static str, T)], meaning: &T) -> &'static str {
    let found = words.iter().find(|(_, known)| known == meaning);
    found.map_or("", |(word, _)| *word)
}
