//! The checks of a tray, and the token that a tray has passed them.
//!
//! The checks have no options. They run stage by stage and end at the first stage with an error, so that an error is
//! reported without its consequences.

mod clearances;
mod locks;
mod pockets;
mod results;
mod tolerance;

pub(crate) use clearances::Clearance;
pub(crate) use locks::Lock;

use crate::blank::Laid;
use crate::cutting::Cut;
use crate::finding::{BuiltIn, Finding, Refusal, Report};
use crate::folded::{Exactness, Folded};
use crate::holding::Held;
use crate::job::Job;
use crate::measure::Measure;
use crate::order::Ordered;
use crate::stage::{Judged, fails};
use crate::style::Style;
use crate::tray::Drawn;

/// A tray that is known to fit, fold and hold.
#[derive(Clone, Debug)]
pub struct CheckedTray {
    cut: Cut,
    report: Report,
}

impl CheckedTray {
    /// The tray's measures and its findings: warnings and notes, no errors.
    pub fn report(&self) -> &Report {
        &self.report
    }

    pub(crate) fn cut(&self) -> &Cut {
        &self.cut
    }

    pub(crate) fn held(&self) -> &Held {
        &self.cut.held
    }

    pub(crate) fn ordered(&self) -> &Ordered {
        &self.cut.held.ordered
    }

    pub(crate) fn folded(&self) -> &Folded {
        self.cut.held.folded()
    }

    pub(crate) fn laid(&self) -> &Laid {
        &self.folded().laid
    }

    pub(crate) fn drawn(&self) -> &Drawn {
        &self.laid().drawn
    }
}

/// Makes a tray and checks it, stage by stage.
///
/// # Errors
/// The refusal, with all findings and the measures computed so far.
pub(crate) fn check(style: &Style, job: &Job) -> Result<CheckedTray, Refusal> {
    let mut report = Report::default();
    let mut drawn = Drawn::draw(style, job)?;
    if fails(&drawn.findings) {
        let outside = measures_of_refused(&drawn);
        drawn.measures.extend(outside);
    }
    let drawn = report.take(drawn)?;
    let laid = report.take(Laid::for_tool(drawn))?;
    let folded = report.take(Folded::fold(laid, Exactness::Drawn))?;
    let ordered = Ordered::arrange(style, folded).map_err(|found| report.refuse(*found))?;
    let ordered = report.take(ordered)?;
    let held = report.take(Held::hold(ordered))?;
    let cut = Cut::of(held).map_err(|found| report.refuse(*found))?;
    let chains = Chains::of(&cut.held);
    let uncertain = uncertain(&cut, &chains, &report.findings);
    report.findings.extend(uncertain);
    report.proofs = results::of(&cut.held, &chains);
    report.put_in_order();
    Ok(CheckedTray { cut, report })
}

/// The measures of blank and folded tray of a refused tray, if its panels have sizes.
fn measures_of_refused(refused: &Judged<Drawn>) -> Vec<Measure> {
    let mut drawn = refused.stage.clone();
    if drawn.is_without_size() {
        return Vec::new();
    }
    // Openings that do not fit reach beyond the panel, and their flaps would too.
    let beyond =
        |found: &Finding| matches!(found.built_in(), Some(BuiltIn::OpeningsDoNotFit { .. }));
    if refused.findings.iter().any(beyond) {
        drawn.tray = drawn.tray.without_flaps();
    }
    Folded::fold(Laid::lay(drawn).stage, Exactness::Drawn).measures
}

/// Everything whose length has a tolerance chain.
struct Chains {
    /// The tray and the items: the clearances that the settings of `fit` widen.
    clearances: Vec<Clearance>,
    /// The items under the lid, in the order of the held items.
    under_lid: Vec<Clearance>,
    pockets: Vec<Clearance>,
    locks: Vec<Lock>,
}

impl Chains {
    fn of(held: &Held) -> Chains {
        let folded = held.folded();
        // A piece for no item goes into no box, so it has no clearance.
        let (clearances, under_lid) = if folded.laid.drawn.job.has_box() {
            (Clearance::all(folded), Clearance::under_lid(held))
        } else {
            (Vec::new(), Vec::new())
        };
        Chains {
            clearances,
            under_lid,
            pockets: Clearance::of_pockets(folded),
            locks: Lock::all(folded),
        }
    }
}

/// Clearances that may turn out below zero, except those of an opening already reported as tight, locks that may not
/// engage, and cuts that the tool may not follow.
fn uncertain(cut: &Cut, chains: &Chains, found: &[Finding]) -> Vec<Finding> {
    let is_tight = |clearance: &Clearance| {
        let tight = |finding: &Finding| {
            let tight = finding
                .built_in()
                .is_some_and(|found| found.is_slot_tight());
            tight && clearance.opening.as_ref() == Some(&finding.place)
        };
        found.iter().any(tight)
    };
    let job = &cut.held.folded().laid.drawn.job;
    let open = chains.clearances.iter();
    let open: Vec<&Clearance> = open.filter(|clearance| !is_tight(clearance)).collect();
    let mut findings = tolerance::judge(job, &open);
    findings.extend(tolerance::judge_lid(&cut.held, &chains.under_lid));
    findings.extend(tolerance::judge_pockets(job, &chains.pockets));
    findings.extend(tolerance::judge_damp(job, &chains.clearances));
    findings.extend(locks::judge(job, &chains.locks));
    findings.extend(cut.too_short());
    findings
}
