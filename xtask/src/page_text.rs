//! The text of the page: its HTML with style, scripts and the packed module in their places.
//!
//! Scripts are plain modules. Each imports on lines of their own and exports at the beginning of a line, and a comment ends in
//! its line; put behind one another without imports and exports they are one script, as in the pages that the exporter `html`
//! writes (`exporters/html/src/scripts.rs`).

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;

use crate::repository::{Done, top};

/// The scripts of the page in their order, and that of its worker.
const SCRIPTS: [&str; 16] = [
    "exporters/html/web/fold.js",
    "exporters/html/web/decal.js",
    "exporters/html/web/space.js",
    "exporters/html/web/viewer.js",
    "core/page/web/job.js",
    "core/page/web/shelf.js",
    "core/page/web/fields.js",
    "core/page/web/form.js",
    "core/page/web/styles.js",
    "core/page/web/section.js",
    "core/page/web/faults.js",
    "core/page/web/fixes.js",
    "core/page/web/compare.js",
    "core/page/web/asking.js",
    "core/page/web/address.js",
    "core/page/web/shell.js",
];
const WORKER: &str = "core/page/web/worker.js";
const STYLES: [&str; 2] = ["exporters/html/web/viewer.css", "core/page/web/page.css"];

/// The whole page.
pub(crate) fn page_text(module: &Path) -> Done<String> {
    let styles: Vec<String> = STYLES.iter().map(|path| text(path)).collect::<Done<_>>()?;
    let scripts: Vec<String> = SCRIPTS
        .iter()
        .map(|path| script(path))
        .collect::<Done<_>>()?;
    let scripts = scripts.concat();
    one_of_each_name(&scripts)?;
    let places = [
        ("/*STYLE*/", styles.concat()),
        ("/*WORKER*/", script(WORKER)?),
        ("/*SCRIPT*/", format!("'use strict';\n{scripts}")),
        ("/*MODULE*/", base64(&gzip(module)?)),
    ];
    let mut page = text("core/page/web/page.html")?;
    for (place, filling) in &places {
        if page.matches(place).count() != 1 {
            return Err(format!(
                "core/page/web/page.html has not one place for {place}"
            ));
        }
        page = page.replace(place, filling);
    }
    Ok(page)
}

fn text(path: &str) -> Done<String> {
    fs::read_to_string(top().join(path)).map_err(|fault| format!("{path}: {fault}"))
}

/// A module without imports, exports and comments of their own lines.
fn script(path: &str) -> Done<String> {
    let text = text(path)?;
    if text.contains("</script") || text.contains("<!--") {
        return Err(format!(
            "{path}: a script in a page may not say where scripts end"
        ));
    }
    if !text.lines().all(closes_comments) {
        return Err(format!("{path}: a comment of a script spans lines"));
    }
    let is_comment = |line: &str| {
        let line = line.trim_start();
        line.starts_with("//") || line.starts_with("/**")
    };
    let lines = text.lines();
    let kept = lines.filter(|line| !line.starts_with("import ") && !is_comment(line));
    let plain = kept.map(|line| format!("{}\n", line.strip_prefix("export ").unwrap_or(line)));
    Ok(plain.collect())
}

/// Whether each comment of a line ends in it: what is left out is whole lines.
fn closes_comments(line: &str) -> bool {
    match (line.rfind("/*"), line.rfind("*/")) {
        (Some(begin), Some(end)) => begin < end,
        (begin, _) => begin.is_none(),
    }
}

/// Modules behind one another have one scope: a name may stand there once.
fn one_of_each_name(scripts: &str) -> Done {
    let mut known = BTreeSet::new();
    for name in top_names(scripts) {
        if !known.insert(name) {
            return Err(format!("two scripts of the page have the name `{name}`"));
        }
    }
    Ok(())
}

/// The names that scripts declare at the beginning of a line, all of `const A = [1, 2], B = 3` among them.
fn top_names(scripts: &str) -> Vec<&str> {
    let mut names = Vec::new();
    for line in scripts.lines() {
        let line = line.strip_prefix("async ").unwrap_or(line);
        match line.split_once(' ') {
            Some(("function" | "class", rest)) => names.push(first_word(rest)),
            Some(("const" | "let" | "var", rest)) => {
                names.extend(outer_pieces(rest).into_iter().map(first_word));
            }
            _ => {}
        }
    }
    names
}

/// The pieces of a line between commas that stand in no bracket and no quotes.
fn outer_pieces(line: &str) -> Vec<&str> {
    let (mut depth, mut quote, mut from) = (0, None, 0);
    let mut pieces = Vec::new();
    for (at, letter) in line.char_indices() {
        match (quote, letter) {
            (Some(mark), _) if mark == letter => quote = None,
            (Some(_), _) => {}
            (None, '\'' | '"' | '`') => quote = Some(letter),
            (None, '(' | '[' | '{') => depth += 1,
            (None, ')' | ']' | '}') => depth -= 1,
            (None, ',') if depth == 0 => {
                pieces.push(&line[from..at]);
                from = at + 1;
            }
            _ => {}
        }
    }
    pieces.push(&line[from..]);
    pieces
}

fn first_word(text: &str) -> &str {
    let is_word = |letter: char| letter.is_ascii_alphanumeric() || letter == '_' || letter == '$';
    text.trim_start()
        .split(|letter| !is_word(letter))
        .next()
        .unwrap_or_default()
}

/// Packed without name and time, so that the same module gives the same bytes.
fn gzip(module: &Path) -> Done<Vec<u8>> {
    let output = Command::new("gzip")
        .args(["--best", "--no-name", "--stdout"])
        .arg(module)
        .output()
        .map_err(|fault| format!("gzip cannot be started: {fault}"))?;
    match output.status.success() {
        true => Ok(output.stdout),
        false => Err(String::from_utf8_lossy(&output.stderr).into_owned()),
    }
}

/// Bytes as text.
// Source: RFC 4648, section 4.
fn base64(bytes: &[u8]) -> String {
    const DIGITS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for three in bytes.chunks(3) {
        let byte = |at: usize| u32::from(three.get(at).copied().unwrap_or(0));
        let bits = byte(0) << 16 | byte(1) << 8 | byte(2);
        for digit in 0..4 {
            match digit <= three.len() {
                true => text.push(char::from(DIGITS[(bits >> (18 - 6 * digit) & 63) as usize])),
                false => text.push('='),
            }
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::{base64, closes_comments, one_of_each_name, top_names};

    #[test]
    fn every_name_of_a_line_counts() {
        let script = "const A = [1, f(2, 3)], B = 'x, C = 1', D = { E: 1, F };\n  const inner = 1, other = 2;\nlet it, \
                      said = '';\nasync function go(one, two) {\nclass Box {";
        assert_eq!(
            top_names(script),
            ["A", "B", "D", "it", "said", "go", "Box"]
        );
        assert!(one_of_each_name(script).is_ok());
        assert!(one_of_each_name("const A = 1, B = 2;\nfunction B() {").is_err());
    }

    #[test]
    fn a_comment_ends_in_its_line() {
        assert!(
            ["let a;", "/** One. */", "a /* b */ c", "// x"]
                .iter()
                .all(|line| closes_comments(line))
        );
        assert!(
            ["/**", "a; /* b", "/* a */ /* b"]
                .iter()
                .all(|line| !closes_comments(line))
        );
    }

    #[test]
    fn bytes_become_the_text_of_the_standard() {
        // Source: RFC 4648, section 10.
        let pairs = [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ];
        for (bytes, text) in pairs {
            assert_eq!(base64(bytes.as_bytes()), text);
        }
    }
}
