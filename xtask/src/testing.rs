//! `cargo xtask test`: every test of the house, and an honest last line.
//!
//! Prepares the outside checkers and the page's module, runs the fast tests, then the slow ones (files `slow_*.rs`), and ends by printing
//! the runner's own counts. A missing checker is said loudly; with `--require-outside` it is a failure.
//! With `--thorough` the tests that draw random cases draw all of them.

use std::ffi::OsStr;
use std::path::Path;

use crate::checkers::{missing_programs, prepare_node, prepare_python};
use crate::page::{Build, page};
use crate::repository::{Done, cargo, files, top};
use crate::tally::Tally;

/// How the tests are asked for.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Asked {
    /// Whether a missing checker is a failure.
    require_outside: bool,
    /// Whether long random runs are done whole.
    thorough: bool,
}

impl Asked {
    /// Reads the words behind `test`; none where one is not known.
    pub(crate) fn read(words: &[&str]) -> Option<Asked> {
        let mut asked = Asked::default();
        for word in words {
            match *word {
                "--require-outside" => asked.require_outside = true,
                "--thorough" => asked.thorough = true,
                _ => return None,
            }
        }
        Some(asked)
    }
}

/// Runs every test.
pub(crate) fn test(asked: Asked) -> Done {
    let mut missing = missing_programs()?;
    let prepared = [prepare_python(), prepare_node(), page(Build::Quick)];
    missing.extend(prepared.into_iter().filter_map(Result::err));
    warn(
        "An outside checker is missing; its checks will be skipped",
        &missing,
    );

    let (slow, fast): (Vec<String>, Vec<String>) = test_files()?
        .into_iter()
        .partition(|name| name.starts_with("slow_"));
    let mut tally = Tally::default();
    let mut run = |kinds: &[&str], names: &[String]| run(&mut tally, asked, kinds, names);
    run(&["--lib", "--bins"], &fast)?;
    run(&["--doc"], &[])?;
    if !slow.is_empty() {
        run(&[], &slow)?;
    }
    verdict(&tally, asked.require_outside)
}

fn run(tally: &mut Tally, asked: Asked, kinds: &[&str], names: &[String]) -> Done {
    let mut command = cargo(&["test", "--workspace", "--no-fail-fast"])?;
    if asked.thorough {
        command.env("TRAYWRIGHT_THOROUGH", "1");
    }
    command.args(kinds);
    for name in names {
        command.args(["--test", name]);
    }
    tally.add(&mut command)
}

/// The names of all test programs: `tests/NAME.rs` or `tests/NAME/main.rs` of a package.
fn test_files() -> Done<Vec<String>> {
    let names = files()?
        .iter()
        .filter(|path| path.extension() == Some(OsStr::new("rs")))
        .map(|path| match path.parent() {
            Some(folder) if path.ends_with("main.rs") => folder.to_path_buf(),
            _ => path.with_extension(""),
        })
        .filter(|program| {
            let folder = program.parent().filter(|folder| folder.ends_with("tests"));
            let package = folder.and_then(Path::parent);
            package.is_some_and(|package| top().join(package).join("Cargo.toml").is_file())
        })
        .filter_map(|program| Some(program.file_name()?.to_str()?.to_owned()))
        .collect();
    Ok(names)
}

fn verdict(tally: &Tally, require_outside: bool) -> Done {
    warn("Failed", &tally.failures);
    warn("Skipped", &tally.skips);
    let refused = require_outside && !tally.skips.is_empty();
    if refused {
        eprintln!("Outside checks were required, and some were skipped.");
    }
    if tally.broken {
        eprintln!("The tests did not pass.");
    }
    // The counts are the last line, so a failure has been explained above and has no words left.
    println!("{}", tally.summary());
    if tally.broken || refused {
        Err(String::new())
    } else {
        Ok(())
    }
}

fn warn(title: &str, lines: &[String]) {
    if lines.is_empty() {
        return;
    }
    eprintln!("\n==== {title} ====");
    for line in lines {
        eprintln!("{line}");
    }
    eprintln!();
}

#[cfg(test)]
mod tests {
    use super::verdict;
    use crate::tally::Tally;

    #[test]
    fn a_skipped_check_fails_only_where_outside_checks_are_required() {
        // Source: the command's own help: a missing checker is loud, and with --require-outside a failure.
        let mut tally = Tally::default();
        assert!(verdict(&tally, true).is_ok());
        tally.skips.push("a check".to_owned());
        assert!(verdict(&tally, false).is_ok());
        assert!(verdict(&tally, true).is_err());
    }
}
