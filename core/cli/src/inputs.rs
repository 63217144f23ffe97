//! The files that a call reads, which it never replaces.
//!
//! **Input:** the paths of files read, and the paths of files about to be written. **Errors:** a target that is one of
//! the inputs, by whatever path.

use std::collections::HashMap;
use std::path::{Path, PathBuf};

use crate::error::CliError;

/// Files that were read.
#[derive(Debug, Default)]
pub(crate) struct Inputs {
    files: Vec<InputFile>,
}

#[derive(Debug)]
struct InputFile {
    /// The kind of file, as in a sentence.
    kind: &'static str,
    path: PathBuf,
}

impl Inputs {
    /// Adds files of one kind.
    pub(crate) fn add<'a>(
        &mut self,
        kind: &'static str,
        paths: impl IntoIterator<Item = &'a Path>,
    ) {
        let of_kind = |path: &Path| InputFile {
            kind,
            path: path.to_owned(),
        };
        self.files.extend(paths.into_iter().map(of_kind));
    }

    /// Checks that no input would be replaced.
    ///
    /// # Errors
    /// A target that is an input, whether the same path, another path to it or a link names it.
    pub(crate) fn keep(&self, targets: &[PathBuf]) -> Result<(), CliError> {
        let mut inputs: HashMap<PathBuf, &InputFile> = HashMap::new();
        for input in &self.files {
            // The first one with a path is named.
            let itself = input.path.canonicalize();
            itself.into_iter().for_each(|itself| {
                inputs.entry(itself).or_insert(input);
            });
        }
        for target in targets {
            // A target that does not exist is not an input.
            let itself = target.canonicalize().ok();
            if let Some(input) = itself.and_then(|itself| inputs.get(&itself)) {
                return Err(would_replace(target, input));
            }
        }
        Ok(())
    }
}

fn would_replace(target: &Path, input: &InputFile) -> CliError {
    CliError::sentence(format_args!(
        "{} would replace the {} {}, which this call reads: rename it, or write into another folder with `--into DIR`",
        target.display(),
        input.kind,
        input.path.display()
    ))
}
