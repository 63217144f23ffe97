//! The C interface: how a library declares an exporter, and how documents and files are exchanged.
//!
//! ```text
//! program   document's bytes, lent ──→  exporter
//!           ←── emit(suffix, bytes)     one call per file, bytes lent
//!           ←── say(words)              why not, or what the maker should know
//! ```
//!
//! A library has one symbol, `traywright_exporter`, that returns an [`ExporterDescriptor`]; `include/traywright.h` is
//! the same interface in C99. An exporter in Rust writes [`exporter!`](crate::exporter) and never sees a pointer.
//! Memory never changes owner here: both sides lend for the length of a call. No panic crosses the interface.

#![allow(unsafe_code)]

use std::any::Any;
use std::ffi::{CStr, CString, c_char, c_void};
use std::fmt;
use std::mem::size_of;
use std::panic::catch_unwind;
use std::slice;

use crate::{Document, SCHEMA, wire};

/// The longest suffix of a file, in bytes.
pub const LONGEST_SUFFIX: usize = 40;

/// The name of the one symbol that a library must have.
pub const SYMBOL: &str = "traywright_exporter";

/// A library's description of itself. Schema and size come first and are checked before the rest is used.
#[repr(C)]
#[derive(Debug)]
pub struct ExporterDescriptor {
    /// The [`SCHEMA`] that it reads.
    pub schema: u32,
    /// The size of this descriptor when the library was built. Fields are only ever added at its end.
    pub struct_size: u32,
    /// Its name, as in the name of its file; ends with a zero byte.
    pub name: *const c_char,
    /// The suffix of its main file; ends with a zero byte.
    pub suffix: *const c_char,
    /// Makes the files of one document.
    pub export: Option<Export>,
}

// SAFETY: the pointers lead to texts and a function of the library, which live unchanged as long as it is loaded.
unsafe impl Sync for ExporterDescriptor {}

/// Makes the files of one document: returns 0 if all of them were emitted, anything else if it refuses the document.
pub type Export = unsafe extern "C" fn(
    document: *const u8,
    length: usize,
    emit: Emit,
    say: ReportText,
    ctx: *mut c_void,
) -> i32;

/// Takes one file, named by its suffix: returns 0 if it was taken, anything else if the exporter should stop.
pub type Emit = unsafe extern "C" fn(
    ctx: *mut c_void,
    suffix: *const c_char,
    bytes: *const u8,
    length: usize,
) -> i32;

/// Takes words for the maker: the reason of a refusal, or a warning if the document is not refused.
pub type ReportText = unsafe extern "C" fn(ctx: *mut c_void, words: *const c_char);

/// One file that an exporter has made. The program puts the job's name before the suffix.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct File {
    /// For example `.svg` or `-booklet.pdf`; see [`is_suffix`].
    pub suffix: String,
    /// Its contents.
    pub bytes: Vec<u8>,
}

/// The result of exporting one document.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Exported {
    /// The files.
    pub files: Vec<File>,
    /// Warnings about them for the maker, a sentence each.
    pub warnings: Vec<String>,
}

impl From<Vec<File>> for Exported {
    fn from(files: Vec<File>) -> Self {
        Exported {
            files,
            warnings: Vec::new(),
        }
    }
}

/// Whether a text is a valid suffix: begins with `.` or `-`, holds only ASCII letters, digits, `.` and `-`, at least
/// one letter or digit, and at most [`LONGEST_SUFFIX`] bytes.
pub const fn is_suffix(text: &str) -> bool {
    let bytes = text.as_bytes();
    if bytes.is_empty() || bytes.len() > LONGEST_SUFFIX || bytes[0].is_ascii_alphanumeric() {
        return false;
    }
    let mut letters = 0;
    let mut index = 0;
    while index < bytes.len() {
        match bytes[index] {
            b'.' | b'-' => {}
            byte if byte.is_ascii_alphanumeric() => letters += 1,
            _ => return false,
        }
        index += 1;
    }
    letters > 0
}

/// Makes a library an exporter: a name, the suffix of its main file, and a function that makes the files.
///
/// The function takes a `&Document` and gives `Result<Vec<File>, E>` with an error that has words, such as
/// [`ExportError`](crate::ExportError), or [`Exported`] instead of the files when it has warnings. The same document
/// must give the same bytes, whatever was exported before it in the same process.
///
/// ```
/// use traywright_document::{Document, ExportError, plugin_api::File};
///
/// traywright_document::exporter!(name: "title", suffix: ".txt", export);
///
/// fn export(document: &Document) -> Result<Vec<File>, ExportError> {
///     Ok(vec![File {
///         suffix: ".txt".to_owned(),
///         bytes: document.title.clone().into_bytes(),
///     }])
/// }
/// ```
#[macro_export]
macro_rules! exporter {
    (name: $name:literal, suffix: $suffix:literal, $export:path $(,)?) => {
        /// The one symbol that the program looks for.
        #[allow(unsafe_code)]
        #[cfg_attr(not(target_family = "wasm"), unsafe(no_mangle))]
        pub extern "C" fn traywright_exporter() -> *const $crate::plugin_api::ExporterDescriptor {
            const _: () = assert!(
                $crate::plugin_api::is_suffix($suffix),
                "this is no suffix of a file"
            );
            static DESCRIPTOR: $crate::plugin_api::ExporterDescriptor =
                $crate::plugin_api::ExporterDescriptor::new(
                    concat!($name, "\0"),
                    concat!($suffix, "\0"),
                    at_the_door,
                );
            unsafe extern "C" fn at_the_door(
                document: *const u8,
                length: usize,
                emit: $crate::plugin_api::Emit,
                say: $crate::plugin_api::ReportText,
                ctx: *mut ::std::ffi::c_void,
            ) -> i32 {
                let listener = $crate::plugin_api::HostCallbacks { emit, say, ctx };
                // SAFETY: everything is handed on as the program gave it, within its call.
                unsafe { $crate::plugin_api::answer(document, length, &listener, $export) }
            }
            &DESCRIPTOR
        }
    };
}

impl ExporterDescriptor {
    /// The descriptor of a library in Rust; both texts end with a zero byte and hold no other.
    ///
    /// # Panics
    /// "a name or suffix ends with its only zero byte", while compiling.
    pub const fn new(name: &'static str, suffix: &'static str, export: Export) -> Self {
        ExporterDescriptor {
            schema: SCHEMA,
            struct_size: size_of::<ExporterDescriptor>() as u32,
            name: text(name),
            suffix: text(suffix),
            export: Some(export),
        }
    }
}

const fn text(with_zero: &'static str) -> *const c_char {
    match CStr::from_bytes_with_nul(with_zero.as_bytes()) {
        Ok(text) => text.as_ptr(),
        Err(_) => panic!("a name or suffix ends with its only zero byte"),
    }
}

/// The program's functions during one call.
#[derive(Clone, Copy, Debug)]
pub struct HostCallbacks {
    /// Takes files.
    pub emit: Emit,
    /// Takes words.
    pub say: ReportText,
    /// Passed back unread with every call.
    pub ctx: *mut c_void,
}

/// Runs an exporter's function for one call of the program; a panic becomes a refusal.
///
/// # Safety
/// `document` must point to `length` bytes that stay unchanged during the call, and the listener's functions must be
/// those that came with them.
pub unsafe fn answer<E: Into<Exported>, R: fmt::Display>(
    document: *const u8,
    length: usize,
    listener: &HostCallbacks,
    export: fn(&Document) -> Result<E, R>,
) -> i32 {
    if document.is_null() || length > isize::MAX as usize {
        listener.say("the program gave no document");
        return 1;
    }
    // SAFETY: the caller lends `length` bytes for the call; the pointer is not null and the length is possible.
    let bytes = unsafe { slice::from_raw_parts(document, length) };
    let made = catch_unwind(|| {
        let document = wire::decode(bytes).map_err(|error| error.to_string())?;
        let exported = export(&document).map_err(|error| error.to_string())?;
        Ok::<Exported, String>(exported.into())
    });
    match made {
        Ok(Ok(exported)) => listener.take(&exported),
        Ok(Err(reason)) => {
            listener.say(&reason);
            1
        }
        Err(panic) => {
            listener.say(&format!(
                "a rule of its own was broken: {}",
                words_of(&*panic)
            ));
            1
        }
    }
}

impl HostCallbacks {
    fn take(&self, exported: &Exported) -> i32 {
        for warning in &exported.warnings {
            self.say(warning);
        }
        for file in &exported.files {
            let Ok(suffix) = CString::new(file.suffix.as_str()) else {
                self.say("a suffix holds a zero byte");
                return 1;
            };
            // SAFETY: suffix and bytes live until the call is over, and the program keeps neither.
            let taken = unsafe {
                (self.emit)(
                    self.ctx,
                    suffix.as_ptr(),
                    file.bytes.as_ptr(),
                    file.bytes.len(),
                )
            };
            if taken != 0 {
                return taken;
            }
        }
        0
    }

    fn say(&self, words: &str) {
        let words = CString::new(words.replace('\0', " ")).expect("all zero bytes are replaced");
        // SAFETY: the words live until the call is over, and the program keeps no pointer to them.
        unsafe { (self.say)(self.ctx, words.as_ptr()) }
    }
}

fn words_of(panic: &(dyn Any + Send)) -> &str {
    panic
        .downcast_ref::<&str>()
        .copied()
        .or_else(|| panic.downcast_ref::<String>().map(String::as_str))
        .unwrap_or("no reason given")
}
