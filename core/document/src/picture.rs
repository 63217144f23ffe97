//! Pictures that are printed on panels, so that they stand upright in the finished tray.
//!
//! A picture lies on one face of the card, as a label does; its place is that of the flat frame, seen from the drawn
//! face, whichever face carries it. The file of a picture travels as it is.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::panel_label::PrintedFace;
use crate::plane::{Extent, Point, Vector};

/// The bytes of a PNG file. They travel as base64.
#[derive(Clone, PartialEq, Eq)]
pub struct PngFile(pub Vec<u8>);

/// Picture files may be long, so a dump gives their length alone.
impl std::fmt::Debug for PngFile {
    fn fmt(&self, to: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(to, "PngFile({} bytes)", self.0.len())
    }
}

impl PngFile {
    /// Its bytes as base64.
    pub fn base64(&self) -> String {
        STANDARD.encode(&self.0)
    }
}

impl Serialize for PngFile {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(&self.base64())
    }
}

impl<'de> Deserialize<'de> for PngFile {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        let bytes = STANDARD.decode(text).map_err(serde::de::Error::custom)?;
        Ok(PngFile(bytes))
    }
}

/// A picture on a panel.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PanelPicture {
    /// The file.
    pub file: PngFile,
    /// Index of the panel; on a sheet of stock, which has no panels, it is none of them.
    pub panel: usize,
    /// Middle of the whole picture.
    pub at: Point,
    /// From the foot of the picture to its top, one long.
    pub up: Vector,
    /// Width and height of the whole picture, of which only a part may show.
    pub size: [f64; 2],
    /// The face that carries it.
    pub printed_on: PrintedFace,
    /// What shows of it: rings of straight edges, of which an odd number lies around every point that shows.
    pub shown: Vec<Vec<Point>>,
}

impl PanelPicture {
    /// Whether a drawing of the drawn face has it.
    pub fn is_drawn(&self) -> bool {
        self.printed_on == PrintedFace::Drawn
    }

    /// The way from the left of the picture to its right, one long, seen from the drawn face.
    // Derived: whoever looks onto the far face sees left and right swapped.
    pub fn along(&self) -> Vector {
        match self.printed_on {
            PrintedFace::Drawn => self.up.right(),
            PrintedFace::Far => self.up.left(),
        }
    }

    /// Its lower left corner, and the ways along its whole width and its whole height.
    pub fn frame(&self) -> (Point, Vector, Vector) {
        let (across, up) = (self.along() * self.size[0], self.up * self.size[1]);
        (self.at + across * -0.5 + up * -0.5, across, up)
    }

    /// The upright rectangle around what shows of it.
    pub fn extent(&self) -> Extent {
        Extent::around(self.shown.iter().flatten().copied())
    }
}
