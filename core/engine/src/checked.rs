//! The verdict, and the token that a tray has passed it.
//!
//! Given a style and a job; gives a [`CheckedTray`], which owns the tray, its blank, the folded tray and the order that
//! it vouches for, or a refusal with all that was found and the figures reached. A check has no options. It judges in
//! stages, and what is no more than the consequence of an error found before is not judged at all.

mod arrangement;
mod by_hand;
mod collisions;
mod fits;
mod flat;
mod foldability;
mod forms;
mod interlocks;
mod machine;
mod measures;
mod openings;
mod results;
mod rules;
mod tolerance;
mod wall_support;
mod webs;

use traywright_document::{Orientation, Toolpath};

use crate::blank::Blank;
use crate::finding::{BuiltIn, Finding, Place, Refusal, Report};
use crate::folded::FoldedTray;
use crate::job::Job;
use crate::motion::Folding;
use crate::solids::PanelSolids;
use crate::steps::FoldOrder;
use crate::style::{Style, text};
use crate::tray::Tray;
use crate::values::{EvalError, Values};
pub(crate) use rules::limit;
use tolerance::Clearance;
use wall_support::WallSupport;

/// A tray that is known to fit, fold and hold.
#[derive(Clone, Debug)]
pub struct CheckedTray {
    pub(crate) style: String,
    pub(crate) stands: Orientation,
    pub(crate) job: Job,
    pub(crate) tray: Tray,
    pub(crate) blank: Blank,
    pub(crate) folded: FoldedTray,
    pub(crate) order: FoldOrder,
    /// The lines as a machine works along them, seen from the drawn face.
    pub(crate) runs: Vec<Toolpath>,
    report: Report,
}

impl CheckedTray {
    /// Its figures and what was found: warnings and notes, no errors.
    pub fn report(&self) -> &Report {
        &self.report
    }

    /// The coarsest step to which the corners of its blank may be rounded by hand, if any was proved.
    pub(crate) fn hand_step(&self) -> Option<f64> {
        by_hand::coarsest_step(self)
    }
}

/// Makes a tray and judges it, stage by stage.
pub(crate) fn check(style: &Style, job: &Job) -> Result<CheckedTray, Refusal> {
    judged(style, job).map_err(|refusal| foldability::with_lower_box(refusal, style, job))
}

/// The same verdict, without a search for the lower box in which a blocked fold would have room: that takes as long as a
/// dozen trays.
pub(crate) fn judged(style: &Style, job: &Job) -> Result<CheckedTray, Refusal> {
    let mut values = Values::for_job(style, job)?;
    let mut report = Report::default();
    report.findings.extend(fits::judge_board_and_box(job));
    stop_at_errors(&mut report)?;

    let tray = Tray::draw(&mut values)
        .map_err(|stop| cause_first(refused(stop), &mut values, &mut report))?;
    judge_numbers(&mut values, &tray, &mut report)
        .map_err(|refusal| cause_first(refusal, &mut values, &mut report))
        .map_err(|refusal| with_outside(refusal, job, &tray))?;

    let blank = Blank::lay(&tray);
    report.findings.extend(flat::judge_blank(&tray, &blank));
    stop_at_errors(&mut report)?;

    let folded = FoldedTray::fold(&tray, &blank);
    let solids = PanelSolids::of(&tray, &blank);
    let outside = measures::of_folded(job, &blank, &folded);
    report.measures.extend(outside);
    let found = &mut report.findings;
    found.extend(fits::judge_folded(style, job, &blank, &folded));
    found.extend(collisions::judge(&tray, &solids, &folded));
    found.extend(arrangement::places(style, job, &tray, &blank, &folded));
    stop_at_errors(&mut report)?;

    let folding = Folding::of(&tray, &solids);
    let order =
        foldability::judge(style, folding).map_err(|found| ended_by(*found, &mut report))?;
    let wall_support = wall_support::of(folding);
    let mut checked = CheckedTray {
        style: style.name().to_owned(),
        stands: stands(style),
        job: job.clone(),
        tray,
        blank,
        folded,
        order,
        runs: Vec::new(),
        report,
    };
    put_in_order(&mut checked)?;
    judge_tolerances(&mut checked, &wall_support);
    Ok(checked)
}

/// How a style's tray stands, in the document's words.
fn stands(style: &Style) -> Orientation {
    match style.sheet.stands {
        text::Orientation::RootUp => Orientation::RootUp,
        text::Orientation::RootDown => Orientation::RootDown,
    }
}

/// The lines as a machine works along them, or the finding that the maker's wishes do not allow it.
fn put_in_order(checked: &mut CheckedTray) -> Result<(), Refusal> {
    checked.runs =
        machine::judge(checked).map_err(|found| ended_by(*found, &mut checked.report))?;
    Ok(())
}

/// What holds the walls, how sure the clearances are, and the verdict of each proof.
fn judge_tolerances(checked: &mut CheckedTray, wall_support: &[WallSupport]) {
    checked
        .report
        .findings
        .extend(wall_support::judge(wall_support));
    let clearances = clearances(&checked.job, &checked.tray, &checked.folded);
    let uncertain_clearances =
        uncertain_clearances(&checked.job, &clearances, &checked.report.findings);
    checked.report.findings.extend(uncertain_clearances);
    checked.report.proofs = results::of(checked, wall_support, &clearances);
    in_order(&mut checked.report);
}

/// The refusal by the style's own rules, where a formula of the style fails in a job that they do not allow.
fn cause_first(refusal: Refusal, values: &mut Values, report: &mut Report) -> Refusal {
    let Refusal::Style(_) = refusal else {
        return refusal;
    };
    let broken = rules::errors(values);
    if broken.is_empty() {
        return refusal;
    }
    report.findings.extend(broken);
    one_error_a_place(&mut report.findings);
    ended(report)
}

/// A refusal by numbers with the figures of blank and folded tray, where the panels have sizes at all.
fn with_outside(refusal: Refusal, job: &Job, tray: &Tray) -> Refusal {
    let Refusal::Tray(mut report) = refusal else {
        return refusal;
    };
    let sizes = flat::judge_sizes(tray, job);
    if !sizes.iter().any(Finding::is_error) {
        // Openings that do not fit lie beyond the panel, and so would their flaps.
        let astray = |finding: &Finding| {
            matches!(finding.built_in(), Some(BuiltIn::OpeningsDoNotFit { .. }))
        };
        let tray = if report.findings.iter().any(astray) {
            &tray.without_flaps()
        } else {
            tray
        };
        let blank = Blank::lay(tray);
        let folded = FoldedTray::fold(tray, &blank);
        report
            .measures
            .extend(measures::of_folded(job, &blank, &folded));
        measures::put_in_order(&mut report.measures);
    }
    Refusal::Tray(report)
}

/// What the numbers alone tell: the style's rules, the items and their openings, and panels without a size.
fn judge_numbers(values: &mut Values, tray: &Tray, report: &mut Report) -> Result<(), Refusal> {
    let job = values.job;
    report
        .measures
        .extend(measures::of_numbers(values, tray).map_err(refused)?);
    let body = rules::judge(values).map_err(refused)?;
    let openings = openings::judge(values, tray).map_err(refused)?;
    report.findings.extend(with_openings(body, openings));
    report
        .findings
        .extend(arrangement::judge(values, tray).map_err(refused)?);
    stop_at_errors(report)?;
    report.findings.extend(flat::judge_sizes(tray, job));
    report.findings.extend(interlocks::judge(tray));
    stop_at_errors(report)
}

/// The clearances that hands must hit: the tray's in its box, and each item's in its opening.
fn clearances(job: &Job, tray: &Tray, folded: &FoldedTray) -> Vec<Clearance> {
    let [length, width, depth] = fits::clearances(job, folded);
    let around = |place, value, along| Clearance {
        place,
        fit: "box",
        asked: job.fit.around_tray,
        value,
        along,
        opening: None,
    };
    let mut clearances = vec![
        around(Place::TrayInBox, length.min(width), job.box_size.length),
        around(Place::TrayUnderLid, depth, job.box_size.depth),
    ];
    for (index, opening) in tray.openings.iter().enumerate() {
        let Some(item) = opening.item_as_it_lies(job) else {
            continue;
        };
        clearances.push(Clearance {
            place: Place::ItemInOpening(item.name.clone()),
            fit: "item",
            asked: job.fit.around_item,
            value: openings::clear(tray, index).play(&item),
            along: item.length.max(item.width),
            opening: Some(openings::place(opening, &item)),
        });
    }
    clearances
}

/// Clearances that may turn out to be none, but for those of a slot that is told to be tight anyway.
fn uncertain_clearances(job: &Job, clearances: &[Clearance], found: &[Finding]) -> Vec<Finding> {
    let is_tight = |clearance: &Clearance| {
        let tight = |finding: &Finding| {
            let tight = BuiltIn::is_slot_tight;
            finding.built_in().is_some_and(tight)
                && clearance.opening.as_ref() == Some(&finding.place)
        };
        found.iter().any(tight)
    };
    let open = clearances.iter().filter(|clearance| !is_tight(clearance));
    tolerance::judge(job, &open.collect::<Vec<_>>())
}

/// Ends the check when something found so far is an error.
fn stop_at_errors(report: &mut Report) -> Result<(), Refusal> {
    one_error_a_place(&mut report.findings);
    if report.findings.iter().any(Finding::is_error) {
        Err(ended(report))
    } else {
        Ok(())
    }
}

/// The refusal with all that was found, the gravest first, and the figures reached.
fn ended(report: &mut Report) -> Refusal {
    in_order(report);
    Refusal::Tray(std::mem::take(report))
}

/// The refusal of a tray that one more finding ends.
fn ended_by(found: Finding, report: &mut Report) -> Refusal {
    report.findings.push(found);
    ended(report)
}

fn in_order(report: &mut Report) {
    report.findings.sort_by_key(|finding| finding.level);
    measures::put_in_order(&mut report.measures);
}

/// Findings of the body and the openings together. Where the body fails, so do its flaps: that is not told again.
fn with_openings(body: Vec<Finding>, openings: Vec<Finding>) -> Vec<Finding> {
    let body_fails = body.iter().any(Finding::is_error);
    let is_consequence =
        |finding: &Finding| matches!(finding.built_in(), Some(BuiltIn::FlapTooShallow { .. }));
    let openings = openings.into_iter();
    body.into_iter()
        .chain(openings.filter(|finding| !(body_fails && is_consequence(finding))))
        .collect()
}

/// Several errors at one place have one cause: the first is told.
fn one_error_a_place(findings: &mut Vec<Finding>) {
    let mut places: Vec<Place> = Vec::new();
    findings.retain(|finding| {
        let again = finding.is_error() && places.contains(&finding.place);
        if finding.is_error() {
            places.push(finding.place.clone());
        }
        !again
    });
}

/// A stopped evaluation as a refusal: no option of a fallback that fits, or the style's fault.
fn refused(stop: EvalError) -> Refusal {
    match stop {
        EvalError::NoFallback(finding) => Refusal::Tray(Report {
            findings: vec![*finding],
            ..Report::default()
        }),
        stop => Refusal::Style(vec![stop.into_fault()]),
    }
}
