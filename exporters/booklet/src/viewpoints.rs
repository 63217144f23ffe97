//! From where each step is seen.
//!
//! Given how much of the moving panels each view shows, step by step; gives the views that are best together: the
//! moving panels are seen, and the tray is rotated only where the better view outweighs the rotation. It knows no tray.

use crate::view::View;

/// How much of what moves in a step each view shows.
pub(crate) type Shown = [f64; View::ALL.len()];

/// What it costs to turn the tray round on the table, over a step that is not seen at all.
// Source: common practice, none published: a step of which a third is seen is understood; one that needs a turn before it
// and another after it is not understood better.
const TURN: f64 = 0.7;
/// The same for looking down more or less steeply.
const TILT: f64 = 0.2;
/// A step of which less than this share is seen costs so much more, over what the best view shows.
const TOO_LITTLE: f64 = 0.25;
const HARDLY_SEEN: f64 = 2.0;

/// The views of all steps; steps in which nothing is folded are seen as the one before.
// Derived: the cheapest way through a table of steps and views (Bellman); of equals the first view.
pub(crate) fn views(shown: &[Option<Shown>]) -> Vec<View> {
    let count = View::ALL.len();
    // At first the lower edge of the drawing lies towards the eye, so that whoever holds the drawing beside the figures knows
    // which side is which.
    let as_drawn = |view: usize| View::ALL[view].azimuth_deg < 0.0;
    let mut costs: Vec<f64> = (0..count)
        .map(|view| if as_drawn(view) { 0.0 } else { f64::INFINITY })
        .collect();
    let mut before: Vec<Vec<usize>> = Vec::new();
    for (index, step) in shown.iter().enumerate() {
        let to = |view: usize| match (index, step) {
            // The card does not turn before it is folded, nor where nothing is.
            (0, _) | (_, None) => view,
            _ => cheapest(count, |other| costs[other] + change(other, view)),
        };
        let from: Vec<usize> = (0..count).map(to).collect();
        costs = (0..count)
            .map(|view| costs[from[view]] + change(from[view], view) + unseen(step, view))
            .collect();
        before.push(from);
    }
    let mut view = cheapest(count, |view| costs[view]);
    let mut views = Vec::new();
    for from in before.iter().rev() {
        views.push(View::ALL[view]);
        view = from[view];
    }
    views.reverse();
    views
}

/// The first of the cheapest.
fn cheapest(count: usize, cost: impl Fn(usize) -> f64) -> usize {
    (0..count).fold(
        0,
        |best, view| {
            if cost(view) < cost(best) { view } else { best }
        },
    )
}

fn change(from: usize, to: usize) -> f64 {
    match (from == to, View::ALL[from].turn_to(View::ALL[to]) != 0.0) {
        (true, _) => 0.0,
        (_, true) => TURN,
        (_, false) => TILT,
    }
}

/// What is lost of a step in a view.
fn unseen(shown: &Option<Shown>, view: usize) -> f64 {
    let Some(shown) = shown else { return 0.0 };
    let best = shown.iter().copied().fold(0.0, f64::max);
    if best == 0.0 {
        return 0.0;
    }
    let share = shown[view] / best;
    1.0 - share + if share < TOO_LITTLE { HARDLY_SEEN } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::{Shown, views};
    use crate::view::View;

    /// A step that the first view shows so far, and another one whole.
    fn step(first: f64, other: usize) -> Option<Shown> {
        let mut shown = [0.0; View::ALL.len()];
        (shown[0], shown[other]) = (first, 1.0);
        Some(shown)
    }

    #[test]
    fn one_step_that_is_seen_well_enough_is_not_worth_two_turns() {
        // Source: reasoning: a third of the one step is seen, and all of the others.
        let steps = [step(1.0, 1), step(0.33, 2), None, step(1.0, 3)];
        assert_eq!(views(&steps), [View::ALL[0]; 4]);
    }

    #[test]
    fn a_step_that_is_hardly_seen_is_turned_for_and_the_rest_stays_there() {
        let steps = [step(1.0, 1), step(0.1, 2), None, step(0.5, 2)];
        let [first, there] = [View::ALL[0], View::ALL[2]];
        assert_eq!(views(&steps), [first, there, there, there]);
    }

    #[test]
    fn the_card_lies_as_it_is_drawn_until_it_is_turned() {
        let steps = [step(0.5, 2), step(0.1, 2), step(0.1, 2)];
        let [first, there] = [View::ALL[0], View::ALL[2]];
        assert_eq!(views(&steps), [first, there, there]);
    }

    #[test]
    fn nothing_turns_in_a_step_without_a_fold() {
        let steps = [step(0.0, 2), step(0.0, 2), None, step(1.0, 1)];
        let [first, south, there] = [0, 1, 2].map(|view| View::ALL[view]);
        let seen = views(&steps);
        assert_eq!(seen[1..3], [there, there]);
        assert!([first, south].contains(&seen[3]));
    }

    #[test]
    fn the_tray_turns_against_the_eye_and_the_short_way() {
        // Source: by hand: from -63 to -117 the eye goes 54 degrees clockwise; from -117 to 117 it is 126, the short way.
        let at = |azimuth_deg| {
            let found = View::ALL
                .iter()
                .find(|view| view.azimuth_deg == azimuth_deg);
            *found.expect("a view of ours")
        };
        assert_eq!(at(-63.0).turn_to(at(-117.0)), 54.0);
        assert_eq!(at(-117.0).turn_to(at(117.0)), 126.0);
        assert_eq!(at(63.0).turn_to(at(63.0)), 0.0);
    }
}
