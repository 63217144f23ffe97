//! Errors in a text, each with its position, the line and a caret.
//!
//! **Input:** a text, its name as the maker knows it, and the errors. **Output:** text for printing: the first
//! [`SHOWN`] errors, and the number of the rest. Never changes the words of an error.

use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Group, Level, Origin, Renderer, Snippet};
use traywright_engine::SourceError;
use traywright_engine::finding::SourceSpan;

/// Nobody reads more than this many at once. Common practice, none published.
const SHOWN: usize = 20;

/// All errors of one text, an empty line after each.
pub fn all(path: &str, text: &str, faults: &[SourceError]) -> String {
    let mut printed = String::new();
    for fault in faults.iter().take(SHOWN) {
        printed.push_str(&one(Level::ERROR, path, text, fault));
        printed.push_str("\n\n");
    }
    if faults.len() > SHOWN {
        printed.push_str(&format!(
            "error: {path} has {} more faults like these\n\n",
            faults.len() - SHOWN
        ));
    }
    printed
}

/// Warnings about a text, an empty line after each.
pub fn warnings(path: &str, text: &str, odd: &[SourceError]) -> String {
    let shown = odd.iter().take(SHOWN);
    let mut printed: String = shown
        .map(|fault| one(Level::WARNING, path, text, fault) + "\n\n")
        .collect();
    if odd.len() > SHOWN {
        printed.push_str(&format!(
            "warning: {path} has {} more such things\n\n",
            odd.len() - SHOWN
        ));
    }
    printed
}

fn one(level: Level<'_>, path: &str, text: &str, fault: &SourceError) -> String {
    let title = level.primary_title(fault.message.as_str());
    let about_whole_text = fault.place == (0..0) || text.is_empty();
    let mut group = if about_whole_text {
        let group = title.element(Origin::path(path).line(1).char_column(1));
        if fault.label.is_empty() {
            group
        } else {
            group.element(Level::HELP.message(fault.label.as_str()))
        }
    } else {
        title.element(marked(path, text, fault))
    };
    if let Some(hint) = &fault.hint {
        group = group.element(Level::HELP.message(hint.as_str()));
    }
    rendered(group)
}

fn marked<'a>(
    path: &'a str,
    text: &'a str,
    fault: &'a SourceError,
) -> Snippet<'a, annotate_snippets::Annotation<'a>> {
    let primary = AnnotationKind::Primary
        .span(within(text, &fault.place))
        .label(fault.label.as_str());
    let snippet = Snippet::source(text)
        .path(path)
        .fold(true)
        .annotation(primary);
    match &fault.context {
        Some((place, words)) => snippet.annotation(
            AnnotationKind::Context
                .span(within(text, place))
                .label(words.as_str()),
        ),
        None => snippet,
    }
}

fn rendered(group: Group<'_>) -> String {
    Renderer::plain()
        .decor_style(DecorStyle::Ascii)
        .render(&[group])
}

/// A span limited to the text and moved to the borders of its characters.
fn within(text: &str, place: &SourceSpan) -> SourceSpan {
    let start = text.floor_char_boundary(place.start.min(text.len()));
    let end = text.ceil_char_boundary(place.end.min(text.len()));
    start..end.max(start)
}
