//! Labels, names in the openings, and below the drawing a description of the file.
//!
//! **Input:** placed labels and names, and what the file is about. **Output:** words on layers of their own. The last lines name the
//! tray, its style, box and card, and say so if the cuts are not the piece's own edges.

use dxf::Point;
use dxf::entities::{EntityType, Text};
use dxf::enums::HorizontalTextJustification as Justified;
use traywright_document::{Document, PanelLabel};
use traywright_look::DrawingFile;

use crate::drawing::{DxfDrawing, WordLayer};

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

/// Draws names and the description.
pub(crate) fn draw(file: &DrawingFile, sheet: &mut DxfDrawing) {
    let document = sheet.document;
    for label in document.flat.panel_labels.iter().filter(|it| it.is_drawn()) {
        let label = label_text(sheet, label);
        sheet.add_words(WordLayer::Labels, label);
    }
    for label in &document.flat.labels {
        let at = sheet.place(label.at);
        let name = text(sheet, &label.text, at, label.height, Justified::Center);
        sheet.add_words(WordLayer::Notes, name);
    }
    let mut down = sheet.extent().least.y - BELOW - NAME;
    for (layer, line, height) in lines_below(document, file) {
        let at = sheet.at(0.0, down);
        let line = text(sheet, &line, at, height, Justified::Left);
        sheet.add_words(layer, line);
        down -= ROW;
    }
}

/// A label of a panel, turned as it is read in the finished tray.
fn label_text(sheet: &mut DxfDrawing, label: &PanelLabel) -> EntityType {
    for corner in label.corners() {
        sheet.place(corner);
    }
    let at = sheet.place(label.foot());
    EntityType::Text(Text {
        value: printable(&label.text),
        text_height: label.height,
        location: at.clone(),
        second_alignment_point: at,
        rotation: label.turned_deg(),
        horizontal_text_justification: Justified::Center,
        ..Text::default()
    })
}

/// The description of the file: layers, words and heights of its lines.
fn lines_below(document: &Document, file: &DrawingFile) -> Vec<(WordLayer, String, f64)> {
    let words = &file.drawing.dxf;
    let about = [&words.about, &words.about_without_box].map(String::as_str);
    let mut notes = vec![
        file.about(about, " x ", document),
        words.face(document.output.drawn_face).to_owned(),
    ];
    notes.extend(file.machine(document));
    let title = (WordLayer::Title, document.title.clone(), NAME);
    let notes = notes.into_iter().map(|line| (WordLayer::Notes, line, LINE));
    std::iter::once(title).chain(notes).collect()
}

/// Words at a point of their baseline, in the extent of the drawing.
pub(crate) fn text(
    sheet: &mut DxfDrawing,
    words: &str,
    at: Point,
    height: f64,
    justified: Justified,
) -> EntityType {
    let width = LETTER * height * words.chars().count() as f64;
    let left = match justified {
        Justified::Center => width / 2.0,
        _ => 0.0,
    };
    sheet.at(at.x - left, at.y);
    sheet.at(at.x + width - left, at.y + height);
    EntityType::Text(Text {
        value: printable(words),
        text_height: height,
        location: at.clone(),
        second_alignment_point: at,
        horizontal_text_justification: justified,
        ..Text::default()
    })
}

/// A text is one line. Two percent signs begin a code; that of the diameter works in readers that lack the letter. `\U+`
/// and `\M+` begin a letter by its number; a space in them leaves the words as they were typed, but for that space.
// Source: DXF reference, TEXT and the control codes of text (from memory).
pub(crate) fn printable(words: &str) -> String {
    let plain = words.chars().map(|letter| match letter {
        letter if letter.is_control() => ' ',
        letter => letter,
    });
    let plain = plain.collect::<String>().replace("%%", "% %");
    let plain = plain.replace("\\U+", "\\ U+").replace("\\u+", "\\ u+");
    let plain = plain.replace("\\M+", "\\ M+").replace("\\m+", "\\ m+");
    plain.replace('\u{2300}', "%%c")
}
