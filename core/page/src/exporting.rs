//! The exporters, each through the same interface as in a library of its own.

#![allow(unsafe_code)]

use std::cell::RefCell;
use std::ffi::{CStr, c_char, c_void};
use std::slice;

use traywright_document::plugin_api::{ExporterDescriptor, File};

/// What an exporter made.
#[derive(Debug, Default)]
pub(crate) struct Exported {
    pub(crate) files: Vec<File>,
    /// Warnings; after a refusal its reason.
    pub(crate) said: Vec<String>,
    pub(crate) refused: bool,
}

fn exporters() -> [(&'static str, *const ExporterDescriptor); 7] {
    [
        ("svg", traywright_svg::traywright_exporter()),
        ("pdf", traywright_pdf::traywright_exporter()),
        ("dxf", traywright_dxf::traywright_exporter()),
        ("booklet", traywright_booklet::traywright_exporter()),
        ("fold", traywright_fold::traywright_exporter()),
        ("html", traywright_html::traywright_exporter()),
        ("solid", traywright_solid::traywright_exporter()),
    ]
}

/// The files that an exporter makes of a document; a name that is none is refused.
pub(crate) fn export(name: &str, document: &[u8]) -> Exported {
    let heard = RefCell::new(Exported::default());
    let known = exporters().into_iter().find(|(known, _)| *known == name);
    // SAFETY: a descriptor of ours lives as long as the module.
    let export = known.and_then(|(_, exporter)| unsafe { (*exporter).export });
    let Some(export) = export else {
        return Exported {
            said: vec![format!("there is no exporter `{name}`")],
            refused: true,
            ..Exported::default()
        };
    };
    let ctx: *const RefCell<Exported> = &heard;
    // SAFETY: the document is lent for the call, and the functions take `ctx` for what it is.
    let code = unsafe {
        export(
            document.as_ptr(),
            document.len(),
            emit,
            say,
            ctx.cast_mut().cast(),
        )
    };
    let mut exported = heard.into_inner();
    exported.refused = code != 0;
    exported
}

unsafe extern "C" fn emit(
    ctx: *mut c_void,
    suffix: *const c_char,
    bytes: *const u8,
    length: usize,
) -> i32 {
    // SAFETY: `ctx` is that of `export`, and an exporter lends suffix and bytes for the call.
    let (heard, suffix, bytes) = unsafe {
        (
            &*ctx.cast::<RefCell<Exported>>(),
            CStr::from_ptr(suffix),
            slice::from_raw_parts(bytes, length),
        )
    };
    heard.borrow_mut().files.push(File {
        suffix: suffix.to_string_lossy().into_owned(),
        bytes: bytes.to_vec(),
    });
    0
}

unsafe extern "C" fn say(ctx: *mut c_void, words: *const c_char) {
    // SAFETY: `ctx` is that of `export`, and an exporter lends its words for the call.
    let (heard, words) = unsafe { (&*ctx.cast::<RefCell<Exported>>(), CStr::from_ptr(words)) };
    let words = words.to_string_lossy().into_owned();
    heard.borrow_mut().said.push(words);
}
