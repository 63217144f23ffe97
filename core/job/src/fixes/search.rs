//! The search for sets of changes: it tries the proposals of findings, then the levers.
//!
//! A set of changes is tried as a whole. The findings that remain propose additions to the set, so that one set fixes
//! several findings, and findings that appear only when others are gone.

use traywright_engine::Job;
use traywright_engine::finding::{BuiltIn, Change, Finding};

use super::levers::{Lever, levers};
use super::trial::{Outcome, Trial};
use super::{Effort, MOST};

/// Maximum rounds of additions to a set.
// Source: a choice of this project: more than any case of the tests needs.
const MOST_ROUNDS: usize = 5;

/// Maximum number of checks for each part of a search.
// Source: a choice of this project: so many take some tenths of a second where a tray is plain.
const FOR_FINDINGS: usize = 24;
const FOR_LEVERS: usize = 70;
const FOR_BOX: usize = 30;
const FOR_CARD: usize = 30;

/// A set of changes that helps.
#[derive(Clone, Debug)]
pub(super) struct Found {
    pub(super) changes: Vec<Change>,
    /// Number of errors that remain with them.
    pub(super) leaves: usize,
    /// Whether a warning remains that asks for other card.
    asks_for_card: bool,
    /// Number of warnings that remain, except for the space over a lower tray, which a spacer fills.
    pub(super) warnings: usize,
}

impl Found {
    /// Its rank among others: first the remaining errors and warnings, then the effort.
    pub(super) fn rank(&self) -> (usize, bool, usize, Effort, usize) {
        let effort = Effort::of_all(&self.changes);
        let changes = self.changes.len();
        (
            self.leaves,
            self.asks_for_card,
            self.warnings,
            effort,
            changes,
        )
    }

    /// Whether it makes all the changes of another set.
    fn says_no_less_than(&self, other: &Found) -> bool {
        let key = |change: &Change| (change.node, change.item.clone(), change.key.clone());
        let keys: Vec<_> = self.changes.iter().map(key).collect();
        other
            .changes
            .iter()
            .all(|change| keys.contains(&key(change)))
    }
}

/// A set of changes that was tried, with its outcome.
struct State {
    changes: Vec<Change>,
    outcome: Outcome,
    round: usize,
}

pub(super) struct Search<'a> {
    job: &'a Job,
    trial: &'a Trial<'a>,
    start: Outcome,
    open: Vec<State>,
    tried: Vec<Vec<Change>>,
    found: Vec<Found>,
}

impl<'a> Search<'a> {
    pub(super) fn new(job: &'a Job, trial: &'a Trial<'a>, start: Outcome) -> Search<'a> {
        Search {
            job,
            trial,
            start,
            open: Vec::new(),
            tried: Vec::new(),
            found: Vec::new(),
        }
    }

    /// The sets that help, the best first; no set contains all the changes of another.
    pub(super) fn run(mut self) -> Vec<Found> {
        let refused = !self.start.errors.is_empty();
        self.trial.allow(FOR_FINDINGS);
        self.follow_findings(Effort::Setting);
        if refused {
            self.trial.allow(FOR_LEVERS);
            self.pull(Effort::Height..=Effort::Setting);
        }
        if refused && self.solved() == 0 {
            self.trial.allow(FOR_FINDINGS);
            self.follow_findings(Effort::Item);
            self.trial.allow(FOR_BOX);
            self.pull(Effort::Box..=Effort::Item);
        }
        if !refused && self.start.warnings.iter().any(asks_for_other_card) {
            self.trial.allow(FOR_CARD);
            self.pull(Effort::Card..=Effort::Card);
        }
        let solved = self.solved() > 0;
        self.found
            .retain(|found| !refused || !solved || found.leaves == 0);
        let mut best: Vec<Found> = Vec::new();
        self.found.sort_by_key(Found::rank);
        for found in self.found {
            if !best.iter().any(|better| found.says_no_less_than(better)) {
                best.push(found);
            }
        }
        best
    }

    /// Number of sets without remaining errors.
    fn solved(&self) -> usize {
        self.found.iter().filter(|found| found.leaves == 0).count()
    }

    /// Tries the proposals of findings, round after round, up to this effort.
    fn follow_findings(&mut self, most: Effort) {
        self.open = vec![State {
            changes: Vec::new(),
            outcome: self.start.clone(),
            round: 0,
        }];
        while let Some(at) = self.best_open() {
            let state = self.open.swap_remove(at);
            for more in proposals(&state.outcome, self.job) {
                if self.trial.is_over() || self.solved() >= MOST {
                    return;
                }
                if Effort::of_all(&more) <= most {
                    self.try_with(&state, &more);
                }
            }
        }
    }

    /// The open set with the fewest remaining errors and warnings.
    fn best_open(&self) -> Option<usize> {
        let weight = |at: &usize| {
            let state = &self.open[*at];
            (
                state.outcome.weight(),
                Effort::of_all(&state.changes),
                state.round,
            )
        };
        (0..self.open.len()).min_by_key(weight)
    }

    /// Tries a set with more changes.
    fn try_with(&mut self, state: &State, more: &[Change]) {
        let changes = merged(&state.changes, more);
        if self.tried.contains(&changes) || self.contains_a_fix(&changes) {
            return;
        }
        self.tried.push(changes.clone());
        let Some(outcome) = self.trial.check(&changes) else {
            return;
        };
        let changed = outcome.weight() < state.outcome.weight() || !same(&outcome, &state.outcome);
        let goes_on = changed && state.round < MOST_ROUNDS && !outcome.is_clean();
        self.note(&changes, &outcome);
        if goes_on {
            self.open.push(State {
                changes,
                outcome,
                round: state.round + 1,
            });
        }
    }

    /// Whether some of these changes are a fix already.
    fn contains_a_fix(&self, changes: &[Change]) -> bool {
        let within = |found: &Found| found.changes.iter().all(|change| changes.contains(change));
        let mut found = self.found.iter();
        found.any(|found| found.leaves == 0 && found.warnings == 0 && within(found))
    }

    /// Keeps a set that helps: fewer errors, none of which hides others, or fewer warnings if there is no error.
    fn note(&mut self, changes: &[Change], outcome: &Outcome) {
        let (now, before) = (outcome.errors.len(), self.start.errors.len());
        let hides = self.start.is_complete && !outcome.is_complete;
        let helps = match before {
            0 => now == 0 && outcome.warnings.len() < self.start.warnings.len(),
            before => now < before && !hides,
        };
        if helps {
            self.found.push(Found {
                changes: changes.to_vec(),
                leaves: now,
                asks_for_card: outcome.warnings.iter().any(asks_for_other_card),
                warnings: outcome
                    .warnings
                    .iter()
                    .filter(|found| !is_air(found))
                    .count(),
            });
        }
    }

    /// The least effort of a set without remaining errors.
    fn least_effort(&self) -> Option<Effort> {
        let solving = self.found.iter().filter(|found| found.leaves == 0);
        solving.map(|found| Effort::of_all(&found.changes)).min()
    }

    /// Tries levers whose effort is in a range and below that of the fixes found, each alone and added to the best set
    /// so far.
    fn pull(&mut self, efforts: std::ops::RangeInclusive<Effort>) {
        let mut bases: Vec<Vec<Change>> = vec![Vec::new()];
        let helping = self.found.iter().filter(|found| found.leaves > 0);
        let best = helping.min_by_key(|found| found.rank());
        bases.extend(best.map(|found| found.changes.clone()));
        for lever in levers(self.job, self.trial) {
            // A fix of one warning does not make the fix of another one superfluous.
            let refused = !self.start.errors.is_empty();
            let is_easier = self
                .least_effort()
                .is_none_or(|least| !refused || lever.effort() < least);
            if !efforts.contains(&lever.effort()) || !is_easier {
                continue;
            }
            for base in &bases {
                if let Some((changes, outcome)) = self.least_pull(base, &lever) {
                    self.note(&changes, &outcome);
                    break;
                }
            }
        }
    }

    /// Whether the reason to try other card is gone: an error, or the warnings about the card.
    fn is_mended(&self, outcome: &Outcome) -> bool {
        let refused = !self.start.errors.is_empty();
        outcome.errors.is_empty() && (refused || !outcome.warnings.iter().any(asks_for_other_card))
    }

    /// The smallest change of a lever that fixes the job when added to other changes.
    ///
    /// The positions run from the smallest change to the largest. The search finds the first of a few that helps, then
    /// bisects between it and the position before.
    fn least_pull(&self, base: &[Change], lever: &Lever) -> Option<(Vec<Change>, Outcome)> {
        let at = |position: f64| {
            let changes = merged(base, &lever.change(position)?);
            let outcome = self.trial.check(&changes)?;
            self.is_mended(&outcome).then_some((changes, outcome))
        };
        let (mut fails, mut helps) = (0.0, None);
        for position in lever.positions(self.short()) {
            match at(position) {
                Some(found) => {
                    helps = Some((position, found));
                    break;
                }
                None => fails = position,
            }
        }
        let (mut helping, mut best) = helps?;
        while lever.is_coarser(fails, helping) && !self.trial.is_over() {
            let middle = (fails + helping) / 2.0;
            match at(middle) {
                Some(found) => (helping, best) = (middle, found),
                None => fails = middle,
            }
        }
        Some(best)
    }
}

impl Search<'_> {
    /// The shortfall of the first error with a limit.
    fn short(&self) -> Option<f64> {
        // A blocked fold is measured in degrees.
        let in_mm =
            |found: &&Finding| !matches!(found.built_in(), Some(BuiltIn::NoSwingRoom { .. }));
        let mut errors = self.start.errors.iter().filter(in_mm);
        errors.find_map(|found| Some((found.value? - found.limit?).abs()))
    }
}

/// Whether a finding is the space over a lower tray.
fn is_air(finding: &Finding) -> bool {
    matches!(finding.built_in(), Some(BuiltIn::TrayCanLift))
}

/// Whether a finding is one that other card may fix.
fn asks_for_other_card(finding: &Finding) -> bool {
    let built_in = finding.built_in();
    built_in.is_some_and(BuiltIn::asks_for_other_card)
}

/// Whether two outcomes have findings about the same things.
fn same(one: &Outcome, other: &Outcome) -> bool {
    let alike =
        |one: &Finding, other: &Finding| one.code() == other.code() && one.place == other.place;
    let (one, other) = (one.worst(), other.worst());
    one.len() == other.len() && one.iter().zip(other).all(|(one, other)| alike(one, other))
}

/// The proposals of the worst findings: for all of them together, then for each alone.
fn proposals(outcome: &Outcome, job: &Job) -> Vec<Vec<Change>> {
    let ways = |finding: &Finding| match &finding.fix {
        Some(fix) => fix.ways.clone(),
        None => Vec::new(),
    };
    let all: Vec<Vec<Vec<Change>>> = outcome.worst().iter().map(ways).collect();
    let most = all.iter().map(Vec::len).max().unwrap_or(0);
    let mut proposals: Vec<Vec<Change>> = Vec::new();
    for number in 0..most {
        let of_each = all
            .iter()
            .filter_map(|ways| ways.get(number).or(ways.last()));
        let together = of_each.fold(Vec::new(), |changes, way| merged(&changes, way));
        proposals.push(shared(together, job));
    }
    if all.len() > 1 {
        proposals.extend(all.into_iter().flatten());
    }
    proposals.sort_by_key(|changes| Effort::of_all(changes));
    proposals.dedup();
    proposals
}

/// Changes with additions; the later value of one key counts.
fn merged(changes: &[Change], more: &[Change]) -> Vec<Change> {
    let is_set = |change: &&Change| {
        let same = |other: &Change| {
            (other.node, &other.item, &other.key) == (change.node, &change.item, &change.key)
        };
        !more.iter().any(same)
    };
    let kept = changes.iter().filter(is_set);
    kept.chain(more).cloned().collect()
}

/// The cut of all items goes on the line `slot`, if no item states its own.
fn shared(changes: Vec<Change>, job: &Job) -> Vec<Change> {
    let is_cut = |change: &Change| change.node == "item" && change.key == "cut";
    let kinds = job.items.iter().filter(|item| item.number == 1).count();
    let cuts: Vec<&Change> = changes.iter().filter(|change| is_cut(change)).collect();
    let Some(first) = cuts.first() else {
        return changes;
    };
    let alike = cuts.iter().all(|change| change.to == first.to);
    let own = job.slot.finger.is_some() || job.items.iter().any(|item| item.cut.is_some());
    if cuts.len() < kinds || !alike || own {
        return changes;
    }
    let slot = Change {
        node: "slot",
        item: None,
        ..(*first).clone()
    };
    let others = changes.iter().filter(|change| !is_cut(change)).cloned();
    others.chain([slot]).collect()
}
