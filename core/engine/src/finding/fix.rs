//! Fixes of a finding: a sentence, and changes of the job that a program can make.

use super::clause::Clause;
use super::sentence::{Mm, sentences};
use crate::wording::{quoted, setting, setting_at_most};
use traywright_document::{Unit, filled};

sentences! {
    /// The sentence of a fix. The gap `changes` is filled with the fix's changes, written as in a job.
    #[non_exhaustive]
    #[expect(missing_docs, reason = "each variant's sentence says what it is")]
    pub enum Advice {
        Change = "{changes}",
        ChangeOrMore = "{changes} or more",
        LeaveHingeOut = "remove `hinge`: the default is 0",
        MeasureStripAgain = "measure the thickness of the card and the four lengths again: the reading is both legs and the way across, less the flat length",
        ThinnerCard = "check the thickness (is it one sheet?) or use thinner card",
        LargerBoxOrLessFit = "a larger box, or less fit",
        LargerThatWay { more: Mm } = "a box {more} larger that way",
        MoreFitOrFlatFloor = "more fit, or length and width measured on the flat of the floor",
        LargerCard = "a larger piece of card",
        LargerBed = "a larger bed, or a lower tray (`tray height=`); `sheet` in `board` states the bed",
        DeeperBox { more: Mm } = "a box {more} deeper",
        PadBetween { least: Mm, most: Mm } = "{changes} (any pad from {least} to {most}; with {most} the item touches the lid)",
        CardAboveItem = "card or foam between it and the lid, or less fit in depth",
        SpacerOnTop { spacer: Mm } = "a spacer of {spacer} on the deck, cut as a frame",
        LessAirOnTop = "card or foam on the deck, or less fit",
        SmallerItemOrOtherStyle = "a smaller item, or another style",
        DeeperBoxOrChange = "a deeper box, or {changes}",
        ChangeOrRoundedFold = "{changes}, or crease it as one rounded fold",
        ThickerCard { least: Mm } = "card of {least} or more",
        ChangeOrOtherBoard = "{changes}, or carton or solid board, or a style without a roll-over",
        WiderWebOrThinnerCard = "{changes}, or thinner card",
        TapeOrMachine =
            "a strip of tape where it springs back, or creases and cuts made by a machine (`tool by=`)",
        DryRoom = "a fit that leaves more, or card that has lain for a day in the room where the box will stand",
        ThinnerPadOrDeeperBox { more: Mm } = "{changes}, or a box {more} deeper",
        MorePlay = "more `play` in `fit`",
        LargerBoxOrThinnerCard = "a larger box, or thinner card",
        OpeningsSmallerOrApart = "smaller openings, or more space between them",
        LargerBoxOrSettings = "a larger box, or other settings of the style",
        ItemsSmallerOrApart = "smaller items, a larger box, or a style that places them further apart",
        LargerBoxSmallerItem { more: Mm, less: Clause } = "a box {more} larger that way, a smaller item, {less}",
        ChangeCutsCurve = "{changes}, which cuts the curve",
        LongerTongue = "other settings of the style; if it is yours, a longer tongue",
        NarrowerKerf = "a smaller `width` in `kerf`, or no kerf if your machine's program compensates it",
        ShorterSmallest = "a smaller `smallest` in `tool` if your tool follows shorter cuts; otherwise trim that corner by hand",
        ShorterPerforation = "a smaller `cut` or `gap` in `perforate`",
        ShorterSmallestForNicks = "a smaller `smallest` in `tool` if your tool follows shorter cuts, or no `nicks`",
        ShorterNicks = "a smaller `length` in `nicks`",
        LongerBoxOrLowerTray = "a longer box, or a lower tray (`tray height=`)",
        WallsTrapped = "a style whose walls are trapped, or a strip of tape",
        ChangesWouldDo { fails: Option<Clause> } = "{changes} would do{fails}",
        FewerItems { fails: Option<Clause> } = "fewer or smaller items{fails}",
        OneOfTheFallbacks = "a box, an item or a card that one of them can take",
        OfStyle { text: String } = "{text}",
    }
}

/// A fix of a finding.
#[derive(Clone, Debug, PartialEq)]
pub struct Fix {
    /// The advice.
    pub says: Advice,
    /// Ways to follow it, the best first: each is a set of changes of the job that belong together. Empty if no change
    /// of the job helps, or none is known.
    pub ways: Vec<Vec<Change>>,
}

/// One change of a job, in the job's own words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// The node, such as `fit`.
    pub node: &'static str,
    /// The item's name if the node is `item`.
    pub item: Option<String>,
    /// The property; for `set` the name of the setting.
    pub key: String,
    /// The new value as KDL text, such as `(mm)2.5`.
    pub to: String,
}

impl From<Advice> for Fix {
    fn from(says: Advice) -> Fix {
        Fix {
            says,
            ways: Vec::new(),
        }
    }
}

/// A fix whose sentence is only the change.
impl From<Change> for Fix {
    fn from(change: Change) -> Fix {
        Advice::Change.by(change)
    }
}

impl Advice {
    /// The fix with this advice and one change.
    pub(crate) fn by(self, change: Change) -> Fix {
        Fix {
            says: self,
            ways: vec![vec![change]],
        }
    }
}

impl Fix {
    /// The advice as a sentence, without capital letter and full stop.
    pub fn message(&self, unit: Unit) -> String {
        let mut words = self.says.in_words(unit);
        let ways: Vec<String> = self.ways.iter().map(|way| changes_in_words(way)).collect();
        words.push(("changes", ways.join(", or ")));
        filled(self.says.sentence(), &words)
    }
}

impl Change {
    /// A length that must be at least `length_mm`, rounded up to a length that a maker writes.
    pub(crate) fn at_least(node: &'static str, key: &str, length_mm: f64, unit: Unit) -> Change {
        Change::to(node, key, setting(length_mm, unit))
    }

    /// A length that must be at most `length_mm`, rounded down to a length that a maker writes.
    pub(crate) fn at_most(node: &'static str, key: &str, length_mm: f64, unit: Unit) -> Change {
        Change::to(node, key, setting_at_most(length_mm, unit))
    }

    /// A property with a new KDL value.
    pub(crate) fn to(node: &'static str, key: &str, value: impl Into<String>) -> Change {
        Change {
            node,
            item: None,
            key: key.to_owned(),
            to: value.into(),
        }
    }

    /// The cut that removes all flaps.
    pub(crate) fn open_cut() -> Change {
        Change::to("slot", "cut", "\"open\"")
    }

    /// An item that may be rotated by 90°.
    pub(crate) fn turn(item: &str) -> Change {
        Change {
            item: Some(item.to_owned()),
            ..Change::to("item", "turn", "#true")
        }
    }
}

/// Changes that belong together as a job writes them, those of one node on one line: `slot cut="open" finger=(mm)20`.
pub fn changes_in_words(changes: &[Change]) -> String {
    let mut written: Vec<String> = Vec::new();
    let mut last: Option<(&str, &Option<String>)> = None;
    for change in changes {
        let value = match (change.node, change.key.as_str()) {
            ("set", key) => format!("{}={}", quoted(key), change.to),
            // The name of a board is written without its key.
            (_, "name") => change.to.clone(),
            _ => format!("{}={}", change.key, change.to),
        };
        let node = (change.node, &change.item);
        match written.last_mut() {
            Some(line) if last == Some(node) => line.extend([" ", &value]),
            _ => written.push(match &change.item {
                Some(item) => format!("{} {} {value}", change.node, quoted(item)),
                None => format!("{} {value}", change.node),
            }),
        }
        last = Some(node);
    }
    written.join(" and ")
}
