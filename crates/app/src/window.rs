//! Opening the window, and what is said where there is none.

use crate::failure::Failure;
use crate::{check, terminal};
use editor::Opening;
use std::path::PathBuf;
use std::process::ExitCode;

pub(crate) fn run(file: Option<PathBuf>) -> Result<ExitCode, Failure> {
    if let Some(missing) = file.as_ref().filter(|file| !file.exists()) {
        return Err(Failure::NoSuchFile { file: missing.clone() });
    }
    let opening = file.clone().map_or(Opening::Last, Opening::File);
    match editor::run(opening, option_env!("LOADCAIRN_COMMIT")) {
        Ok(()) => Ok(ExitCode::SUCCESS),
        Err(why) if file.is_some() => Err(Failure::NoWindow { why: words(&why.to_string()) }),
        Err(why) => without_display(&words(&why.to_string())),
    }
}

/// Why there is no window: that there is no display, else what the system said.
fn words(why: &str) -> String {
    let is_set = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    if ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"].into_iter().any(is_set) {
        why.lines().next().unwrap_or_default().to_owned()
    } else {
        "there is no display: neither DISPLAY nor WAYLAND_DISPLAY is set".to_owned()
    }
}

/// Without a display and without a file: the check of the demo, so that the first command shows
/// something anywhere.
fn without_display(why: &str) -> Result<ExitCode, Failure> {
    terminal::complain(&format!(
        "no window can be opened here ({why}); here is the check of the embedded demo instead."
    ));
    let (_, text) = editor::DEMOS[0];
    let Ok(plan) = plan::file::read(text) else { return Ok(ExitCode::from(2)) };
    let assessment = assess::assess(&plan, assess::Ask::full());
    terminal::say(&check::lines(&plan, &assessment))?;
    terminal::say(
        "\nTo make its sheet: loadcairn sheet assets/examples/tandem-rear-seat.ron -o sheet.pdf\n\
         To check a plan:   loadcairn check PLAN.ron\n",
    )?;
    Ok(ExitCode::SUCCESS)
}
