//! The inks of the layers: one spot colour per processing step, printed over the colours below.
//!
//! **Input:** a file as the PDF library writes it. **Output:** the file with the inks and the overprint state that the
//! content of its pages names. A printer that has no such inks mixes the colours that the lines have in every other file.

use lopdf::{Document, Object, ObjectId, dictionary};

use traywright_look::Layer;

use crate::press::Printer;

/// The key of the graphics state for layers.
pub(crate) const OVERPRINT: &str = "Overprint";

/// Adds the inks of these layers and the state to the pages of a file.
pub(crate) fn settle(file: &mut Document, layers: &[Layer], printer: Printer) {
    if layers.is_empty() {
        return;
    }
    let pages: Vec<ObjectId> = file.page_iter().collect();
    let state = file.add_object(dictionary! {
        "Type" => "ExtGState",
        // Source: ISO 32000-1, 8.6.7: OP for lines, op for areas; what an ink does not print leaves the others alone.
        "OP" => true,
        "op" => true,
        "OPM" => 1,
    });
    let inks: Vec<(&str, ObjectId)> = layers
        .iter()
        .map(|layer| (layer.ink(), file.add_object(ink(*layer, printer))))
        .collect();
    for page in pages {
        let mut spaces = dictionary! {};
        for (name, space) in &inks {
            spaces.set(*name, *space);
        }
        let Ok(resources) = file
            .get_or_create_resources(page)
            .and_then(Object::as_dict_mut)
        else {
            continue;
        };
        resources.set("ColorSpace", spaces);
        resources.set("ExtGState", dictionary! { OVERPRINT => state });
    }
}

/// An ink, with its substitute colour if the ink is not available.
// Source: ISO 32000-1, 8.6.6.4 (Separation) and 7.10.3 (functions of type 2): none of the ink is white, all of it the look.
fn ink(layer: Layer, printer: Printer) -> Vec<Object> {
    let (space, white, full) = printer.stand_in(layer.look().colour);
    let reals = |parts: Vec<f32>| Vec::from_iter(parts.into_iter().map(Object::Real));
    vec![
        Object::from("Separation"),
        Object::from(layer.ink()),
        Object::from(space),
        Object::Dictionary(dictionary! {
            "FunctionType" => 2,
            "Domain" => vec![Object::Integer(0), Object::Integer(1)],
            "C0" => reals(white),
            "C1" => reals(full),
            "N" => 1,
        }),
    ]
}
