//! The pictures of a PDF: each file once, however often pages show it.
//!
//! **Input:** a file as the PDF library writes it, and the pictures on its pages. **Output:** the file with its pictures
//! as image XObjects, opacity as a soft mask. **Errors:** a picture that is damaged.

use std::io::Write;
use std::rc::Rc;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use lopdf::{Dictionary, Document, Object, ObjectId, Stream, dictionary};
use traywright_document::{ExportError, PngFile};
use traywright_look::{Pixels, pixels};

use crate::page::{Mark, Page};
use crate::press::{Printer, mixed_in_four_inks};

/// Compression level of pixels, out of 9.
const LEVEL: u32 = 6;

/// The name of a picture in content.
pub(crate) fn key(number: usize) -> String {
    format!("P{number}")
}

/// The files of the pictures on pages, each once.
pub(crate) fn files(pages: &[Page]) -> Vec<Rc<PngFile>> {
    let mut files: Vec<Rc<PngFile>> = Vec::new();
    let marks = pages.iter().flat_map(|page| &page.marks);
    for (_, mark) in marks {
        if let Mark::Picture(picture) = mark
            && !files.contains(&picture.file)
        {
            files.push(Rc::clone(&picture.file));
        }
    }
    files
}

/// Adds the pictures to a file, and their names to its pages.
pub(crate) fn settle(
    file: &mut Document,
    pictures: &[Rc<PngFile>],
    printer: Printer,
) -> Result<(), ExportError> {
    if pictures.is_empty() {
        return Ok(());
    }
    let mut names = Dictionary::new();
    for (number, picture) in pictures.iter().enumerate() {
        let added = add(file, &pixels(picture)?, printer)?;
        names.set(key(number), added);
    }
    let pages: Vec<ObjectId> = file.page_iter().collect();
    for page in pages {
        let resources = file
            .get_or_create_resources(page)
            .and_then(Object::as_dict_mut);
        if let Ok(resources) = resources {
            resources.set("XObject", names.clone());
        }
        if let (Printer::Press, Ok(page)) = (printer, file.get_dictionary_mut(page)) {
            page.set("Group", mixed_in_four_inks());
        }
    }
    Ok(())
}

// Source: ISO 32000-1, 8.9.5 (image dictionaries) and 11.6.5.3 (soft-mask images).
fn add(
    file: &mut Document,
    Pixels { size, rgba }: &Pixels,
    printer: Printer,
) -> Result<ObjectId, ExportError> {
    let dots = || rgba.chunks_exact(4);
    let colours: Vec<u8> = dots().flat_map(|dot| [dot[0], dot[1], dot[2]]).collect();
    let mut image = dictionary! { "ColorSpace" => printer.of_pictures() };
    if dots().any(|dot| dot[3] < 255) {
        let opacity: Vec<u8> = dots().map(|dot| dot[3]).collect();
        let mask = dictionary! { "ColorSpace" => "DeviceGray" };
        let mask = stream(mask, *size, &opacity)?;
        image.set("SMask", file.add_object(mask));
    }
    let image = stream(image, *size, &colours)?;
    Ok(file.add_object(image))
}

fn stream(
    mut about: Dictionary,
    [width, height]: [usize; 2],
    bytes: &[u8],
) -> Result<Stream, ExportError> {
    about.set("Type", "XObject");
    about.set("Subtype", "Image");
    about.set("Width", width as i64);
    about.set("Height", height as i64);
    about.set("BitsPerComponent", 8);
    about.set("Filter", "FlateDecode");
    let mut encoder = ZlibEncoder::new(Vec::new(), Compression::new(LEVEL));
    let packed = encoder.write_all(bytes).and_then(|()| encoder.finish());
    let failed = |why| ExportError::Written(format!("a picture cannot be compressed: {why}"));
    Ok(Stream::new(about, packed.map_err(failed)?))
}
