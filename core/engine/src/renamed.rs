//! Words of styles, jobs and findings that were renamed.
//!
//! An old word is an error like any unknown one; the message names the new word. **Input:** the old word and the words
//! that are known at its position. **Output:** the new word, if it is one of those.

/// Old words, each with its new one. An old word with two new ones occurs twice: its position decides.
pub type Renames = &'static [(&'static str, &'static str)];

/// Fields and variants of a style's file.
pub(crate) const STYLE_WORDS: Renames = &[
    ("asks", "settings"),
    ("usual", "default"),
    ("least", "min"),
    ("most", "max"),
    ("ask", "question"),
    ("Truth", "YesNo"),
    ("choices", "fallbacks"),
    ("DeckUp", "RootUp"),
    ("DeckDown", "RootDown"),
    ("wider", "overhang"),
    ("Bevel", "Chamfer"),
    ("Scoop", "ThumbNotch"),
    ("room", "max_item_depth"),
    ("hang", "max_flap_depth"),
    ("apart", "spacing"),
    ("narrow", "taper"),
    ("bevel", "chamfer"),
    ("say", "message"),
    ("say", "text"),
    ("cure", "fix"),
];

/// Settings of the shipped styles.
pub(crate) const SETTINGS: Renames = &[("bevel", "chamfer")];

/// Settings that became properties of an item.
pub(crate) const ITEM_PROPERTIES: &[&str] = &["pad"];

/// Nodes of a job; a property follows its node.
pub const JOB_WORDS: Renames = &[("cut", "kerf"), ("hold", "nicks"), ("nicks gap", "length")];

/// Codes of the engine's findings.
pub const CODES: Renames = &[
    ("spine-narrow", "bridge-narrow"),
    ("spine-too-narrow", "bridge-too-narrow"),
    ("slabs-collide", "panels-collide"),
    ("cut-too-wide", "kerf-too-wide"),
    ("no-place-to-hold", "no-room-for-nicks"),
    ("fit-unsure", "fit-uncertain"),
];

/// The new name of an old word, among the words that are known at its position.
pub fn new_name(renames: Renames, old: &str, known: &[&str]) -> Option<&'static str> {
    let mut names = renames.iter().filter(|(word, _)| *word == old);
    names
        .find(|(_, new)| known.contains(new))
        .map(|(_, new)| *new)
}
