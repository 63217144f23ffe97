//! What a stage of the pipeline hands on to the next.

use crate::finding::{Finding, Place, Refusal, Report};
use crate::measure::Measure;

/// A stage as it was made, with what its own checks found.
///
/// A tray, its blank and its folded form are made even where they fail, so that a search can ask how far a tray comes and
/// a refused tray still has measures. An order of folds that is blocked and toolpaths without room are not made at all:
/// those stages give the finding instead.
#[derive(Clone, Debug)]
pub(crate) struct Judged<T> {
    pub(crate) stage: T,
    pub(crate) findings: Vec<Finding>,
    pub(crate) measures: Vec<Measure>,
}

impl<T> Judged<T> {
    /// A stage with findings and no measures.
    pub(crate) fn new(stage: T, findings: Vec<Finding>) -> Judged<T> {
        Judged {
            stage,
            findings,
            measures: Vec::new(),
        }
    }

    /// The stage, if no finding is an error.
    pub(crate) fn sound(self) -> Option<T> {
        (!fails(&self.findings)).then_some(self.stage)
    }
}

/// Whether one of the findings is an error.
pub(crate) fn fails(findings: &[Finding]) -> bool {
    findings.iter().any(Finding::is_error)
}

impl Report {
    /// Takes in what a stage found and gives the stage.
    ///
    /// # Errors
    /// The refusal with all that was found so far, if an error is among it.
    pub(crate) fn take<T>(&mut self, judged: Judged<T>) -> Result<T, Refusal> {
        self.findings.extend(judged.findings);
        self.measures.extend(judged.measures);
        self.one_error_a_place();
        if fails(&self.findings) {
            Err(self.refusal())
        } else {
            Ok(judged.stage)
        }
    }

    /// The refusal of a tray that one more finding ends.
    pub(crate) fn refuse(&mut self, found: Finding) -> Refusal {
        self.findings.push(found);
        self.refusal()
    }

    /// Puts the gravest findings and the promised measures first.
    pub(crate) fn put_in_order(&mut self) {
        self.findings.sort_by_key(|finding| finding.level);
        self.measures.sort_by_key(|measure| measure.of.rank());
    }

    fn refusal(&mut self) -> Refusal {
        self.put_in_order();
        Refusal::Tray(std::mem::take(self))
    }

    /// Several errors at one part have one cause: the first stays. Errors about the style as a whole are each their own.
    fn one_error_a_place(&mut self) {
        let mut places: Vec<Place> = Vec::new();
        self.findings.retain(|finding| {
            let part = !matches!(finding.place, Place::Style(_));
            let again = part && finding.is_error() && places.contains(&finding.place);
            if finding.is_error() {
                places.push(finding.place.clone());
            }
            !again
        });
    }
}
