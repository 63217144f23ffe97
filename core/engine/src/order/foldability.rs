//! Whether every fold can be made at its position in the order.
//!
//! **Input:** the folded tray. **Output:** the order in which the tray can be folded, or one finding that says why it
//! cannot.

use super::motion::{Collision, Folding, first_collision};
use super::search::worked_out;
use super::steps::FoldOrder;
use crate::finding::{Advice, BuiltIn, Clause, Degrees, Finding, Place};
use crate::style::Style;
use crate::tray::PanelId;

/// Orders the folds, far walls first if that works, and checks each of them. If the style's own order is blocked but
/// another works, the result is that order with a note.
///
/// # Errors
/// The first fold that collides with a panel, if no order works.
pub(super) fn judge(
    style: &Style,
    folding: Folding,
) -> Result<(FoldOrder, Option<Finding>), Box<Finding>> {
    let far_first = FoldOrder::far_first(style, folding);
    if let Some(order) = far_first.filter(|order| first_collision(folding, order).is_none()) {
        return Ok((order, None));
    }
    let Some(order) = FoldOrder::arrange(style, folding) else {
        let root = Place::Panel(folding.tray.panels[PanelId::ROOT].name.clone());
        let found = Finding::new(BuiltIn::NoFoldingOrder, root);
        return Err(Box::new(found.with_fix(Advice::LongerBoxOrLowerTray)));
    };
    let Some(collision) = first_collision(folding, &order) else {
        return Ok((order, None));
    };
    let found = worked_out(folding);
    let other = found.map(|found| order.rearranged(style, folding, &found));
    match other.filter(|other| first_collision(folding, other).is_none()) {
        Some(other) => Ok((other, Some(other_order(folding, &order, &collision)))),
        None => Err(Box::new(blocked(folding, &collision))),
    }
}

/// The note that the order of the folds differs from the style's.
fn other_order(folding: Folding, order: &FoldOrder, collision: &Collision) -> Finding {
    let (place, meets) = meets(folding, collision);
    let found = BuiltIn::OtherOrder {
        step: collision.action + 1,
        meets,
        reason: reason(order, collision),
    };
    let found = Finding::new(found, place);
    found.measured(collision.angle_deg, whole_angle(folding, collision))
}

/// The finding about the collision, if no order works.
fn blocked(folding: Folding, collision: &Collision) -> Finding {
    let (place, meets) = meets(folding, collision);
    let found = Finding::new(BuiltIn::NoSwingRoom { meets }, place);
    found
        .measured(collision.angle_deg, whole_angle(folding, collision))
        .with_fix(Advice::LongerBoxOrLowerTray)
}

/// The angle of the finished fold.
fn whole_angle(folding: Folding, collision: &Collision) -> f64 {
    let hanging = folding.tray.panels[collision.panel].hanging.as_ref();
    hanging.map_or(0.0, |hanging| hanging.fold_deg.abs())
}

/// The panel that collides with another, and when.
fn meets(folding: Folding, collision: &Collision) -> (Place, Clause) {
    let panels = &folding.tray.panels;
    let place = Place::Panel(panels[collision.panel].name.clone());
    let other = panels[collision.other].name.clone();
    let meets = if collision.angle_deg < 1.0 {
        Clause::MeetsAtOnce { other }
    } else {
        let angle = Degrees(collision.angle_deg);
        Clause::MeetsAfter { angle, other }
    };
    (place, meets)
}

/// The style's own reason for the order that is blocked.
fn reason(order: &FoldOrder, collision: &Collision) -> Option<Clause> {
    let why = order.actions[collision.action].why.trim_end_matches('.');
    let why = why.to_owned();
    (!why.is_empty()).then_some(Clause::StyleSays { why })
}
