//! Libraries named as exporters: `libtraywright_NAME.so`, with the platform's prefix and suffix.
//!
//! **Does not** open the library.

use std::env::consts::{DLL_PREFIX, DLL_SUFFIX};
use std::path::{Path, PathBuf};

/// A library whose name is that of an exporter.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct ExporterFile {
    /// The name in the name of its file.
    pub(crate) name: String,
    /// The file.
    pub(crate) path: PathBuf,
}

/// The NAME in `libtraywright_NAME.so`: ASCII letters, digits, `-` and `_`.
pub(crate) fn name_of(library: &Path) -> Option<&str> {
    let name = library
        .file_name()?
        .to_str()?
        .strip_prefix(DLL_PREFIX)?
        .strip_prefix("traywright_")?
        .strip_suffix(DLL_SUFFIX)?;
    let plain = |letter: char| letter.is_ascii_alphanumeric() || letter == '-' || letter == '_';
    (!name.is_empty() && name.chars().all(plain)).then_some(name)
}
