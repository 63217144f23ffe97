//! Whether several openings fit into their field together, how they were arranged, and the webs between them.
//!
//! **Input:** the values and the tray. **Output:** findings; if nothing fits, the missing length and tried changes of
//! the job that help. `webs` has the webs to the edges, `folded/places` the position of each item.

mod fixes;

use super::openings::place;
use super::webs::least_web;
use crate::finding::{Advice, BuiltIn, Change, Clause, Finding, Mm, Place};
use crate::geometry::TOUCH_MM;
use crate::job::Job;
use crate::measure::{FieldMeasure, Measure, Measured};
use crate::style::text::OpeningEntry;
use crate::tray::{Opening, OpeningCut, PanelId, Tray};
use crate::values::{Arrangement, ArrangementResult, EvalError, Rect, SearchVerdict, Values};
use std::rc::Rc;

/// Checks the arrangement that the engine made, and the webs between openings.
pub(super) fn judge(values: &Values, tray: &Tray) -> Result<Vec<Finding>, EvalError> {
    let mut findings = Vec::new();
    for (name, arrangement) in arrangements(values, tray)? {
        match arrangement.outcome {
            ArrangementResult::InRows => {}
            ArrangementResult::Packed => {
                findings.push(packed(values.job, tray, name, &arrangement))
            }
            ArrangementResult::DoesNotFit { lacks, search } => {
                let found = missing(lacks, search, arrangement.openings.len());
                let found = Finding::new(found, Place::Part(name));
                let found = found.measured(lacks[0].max(lacks[1]), 0.0);
                findings.push(found.with_fix(fixes::of(values.style, values.job)));
            }
        }
    }
    match judge_webs(values, tray)? {
        Some(too_near) => findings.push(too_near),
        None => findings.extend(judge_weak_web(values, tray)),
    }
    findings.extend(turns_left_aside(values, tray)?);
    Ok(findings)
}

/// The arrangements of several openings, each with the name of its slot.
fn arrangements(values: &Values, tray: &Tray) -> Result<Vec<(String, Rc<Arrangement>)>, EvalError> {
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
            let name = values.sheet().openings[entry].0.word.clone();
            found.push((name, arrangement));
        }
    }
    Ok(found)
}

/// Measures of the fields with arranged openings.
pub(super) fn measures(values: &Values, tray: &Tray) -> Result<Vec<Measure>, EvalError> {
    let mut measures = Vec::new();
    let arrangements = arrangements(values, tray)?;
    let several = arrangements.len() > 1;
    for (name, arrangement) in arrangements {
        let Some(field) = arrangement.field else {
            continue;
        };
        let of = |measure, value| Measure {
            of: Measured::Field {
                opening: several.then(|| name.clone()),
                measure,
            },
            value,
        };
        measures.push(of(FieldMeasure::Length, field.length));
        measures.push(of(FieldMeasure::Width, field.width));
        let own = tray.openings.iter();
        let own = own.filter(|opening| arrangement.has(opening.member));
        let placed: Vec<(PanelId, Rect)> = own.map(|own| (own.panel, own.extent())).collect();
        if let Some((_, _, web)) = nearest(&placed).filter(|_| !arrangement.fails()) {
            measures.push(of(FieldMeasure::LeastWeb, web));
        }
    }
    Ok(measures)
}

fn missing([along, across]: [f64; 2], search: SearchVerdict, count: usize) -> BuiltIn {
    let short = match (along > 0.0, across > 0.0) {
        (true, true) => Clause::MissingBoth {
            along: Mm(along),
            across: Mm(across),
        },
        (true, false) => Clause::MissingAlong { along: Mm(along) },
        _ => Clause::MissingAcross { across: Mm(across) },
    };
    let search = match search {
        SearchVerdict::Impossible => Clause::NoOtherFits,
        SearchVerdict::StepLimit(steps) => Clause::NotFound { steps },
        SearchVerdict::TooManyItems => Clause::NotSearched,
    };
    BuiltIn::OpeningsDoNotFit {
        count,
        short,
        search,
    }
}

fn packed(job: &Job, tray: &Tray, name: String, arrangement: &Arrangement) -> Finding {
    let lies_turned = |opening: &&Opening| opening.turned && arrangement.has(opening.member);
    let turned = tray.openings.iter().filter(lies_turned);
    let items: Vec<String> = turned
        .filter_map(|opening| Some(opening.item_as_it_lies(job)?.name))
        .collect();
    let turned = match items.len() {
        0 => None,
        1 => Some(Clause::OneTurned { items }),
        _ => Some(Clause::SeveralTurned { items }),
    };
    Finding::new(BuiltIn::OpeningsPacked { turned }, Place::Part(name))
}

/// Openings of one panel that are nearer to each other than the web, unless the style has placed both of them.
fn judge_webs(values: &Values, tray: &Tray) -> Result<Option<Finding>, EvalError> {
    // A style without a slot needs no web.
    if values.sheet().settings.id("web").is_none() {
        return Ok(None);
    }
    let web = values.built_in_length("web")?;
    let mut worst: Option<(&Opening, &Opening, f64)> = None;
    for (index, one) in tray.openings.iter().enumerate() {
        for other in tray.openings.iter().take(index) {
            let gap = one.extent().gap(&other.extent());
            let worse = worst.is_none_or(|(_, _, least)| gap < least);
            if worse && gap < web - TOUCH_MM && is_judged(values, other, one)? {
                worst = Some((other, one, gap));
            }
        }
    }
    Ok(worst.map(|(one, other, gap)| {
        let job = values.job;
        let found = if gap < 0.0 {
            BuiltIn::OpeningsOverlap
        } else {
            BuiltIn::OpeningsTooNear
        };
        let pair = [place_of(job, one), place_of(job, other)];
        Finding::new(found, Place::Pair(Box::new(pair)))
            .measured(gap, web)
            .with_fix(Advice::ItemsSmallerOrApart)
    }))
}

/// The two openings with the narrowest web, if the web is narrow for the card's thickness.
fn judge_weak_web(values: &Values, tray: &Tray) -> Option<Finding> {
    let job = values.job;
    let cut = tray.openings.iter();
    let cut: Vec<&Opening> = cut
        .filter(|opening| !matches!(opening.cut, OpeningCut::Uncut))
        .collect();
    let rects: Vec<(PanelId, Rect)> = cut
        .iter()
        .map(|opening| (opening.panel, opening.extent()))
        .collect();
    let (one, other, gap) = nearest(&rects)?;
    let least = least_web(job);
    if gap < TOUCH_MM || gap > least - TOUCH_MM {
        return None;
    }
    let pair = [place_of(job, cut[one]), place_of(job, cut[other])];
    let found = Finding::new(BuiltIn::WebWeakBetween, Place::Pair(Box::new(pair)));
    let wider = Change::at_least("set", "web", least, job.unit);
    let advice = Advice::WiderWebOrThinnerCard.by(wider);
    Some(found.measured(gap, least).with_fix(advice))
}

/// An opening, with its item if it has one.
fn place_of(job: &Job, opening: &Opening) -> Place {
    match opening.item_as_it_lies(job) {
        Some(item) => place(opening, &item),
        None => Place::Opening {
            opening: opening.name.clone(),
            item: None,
        },
    }
}

/// Whether the engine checks the web between two openings: both are cut from one panel, the style does not place both,
/// and they are not arranged together.
fn is_judged(values: &Values, one: &Opening, other: &Opening) -> Result<bool, EvalError> {
    let cut = |opening: &Opening| !matches!(opening.cut, OpeningCut::Uncut);
    if one.panel != other.panel || !cut(one) || !cut(other) {
        return Ok(false);
    }
    let placed = |opening: &Opening| match values.opening_entry(opening.member) {
        OpeningEntry::Slot(slot) => slot.at.is_some(),
        OpeningEntry::Hole(hole) => hole.at.is_some(),
        OpeningEntry::ThumbNotch(_) => true,
    };
    if placed(one) && placed(other) {
        return Ok(false);
    }
    let together = values.arrangement(one.member)?;
    Ok(together.is_none_or(|arrangement| !arrangement.has(other.member)))
}

/// The two nearest rectangles of one panel, and their distance.
pub(crate) fn nearest(rects: &[(PanelId, Rect)]) -> Option<(usize, usize, f64)> {
    let pairs = (0..rects.len()).flat_map(|one| (0..one).map(move |other| (other, one)));
    let pairs = pairs.filter(|&(one, other)| rects[one].0 == rects[other].0);
    let gaps = pairs.map(|(one, other)| (one, other, rects[one].1.gap(&rects[other].1)));
    gaps.min_by(|one, other| one.2.total_cmp(&other.2))
}

/// `turn` in a job whose style does not arrange openings.
fn turns_left_aside(values: &Values, tray: &Tray) -> Result<Option<Finding>, EvalError> {
    for opening in &tray.openings {
        let item = opening.item.and_then(|item| values.job.item(item));
        let Some(name) = item.filter(|item| item.turns).map(|item| item.name.clone()) else {
            continue;
        };
        if values.arrangement(opening.member)?.is_none() {
            return Ok(Some(Finding::new(BuiltIn::TurnIgnored, Place::Item(name))));
        }
    }
    Ok(None)
}
