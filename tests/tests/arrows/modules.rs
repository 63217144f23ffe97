//! The modules of one crate depend on one another in one direction.
//!
//! A module is one entry of `src` with all files below it, and depends on each module that a path in its code starts
//! at: `crate::x`, `super::x` where that leaves the module, and `crate::Name` where the crate's root re-exports `Name`.
//! Comments, tests and what the root defines itself are left aside.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use traywright_tests::{files, repository};

use super::House;

#[test]
fn the_modules_of_a_crate_depend_on_one_another_in_one_direction() {
    // Source: DEVELOPERS.md, "The map": modules of one crate form no cycle.
    let mut dependencies = 0;
    for folder in House::read().folders() {
        let source = format!("{folder}/src");
        let files: Vec<(String, String)> = files(&source, "rs")
            .iter()
            .map(|file| (below(file, &source), fs::read_to_string(file)))
            .map(|(name, text)| (name, text.expect("a source file can be read")))
            .collect();
        let modules = Modules::read(&files);
        dependencies += modules.uses.values().map(BTreeSet::len).sum::<usize>();
        assert_eq!(modules.cycle(), None, "modules of {folder} form a cycle");
    }
    // Source: reasoning: the crates have over a hundred modules, and hardly one stands alone.
    assert!(
        dependencies > 100,
        "only {dependencies} dependencies were found"
    );
}

/// Source: reasoning: each text below makes `a`, `b` and `c` depend on one another in a ring.
#[test]
fn a_cycle_is_seen_however_it_is_written() {
    let ring = |root: &str, file: &str, closing: &str| {
        cycle(&[
            ("lib.rs", root),
            ("a.rs", "use crate::b::B;"),
            ("b.rs", "use crate::c;"),
            (file, closing),
        ])
    };
    for (root, file, closing) in [
        ("mod a;", "c.rs", "use crate::a::A;"),
        ("mod a;", "c.rs", "fn c() { crate::a::f() }"),
        ("mod a;", "c.rs", "pub use crate::{\n    a::{A, B},\n};"),
        ("mod a;", "c.rs", "use crate::{d::{D, E}, a};"),
        ("mod a;", "c.rs", "use super::a::A;"),
        ("mod a;", "c/deep.rs", "use crate::a::A;"),
        ("mod a;", "c/deep.rs", "use super::super::a::A;"),
        ("pub use a::A;", "c.rs", "use crate::A;"),
        (
            "pub use a::{\n    A,\n    B as C,\n};",
            "c.rs",
            "fn c(_: crate::C) {}",
        ),
    ] {
        let found = ring(root, file, closing);
        assert_eq!(found.as_deref(), Some("a → b → c → a"), "{root} {closing}");
    }
}

/// Source: reasoning: none of these texts makes `b` depend on `a`.
#[test]
fn what_is_no_dependency_makes_no_cycle() {
    for text in [
        "",
        "use crate::b::deep::D;",
        "use super::deep::D;",
        "// use crate::a::A;",
        "/// What [`A`](crate::a::A) holds.",
        "pub(in crate::b) fn f() {}",
        "use other_crate::a::A;",
        "$crate::a::f()",
        "fn b() {}\n\n#[cfg(test)]\nmod tests {\n    use crate::a::A;\n}",
    ] {
        let files = [("a.rs", "use crate::b::B;"), ("b/inner.rs", text)];
        assert_eq!(cycle(&files), None, "{text}");
    }
    let files = [
        ("a.rs", "use crate::b::B;"),
        ("b/tests.rs", "use crate::a::A;"),
    ];
    assert_eq!(cycle(&files), None);
}

fn cycle(files: &[(&str, &str)]) -> Option<String> {
    let owned = files
        .iter()
        .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()));
    Modules::read(&owned.collect::<Vec<_>>()).cycle()
}

/// The modules of one crate, and which of them each depends on.
struct Modules {
    uses: BTreeMap<String, BTreeSet<String>>,
}

impl Modules {
    /// Reads files by their names below `src`.
    fn read(files: &[(String, String)]) -> Modules {
        let is_code = |name: &str| !name.split('/').any(|part| part.starts_with("tests"));
        let files: Vec<(&str, String)> = files
            .iter()
            .filter(|(name, _)| is_code(name))
            .map(|(name, text)| (name.as_str(), code(text)))
            .collect();
        let (roots, others): (Vec<_>, Vec<_>) = files
            .iter()
            .partition(|(name, _)| ["lib.rs", "main.rs"].contains(name));
        let exported: BTreeMap<String, String> =
            roots.iter().flat_map(|(_, text)| exports(text)).collect();
        let names: BTreeSet<&str> = others.iter().map(|(name, _)| module(name)).collect();
        let mut uses: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        for (name, text) in others {
            let own = module(name);
            let used = uses.entry(own.to_owned()).or_default();
            for first in paths_from_root(text, depth(name)) {
                let target = exported.get(&first).unwrap_or(&first);
                if target != own && names.contains(target.as_str()) {
                    used.insert(target.clone());
                }
            }
        }
        Modules { uses }
    }

    /// A cycle as a path, if there is one.
    fn cycle(&self) -> Option<String> {
        let mut done = BTreeSet::new();
        let mut found = self
            .uses
            .keys()
            .filter_map(|start| self.cycle_from(start, &mut Vec::new(), &mut done));
        found.next()
    }

    /// A cycle that is met on the way from a module. `done` holds the modules from which none is met.
    fn cycle_from<'a>(
        &'a self,
        at: &'a str,
        way: &mut Vec<&'a str>,
        done: &mut BTreeSet<&'a str>,
    ) -> Option<String> {
        if done.contains(at) {
            return None;
        }
        if let Some(first) = way.iter().position(|before| *before == at) {
            return Some([&way[first..], &[at]].concat().join(" → "));
        }
        way.push(at);
        for next in self.uses.get(at).into_iter().flatten() {
            if let Some(cycle) = self.cycle_from(next, way, done) {
                return Some(cycle);
            }
        }
        way.pop();
        done.insert(at);
        None
    }
}

/// A text without comments and without its tests, which stand at its end.
fn code(text: &str) -> String {
    let end = text.find("#[cfg(test)]\nmod ").unwrap_or(text.len());
    let lines = text[..end].lines();
    let bare = lines.map(|line| line.split("//").next().unwrap_or_default());
    bare.collect::<Vec<_>>().join("\n")
}

/// The module of a file: `a` of `a.rs` and of `a/b.rs`.
fn module(name: &str) -> &str {
    name.split('/')
        .next()
        .map_or(name, |top| top.trim_end_matches(".rs"))
}

/// How many `super` lead from a file to the root of the crate.
fn depth(name: &str) -> usize {
    name.split('/').count()
}

/// The names that follow the root of the crate in all paths of a text.
fn paths_from_root(text: &str, depth: usize) -> Vec<String> {
    let to_root = "super::".repeat(depth);
    let absolute = text
        .match_indices("crate::")
        .map(|(at, word)| (at, word.len()));
    let relative = text
        .match_indices(&to_root)
        .map(|(at, word)| (at, word.len()));
    absolute
        .chain(relative)
        .filter(|(at, _)| !text[..*at].ends_with(|before| is_of_a_name(before) || before == '$'))
        .flat_map(|(at, length)| first_names(&text[at + length..]))
        .collect()
}

/// The names that a path goes on with: one, or the first of each branch in braces.
fn first_names(rest: &str) -> Vec<String> {
    match rest.strip_prefix('{') {
        Some(branches) => branches_of(branches)
            .iter()
            .map(|one| name_at(one))
            .collect(),
        None => vec![name_at(rest)],
    }
}

/// The branches of a list whose brace is open already.
fn branches_of(list: &str) -> Vec<String> {
    let mut branches = vec![String::new()];
    let mut open = 0;
    for letter in list.chars() {
        match letter {
            '{' => open += 1,
            '}' if open == 0 => break,
            '}' => open -= 1,
            ',' if open == 0 => branches.push(String::new()),
            _ => {}
        }
        if let Some(last) = branches.last_mut().filter(|_| letter != ',' || open > 0) {
            last.push(letter);
        }
    }
    branches
        .iter()
        .map(|branch| branch.trim().to_owned())
        .filter(|branch| !branch.is_empty())
        .collect()
}

fn name_at(text: &str) -> String {
    text.chars()
        .take_while(|letter| is_of_a_name(*letter))
        .collect()
}

fn is_of_a_name(letter: char) -> bool {
    letter.is_alphanumeric() || letter == '_'
}

/// The names that a root re-exports, each with its module.
fn exports(root: &str) -> Vec<(String, String)> {
    let mut exported = Vec::new();
    for line in root.split(';').map(str::trim) {
        let Some((_, path)) = line.split_once("use ") else {
            continue;
        };
        let Some((module, names)) = path.split_once("::") else {
            continue;
        };
        let names = match names.rsplit_once('{') {
            Some((_, list)) => branches_of(list),
            None => vec![names.to_owned()],
        };
        for name in names {
            let last = name.rsplit([' ', ':']).next().unwrap_or_default();
            exported.push((last.to_owned(), module.to_owned()));
        }
    }
    exported
}

/// The name of a file below a folder of the repository, with `/` on every system.
fn below(file: &Path, folder: &str) -> String {
    let name = file
        .strip_prefix(repository().join(folder))
        .expect("a file lies below its folder");
    let parts = name.iter().map(|part| part.to_string_lossy());
    parts.collect::<Vec<_>>().join("/")
}
