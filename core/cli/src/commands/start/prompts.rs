//! The conversation in which a maker who has never seen a job file fills one.
//!
//! Given a terminal and the example's draft, asks for box, item, card and paper, repeats what it understood, lets the
//! maker correct any line, and gives the draft. Never guesses: what cannot be read is asked again. The end of the
//! answers ends everything, and nothing is written.

use std::io::{self, BufRead, Read, Write};

use traywright_engine::job::Unit;
use traywright_job::job_file::page_named;
use traywright_job::lengths::{WrittenLength, as_people_write, read_out};
use traywright_job::library::{Boards, Stock};
use traywright_job::nearest::suggestion;
use traywright_job::report::sentence::paragraph;
use traywright_job::start::draft::{Card, JobDraft};

use crate::error::CliError;

/// More than any answer takes.
const LONGEST_ANSWER: u64 = 1000;

/// Thicker card than this is taken for a slip: the thickest board of the list has 3 mm. Common practice, no source.
const THICKEST_CARD: f64 = 5.0;

/// One line of the conversation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Question {
    BoxLength,
    BoxWidth,
    BoxDepth,
    ItemName,
    ItemLength,
    ItemWidth,
    ItemDepth,
    Board,
    Paper,
}

use Question::*;

const ALL: [Question; 9] = [
    BoxLength, BoxWidth, BoxDepth, ItemName, ItemLength, ItemWidth, ItemDepth, Board, Paper,
];

/// A terminal with a maker at it.
pub(super) struct Prompter<'a, Input, Output> {
    input: Input,
    output: Output,
    boards: &'a Boards,
}

impl<'a, Input: BufRead, Output: Write> Prompter<'a, Input, Output> {
    /// A conversation over these two streams.
    pub(super) fn new(input: Input, output: Output, boards: &'a Boards) -> Self {
        Prompter {
            input,
            output,
            boards,
        }
    }

    /// Asks for everything.
    ///
    /// # Refuses
    /// The end of the answers before the maker has agreed.
    pub(super) fn fill(&mut self, mut draft: JobDraft) -> Result<JobDraft, CliError> {
        draft.answered = true;
        draft.item_name = "item".to_owned();
        // Until the width is known it cannot be the longer side.
        draft.in_box.width.mm = 0.0;
        let questions: Vec<Question> = ALL
            .into_iter()
            .filter(|question| draft.carried.is_none() || !matches!(question, Board | Paper))
            .collect();
        for question in &questions {
            self.introduce(*question, &draft)?;
            self.ask(*question, &mut draft)?;
        }
        loop {
            self.say("\nThis is what goes into the job:\n")?;
            for (number, question) in questions.iter().enumerate() {
                let line = format!(
                    "  {}  {:<11}  {}\n",
                    number + 1,
                    label(*question),
                    self.answer_text(*question, &draft)
                );
                self.say(&line)?;
            }
            let agreed = "Enter writes it; the number of a line lets you change that line";
            let answer = self.read_answer(agreed)?;
            if answer.is_empty() {
                return Ok(draft);
            }
            let number = answer
                .parse::<usize>()
                .ok()
                .and_then(|number| number.checked_sub(1));
            match number.and_then(|number| questions.get(number)) {
                Some(question) => self.ask(*question, &mut draft)?,
                None => self.say(&format!(
                    "  Type a number from 1 to {}, or nothing.\n",
                    questions.len()
                ))?,
            }
        }
    }

    // Source: the project's plan, "it tells how to measure".
    fn introduce(&mut self, question: Question, draft: &JobDraft) -> Result<(), CliError> {
        let words = match question {
            BoxLength => {
                let alone = match draft.unit {
                    Unit::Millimetre => {
                        "millimetres; 18.2 cm, 7 3/16 in or 7-3/16\" will do as well"
                    }
                    Unit::Inch => "inches; 7-3/16\", 182 mm or 18.2 cm will do as well",
                };
                let enough = match draft.carried {
                    Some(_) => "Six measures make the next tray.",
                    None => "Six measures and your card make a tray.",
                };
                &format!(
                    "{enough} A number alone is in\n{alone}.\n\n\
                     The box, inside. Measure length and width at the rim and at the floor, at\n\
                     both ends and in the middle, and give the least.\n"
                )
            }
            BoxDepth => "Depth goes from the floor to the underside of the closed lid.\n",
            ItemName => "\nThe item that the tray holds, at its largest.\n",
            Board => {
                "\nThe card. Measure one sheet with a caliper, or press ten sheets together,\n\
                 measure them and divide by ten. Or give a name; a word such as `index` lists\n\
                 the cards that have it in their name.\n"
            }
            Paper => "\nThe paper in your printer: A4, A3, Letter, or a size such as 210x297 mm.\n",
            BoxWidth | ItemLength | ItemWidth | ItemDepth => "",
        };
        self.say(words)
    }

    /// Asks until the answer can be read, and says how it was.
    fn ask(&mut self, question: Question, draft: &mut JobDraft) -> Result<(), CliError> {
        loop {
            let answer = self.read_answer(&prompt(question, draft))?;
            match self.take(question, &answer, draft) {
                Ok(()) => break,
                Err(words) => self.say(&format!("  {words}\n"))?,
            }
        }
        let answer_text = self.answer_text(question, draft);
        self.say(&format!("  = {answer_text}\n"))?;
        if !matches!(question, BoxLength | BoxWidth) || !turned(draft) {
            return Ok(());
        }
        let in_box = &mut draft.in_box;
        std::mem::swap(&mut in_box.length, &mut in_box.width);
        draft.unit = in_box.length.unit;
        let (length, width) = (read_out(in_box.length), read_out(in_box.width));
        self.say(&format!(
            "  The length is the longer side: length {length}, width {width}.\n"
        ))
    }

    /// Puts an answer into the draft, or returns why it cannot.
    fn take(&self, question: Question, answer: &str, draft: &mut JobDraft) -> Result<(), String> {
        match question {
            BoxLength => {
                draft.in_box.length = length(answer, draft.unit)?;
                draft.unit = draft.in_box.length.unit;
            }
            BoxWidth => draft.in_box.width = length(answer, draft.unit)?,
            BoxDepth => draft.in_box.depth = length(answer, draft.unit)?,
            ItemName => draft.item_name = name(answer, &draft.item_name)?,
            ItemLength => draft.item.length = length(answer, draft.unit)?,
            ItemWidth => draft.item.width = length(answer, draft.unit)?,
            ItemDepth => draft.item.depth = length(answer, draft.unit)?,
            Board => draft.card = self.card(answer, draft.unit)?,
            Paper if answer.is_empty() => draft.page = None,
            Paper => {
                let page =
                    page_named(answer).map_err(|no| format!("{}: {}", no.message, no.fix))?;
                draft.page = Some(page.name);
            }
        }
        Ok(())
    }

    fn card(&self, answer: &str, unit: Unit) -> Result<Card, String> {
        if let Some(stock) = self.boards.get(answer) {
            return Ok(Card::Named(stock.name.clone()));
        }
        if let Some(caliper) = as_people_write(answer, unit) {
            return match caliper.mm {
                mm if mm <= 0.0 => Err("A card has some thickness.".to_owned()),
                mm if mm > THICKEST_CARD => Err(format!(
                    "{} is no card any more: measure one sheet.",
                    read_out(caliper)
                )),
                _ => Ok(Card::Caliper(caliper)),
            };
        }
        let found = self.boards.matching(answer);
        if !answer.is_empty() && !found.is_empty() {
            let row = |stock: &&Stock| {
                let first = format!("    {:<20}  {:.3} mm  ", stock.name, stock.caliper.mm());
                paragraph(&first, &stock.about)
            };
            let list: String = found.iter().map(row).collect();
            return Err(format!("Cards with `{answer}`:\n{}", list.trim_end()));
        }
        let names: Vec<&str> = self
            .boards
            .all()
            .iter()
            .map(|stock| stock.name.as_str())
            .collect();
        let hint = match suggestion(answer, &names) {
            hint if hint.starts_with("did you mean") => hint,
            _ => "for your own card give its thickness, such as 0.3 mm".to_owned(),
        };
        Err(format!("That is no length and no card of the list; {hint}"))
    }

    /// The draft's answer to a question.
    fn answer_text(&self, question: Question, draft: &JobDraft) -> String {
        match question {
            BoxLength => read_out(draft.in_box.length),
            BoxWidth => read_out(draft.in_box.width),
            BoxDepth => read_out(draft.in_box.depth),
            ItemName => draft.item_name.clone(),
            ItemLength => read_out(draft.item.length),
            ItemWidth => read_out(draft.item.width),
            ItemDepth => read_out(draft.item.depth),
            Board => match &draft.card {
                Card::Caliper(caliper) => format!("{} thick", read_out(*caliper)),
                Card::Named(name) => match self.boards.get(name) {
                    Some(stock) => {
                        format!("{name}: {}, {} mm thick", stock.about, stock.caliper.mm())
                    }
                    None => name.clone(),
                },
            },
            Paper => draft
                .page
                .clone()
                .unwrap_or_else(|| usual_page(draft.unit).to_owned()),
        }
    }

    fn say(&mut self, words: &str) -> Result<(), CliError> {
        let outcome = self
            .output
            .write_all(words.as_bytes())
            .and_then(|()| self.output.flush());
        outcome.map_err(|error| broken_off(&error))
    }

    /// One line, without the white space around it.
    fn read_answer(&mut self, prompt: &str) -> Result<String, CliError> {
        self.say(&format!("{prompt}: "))?;
        let mut bytes = Vec::new();
        let read = (&mut self.input)
            .take(LONGEST_ANSWER)
            .read_until(b'\n', &mut bytes);
        match read {
            Err(error) => Err(broken_off(&error)),
            Ok(_) if !bytes.ends_with(b"\n") => {
                self.say("\n")?;
                Err(CliError::sentence(
                    "the answers ended before the job was whole: nothing is written",
                ))
            }
            Ok(_) => Ok(String::from_utf8_lossy(&bytes).trim().to_owned()),
        }
    }
}

fn broken_off(error: &io::Error) -> CliError {
    CliError::sentence(format_args!(
        "the terminal is gone ({error}): nothing is written"
    ))
}

fn prompt(question: Question, draft: &JobDraft) -> String {
    match question {
        ItemName => format!("  {} [{}]", label(question), draft.item_name),
        Paper => format!("  {} [{}]", label(question), usual_page(draft.unit)),
        _ => format!("  {}", label(question)),
    }
}

fn label(question: Question) -> &'static str {
    match question {
        BoxLength => "box length",
        BoxWidth => "box width",
        BoxDepth => "box depth",
        ItemName => "item",
        ItemLength => "item length",
        ItemWidth => "item width",
        ItemDepth => "item depth",
        Board => "card",
        Paper => "paper",
    }
}

fn usual_page(unit: Unit) -> &'static str {
    match unit {
        Unit::Millimetre => "A4",
        Unit::Inch => "Letter",
    }
}

/// Whether the box is wider than long.
fn turned(draft: &JobDraft) -> bool {
    draft.in_box.width.mm > draft.in_box.length.mm
}

fn length(answer: &str, usual: Unit) -> Result<WrittenLength, String> {
    let Some(length) = as_people_write(answer, usual) else {
        return Err("That is no length: 182, 18.2 cm, 7 3/16 in and 7-3/16\" are.".to_owned());
    };
    // Source: core/CONTRACT.md, "Job file".
    match length.mm {
        mm if mm < 0.01 => Err("A length is at least 0.01 mm.".to_owned()),
        mm if mm > 5000.0 => Err(format!(
            "{} is too long: 5000 mm is the most.",
            read_out(length)
        )),
        _ => Ok(length),
    }
}

fn name(answer: &str, usual: &str) -> Result<String, String> {
    if answer.chars().any(char::is_control) || answer.chars().count() > 100 {
        return Err("A name has at most 100 letters and no control characters.".to_owned());
    }
    Ok(if answer.is_empty() { usual } else { answer }.to_owned())
}

#[cfg(test)]
mod tests;
