//! Automation of the house: `cargo xtask test | tidy | printed | golden | pictures | page | fuzz | plugins | package |
//! install`.
//!
//! Given a command, it runs cargo, outside checkers and its own readings of the tree, and ends with 0 when all is
//! well and 1 when not. It depends on nothing, knows no tray, and never hooks into `cargo build`.

mod checkers;
mod fuzz;
mod golden;
mod package;
mod package_licences;
mod page;
mod page_text;
mod pictures;
mod plugins;
mod repository;
mod tally;
mod testing;
mod tidy;

use std::process::ExitCode;

const USAGE: &str = "\
cargo xtask COMMAND

  test [--require-outside] [--thorough]
                             every test: fast ones first, slow ones after; outside checkers are fetched where possible;
                             thorough: long random runs whole, and not a seeded tenth of them
  tidy                       the rules of the house: sizes, heads, names, links
  printed                    every text that makers read, with its place
  golden [--looked REASON]   what the shipped jobs give now against tests/goldens; with a reason, rewrites them
  pictures                   the README's pictures, drawn anew; needs pdftoppm
  page [--quick]             the program as one page for a browser, in target/page; quick: a larger module, sooner
  fuzz SECONDS               every fuzz target of tests/fuzz for so long; needs a C++ compiler
  plugins DIR                build the exporters and place their libraries into a folder
  package                    a release in target/package: program, exporters, manual, completions, licences
  install --prefix DIR       the same, laid out under a folder such as /usr/local";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let outcome = match words.as_slice() {
        ["test", options @ ..] => match testing::Asked::read(options) {
            Some(asked) => testing::test(asked),
            None => Err(USAGE.to_owned()),
        },
        ["tidy"] => tidy::tidy(),
        ["printed"] => tidy::list_printed(),
        ["golden"] => golden::golden(None),
        ["golden", "--looked", reason] => golden::golden(Some(reason)),
        ["pictures"] => pictures::pictures(),
        ["page"] => page::page(page::Build::Small),
        ["page", "--quick"] => page::page(page::Build::Quick),
        ["fuzz", seconds] => fuzz::fuzz(seconds),
        ["plugins", folder] => plugins::plugins(folder.as_ref()),
        ["package"] => package::package(),
        ["install", "--prefix", prefix] => package::install(prefix.as_ref()),
        _ => Err(USAGE.to_owned()),
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(words) => {
            if !words.is_empty() {
                eprintln!("{words}");
            }
            ExitCode::FAILURE
        }
    }
}
