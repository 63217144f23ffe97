//! The order in which hands fold the tray, one action after the other.
//!
//! **Input:** a style and its folded tray. **Output:** the style's own steps with the panels of this job or, for a
//! style without steps, an order found from the folded tray, with a reason where one family must be folded before the
//! next. **Does not** check whether the style's own order can be folded.

use super::motion::Folding;
use super::reach::FoldReach;
use super::search::{can_be_folded, worked_out};
use crate::ids::IdVec;
use crate::style::Style;
use crate::style::text::{Orientation, StepEntry};
use crate::tray::{OpeningId, PanelId, Tray};

/// Actions in order.
#[derive(Clone, Debug)]
pub(crate) struct FoldOrder {
    pub(crate) actions: Vec<Action>,
}

/// One action of the hands.
#[derive(Clone, Debug)]
pub(crate) struct Action {
    pub(crate) words: String,
    pub(crate) why: String,
    pub(crate) kind: ActionKind,
}

/// The kinds of action.
#[derive(Clone, Debug)]
pub(crate) enum ActionKind {
    /// These panels are folded at once.
    Fold(Vec<PanelId>),
    /// The tray is turned over.
    Turn,
    /// The items go in.
    Place,
}

impl FoldOrder {
    /// Orders the folds of a tray; none if the style has no steps and the tray cannot be folded in any order found.
    pub(crate) fn arrange(style: &Style, folding: Folding) -> Option<FoldOrder> {
        let arranging = Arranging {
            style,
            tray: folding.tray,
            far_first: false,
        };
        if style.sheet.steps.is_empty() {
            let order = worked_out(folding)?;
            return Some(FoldOrder {
                actions: arranging.plain(folding, &order),
            });
        }
        Some(arranging.written())
    }

    /// The style's own order with the far one of several walls first, for whoever sits at the lower edge of the drawing: hands
    /// then see what they fold in, and the tray is rotated less often. None where that is the order as written.
    pub(crate) fn far_first(style: &Style, folding: Folding) -> Option<FoldOrder> {
        let written = Arranging {
            style,
            tray: folding.tray,
            far_first: false,
        };
        let far = Arranging {
            far_first: true,
            ..written
        };
        let each = style.sheet.steps.iter().filter_map(|step| match step {
            StepEntry::Fold { each, .. } => each.as_ref().map(|first| &first.word),
            _ => None,
        });
        let differs = |word: &String| written.starts(word) != far.starts(word);
        each.into_iter().any(differs).then(|| far.written())
    }
}

impl FoldOrder {
    /// The same actions with their folds in another order; each fold stays before or behind the actions without a fold,
    /// such as turning the tray over. A fold that comes earlier than in the style gets a reason.
    pub(crate) fn rearranged(
        &self,
        style: &Style,
        folding: Folding,
        order: &[PanelId],
    ) -> FoldOrder {
        let tray = folding.tray;
        let arranging = Arranging {
            style,
            tray,
            far_first: false,
        };
        let own: Vec<PanelId> = order
            .iter()
            .copied()
            .filter(|&panel| tray.flap_of(panel).is_none())
            .collect();
        let is_one_fold = |action: &Action| matches!(&action.kind, ActionKind::Fold(panels) if panels.iter().all(|panel| own.contains(panel)));
        let place = |action: &Action| match &action.kind {
            ActionKind::Fold(panels) => own.iter().position(|panel| panels.contains(panel)),
            _ => None,
        };
        let mut actions: Vec<Action> = Vec::new();
        for part in self
            .actions
            .chunk_by(|one, next| is_one_fold(one) && is_one_fold(next))
        {
            let mut part = part.to_vec();
            part.sort_by_key(place);
            actions.extend(part);
        }
        let names = |action: &Action| match &action.kind {
            ActionKind::Fold(panels) => panels.clone(),
            _ => Vec::new(),
        };
        let reach = FoldReach::of(folding);
        for (action, before) in actions.iter_mut().zip(&self.actions) {
            // An action that keeps its position keeps its reason.
            if let Some(at) = place(action).filter(|_| names(action) != names(before)) {
                action.why = arranging.reason(folding, &reach, &own, at);
            }
        }
        FoldOrder { actions }
    }
}

#[derive(Clone, Copy)]
struct Arranging<'a> {
    style: &'a Style,
    tray: &'a Tray,
    /// Whether of walls that are folded one after the other the far one comes first.
    far_first: bool,
}

/// Creases nearer than this across the box are equally far.
// Derived: far more than the noise of sums, far less than any wall is from the next.
const AS_FAR_MM: f64 = 0.01;

impl Arranging<'_> {
    /// The steps as the style has them.
    fn written(&self) -> FoldOrder {
        let mut actions = Vec::new();
        for step in &self.style.sheet.steps {
            self.step(step, &mut actions);
        }
        FoldOrder { actions }
    }

    /// The panels with which the folds of one wall after the other begin.
    fn starts(&self, key: &str) -> Vec<PanelId> {
        let mut family = self.family(key);
        if self.far_first {
            let steps = |panel: &PanelId| (self.height(*panel) / AS_FAR_MM).round() as i64;
            family.sort_by_key(|panel| -steps(panel));
        }
        family
    }

    /// How far up in the drawing the middle of a panel's crease lies.
    fn height(&self, panel: PanelId) -> f64 {
        let hanging = self.tray.panels[panel].hanging.as_ref();
        hanging.map_or(0.0, |hanging| {
            let (from, to) = hanging.crease;
            self.tray.frames[hanging.parent].place(from.middle(to)).y
        })
    }

    fn step(&self, step: &StepEntry, actions: &mut Vec<Action>) {
        let other = |words: &str, why: &str, kind| Action {
            words: words.to_owned(),
            why: why.to_owned(),
            kind,
        };
        match step {
            StepEntry::Fold {
                each: None,
                panels,
                why,
            } => {
                for (name, words) in panels.iter() {
                    let family = self.family(&name.word);
                    actions.extend(
                        family
                            .into_iter()
                            .map(|panel| fold(vec![panel], words, why)),
                    );
                }
            }
            StepEntry::Fold {
                each: Some(first),
                panels,
                why,
            } => {
                for start in self.starts(&first.word) {
                    for (name, words) in panels.iter() {
                        let beyond = self
                            .family(&name.word)
                            .into_iter()
                            .filter(|&panel| self.hangs_on(panel, start));
                        actions.extend(beyond.map(|panel| fold(vec![panel], words, why)));
                    }
                }
            }
            StepEntry::Flaps { text, why } => {
                actions.extend(self.flaps().into_iter().map(|flaps| fold(flaps, text, why)));
            }
            StepEntry::Turn { text } => actions.push(other(text, "", ActionKind::Turn)),
            StepEntry::Place { text } => actions.push(other(text, "", ActionKind::Place)),
        }
    }

    /// The panels of this job drawn from one entry.
    fn family(&self, key: &str) -> Vec<PanelId> {
        let entry = self.style.sheet.panels.id(key);
        let panels = &self.tray.panels;
        panels.ids_where(|panel| panel.entry == entry).collect()
    }

    /// Whether a panel is another one or hinged to it, directly or through others.
    fn hangs_on(&self, panel: PanelId, start: PanelId) -> bool {
        let parent = self.tray.panels[panel]
            .hanging
            .as_ref()
            .map(|hanging| hanging.parent);
        panel == start || parent.is_some_and(|parent| self.hangs_on(parent, start))
    }

    /// The job's flaps, grouped by opening.
    fn flaps(&self) -> Vec<Vec<PanelId>> {
        let on =
            |opening: OpeningId| move |&panel: &PanelId| self.tray.flap_of(panel) == Some(opening);
        let together = |opening| {
            let panels = self.tray.panels.ids();
            panels.filter(on(opening)).collect::<Vec<_>>()
        };
        let openings = self.tray.openings.ids();
        openings
            .map(together)
            .filter(|flaps| !flaps.is_empty())
            .collect()
    }

    /// Actions for panels in a computed order.
    fn plain(&self, folding: Folding, order: &[PanelId]) -> Vec<Action> {
        let own: Vec<PanelId> = order
            .iter()
            .copied()
            .filter(|&panel| self.tray.flap_of(panel).is_none())
            .collect();
        let reach = FoldReach::of(folding);
        let mut actions: Vec<Action> = Vec::new();
        for (at, &panel) in own.iter().enumerate() {
            let words = format!("Fold {}.", self.tray.panels[panel].name);
            actions.push(fold(
                vec![panel],
                &words,
                &self.reason(folding, &reach, &own, at),
            ));
        }
        if self.style.sheet.stands == Orientation::RootUp {
            let words = "Turn the tray over.".to_owned();
            actions.push(Action {
                words,
                why: String::new(),
                kind: ActionKind::Turn,
            });
        }
        let say = "Push all the flaps of the opening down together.";
        actions.extend(self.flaps().into_iter().map(|flaps| fold(flaps, say, "")));
        actions
    }

    /// The reason for folding a panel before the next one of another family: afterwards it is blocked.
    fn reason(&self, folding: Folding, reach: &FoldReach, own: &[PanelId], at: usize) -> String {
        let panels = &self.tray.panels;
        let key = |panel: PanelId| panels[panel].key.as_str();
        let mut folded = IdVec::of_each(false, panels.len());
        own[..at].iter().for_each(|&panel| folded[panel] = true);
        let mut was_free = false;
        for &later in own[at + 1..]
            .iter()
            .filter(|&&later| key(later) != key(own[at]))
        {
            folded[later] = true;
            // A panel out of reach changes nothing.
            if was_free && !reach.may_meet(own[at], later) {
                continue;
            }
            was_free = can_be_folded(folding, &folded, own[at]).is_ok();
            if !was_free {
                return format!("Before {}, or {} has no way in.", key(later), key(own[at]));
            }
        }
        String::new()
    }
}

fn fold(panels: Vec<PanelId>, words: &str, why: &str) -> Action {
    Action {
        words: words.to_owned(),
        why: why.to_owned(),
        kind: ActionKind::Fold(panels),
    }
}
