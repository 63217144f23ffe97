//! The lines of a job as they are written, for a form that shows them.
//!
//! **Input:** the text of a job. **Output:** its lines with their values in order, whatever they are called. **Does not**
//! say whether a line or a value means anything, and keeps no comment.

use kdl::{KdlDocument, KdlEntry};
use serde::Serialize;

use super::limits;

/// A line.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WrittenLine {
    /// The keyword.
    pub name: String,
    /// Its values in order.
    pub entries: Vec<WrittenValue>,
}

/// A value of a line.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WrittenValue {
    /// The key; empty for a value without one.
    pub key: String,
    /// The unit; empty for a value without one.
    pub unit: String,
    /// The figure as it is written, or the text without its quotes.
    pub text: String,
    /// Whether it is a text in quotes.
    pub quoted: bool,
}

/// The lines of a text; none if it is no KDL, is larger than a job, or is nested more deeply than the reader allows.
pub fn written(text: &str) -> Option<Vec<WrittenLine>> {
    limits::text_of(text.as_bytes()).ok()?;
    limits::nesting_of(text).ok()?;
    let document = KdlDocument::parse_v2(text).ok()?;
    let line = |node: &kdl::KdlNode| WrittenLine {
        name: node.name().value().to_owned(),
        entries: node.entries().iter().map(value).collect(),
    };
    Some(document.nodes().iter().map(line).collect())
}

fn value(entry: &KdlEntry) -> WrittenValue {
    let word = |name: Option<&kdl::KdlIdentifier>| {
        name.map(|name| name.value().to_owned()).unwrap_or_default()
    };
    let quoted = entry.value().as_string();
    // A figure stands as the maker wrote it: 0.50 stays 0.50.
    let figure = || match entry.format() {
        Some(format) => format.value_repr.clone(),
        None => entry.value().to_string(),
    };
    WrittenValue {
        key: word(entry.name()),
        unit: word(entry.ty()),
        text: quoted.map_or_else(figure, ToOwned::to_owned),
        quoted: quoted.is_some(),
    }
}

#[cfg(test)]
mod tests {
    use super::written;

    #[test]
    fn values_keep_key_unit_and_figure() {
        // Source: the KDL 2.0 specification: a value may have a type in brackets, and a property a name.
        let text = "// Mine.\nitem \"a \\\"b\\\"\" length=(mm)0.50 depth=(in)\"1 1/2\" turn=#true /* x */ count=3; zig 1";
        let lines = written(text).expect("it is KDL");
        let names: Vec<_> = lines.iter().map(|line| line.name.as_str()).collect();
        assert_eq!(names, ["item", "zig"]);
        let values: Vec<_> = lines[0]
            .entries
            .iter()
            .map(|value| {
                (
                    value.key.as_str(),
                    value.unit.as_str(),
                    value.text.as_str(),
                    value.quoted,
                )
            })
            .collect();
        assert_eq!(
            values,
            [
                ("", "", "a \"b\"", true),
                ("length", "mm", "0.50", false),
                ("depth", "in", "1 1/2", true),
                ("turn", "", "#true", false),
                ("count", "", "3", false),
            ]
        );
        assert_eq!(written("box {"), None);
    }
}
