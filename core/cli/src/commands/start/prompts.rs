//! The conversation in which a maker who has never seen a job file fills one in.
//!
//! **Input:** a terminal and the example's draft. **Output:** the draft with the maker's answers. An unreadable answer
//! is asked for again, and an unlikely one is questioned; `back` returns to the previous line, `?` explains, and a
//! final list lets the maker change every line. **Errors:** the end of the answers; then nothing is written.

mod answers;
mod question;
mod styles;
mod terminal;

use std::io::{BufRead, Write};

use clap::ValueEnum;
use traywright_engine::job::Unit;
use traywright_job::lengths::read_out;
use traywright_job::library::Boards;
use traywright_job::start::draft::JobDraft;

use crate::error::CliError;

use answers::{Lists, blank, doubt, is_blank, offered, openings};
pub(super) use question::Settled;
use question::{Question, Side, all};
pub(super) use styles::{StyleChoice, choices};
pub(super) use terminal::Terminal;

/// A maker at a terminal, and the lists of valid answers.
pub(super) struct Prompter<'a, Input, Output> {
    pub(super) terminal: Terminal<Input, Output>,
    lists: Lists<'a>,
    settled: Settled,
    /// Questions that have been answered once: their answers are offered again.
    seen: Vec<Question>,
}

/// A word that is not an answer to any question.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(super) enum Command {
    /// Asks the previous question again; after the verdict, shows the list of answers again.
    Back,
}

/// The maker's reaction to a question.
enum Reply {
    Answered,
    Back,
}

impl<'a, Input: BufRead, Output: Write> Prompter<'a, Input, Output> {
    /// A conversation at a terminal.
    pub(super) fn new(
        terminal: Terminal<Input, Output>,
        boards: &'a Boards,
        styles: &'a [StyleChoice],
        settled: Settled,
    ) -> Self {
        Prompter {
            terminal,
            lists: Lists { boards, styles },
            settled,
            seen: Vec::new(),
        }
    }

    /// Asks all questions, and lets the maker correct the answers.
    ///
    /// # Errors
    /// The end of the answers before the maker has agreed.
    pub(super) fn fill(&mut self, mut draft: JobDraft) -> Result<JobDraft, CliError> {
        draft.answered = true;
        draft.items = vec![blank(1)];
        // The width must not count as the longer side before it is known.
        draft.in_box.width.mm = 0.0;
        self.terminal.print(
            "Answer each line and press Enter. `?` explains a line, `back` goes to the one before.\n",
        )?;
        let mut answered: Vec<Question> = Vec::new();
        self.ask_open(&mut draft, &mut answered)?;
        self.correct(draft, answered)
    }

    /// Shows the answers again and lets the maker correct them, after a verdict on them.
    ///
    /// # Errors
    /// The end of the answers before the maker has agreed.
    pub(super) fn revise(&mut self, draft: JobDraft) -> Result<JobDraft, CliError> {
        let answered = all(&draft, self.settled);
        self.correct(draft, answered)
    }

    /// Lets the maker change lines of the final list until it is right.
    fn correct(
        &mut self,
        mut draft: JobDraft,
        mut answered: Vec<Question>,
    ) -> Result<JobDraft, CliError> {
        loop {
            let questions = all(&draft, self.settled);
            let Some(question) = self.line_to_change(&draft, &questions)? else {
                return Ok(draft);
            };
            answered.retain(|other| *other != question);
            // A changed outline has other sides, and another number of items allows other styles.
            if let Question::Item(at, question::ItemPart::Shape) = question {
                answered.retain(|other| !is_side_of(*other, at));
            }
            self.ask_open(&mut draft, &mut answered)?;
        }
    }

    /// Asks every question that has no answer yet.
    fn ask_open(
        &mut self,
        draft: &mut JobDraft,
        answered: &mut Vec<Question>,
    ) -> Result<(), CliError> {
        loop {
            let questions = all(draft, self.settled);
            if !self.style_fits(draft) {
                answered.retain(|question| *question != Question::Style);
            }
            let open = questions
                .iter()
                .position(|question| !answered.contains(question));
            let Some(at) = open else {
                return Ok(());
            };
            let is_last = questions[at + 1..]
                .iter()
                .all(|question| answered.contains(question));
            match self.ask(questions[at], draft)? {
                Reply::Answered => answered.push(questions[at]),
                // A line of the list that the maker leaves as it was.
                Reply::Back if is_last && self.keeps(questions[at], draft) => {
                    answered.push(questions[at]);
                }
                Reply::Back => {
                    let before = at.checked_sub(1).map(|before| questions[before]);
                    answered.retain(|question| Some(*question) != before);
                }
            }
        }
    }

    /// Whether the style takes the items; otherwise it is replaced by one that does, if the maker has a choice.
    fn style_fits(&self, draft: &mut JobDraft) -> bool {
        let count = openings(draft);
        let mut fitting = self.lists.fitting(count);
        if self.settled.style || fitting.any(|style| style.name == draft.style) {
            return true;
        }
        let first = self.lists.fitting(count).next();
        if let Some(first) = first {
            draft.style = first.name.clone();
        }
        first.is_none()
    }

    /// Shows the answers; returns the question that the maker wants to answer again, or none if the maker agrees.
    fn line_to_change(
        &mut self,
        draft: &JobDraft,
        questions: &[Question],
    ) -> Result<Option<Question>, CliError> {
        self.terminal.print("\nThis is your tray:\n")?;
        for (at, question) in questions.iter().enumerate() {
            let (label, answer) = (
                question.label(draft),
                self.lists.answer_text(*question, draft),
            );
            self.terminal
                .print(&format!("  {:>2}  {label:<18}  {answer}\n", at + 1))?;
        }
        loop {
            let prompt = "Press Enter to go on, or type the number of a line to change it";
            let answer = self.terminal.answer(prompt)?;
            if answer.is_empty() {
                return Ok(None);
            }
            let number = answer.parse::<usize>().ok();
            match number.and_then(|number| questions.get(number.checked_sub(1)?)) {
                Some(question) => return Ok(Some(*question)),
                None => self.terminal.print(&format!(
                    "  Type a number from 1 to {}, or press Enter.\n",
                    questions.len()
                ))?,
            }
        }
    }

    /// Asks until the answer can be read, and repeats its value.
    fn ask(&mut self, question: Question, draft: &mut JobDraft) -> Result<Reply, CliError> {
        self.terminal.print(question.introduction())?;
        if question == Question::Style {
            let shown = styles::pictures(self.lists.fitting(openings(draft)));
            self.terminal
                .print(&format!("\nStyles for your items:\n{shown}"))?;
        }
        let unit_before = draft.unit;
        let mut doubted = false;
        loop {
            // An answer that was questioned may have changed the unit.
            if question == Question::Box(Side::Length) {
                draft.unit = unit_before;
            }
            let kept = self.keeps(question, draft);
            let typed = self.terminal.answer(&self.prompt(question, draft))?;
            if let Ok(Command::Back) = Command::from_str(&typed, true) {
                return Ok(Reply::Back);
            }
            match typed.as_str() {
                "?" => self.explain(question, draft)?,
                "" if doubted || kept => {
                    draft.unit = unit_of(question, draft);
                    break;
                }
                answer => match self.lists.take(question, answer, draft) {
                    Ok(()) => match doubt(question, answer, unit_before, draft) {
                        None => break,
                        Some(words) => {
                            doubted = true;
                            self.terminal.print(&format!(
                                "  {words} Press Enter if that is right, or type it again.\n"
                            ))?;
                        }
                    },
                    Err(words) => self.terminal.print(&format!("  {words}\n"))?,
                },
            }
        }
        let answer = self.lists.answer_text(question, draft);
        self.terminal.print(&format!("  = {answer}\n"))?;
        self.seen.push(question);
        self.longer_side_first(question, draft)?;
        self.say_unit(unit_before, draft.unit)?;
        Ok(Reply::Answered)
    }

    /// Whether a question has an answer already, which Enter alone keeps.
    fn keeps(&self, question: Question, draft: &JobDraft) -> bool {
        self.seen.contains(&question) && !is_blank(question, draft)
    }

    fn prompt(&self, question: Question, draft: &JobDraft) -> String {
        let unit = match draft.unit {
            _ if !question.is_length() => "",
            Unit::Millimetre => ", mm",
            Unit::Inch => ", in",
        };
        let offered = match self.keeps(question, draft) {
            true => Some(self.lists.answer_text(question, draft)),
            false => offered(question, draft),
        };
        let offered = offered.map_or_else(String::new, |word| format!(" [{word}]"));
        format!("  {}{unit}{offered}", question.label(draft))
    }

    /// Says that bare numbers have another unit from here on.
    fn say_unit(&mut self, before: Unit, now: Unit) -> Result<(), CliError> {
        let words = match now {
            _ if before == now => return Ok(()),
            Unit::Inch => "inches; for millimetres type 160 mm",
            Unit::Millimetre => "millimetres; for inches type 6 1/4 in",
        };
        self.terminal
            .print(&format!("  From here on a number alone is in {words}.\n"))
    }

    fn explain(&mut self, question: Question, draft: &JobDraft) -> Result<(), CliError> {
        for line in question.help(draft.unit).lines() {
            self.terminal.print(&format!("  {line}\n"))?;
        }
        Ok(())
    }

    /// The length of a box is its longer side, whichever the maker measured first.
    fn longer_side_first(
        &mut self,
        question: Question,
        draft: &mut JobDraft,
    ) -> Result<(), CliError> {
        let in_box = &mut draft.in_box;
        let is_asked = matches!(question, Question::Box(Side::Length | Side::Width));
        if !is_asked || in_box.width.mm <= in_box.length.mm {
            return Ok(());
        }
        std::mem::swap(&mut in_box.length, &mut in_box.width);
        draft.unit = in_box.length.unit;
        let (length, width) = (read_out(in_box.length), read_out(in_box.width));
        self.terminal.print(&format!(
            "  The length is the longer side: length {length}, width {width}.\n"
        ))
    }
}

/// The unit after a question: that of the box's length, once it is known.
fn unit_of(question: Question, draft: &JobDraft) -> Unit {
    match question {
        Question::Box(Side::Length) => draft.in_box.length.unit,
        _ => draft.unit,
    }
}

fn is_side_of(question: Question, item: usize) -> bool {
    matches!(question, Question::Item(at, question::ItemPart::Side(_)) if at == item)
}

#[cfg(test)]
mod tests;
