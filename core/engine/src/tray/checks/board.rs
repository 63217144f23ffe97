//! The card, the box and the page, for any style.

use crate::finding::{Advice, BuiltIn, Change, Finding, Mm, Place, Side};
use crate::geometry::TOUCH_MM;
use crate::job::{BoardKind, CreaseKind, Job, Length, ReadHinge};

/// Errors in the board, the box or the page, for any style.
pub(crate) fn judge(job: &Job) -> Vec<Finding> {
    let board = &job.board;
    let mut findings: Vec<Finding> = judge_hinge(job).into_iter().collect();
    findings.extend(judge_caliper(job));
    findings.extend(judge_crease(job));
    findings.extend(judge_reading(job));
    if job.has_box() {
        findings.extend(judge_room(job));
    }
    if board.measure_it {
        let name = board.name.clone().unwrap_or_else(|| "board".to_owned());
        let caliper = Mm(board.caliper.mm());
        let found = BuiltIn::MeasureBoard {
            board: name,
            caliper,
        };
        findings.push(Finding::new(found, Place::Board));
    }
    findings.extend(judge_page(job));
    findings
}

/// The thinnest card that holds an item; thinner stock is paper.
// Source: a choice of this project; the trade speaks of paper below 0.006 in, 0.1524 mm (tests/facts/card.md), and finds
// scoring worth while from about there on.
const THINNEST_CARD_MM: f64 = 0.15;

/// Whether the card is stiff enough to hold anything.
fn judge_caliper(job: &Job) -> Option<Finding> {
    let caliper = job.board.caliper.mm();
    let found = Finding::new(BuiltIn::CardThin, Place::Board).measured(caliper, THINNEST_CARD_MM);
    let least = Mm(THINNEST_CARD_MM);
    (caliper < THINNEST_CARD_MM - TOUCH_MM).then(|| found.with_fix(Advice::ThickerCard { least }))
}

fn judge_hinge(job: &Job) -> Option<Finding> {
    let (hinge, most) = (job.board.hinge(), job.board.caliper.mm() / 2.0);
    if (0.0..=most + TOUCH_MM).contains(&hinge) {
        return None;
    }
    let found = Finding::new(BuiltIn::HingeRange, Place::Board).measured(hinge, most);
    let middle = Change::at_most("board", "hinge", 0.0, job.unit);
    Some(found.with_fix(Advice::LeaveHingeOut.by(middle)))
}

/// A half-cut cuts through the liner of corrugated board that is outside the fold.
// Source: common practice, none published: the outer liner takes the pull of the fold.
fn judge_crease(job: &Job) -> Option<Finding> {
    let (kind, crease) = (job.board.kind(), job.board.crease());
    if (kind, crease) != (BoardKind::Corrugated, CreaseKind::HalfCut) {
        return None;
    }
    let pressed = Change::to("board", "crease", "\"pressed\"");
    Some(Finding::new(BuiltIn::HalfCutCorrugated, Place::Board).with_fix(pressed))
}

/// Whether the strip can give the reading that the job states. If the job has a hinge, the reading is not used.
fn judge_reading(job: &Job) -> Option<Finding> {
    let board = &job.board;
    let (reading, read) = (board.reading?.mm(), board.read_hinge()?);
    let [least, most] = board.possible_readings().map(Length::mm);
    let limit = reading.clamp(least, most);
    let (caliper, least, most) = (Mm(board.caliper.mm()), Mm(least), Mm(most));
    let found = match read {
        _ if board.hinge.is_some() => return None,
        ReadHinge::Inside(_) => return None,
        ReadHinge::Nearly(_) => BuiltIn::ReadingAtLimit {
            caliper,
            least,
            most,
            taken: Mm(limit),
        },
        ReadHinge::Impossible(_) => BuiltIn::ReadingImpossible {
            caliper,
            least,
            most,
        },
    };
    let found = Finding::new(found, Place::Board).measured(reading, limit);
    Some(if found.is_error() {
        found.with_fix(Advice::MeasureStripAgain)
    } else {
        found
    })
}

/// Whether any of the box remains between its fit and two walls.
fn judge_room(job: &Job) -> Vec<Finding> {
    let fit = job.fit.around_tray.mm();
    let least = fit + 2.0 * job.board.caliper.mm();
    let too_small = sides(job).into_iter();
    let too_small = too_small.filter(|(_, inside)| *inside <= least);
    too_small
        .map(|(side, inside)| {
            let advice = if inside > fit {
                Advice::ThinnerCard
            } else {
                Advice::LargerBoxOrLessFit
            };
            let found = BuiltIn::BoxTooSmall {
                side,
                inside: Mm(inside),
                fit: Mm(fit),
            };
            let found = Finding::new(found, Place::Side(side));
            found.measured(inside, least).with_fix(advice)
        })
        .collect()
}

/// The sides of the box with their inside lengths.
pub(crate) fn sides(job: &Job) -> [(Side, f64); 3] {
    let size = &job.box_size;
    [
        (Side::Length, size.length.mm()),
        (Side::Width, size.width.mm()),
        (Side::Depth, size.depth.mm()),
    ]
}

/// Borders that home printers cannot print: at least the first, at most the second.
// Source: common practice, none published: home printers' manuals give borders from 4.2 mm (1/6 in) to 6.35 mm.
const MARGINS_MM: [f64; 2] = [4.2, 6.0];

/// Whether the printer can reach all lines near the edge of the paper.
fn judge_page(job: &Job) -> Option<Finding> {
    let margin = job.output.paper.page().margin.mm();
    let [least, usual] = MARGINS_MM;
    let (found, limit) = match margin {
        margin if margin < least - TOUCH_MM => (BuiltIn::PageMarginUnreached, least),
        margin if margin < usual - TOUCH_MM => (BuiltIn::PageMarginNarrow, usual),
        _ => return None,
    };
    let wider = Change::at_least("page", "margin", usual, job.unit);
    let found = Finding::new(found, Place::Page).measured(margin, limit);
    Some(found.with_fix(wider))
}
