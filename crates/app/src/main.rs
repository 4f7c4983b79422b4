//! The binary `loadcairn`: the window, and the same work headless.
//!
//! This crate reads the command line, opens files, prints, and turns endings into exit codes:
//! 0 every check holds (or the work is done), 1 some check falls short, 2 a file or the command
//! line cannot be used. It must never compute anything itself.

mod check;
mod failure;
mod propose;
mod record;
mod sheet;
mod window;

use clap::{Parser, Subcommand};
use failure::Failure;
use std::path::PathBuf;
use std::process::ExitCode;

/// Plans, checks and prints the sandbag stack for a proof-load test of a pilot's seat.
#[derive(Parser)]
#[command(name = "loadcairn", version, args_conflicts_with_subcommands = true)]
struct CommandLine {
    #[command(subcommand)]
    command: Option<Command>,
    /// The plan to open in the window, or the log of a test day to go on with; without it the last plan,
    /// else the demo.
    file: Option<PathBuf>,
}

#[derive(Subcommand)]
enum Command {
    /// Checks a plan: exit code 0 every check holds, 1 some check falls short, 2 the file can't be used.
    Check {
        /// The plan file.
        file: PathBuf,
        /// Prints the whole report as JSON, in SI.
        #[arg(long)]
        json: bool,
    },
    /// Writes the stacking sheet of a plan.
    Sheet {
        /// The plan file.
        file: PathBuf,
        /// Where the sheet is written; the name ends in .pdf, .svg or .csv.
        #[arg(short, long)]
        output: PathBuf,
    },
    /// Lays out a stack and writes the plan with it: exit code 0 every check holds, 1 written, but some
    /// check falls short, 2 the file can't be used.
    Propose {
        /// The plan file. Locked pieces stay where they are; its other placements give way.
        file: PathBuf,
        /// Where the plan with the proposed stack is written.
        #[arg(short, long)]
        output: PathBuf,
        /// The same seed gives the same stack.
        #[arg(long, default_value_t = 1)]
        seed: u64,
    },
    /// Writes the record of a test day from its log.
    Record {
        /// The log that the Test day page kept.
        log: PathBuf,
        /// Where the record is written; the name ends in .pdf or .csv.
        #[arg(short, long)]
        output: PathBuf,
    },
}

fn main() -> ExitCode {
    let line = match CommandLine::try_parse() {
        Ok(line) => line,
        Err(asked) if !asked.use_stderr() => asked.exit(),
        Err(wrong) => {
            Failure::command_line(&wrong).print();
            return ExitCode::from(2);
        }
    };
    let done = match line.command {
        Some(Command::Check { file, json }) => check::run(&file, json),
        Some(Command::Sheet { file, output }) => sheet::run(&file, &output),
        Some(Command::Propose { file, output, seed }) => propose::run(&file, &output, seed),
        Some(Command::Record { log, output }) => record::run(&log, &output),
        None => window::run(line.file),
    };
    done.unwrap_or_else(|failure| {
        failure.print();
        ExitCode::from(2)
    })
}

/// Reads a plan from its file.
fn read_plan(file: &std::path::Path) -> Result<plan::Plan, Failure> {
    let text = editor::disk::read(file).map_err(|source| Failure::Read { file: file.to_owned(), source })?;
    plan::file::read(&text).map_err(|source| Failure::Unusable { file: file.to_owned(), source })
}
