//! The result that a stage of the pipeline passes to the next.

use crate::finding::{Finding, Place, Refusal, Report};
use crate::measure::Measure;

/// A stage with the findings of its own checks.
///
/// A tray, its blank and its folded form are made even if their checks fail, so that a search can see how far a tray
/// comes and a refused tray still has measures. A folding order that is blocked and toolpaths without room are not
/// made: those stages return only the finding.
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
    /// Records a stage's findings and measures and returns the stage.
    ///
    /// # Errors
    /// The refusal, with all findings so far, if one of them is an error.
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

    /// The refusal of a tray because of one more finding.
    pub(crate) fn refuse(&mut self, found: Finding) -> Refusal {
        self.findings.push(found);
        self.refusal()
    }

    /// Sorts the gravest findings and the promised measures first.
    pub(crate) fn put_in_order(&mut self) {
        self.findings.sort_by_key(|finding| finding.level);
        self.measures.sort_by_key(|measure| measure.of.rank());
    }

    fn refusal(&mut self) -> Refusal {
        self.put_in_order();
        Refusal::Tray(std::mem::take(self))
    }

    /// Several errors at one part have one cause, so only the first stays. Each error about the style as a whole is its
    /// own.
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
