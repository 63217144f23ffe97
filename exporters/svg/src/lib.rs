//! One document in, one SVG out at true size: one user unit is one millimetre.
//!
//! Given the finished tray as plain data; gives a drawing with one group per kind of line, the measures beside the
//! blank, and a foot with a scale bar, a legend and the tray's name. This is the only place where y is turned round.
//! It knows no rule of folding, uses no transform but for printed words and pictures, and writes the same bytes for the same document.

mod drawing_area;
mod layers;
mod legend;
mod measures;
mod names;
mod path;
mod printed;
mod ticks;
mod words;

use std::fmt::Display;

use svg::node::Text;
use svg::node::element::{Description, SVG, Title};
use traywright_document::plugin_api::File;
use traywright_document::{Document, ExportError};
use traywright_look::DrawingFile;

use drawing_area::DrawingArea;

traywright_document::exporter!(name: "svg", suffix: ".svg", export);

/// The file of a tray.
fn export(document: &Document) -> Result<Vec<File>, ExportError> {
    Ok(vec![File {
        suffix: ".svg".to_owned(),
        bytes: drawing(document)?.into_bytes(),
    }])
}

/// The drawing of a tray.
///
/// # Refuses
/// A language without words.
pub fn drawing(document: &Document) -> Result<String, ExportError> {
    let file = DrawingFile::of(&document.output.language)?;
    if document.has_bare_lines() {
        return Ok(bare(document));
    }
    let area = DrawingArea::new(document);
    let legend = legend::legend(document, &file, &area);
    let (width, height) = area.size(legend.most);
    let svg = sheet(width, height)
        .add(Title::new(words::printable(&file.title(document))))
        .add(Description::new().add(Text::new(words::printable(&legend::about(document, &file)))))
        .add(names::metadata(document));
    let groups = printed::pictures(&document.flat.panel_pictures, &area)
        .into_iter()
        .chain(layers::line_groups(document, Some(&file), &area))
        .chain(measures::groups(&document.flat.dimensions, &file, &area))
        .chain(measures::names("names", &document.flat.labels, &area))
        .chain(measures::names("letters", &document.flat.letters, &area))
        .chain(printed::labels(&document.flat.panel_labels, &area))
        .chain(legend.groups);
    Ok(groups.fold(svg, SVG::add).to_string() + "\n")
}

/// A drawing that a machine can work along as it stands: lines alone, on a sheet as large as the blank.
fn bare(document: &Document) -> String {
    let area = DrawingArea::bare(document);
    let size = area.bare_size();
    let groups = layers::line_groups(document, None, &area).into_iter();
    groups.fold(sheet(size.x, size.y), SVG::add).to_string() + "\n"
}

/// A sheet at true size.
fn sheet(width: impl Display, height: impl Display) -> SVG {
    SVG::new()
        .set("width", format!("{width}mm"))
        .set("height", format!("{height}mm"))
        .set("viewBox", format!("0 0 {width} {height}"))
}

#[cfg(test)]
mod tests;
