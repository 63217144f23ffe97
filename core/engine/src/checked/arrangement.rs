//! Whether several openings go into their field together, how they were set out, and where each item then lies.
//!
//! Given the numbers, the tray and the folded tray; gives findings. Where nothing fits it says how much is missing and
//! what would do, each cure tried before it is named. The webs between openings are judged here too, those to the edges
//! in `webs`.

mod fixes;

use super::finding;
use super::openings::called;
use crate::blank::Blank;
use crate::finding::{Finding, Level};
use crate::folded::FoldedTray;
use crate::geometry::{Point, TOUCH_MM};
use crate::job::{DrawnFace, Job, Unit};
use crate::style::Style;
use crate::style::text::{OpeningEntry, Orientation};
use crate::tray::{Opening, OpeningCut, Tray};
use crate::values::{Arrangement, ArrangementResult, EvalError, Rect, SearchVerdict, Values};
use crate::wording::{length, lengths_apart, list};
use std::rc::Rc;
use traywright_document::Measure;

/// Judges what the engine set out, and the webs between openings.
pub(super) fn judge(values: &mut Values, tray: &Tray) -> Result<Vec<Finding>, EvalError> {
    let mut findings = Vec::new();
    for (name, arrangement) in arrangements(values, tray)? {
        match arrangement.outcome {
            ArrangementResult::InRows => {}
            ArrangementResult::Packed => {
                findings.push(packed(values.job, tray, &name, &arrangement))
            }
            ArrangementResult::DoesNotFit { lacks, search } => {
                let words = missing(lacks, search, arrangement.openings.len(), values.job.unit);
                let found = finding(Level::Error, "openings-do-not-fit", name, words);
                let fix = fixes::of(values.style, values.job);
                let found = found.measured(lacks[0].max(lacks[1]), 0.0);
                findings.push(found.with_fix(fix));
            }
        }
    }
    findings.extend(judge_webs(values, tray)?);
    findings.extend(turns_left_aside(values, tray)?);
    Ok(findings)
}

/// The arrangements of several openings, each with the name of its slot.
fn arrangements(
    values: &mut Values,
    tray: &Tray,
) -> Result<Vec<(String, Rc<Arrangement>)>, EvalError> {
    let mut found: Vec<(String, Rc<Arrangement>)> = Vec::new();
    for opening in &tray.openings {
        let Some(arrangement) = values.arrangement(opening.member)? else {
            continue;
        };
        let several = arrangement.openings.len() > 1;
        if several
            && !found
                .iter()
                .any(|(_, other)| Rc::ptr_eq(other, &arrangement))
        {
            let entry = values.graph.openings[opening.member].entry;
            let name = values.sheet().openings.0[entry].0.word.clone();
            found.push((name, arrangement));
        }
    }
    Ok(found)
}

/// Figures of the fields in which openings were set out.
pub(super) fn measures(values: &mut Values, tray: &Tray) -> Result<Vec<Measure>, EvalError> {
    let mut measures = Vec::new();
    let arrangements = arrangements(values, tray)?;
    let several = arrangements.len() > 1;
    for (name, arrangement) in arrangements {
        let Some(field) = arrangement.field else {
            continue;
        };
        let figure = |figure: &str, value| Measure {
            name: if several {
                format!("{name}_{figure}")
            } else {
                figure.to_owned()
            },
            value,
        };
        measures.push(figure("field_length", field.length));
        measures.push(figure("field_width", field.width));
        let own = tray.openings.iter();
        let own = own.filter(|opening| arrangement.has(opening.member));
        let placed: Vec<Rect> = own.map(Opening::extent).collect();
        if let Some((_, _, web)) = nearest(&placed).filter(|_| !arrangement.fails()) {
            measures.push(figure("least_web", web));
        }
    }
    Ok(measures)
}

fn missing(lacks: [f64; 2], search: SearchVerdict, count: usize, unit: Unit) -> String {
    let [along, across] = lacks;
    let short = match (along > 0.0, across > 0.0) {
        (true, true) => format!(
            "{} are missing along the length and {} along the width",
            length(along, unit),
            length(across, unit)
        ),
        (true, false) => format!("{} are missing along the length", length(along, unit)),
        _ => format!("{} are missing along the width", length(across, unit)),
    };
    let beyond = match search {
        SearchVerdict::Impossible => "no other arrangement of them fits either".to_owned(),
        SearchVerdict::StepLimit(steps) => {
            format!("no other arrangement was found in {steps} steps of search")
        }
        SearchVerdict::TooManyItems => "for so many no other arrangement is searched".to_owned(),
    };
    format!("{count} openings do not fit: in the best rows {short}, and {beyond}")
}

fn packed(job: &Job, tray: &Tray, name: &str, arrangement: &Arrangement) -> Finding {
    let lies_turned = |opening: &&Opening| opening.turned && arrangement.has(opening.member);
    let turned = tray.openings.iter().filter(lies_turned);
    let turned: Vec<String> = turned
        .filter_map(|opening| Some(opening.item_as_it_lies(job)?.name))
        .collect();
    let mut message =
        "rows in the order of the job do not fit, so the openings are packed in another order"
            .to_owned();
    if !turned.is_empty() {
        let lies = if turned.len() == 1 { "lies" } else { "lie" };
        message.push_str(&format!(
            "; {} {lies} a quarter turn round, as the job allows",
            list(&turned)
        ));
    }
    finding(Level::Note, "openings-packed", name, message)
}

/// Openings of one panel that come nearer to each other than the web, unless the style has placed both of them.
fn judge_webs(values: &mut Values, tray: &Tray) -> Result<Option<Finding>, EvalError> {
    // A style without a slot is not asked for a web.
    if values.sheet().asks.position("web").is_none() {
        return Ok(None);
    }
    let web = values.house_length("web")?;
    let mut worst: Option<(&Opening, &Opening, f64)> = None;
    for (index, one) in tray.openings.iter().enumerate() {
        for other in &tray.openings[..index] {
            let gap = one.extent().gap(&other.extent());
            let worse = worst.is_none_or(|(_, _, least)| gap < least);
            if worse && gap < web - TOUCH_MM && is_judged(values, other, one)? {
                worst = Some((other, one, gap));
            }
        }
    }
    Ok(worst.map(|(one, other, gap)| {
        let job = values.job;
        let (is, least) = lengths_apart(gap, web, job.unit);
        let message = if gap < 0.0 {
            "one reaches into the other".to_owned()
        } else {
            format!("{is} of card stay between them (at least {least})")
        };
        let place = format!("{} and {}", told(job, one), told(job, other));
        finding(Level::Error, "openings-overlap", place, message)
            .measured(gap, web)
            .with_fix("smaller items, a larger box, or a style that places them further apart")
    }))
}

fn told(job: &Job, opening: &Opening) -> String {
    opening
        .item_as_it_lies(job)
        .map_or(opening.name.clone(), |item| called(opening, &item))
}

/// Whether the web between two openings is the engine's to judge: both are cut from one panel, not both where the style
/// says, and not set out together.
fn is_judged(values: &mut Values, one: &Opening, other: &Opening) -> Result<bool, EvalError> {
    let cut = |opening: &Opening| !matches!(opening.cut, OpeningCut::Uncut);
    if one.panel != other.panel || !cut(one) || !cut(other) {
        return Ok(false);
    }
    let placed = |opening: &Opening| match values.opening_entry(opening.member) {
        OpeningEntry::Slot(slot) => slot.at.is_some(),
        OpeningEntry::Hole(hole) => hole.at.is_some(),
        OpeningEntry::Scoop(_) => true,
    };
    if placed(one) && placed(other) {
        return Ok(false);
    }
    let together = values.arrangement(one.member)?;
    Ok(together.is_none_or(|arrangement| !arrangement.has(other.member)))
}

/// Two rectangles that lie nearest to each other, and how far apart.
fn nearest(rects: &[Rect]) -> Option<(usize, usize, f64)> {
    let pairs = (0..rects.len()).flat_map(|one| (0..one).map(move |other| (other, one)));
    let gaps = pairs.map(|(one, other)| (one, other, rects[one].gap(&rects[other])));
    gaps.min_by(|one, other| one.2.total_cmp(&other.2))
}

/// `turn` in a job whose style does not set out openings.
fn turns_left_aside(values: &mut Values, tray: &Tray) -> Result<Option<Finding>, EvalError> {
    for opening in &tray.openings {
        let item = opening.item.map(|item| &values.job.items[item]);
        let Some(name) = item.filter(|item| item.turns).map(|item| item.name.clone()) else {
            continue;
        };
        if values.arrangement(opening.member)?.is_none() {
            let message = "the style places its opening, so `turn` is left aside: swap its length and width to turn it";
            return Ok(Some(finding(Level::Note, "turn-ignored", name, message)));
        }
    }
    Ok(None)
}

/// An item's opening as it is seen in the finished tray.
struct Seen {
    name: String,
    middle: Point,
    /// Half its extent away from the viewer.
    half: f64,
}

/// Which item lies where in the finished tray, seen from above; nothing is told of fewer than two.
pub(super) fn places(
    style: &Style,
    job: &Job,
    tray: &Tray,
    blank: &Blank,
    folded: &FoldedTray,
) -> Option<Finding> {
    let mut seen: Vec<Seen> = Vec::new();
    let mut rects: Vec<Rect> = Vec::new();
    for opening in tray.openings.iter() {
        let Some(item) = opening.item_as_it_lies(job) else {
            continue;
        };
        let stands = |corner: Point| {
            let flat = blank.panels[opening.panel].frame.place(corner);
            let [x, y, _] = folded.motions[opening.panel].apply([flat.x, flat.y, 0.0]);
            match style.sheet.stands {
                Orientation::DeckUp => Point::new(x, -y),
                Orientation::DeckDown => Point::new(x, y),
            }
        };
        let [low, _, high, _] = opening.rect.corners().map(stands);
        seen.push(Seen {
            name: item.name,
            middle: low.middle(high),
            half: (high.y - low.y).abs() / 2.0,
        });
        rects.push(opening.extent());
    }
    let (one, other, web) = nearest(&rects)?;
    let between = [&seen[one].name, &seen[other].name].map(|name| name.clone());
    let rows: Vec<String> = in_rows(seen).iter().map(|row| row.join(", ")).collect();
    let message = format!(
        "seen from above in the finished tray, the far row first and each from the left: {}. The least web is {}, between {}. {}",
        rows.join("; "),
        length(web, job.unit),
        list(&between),
        mirror(style, job.drawn_face)
    );
    Some(finding(Level::Note, "item-places", "items", message))
}

/// Their names in rows, the far one first, each from left to right: a row holds what its farthest one lies beside.
fn in_rows(mut seen: Vec<Seen>) -> Vec<Vec<String>> {
    seen.sort_by(|one, other| (other.middle.y + other.half).total_cmp(&(one.middle.y + one.half)));
    let mut rows: Vec<Vec<Seen>> = Vec::new();
    for one in seen {
        let beside = |first: &Seen| (one.middle.y - first.middle.y).abs() < first.half;
        match rows.last_mut() {
            Some(row) if beside(&row[0]) => row.push(one),
            _ => rows.push(vec![one]),
        }
    }
    let from_left = |mut row: Vec<Seen>| {
        row.sort_by(|one, other| one.middle.x.total_cmp(&other.middle.x));
        row.into_iter().map(|one| one.name).collect()
    };
    rows.into_iter().map(from_left).collect()
}

/// How the drawing shows it.
fn mirror(style: &Style, drawn: DrawnFace) -> &'static str {
    match (style.sheet.stands, drawn) {
        (Orientation::DeckUp, DrawnFace::Inside) => {
            "The drawing is its mirror image: it shows the inside, with the far row at the bottom"
        }
        (Orientation::DeckUp, DrawnFace::Outside) => {
            "The drawing shows the same, turned half round"
        }
        (Orientation::DeckDown, DrawnFace::Inside) => "The drawing shows the same",
        (Orientation::DeckDown, DrawnFace::Outside) => {
            "The drawing is its mirror image: left and right change places"
        }
    }
}
