//! `styles [NAME]`: the styles with a picture each, or the details of one of them.
//!
//! **Input:** folders of styles in addition to the shipped ones. **Output:** the list as text. A style that cannot be
//! read is reported as an error after the others.

mod details;
mod picture;
mod tree;

use traywright_engine::{Branch, Style};
use traywright_job::example_job::ExampleJob;
use traywright_job::library::{StyleText, Styles};
use traywright_job::nearest::suggestion;
use traywright_job::report::sentence::paragraph;

use crate::Verdict;
use crate::args::{GlobalOptions, StylesArguments};
use crate::error::CliError;
use crate::report::Output;
use crate::style_folders::styles;
use picture::Size;

/// Size of a picture such that four styles fit on one screen.
// Source: common practice, none published.
const SMALL: Size = Size {
    columns: 40,
    rows: 9,
};

/// Lists styles or describes one.
pub(crate) fn run(
    asked: &StylesArguments,
    everywhere: &GlobalOptions,
    output: &Output,
) -> Result<Verdict, Vec<CliError>> {
    let styles = styles(&everywhere.styles)?;
    let errors = match &asked.name {
        Some(name) => {
            let style_text = named(name, &styles)?;
            let style = style_text.read().map_err(CliError::from)?;
            output.print_result(&match asked.tree {
                true => tree::lines(&style.tree()),
                false => details::describe_style(&style, &style_text.path),
            })?;
            Vec::new()
        }
        None => {
            let (list, errors) = listed(&styles);
            output.print_result(&list)?;
            errors
        }
    };
    if errors.is_empty() {
        Ok(Verdict::Done)
    } else {
        Err(errors)
    }
}

fn named<'a>(name: &str, styles: &'a Styles) -> Result<&'a StyleText, CliError> {
    let unknown = || {
        CliError::sentence(format_args!(
            "there is no style `{name}`; {}",
            suggestion(name, &styles.names())
        ))
    };
    styles.get(name).ok_or_else(unknown)
}

fn listed(styles: &Styles) -> (String, Vec<CliError>) {
    let names = styles.names();
    let width = names
        .iter()
        .map(|name| name.chars().count())
        .max()
        .unwrap_or_default();
    let mut entries = Vec::new();
    let mut errors = Vec::new();
    for style_text in styles.all().iter().chain(styles.trials()) {
        let style = match style_text.read() {
            Ok(style) => style,
            Err(error) => {
                errors.push(error.into());
                continue;
            }
        };
        let mut entry = paragraph(&format!("{:width$}  ", style.name()), style.about());
        entry.extend(shown(&style, &ExampleJob::of(&style), SMALL, false));
        entries.push(entry);
    }
    (entries.join("\n"), errors)
}

/// A small picture of the style's blank in lines of text; empty if no example job suits the style.
pub(super) fn small_picture(style: &Style) -> Vec<String> {
    let picture = shown(style, &ExampleJob::of(style), SMALL, false);
    picture.map_or_else(Vec::new, |text| text.lines().map(str::to_owned).collect())
}

/// The blank of an example job as a picture; none if no example job suits the style.
fn shown(style: &Style, usual: &ExampleJob, size: Size, named: bool) -> Option<String> {
    let document = usual.tray.as_ref()?.finish().document();
    let mut keys = Vec::new();
    let tree = style.tree();
    collect(&tree, &mut keys);
    // Longest keys first: `end-fence-west` belongs to the family `end-fence`, not to `end`.
    keys.sort_by_key(|key| std::cmp::Reverse(key.len()));
    let family = |member: &str| {
        let is_of = |key: &&&str| {
            member
                .strip_prefix(**key)
                .is_some_and(|rest| rest.is_empty() || rest.starts_with('-'))
        };
        keys.iter().find(is_of).copied().filter(|_| named)
    };
    let lines = picture::picture(&document, size, family);
    Some(lines.iter().map(|line| format!("  {line}\n")).collect())
}

/// Keys of all entries of a tree.
fn collect<'b>(branch: &'b Branch, keys: &mut Vec<&'b str>) {
    keys.push(branch.name);
    for branch in &branch.branches {
        collect(branch, keys);
    }
}
