//! Answers to the questions: how they are read and repeated, and which of them are doubtful.
//!
//! **Input:** the typed text, and the draft so far. **Output:** the draft with the answer. **Errors:** an unreadable
//! answer.

use traywright_engine::job::{ItemShape, Unit};
use traywright_job::job_file::{MOST_OPENINGS, Words, page_named};
use traywright_job::lengths::{WrittenLength, as_people_write, read_out};
use traywright_job::library::{Boards, Stock};
use traywright_job::nearest::suggestion;
use traywright_job::report::sentence::paragraph;
use traywright_job::start::draft::{Card, ItemDraft, JobDraft, Measures};

use super::question::{ItemPart, Question, Side};
use super::styles::StyleChoice;

/// Card thicker than this is probably a mistake: the thickest board of the list has 3 mm.
// Source: common practice, none published.
const THICKEST_CARD_MM: f64 = 5.0;

/// A box with a longer side than this is probably measured in another unit.
// Source: common practice, none published.
const LARGE_BOX_MM: f64 = 1000.0;

/// The answer to the question for a bed that was left out.
const NO_BED: &str = "not named";

/// The lists of valid answers.
pub(super) struct Lists<'a> {
    pub(super) boards: &'a Boards,
    pub(super) styles: &'a [StyleChoice],
}

impl Lists<'_> {
    /// Puts an answer into the draft, or returns why it cannot.
    pub(super) fn take(
        &self,
        question: Question,
        answer: &str,
        draft: &mut JobDraft,
    ) -> Result<(), String> {
        match question {
            Question::Box(side) => {
                let length = length(answer, draft.unit)?;
                *measure(&mut draft.in_box, side) = length;
                if side == Side::Length {
                    draft.unit = length.unit;
                }
            }
            Question::Kinds => {
                let kinds = count(answer, MOST_OPENINGS)?;
                let more = draft.items.len() + 1..=kinds;
                draft.items.extend(more.map(blank));
                draft.items.truncate(kinds);
            }
            Question::Item(at, part) => self.take_item(at, part, answer, draft)?,
            Question::Style => draft.style = self.style(answer, draft)?,
            Question::Card => draft.card = self.card(answer, draft.unit)?,
            Question::Tool => draft.tool = word(answer, draft.tool)?,
            Question::Bed if answer.is_empty() => {}
            Question::Bed => draft.bed = Some(page(answer)?),
            Question::Paper if answer.is_empty() => draft.page = None,
            Question::Paper => draft.page = Some(page(answer)?),
        }
        Ok(())
    }

    fn take_item(
        &self,
        at: usize,
        part: ItemPart,
        answer: &str,
        draft: &mut JobDraft,
    ) -> Result<(), String> {
        let unit = draft.unit;
        let others = openings(draft) - draft.items[at].count;
        let is_taken =
            |name: &str| (0..at).any(|other| draft.items[other].name.eq_ignore_ascii_case(name));
        if part == ItemPart::Name {
            let name = name(answer, &draft.items[at].name)?;
            if is_taken(&name) {
                return Err(format!(
                    "Another item is called {name}: give this one its own name."
                ));
            }
            draft.items[at].name = name;
            return Ok(());
        }
        let item = &mut draft.items[at];
        match part {
            ItemPart::Name => {}
            ItemPart::Shape => item.shape = word(answer, item.shape)?,
            ItemPart::Count if answer.is_empty() => {}
            ItemPart::Count => item.count = count(answer, MOST_OPENINGS - others)?,
            ItemPart::Side(side) => {
                let length = length(answer, unit)?;
                *measure(&mut item.size, side) = length;
                if item.shape == ItemShape::Round && side == Side::Length {
                    item.size.width = length;
                }
            }
        }
        Ok(())
    }

    fn style(&self, answer: &str, draft: &JobDraft) -> Result<String, String> {
        let fitting: Vec<&StyleChoice> = self.fitting(openings(draft)).collect();
        let by_number = answer.parse::<usize>().ok();
        let by_number = by_number.and_then(|number| fitting.get(number.checked_sub(1)?));
        let by_name = || fitting.iter().find(|style| style.name == answer);
        if answer.is_empty() {
            return Ok(draft.style.clone());
        }
        let found = by_number.or_else(by_name);
        found.map(|style| style.name.clone()).ok_or_else(|| {
            let names: Vec<&str> = fitting.iter().map(|style| style.name.as_str()).collect();
            format!(
                "There is no such style here; {}",
                suggestion(answer, &names)
            )
        })
    }

    /// The styles that take this many items.
    pub(super) fn fitting(&self, count: usize) -> impl Iterator<Item = &StyleChoice> {
        self.styles
            .iter()
            .filter(move |style| style.takes.contains(&count))
    }

    fn card(&self, answer: &str, unit: Unit) -> Result<Card, String> {
        if let Some(stock) = self.boards.get(answer) {
            return Ok(Card::Named(stock.name.clone()));
        }
        if let Some(caliper) = as_people_write(answer, unit) {
            return match caliper.mm {
                mm if mm <= 0.0 => Err("Card is thicker than 0.".to_owned()),
                mm if mm > THICKEST_CARD_MM => Err(format!(
                    "{} is too thick for card. Measure one sheet.",
                    read_out(caliper)
                )),
                _ => Ok(Card::Caliper(caliper)),
            };
        }
        if answer.is_empty() {
            return Err("Type the thickness of one sheet, or the name of a card.".to_owned());
        }
        let found = self.boards.matching(answer);
        if !found.is_empty() {
            let row = |stock: &&Stock| {
                let first = format!("    {:<20}  {:.3} mm  ", stock.name, stock.caliper.mm());
                paragraph(&first, &stock.about)
            };
            let list: String = found.iter().map(row).collect();
            return Err(format!("Cards with `{answer}`:\n{}", list.trim_end()));
        }
        let names = self.boards.all().iter().map(|stock| stock.name.as_str());
        let hint = match suggestion(answer, &names.collect::<Vec<_>>()) {
            hint if hint.starts_with("did you mean") => hint,
            _ => "for your own card type its thickness, such as 0.3 mm".to_owned(),
        };
        Err(format!(
            "That is not a length, and no card of the list has this name; {hint}"
        ))
    }

    /// The draft's answer to a question.
    pub(super) fn answer_text(&self, question: Question, draft: &JobDraft) -> String {
        match question {
            Question::Box(side) => read_out(of_side(&draft.in_box, side)),
            Question::Kinds => draft.items.len().to_string(),
            Question::Item(at, part) => {
                let item = &draft.items[at];
                match part {
                    ItemPart::Name => item.name.clone(),
                    ItemPart::Shape => word_of(item.shape).to_owned(),
                    ItemPart::Count => item.count.to_string(),
                    ItemPart::Side(side) => read_out(of_side(&item.size, side)),
                }
            }
            Question::Style => draft.style.clone(),
            Question::Card => match &draft.card {
                Card::Caliper(caliper) => format!("{} thick", read_out(*caliper)),
                Card::Named(name) => match self.boards.get(name) {
                    Some(stock) => {
                        format!("{name}: {}, {} mm thick", stock.about, stock.caliper.mm())
                    }
                    None => name.clone(),
                },
            },
            Question::Tool => word_of(draft.tool).to_owned(),
            Question::Bed => draft.bed.clone().unwrap_or_else(|| NO_BED.to_owned()),
            Question::Paper => draft
                .page
                .clone()
                .unwrap_or_else(|| default_page(draft.unit).to_owned()),
        }
    }
}

/// The answer for Enter alone; none if a question has no answer yet.
pub(super) fn offered(question: Question, draft: &JobDraft) -> Option<String> {
    match question {
        Question::Item(at, ItemPart::Name) => Some(draft.items[at].name.clone()),
        Question::Item(at, ItemPart::Shape) => Some(word_of(draft.items[at].shape).to_owned()),
        Question::Item(at, ItemPart::Count) => Some(draft.items[at].count.to_string()),
        Question::Style => Some(draft.style.clone()),
        Question::Tool => Some(word_of(draft.tool).to_owned()),
        Question::Bed => Some(draft.bed.clone().unwrap_or_else(|| NO_BED.to_owned())),
        Question::Paper => Some(default_page(draft.unit).to_owned()),
        Question::Box(_) | Question::Kinds | Question::Item(..) | Question::Card => None,
    }
}

/// Whether the draft has no value for a question yet.
pub(super) fn is_blank(question: Question, draft: &JobDraft) -> bool {
    match question {
        Question::Box(side) => of_side(&draft.in_box, side).mm <= 0.0,
        Question::Item(at, ItemPart::Side(side)) => of_side(&draft.items[at].size, side).mm <= 0.0,
        _ => false,
    }
}

/// Why a readable answer may still be a mistake.
pub(super) fn doubt(
    question: Question,
    answer: &str,
    unit_before: Unit,
    draft: &JobDraft,
) -> Option<String> {
    let length = match question {
        Question::Box(side) => of_side(&draft.in_box, side),
        Question::Item(at, ItemPart::Side(side)) => of_side(&draft.items[at].size, side),
        _ => return None,
    };
    let says_no_unit =
        !answer.contains(['"', '\'', '″', '”']) && !answer.contains(char::is_alphabetic);
    if unit_before == Unit::Millimetre && length.unit == Unit::Inch && says_no_unit {
        let mm = WrittenLength {
            unit: Unit::Millimetre,
            mm: (length.mm * 100.0).round() / 100.0,
        };
        return Some(format!(
            "A fraction is read in inches: {} is {}.",
            read_out(length),
            read_out(mm)
        ));
    }
    let in_box = &draft.in_box;
    match question {
        Question::Box(_) if length.mm > LARGE_BOX_MM => Some(format!(
            "That is a large box: {} is {:.0} mm.",
            read_out(length),
            length.mm
        )),
        Question::Box(Side::Depth) if length.mm > in_box.length.mm => Some(format!(
            "The box would be deeper ({}) than long ({}).",
            read_out(length),
            read_out(in_box.length)
        )),
        Question::Item(at, ItemPart::Side(side)) => {
            let inside = of_side(in_box, side);
            (length.mm > inside.mm).then(|| {
                format!(
                    "{} would be larger ({}) than the box inside ({}).",
                    draft.items[at].name,
                    read_out(length),
                    read_out(inside)
                )
            })
        }
        _ => None,
    }
}

/// Number of items in the draft.
pub(super) fn openings(draft: &JobDraft) -> usize {
    draft.items.iter().map(|item| item.count).sum()
}

/// An item without values.
pub(super) fn blank(number: usize) -> ItemDraft {
    let none = WrittenLength {
        mm: 0.0,
        unit: Unit::Millimetre,
    };
    ItemDraft {
        name: match number {
            1 => "item".to_owned(),
            _ => format!("item {number}"),
        },
        size: Measures {
            length: none,
            width: none,
            depth: none,
        },
        shape: ItemShape::Rectangle,
        count: 1,
        pad: None,
    }
}

fn measure(of: &mut Measures, side: Side) -> &mut WrittenLength {
    match side {
        Side::Length => &mut of.length,
        Side::Width => &mut of.width,
        Side::Depth => &mut of.depth,
    }
}

fn of_side(of: &Measures, side: Side) -> WrittenLength {
    match side {
        Side::Length => of.length,
        Side::Width => of.width,
        Side::Depth => of.depth,
    }
}

fn length(answer: &str, unit: Unit) -> Result<WrittenLength, String> {
    if answer.is_empty() {
        return Err("Type a length: this line has no default.".to_owned());
    }
    let Some(length) = as_people_write(answer, unit) else {
        return Err(
            "That is not a length. These are: 182, 18.2 cm, 7 3/16 in, 7-3/16\".".to_owned(),
        );
    };
    // Source: core/CONTRACT.md, "Job file".
    match length.mm {
        mm if mm < 0.01 => Err("A length is at least 0.01 mm.".to_owned()),
        mm if mm > 5000.0 => Err(format!(
            "{} is too long. A length is at most 5000 mm.",
            read_out(length)
        )),
        _ => Ok(length),
    }
}

fn count(answer: &str, most: usize) -> Result<usize, String> {
    match answer.parse() {
        Ok(number) if (1..=most).contains(&number) => Ok(number),
        _ => Err(format!("Type a whole number from 1 to {most}.")),
    }
}

fn name(answer: &str, offered: &str) -> Result<String, String> {
    if answer.chars().any(char::is_control) || answer.chars().count() > 100 {
        return Err("A name has at most 100 letters and no control characters.".to_owned());
    }
    Ok(if answer.is_empty() { offered } else { answer }.to_owned())
}

/// One of a few words, or the beginning of one.
fn word<T: Words>(answer: &str, offered: T) -> Result<T, String> {
    let answer = answer.to_lowercase();
    if answer.is_empty() {
        return Ok(offered);
    }
    let begins = |(word, _): &&(&str, T)| word.starts_with(&answer);
    let found: Vec<&(&str, T)> = T::WORDS.iter().filter(begins).collect();
    let whole = found.iter().find(|(word, _)| *word == answer);
    match (whole, &found[..]) {
        (Some((_, meaning)), _) | (None, [(_, meaning)]) => Ok(*meaning),
        (None, several) => {
            let words = T::WORDS.iter();
            let words = words.filter(|word| several.is_empty() || several.contains(word));
            let words: Vec<&str> = words.map(|(word, _)| *word).collect();
            Err(format!("Type one of these: {}.", words.join(", ")))
        }
    }
}

fn word_of<T: Words>(meaning: T) -> &'static str {
    let found = T::WORDS.iter().find(|(_, known)| *known == meaning);
    found.map_or("", |(word, _)| word)
}

/// The name of a size of paper, card or bed.
fn page(answer: &str) -> Result<String, String> {
    let page = page_named(answer).map_err(|no| format!("{}: {}", no.message, no.fix))?;
    Ok(page.name)
}

fn default_page(unit: Unit) -> &'static str {
    match unit {
        Unit::Millimetre => "A4",
        Unit::Inch => "Letter",
    }
}
