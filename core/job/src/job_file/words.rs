//! The words of a key, each with its meaning.
//!
//! The reader looks up the meaning of a word, the writer the word for a meaning.

use traywright_engine::SourceError;
use traywright_engine::job::{
    BoardKind, CreaseKind, Cut, DrawnFace, DxfVersion, FileLines, Grain, ItemShape, PictureFit,
    ToolKind,
};

use super::nodes::Entry;
use super::values;

/// Meanings with words in a job.
pub trait Words: Copy + PartialEq + 'static {
    /// Each word with its meaning, in the order in which messages name them.
    const WORDS: &'static [(&'static str, Self)];
}

impl Words for ItemShape {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("rectangle", ItemShape::Rectangle),
        ("oval", ItemShape::Oval),
        ("round", ItemShape::Round),
    ];
}

impl Words for Grain {
    const WORDS: &'static [(&'static str, Self)] =
        &[("length", Grain::Length), ("width", Grain::Width)];
}

impl Words for BoardKind {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("carton", BoardKind::Carton),
        ("solid", BoardKind::Solid),
        ("corrugated", BoardKind::Corrugated),
    ];
}

impl Words for CreaseKind {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("pressed", CreaseKind::Pressed),
        ("half-cut", CreaseKind::HalfCut),
    ];
}

impl Words for ToolKind {
    const WORDS: &'static [(&'static str, Self)] =
        &[("hand", ToolKind::Hand), ("machine", ToolKind::Machine)];
}

impl Words for Cut {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("cross", Cut::Cross),
        ("doors", Cut::Doors),
        ("open", Cut::Open),
    ];
}

impl Words for DrawnFace {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("inside", DrawnFace::Inside),
        ("outside", DrawnFace::Outside),
    ];
}

impl Words for DxfVersion {
    const WORDS: &'static [(&'static str, Self)] =
        &[("R2000", DxfVersion::R2000), ("R12", DxfVersion::R12)];
}

impl Words for PictureFit {
    const WORDS: &'static [(&'static str, Self)] =
        &[("cover", PictureFit::Cover), ("inside", PictureFit::Inside)];
}

impl Words for FileLines {
    const WORDS: &'static [(&'static str, Self)] =
        &[("full", FileLines::Full), ("bare", FileLines::Bare)];
}

/// A field that takes one of a few words.
pub(crate) trait Choice {
    /// Takes the meaning of a word; none if the word is rejected.
    fn choose(&mut self, entry: &Entry<'_>, faults: &mut Vec<SourceError>) -> Option<()>;

    /// The word for the chosen meaning.
    fn word(&self) -> Option<&'static str>;
}

impl<T: Words> Choice for T {
    fn choose(&mut self, entry: &Entry<'_>, faults: &mut Vec<SourceError>) -> Option<()> {
        *self = values::choice(entry, T::WORDS, faults)?;
        Some(())
    }

    fn word(&self) -> Option<&'static str> {
        let found = T::WORDS.iter().find(|(_, meaning)| meaning == self);
        found.map(|(word, _)| *word)
    }
}

/// A choice that a job need not make.
impl<T: Words> Choice for Option<T> {
    fn choose(&mut self, entry: &Entry<'_>, faults: &mut Vec<SourceError>) -> Option<()> {
        *self = Some(values::choice(entry, T::WORDS, faults)?);
        Some(())
    }

    fn word(&self) -> Option<&'static str> {
        self.as_ref()?.word()
    }
}
