//! Variations of a job: places of its text, each with the values that it takes.
//!
//! **Input:** words such as `fit.item=(mm)1..3 by (mm)0.5`, and a job. **Output:** every combination of the values, as
//! changes of the job's text. **Errors:** a place that no job has, with the nearest one; a range without a step; too
//! many combinations. **Does not** check: whether a job takes a value is found when the changed text is read.

mod place;
mod values;

use std::str::FromStr;

use traywright_engine::finding::Change;
use traywright_engine::job::Job;

use crate::error::InputError;
use place::Place;

/// Maximum number of combinations. Common practice, none published: a table of so many rows can still be read.
// Source: core/CONTRACT.md, "check --vary".
pub const MOST: usize = 400;

/// One place of a job, with its values in order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Variation {
    /// The place as typed.
    place: String,
    /// The values as a job writes them.
    values: Vec<String>,
}

/// A value for each place that varies.
#[derive(Clone, Debug, PartialEq)]
pub struct Combination {
    /// The places as typed, with their values as people read them.
    pub values: Vec<(String, String)>,
    /// The changes of the job.
    pub changes: Vec<Change>,
}

impl FromStr for Variation {
    type Err = String;

    fn from_str(text: &str) -> Result<Variation, String> {
        let Some((place, values)) = text.split_once('=') else {
            return Err(format!(
                "`{text}` names no values: write fit.item=(mm)1,(mm)2 or \"fit.item=(mm)1..3 by (mm)0.5\""
            ));
        };
        Ok(Variation {
            place: place.trim().to_owned(),
            values: values::read(values)?,
        })
    }
}

/// All combinations; the last place varies fastest.
///
/// # Errors
/// An unknown place, a place that varies twice, and more than [`MOST`] combinations.
pub fn combinations(variations: &[Variation], job: &Job) -> Result<Vec<Combination>, String> {
    let count = variations.iter().try_fold(1_usize, |count, variation| {
        count.checked_mul(variation.values.len())
    });
    if count.is_none_or(|count| count > MOST) {
        let factors: Vec<String> = variations
            .iter()
            .map(|variation| variation.values.len().to_string())
            .collect();
        let count = count.map_or("too many".to_owned(), |count| count.to_string());
        return Err(format!(
            "{} make {count} variations, and {MOST} are the most: vary fewer places, or take a larger step",
            factors.join(" × ")
        ));
    }
    let mut combinations = vec![Combination {
        values: Vec::new(),
        changes: Vec::new(),
    }];
    for variation in variations {
        let place = Place::find(&variation.place, job)?;
        let mut earlier = combinations.iter().flat_map(|one| &one.changes);
        if earlier.any(|change| place.is_of(change)) {
            return Err(format!(
                "`{}` varies twice: give all its values in one `--vary`",
                variation.place
            ));
        }
        let with = |one: &Combination, value: &String| {
            let mut one = one.clone();
            one.values
                .push((variation.place.clone(), values::said(value)));
            one.changes.push(place.change(value));
            one
        };
        combinations = combinations
            .iter()
            .flat_map(|one| variation.values.iter().map(move |value| with(one, value)))
            .collect();
    }
    Ok(combinations)
}

impl Combination {
    /// Its values in one line.
    pub fn words(&self) -> String {
        let values = self.values.iter();
        let words: Vec<String> = values
            .map(|(place, value)| format!("{place}={value}"))
            .collect();
        words.join(" ")
    }

    /// Why the job does not take these values, in one sentence.
    pub fn refusal(&self, error: &InputError) -> String {
        let why = match error {
            InputError::Text { faults, .. } => {
                let said = faults
                    .iter()
                    .map(|fault| format!("{}: {}", fault.message, fault.label));
                said.collect::<Vec<_>>().join("; ")
            }
            InputError::Sentence(words) => words.clone(),
        };
        format!("with {}: {why}", self.words())
    }
}

#[cfg(test)]
mod tests;
