//! The sheet to the system's printer, on a thread of its own. Where no print command takes it, the pages open in
//! what shows PDF files, to be printed from there.

use eframe::egui::Context;
use std::ffi::OsString;
use std::fs::OpenOptions;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};

/// What became of the pages.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Printed {
    /// They went to the printer; the print command's own words.
    Sent(String),
    /// They are open in the system's viewer.
    Opened,
}

/// What prints: the system, or a script in tests.
pub trait Printer: Send {
    /// Prints the bytes of a PDF file under this title; what became of it comes by `reply`, and the window is woken.
    fn print(&self, title: &str, pdf: Vec<u8>, ctx: &Context, reply: Sender<Result<Printed, String>>);
}

/// The system's commands.
#[derive(Clone, Debug)]
pub struct System {
    /// Prints a file: `lp`, as POSIX has it (IEEE Std 1003.1, `lp`).
    pub print: OsString,
    /// Shows a file in what the desktop has for it, with what comes before the name.
    pub show: Vec<OsString>,
}

impl Default for System {
    fn default() -> Self {
        let show: &[&str] = if cfg!(windows) {
            &["cmd", "/C", "start", ""]
        } else if cfg!(target_os = "macos") {
            &["open"]
        } else {
            &["xdg-open"]
        };
        Self { print: "lp".into(), show: show.iter().map(Into::into).collect() }
    }
}

impl Printer for System {
    fn print(&self, title: &str, pdf: Vec<u8>, ctx: &Context, reply: Sender<Result<Printed, String>>) {
        let (system, title, ctx) = (self.clone(), title.to_owned(), ctx.clone());
        std::thread::spawn(move || {
            // The window may be gone by now.
            let _ = reply.send(system.printed(&title, &pdf));
            ctx.request_repaint();
        });
    }
}

/// Nothing prints: for tests.
pub struct NoPrinter;

impl Printer for NoPrinter {
    fn print(&self, _: &str, _: Vec<u8>, _: &Context, reply: Sender<Result<Printed, String>>) {
        // Whoever asked may be gone.
        let _ = reply.send(Err("there is no printer".to_owned()));
    }
}

impl System {
    fn printed(&self, title: &str, pdf: &[u8]) -> Result<Printed, String> {
        let file = spooled(pdf).map_err(|error| format!("the pages could not be written for the printer: {error}"))?;
        if let Some(said) = self.sent(title, &file) {
            // The print command has read it; what is left over does no harm.
            let _ = std::fs::remove_file(&file);
            return Ok(Printed::Sent(said));
        }
        match self.show.split_first() {
            Some((viewer, before)) if ran(Command::new(viewer).args(before).arg(&file)).is_some() => {
                Ok(Printed::Opened)
            }
            _ => {
                let _ = std::fs::remove_file(&file);
                Err("no print command takes the sheet, and nothing here shows PDF files: save it and print it elsewhere"
                    .to_owned())
            }
        }
    }

    /// What the print command says, where it takes the file.
    fn sent(&self, title: &str, file: &Path) -> Option<String> {
        ran(Command::new(&self.print).arg("-t").arg(title).arg("--").arg(file))
    }
}

/// What a command says when it ends well.
fn ran(command: &mut Command) -> Option<String> {
    let ended = command.stdin(Stdio::null()).stderr(Stdio::null()).output().ok()?;
    ended
        .status
        .success()
        .then(|| String::from_utf8_lossy(&ended.stdout).split_whitespace().collect::<Vec<_>>().join(" "))
}

/// A new file of the user's own, under a name that nothing has: no link is followed.
fn spooled(pdf: &[u8]) -> std::io::Result<PathBuf> {
    static COUNT: AtomicU32 = AtomicU32::new(0);
    let count = COUNT.fetch_add(1, Ordering::Relaxed);
    let path = std::env::temp_dir().join(format!("loadcairn-{}-{count}.pdf", std::process::id()));
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options.open(&path)?.write_all(pdf)?;
    Ok(path)
}

/// Pages on their way to the printer.
pub(crate) struct Printing(Receiver<Result<Printed, String>>);

impl Printing {
    pub(crate) fn begin(printer: &dyn Printer, title: &str, pdf: Vec<u8>, ctx: &Context) -> Self {
        let (reply, answer) = channel();
        printer.print(title, pdf, ctx, reply);
        Self(answer)
    }

    /// What became of them, once that is known.
    pub(crate) fn ended(&self) -> Option<Result<Printed, String>> {
        self.0.try_recv().ok()
    }
}

#[cfg(all(test, unix))]
mod tests {
    use super::{Printed, System};
    use std::ffi::OsString;
    use std::os::unix::fs::PermissionsExt;
    use std::path::Path;

    /// A command of this folder that does these lines.
    fn command(folder: &Path, name: &str, lines: &str) -> OsString {
        let path = folder.join(name);
        std::fs::write(&path, format!("#!/bin/sh\n{lines}\n")).expect("written");
        std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o755)).expect("made a command");
        path.into()
    }

    #[test]
    fn the_print_command_is_given_title_and_pages_and_its_words_are_told() {
        let folder = tempfile::tempdir().expect("a folder");
        let took = folder.path().join("took");
        let lines = format!("echo \"$1 $2\" > {0}; cat \"$4\" >> {0}; echo request id is shop-7", took.display());
        let system = System { print: command(folder.path(), "print", &lines), show: vec!["false".into()] };
        let printed = system.printed("a; b", b"%PDF-1.7");
        assert_eq!(printed, Ok(Printed::Sent("request id is shop-7".to_owned())));
        assert_eq!(std::fs::read_to_string(took).expect("it was run"), "-t a; b\n%PDF-1.7");
    }

    #[test]
    fn without_a_printer_the_pages_are_opened_and_without_a_viewer_it_is_told() {
        let folder = tempfile::tempdir().expect("a folder");
        let shown = folder.path().join("shown");
        let viewer = command(folder.path(), "view", &format!("cp \"$1\" {}; rm \"$1\"", shown.display()));
        let no_printer = command(folder.path(), "print", "exit 1");
        let system = System { print: no_printer, show: vec![viewer] };
        assert_eq!(system.printed("sheet", b"%PDF-1.7"), Ok(Printed::Opened));
        assert_eq!(std::fs::read(shown).expect("it was opened"), b"%PDF-1.7");
        let nothing = System { print: folder.path().join("none").into(), show: vec![folder.path().join("no").into()] };
        let told = nothing.printed("sheet", b"%PDF-1.7").expect_err("nothing prints");
        assert!(told.ends_with("save it and print it elsewhere"), "{told}");
    }
}
