//! The field of a value in a form, with the allowed values.
//!
//! **Input:** a field, and for reading the entry of its key. **Output:** the value in its field, or the field's value
//! as a job writes it. **Errors:** a value that the key does not take; then the field stays as it was.

use traywright_engine::SourceError;
use traywright_engine::job::{Board, Job, Length, Nicks, Paper, Perforation, StockSheet, Turn};

use super::nodes::Entry;
use super::values::{self, CALIPER, Limits, SIZE};
use super::words::Choice;
use super::write::Value;
use super::{board, labels, pages};
use crate::library::{Boards, LANGUAGES};

/// The field of a value.
pub(super) enum Place<'a> {
    /// A length within limits.
    Length(&'a mut Length, Limits),
    /// A length that may be negative and may be missing.
    Signed(&'a mut Option<f64>, Limits),
    /// A length that may be missing.
    OpenLength(&'a mut Option<Length>, Limits),
    /// A whole number from 1 to this.
    Count(&'a mut usize, usize),
    /// `#true` or `#false`.
    YesNo(&'a mut bool),
    /// A turn by quarters, in degrees.
    Quarters(&'a mut Turn),
    /// A name that people see.
    Name(&'a mut String),
    /// One of a few words.
    Choice(&'a mut dyn Choice),
    /// A language with a file of words.
    Language(&'a mut String),
    /// The name of a style, and its source span.
    Style(&'a mut Job),
    /// The name of a board, with its properties in the list.
    Board(&'a mut Board),
    /// A measured caliper, which overrides that of the list, and so removes the list's tolerance.
    Caliper(&'a mut Board),
    /// The largest sheet of card.
    Sheet(&'a mut Option<StockSheet>),
    /// The paper by its name or size.
    Page(&'a mut Job),
    /// The margin of a sheet, or the bleed of a whole page.
    Margin(&'a mut Paper),
    /// The overlap of sheets.
    Overlap(&'a mut Paper),
    /// The printing condition of a whole page.
    Condition(&'a mut Paper),
    /// The file of a font, and its source span.
    Font(&'a mut Job),
    /// A length of the nicks; stating one turns the nicks on.
    Nicks(&'a mut Option<Nicks>, fn(&mut Nicks) -> &mut Length),
    /// A length of the perforation; stating one turns it on.
    Perforation(
        &'a mut Option<Perforation>,
        fn(&mut Perforation) -> &mut Length,
    ),
}

impl<'a> Place<'a> {
    /// Reads a value into its field; none if it is rejected.
    pub(super) fn read(
        self,
        entry: &Entry<'_>,
        boards: &Boards,
        faults: &mut Vec<SourceError>,
    ) -> Option<()> {
        match self {
            Place::Length(at, limits) => *at = values::length(entry, limits, faults)?,
            Place::OpenLength(at, limits) => *at = Some(values::length(entry, limits, faults)?),
            Place::Signed(at, limits) => *at = Some(values::signed(entry, limits, faults)?),
            Place::Count(at, most) => *at = values::count(entry, most, faults)?,
            Place::YesNo(at) => *at = values::truth(entry, faults)?,
            Place::Quarters(at) => *at = labels::quarters(entry, faults)?,
            Place::Name(at) => *at = values::name(entry, faults)?.to_owned(),
            Place::Choice(at) => at.choose(entry, faults)?,
            Place::Language(at) => {
                let known: Vec<_> = LANGUAGES.iter().map(|&code| (code, code)).collect();
                *at = values::choice(entry, &known, faults)?.to_owned();
            }
            Place::Style(job) => {
                job.style_place = entry.place();
                let name = values::word(entry, "the name of a style in double quotes", faults)?;
                job.style = name.to_owned();
            }
            Place::Board(at) => board::read_name(entry, boards, at, faults)?,
            Place::Caliper(at) => {
                at.caliper = values::length(entry, CALIPER, faults)?;
                (at.tolerance, at.measure_it) = (None, false);
            }
            Place::Sheet(at) => *at = Some(board::sheet(entry, faults)?),
            Place::Page(job) => pages::read_page(entry, job, faults)?,
            Place::Margin(paper) => pages::read_margin(entry, paper, faults)?,
            Place::Overlap(paper) => pages::read_overlap(entry, paper, faults)?,
            Place::Condition(paper) => pages::read_condition(entry, paper, faults)?,
            Place::Font(job) => {
                job.font_place = Some(entry.place());
                let file = values::name(entry, faults)?.to_owned();
                job.output.paper.page_mut().font = Some(file);
            }
            Place::Nicks(at, part) => {
                let length = values::length(entry, SIZE, faults)?;
                *part(at.get_or_insert_default()) = length;
            }
            Place::Perforation(at, part) => {
                *part(at.get_or_insert_default()) = values::length(entry, SIZE, faults)?;
            }
        }
        Some(())
    }

    /// The field's value, as a job writes it; none if a job writes nothing for it.
    pub(super) fn value(self) -> Option<Value<'a>> {
        Some(match self {
            Place::Length(at, _) => Value::Mm(at.mm()),
            Place::Signed(at, _) => Value::Mm((*at)?),
            Place::OpenLength(at, _) => Value::Mm((*at)?.mm()),
            Place::Count(at, _) => Value::Count(*at),
            Place::YesNo(at) => Value::YesNo(*at),
            Place::Quarters(at) => Value::Degrees(90.0 * at.quarters() as f64),
            Place::Name(at) | Place::Language(at) => Value::Text(at),
            Place::Choice(at) => Value::Text(at.word()?),
            Place::Style(job) => Value::Text(&job.style),
            Place::Board(at) => Value::Text(at.name.as_deref()?),
            Place::Caliper(at) => Value::Mm(at.caliper.mm()),
            Place::Sheet(at) => Value::Text(&at.as_ref()?.name),
            Place::Page(job) => Value::Text(pages::word_of(&job.output.paper)),
            Place::Margin(paper) => Value::Mm(pages::unusual_margin(paper)?.mm()),
            Place::Overlap(paper) => Value::Mm(paper.page().overlap.mm()),
            Place::Condition(paper) => Value::Text(paper.condition()?),
            Place::Font(job) => Value::Text(job.output.paper.page().font.as_deref()?),
            Place::Nicks(at, part) => Value::Mm(part(at.as_mut()?).mm()),
            Place::Perforation(at, part) => Value::Mm(part(at.as_mut()?).mm()),
        })
    }
}
