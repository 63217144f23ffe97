//! Room to swing: whether every fold can be made in its place of the order, and what tray could be folded instead.
//!
//! Given the folded tray; gives the order in which it can be folded, or the one finding why it cannot.

use super::Ordered;
use super::motion::{Collision, Folding, first_collision};
use super::search::worked_out;
use super::steps::FoldOrder;
use crate::blank::Laid;
use crate::finding::{
    Advice, BuiltIn, Change, Clause, Degrees, Finding, FindingKind, Mm, Place, Refusal,
};
use crate::folded::{Exactness, Folded};
use crate::job::{Job, Length};
use crate::style::Style;
use crate::tray::{Drawn, PanelId};

/// How finely a lower tray is looked for.
const STEPS: usize = 12;

/// Puts the folds in order and turns each of them; or tells the first that runs into something.
pub(super) fn judge(style: &Style, folding: Folding) -> Result<FoldOrder, Box<Finding>> {
    let Some(order) = FoldOrder::arrange(style, folding) else {
        let root = Place::Panel(folding.tray.panels[PanelId::ROOT].name.clone());
        let advice = Advice::LongerOrLowerBox { order: None };
        let found = Finding::new(BuiltIn::NoFoldingOrder, root);
        return Err(Box::new(found.with_fix(advice)));
    };
    match first_collision(folding, &order) {
        Some(collision) => Err(Box::new(blocked(folding, &order, &collision))),
        None => Ok(order),
    }
}

/// What is in the way of a fold: the order, if there is another one in which the tray can be folded, or the tray itself.
fn blocked(folding: Folding, order: &FoldOrder, collision: &Collision) -> Finding {
    let panels = &folding.tray.panels;
    let place = Place::Panel(panels[collision.panel].name.clone());
    let other = panels[collision.other].name.clone();
    let meets = if collision.angle_deg < 1.0 {
        Clause::MeetsAtOnce { other }
    } else {
        let angle = Degrees(collision.angle_deg);
        Clause::MeetsAfter { angle, other }
    };
    let whole = panels[collision.panel]
        .hanging
        .as_ref()
        .map_or(0.0, |hanging| hanging.fold_deg.abs());
    let found = if let Some(other_order) = worked_out(folding) {
        let blocked = BuiltIn::StepBlocked {
            step: collision.action + 1,
            meets,
            reason: reason(order, collision),
        };
        let names: Vec<&str> = other_order
            .iter()
            .map(|&panel| panels[panel].name.as_str())
            .collect();
        let order = Some(Clause::OrOtherOrder {
            order: names.join(", "),
        });
        Finding::new(blocked, place).with_fix(Advice::LongerOrLowerBox { order })
    } else {
        Finding::new(BuiltIn::NoSwingRoom { meets }, place)
            .with_fix(Advice::LongerOrLowerBox { order: None })
    };
    found.measured(collision.angle_deg, whole)
}

/// The style's own reason for the order that does not work.
fn reason(order: &FoldOrder, collision: &Collision) -> Option<Clause> {
    let why = order.actions[collision.action].why.trim_end_matches('.');
    let why = why.to_owned();
    (!why.is_empty()).then_some(Clause::StyleSays { why })
}

/// Adds to a blocked fold the height at which it has room.
pub(crate) fn with_lower_tray(mut refusal: Refusal, style: &Style, job: &Job) -> Refusal {
    if let Refusal::Tray(report) = &mut refusal {
        for found in report.findings.iter_mut().filter(|found| is_blocked(found)) {
            let Some(height) = lower(style, job) else {
                continue;
            };
            let order = match found.fix.take().map(|fix| fix.says) {
                Some(Advice::LongerOrLowerBox { order }) => order,
                _ => None,
            };
            let lower = Mm(job.tray_height() - height);
            let change = Change::at_most("tray", "height", height, job.unit);
            found.fix = Some(Advice::LowerTray { lower, order }.by(change));
        }
    }
    refusal
}

/// Whether a finding is a fold that cannot be made.
fn is_blocked(finding: &Finding) -> bool {
    matches!(
        finding.kind,
        FindingKind::BuiltIn(
            BuiltIn::NoSwingRoom { .. } | BuiltIn::StepBlocked { .. } | BuiltIn::NoFoldingOrder
        )
    )
}

/// The height at which the tray could be folded, if a lower one can at all.
fn lower(style: &Style, job: &Job) -> Option<f64> {
    let (mut folds, mut blocked) = (0.0, job.tray_height());
    for _ in 0..STEPS {
        let height = (folds + blocked) / 2.0;
        match can_be_folded(style, job, height) {
            Some(false) => blocked = height,
            // It folds, or it is too low for the style: then what folds lies above.
            Some(true) | None => folds = height,
        }
    }
    // A whole millimetre below, so that following the advice is enough.
    let height = folds.floor();
    (can_be_folded(style, job, height) == Some(true)).then_some(height)
}

/// Whether a tray of that height can be folded; none when it cannot be made for another reason.
fn can_be_folded(style: &Style, job: &Job, height: f64) -> Option<bool> {
    let job = Job {
        tray_height: Some(Length::known(height)),
        ..job.clone()
    };
    let drawn = Drawn::draw(style, &job).ok()?.sound()?;
    let laid = Laid::lay(drawn).sound()?;
    let folded = Folded::fold(laid, Exactness::Drawn).sound()?;
    Some(Ordered::arrange(style, folded).is_ok())
}
