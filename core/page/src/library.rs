//! What a form can offer: boards, styles, pages, languages, and how large a job may be, in bytes.

use serde_json::{Value, json};
use traywright_job::job_file::known_pages;
use traywright_job::library::{Boards, LANGUAGES, Styles, kind_words};

/// The lists, in the order in which the command line prints them.
pub(crate) fn library(styles: &Styles, boards: &Boards, largest: usize) -> Value {
    let boards = boards.all().iter().map(|stock| {
        json!({
            "name": stock.name,
            "about": stock.about,
            "caliper": stock.caliper.mm(),
            "kind": kind_words(stock.kind),
            "basis": stock.basis.words(),
            "for_trials": stock.for_trials,
        })
    });
    let styles = styles.all().iter().filter_map(|text| {
        let style = text.read().ok()?;
        let (least, most) = style.items();
        Some(json!({ "name": text.name, "about": style.about(), "items": [least, most] }))
    });
    json!({
        "version": env!("CARGO_PKG_VERSION"),
        "boards": boards.collect::<Vec<_>>(),
        "styles": styles.collect::<Vec<_>>(),
        "pages": known_pages().collect::<Vec<_>>(),
        "languages": LANGUAGES,
        "largest": largest,
    })
}
