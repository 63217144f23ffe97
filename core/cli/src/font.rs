//! The font file that a job names.
//!
//! **Input:** the job's path, and the job with its font as written. **Output:** the job with a font that the exporters
//! can open. **Errors:** a file that cannot be read or is not a TrueType font, at its position in the job.

use std::fs::{self, File};
use std::io::{ErrorKind, Read};
use std::path::Path;

use traywright_engine::{Job, SourceError};

/// The first bytes of files with TrueType outlines: one font, one font of an older kind, several fonts.
// Source: OpenType 1.9, "Table directory" and "Font collections"; `true` is from the TrueType reference of 1990.
const TRUE_TYPE: [[u8; 4]; 3] = [[0, 1, 0, 0], *b"true", *b"ttcf"];

/// Resolves the path of the job's font relative to the job's folder, whatever folder the program runs in.
pub(crate) fn find_beside(job_path: &Path, job: &mut Job) -> Result<(), Box<SourceError>> {
    let Some(font) = &mut job.output.paper.page_mut().font else {
        return Ok(());
    };
    let path = job_path.with_file_name(&*font);
    if let Err(why) = check(&path) {
        let place = job.font_place.clone().unwrap_or_default();
        let title = format!("the font `{font}` cannot be used");
        let fault = SourceError::new(place, title, why)
            .with_hint("a font is a TrueType file, named from where the job lies");
        return Err(Box::new(fault));
    }
    *font = path.display().to_string();
    Ok(())
}

fn check(path: &Path) -> Result<(), String> {
    let shown = path.display();
    let unreadable = |error: std::io::Error| match error.kind() {
        ErrorKind::NotFound => format!("there is no file {shown}"),
        ErrorKind::PermissionDenied => format!("{shown} may not be read"),
        _ => format!("{shown} cannot be read: {error}"),
    };
    let about = fs::metadata(path).map_err(unreadable)?;
    if about.is_dir() {
        return Err(format!("{shown} is a folder"));
    }
    // A pipe would block its reader.
    if !about.is_file() {
        return Err(format!("{shown} is no file"));
    }
    let mut first = [0; 4];
    let read = File::open(path).and_then(|mut file| file.read_exact(&mut first));
    match read {
        Ok(()) if TRUE_TYPE.contains(&first) => Ok(()),
        Err(error) if error.kind() != ErrorKind::UnexpectedEof => Err(unreadable(error)),
        _ => Err(format!("{shown} is no TrueType font")),
    }
}
