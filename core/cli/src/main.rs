//! The program: reads files, runs the engine, writes all files or none.
//!
//! **Input:** the words of the command line. **Output:** an exit code: 0 done, 1 a tray does not fit, 2 error. [`run`]
//! is the whole program on one screen. This file only dispatches; it computes and prints nothing.

mod args;
mod check_jobs;
mod commands;
mod error;
mod exporter_child;
mod exporter_file;
mod exporter_host;
mod exporter_pool;
mod exporter_protocol;
mod exporter_sandbox;
mod exporters;
mod font;
mod inputs;
mod interrupt;
mod new_file;
mod pictures;
mod read_job;
mod report;
mod side_by_side;
mod style_folders;
mod watching;
mod write_files;

use std::env;
use std::ffi::OsString;
use std::path::Path;
use std::process::ExitCode;

use args::{Arguments, Command};
use error::CliError;
use report::Output;

/// The result of a command without an error.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Verdict {
    /// The command is done, and every tray fits.
    Done,
    /// A tray does not fit, fold or hold.
    DoesNotFit,
    /// There were errors, which have been printed.
    ErrorsTold,
}

fn main() -> ExitCode {
    let typed: Vec<OsString> = env::args_os().collect();
    exporter_child::serve_if_called(&typed);
    let second = typed.get(2).map(Path::new);
    if let (Some("__pages"), Some(folder)) = (typed.get(1).and_then(|word| word.to_str()), second) {
        return end(commands::pages::write(folder), &Output::new(false));
    }
    match Arguments::read(typed) {
        Ok(arguments) => {
            let output = Output::new(arguments.everywhere.quiet);
            end(run(&arguments, &output), &output)
        }
        Err(error) => report::print_usage(&error),
    }
}

fn run(arguments: &Arguments, output: &Output) -> Result<Verdict, Vec<CliError>> {
    let everywhere = &arguments.everywhere;
    match &arguments.command {
        Command::Make(asked) => commands::make::run(asked, everywhere, output),
        Command::Strip(asked) => commands::strip::run(asked, everywhere, output),
        Command::Nest(asked) => commands::nest::run(asked, everywhere, output),
        Command::Check(asked) => commands::check::run(asked, everywhere, output),
        Command::Fix(asked) => commands::fix::run(asked, everywhere, output),
        Command::Start(asked) => commands::start::run(asked, everywhere, output),
        Command::Lint(asked) => commands::lint::run(asked, output),
        Command::Styles(asked) => commands::styles::run(asked, everywhere, output),
        Command::Boards(asked) => commands::boards::run(asked, output),
        Command::Exporters(asked) => {
            let time_limit = asked.patience.exporter_seconds;
            output.print_result(&commands::exporters::list(&everywhere.plugins, time_limit)?)?;
            Ok(Verdict::Done)
        }
    }
}

fn end(outcome: Result<Verdict, Vec<CliError>>, output: &Output) -> ExitCode {
    match outcome {
        Ok(Verdict::Done) => ExitCode::SUCCESS,
        Ok(Verdict::DoesNotFit) => ExitCode::from(1),
        Ok(Verdict::ErrorsTold) => ExitCode::from(2),
        Err(errors) => {
            output.errors(&errors);
            ExitCode::from(2)
        }
    }
}
