//! Lines of one job, to be copied into the next.
//!
//! **Input:** the text of a job without errors. **Output:** the line of a keyword as the maker wrote it, with the
//! comment after it. Never changes a character.

use kdl::KdlDocument;

/// The line with that keyword; none if the job has no such line.
pub fn lines_of(text: &str, keyword: &str) -> Option<String> {
    let document = KdlDocument::parse_v2(text).ok()?;
    let nodes = document.nodes();
    let node = nodes.iter().find(|node| node.name().value() == keyword)?;
    let span = node.span();
    let written = text[span.offset()..span.offset() + span.len()].trim_end();
    let line_end = text[span.offset() + written.len()..]
        .lines()
        .next()
        .unwrap_or_default();
    // A comment stays with its line; another node behind a semicolon does not.
    let comment = match line_end.trim_start().starts_with("//") {
        true => line_end.trim_end(),
        false => "",
    };
    Some(format!("{written}{comment}"))
}
