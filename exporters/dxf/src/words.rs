//! Dimensions as real text and lines, and below them a description of the file.
//!
//! **Input:** placed dimensions and names. **Output:** lines, filled heads and words on the layer of the dimensions.
//! The last lines name the tray, its style, box and card, and say so if the cuts are not the piece's own edges.

use dxf::Point;
use dxf::entities::{EntityType, Line, Solid, Text};
use dxf::enums::HorizontalTextJustification;
use traywright_document::{Document, ProcessingStep};
use traywright_look::DrawingFile;

use crate::drawing::DxfDrawing;

/// Height of capitals of the name, and of the lines below it.
// Source: ISO 3098-1, nominal sizes of lettering (from memory).
const NAME: f64 = 3.5;
const LINE: f64 = 2.5;
/// Distance of lines.
const ROW: f64 = 6.0;
/// White space between the drawing and the name below.
const BELOW: f64 = 6.0;
/// Width of a letter as a multiple of its height, to estimate the extent of words.
// Source: common practice, none published; readers set the words in letters of their own.
const LETTER: f64 = 1.0;

/// Draws dimensions and words.
pub(crate) fn draw(file: &DrawingFile, sheet: &mut DxfDrawing) {
    let document = sheet.document;
    for dimension in &document.flat.dimensions {
        for [from, to] in std::iter::once(&dimension.line).chain(&dimension.extensions) {
            let (p1, p2) = (sheet.place(*from), sheet.place(*to));
            add(sheet, EntityType::Line(Line::new(p1, p2)));
        }
        for head in dimension.heads() {
            let [first, second, third] = head.map(|corner| sheet.place(corner));
            let filled = Solid {
                first_corner: first,
                second_corner: second,
                third_corner: third.clone(),
                fourth_corner: third,
                ..Solid::default()
            };
            add(sheet, EntityType::Solid(filled));
        }
        let at = sheet.place(dimension.text_at);
        let middle = HorizontalTextJustification::Center;
        let text = file.decimal(&dimension.text);
        write(sheet, &text, at, dimension.text_height, middle);
    }
    for label in &document.flat.labels {
        let at = sheet.place(label.at);
        let middle = HorizontalTextJustification::Center;
        write(sheet, &label.text, at, label.height, middle);
    }
    let mut down = sheet.extent().least.y - BELOW - NAME;
    for (line, height) in lines_below(document, file) {
        let at = sheet.at(0.0, down);
        write(sheet, &line, at, height, HorizontalTextJustification::Left);
        down -= ROW;
    }
}

/// The description of the file, with the heights of its lines.
fn lines_below(document: &Document, file: &DrawingFile) -> Vec<(String, f64)> {
    let words = &file.drawing.dxf;
    let mut lines = vec![
        (document.title.clone(), NAME),
        (
            file.about(
                [&words.about, &words.about_without_box].map(String::as_str),
                " x ",
                document,
            ),
            LINE,
        ),
        (words.face(document.output.drawn_face).to_owned(), LINE),
    ];
    lines.extend(file.machine(document).into_iter().map(|line| (line, LINE)));
    lines
}

fn write(
    sheet: &mut DxfDrawing,
    words: &str,
    at: Point,
    height: f64,
    justified: HorizontalTextJustification,
) {
    let width = LETTER * height * words.chars().count() as f64;
    let left = match justified {
        HorizontalTextJustification::Center => width / 2.0,
        _ => 0.0,
    };
    sheet.at(at.x - left, at.y);
    sheet.at(at.x + width - left, at.y + height);
    let text = Text {
        value: printable(words),
        text_height: height,
        location: at.clone(),
        second_alignment_point: at,
        horizontal_text_justification: justified,
        ..Text::default()
    };
    add(sheet, EntityType::Text(text));
}

/// A text is one line. Two percent signs begin a code; that of the diameter works in readers that lack the letter.
// Source: DXF reference, TEXT and the control codes of text (from memory).
fn printable(words: &str) -> String {
    let plain = words.chars().map(|letter| match letter {
        letter if letter.is_control() => ' ',
        letter => letter,
    });
    let plain = plain.collect::<String>().replace("%%", "% %");
    plain.replace('\u{2300}', "%%c")
}

fn add(sheet: &mut DxfDrawing, what: EntityType) {
    sheet.add(ProcessingStep::Dimensions, what);
}
