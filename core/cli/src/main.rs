//! The program: reads the world, asks the engine, writes all or nothing.
//!
//! Given the words that were typed, it gives an exit code: 0 done, 1 a tray does not fit, 2 trouble. [`run`] is the
//! whole program on one screen. Nothing here does any work or prints.

mod args;
mod commands;
mod delivery;
mod exporter_child;
mod exporter_frames;
mod exporter_host;
mod exporters;
mod job_file;
mod judgement;
mod lengths;
mod library;
mod nearest;
mod report;
mod trouble;
mod usual;

use std::env;
use std::ffi::OsString;
use std::path::Path;
use std::process::ExitCode;

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
    exporter_child::serve_if_called(&typed);
    let second = typed.get(2).map(Path::new);
    if let (Some("__pages"), Some(folder)) = (typed.get(1).and_then(|word| word.to_str()), second) {
        return end(commands::pages::write(folder), &Voice::new(false));
    }
    match Arguments::read(typed) {
        Ok(arguments) => {
            let voice = Voice::new(arguments.everywhere.quiet);
            end(run(&arguments, &voice), &voice)
        }
        Err(usage) => report::usage(&usage),
    }
}

fn run(arguments: &Arguments, voice: &Voice) -> Result<Verdict, Vec<Trouble>> {
    let everywhere = &arguments.everywhere;
    match &arguments.command {
        Command::Make(asked) => commands::make::run(asked, everywhere, voice),
        Command::Check(asked) => commands::check::run(asked, everywhere, voice),
        Command::Start(asked) => commands::start::run(asked, everywhere, voice),
        Command::Lint(asked) => commands::lint::run(asked, voice),
        Command::Styles(asked) => commands::styles::run(asked, everywhere, voice),
        Command::Boards(asked) => commands::boards::run(asked, voice),
        Command::Exporters(asked) => {
            let time_limit = asked.patience.exporter_seconds;
            voice.answer(&commands::exporters::list(&everywhere.plugins, time_limit)?)?;
            Ok(Verdict::Done)
        }
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
