//! What a print shop needs of a file that a home printer does not: no colour of a screen, and the printing condition.
//!
//! **Input:** the pages, a file as the PDF library writes it, and the name of a printing condition. **Output:** colours in
//! the four inks of a press, and the entry of the file that names the condition. It converts no picture: a picture
//! says which colours it means, and the print shop converts it for its press.

use lopdf::{Dictionary, Document, Object, StringFormat, dictionary};
use printpdf::{Cmyk, Color, Rgb};
use traywright_look::{Colour, INK};

use crate::page::Page;

/// What prints a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Printer {
    /// A printer that takes the colours of a screen.
    Home,
    /// A press with cyan, magenta, yellow and black, and plates of its own for the inks of the layers.
    Press,
}

impl Printer {
    /// What prints a page: a page that is trimmed is for a press.
    pub(crate) fn of(page: &Page) -> Printer {
        match page.kept {
            Some(_) => Printer::Press,
            None => Printer::Home,
        }
    }

    /// What prints a file.
    pub(crate) fn of_all(pages: &[Page]) -> Printer {
        let first = pages.first();
        first.map_or(Printer::Home, Printer::of)
    }

    /// A colour of content.
    pub(crate) fn colour(self, colour: Colour) -> Color {
        match self {
            Printer::Home => {
                let [red, green, blue] = parts(colour);
                Color::Rgb(Rgb::new(red, green, blue, None))
            }
            Printer::Press => {
                let [cyan, magenta, yellow, black] = four_inks(colour);
                Color::Cmyk(Cmyk::new(cyan, magenta, yellow, black, None))
            }
        }
    }

    /// The colour space that stands in for an ink of a layer, and in it the colours of no ink and of all of it.
    pub(crate) fn stand_in(self, colour: Colour) -> (&'static str, Vec<f32>, Vec<f32>) {
        match self {
            Printer::Home => ("DeviceRGB", vec![1.0; 3], parts(colour).into()),
            Printer::Press => ("DeviceCMYK", vec![0.0; 4], four_inks(colour).into()),
        }
    }

    /// The colour space of the pictures, which have the colours of a screen.
    pub(crate) fn of_pictures(self) -> Object {
        match self {
            Printer::Home => "DeviceRGB".into(),
            Printer::Press => Object::Array(vec!["CalRGB".into(), screen().into()]),
        }
    }
}

/// The colours of a screen, by the light that they are.
// Source: IEC 61966-2-1 (sRGB): white and primaries; its curve is within a hundredth of the power 2.2. The keys are
// those of ISO 32000-1, 8.6.5.3.
fn screen() -> Dictionary {
    let reals = |values: &[f32]| Object::Array(values.iter().copied().map(Object::Real).collect());
    dictionary! {
        "WhitePoint" => reals(&[0.9505, 1.0, 1.089]),
        "Gamma" => reals(&[2.2; 3]),
        "Matrix" => reals(&[
            0.4124, 0.2126, 0.0193, 0.3576, 0.7152, 0.1192, 0.1805, 0.0722, 0.9505,
        ]),
    }
}

fn parts(colour: Colour) -> [f32; 3] {
    colour.0.map(|part| f32::from(part) / 255.0)
}

/// Cyan, magenta, yellow and black of a colour.
// Source: ISO 32000-1, 10.3 (conversion from DeviceRGB to DeviceCMYK), all of the grey as black. Common practice, none
// published: words are solid black, because a press prints a grey as dots, which fray the edges of small letters.
fn four_inks(colour: Colour) -> [f32; 4] {
    if colour == INK {
        return [0.0, 0.0, 0.0, 1.0];
    }
    let [cyan, magenta, yellow] = parts(colour).map(|part| 1.0 - part);
    let black = cyan.min(magenta).min(yellow);
    [cyan - black, magenta - black, yellow - black, black]
}

/// Names the printing condition in the catalogue.
// Source: ISO 32000-1, 14.11.5 (output intents). The registry is that of the International Color Consortium, whose names
// need no profile in the file.
pub(crate) fn name_condition(file: &mut Document, condition: &str) {
    let name = Object::String(condition.into(), StringFormat::Literal);
    let intent = dictionary! {
        "Type" => "OutputIntent",
        "S" => "GTS_PDFX",
        "OutputConditionIdentifier" => name,
        "RegistryName" => Object::string_literal("http://www.color.org"),
    };
    if let Ok(catalog) = file.catalog_mut() {
        catalog.set("OutputIntents", vec![Object::Dictionary(intent)]);
    }
}

/// The space in which what shows through on a page is mixed.
// Source: ISO 32000-1, 11.6.6 and 11.4.7 (page groups).
pub(crate) fn mixed_in_four_inks() -> Dictionary {
    dictionary! { "Type" => "Group", "S" => "Transparency", "CS" => "DeviceCMYK" }
}
