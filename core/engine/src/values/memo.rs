//! The memo of evaluated values: one table for each kind of value, and the stack of values being evaluated.
//!
//! **Input:** the key of a value and how to evaluate it. **Output:** the value, evaluated once.
//! **Errors:** a circular value, and one nested too deep in other unfinished evaluations.

use std::cell::RefCell;
use std::collections::HashMap;
use std::hash::Hash;
use std::rc::Rc;

use super::arrangement::Arrangement;
use super::openings::Rect;
use super::panels::CreaseSpan;
use super::shape::PanelShape;
use super::{EvalError, Values};
use crate::finding::{SourceError, SourceSpan};
use crate::formula::Value;
use crate::ids::Id;
use crate::style::graph::{MemberId, OpeningMemberId};
use crate::style::names::TongueSide;
use crate::style::text::{FallbackId, SettingId, TongueId, ValueId};
use crate::style::written::{Name, Written};

/// Maximum depth of nested evaluations.
// Source: common practice, none published: the shipped styles need 12; the stack has room for far more.
const MOST_WAITING: usize = 64;

/// All evaluated values, each kind in a table of its own.
pub(super) struct Memo {
    pub(super) settings: Table<SettingId, Value>,
    pub(super) values: Table<ValueId, Value>,
    /// The chosen option of a fallback.
    pub(super) fallbacks: Table<FallbackId, Id<Written>>,
    pub(super) panel_exists: Table<MemberId, bool>,
    pub(super) opening_exists: Table<OpeningMemberId, bool>,
    pub(super) angles: Table<MemberId, f64>,
    pub(super) reaches: Table<MemberId, f64>,
    pub(super) creases: Table<MemberId, CreaseSpan>,
    pub(super) shapes: Table<MemberId, Rc<PanelShape>>,
    /// By the first opening of each.
    pub(super) arrangements: Table<OpeningMemberId, Rc<Arrangement>>,
    pub(super) rects: Table<OpeningMemberId, Rect>,
    pub(super) tongues: Table<(TongueId, TongueSide), f64>,
    underway: RefCell<Vec<Key>>,
}

/// The known values of one kind.
pub(super) struct Table<K, V> {
    key: fn(K) -> Key,
    known: RefCell<HashMap<K, V>>,
}

/// The identity of a value among those of all kinds, so that a cycle can be detected and named.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Key {
    Setting(SettingId),
    Value(ValueId),
    Fallback(FallbackId),
    PanelExists(MemberId),
    OpeningExists(OpeningMemberId),
    Angle(MemberId),
    Reach(MemberId),
    Crease(MemberId),
    Shape(MemberId),
    Arrangement(OpeningMemberId),
    Rect(OpeningMemberId),
    Tongue((TongueId, TongueSide)),
}

impl<K, V> Table<K, V> {
    fn of(key: fn(K) -> Key) -> Self {
        let known = RefCell::default();
        Table { key, known }
    }
}

impl Memo {
    /// An empty memo.
    pub(super) fn empty() -> Memo {
        Memo {
            settings: Table::of(Key::Setting),
            values: Table::of(Key::Value),
            fallbacks: Table::of(Key::Fallback),
            panel_exists: Table::of(Key::PanelExists),
            opening_exists: Table::of(Key::OpeningExists),
            angles: Table::of(Key::Angle),
            reaches: Table::of(Key::Reach),
            creases: Table::of(Key::Crease),
            shapes: Table::of(Key::Shape),
            arrangements: Table::of(Key::Arrangement),
            rects: Table::of(Key::Rect),
            tongues: Table::of(Key::Tongue),
            underway: RefCell::default(),
        }
    }
}

impl Values<'_> {
    /// The value in a table, evaluated first if it is not known yet.
    pub(super) fn get_or_compute<K: Copy + Eq + Hash, V: Clone>(
        &self,
        table: &Table<K, V>,
        of: K,
        compute: impl FnOnce() -> Result<V, EvalError>,
    ) -> Result<V, EvalError> {
        if let Some(known) = table.known.borrow().get(&of) {
            return Ok(known.clone());
        }
        self.begin((table.key)(of))?;
        let value = compute();
        self.memo.underway.borrow_mut().pop();
        let value = value?;
        table.known.borrow_mut().insert(of, value.clone());
        Ok(value)
    }

    /// Puts a value on the stack of values being evaluated.
    fn begin(&self, key: Key) -> Result<(), EvalError> {
        let mut underway = self.memo.underway.borrow_mut();
        if let Some(first) = underway.iter().position(|&other| other == key) {
            return Err(EvalError::fault(self.cycle(&underway[first..])));
        }
        if underway.len() >= MOST_WAITING {
            let (name, place) = self.called(key);
            let message = format!("`{name}` waits for more than {MOST_WAITING} other figures");
            let error = SourceError::new(place, message, "state it more directly");
            return Err(EvalError::fault(error));
        }
        underway.push(key);
        Ok(())
    }

    fn cycle(&self, keys: &[Key]) -> SourceError {
        let called: Vec<(String, SourceSpan)> = keys.iter().map(|&key| self.called(key)).collect();
        let mut names: Vec<&str> = called.iter().map(|(name, _)| name.as_str()).collect();
        names.dedup();
        names.push(names[0]);
        let message = format!("`{}` needs itself: {}", names[0], names.join(" -> "));
        SourceError::new(
            called[0].1.clone(),
            message,
            "one of these must be known without the others",
        )
    }

    /// The name of a value, and where its entry is in the style.
    fn called(&self, key: Key) -> (String, SourceSpan) {
        let sheet = self.sheet();
        let member = |panel: MemberId, figure: &str| {
            let member = &self.graph.members[panel];
            (
                format!("{}{figure}", member.name),
                sheet.panels[member.entry].0.place.clone(),
            )
        };
        let opening = |opening: OpeningMemberId| {
            let opening = &self.graph.openings[opening];
            (
                opening.name.clone(),
                sheet.openings[opening.entry].0.place.clone(),
            )
        };
        let entry = |name: &Name| (name.word.clone(), name.place.clone());
        match key {
            Key::Setting(setting) => entry(&sheet.settings[setting].0),
            Key::Value(value) => entry(&sheet.values[value].0),
            Key::Fallback(fallback) => entry(&sheet.fallbacks[fallback].0),
            Key::Tongue((tongue, _)) => entry(&sheet.tongues[tongue].0),
            Key::Reach(panel) => member(panel, ".reach"),
            Key::Crease(panel) => member(panel, ".span"),
            Key::PanelExists(panel) | Key::Angle(panel) | Key::Shape(panel) => member(panel, ""),
            Key::OpeningExists(hole) | Key::Arrangement(hole) | Key::Rect(hole) => opening(hole),
        }
    }
}
