//! Warm exporters: children that stay between documents, lent to one document at a time.
//!
//! **Input:** exporters, and documents from any thread. **Output:** the files of each document. At most as
//! many exports run side by side as there are cores, so that the time limit of each means the same in every call. If an
//! exporter crashes or takes too long, that document gets no files from it; the next document gets a new child. **Does not** write files.

use std::io;
use std::panic::resume_unwind;
use std::path::{Path, PathBuf};
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::thread::{self, ScopedJoinHandle};
use std::time::Duration;

use traywright_document::plugin_api::Exported;
use traywright_document::{Document, wire};

use crate::exporter_file::ExporterFile;
use crate::exporter_host::{ExporterError, Running};
use crate::side_by_side::cores;

/// A document as exporters receive it.
#[derive(Clone, Debug)]
pub(crate) struct EncodedDocument {
    bytes: Vec<u8>,
    /// The font that its exporters read.
    font: Option<PathBuf>,
}

impl From<&Document> for EncodedDocument {
    fn from(document: &Document) -> Self {
        EncodedDocument {
            bytes: wire::encode(document),
            font: document
                .output
                .paper
                .page()
                .font
                .as_ref()
                .map(PathBuf::from),
        }
    }
}

/// The exporters of a call.
#[derive(Debug)]
pub(crate) struct ExporterPool<'a> {
    exporters: &'a [ExporterFile],
    time_limit: Duration,
    /// The children that wait for a document, by exporter.
    idle: Mutex<Vec<Vec<Running>>>,
    /// How many more documents may be exported now.
    free: Mutex<usize>,
    freed: Condvar,
}

impl<'a> ExporterPool<'a> {
    /// A pool that has started no child yet.
    pub(crate) fn new(exporters: &'a [ExporterFile], time_limit: Duration) -> Self {
        ExporterPool {
            exporters,
            time_limit,
            idle: Mutex::new(exporters.iter().map(|_| Vec::new()).collect()),
            free: Mutex::new(cores()),
            freed: Condvar::new(),
        }
    }

    /// The exporters in the order in which they were asked for.
    pub(crate) fn exporters(&self) -> &'a [ExporterFile] {
        self.exporters
    }

    /// Starts a child for each exporter without one, so that its library is loaded while a tray is checked.
    pub(crate) fn warm_up(&self) {
        for (number, exporter) in self.exporters.iter().enumerate() {
            if self.idle()[number].is_empty() {
                // One that cannot be started is reported when a document needs it.
                let started = Running::start(exporter, None, self.time_limit);
                self.idle()[number].extend(started);
            }
        }
    }

    /// The files of one encoded document from the exporter with this number.
    ///
    /// # Refuses
    /// An exporter that cannot be started, refuses the document, crashes, takes too long or gives an invalid answer.
    pub(crate) fn export(
        &self,
        exporter: usize,
        document: &EncodedDocument,
    ) -> Result<Exported, ExporterError> {
        let _turn = self.turn();
        let (file, font) = (&self.exporters[exporter], document.font.as_deref());
        let mut child = match self.waiting(exporter, font) {
            Some(child) => child,
            None => Running::start(file, font, self.time_limit)
                .map_err(|cause| ExporterError::new(file, cause))?,
        };
        let exported = child.export(&document.bytes);
        if child.is_running() {
            self.idle()[exporter].push(child);
        }
        exported.map_err(|failure| ExporterError::new(file, failure))
    }

    /// A child that waits and may read the font. If only others wait, one of them is stopped, so that a call with many
    /// fonts does not fill the memory with children.
    fn waiting(&self, exporter: usize, font: Option<&Path>) -> Option<Running> {
        let mut idle = self.idle();
        let idle = &mut idle[exporter];
        match idle.iter().rposition(|child| child.is_for(font)) {
            Some(index) => Some(idle.remove(index)),
            None => {
                idle.pop();
                None
            }
        }
    }

    /// Work for each exporter, all side by side; the results are in the order of the exporters.
    pub(crate) fn each<Done: Send>(&self, work: impl Fn(usize) -> Done + Sync) -> Vec<Done> {
        let count = self.exporters.len();
        if count < 2 {
            return (0..count).map(work).collect();
        }
        let work = &work;
        thread::scope(|scope| {
            let start = |exporter| {
                let thread = thread::Builder::new();
                let started = thread.spawn_scoped(scope, move || work(exporter));
                (exporter, started)
            };
            let started: Vec<_> = (0..count).map(start).collect();
            let end = |(exporter, started): (usize, io::Result<ScopedJoinHandle<'_, Done>>)| {
                match started.map(ScopedJoinHandle::join) {
                    Ok(Ok(done)) => done,
                    Ok(Err(panic)) => resume_unwind(panic),
                    // Without a thread of its own the work runs here.
                    Err(_) => work(exporter),
                }
            };
            started.into_iter().map(end).collect()
        })
    }

    /// Ends all children, side by side, and returns what went wrong at the end, in the order of the exporters.
    pub(crate) fn finish(&self) -> Vec<ExporterError> {
        let mut children: Vec<Vec<Running>> = self.idle().iter_mut().map(std::mem::take).collect();
        children.iter_mut().flatten().for_each(Running::close);
        let mut errors = Vec::new();
        for (exporter, children) in self.exporters.iter().zip(children) {
            let mut faults = children
                .into_iter()
                .filter_map(|child| child.finish().err());
            errors.extend(
                faults
                    .next()
                    .map(|cause| ExporterError::new(exporter, cause)),
            );
        }
        errors
    }

    fn idle(&self) -> MutexGuard<'_, Vec<Vec<Running>>> {
        self.idle.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Waits until a core is free for a document.
    fn turn(&self) -> Turn<'_> {
        let free = self.free.lock().unwrap_or_else(PoisonError::into_inner);
        let free = self.freed.wait_while(free, |free| *free == 0);
        *free.unwrap_or_else(PoisonError::into_inner) -= 1;
        Turn {
            free: &self.free,
            freed: &self.freed,
        }
    }
}

/// The right to export one document now.
struct Turn<'a> {
    free: &'a Mutex<usize>,
    freed: &'a Condvar,
}

impl Drop for Turn<'_> {
    fn drop(&mut self) {
        *self.free.lock().unwrap_or_else(PoisonError::into_inner) += 1;
        self.freed.notify_one();
    }
}
