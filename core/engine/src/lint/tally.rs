//! The tally of all trays of a range.
//!
//! **Input:** the outcomes in the order of their numbers. **Output:** counts, the first error of every kind, and the
//! parts of the style that never occurred. A wall is an error if it is held in some trays and loose in others with the
//! same panels. A wall that is never held is left to the box by design, and is only a note.

use std::collections::{BTreeMap, BTreeSet};

use super::trial_job::{Made, Outcome, StyleError};
use crate::finding::{BuiltIn, FoundIn, SourceError};
use crate::ids::Id;
use crate::job::Job;
use crate::style::Style;
use crate::style::text::{FallbackId, OpeningEntryId, PanelEntryId, TongueId};
use crate::style::written::{Name, Written};

/// Counts of outcomes, and the parts of the style that occurred.
#[derive(Clone, Debug, Default)]
pub struct Tally {
    /// Jobs tried.
    pub drawn: usize,
    /// Trays made.
    pub made: usize,
    /// Jobs rightly refused, by the code of the first error.
    pub refused: BTreeMap<String, usize>,
    /// Jobs with boxes beyond the range that cannot be made, which is not an error.
    pub beyond: usize,
    /// Jobs that need features that do not exist yet.
    pub left: usize,
    /// Jobs that show an error of the style, by its code.
    pub at_fault: BTreeMap<String, usize>,
    /// Least and greatest length, width and depth of box, thickness, and length and width of blank, of trays made.
    pub spans: Option<[[f64; 2]; 6]>,
    flaws: Vec<(Job, StyleError)>,
    first_refused: Option<(Job, StyleError)>,
    told: BTreeSet<String>,
    panels: BTreeSet<PanelEntryId>,
    openings: BTreeSet<OpeningEntryId>,
    tongues: BTreeSet<TongueId>,
    options: BTreeSet<(FallbackId, Id<Written>)>,
    /// By the panels of the trays.
    walls: BTreeMap<Vec<PanelEntryId>, Walls>,
}

/// Trays with the same panels.
#[derive(Clone, Debug, Default)]
struct Walls {
    trays: usize,
    /// Number of trays in which a wall is loose, and the first job that shows it.
    loose: BTreeMap<String, (usize, Job)>,
}

impl Tally {
    /// Counts the next outcome.
    pub fn add(&mut self, job: &Job, outcome: Outcome) {
        self.drawn += 1;
        match outcome {
            Outcome::Made(made) => self.add_made(job, made),
            Outcome::Refused { errors, told } => {
                self.first_refused
                    .get_or_insert_with(|| (job.clone(), errors[0].clone()));
                *self.refused.entry(errors[0].code.clone()).or_default() += 1;
                self.told.extend(told);
            }
            Outcome::AtFault(flaw) => {
                *self.at_fault.entry(flaw.code.clone()).or_default() += 1;
                if self.flaws.iter().all(|(_, known)| known.code != flaw.code) {
                    self.flaws.push((job.clone(), flaw));
                }
            }
            Outcome::OutOfRange => self.beyond += 1,
            Outcome::Unsupported => self.left += 1,
        }
    }

    fn add_made(&mut self, job: &Job, made: Made) {
        self.made += 1;
        let size = &job.box_size;
        let sizes = [
            size.length.mm(),
            size.width.mm(),
            size.depth.mm(),
            job.board.caliper.mm(),
            made.blank[0],
            made.blank[1],
        ];
        let spans = self.spans.get_or_insert(sizes.map(|size| [size, size]));
        for (span, size) in spans.iter_mut().zip(sizes) {
            *span = [span[0].min(size), span[1].max(size)];
        }
        self.told.extend(made.told);
        self.openings.extend(made.openings);
        self.tongues.extend(made.tongues);
        self.options.extend(made.options);
        self.panels.extend(&made.panels);
        let walls = self.walls.entry(made.panels).or_default();
        walls.trays += 1;
        for wall in made.loose {
            walls
                .loose
                .entry(wall)
                .or_insert_with(|| (0, job.clone()))
                .0 += 1;
        }
    }

    /// Whether an error is known already; a style that never gives a tray is only found at the end.
    pub fn has_flaw(&self) -> bool {
        !self.flaws.is_empty() || self.loose_wall().is_some()
    }

    /// The error of a formula that fails in every job: then the text is not a style.
    pub fn never_works(&self) -> Option<&SourceError> {
        let (_, flaw) = self.flaws.iter().find(|(_, flaw)| flaw.fault.is_some())?;
        let always = self.at_fault.get(&flaw.code) == Some(&self.drawn);
        flaw.fault.as_ref().filter(|_| always)
    }

    /// Trays that were checked in space: made, or with an error of the style.
    pub fn proved(&self) -> usize {
        self.made + self.at_fault.values().sum::<usize>()
    }

    /// The error to fix first, and its job: the one from the earliest stage, found first.
    pub fn worst(&self) -> Option<(Job, StyleError)> {
        let found = self
            .flaws
            .iter()
            .min_by_key(|(_, flaw)| flaw.found_in)
            .cloned();
        found
            .or_else(|| self.loose_wall())
            .or_else(|| self.no_tray())
    }

    /// A style that gives no tray at all.
    fn no_tray(&self) -> Option<(Job, StyleError)> {
        let (job, mut flaw) = self
            .first_refused
            .clone()
            .filter(|_| self.made + self.left == 0)?;
        flaw.message = format!(
            "none of {} jobs gives a tray; the plainest: {}",
            self.drawn, flaw.message
        );
        Some((job, flaw))
    }

    /// A wall that is held in some trays and loose in others with the same panels.
    fn loose_wall(&self) -> Option<(Job, StyleError)> {
        self.walls.iter().find_map(|(panels, walls)| {
            let sometimes = walls
                .loose
                .iter()
                .find(|(_, (count, _))| *count < walls.trays);
            sometimes.map(|(wall, (count, job))| {
                let message = format!(
                    "only the box keeps {wall} upright in {count} of {} trays of the same panels",
                    walls.trays
                );
                let flaw = StyleError {
                    code: BuiltIn::WallNotHeld.code().to_owned(),
                    found_in: Some(FoundIn::Support),
                    place: wall.clone(),
                    message,
                    fault: None,
                    panels: panels.clone(),
                };
                (job.clone(), flaw)
            })
        })
    }

    /// Walls that only the box holds in all trays with the same panels.
    pub fn never_held(&self) -> BTreeSet<&str> {
        let never = self.walls.values().flat_map(|walls| {
            let never = walls
                .loose
                .iter()
                .filter(|(_, (count, _))| *count == walls.trays);
            never.map(|(wall, _)| wall.as_str())
        });
        never.collect()
    }

    /// Parts of the style that never occurred in a tray or in a finding.
    pub fn never_seen(&self, style: &Style) -> Vec<SourceError> {
        let sheet = &style.sheet;
        let mut faults = Vec::new();
        let mut tell = |name: &Name, what: String, label: &str| {
            faults.push(SourceError::new(name.place.clone(), what, label));
        };
        let no_such = "its `when`, or the fallback that it reads, is never true in the range";
        let mut unseen = |name: &Name, what: &str| {
            let message = format!("no tray has the {what} `{}`", name.word);
            tell(name, message, no_such);
        };
        for (entry, name, _) in sheet.panels.enumerated() {
            if !self.panels.contains(&entry) {
                unseen(name, "panel");
            }
        }
        for (entry, name, _) in sheet.openings.enumerated() {
            if !self.openings.contains(&entry) {
                unseen(name, "opening");
            }
        }
        for (entry, name, _) in sheet.tongues.enumerated() {
            if !self.tongues.contains(&entry) {
                unseen(name, "tongue");
            }
        }
        for (fallback, _, options) in sheet.fallbacks.enumerated() {
            for (option, name, _) in options.enumerated() {
                if !self.options.contains(&(fallback, option)) {
                    let label = "its condition never holds, or an earlier option always does";
                    tell(
                        name,
                        format!("the option `{}` is never taken", name.word),
                        label,
                    );
                }
            }
        }
        for name in sheet.rules.names() {
            if !self.told.contains(&name.word) {
                let label = "what it needs always holds in the range";
                tell(name, format!("the rule `{}` never fires", name.word), label);
            }
        }
        faults.sort_by_key(|fault| fault.place.start);
        faults
    }
}
