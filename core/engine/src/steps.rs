//! The order in which hands fold the tray, one action after the other.
//!
//! Given a style and its tray; gives the style's own steps with the panels of this job, or, for a style without steps,
//! every parent before its children and the flaps of the openings last. Does not prove that the order can be folded.

use crate::style::Style;
use crate::style::text::{Stands, StepEntry};
use crate::tray::Tray;

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

/// What an action does.
#[derive(Clone, Debug)]
pub(crate) enum ActionKind {
    /// These panels are folded at once.
    Fold(Vec<usize>),
    /// The tray is turned over.
    Turn,
    /// The items go in.
    Place,
}

impl FoldOrder {
    /// Puts the folds of a tray in order.
    pub(crate) fn arrange(style: &Style, tray: &Tray) -> FoldOrder {
        let arranging = Arranging { style, tray };
        let mut actions = Vec::new();
        for step in &style.sheet.steps {
            arranging.step(step, &mut actions);
        }
        if style.sheet.steps.is_empty() {
            actions = arranging.plain();
        }
        FoldOrder { actions }
    }
}

struct Arranging<'a> {
    style: &'a Style,
    tray: &'a Tray,
}

impl Arranging<'_> {
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
                for start in self.family(&first.word) {
                    for (name, words) in panels.iter() {
                        let beyond = self
                            .family(&name.word)
                            .into_iter()
                            .filter(|&panel| self.hangs_on(panel, start));
                        actions.extend(beyond.map(|panel| fold(vec![panel], words, why)));
                    }
                }
            }
            StepEntry::Flaps { say, why } => {
                actions.extend(self.flaps().into_iter().map(|flaps| fold(flaps, say, why)));
            }
            StepEntry::Turn { say } => actions.push(other(say, "", ActionKind::Turn)),
            StepEntry::Place { say } => actions.push(other(say, "", ActionKind::Place)),
        }
    }

    /// The panels of this job that were drawn from an entry.
    fn family(&self, key: &str) -> Vec<usize> {
        let entry = self.style.sheet.panels.position(key);
        let panels = self.tray.panels.iter().enumerate();
        panels
            .filter(|(_, panel)| panel.entry == entry)
            .map(|(index, _)| index)
            .collect()
    }

    /// Whether a panel is another one or hangs on it, however far off.
    fn hangs_on(&self, panel: usize, start: usize) -> bool {
        let parent = self.tray.panels[panel]
            .hanging
            .as_ref()
            .map(|hanging| hanging.parent);
        panel == start || parent.is_some_and(|parent| self.hangs_on(parent, start))
    }

    /// The job's flaps, those of one opening together.
    fn flaps(&self) -> Vec<Vec<usize>> {
        let on = |opening: usize| move |&panel: &usize| self.tray.flap_of(panel) == Some(opening);
        let together = |opening| {
            (0..self.tray.panels.len())
                .filter(on(opening))
                .collect::<Vec<_>>()
        };
        (0..self.tray.openings.len())
            .map(together)
            .filter(|flaps| !flaps.is_empty())
            .collect()
    }

    fn plain(&self) -> Vec<Action> {
        let hung =
            (0..self.tray.panels.len()).filter(|&panel| self.tray.panels[panel].hanging.is_some());
        let own = hung.filter(|&panel| self.tray.panels[panel].entry.is_some());
        let words = |panel: usize| format!("Fold {}.", self.tray.panels[panel].name);
        let mut actions: Vec<Action> = own
            .map(|panel| fold(vec![panel], &words(panel), ""))
            .collect();
        if self.style.sheet.stands == Stands::DeckUp {
            actions.push(Action {
                words: "Turn the tray over.".to_owned(),
                why: String::new(),
                kind: ActionKind::Turn,
            });
        }
        let say = "Push all the flaps of the opening down together.";
        actions.extend(self.flaps().into_iter().map(|flaps| fold(flaps, say, "")));
        actions
    }
}

fn fold(panels: Vec<usize>, words: &str, why: &str) -> Action {
    Action {
        words: words.to_owned(),
        why: why.to_owned(),
        kind: ActionKind::Fold(panels),
    }
}
