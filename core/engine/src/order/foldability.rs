//! Room to swing: whether every fold can be made in its place of the order.
//!
//! Given the folded tray; gives the order in which it can be folded, or the one finding why it cannot.

use super::motion::{Collision, Folding, first_collision};
use super::search::worked_out;
use super::steps::FoldOrder;
use crate::finding::{Advice, BuiltIn, Clause, Degrees, Finding, Place};
use crate::style::Style;
use crate::tray::PanelId;

/// Puts the folds in order and turns each of them; or tells the first that runs into something.
pub(super) fn judge(style: &Style, folding: Folding) -> Result<FoldOrder, Box<Finding>> {
    let Some(order) = FoldOrder::arrange(style, folding) else {
        let root = Place::Panel(folding.tray.panels[PanelId::ROOT].name.clone());
        let advice = Advice::LongerBoxOrLowerTray { order: None };
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
        Finding::new(blocked, place).with_fix(Advice::LongerBoxOrLowerTray { order })
    } else {
        Finding::new(BuiltIn::NoSwingRoom { meets }, place)
            .with_fix(Advice::LongerBoxOrLowerTray { order: None })
    };
    found.measured(collision.angle_deg, whole)
}

/// The style's own reason for the order that does not work.
fn reason(order: &FoldOrder, collision: &Collision) -> Option<Clause> {
    let why = order.actions[collision.action].why.trim_end_matches('.');
    let why = why.to_owned();
    (!why.is_empty()).then_some(Clause::StyleSays { why })
}
