//! Whether the folded tray fits the box, and its blank the job's card.

use traywright_document::Extent;

use crate::blank::Blank;
use crate::finding::{Advice, BuiltIn, Change, Finding, Mm, Place, Size};
use crate::folded::FoldedTray;
use crate::geometry::TOUCH_MM;
use crate::job::{Job, ToolKind};
use crate::style::text::Direction;
use crate::tray::{Drawn, sides};

/// Maximum deviation from the box's size in the directions in which the style fills its box.
// Source: the outside contract of the project.
const FILLS_MM: f64 = 0.01;

/// Clearances of the folded tray in the box, along length, width and depth, less the height that a rounded floor edge
/// takes.
pub(crate) fn clearances(job: &Job, folded: &FoldedTray) -> [f64; 3] {
    let outside = folded.outside();
    let size = &job.box_size;
    let [length, width, depth] = [
        size.length.mm() - outside[0],
        size.width.mm() - outside[1],
        size.depth.mm() - outside[2],
    ];
    [length, width, depth - stands_up(job, length.min(width))]
}

/// How far rounded edges of the box's floor lift the tray's walls off the floor.
// Derived: a wall half the clearance away from the box meets the quarter circle of radius r at r - √(r² - (r - c)²).
pub(crate) fn stands_up(job: &Job, clearance: f64) -> f64 {
    let radius = job.rounding.floor_corner.mm();
    let beside = radius - clearance / 2.0;
    if beside <= 0.0 {
        0.0
    } else {
        radius - (radius * radius - beside * beside).max(0.0).sqrt()
    }
}

/// Findings about the folded tray in its box, and the blank on the job's card.
pub(super) fn judge(drawn: &Drawn, blank: &Blank, folded: &FoldedTray) -> Vec<Finding> {
    let job = &drawn.job;
    let mut findings = Vec::new();
    if job.has_box() {
        findings.extend(judge_outside(drawn, folded));
        findings.extend(judge_corners(drawn, folded));
        findings.extend(judge_floor(job, folded));
    }
    findings.extend(judge_sheet(job, blank));
    findings
}

fn judge_outside(drawn: &Drawn, folded: &FoldedTray) -> Vec<Finding> {
    let job = &drawn.job;
    let outside = folded.outside();
    let directions = [Direction::Length, Direction::Width, Direction::Depth];
    let mut findings = Vec::new();
    for (axis, (direction, (side, inside))) in directions.into_iter().zip(sides(job)).enumerate() {
        let most = match direction {
            Direction::Depth => job.tray_height(),
            _ => inside - job.fit.around_tray.mm(),
        };
        let off = outside[axis] - most;
        // Each direction is a place of its own, because a tray can be wrong in all three.
        let found = |found| Finding::new(found, Place::Side(side)).measured(outside[axis], most);
        if off > FILLS_MM {
            let more = Advice::LargerThatWay { more: Mm(off) };
            findings.push(found(BuiltIn::OutsideTooLarge { side }).with_fix(more));
        } else if off < -FILLS_MM && drawn.style.fills.contains(&direction) {
            findings.push(found(BuiltIn::DoesNotFill { side }));
        }
    }
    findings
}

/// Square corners of the tray in rounded corners of the box.
fn judge_corners(drawn: &Drawn, folded: &FoldedTray) -> Option<Finding> {
    let job = &drawn.job;
    let radius = job.rounding.corner.mm();
    let [length_left, width_left, _] = clearances(job, folded);
    let fills = |direction| drawn.style.fills.contains(&direction);
    let most = if fills(Direction::Length) && fills(Direction::Width) {
        largest_radius(length_left / 2.0, width_left / 2.0)
    } else {
        let from_wall = |at: f64, least: f64, most: f64| (at - least).min(most - at);
        folded
            .footprint
            .iter()
            .fold(f64::INFINITY, |largest, point| {
                let along = from_wall(point.x, folded.least[0], folded.most[0]) + length_left / 2.0;
                let across = from_wall(point.y, folded.least[1], folded.most[1]) + width_left / 2.0;
                largest.min(largest_radius(along, across))
            })
    };
    // The walls stop a tray before the square corners of a box do.
    if radius <= TOUCH_MM || radius <= most + TOUCH_MM {
        return None;
    }
    // Derived: with like clearances the largest radius is fit (1 + √½), so the fit that passes is radius (2 - √2).
    let needed = radius * (2.0 - std::f64::consts::SQRT_2);
    let looser = Change::at_least("fit", "box", needed, job.unit);
    let found = Finding::new(BuiltIn::CornerTouches, Place::Box).measured(radius, most);
    Some(found.with_fix(Advice::ChangeOrMore.by(looser)))
}

/// The largest corner radius that a square corner clears at these distances from the two walls.
// Derived: the corner touches the circle of radius R where (R - a)² + (R - b)² = R², so R = a + b + √(2ab).
fn largest_radius(along: f64, across: f64) -> f64 {
    along + across + (2.0 * along * across).max(0.0).sqrt()
}

fn judge_floor(job: &Job, folded: &FoldedTray) -> Option<Finding> {
    let [length_left, width_left, depth_left] = clearances(job, folded);
    let up = stands_up(job, length_left.min(width_left));
    if up <= TOUCH_MM {
        return None;
    }
    let found = |found| Finding::new(found, Place::Box).measured(up, job.fit.around_tray.mm());
    let (up, free, short) = (Mm(up), Mm(depth_left), Mm(-depth_left));
    if depth_left >= -TOUCH_MM {
        return Some(found(BuiltIn::FloorCornerLifts { up, free }));
    }
    let too_high = found(BuiltIn::FloorCornerTooHigh { up, short });
    Some(too_high.with_fix(Advice::MoreFitOrFlatFloor))
}

fn judge_sheet(job: &Job, blank: &Blank) -> Option<Finding> {
    let sheet = job.board.sheet.as_ref()?;
    let Extent { least, most } = blank.extent();
    let (long, short) = (
        (most.x - least.x).max(most.y - least.y),
        (most.x - least.x).min(most.y - least.y),
    );
    let (width, height) = (sheet.width.mm(), sheet.height.mm());
    let (sheet_long, sheet_short) = (width.max(height), width.min(height));
    if long <= sheet_long + TOUCH_MM && short <= sheet_short + TOUCH_MM {
        return None;
    }
    let (value, limit) = if long > sheet_long {
        (long, sheet_long)
    } else {
        (short, sheet_short)
    };
    let (blank, sheet) = (Size([long, short]), Size([sheet_long, sheet_short]));
    let (found, advice) = match job.tool.by {
        ToolKind::Hand => (BuiltIn::SheetTooSmall { blank, sheet }, Advice::LargerCard),
        ToolKind::Machine => (BuiltIn::BedTooSmall { blank, sheet }, Advice::LargerBed),
    };
    let found = Finding::new(found, Place::Board).measured(value, limit);
    Some(found.with_fix(advice))
}
