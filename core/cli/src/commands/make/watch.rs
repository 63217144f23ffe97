//! `make --watch`: the files are made again whenever something that they come from is saved.
//!
//! **Input:** the call, and the saves of its jobs, styles and fonts. **Output:** the files after each save, all or none,
//! and one screen with the last result. An error is shown and waits to be mended. Ctrl-C ends the command between two
//! results, and its exit code is that of the last one. The exporters stay loaded, and so do styles that were not saved.

use std::collections::HashSet;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{self, Receiver, RecvTimeoutError};
use std::time::{Duration, Instant};

use traywright_job::checked_job::Checker;
use traywright_job::report::sentence::paragraph;

use super::batch::Batch;
use super::{chosen, jobs_with_equal_stems};
use crate::Verdict;
use crate::args::{GlobalOptions, MakeArguments};
use crate::error::CliError;
use crate::exporter_file::ExporterFile;
use crate::exporter_pool::ExporterPool;
use crate::interrupt;
use crate::report::Output;
use crate::style_folders::styles;
use crate::watching::Watcher;

/// An editor that saves in several moves is done when nothing happens for so long. Common practice, none published.
const QUIET: Duration = Duration::from_millis(5);

/// A folder in which saves never end is not waited for longer than this.
const LONGEST_WAIT: Duration = Duration::from_millis(100);

/// What happened while the command waited.
enum Event {
    /// A file was saved.
    Saved(PathBuf),
    /// The maker wants the command to end.
    End,
}

/// What to do next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Next {
    Make,
    /// Make, with styles that are read again.
    ReadStyles,
    End,
}

/// The files that matter, and where news of them come from.
struct Watch<'a> {
    watcher: Watcher,
    events: Receiver<Event>,
    files: HashSet<PathBuf>,
    style_folders: &'a [PathBuf],
}

/// Makes the files until the maker ends the command.
pub(super) fn run(
    asked: &MakeArguments,
    everywhere: &GlobalOptions,
    output: &Output,
) -> Result<Verdict, Vec<CliError>> {
    let exporters = exporters(asked, everywhere)?;
    let pool = ExporterPool::new(&exporters, asked.files.patience.exporter_seconds);
    pool.warm_up();
    let mut watch = Watch::start(&everywhere.styles)?;
    watch.follow(&asked.jobs)?;
    let mut last = Verdict::ErrorsTold;
    loop {
        let styles = match styles(&everywhere.styles) {
            Ok(styles) => styles,
            Err(error) => {
                output.begin_screen();
                output.errors(&[error]);
                output.print_info(&waits(&asked.jobs));
                match watch.next() {
                    Next::End => return Ok(Verdict::ErrorsTold),
                    Next::Make | Next::ReadStyles => continue,
                }
            }
        };
        let checker = Checker::new(&styles);
        loop {
            output.begin_screen();
            let mut batch = Batch::new(asked, &everywhere.styles, &checker, &pool, *output);
            // The children stay for the next save.
            last = match batch.run(Vec::new(), Vec::new) {
                Ok(verdict) => verdict,
                Err(_) if interrupt::asked() => return Ok(last),
                Err(errors) => {
                    output.errors(&errors);
                    Verdict::ErrorsTold
                }
            };
            // A folder of a font that is not there has told its error already.
            let _ = watch.follow(&batch.fonts);
            output.print_info(&waits(&asked.jobs));
            // After a crash the next save finds a new child ready.
            pool.warm_up();
            match watch.next() {
                Next::Make => {}
                Next::ReadStyles => break,
                Next::End => return Ok(last),
            }
        }
    }
}

/// The exporters of the call, if no two of its jobs have files of one name.
fn exporters(
    asked: &MakeArguments,
    everywhere: &GlobalOptions,
) -> Result<Vec<ExporterFile>, Vec<CliError>> {
    let equal = jobs_with_equal_stems(&asked.jobs);
    match equal.is_empty() {
        true => chosen(&asked.files.formats, &everywhere.plugins),
        false => Err(equal),
    }
}

impl<'a> Watch<'a> {
    fn start(style_folders: &'a [PathBuf]) -> Result<Self, CliError> {
        let (sender, events) = mpsc::channel();
        let end = sender.clone();
        interrupt::listen(move || drop(end.send(Event::End)));
        let cannot = |error: std::io::Error| {
            CliError::sentence(format_args!("the system watches no files: {error}"))
        };
        let saved = move |path| drop(sender.send(Event::Saved(path)));
        let watch = Watch {
            watcher: Watcher::start(saved).map_err(cannot)?,
            events,
            files: HashSet::new(),
            style_folders,
        };
        for folder in style_folders {
            watch.add(folder)?;
        }
        Ok(watch)
    }

    fn add(&self, folder: &Path) -> Result<(), CliError> {
        self.watcher.add(folder).map_err(|error| {
            let shown = match folder.as_os_str().is_empty() {
                true => Path::new("."),
                false => folder,
            };
            CliError::sentence(format_args!(
                "the folder {} cannot be watched: {error}",
                shown.display()
            ))
        })
    }

    /// Watches files by their folders, because a new file that is renamed over the old one is another file. A link and
    /// the file that it leads to both count.
    fn follow(&mut self, files: &[PathBuf]) -> Result<(), CliError> {
        for file in files {
            let itself = file.canonicalize().ok();
            for path in [Some(file.clone()), itself].into_iter().flatten() {
                self.add(path.parent().unwrap_or(Path::new("")))?;
                self.files.insert(path);
            }
        }
        Ok(())
    }

    /// Waits until something that matters is saved and the saving is over.
    fn next(&self) -> Next {
        loop {
            let next = match self.events.recv() {
                Ok(Event::Saved(path)) => self.matters(&path),
                Ok(Event::End) | Err(_) => Some(Next::End),
            };
            match next {
                None => {}
                Some(Next::End) => return Next::End,
                Some(next) => return self.settled(next),
            }
        }
    }

    fn matters(&self, path: &Path) -> Option<Next> {
        let is_style = path.extension().is_some_and(|ending| ending == "ron")
            && self
                .style_folders
                .iter()
                .any(|folder| path.parent() == Some(folder));
        match (is_style, self.files.contains(path)) {
            (true, _) => Some(Next::ReadStyles),
            (false, true) => Some(Next::Make),
            (false, false) => None,
        }
    }

    /// Waits until nothing more is saved.
    fn settled(&self, mut next: Next) -> Next {
        let end = Instant::now() + LONGEST_WAIT;
        while Instant::now() < end {
            match self.events.recv_timeout(QUIET) {
                Ok(Event::Saved(path)) if self.matters(&path) == Some(Next::ReadStyles) => {
                    next = Next::ReadStyles;
                }
                Ok(Event::Saved(_)) => {}
                Ok(Event::End) => return Next::End,
                Err(RecvTimeoutError::Timeout | RecvTimeoutError::Disconnected) => return next,
            }
        }
        next
    }
}

/// What the command waits for.
fn waits(jobs: &[PathBuf]) -> String {
    let jobs = match jobs {
        [job] => format!("Watching {}: save it", job.display()),
        jobs => format!("Watching {} jobs: save one", jobs.len()),
    };
    paragraph("", &format!("{jobs} to make the files again; Ctrl-C ends."))
}
