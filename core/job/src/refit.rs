//! After a first tray: clearances that were too small or too large, as changes of the job.
//!
//! **Input:** a job, and the error of a clearance. **Output:** the changes of its `fit`. **Errors:** a clearance below
//! 0.

use std::str::FromStr;

use traywright_engine::finding::Change;
use traywright_engine::job::{Job, Length, Unit};

use crate::lengths::{WrittenLength, as_people_write, in_job, read_out};

/// The clearance that was wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Clearance {
    /// Of the tray in its box.
    Box,
    /// Of each item in its opening.
    Item,
}

/// How much a clearance was too small or too large, in total and not per side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// The clearance.
    pub of: Clearance,
    /// The amount of the error.
    pub by: WrittenLength,
}

/// The direction of the error.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Too small.
    Tight,
    /// Too large.
    Loose,
}

impl FromStr for Reading {
    type Err = String;

    /// Reads `box=0.5mm` and `item=1/16in`, and lengths as a job writes them, `box=(mm)0.5`, which a shell wants in quotes.
    fn from_str(text: &str) -> Result<Reading, String> {
        let wrong = || format!("`{text}` is not a reading: write box=0.5mm or item=1/16in");
        let (of, length) = text.split_once('=').ok_or_else(wrong)?;
        let of = match of.trim() {
            "box" => Clearance::Box,
            "item" => Clearance::Item,
            _ => return Err(wrong()),
        };
        let length = length.trim();
        let as_in_job = length
            .strip_prefix('(')
            .and_then(|rest| rest.split_once(')'));
        let length = match as_in_job {
            Some((unit, number)) => format!("{} {unit}", number.trim_matches('"')),
            None => length.to_owned(),
        };
        let has_unit = length.contains(char::is_alphabetic);
        let by = as_people_write(&length, Unit::default()).filter(|_| has_unit);
        let by = by.ok_or_else(wrong)?;
        Ok(Reading { of, by })
    }
}

/// The changes of a job for these readings. Readings of one clearance add up.
///
/// # Errors
/// A clearance below 0, with its current value.
pub fn changes(job: &Job, readings: &[(Way, Reading)]) -> Result<Vec<Change>, String> {
    let fit = &job.fit;
    let clearances = [
        (Clearance::Box, "box", fit.around_tray),
        (Clearance::Item, "item", fit.around_item),
    ];
    let mut changes = Vec::new();
    for (clearance, key, now) in clearances {
        let about = |(_, reading): &&(Way, Reading)| reading.of == clearance;
        let readings: Vec<_> = readings.iter().filter(about).collect();
        let Some((_, first)) = readings.first() else {
            continue;
        };
        let more: f64 = readings
            .iter()
            .map(|(way, reading)| way.signed(reading.by.mm))
            .sum();
        let to = WrittenLength {
            mm: now.mm() + more,
            unit: first.by.unit,
        };
        if to.mm < 0.0 {
            return Err(too_loose(key, now, -more, to.unit));
        }
        changes.push(Change {
            node: "fit",
            item: None,
            key: key.to_owned(),
            to: in_job(to),
        });
    }
    Ok(changes)
}

impl Way {
    fn signed(self, mm: f64) -> f64 {
        match self {
            Way::Tight => mm,
            Way::Loose => -mm,
        }
    }
}

fn too_loose(key: &str, now: Length, less: f64, unit: Unit) -> String {
    let [now, less] = [now.mm(), less].map(|mm| read_out(WrittenLength { mm, unit }));
    format!(
        "`fit {key}` is {now}, so it cannot become {less} smaller: measure the box and the item again"
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use traywright_engine::job::BoxSize;

    fn job() -> Job {
        let mm = Length::known;
        let size = BoxSize {
            length: mm(100.0),
            width: mm(80.0),
            depth: mm(30.0),
        };
        Job::plain("single-slot", size, mm(0.3), Vec::new())
    }

    fn changed(readings: &[(Way, &str)]) -> Result<String, String> {
        let readings = readings.iter().map(|(way, text)| Ok((*way, text.parse()?)));
        let readings: Vec<_> = readings.collect::<Result<_, String>>()?;
        let changes = changes(&job(), &readings)?;
        let words = changes
            .iter()
            .map(|change| format!("{}={}", change.key, change.to));
        Ok(words.collect::<Vec<_>>().join(" "))
    }

    // Source: core/CONTRACT.md, "Job file": both clearances are 2 mm by default. Derived: 2 + 0.5, 2 - 1, 2 + 0.5 - 0.2,
    // and 2 mm + 1/16 in = 3.5875 mm.
    #[test]
    fn tight_adds_to_a_clearance_and_loose_takes_from_it() {
        let told = |readings: &[(Way, &str)]| changed(readings).expect("a reading");
        assert_eq!(told(&[(Way::Tight, "box=(mm)0.5")]), "box=(mm)2.5");
        assert_eq!(told(&[(Way::Loose, "item=1mm")]), "item=(mm)1");
        let both = [(Way::Tight, "box=(mm)0.5"), (Way::Loose, "box=(mm)0.2")];
        assert_eq!(told(&both), "box=(mm)2.3");
        let inches = told(&[(Way::Tight, "item=(in)1/16")]);
        assert_eq!(inches, "item=(in)0.14124");
    }

    #[test]
    fn a_reading_that_is_none_and_one_that_is_too_large_are_refused() {
        for wrong in [
            "box",
            "lid=(mm)1",
            "box=1",
            "box=(cm)",
            "box=(mm)-1",
            "=(mm)1",
        ] {
            assert!(changed(&[(Way::Tight, wrong)]).is_err(), "{wrong}");
        }
        let words = changed(&[(Way::Loose, "box=(mm)3")]).expect_err("less than none");
        assert!(
            words.contains("`fit box` is 2 mm") && words.contains("3 mm smaller"),
            "{words}"
        );
    }
}
