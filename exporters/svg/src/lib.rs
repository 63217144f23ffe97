//! One document in, one SVG out at true size: one user unit is one millimetre.
//!
//! Given the finished tray as plain data; gives a drawing with one group per kind of line, the measures beside the
//! blank, and a foot with a scale bar, a legend and the tray's name. This is the only place where y is turned round.
//! It knows no rule of folding, uses no transform, and writes the same bytes for the same document.

mod drawing_area;
mod layers;
mod legend;
mod measures;
mod names;
mod path;
mod ticks;
mod words;

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
    let area = DrawingArea::new(document);
    let legend = legend::legend(document, &file, &area);
    let (width, height) = area.size(legend.most);
    let svg = SVG::new()
        .set("width", format!("{width}mm"))
        .set("height", format!("{height}mm"))
        .set("viewBox", format!("0 0 {width} {height}"))
        .add(Title::new(words::printable(&file.title(document))))
        .add(Description::new().add(Text::new(words::printable(&legend::about(document, &file)))))
        .add(names::metadata(document));
    let groups = layers::line_groups(document, &file, &area)
        .into_iter()
        .chain(measures::groups(&document.flat.dimensions, &file, &area))
        .chain(measures::names("names", &document.flat.labels, &area))
        .chain(measures::names("letters", &document.flat.letters, &area))
        .chain(legend.groups);
    Ok(groups.fold(svg, SVG::add).to_string() + "\n")
}

#[cfg(test)]
mod tests;
