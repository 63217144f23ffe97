//! The actions of the hands, one after the other.
//!
//! They are in the order in which the tray was checked to fold, with the words for each action and the reason for its
//! place in the order. The positions of panels afterwards follow from the angles.

use serde::{Deserialize, Deserializer, Serialize};

use crate::open::Unknown;

/// One action of the hands.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Step {
    /// Its words.
    pub words: String,
    /// The reason for its place in the order; steps of one group have the same reason.
    pub why: String,
    /// The action.
    pub action: Action,
    /// Whether this step is the first after which other panels keep every wall of the tray from turning outwards, so
    /// that the tray stands without a hand or its box. Never true in a tray with a wall that only its box holds.
    #[serde(default)]
    pub stands: bool,
    /// Number of tongues of its panels that enter slits.
    #[serde(default)]
    pub tongues: usize,
}

/// The kinds of action.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Action {
    /// Panels are folded, all at once.
    Fold(Vec<Move>),
    /// The tray is turned over.
    Turn,
    /// The items go in.
    Place,
    /// An action of a later release; the words of the step describe it.
    #[serde(untagged, deserialize_with = "later_action")]
    Other(Unknown),
}

fn later_action<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Unknown, D::Error> {
    Unknown::beside(&["fold", "turn", "place"], deserializer)
}

/// One panel turned about its crease.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Move {
    /// Index of the panel.
    pub panel: usize,
    /// Angle of its crease afterwards; positive folds the drawn face inwards.
    pub to_deg: f64,
}

impl Step {
    /// Whether another step is the same action: a fold with the same words, reason and angle.
    fn is_like(&self, other: &Step) -> bool {
        let (Action::Fold(moves), Action::Fold(others)) = (&self.action, &other.action) else {
            return false;
        };
        let angles =
            |moves: &[Move]| -> Vec<f64> { moves.iter().map(|one| one.to_deg.abs()).collect() };
        !self.words.is_empty()
            && self.words == other.words
            && self.why == other.why
            && self.tongues == other.tongues
            && angles(moves) == angles(others)
    }
}

/// Consecutive steps that are alike, such as those of the four tabs: hands do them one after the other, and a maker
/// reads them once.
pub fn alike(steps: &[Step]) -> impl Iterator<Item = &[Step]> {
    steps.chunk_by(Step::is_like)
}

/// Like steps as one step that folds all their panels.
pub fn joined(steps: &[Step]) -> Option<Step> {
    let first = steps.first()?;
    let mut joined = first.clone();
    // If the tray stands after the last of them, it stands after the joined step.
    joined.stands = steps.iter().any(|step| step.stands);
    if let Action::Fold(moves) = &mut joined.action {
        let rest = steps.iter().skip(1);
        moves.extend(rest.flat_map(|step| match &step.action {
            Action::Fold(moves) => moves.as_slice(),
            _ => &[],
        }));
    }
    Some(joined)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fold(words: &str, panel: usize, to_deg: f64) -> Step {
        Step {
            words: words.to_owned(),
            why: "because".to_owned(),
            stands: false,
            tongues: 0,
            action: Action::Fold(vec![Move { panel, to_deg }]),
        }
    }

    // Derived: a mirrored fold has the same angle with the other sign; a step that only resembles the one before the last
    // stands alone.
    #[test]
    fn steps_in_a_row_with_the_same_words_reason_and_angle_are_one() {
        let steps = [
            fold("Up.", 1, 90.0),
            fold("Up.", 2, -90.0),
            fold("In.", 3, 90.0),
            fold("Up.", 4, 90.0),
            fold("Up.", 5, 45.0),
        ];
        let counts: Vec<usize> = alike(&steps).map(<[Step]>::len).collect();
        assert_eq!(counts, [2, 1, 1, 1]);
        let both = joined(&steps[..2]).expect("there are steps");
        let Action::Fold(moves) = both.action else {
            panic!("{both:?}")
        };
        assert_eq!(
            moves.iter().map(|one| one.panel).collect::<Vec<_>>(),
            [1, 2]
        );
        assert!(joined(&[]).is_none());
    }
}
