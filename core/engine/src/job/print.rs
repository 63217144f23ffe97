//! A line `print` of the job: a picture to print on a panel.

use traywright_document::{PngFile, Turn};

use crate::finding::SourceSpan;

/// How large a picture is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PictureFit {
    /// So large that it covers its panel; what is too much is cut off.
    #[default]
    Cover,
    /// So large that all of it lies in the free rectangle in which it can be largest.
    Inside,
}

/// A picture to print on a panel.
#[derive(Clone, Debug, PartialEq)]
pub struct Print {
    /// Its file, from where the job lies.
    pub image: String,
    /// Name of the panel.
    pub panel: String,
    /// How large it is.
    pub fit: PictureFit,
    /// How far it is turned, as the viewer sees it.
    pub turn: Turn,
    /// What a front end read from its file; none until then.
    pub picture: Option<Picture>,
    /// The source span of the file's name.
    pub place: SourceSpan,
    /// The source span of the panel's name.
    pub panel_place: SourceSpan,
}

/// The content of a picture's file.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// The file.
    pub file: PngFile,
    /// Its width and height in pixels.
    pub pixels: [u32; 2],
}

impl Print {
    /// A picture on a panel, with defaults for all else.
    pub fn plain(image: &str, panel: &str) -> Print {
        Print {
            image: image.to_owned(),
            panel: panel.to_owned(),
            fit: PictureFit::Cover,
            turn: Turn::None,
            picture: None,
            place: 0..0,
            panel_place: 0..0,
        }
    }
}
