//! One job and what the engine says of its tray.
//!
//! Given a job and its style, gives a [`Judgement`]: the tray that may be made, or the report that says why not. Bad
//! text never gets this far: it is a trouble.

use traywright_engine::{CheckedTray, Job, Level, Report};

/// A job that could be judged, and the verdict on its tray.
pub(crate) struct Judgement {
    /// The job's file as the maker named it.
    pub(crate) path: String,
    /// What was asked for.
    pub(crate) job: Job,
    /// The tray, or why there is none.
    pub(crate) tray: Result<CheckedTray, Report>,
}

impl Judgement {
    /// Whether the tray fits, folds and holds.
    pub(crate) fn fits(&self) -> bool {
        self.tray.is_ok()
    }

    /// Its figures and what was found.
    pub(crate) fn report(&self) -> &Report {
        match &self.tray {
            Ok(tray) => tray.report(),
            Err(report) => report,
        }
    }

    /// The sentences of one level, each with its cure as a last clause.
    pub(crate) fn findings(
        &self,
        level: Level,
    ) -> impl Iterator<Item = &traywright_engine::Finding> {
        self.report()
            .findings
            .iter()
            .filter(move |finding| finding.level == level)
    }

    /// A figure of the report, if it was reached.
    pub(crate) fn measure(&self, name: &str) -> Option<f64> {
        self.report()
            .measures
            .iter()
            .find(|measure| measure.name == name)
            .map(|measure| measure.value)
    }
}
