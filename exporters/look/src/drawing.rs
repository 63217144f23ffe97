//! The sentences of every drawing of the blank: the face, the kinds of line, the subject of the drawing.
//!
//! **Input:** the code of a language, and the document. **Output:** sentences ready to draw. Each exporter has the
//! sentences of its own format.

use std::collections::BTreeMap;

use serde::Deserialize;
use traywright_document::{
    CreaseKind, Document, DrawnFace, ExportError, Length, Machine, ProcessingStep, ToolKind, Unit,
};

use crate::language::words;
use crate::lengths::Lengths;
use crate::pads::PadWords;
use traywright_document::filled;

/// The letters of so many parts are explained in one line.
// Source: common practice, none published: a line as long as the others beside the blank.
const PARTS_A_LINE: usize = 5;

/// The part of a file of words that every drawing needs.
#[derive(Deserialize)]
pub struct DrawingFile {
    /// The decimal sign of the language.
    pub decimal: char,
    /// The sentences.
    pub drawing: Drawing,
}

/// The sentences that drawings share.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Drawing {
    /// The subject of the drawing: `style`, `box`, `card`.
    pub about: String,
    /// The subject, for a piece without a box: `style`, `card`.
    pub about_without_box: String,
    seen_inside: String,
    seen_outside: String,
    cut: String,
    inwards: String,
    outwards: String,
    inwards_half_cut: String,
    outwards_half_cut: String,
    inwards_perforated: String,
    outwards_perforated: String,
    measures_mm: String,
    measures_inches: String,
    kerf: String,
    nicks: String,
    perforation: String,
    /// Below a bar for measuring: `length`.
    pub scale: String,
    /// Name of the outline.
    pub outline: String,
    /// Name of a closed cut inside the blank.
    pub hole: String,
    /// Name of an open cut.
    pub slit: String,
    /// Name of a crease whose panel is not known.
    pub crease: String,
    crease_inwards: String,
    crease_outwards: String,
    /// What is added to a step whose panels have tongues.
    pub tongues: TongueWords,
    /// The usual cautions.
    pub cautions: Cautions,
    /// What the letters on the blank mean: `parts`, each of them as in `lettered`.
    parts: String,
    /// `letter`, `part`.
    lettered: String,
    /// The names of parts, by the word that the style has for them.
    part: BTreeMap<String, String>,
    /// The pads under the items.
    pub pads: PadWords,
    /// The sentences of a DXF, which continue a line and begin with small letters.
    pub dxf: DxfWords,
}

/// How tongues go into their slits, for one of them and for several.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TongueWords {
    one: String,
    several: String,
}

impl TongueWords {
    /// The sentence for so many tongues.
    pub fn of(&self, count: usize) -> Option<&str> {
        match count {
            0 => None,
            1 => Some(&self.one),
            _ => Some(&self.several),
        }
    }
}

/// The usual cautions, a sentence or two each.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cautions {
    hand: String,
    machine: String,
    /// About card next to metal and photographs.
    // Source: common practice, none published: silver, brass and photographs are kept in acid-free card.
    pub acid: String,
}

impl Cautions {
    /// The cautions about the tool that cuts the blank, and about the items.
    pub fn of(&self, by: ToolKind) -> [&str; 2] {
        let cutting = match by {
            ToolKind::Hand => &self.hand,
            ToolKind::Machine => &self.machine,
        };
        [cutting, &self.acid]
    }
}

/// The sentences of a DXF.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DxfWords {
    /// The subject of the drawing: `style`, `box`, `card`.
    pub about: String,
    /// The subject, for a piece without a box: `style`, `card`.
    pub about_without_box: String,
    seen_inside: String,
    seen_outside: String,
}

impl DrawingFile {
    /// The words of a language.
    ///
    /// # Refuses
    /// A language without words.
    pub fn of(language: &str) -> Result<DrawingFile, ExportError> {
        words(language)
    }

    /// A number with the decimal sign of the language.
    pub fn decimal(&self, number: &str) -> String {
        self.lengths(Unit::Millimetre).decimal(number)
    }

    /// The format of lengths.
    pub fn lengths(&self, unit: Unit) -> Lengths {
        Lengths {
            unit,
            decimal: self.decimal,
        }
    }

    /// The purpose of the tray, in one line: the form that has `style`, `box` and `card`, or the one without a box.
    pub fn about(&self, forms: [&str; 2], times: &str, document: &Document) -> String {
        let form = forms[usize::from(!document.has_box())];
        let lengths = self.lengths(document.unit);
        let sign = document.unit.sign();
        let inside = document.box_size;
        let sides =
            [inside.length, inside.width, inside.depth].map(|side| lengths.number(side.mm()));
        let name = match &document.board.name {
            Some(name) => format!(" ({})", shortened(name, 40, "…")),
            None => String::new(),
        };
        let card = format!("{}{name}", lengths.length(document.board.caliper));
        let gaps = [
            ("style", shortened(&document.style, 40, "…")),
            ("box", format!("{} {sign}", sides.join(times))),
            ("card", card),
        ];
        filled(
            form,
            &gaps.each_ref().map(|(name, value)| (*name, value.as_str())),
        )
    }

    /// The sentences about how the lines differ from the edges of the piece; empty if they are its edges.
    pub fn machine(&self, document: &Document) -> Vec<String> {
        self.drawing
            .machine(&document.output.machine, self.lengths(document.unit))
    }

    /// The pads of a tray, a sentence each, in the maker's unit.
    pub fn pads(&self, document: &Document) -> Vec<String> {
        let lengths = self.lengths(document.unit);
        let write = |sides: &[f64]| lengths.sides(sides);
        let kinds = document.kinds_on_pads();
        kinds
            .map(|kind| self.drawing.pads.sentence(kind, &write))
            .collect()
    }

    /// The name of a crease: the panel that moves, the angle, and the direction as seen from this face.
    pub fn crease_of(&self, panel: &str, fold_deg: f64) -> String {
        let form = if fold_deg < 0.0 {
            &self.drawing.crease_outwards
        } else {
            &self.drawing.crease_inwards
        };
        let degrees = ((fold_deg.abs() * 10.0).round() / 10.0).to_string();
        let degrees = self.decimal(&degrees);
        filled(form, &[("panel", panel), ("degrees", &degrees)])
    }

    /// The name of the tray; if its lines are not the piece's own edges, it says so.
    pub fn title(&self, document: &Document) -> String {
        let machine = self.machine(document);
        if machine.is_empty() {
            document.title.clone()
        } else {
            format!("{} ({})", document.title, machine.join("; "))
        }
    }
}

impl Drawing {
    /// The words for the face that the maker sees.
    pub fn face(&self, drawn: DrawnFace) -> &str {
        match drawn {
            DrawnFace::Inside => &self.seen_inside,
            DrawnFace::Outside => &self.seen_outside,
        }
    }

    /// The instruction for a kind of line.
    pub fn line(&self, step: ProcessingStep, document: &Document) -> &str {
        let is_half_cut = document.board.crease == CreaseKind::HalfCut;
        match (step, document.unit) {
            (ProcessingStep::Cutting, _) => &self.cut,
            (ProcessingStep::Creasing, _) if is_half_cut => &self.inwards_half_cut,
            (ProcessingStep::Creasing, _) => &self.inwards,
            (ProcessingStep::ReverseCreasing, _) if is_half_cut => &self.outwards_half_cut,
            (ProcessingStep::ReverseCreasing, _) => &self.outwards,
            (ProcessingStep::Perforating, _) => &self.inwards_perforated,
            (ProcessingStep::ReversePerforating, _) => &self.outwards_perforated,
            (_, Unit::Millimetre) => &self.measures_mm,
            (_, Unit::Inch) => &self.measures_inches,
        }
    }

    /// The name of a part in this language; where nobody knows its word, that.
    pub fn part_name(&self, word: &str) -> String {
        let known = self.part.get(word);
        known.cloned().unwrap_or_else(|| word.replace('-', " "))
    }

    /// What the letters on the blank mean, in lines of a few parts each; none where the blank has no letters.
    pub fn parts(&self, document: &Document) -> Vec<String> {
        if document.flat.letters.is_empty() {
            return Vec::new();
        }
        let lettered: Vec<String> = document
            .parts()
            .iter()
            .map(|part| {
                let name = self.part_name(part.word);
                filled(&self.lettered, &[("letter", &part.letter), ("part", &name)])
            })
            .collect();
        let last = lettered.len().saturating_sub(1) / PARTS_A_LINE;
        let lines = lettered.chunks(PARTS_A_LINE).enumerate();
        let lines = lines.map(|(line, some)| {
            let goes_on = if line < last { "," } else { "" };
            some.join(", ") + goes_on
        });
        let mut lines: Vec<String> = lines.collect();
        lines[0] = filled(&self.parts, &[("parts", &lines[0])]);
        lines
    }

    fn machine(&self, options: &Machine, lengths: Lengths) -> Vec<String> {
        let say = |form: &str, length: f64| filled(form, &[("length", &lengths.length(length))]);
        let kerf = (options.kerf > Length::ZERO).then(|| say(&self.kerf, options.kerf.mm()));
        let nicks = options
            .nicks
            .map(|nicks| say(&self.nicks, nicks.length.mm()));
        let perforation = options.perforation.map(|perforation| {
            let [cut, gap] = [perforation.cut, perforation.gap].map(|it| lengths.length(it.mm()));
            filled(&self.perforation, &[("cut", &cut), ("gap", &gap)])
        });
        kerf.into_iter().chain(nicks).chain(perforation).collect()
    }
}

impl DxfWords {
    /// The unit of the drawing and the visible face.
    pub fn face(&self, drawn: DrawnFace) -> &str {
        match drawn {
            DrawnFace::Inside => &self.seen_inside,
            DrawnFace::Outside => &self.seen_outside,
        }
    }
}

/// At most `most` characters of a name; the end of a longer one is replaced by `cut`.
pub fn shortened(name: &str, most: usize, cut: &str) -> String {
    if name.chars().count() <= most {
        return name.to_owned();
    }
    let kept = name.chars().take(most - cut.chars().count());
    kept.chain(cut.chars()).collect()
}
