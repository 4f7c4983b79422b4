//! The binary `loadcairn`: the window, and the same work headless.
//!
//! This crate reads the command line, opens files, prints, and turns endings into exit codes:
//! 0 no check fails and none is undecided (or the work is done), 1 some check falls short, 2 a file or the command
//! line cannot be used. It must never compute anything itself.

mod check;
mod failure;
mod propose;
mod record;
mod sheet;
mod target;
mod terminal;
mod window;
mod words;

use assess::{Ask, Assessment};
use clap::{Parser, Subcommand};
use failure::Failure;
use std::path::PathBuf;
use std::process::ExitCode;
use target::Target;
use terminal::Progress;

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
    /// Checks a plan: exit code 0 no check fails and none is undecided, 1 some check falls short, 2 the file can't be used.
    Check {
        /// The plan file.
        file: PathBuf,
        /// Prints the whole report as JSON, in SI.
        #[arg(long)]
        json: bool,
        /// Looks for moves that mend a finding, each tried with every check. It takes its time.
        #[arg(long)]
        remedies: bool,
        /// Tells no progress.
        #[arg(long)]
        quiet: bool,
    },
    /// Writes the stacking sheet of a plan.
    Sheet {
        /// The plan file.
        file: PathBuf,
        /// Where the sheet is written; the name ends in .pdf, .svg (a file a page: NAME-01.svg) or .csv.
        #[arg(short, long)]
        output: PathBuf,
        /// Replaces a file of that name. A log is never replaced, nor the file that is read.
        #[arg(long)]
        force: bool,
        /// Tells no progress.
        #[arg(long)]
        quiet: bool,
    },
    /// Lays out a stack and writes the plan with it: exit code 0 no check fails and none is undecided, 1 written,
    /// but some check falls short, 2 the file can't be used.
    Propose {
        /// The plan file. Locked pieces stay where they are; its other placements give way.
        file: PathBuf,
        /// Where the plan with the proposed stack is written; the name ends in .ron.
        #[arg(short, long)]
        output: PathBuf,
        /// Replaces a file of that name. A log is never replaced, nor the file that is read.
        #[arg(long)]
        force: bool,
        /// The same seed gives the same stack.
        #[arg(long, default_value_t = 1, value_parser = seed)]
        seed: u64,
        /// Tells no progress.
        #[arg(long)]
        quiet: bool,
    },
    /// Writes the record of a test day from its log.
    Record {
        /// The log that the Test day page kept.
        log: PathBuf,
        /// Where the record is written; the name ends in .pdf or .csv.
        #[arg(short, long)]
        output: PathBuf,
        /// Replaces a file of that name. A log is never replaced, nor the file that is read.
        #[arg(long)]
        force: bool,
    },
    /// Prints what a shell completes of this command line.
    Completions {
        /// The shell.
        shell: clap_complete::Shell,
    },
    /// Prints the manual page.
    Manual {
        /// Writes it into this folder instead, with a page for each subcommand.
        #[arg(long)]
        folder: Option<PathBuf>,
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
    let done = run(line);
    done.unwrap_or_else(|failure| {
        failure.print();
        ExitCode::from(2)
    })
}

fn run(line: CommandLine) -> Result<ExitCode, Failure> {
    match line.command {
        Some(Command::Check { file, json, remedies, quiet }) => {
            check::run((&file, remedies), json, &Progress::begin(quiet))
        }
        Some(Command::Sheet { file, output, force, quiet }) => {
            sheet::run(&file, &Target { path: &output, force }, &Progress::begin(quiet))
        }
        Some(Command::Propose { file, output, force, seed, quiet }) => {
            propose::run((&file, seed), &Target { path: &output, force }, &Progress::begin(quiet))
        }
        Some(Command::Record { log, output, force }) => record::run(&log, &Target { path: &output, force }),
        Some(Command::Completions { shell }) => words::completions::<CommandLine>(shell),
        Some(Command::Manual { folder }) => words::manual::<CommandLine>(folder.as_deref()),
        None => window::run(line.file),
    }
}

/// A seed as it is typed.
fn seed(text: &str) -> Result<u64, String> {
    text.parse().ok().ok_or_else(|| format!("a whole number from 0 to {} is expected", u64::MAX))
}

/// Reads a plan from its file.
fn read_plan(file: &std::path::Path) -> Result<plan::Plan, Failure> {
    let text = disk::read(file).map_err(|source| Failure::Read { file: file.to_owned(), source })?;
    if testday::Log::begins(text.as_bytes()) {
        return Err(Failure::IsLog { file: file.to_owned() });
    }
    plan::file::read(&text).map_err(|source| Failure::Unusable { file: file.to_owned(), source })
}

/// The whole assessment, with progress; it is never stopped here.
fn assessed(plan: &plan::Plan, remedies: bool, progress: &Progress) -> Assessment {
    let heard = |part| progress.tell("checking", part);
    assess::assess(plan, Ask { remedies, progress: &heard, ..Ask::full() })
}
