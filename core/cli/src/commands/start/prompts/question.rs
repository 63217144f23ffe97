//! The questions of the conversation, in the order of measuring.
//!
//! **Input:** a draft. **Output:** the questions that it needs, with their labels and explanations.

use traywright_engine::job::{ItemShape, ToolKind, Unit};
use traywright_job::start::draft::JobDraft;

/// One question.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Question {
    Box(Side),
    /// The number of different items.
    Kinds,
    Item(usize, ItemPart),
    Style,
    Card,
    Tool,
    /// The bed of the machine, if a machine cuts.
    Bed,
    Paper,
}

/// A side of a box or an item.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    Length,
    Width,
    Depth,
}

/// A property of an item.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum ItemPart {
    Name,
    Shape,
    Side(Side),
    Count,
}

use ItemPart::{Count, Name, Shape};
use Question::{Bed, Card, Item, Kinds, Paper, Style, Tool};

/// The answers that are fixed before the first question.
#[derive(Clone, Copy, Debug, Default)]
pub(in super::super) struct Settled {
    /// The style.
    pub(in super::super) style: bool,
    /// Card, tool and paper.
    pub(in super::super) workshop: bool,
}

/// All questions for a draft.
pub(super) fn all(draft: &JobDraft, settled: Settled) -> Vec<Question> {
    let sides = [Side::Length, Side::Width, Side::Depth];
    let mut all: Vec<Question> = sides.map(Question::Box).into();
    all.push(Kinds);
    for (at, item) in draft.items.iter().enumerate() {
        all.extend([Item(at, Name), Item(at, Shape)]);
        let is_asked = |side: &Side| *side != Side::Width || item.shape != ItemShape::Round;
        let asked = sides.into_iter().filter(is_asked);
        all.extend(asked.map(|side| Item(at, ItemPart::Side(side))));
        all.push(Item(at, Count));
    }
    if !settled.style {
        all.push(Style);
    }
    if !settled.workshop {
        all.extend([Card, Tool]);
        if draft.tool == ToolKind::Machine {
            all.push(Bed);
        }
        all.push(Paper);
    }
    all
}

impl Question {
    /// The text before the answer, without its unit.
    pub(super) fn label(self, draft: &JobDraft) -> String {
        let of_item = |at: usize| match draft.items.len() {
            1 => "item".to_owned(),
            _ => format!("item {}", at + 1),
        };
        match self {
            Question::Box(side) => format!("box {}", side.word()),
            Kinds => "different items".to_owned(),
            Item(at, Name) => format!("{}, name", of_item(at)),
            Item(at, Shape) => format!("{}, shape", of_item(at)),
            Item(at, Count) => format!("{}, how many", of_item(at)),
            Item(at, ItemPart::Side(Side::Length)) if is_round(draft, at) => {
                format!("{}, diameter", of_item(at))
            }
            Item(at, ItemPart::Side(side)) => format!("{}, {}", of_item(at), side.word()),
            Style => "style".to_owned(),
            Card => "card".to_owned(),
            Tool => "what cuts".to_owned(),
            Bed => "bed of the machine".to_owned(),
            Paper => "paper".to_owned(),
        }
    }

    /// Whether its answer is a length.
    pub(super) fn is_length(self) -> bool {
        matches!(self, Question::Box(_) | Item(_, ItemPart::Side(_)) | Card)
    }

    /// The text before the question; empty if the previous question's text covers it.
    pub(super) fn introduction(self) -> &'static str {
        match self {
            Question::Box(Side::Length) => {
                "\nThe box, measured inside. Measure length and width at the rim and at the floor,\n\
                 at both ends and in the middle, and write the smallest.\n"
            }
            Question::Box(Side::Depth) => {
                "Depth goes from the floor to the underside of the closed lid.\n"
            }
            Kinds => "\nWhat the tray holds. Items of one size count as one.\n",
            Item(_, Name) => "\nMeasure the item at its largest.\n",
            Card => {
                "\nThe card. Measure one sheet with digital calipers, or press ten sheets together,\n\
                 measure them and divide by ten. A word such as `index` lists cards by name.\n"
            }
            Tool => "\nWhat creases and cuts the card: your hand, or a machine.\n",
            Bed => {
                "\nThe largest piece that your machine takes, such as 305x305 mm. A blank that is larger\n\
                 is then refused. Enter leaves it out.\n"
            }
            Paper => "\nThe paper in your printer: A4, A3, Letter, or a size such as 210x297 mm.\n",
            _ => "",
        }
    }

    /// The explanation for `?`.
    // Source: for the ways to measure, the project's plan, "it tells how to measure".
    pub(super) fn help(self, unit: Unit) -> String {
        let lengths = match unit {
            Unit::Millimetre => {
                "A number alone is in millimetres. 18.2 cm, 7 3/16 in and 7-3/16\" work too."
            }
            Unit::Inch => "A number alone is in inches. 7-3/16\", 182 mm and 18.2 cm work too.",
        };
        match self {
            Question::Box(Side::Depth) => format!(
                "Close the lid on a lump of soft clay or on folded paper to find the depth.\n{lengths}"
            ),
            Question::Box(_) => format!("The length is the longer side. {lengths}"),
            Kinds => {
                "Count kinds, not pieces: three equal vials and a lens are 2 different items.".to_owned()
            }
            Item(_, Name) => "The name stands on the sheets and in the booklet.".to_owned(),
            Item(_, Shape) => {
                "rectangle, round or oval. Only an opening that is cut out clean follows a curve; flaps\n\
                 hang in the rectangle around it."
                    .to_owned()
            }
            Item(_, ItemPart::Side(Side::Length)) => {
                format!("Length lies along the length of the box. {lengths}")
            }
            Item(_, ItemPart::Side(Side::Width)) => {
                format!("Width lies along the width of the box. {lengths}")
            }
            Item(_, ItemPart::Side(Side::Depth)) => {
                format!("Depth is how high the item stands in the box. {lengths}")
            }
            Item(_, Count) => "How many items of this size the tray holds.".to_owned(),
            Style => "The name of a style, or its number. `traywright styles NAME` shows more.".to_owned(),
            Card => format!(
                "The thickness of one sheet, or the name of a card in the list. Measuring is better.\n{lengths}"
            ),
            Tool => {
                "hand: a knife along a rule, good to about 0.5 mm. machine: a plotter or a laser, good to\n\
                 about 0.1 mm. For a machine the job draws on the face that is outside the folds, because it\n\
                 creases from above."
                    .to_owned()
            }
            Bed => {
                "The bed, the mat or the sheet, whichever is smallest: A4, Letter, or a size such as\n\
                 305x305 mm or 12x12 in. The blank may lie on it either way."
                    .to_owned()
            }
            Paper => "Enter takes the paper in brackets.".to_owned(),
        }
    }
}

impl Side {
    fn word(self) -> &'static str {
        match self {
            Side::Length => "length",
            Side::Width => "width",
            Side::Depth => "depth",
        }
    }
}

fn is_round(draft: &JobDraft, item: usize) -> bool {
    draft.items[item].shape == ItemShape::Round
}
