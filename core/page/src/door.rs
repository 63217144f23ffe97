//! The C interface of the module: what a page calls.
//!
//! Lengths are bytes, text is UTF-8. A page writes into room that [`tw_room`] gave, and reads the last answer where
//! [`tw_answer_at`] says, until its next call. A panic calls `page.panicked` with its words and then traps; what traps
//! leaves nothing to rely on, so a page throws the instance away and opens another.

#![allow(unsafe_code)]

use std::cell::RefCell;
use std::slice;

use serde_json::json;
use traywright_document::plugin_api::File;
use traywright_document::{Document, wire};

use crate::exporting::export;
use crate::program::{Outcome, Program};
use crate::words::words;

/// All that an instance keeps.
#[derive(Default)]
struct State {
    program: Program,
    /// What exporters get of the tray checked last.
    encoded: Option<Vec<u8>>,
    files: Vec<File>,
    answer: Vec<u8>,
}

thread_local! {
    static STATE: RefCell<State> = RefCell::default();
}

#[link(wasm_import_module = "page")]
unsafe extern "C" {
    fn panicked(words: *const u8, length: usize);
}

/// To be called once, before all else.
#[unsafe(no_mangle)]
pub extern "C" fn tw_start() {
    std::panic::set_hook(Box::new(|info| {
        let words = info.to_string();
        // SAFETY: the page reads the words during the call.
        unsafe { panicked(words.as_ptr(), words.len()) }
    }));
}

/// Room for so many bytes that the page writes.
#[unsafe(no_mangle)]
pub extern "C" fn tw_room(length: usize) -> *mut u8 {
    Box::into_raw(vec![0_u8; length].into_boxed_slice()).cast()
}

/// Takes room back.
///
/// # Safety
/// Place and length are those of one call of [`tw_room`], given back once.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tw_give_back(at: *mut u8, length: usize) {
    // SAFETY: the caller's promise.
    drop(unsafe { Box::from_raw(std::ptr::slice_from_raw_parts_mut(at, length)) });
}

/// Where the last answer stands.
#[unsafe(no_mangle)]
pub extern "C" fn tw_answer_at() -> *const u8 {
    STATE.with_borrow(|state| state.answer.as_ptr())
}

/// How long the last answer is.
#[unsafe(no_mangle)]
pub extern "C" fn tw_answer_length() -> usize {
    STATE.with_borrow(|state| state.answer.len())
}

/// Answers with boards, styles, pages and languages.
#[unsafe(no_mangle)]
pub extern "C" fn tw_library() {
    STATE.with_borrow_mut(|state| state.answer = state.program.library().into_bytes());
}

/// Answers with a small drawing of a style, or with `null`.
///
/// # Safety
/// The range is lent for the call.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tw_drawing(style: *const u8, length: usize) {
    // SAFETY: the caller's promise.
    let style = unsafe { text(style, length) };
    STATE.with_borrow_mut(|state| state.answer = state.program.drawing(&style).into_bytes());
}

/// Checks a job by its name and its text: 0 fits, 1 does not, 2 is no job. Answers with what a page shows of it.
///
/// # Safety
/// Both ranges are lent for the call.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tw_check(
    name: *const u8,
    name_length: usize,
    job: *const u8,
    length: usize,
) -> i32 {
    // SAFETY: the caller's promise.
    let (name, job) = unsafe { (text(name, name_length), text(job, length)) };
    STATE.with_borrow_mut(|state| {
        state.encoded = None;
        state.files.clear();
        let answer = state.program.check(&name, &job);
        state.answer = answer.json.into_bytes();
        match answer.outcome {
            Outcome::Fits => 0,
            Outcome::DoesNotFit => 1,
            Outcome::Unreadable => 2,
        }
    })
}

/// Answers with the fixes of the job checked last.
#[unsafe(no_mangle)]
pub extern "C" fn tw_fixes() {
    STATE.with_borrow_mut(|state| state.answer = state.program.fixes().into_bytes());
}

/// Answers with what pictures need of the tray checked last, or with `null`.
#[unsafe(no_mangle)]
pub extern "C" fn tw_scene() {
    STATE.with_borrow_mut(|state| {
        let document = state.program.document();
        let pictures = document.and_then(|document| pictures(&document));
        state.answer = pictures.unwrap_or_else(|| "null".to_owned()).into_bytes();
    });
}

/// Answers with the SVG of the tray checked last; with nothing if there is none.
#[unsafe(no_mangle)]
pub extern "C" fn tw_blank() {
    STATE.with_borrow_mut(|state| {
        let document = state.program.document();
        let made = document.map(|document| export("svg", &wire::encode(&document)).files);
        let file = made.into_iter().flatten().next();
        state.answer = file.map(|file| file.bytes).unwrap_or_default();
    });
}

/// Answers with the words of the page in a language, or with `null`.
///
/// # Safety
/// The range is lent for the call.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tw_words(language: *const u8, length: usize) {
    // SAFETY: the caller's promise.
    let language = unsafe { text(language, length) };
    STATE.with_borrow_mut(|state| state.answer = words(&language).to_string().into_bytes());
}

/// Answers with the document of the tray checked last, as exporters get it; with nothing if there is none.
#[unsafe(no_mangle)]
pub extern "C" fn tw_document() {
    STATE.with_borrow_mut(|state| state.answer = state.program.encoded().unwrap_or_default());
}

/// Makes the files of the tray checked last: their number, or -1 when they are refused. Answers with their suffixes and
/// what the exporter says.
///
/// # Safety
/// The range is lent for the call.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tw_export(exporter: *const u8, length: usize) -> i32 {
    // SAFETY: the caller's promise.
    let name = unsafe { text(exporter, length) };
    STATE.with_borrow_mut(|state| {
        state.files.clear();
        if state.encoded.is_none() {
            match state.program.encoded() {
                Ok(encoded) => state.encoded = Some(encoded),
                Err(why) => {
                    state.answer = json!({ "suffixes": [], "said": [why] }).to_string().into();
                    return -1;
                }
            }
        }
        let made = export(&name, state.encoded.as_deref().unwrap_or_default());
        let suffixes: Vec<&str> = made.files.iter().map(|file| file.suffix.as_str()).collect();
        state.answer = json!({ "suffixes": suffixes, "said": made.said })
            .to_string()
            .into();
        if made.refused {
            return -1;
        }
        state.files = made.files;
        state.files.len() as i32
    })
}

/// Answers with the bytes of a file of the last export.
#[unsafe(no_mangle)]
pub extern "C" fn tw_file(index: usize) {
    STATE.with_borrow_mut(|state| state.answer = state.files[index].bytes.clone());
}

/// The scene, and how each item lies and is held.
fn pictures(document: &Document) -> Option<String> {
    let scene = traywright_html::scene(document).ok()?;
    let items = serde_json::to_string(&document.items).ok()?;
    let unit = document.unit.sign();
    Some(format!(
        "{{\"scene\":{scene},\"items\":{items},\"unit\":\"{unit}\"}}"
    ))
}

/// # Safety
/// The range is lent for the call.
unsafe fn text(at: *const u8, length: usize) -> String {
    // SAFETY: the caller's promise.
    let bytes = unsafe { slice::from_raw_parts(at, length) };
    String::from_utf8_lossy(bytes).into_owned()
}
