//! The picture files that a job names.
//!
//! **Input:** the job's path, and the job with its pictures as written. **Output:** the job with the bytes of its
//! pictures. **Errors:** a file that cannot be read, is too large, or is not a whole PNG, at its position in the job.
//! **Does not** fetch anything: a PNG holds all of its picture.

use std::fs::{self, File};
use std::io::{Cursor, ErrorKind, Read};
use std::path::Path;

use traywright_engine::job::{Picture, PngFile};
use traywright_engine::{Job, SourceError};

/// The largest file, in bytes, and the most pixels.
// Source: a choice of this project, stated in core/CONTRACT.md, "Pictures on panels": A4 at 300 pixels an inch has 8.7
// million.
const MOST_BYTES: u64 = 16 * 1024 * 1024;
const MOST_PIXELS: u64 = 12_000_000;
/// The first bytes of kinds of files that people may name.
// Source: PNG (ISO/IEC 15948) 5.2; JFIF (ITU-T T.871); PDF (ISO 32000-1) 7.5.2.
const PNG: &[u8] = b"\x89PNG\r\n\x1a\n";
const JPEG: &[u8] = &[0xff, 0xd8, 0xff];
const PDF: &[u8] = b"%PDF";

/// Reads the pictures of a job from beside it.
pub(crate) fn read_beside(job_path: &Path, job: &mut Job) -> Result<(), Vec<SourceError>> {
    let mut faults = Vec::new();
    for print in &mut job.prints {
        match read(&job_path.with_file_name(&print.image)) {
            Ok(picture) => print.picture = Some(picture),
            Err(why) => {
                let title = format!("the picture `{}` cannot be used", print.image);
                let fault = SourceError::new(print.place.clone(), title, why)
                    .with_hint("a picture is a PNG file, named from where the job lies");
                faults.push(fault);
            }
        }
    }
    if faults.is_empty() {
        Ok(())
    } else {
        Err(faults)
    }
}

fn read(path: &Path) -> Result<Picture, String> {
    let shown = path.display();
    let unreadable = |error: std::io::Error| match error.kind() {
        ErrorKind::NotFound => format!("there is no file {shown}"),
        ErrorKind::PermissionDenied => format!("{shown} may not be read"),
        _ => format!("{shown} cannot be read: {error}"),
    };
    let about = fs::metadata(path).map_err(unreadable)?;
    // A pipe would block its reader.
    if !about.is_file() {
        return Err(format!("{shown} is no file"));
    }
    let mut bytes = Vec::new();
    let mut file = File::open(path).map_err(unreadable)?.take(MOST_BYTES + 1);
    file.read_to_end(&mut bytes).map_err(unreadable)?;
    if bytes.len() as u64 > MOST_BYTES {
        return Err(format!(
            "{shown} is larger than 16 MiB: save it with fewer pixels; 300 an inch are enough"
        ));
    }
    let kind = |name: &str| {
        format!(
            "{shown} is {name}: save the picture as PNG, with 300 pixels an inch at the size of its panel"
        )
    };
    match bytes.as_slice() {
        it if it.starts_with(PNG) => {}
        it if it.starts_with(JPEG) => return Err(kind("a JPEG")),
        it if it.starts_with(PDF) => return Err(kind("a PDF")),
        it if is_svg(it) => return Err(kind("an SVG")),
        _ => return Err(kind("no PNG")),
    }
    let pixels = whole(&bytes).map_err(|why| format!("{shown} {why}"))?;
    Ok(Picture {
        file: PngFile(bytes),
        pixels,
    })
}

fn is_svg(bytes: &[u8]) -> bool {
    let first = &bytes[..bytes.len().min(1024)];
    first.windows(4).any(|word| word == b"<svg")
}

/// The size of a picture all of whose pixels can be read.
fn whole(bytes: &[u8]) -> Result<[u32; 2], String> {
    let broken = |why: png::DecodingError| format!("is damaged: {why}");
    let mut reader = png::Decoder::new(Cursor::new(bytes))
        .read_info()
        .map_err(broken)?;
    let (width, height) = (reader.info().width, reader.info().height);
    if u64::from(width) * u64::from(height) > MOST_PIXELS {
        return Err(format!(
            "has {width} × {height} pixels; a picture has at most 12 million, as A4 has at 350 pixels an inch: save it with fewer"
        ));
    }
    while reader.next_row().map_err(broken)?.is_some() {}
    Ok([width, height])
}
