//! The kinds of line: the style of each, and the layer in which programs and machines find it.
//!
//! There is one layer per processing step and one for the legend, with the pen that draws it. The pattern carries the
//! meaning first and the colour second. **Does not** assign lines to kinds.

use traywright_document::ProcessingStep;

/// A colour on paper: red, green and blue from 0 to 255.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour(pub [u8; 3]);

/// Words that are neither dimensions nor lines.
pub const INK: Colour = Colour([0x33, 0x33, 0x33]);

/// The style of a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LineStyle {
    /// Its colour.
    pub colour: Colour,
    /// Its width.
    pub width: f64,
    /// Lengths of dashes and gaps in turn; empty for a solid line.
    pub dashes: &'static [f64],
}

impl LineStyle {
    /// The same line as a machine likes it: solid, because some programs cut along each dash, and as thin as it can be,
    /// because some programs engrave a line that has a width.
    // Source: common practice, none published: programs of cutters take lines of 0.01 mm for lines to cut.
    pub fn hairline(self) -> LineStyle {
        LineStyle {
            width: 0.01,
            dashes: &[],
            ..self
        }
    }

    /// The same line in the colour of words, as a sample beside its meaning: a machine sorts lines by colour, and it
    /// must not work along a sample.
    pub fn sample(self) -> LineStyle {
        LineStyle {
            colour: INK,
            ..self
        }
    }
}

/// Cut through.
pub const CUTTING: LineStyle = LineStyle {
    colour: Colour([0, 0, 0]),
    width: 0.35,
    dashes: &[],
};

/// Creased, the drawn face inwards. Two such lines 1 mm apart can still be distinguished from one thick line.
// Source: Okabe and Ito, reddish purple; dashes for valleys by the custom of folding diagrams.
pub const CREASING: LineStyle = LineStyle {
    colour: Colour([0xCC, 0x79, 0xA7]),
    width: 0.3,
    dashes: &[2.4, 1.2],
};

/// Creased, the drawn face outwards.
// Source: Okabe and Ito, bluish green; dash and dot for mountains by the custom of folding diagrams.
pub const REVERSE_CREASING: LineStyle = LineStyle {
    colour: Colour([0x00, 0x9E, 0x73]),
    width: 0.3,
    dashes: &[4.0, 1.0, 0.5, 1.0],
};

/// Perforated, the drawn face inwards: a row of short cuts, in the colour of such a crease.
pub const PERFORATING: LineStyle = LineStyle {
    dashes: &[2.0, 2.0],
    ..CREASING
};

/// Perforated, the drawn face outwards.
pub const REVERSE_PERFORATING: LineStyle = LineStyle {
    dashes: &[2.0, 2.0],
    ..REVERSE_CREASING
};

/// Not made at all: dimensions for the reader. Words in this grey have a contrast of 5.7 on white.
pub const DIMENSIONS: LineStyle = LineStyle {
    colour: Colour([0x66, 0x66, 0x66]),
    width: 0.18,
    dashes: &[],
};

/// As far as print reaches around a blank that is printed and then cut out.
// Source: Okabe and Ito, blue.
const BLEED: LineStyle = LineStyle {
    colour: Colour([0x00, 0x72, 0xB2]),
    width: 0.18,
    dashes: &[],
};

/// Words and bars beside the lines, if they have a layer.
const LEGEND: LineStyle = LineStyle {
    colour: INK,
    width: 0.25,
    dashes: &[],
};

/// A layer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// The lines of a processing step; an unknown step is drawn like the dimensions, so that no machine works along its
    /// lines.
    Step(ProcessingStep),
    /// As far as print reaches around the blank. No machine works along it.
    Bleed,
    /// The explanation of the lines, which a print shop switches off.
    Legend,
}

impl Colour {
    /// Its components in hexadecimal digits, as in `#CC79A7`.
    pub fn hex(self) -> String {
        let Colour([red, green, blue]) = self;
        format!("#{red:02X}{green:02X}{blue:02X}")
    }
}

impl Layer {
    /// All layers, in the order of lists.
    pub const ALL: [Layer; 8] = [
        Layer::Step(ProcessingStep::Cutting),
        Layer::Step(ProcessingStep::Creasing),
        Layer::Step(ProcessingStep::ReverseCreasing),
        Layer::Step(ProcessingStep::Perforating),
        Layer::Step(ProcessingStep::ReversePerforating),
        Layer::Step(ProcessingStep::Dimensions),
        Layer::Bleed,
        Layer::Legend,
    ];

    /// Its name, the same as that of the group in an SVG.
    // Source: ISO 19593-1, names of processing steps, in lower case with hyphens.
    pub fn name(self) -> &'static str {
        match self {
            Layer::Step(ProcessingStep::Cutting) => "cutting",
            Layer::Step(ProcessingStep::Creasing) => "creasing",
            Layer::Step(ProcessingStep::ReverseCreasing) => "reverse-creasing",
            Layer::Step(ProcessingStep::Perforating) => "perforating",
            Layer::Step(ProcessingStep::ReversePerforating) => "reverse-perforating",
            Layer::Step(_) => "dimensions",
            Layer::Bleed => "bleed",
            Layer::Legend => "legend",
        }
    }

    /// The style of its lines; lines of a legend are also drawn in the patterns that they explain.
    pub fn look(self) -> LineStyle {
        match self {
            Layer::Step(ProcessingStep::Cutting) => CUTTING,
            Layer::Step(ProcessingStep::Creasing) => CREASING,
            Layer::Step(ProcessingStep::ReverseCreasing) => REVERSE_CREASING,
            Layer::Step(ProcessingStep::Perforating) => PERFORATING,
            Layer::Step(ProcessingStep::ReversePerforating) => REVERSE_PERFORATING,
            Layer::Step(_) => DIMENSIONS,
            Layer::Bleed => BLEED,
            Layer::Legend => LEGEND,
        }
    }

    /// The style of its toolpaths: each cut of a perforated crease is a line of its own, and solid.
    pub fn toolpath_look(self) -> LineStyle {
        match self {
            Layer::Step(ProcessingStep::Perforating | ProcessingStep::ReversePerforating) => {
                LineStyle {
                    dashes: &[],
                    ..self.look()
                }
            }
            _ => self.look(),
        }
    }

    /// The group of processing steps that it belongs to, and its type if the group has types.
    // Source: ISO 19593-1 as in the PDF Association's grammar: Structural has types, Dimensions and Legend have none.
    pub fn processing_step(self) -> (&'static str, Option<&'static str>) {
        match self {
            Layer::Step(ProcessingStep::Cutting) => ("Structural", Some("Cutting")),
            Layer::Step(ProcessingStep::Creasing) => ("Structural", Some("Creasing")),
            Layer::Step(ProcessingStep::ReverseCreasing) => ("Structural", Some("ReverseCreasing")),
            Layer::Step(ProcessingStep::Perforating | ProcessingStep::ReversePerforating) => {
                ("Structural", Some("Perforating"))
            }
            Layer::Step(_) => ("Dimensions", None),
            Layer::Bleed => ("Structural", Some("Bleed")),
            Layer::Legend => ("Legend", None),
        }
    }

    /// The name of its ink: a spot colour of its own, so that a print shop gets a plate per step.
    // Source: ISO 19593-1, names of processing steps; tests/facts/paper.md N7: not All, None, or one of the colours of
    // printing.
    pub fn ink(self) -> &'static str {
        let (group, step_type) = self.processing_step();
        match self {
            // The standard has one type for both, and each layer has an ink of its own.
            Layer::Step(ProcessingStep::ReversePerforating) => "ReversePerforating",
            _ => step_type.unwrap_or(group),
        }
    }
}
