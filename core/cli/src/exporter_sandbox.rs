//! What a child gives up before it loads an exporter's library.
//!
//! **Input:** the library, a font that the job names, and the process that started the child. **Output:** the two
//! streams of the child, out of the library's reach, and the restrictions that are in force. On Linux they are the most
//! that the kernel offers; on other systems the library keeps the rights of its user. **Does not** load the library.

#[cfg(target_os = "linux")]
mod calls;
#[cfg(target_os = "linux")]
mod reading;

use std::fmt;
use std::fs::File;
use std::io;
use std::path::PathBuf;

use serde::{Deserialize, Serialize};

/// What a child needs to know before it loads the library.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Needs {
    /// The library.
    pub(crate) library: PathBuf,
    /// The process that started the child.
    pub(crate) parent: u32,
    /// A font that the library may read.
    pub(crate) font: Option<PathBuf>,
}

/// Something that a library cannot do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) enum Restriction {
    /// It reads its own file, the libraries of the system and the font of the job.
    ReadsOnlyItsLibraries,
    /// It creates, changes and removes no file.
    WritesNothing,
    /// It opens no socket.
    NoNetwork,
    /// It starts no process, and neither sends a signal to another one nor traces it.
    NoOtherProcesses,
}

/// The restrictions in force.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Restrictions(Vec<Restriction>);

impl fmt::Display for Restrictions {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        let words = self.0.iter().map(|restriction| match restriction {
            Restriction::ReadsOnlyItsLibraries => "reads only its libraries",
            Restriction::WritesNothing => "writes nothing",
            Restriction::NoNetwork => "no network",
            Restriction::NoOtherProcesses => "no other processes",
        });
        let words: Vec<&str> = words.collect();
        match words.is_empty() {
            true => write!(to, "runs with your rights"),
            false => write!(to, "{}", words.join("; ")),
        }
    }
}

/// The streams for requests and for answers, and the restrictions in force.
pub(crate) type Confined = (File, File, Restrictions);

/// Moves both streams out of the library's reach, and gives up every right that the library does not need.
///
/// # Errors
/// If the system refuses one of the steps that every system has, or if the program has ended already.
#[cfg(unix)]
pub(crate) fn confine(needs: &Needs) -> io::Result<Confined> {
    use rustix::io::fcntl_dupfd_cloexec;
    use rustix::stdio;

    #[cfg(target_os = "linux")]
    die_with(needs.parent)?;
    let input = fcntl_dupfd_cloexec(stdio::stdin(), 3)?;
    stdio::dup2_stdin(File::open("/dev/null")?)?;
    let answers = fcntl_dupfd_cloexec(stdio::stdout(), 3)?;
    stdio::dup2_stdout(stdio::stderr())?;
    limit()?;
    Ok((input.into(), answers.into(), restrict(needs)))
}

/// On other systems the library's own printing would spoil the answer, which is then refused.
#[cfg(windows)]
pub(crate) fn confine(_needs: &Needs) -> io::Result<Confined> {
    use std::os::windows::io::AsHandle;

    let input = io::stdin().as_handle().try_clone_to_owned()?;
    let answers = io::stdout().as_handle().try_clone_to_owned()?;
    Ok((input.into(), answers.into(), Restrictions::default()))
}

/// The kernel ends this process when its parent ends, also while the library hangs in its constructor.
#[cfg(target_os = "linux")]
fn die_with(parent: u32) -> io::Result<()> {
    use rustix::process::{Signal, getppid, set_parent_process_death_signal};

    set_parent_process_death_signal(Some(Signal::KILL))?;
    // A parent that ended before the line above sends no signal any more.
    let parent_now = getppid().map(|parent| parent.as_raw_pid());
    match parent_now.and_then(|number| u32::try_from(number).ok()) == Some(parent) {
        true => Ok(()),
        false => Err(io::Error::other("the program has ended")),
    }
}

/// Limits what the process may use. A smaller limit of the shell stays.
#[cfg(unix)]
fn limit() -> io::Result<()> {
    use rustix::process::{Resource, Rlimit, getrlimit, setrlimit};

    /// Address space in bytes. Common practice, none published: a booklet of 400 pages takes a fifth of it.
    #[cfg(not(target_os = "openbsd"))]
    const MEMORY: u64 = 512 * 1024 * 1024;
    /// Open files. Common practice, none published: loading a library needs two at a time.
    const OPEN_FILES: u64 = 64;

    let lower = |resource: Resource, most: u64| -> io::Result<()> {
        let now = getrlimit(resource);
        let most = [now.current, now.maximum]
            .into_iter()
            .flatten()
            .fold(most, u64::min);
        let limit = Rlimit {
            current: Some(most),
            maximum: Some(most),
        };
        Ok(setrlimit(resource, limit)?)
    };
    lower(Resource::Core, 0)?;
    lower(Resource::Fsize, 0)?;
    lower(Resource::Nofile, OPEN_FILES)?;
    #[cfg(not(target_os = "openbsd"))]
    lower(Resource::As, MEMORY)?;
    Ok(())
}

/// Takes what the kernel offers; an old kernel offers less.
#[cfg(target_os = "linux")]
fn restrict(needs: &Needs) -> Restrictions {
    let files = reading::restrict(needs).unwrap_or_default();
    let calls = match calls::restrict() {
        Ok(()) => vec![
            Restriction::WritesNothing,
            Restriction::NoNetwork,
            Restriction::NoOtherProcesses,
        ],
        Err(_) => Vec::new(),
    };
    let mut restrictions = files;
    restrictions.extend(calls);
    restrictions.dedup();
    Restrictions(restrictions)
}

#[cfg(all(unix, not(target_os = "linux")))]
fn restrict(_needs: &Needs) -> Restrictions {
    Restrictions::default()
}
