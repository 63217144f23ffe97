//! The program: reads the world, asks the engine, writes all or nothing.
//!
//! Given the words that were typed, it gives an exit code: 0 done, 1 a tray does not fit, 2 trouble. [`run`] is the
//! whole program on one screen. Nothing here does any work or prints.

#![allow(dead_code)]

mod args;
mod commands;
mod judgement;
mod report;
mod trouble;

use std::env;
use std::ffi::OsString;
use std::path::Path;
use std::process::ExitCode;

use clap::Parser;

use args::{Arguments, Command};
use report::Voice;
use trouble::Trouble;

/// How a command that met no trouble has ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Verdict {
    /// What was asked is done, and every tray fits.
    Done,
    /// A tray does not fit, fold or hold.
    DoesNotFit,
}

fn main() -> ExitCode {
    let typed: Vec<OsString> = env::args_os().collect();
    let second = typed.get(2).map(Path::new);
    match (typed.get(1).and_then(|word| word.to_str()), second) {
        (Some("__pages"), Some(folder)) => {
            return end(commands::pages::write(folder), &Voice::new(false));
        }
        _ => {}
    }
    match Arguments::try_parse_from(typed) {
        Ok(arguments) => {
            let voice = Voice::new(arguments.everywhere.quiet);
            end(run(&arguments, &voice), &voice)
        }
        Err(usage) => report::usage(&usage),
    }
}

fn run(arguments: &Arguments, _voice: &Voice) -> Result<Verdict, Vec<Trouble>> {
    let _everywhere = &arguments.everywhere;
    match &arguments.command {
        Command::Make(_asked) => Err(Trouble::sentence("`make` is not there yet").into()),
        Command::Check(_asked) => Err(Trouble::sentence("`check` is not there yet").into()),
        Command::Start(_asked) => Err(Trouble::sentence("`start` is not there yet").into()),
        Command::Styles(_asked) => Err(Trouble::sentence("`styles` is not there yet").into()),
        Command::Boards(_asked) => Err(Trouble::sentence("`boards` is not there yet").into()),
        Command::Exporters(_asked) => Err(Trouble::sentence("`exporters` is not there yet").into()),
    }
}

fn end(outcome: Result<Verdict, Vec<Trouble>>, voice: &Voice) -> ExitCode {
    match outcome {
        Ok(Verdict::Done) => ExitCode::SUCCESS,
        Ok(Verdict::DoesNotFit) => ExitCode::from(1),
        Err(troubles) => {
            voice.troubles(&troubles);
            ExitCode::from(2)
        }
    }
}
