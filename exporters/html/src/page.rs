//! The page around the picture: what it shows without a script, and what a screen reader hears.
//!
//! **Input:** a document and words. **Output:** HTML. Names come from people and never become markup.

use traywright_document::{Document, ExportError};

use crate::scene::scene;
use crate::scripts::scripts;
use crate::steps;
use crate::words::WordsFile;

/// What the page may do: its own script and style, and nothing from anywhere else.
const POLICY: &str = "default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'";
const STYLE: &str = include_str!("../web/viewer.css");
const OWN_STYLE: &str = include_str!("../web/tray.css");
/// Joins page and picture.
const START: &str = "show(viewer(document, data('words')), data('scene'));";

/// The page of a tray.
pub(crate) fn page(document: &Document, file: &WordsFile) -> Result<String, ExportError> {
    let written = |why: serde_json::Error| ExportError::Written(why.to_string());
    let viewer = serde_json::to_string(&file.html.viewer).map_err(written)?;
    let scene = scene(document, file)?;
    let head = head(document);
    let body = [
        format!("<h1>{}</h1>\n", text(&document.title)),
        about(document, file),
        picture(file),
        facts(document, file),
        format!("<p class=\"private\">{}</p>\n", text(&file.html.private)),
    ]
    .concat();
    let scripts = scripts();
    Ok(format!(
        "{head}<body>\n<main>\n{body}</main>\n\
         <script type=\"application/json\" id=\"words\">{}</script>\n\
         <script type=\"application/json\" id=\"scene\">{}</script>\n\
         <script>\n'use strict';\n{scripts}{START}\n</script>\n</body>\n</html>\n",
        embedded(&viewer),
        embedded(&scene)
    ))
}

fn head(document: &Document) -> String {
    format!(
        "<!doctype html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{POLICY}\">\n\
         <title>{}</title>\n<style>\n{STYLE}{OWN_STYLE}</style>\n</head>\n",
        text(&document.output.language),
        text(&document.title)
    )
}

/// What the tray is of.
fn about(document: &Document, file: &WordsFile) -> String {
    let drawing = &file.drawing.drawing;
    let forms = [drawing.about.as_str(), &drawing.about_without_box];
    let about = file.drawing.about(forms, " × ", document);
    format!("<p class=\"about\">{}</p>\n", text(&about))
}

/// The picture with its slider and its steps; the scripts fill it.
fn picture(file: &WordsFile) -> String {
    let words = &file.html.viewer;
    format!(
        "<section class=\"fold\">\n\
         <canvas id=\"space\" tabindex=\"0\" role=\"img\" aria-label=\"{}\" aria-describedby=\"what\"></canvas>\n\
         <div class=\"told\"><p id=\"what\"></p><p id=\"why\"></p></div>\n\
         <div class=\"bar\"><button type=\"button\" id=\"back\" aria-label=\"{}\">‹</button>\
         <input id=\"when\" type=\"range\" min=\"0\" max=\"1\" step=\"0.01\" value=\"0\" aria-label=\"{}\">\
         <button type=\"button\" id=\"next\" aria-label=\"{}\">›</button>\
         <button type=\"button\" id=\"play\">{}</button></div>\n\
         <p class=\"hands\">{}</p>\n<noscript><p>{}</p></noscript>\n</section>\n\
         <section class=\"list\">\n<h2>{}</h2>\n<ol id=\"steps\"></ol>\n</section>\n",
        text(&words.picture),
        text(&words.back),
        text(&words.slider),
        text(&words.next),
        text(&words.play),
        text(&words.hands),
        text(&file.html.no_script),
        text(&file.html.steps),
    )
}

/// The lengths that a maker asks for first.
fn facts(document: &Document, file: &WordsFile) -> String {
    let lengths = file.drawing.lengths(document.unit);
    let measures = |names: &[&str]| -> Vec<f64> {
        let find = |name: &&str| {
            document
                .measures
                .iter()
                .find(|measure| measure.name == *name)
        };
        names
            .iter()
            .filter_map(find)
            .map(|found| found.value)
            .collect()
    };
    let words = &file.html;
    let inside = document.box_size;
    let outside = measures(&["folded_length", "folded_width", "folded_depth"]);
    let blank = measures(&["blank_length", "blank_width"]);
    let in_box = [inside.length, inside.width, inside.depth].map(|side| side.mm());
    let items = document.kinds().map(|(item, count)| {
        let size = lengths.size(&[item.length, item.width, item.depth]);
        let name = steps::counted(&item.name, count, file);
        (words.items.as_str(), format!("{name}: {size}"))
    });
    let pads = file.drawing.pads(document).into_iter();
    let mut rows: Vec<(&str, String)> = Vec::new();
    rows.extend(
        document
            .has_box()
            .then(|| (words.in_box.as_str(), lengths.size(&in_box))),
    );
    rows.extend(items);
    rows.extend(pads.map(|pad| (words.pads.as_str(), pad)));
    for (label, sides) in [(&words.outside, outside), (&words.blank, blank)] {
        rows.extend((!sides.is_empty()).then(|| (label.as_str(), lengths.size(&sides))));
    }
    let rows: String = rows
        .iter()
        .map(|(label, words)| format!("<dt>{}</dt><dd>{}</dd>\n", text(label), text(words)))
        .collect();
    format!("<dl class=\"facts\">\n{rows}</dl>\n")
}

/// Words as they stand in HTML, between tags or in an attribute.
fn text(words: &str) -> String {
    let mut written = String::with_capacity(words.len());
    for letter in words.chars() {
        match letter {
            '&' => written.push_str("&amp;"),
            '<' => written.push_str("&lt;"),
            '>' => written.push_str("&gt;"),
            '"' => written.push_str("&quot;"),
            other => written.push(other),
        }
    }
    written
}

/// JSON as it stands in a script: no tag can begin in it.
fn embedded(json: &str) -> String {
    json.replace('<', "\\u003c")
}
