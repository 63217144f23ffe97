//! One document in, a booklet out: from the card to the tray in its box, in figures that can be understood without the
//! words.
//!
//! Given the finished tray as plain data; gives a PDF with what is needed, how to crease and cut, and the folds one by
//! one, each with a figure whose hidden lines are removed. It knows no rule of folding, and the same document gives the
//! same bytes.

mod arrows;
mod before;
mod blank;
mod book;
mod by_hand;
mod card;
mod coordinates;
mod crease_pictures;
mod crease_shapes;
mod crease_way;
mod creasing;
mod cutaway;
mod cutaway_figure;
mod detail;
mod drawn;
mod figure;
mod flow;
mod free;
mod from_below;
mod grouping;
mod holding;
mod in_use;
mod line_styles;
mod making;
mod measuring;
mod part_map;
mod picture;
mod points;
mod printed;
mod printed_pictures;
mod scene;
mod scene_prints;
mod section;
mod sense;
mod small;
mod step_figures;
mod step_pages;
mod strip;
mod tray;
mod view;
mod viewpoints;
mod visibility_report;
mod visible;
mod wording;
mod zones;

use traywright_document::plugin_api::{Exported, File};
use traywright_document::{Document, ExportError, steps};
use traywright_look::words;
use traywright_paper::{Font, Printed, print};

use book::{Book, Grid};
use step_figures::Staging;
use tray::BookletInput;
pub use visibility_report::{Sighting, sightings};

traywright_document::exporter!(name: "booklet", suffix: "-booklet.pdf", export);

/// The file of a tray.
fn export(document: &Document) -> Result<Exported, ExportError> {
    let printed = printed(document)?;
    let files = vec![File {
        suffix: "-booklet.pdf".to_owned(),
        bytes: printed.bytes,
    }];
    Ok(Exported {
        files,
        warnings: printed.warning.into_iter().collect(),
    })
}

/// The booklet of a tray as a file.
///
/// # Refuses
/// A language without words, and a font that cannot be used.
pub fn booklet(document: &Document) -> Result<Vec<u8>, ExportError> {
    printed(document).map(|printed| printed.bytes)
}

/// The document with like steps joined, and how often each of its steps is done.
fn for_readers(document: &Document) -> (Document, Vec<usize>) {
    let runs = || steps::alike(&document.steps);
    let read = Document {
        steps: runs().filter_map(steps::joined).collect(),
        ..document.clone()
    };
    (read, runs().map(<[_]>::len).collect())
}

fn printed(document: &Document) -> Result<Printed, ExportError> {
    let file: wording::File = words(&document.output.language)?;
    let (document, times) = &for_readers(document);
    let font = Font::of(document.output.paper.page())?;
    let tray = BookletInput {
        document,
        times,
        file: &file,
    };
    let staging = Staging::of(document);
    let mut book = Book::new(&font, Grid::of(document));
    before::cover(&mut book, &tray, &staging);
    book.turn_page();
    part_map::map(&mut book, &tray);
    before::pages(&mut book, &tray);
    creasing::creasing(&mut book, &tray);
    making::cutting(&mut book, &tray);
    if document.has_box() {
        step_pages::pages(&mut book, &tray, &staging);
        in_use::pages(&mut book, &tray, &staging);
    } else {
        strip::flat(&mut book, &tray);
        step_pages::pages(&mut book, &tray, &staging);
        strip::reading(&mut book, &tray);
    }
    by_hand::pages(&mut book, &tray);
    let pages = book.pages(&document.title, &file.booklet.page);
    print(&document.title, None, &font, &pages)
}
