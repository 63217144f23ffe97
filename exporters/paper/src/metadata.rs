//! The metadata of a PDF: version, layers, printer settings and identifier, the same on every day.
//!
//! **Input:** a file as the PDF library writes it. **Output:** the final bytes. Dates, names of other programs and
//! random numbers are removed, the layers state their processing steps, and the identifier is computed from the
//! content.

use std::io::Write;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use lopdf::{Dictionary, Document, Object, ObjectId, Stream, StringFormat, dictionary};

use crate::inks;
use crate::press::Printer;
use traywright_document::ExportError;
use traywright_look::Layer;

/// A hash of these bytes.
// Source: Fowler, Noll and Vo, FNV-1a of 128 bits: offset basis and prime (RFC 9923).
pub(crate) fn fingerprint(bytes: &[u8]) -> u128 {
    const BASIS: u128 = 0x6c62_272e_07bb_0142_62b8_2175_6295_c58d;
    const PRIME: u128 = 0x0000_0000_0100_0000_0000_0000_0000_013b;
    bytes.iter().fold(BASIS, |hash, byte| {
        (hash ^ u128::from(*byte)).wrapping_mul(PRIME)
    })
}

/// Completes a file with these layers, and with the rectangle of each page's printed area in points; returns its bytes.
pub(crate) fn finish(
    mut file: Document,
    layers: &[Layer],
    bleeds: &[[f32; 4]],
    printer: Printer,
) -> Result<Vec<u8>, ExportError> {
    // Layers need PDF 1.5, the setting against scaling 1.6.
    // Source: ISO 32000-1, 8.11 and table 150.
    "1.6".clone_into(&mut file.version);
    settle_layers(&mut file)?;
    inks::settle(&mut file, layers, printer);
    settle_pages(&mut file, bleeds);
    settle_titles(&mut file);
    file.prune_objects();
    file.renumber_objects();
    file.trailer.remove(b"ID");
    let name = fingerprint(&save(&mut file.clone())?)
        .to_be_bytes()
        .to_vec();
    let name = Object::String(name, StringFormat::Hexadecimal);
    file.trailer.set("ID", vec![name.clone(), name]);
    compress(&mut file)?;
    save(&mut file)
}

/// Compression level of streams, out of 9.
const QUICK: u32 = 4;

/// Compresses every stream. The PDF library itself has only the highest level, which on a page of many lines takes ten
/// times as long and saves a sixth.
fn compress(file: &mut Document) -> Result<(), ExportError> {
    let streams = file.objects.values_mut().filter_map(|object| match object {
        Object::Stream(stream) if stream.allows_compression && !stream.dict.has(b"Filter") => {
            Some(stream)
        }
        _ => None,
    });
    for stream in streams {
        let mut encoder = ZlibEncoder::new(Vec::new(), Compression::new(QUICK));
        let compressed = encoder
            .write_all(&stream.content)
            .and_then(|()| encoder.finish())
            .map_err(|why| {
                ExportError::Written(format!("the pages cannot be compressed: {why}"))
            })?;
        if compressed.len() < stream.content.len() {
            stream.dict.set("Filter", "FlateDecode");
            stream.set_content(compressed);
        }
    }
    Ok(())
}

fn save(file: &mut Document) -> Result<Vec<u8>, ExportError> {
    let mut bytes = Vec::new();
    file.save_to(&mut bytes)
        .map_err(|why| ExportError::Written(format!("the pages cannot be written: {why}")))?;
    Ok(bytes)
}

/// The layers with their processing steps, and the catalogue that lists them.
fn settle_layers(file: &mut Document) -> Result<(), ExportError> {
    let mut groups: Vec<(Layer, ObjectId)> = Vec::new();
    for (id, object) in &mut file.objects {
        let Ok(group) = object.as_dict_mut() else {
            continue;
        };
        let Some(layer) = layer_of(group) else {
            continue;
        };
        let (step_group, step_type) = layer.processing_step();
        let mut metadata = dictionary! { "GTS_ProcStepsGroup" => step_group };
        if let Some(step_type) = step_type {
            metadata.set("GTS_ProcStepsType", step_type);
        }
        *group = dictionary! {
            "Type" => "OCG",
            "Name" => Object::string_literal(layer.name()),
            "Intent" => "View",
            "GTS_Metadata" => metadata,
        };
        groups.push((layer, *id));
    }
    groups.sort();
    let list: Vec<Object> = groups
        .iter()
        .map(|(_, id)| Object::Reference(*id))
        .collect();
    let catalog = file
        .catalog_mut()
        .map_err(|why| ExportError::Written(format!("the pages have no catalogue: {why}")))?;
    catalog.remove(b"PageLayout");
    catalog.remove(b"OCProperties");
    if !list.is_empty() {
        catalog.set(
            "OCProperties",
            dictionary! {
                "OCGs" => list.clone(),
                "D" => dictionary! { "BaseState" => "ON", "ON" => list.clone(), "Order" => list },
            },
        );
    }
    catalog.set(
        "ViewerPreferences",
        dictionary! { "PrintScaling" => "None", "DisplayDocTitle" => true },
    );
    Ok(())
}

/// The layer of a group of optional content.
fn layer_of(group: &Dictionary) -> Option<Layer> {
    let is_group = group
        .get(b"Type")
        .and_then(Object::as_name)
        .is_ok_and(|name| name == b"OCG");
    let name = group
        .get(b"Name")
        .and_then(Object::as_str)
        .ok()
        .filter(|_| is_group)?;
    Layer::ALL
        .into_iter()
        .find(|layer| layer.name().as_bytes() == name)
}

/// Removes empty entries of pages, and adds the printed area, which the library cannot write.
fn settle_pages(file: &mut Document, bleeds: &[[f32; 4]]) {
    let pages: Vec<ObjectId> = file.page_iter().collect();
    for (page, bleed) in pages.into_iter().zip(bleeds) {
        let Ok(page) = file.get_dictionary_mut(page) else {
            continue;
        };
        let is_empty = page
            .get(b"Annots")
            .and_then(Object::as_array)
            .is_ok_and(Vec::is_empty);
        if is_empty {
            page.remove(b"Annots");
        }
        page.set("BleedBox", bleed.map(Object::Real).to_vec());
    }
}

/// The title and the program's name; nothing that changes from day to day.
fn settle_titles(file: &mut Document) {
    let Some(id) = file
        .trailer
        .get(b"Info")
        .and_then(Object::as_reference)
        .ok()
    else {
        return;
    };
    let title = file
        .get_dictionary(id)
        .ok()
        .and_then(|info| info.get(b"Title").ok())
        .cloned();
    let mut info = dictionary! {
        "Creator" => Object::string_literal("traywright"),
        "Producer" => Object::string_literal("traywright"),
    };
    let said = title
        .as_ref()
        .and_then(|title| lopdf::decode_text_string(title).ok());
    if let Some(title) = title {
        info.set("Title", title);
    }
    file.objects.insert(id, Object::Dictionary(info));
    let packet = xmp(&said.unwrap_or_default());
    let metadata = dictionary! { "Type" => "Metadata", "Subtype" => "XML" };
    let metadata =
        file.add_object(Stream::new(metadata, packet.into_bytes()).with_compression(false));
    if let Ok(catalog) = file.catalog_mut() {
        catalog.set("Metadata", metadata);
    }
}

/// The title and the program's name again, for programs that read only this place.
// Source: ISO 16684-1 (XMP): the packet and the names of its parts; ISO 32000-1, 14.3.2: as plain text.
fn xmp(title: &str) -> String {
    let mut escaped = String::new();
    for letter in title.chars() {
        match letter {
            '<' => escaped += "&lt;",
            '>' => escaped += "&gt;",
            '&' => escaped += "&amp;",
            letter if letter.is_control() => escaped.push(' '),
            letter => escaped.push(letter),
        }
    }
    format!(
        "<?xpacket begin=\"\u{feff}\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n\
         <x:xmpmeta xmlns:x=\"adobe:ns:meta/\"><rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n\
         <rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\" xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\">\n\
         <dc:format>application/pdf</dc:format><dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{escaped}</rdf:li></rdf:Alt></dc:title>\n\
         <pdf:Producer>traywright</pdf:Producer><xmp:CreatorTool>traywright</xmp:CreatorTool>\n\
         </rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>"
    )
}
