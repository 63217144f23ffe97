//! The pixels of a picture.
//!
//! **Input:** a PNG file. **Output:** its pixels with red, green, blue and opacity, 8 bits each, row by row from the top.
//! **Errors:** a file that is damaged. Colours are taken as sRGB; a colour profile of the file is ignored.

use std::io::Cursor;

use png::{ColorType, Transformations};
use traywright_document::{ExportError, PngFile};

/// The pixels of a picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pixels {
    /// Width and height.
    pub size: [usize; 2],
    /// Four bytes a pixel.
    pub rgba: Vec<u8>,
}

/// Reads a picture.
///
/// # Errors
/// A file that is damaged.
pub fn pixels(file: &PngFile) -> Result<Pixels, ExportError> {
    let damaged =
        |why: png::DecodingError| ExportError::Refused(format!("a picture cannot be read: {why}"));
    let mut decoder = png::Decoder::new(Cursor::new(&file.0));
    decoder.set_transformations(Transformations::normalize_to_color8() | Transformations::ALPHA);
    let mut reader = decoder.read_info().map_err(damaged)?;
    let length = reader.output_buffer_size().unwrap_or(0);
    let mut bytes = vec![0; length];
    let frame = reader.next_frame(&mut bytes).map_err(damaged)?;
    bytes.truncate(frame.buffer_size());
    let rgba = match frame.color_type {
        ColorType::GrayscaleAlpha => {
            let pairs = bytes.chunks_exact(2);
            pairs.flat_map(|it| [it[0], it[0], it[0], it[1]]).collect()
        }
        _ => bytes,
    };
    Ok(Pixels {
        size: [frame.width as usize, frame.height as usize],
        rgba,
    })
}
