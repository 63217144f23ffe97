//! The child: the only process that ever loads an exporter's library.
//!
//! **Input:** the path of a library, and requests on standard input. **Output:** answers on standard output in frames,
//! until the input ends. Before the library is loaded, [`confine`] takes from it whatever it does not need.
//! Never writes a file and never checks the exporter's files: the program does. If the child dies, the program reports
//! it.

#![allow(unsafe_code)]

use std::ffi::{CStr, OsString, c_char, c_void};
use std::fs::File;
use std::io::{self, Write};
use std::mem::size_of;
use std::path::{Path, PathBuf};
use std::process;
use std::slice;
use std::sync::mpsc::{self, Receiver};
use std::thread;
use std::time::Duration;

use libloading::Library;
use traywright_document::SCHEMA;
use traywright_document::plugin_api::{Export, ExporterDescriptor, SYMBOL, is_suffix};

use crate::exporter_file::name_of;
use crate::exporter_protocol::{self as frames, Description, Frame, MessageKind};
use crate::exporter_sandbox::{Needs, Restrictions, confine};

/// The first word of the command line that makes the program a child.
const CALL: &str = "__exporter";

/// More than any document needs.
const LONGEST_REQUEST: u64 = 256 * 1024 * 1024;

/// Time for a library to end after the program has stopped listening.
const GRACE: Duration = Duration::from_secs(2);

/// Maximum length of an exporter's words; the rest is cut off.
const LONGEST_WORDS: usize = 2000;

/// The words of the command line that make the program a child with these needs.
pub(crate) fn call(needs: &Needs) -> Vec<OsString> {
    let mut words = vec![CALL.into(), needs.parent.to_string().into()];
    words.push(needs.library.clone().into());
    words.extend(needs.font.clone().map(OsString::from));
    words
}

/// Serves one library until the input ends if the command line is that of a child; otherwise returns.
pub(crate) fn serve_if_called(typed: &[OsString]) {
    let [_, call, parent, library, font @ ..] = typed else {
        return;
    };
    if call != CALL {
        return;
    }
    let needs = Needs {
        library: library.into(),
        parent: parent
            .to_str()
            .and_then(|number| number.parse().ok())
            .unwrap_or_default(),
        font: font.first().map(PathBuf::from),
    };
    let error = match confine(&needs) {
        Ok((input, answers, restrictions)) => serve(&needs.library, input, answers, &restrictions),
        Err(error) => error,
    };
    // These are its last words, which the program prints.
    let _ = writeln!(
        io::stderr(),
        "the process for it cannot be prepared: {error}"
    );
    process::exit(2);
}

/// Returns only if it cannot begin. Ends the process itself: the library must stay loaded and the answers open until
/// the exit code is decided.
fn serve(library: &Path, input: File, mut answers: File, restrictions: &Restrictions) -> io::Error {
    let requests = match begin(input, &mut answers, restrictions) {
        Ok(requests) => requests,
        Err(error) => return error,
    };
    let answers = &mut answers;
    let exporter = Exporter::load(library);
    for request in requests {
        let outcome = match (&exporter, request.kind) {
            (Err(refused), _) => refused.tell(answers),
            (Ok(exporter), MessageKind::Describe) => exporter.describe(answers),
            (Ok(exporter), MessageKind::Document) => exporter.export(&request.bytes, answers),
            _ => break,
        };
        if outcome.is_err() {
            break;
        }
    }
    process::exit(0);
}

/// Tells the restrictions before the library can lie about them, and begins to listen.
fn begin(
    input: File,
    answers: &mut File,
    restrictions: &Restrictions,
) -> io::Result<Receiver<Frame>> {
    let json = serde_json::to_vec(restrictions)?;
    frames::write(answers, MessageKind::Restrictions, [&json, &[]])?;
    requests(input)
}

/// Reads requests as they come. When the input ends, nobody is listening, so a library that is still working shortly
/// afterwards must not outlive the program.
fn requests(mut input: File) -> io::Result<Receiver<Frame>> {
    let (sender, receiver) = mpsc::channel();
    thread::Builder::new().spawn(move || {
        while let Ok(request) = frames::read(&mut input, LONGEST_REQUEST) {
            if sender.send(request).is_err() {
                break;
            }
        }
        drop(sender);
        thread::sleep(GRACE);
        process::abort();
    })?;
    Ok(receiver)
}

/// A library that may be called.
struct Exporter {
    /// Stays loaded, because code left running by the exporter may still use it.
    _library: Library,
    description: Description,
    export: Export,
}

/// A library that may not be called.
struct Refused {
    known: Option<Description>,
    fault: String,
}

impl Exporter {
    fn load(path: &Path) -> Result<Self, Refused> {
        // SAFETY: the library's constructors run here. They are foreign code that nobody can vouch for; this process
        // exists so that they can harm nothing else.
        let library = unsafe { Library::new(path) }.map_err(|error| cannot_load(&error))?;
        // SAFETY: the type is the one that the door asks of this symbol; a library that breaks it harms this process.
        let symbol =
            unsafe { library.get::<unsafe extern "C" fn() -> *const ExporterDescriptor>(SYMBOL) };
        let Ok(symbol) = symbol else {
            return Err(refused(format!(
                "has no symbol `{SYMBOL}`, so it is no exporter"
            )));
        };
        // SAFETY: as above.
        let descriptor = unsafe { symbol() };
        let (description, export) = read(descriptor, name_of(path))?;
        Ok(Exporter {
            description,
            export,
            _library: library,
        })
    }

    fn describe(&self, answers: &mut File) -> io::Result<()> {
        tell_description(&self.description, answers)?;
        end(0, answers)
    }

    fn export(&self, document: &[u8], answers: &mut File) -> io::Result<()> {
        let mut call = Call {
            answers,
            fault: None,
        };
        let ctx: *mut Call = &mut call;
        // SAFETY: the document and the call outlive the exporter's function, which the door forbids to keep either.
        let code =
            unsafe { (self.export)(document.as_ptr(), document.len(), emit, say, ctx.cast()) };
        let Call { answers, fault } = call;
        if let Some(fault) = fault {
            frames::write(answers, MessageKind::SourceError, [fault.as_bytes(), &[]])?;
        }
        end(code, answers)
    }
}

impl Refused {
    fn tell(&self, answers: &mut File) -> io::Result<()> {
        if let Some(known) = &self.known {
            tell_description(known, answers)?;
        }
        frames::write(
            answers,
            MessageKind::SourceError,
            [self.fault.as_bytes(), &[]],
        )?;
        end(1, answers)
    }
}

fn tell_description(description: &Description, answers: &mut File) -> io::Result<()> {
    let json = serde_json::to_vec(description)?;
    frames::write(answers, MessageKind::Description, [&json, &[]])
}

fn end(code: i32, answers: &mut File) -> io::Result<()> {
    frames::write(answers, MessageKind::End, [&code.to_le_bytes(), &[]])
}

/// Reads a descriptor: schema and size first, the rest only when both are as expected.
fn read(
    descriptor: *const ExporterDescriptor,
    name_of_file: Option<&str>,
) -> Result<(Description, Export), Refused> {
    if descriptor.is_null() || !descriptor.is_aligned() {
        return Err(refused("gives no description of itself".to_owned()));
    }
    let head = descriptor.cast::<u32>();
    // SAFETY: every descriptor of every schema begins with these two numbers.
    let (schema, size) = unsafe { (head.read(), head.add(1).read()) };
    let mut known = Description {
        schema,
        suffix: None,
    };
    let fault = |known: &Description, fault: String| Refused {
        known: Some(known.clone()),
        fault,
    };
    if schema != SCHEMA {
        return Err(fault(&known, other_schema(schema)));
    }
    if (size as usize) < size_of::<ExporterDescriptor>() {
        let least = size_of::<ExporterDescriptor>();
        let words = format!("gives a description of {size} bytes, where {least} are the least");
        return Err(fault(&known, words));
    }
    // SAFETY: schema and size say that the whole descriptor is there, and it lives as long as the library.
    let descriptor = unsafe { &*descriptor };
    // SAFETY: with this schema both are null or lead to texts that end with a zero byte and live as long.
    let (name, suffix) = unsafe { (text(descriptor.name), text(descriptor.suffix)) };
    known.suffix = suffix.filter(|suffix| is_suffix(suffix));
    if known.suffix.is_none() {
        return Err(fault(&known, "names no suffix of a file".to_owned()));
    }
    if name.as_deref() != name_of_file {
        let name = name.unwrap_or_default();
        let words = format!("calls itself `{name}`: rename the file or the exporter");
        return Err(fault(&known, words));
    }
    match descriptor.export {
        Some(export) => Ok((known, export)),
        None => Err(fault(&known, "has no function that exports".to_owned())),
    }
}

fn refused(fault: String) -> Refused {
    Refused { known: None, fault }
}

fn cannot_load(error: &libloading::Error) -> Refused {
    // The reason is the source alone; the error itself says only that loading failed.
    let reason = match std::error::Error::source(error) {
        Some(source) => source.to_string(),
        None => error.to_string(),
    };
    refused(format!("cannot be loaded: {reason}"))
}

fn other_schema(theirs: u32) -> String {
    let fix = if theirs > SCHEMA {
        "the program is older than the exporter, so install the newer traywright"
    } else {
        "the exporter is older than the program, so build or install its newer release"
    };
    format!("reads documents of schema {theirs} and this program writes schema {SCHEMA}: {fix}")
}

/// The data that the callbacks use during one export.
struct Call<'a> {
    answers: &'a mut File,
    fault: Option<String>,
}

unsafe extern "C" fn emit(
    ctx: *mut c_void,
    suffix: *const c_char,
    bytes: *const u8,
    length: usize,
) -> i32 {
    // SAFETY: the door forbids another `ctx` than the one of the running call, and another thread than its own.
    let Some(call) = (unsafe { ctx.cast::<Call>().as_mut() }) else {
        return 1;
    };
    if suffix.is_null() || bytes.is_null() || length > isize::MAX as usize {
        call.fault = Some("gave a file without a suffix or without content".to_owned());
        return 1;
    }
    // SAFETY: the suffix is lent for this call and ends with a zero byte.
    let suffix = unsafe { CStr::from_ptr(suffix) };
    // SAFETY: `length` bytes are lent for this call; the pointer is not null and the length is possible.
    let bytes = unsafe { slice::from_raw_parts(bytes, length) };
    let pieces = [suffix.to_bytes_with_nul(), bytes];
    match frames::write(call.answers, MessageKind::File, pieces) {
        Ok(()) => 0,
        Err(_) => 1,
    }
}

unsafe extern "C" fn say(ctx: *mut c_void, words: *const c_char) {
    // SAFETY: as in `emit`.
    let call = unsafe { ctx.cast::<Call>().as_mut() };
    // SAFETY: the words are null or lent for this call and end with a zero byte.
    if let (Some(call), Some(words)) = (call, unsafe { text(words) }) {
        let end = words.floor_char_boundary(LONGEST_WORDS);
        // If nobody is listening, the next request or file will show it.
        let _ = frames::write(
            call.answers,
            MessageKind::Words,
            [&words.as_bytes()[..end], &[]],
        );
    }
}

/// # Safety
/// The pointer must be null or lead to bytes that end with a zero byte and stay during the call.
unsafe fn text(pointer: *const c_char) -> Option<String> {
    if pointer.is_null() {
        return None;
    }
    // SAFETY: not null, and the caller vouches for the rest.
    let text = unsafe { CStr::from_ptr(pointer) };
    Some(text.to_string_lossy().into_owned())
}
