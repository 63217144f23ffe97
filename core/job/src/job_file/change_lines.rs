//! Changes of a job's text.
//!
//! Every character outside a change stays as the maker wrote it.

use std::ops::Range;

use kdl::{KdlDocument, KdlEntry, KdlNode};
use traywright_engine::finding::Change;

use super::keys::Line;
use super::write::setting;

/// The text with the changes made, one after the other; none if the text is not KDL.
pub fn changed(text: &str, changes: &[Change]) -> Option<String> {
    changes.iter().try_fold(text.to_owned(), changed_once)
}

fn changed_once(mut text: String, change: &Change) -> Option<String> {
    let document = KdlDocument::parse_v2(&text).ok()?;
    let value = match (change.node, change.key.as_str()) {
        ("set", key) => setting(key, &change.to),
        (node, key) if argument_of(node) == Some(key) => format!("{node} {}", change.to),
        (node, _) => format!("{node} {}={}", change.key, change.to),
    };
    let (_, property) = value.split_once(' ')?;
    match document.nodes().iter().find(|node| is_meant(node, change)) {
        Some(node) => {
            let entries = node.entries();
            let same = entries.iter().find(|entry| is_called(entry, change));
            match same.or(entries.last()) {
                Some(entry) => {
                    let place = written(&text, entry.span().offset(), entry.span().len());
                    match same {
                        Some(_) => text.replace_range(place, property),
                        None => text.insert_str(place.end, &format!(" {property}")),
                    }
                }
                None => {
                    let name = node.name().span();
                    text.insert_str(name.offset() + name.len(), &format!(" {property}"));
                }
            }
        }
        // A job without a line for the item cannot take a change of it.
        None if change.item.is_some() => return None,
        None => {
            if !text.ends_with('\n') {
                text.push('\n');
            }
            text.push_str(&value);
            text.push('\n');
        }
    }
    Some(text)
}

/// Whether a change is about this line: an item is identified by its name, a setting by its key.
fn is_meant(node: &KdlNode, change: &Change) -> bool {
    let named = |item: &String| {
        let name = node.entries().iter().find(|entry| entry.name().is_none());
        name.and_then(|name| name.value().as_string()) == Some(item.as_str())
    };
    let set = |node: &KdlNode| {
        let mut entries = node.entries().iter();
        entries.any(|entry| is_called(entry, change))
    };
    node.name().value() == change.node
        && change.item.as_ref().is_none_or(named)
        && (change.node != "set" || set(node))
}

/// Whether a change sets this entry: the property with its key, or the value directly after the first word.
fn is_called(entry: &KdlEntry, change: &Change) -> bool {
    match entry.name() {
        Some(name) => name.value() == change.key,
        None => argument_of(change.node) == Some(&*change.key),
    }
}

/// The meaning of the value directly after the first word of a line, by which a change names it.
fn argument_of(node: &str) -> Option<&'static str> {
    let argument = Line::named(node)?.argument.as_ref()?;
    Some(argument.name)
}

/// The byte range of an entry without the space around it.
fn written(text: &str, from: usize, length: usize) -> Range<usize> {
    let whole = &text[from..from + length];
    let start = from + whole.len() - whole.trim_start().len();
    start..from + whole.trim_end().len()
}

#[cfg(test)]
mod tests {
    use super::changed;
    use traywright_engine::finding::Change;

    fn change(node: &'static str, item: Option<&str>, key: &str, to: &str) -> Change {
        Change {
            node,
            item: item.map(ToOwned::to_owned),
            key: key.to_owned(),
            to: to.to_owned(),
        }
    }

    #[test]
    fn a_change_touches_its_own_property_alone() {
        let job = "// Mine.\nbox length=(mm)182  depth=(in)\"1 1/2\" // inside\nitem \"lens\" depth=(mm)28; item \"loupe\" depth=(mm)9\nset \"web\"=(mm)3";
        let cases = [
            (
                change("box", None, "depth", "(mm)40"),
                "depth=(in)\"1 1/2\"",
                "depth=(mm)40",
            ),
            (
                change("box", None, "width", "(mm)99"),
                "depth=(in)\"1 1/2\"",
                "depth=(in)\"1 1/2\" width=(mm)99",
            ),
            (
                change("item", Some("loupe"), "turn", "#true"),
                "\"loupe\" depth=(mm)9",
                "\"loupe\" depth=(mm)9 turn=#true",
            ),
            (
                change("set", None, "web", "(mm)2"),
                "\"web\"=(mm)3",
                "\"web\"=(mm)2",
            ),
            (
                change("set", None, "edge-web", "(mm)2"),
                "\"web\"=(mm)3",
                "\"web\"=(mm)3\nset \"edge-web\"=(mm)2\n",
            ),
            (
                change("page", None, "name or size", "\"A3\""),
                "\"web\"=(mm)3",
                "\"web\"=(mm)3\npage \"A3\"\n",
            ),
            (
                change("fit", None, "item", "(mm)3"),
                "\"web\"=(mm)3",
                "\"web\"=(mm)3\nfit item=(mm)3\n",
            ),
        ];
        for (change, before, after) in cases {
            let expected = job.replace(before, after);
            assert_eq!(changed(job, &[change]).as_deref(), Some(expected.as_str()));
        }
        assert_eq!(changed("box {", &[]).as_deref(), Some("box {"));
        assert_eq!(
            changed("box {", &[change("box", None, "depth", "(mm)1")]),
            None
        );
    }
}
