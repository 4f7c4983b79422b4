//! Work that is not saved yet, kept aside so that a crash loses none of it.
//!
//! Each window keeps its plan in a file of its own in the system's place for data, never over the
//! user's file. Beside it lies a lock that the window holds while it lives: a kept plan whose lock
//! is free was left by a window that did not end properly, and is offered at the next start.

use crate::{lock, read, write_whole};
use plan::Plan;
use serde::{Deserialize, Serialize};
use std::fs::File;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread::JoinHandle;

const FOLDER: &str = "unsaved";

/// A plan that was kept.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
struct Kept {
    /// The user's file, if there was one.
    path: Option<PathBuf>,
    /// The fingerprint of what was in that file when it was last read or saved.
    saved: Option<String>,
    /// The plan, as its file would be.
    plan: String,
}

/// Keeps this window's plan, on a thread of its own: a slow disk holds up no frame.
pub struct Keeper {
    orders: Option<Sender<Order>>,
    thread: Option<JoinHandle<()>>,
    kept: bool,
}

enum Order {
    Keep(Kept),
    Forget,
    Adopt(Box<Left>),
}

impl Keeper {
    /// A keeper in this folder; none where it cannot be written or no lock can be had there.
    pub fn start(folder: &Path) -> Option<Self> {
        let folder = folder.join(FOLDER);
        std::fs::create_dir_all(&folder).ok()?;
        let slot = Slot::free(&folder)?;
        let (orders, heard) = channel();
        let thread = std::thread::Builder::new().name("keeper".to_owned()).spawn(move || slot.obey(&heard)).ok()?;
        Some(Self { orders: Some(orders), thread: Some(thread), kept: false })
    }

    /// Keeps the plan as it stands.
    pub fn keep(&mut self, plan: &Plan, path: Option<&Path>, saved: Option<&Plan>) {
        let kept = Kept {
            path: path.map(Path::to_owned),
            saved: saved.map(plan::file::fingerprint),
            plan: plan::file::write(plan),
        };
        self.order(Order::Keep(kept));
        self.kept = true;
    }

    /// Forgets what was kept: it is saved, or was given up.
    pub fn forget(&mut self) {
        if std::mem::replace(&mut self.kept, false) {
            self.order(Order::Forget);
        }
    }

    /// Takes another window's work off the disk, now that it is kept here.
    pub fn adopt(&self, left: Left) {
        self.order(Order::Adopt(Box::new(left)));
    }

    fn order(&self, order: Order) {
        if let Some(orders) = &self.orders {
            // The thread ends only with this keeper.
            let _ = orders.send(order);
        }
    }
}

impl Drop for Keeper {
    /// What was ordered is still done.
    fn drop(&mut self) {
        self.orders = None;
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

/// A file for one window's plan, with the lock that says that the window lives.
struct Slot {
    file: PathBuf,
    lock: PathBuf,
    /// Held, never read.
    held: File,
}

impl Slot {
    /// The first number without a lock and without a plan.
    fn free(folder: &Path) -> Option<Self> {
        (1..1000).find_map(|number| {
            let slot = Self::of(folder, number)?;
            let free = slot.held.try_lock().is_ok() && !slot.file.exists();
            free.then_some(slot)
        })
    }

    fn of(folder: &Path, number: u32) -> Option<Self> {
        let lock = folder.join(format!("{number}.lock"));
        let held = File::options().create(true).truncate(false).write(true).open(&lock).ok()?;
        Some(Self { file: folder.join(format!("{number}.ron")), lock, held })
    }

    fn obey(self, orders: &Receiver<Order>) {
        while let Ok(order) = orders.recv() {
            match order {
                Order::Keep(kept) => {
                    if let Ok(text) = ron::ser::to_string_pretty(&kept, ron::ser::PrettyConfig::default()) {
                        let _ = write_whole(&self.file, text.as_bytes());
                    }
                }
                Order::Forget => {
                    let _ = std::fs::remove_file(&self.file);
                }
                Order::Adopt(left) => left.forget(),
            }
        }
        if !self.file.exists() {
            let _ = std::fs::remove_file(&self.lock);
        }
    }
}

/// Unsaved work of a window that did not end properly.
#[derive(Debug)]
pub struct Left {
    file: PathBuf,
    /// Held so that no second window offers the same.
    held: File,
    /// The plan.
    pub plan: Plan,
    /// The user's file, if there was one.
    pub path: Option<PathBuf>,
    /// What was saved in it, by fingerprint.
    pub saved: Option<String>,
}

impl Left {
    /// What was left in this folder, each locked. What cannot be read stays where it is.
    pub fn behind(folder: &Path) -> Vec<Self> {
        let Ok(entries) = std::fs::read_dir(folder.join(FOLDER)) else { return Vec::new() };
        let mut files: Vec<PathBuf> = entries.filter_map(|entry| Some(entry.ok()?.path())).collect();
        files.retain(|path| path.extension().is_some_and(|ending| ending == "ron"));
        files.sort();
        files.into_iter().filter_map(Self::locked).collect()
    }

    fn locked(file: PathBuf) -> Option<Self> {
        let held = File::options().create(true).truncate(false).write(true).open(file.with_extension("lock")).ok()?;
        lock(&held).ok()?;
        let kept: Kept = ron::from_str(&read(&file).ok()?).ok()?;
        let plan = plan::file::read(&kept.plan).ok()?;
        Some(Self { file, held, plan, path: kept.path, saved: kept.saved })
    }

    /// Whether the user's file holds something else by now than when this work was begun.
    pub fn file_has_changed(&self) -> bool {
        let Some(path) = &self.path else { return false };
        let now = read(path).ok().and_then(|text| plan::file::read(&text).ok());
        now.map(|plan| plan::file::fingerprint(&plan)) != self.saved
    }

    /// Takes it off the disk: it is in the window now, or was given up.
    pub fn forget(self) {
        let _ = std::fs::remove_file(&self.file);
        let _ = std::fs::remove_file(self.file.with_extension("lock"));
        drop(self.held);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn demo() -> Plan {
        plan::file::read(include_str!("../../../assets/examples/tandem-rear-seat.ron")).expect("the demo")
    }

    #[test]
    fn what_a_window_kept_is_found_once_it_is_gone_and_not_before() {
        let folder = tempfile::tempdir().expect("a test folder");
        let path = Path::new("/plans/seat.ron");
        let mut keeper = Keeper::start(folder.path()).expect("a keeper");
        keeper.keep(&demo(), Some(path), Some(&demo()));
        while !folder.path().join(FOLDER).join("1.ron").exists() {
            std::thread::yield_now();
        }
        assert!(Left::behind(folder.path()).is_empty(), "the window lives");
        drop(keeper);
        let left = Left::behind(folder.path());
        assert_eq!(left.len(), 1);
        assert!(left[0].plan == demo() && left[0].path.as_deref() == Some(path));
        assert!(Left::behind(folder.path()).is_empty(), "another window offers it already");
    }

    #[test]
    fn what_was_saved_or_given_up_is_not_offered() {
        let folder = tempfile::tempdir().expect("a test folder");
        let mut keeper = Keeper::start(folder.path()).expect("a keeper");
        keeper.keep(&demo(), None, None);
        keeper.forget();
        drop(keeper);
        assert!(Left::behind(folder.path()).is_empty());
        let files = std::fs::read_dir(folder.path().join(FOLDER)).expect("the folder").count();
        assert_eq!(files, 0, "nothing lies about");
    }

    #[test]
    fn two_windows_keep_their_plans_apart() {
        let folder = tempfile::tempdir().expect("a test folder");
        let mut other = demo();
        other.title = "another".to_owned();
        for plan in [demo(), other.clone()] {
            let mut keeper = Keeper::start(folder.path()).expect("a keeper");
            keeper.keep(&plan, None, None);
        }
        let titles: Vec<String> = Left::behind(folder.path()).into_iter().map(|left| left.plan.title).collect();
        assert_eq!(titles, [demo().title, other.title]);
    }

    #[test]
    fn a_damaged_file_is_neither_offered_nor_touched() {
        let folder = tempfile::tempdir().expect("a test folder");
        let kept = folder.path().join(FOLDER).join("1.ron");
        std::fs::create_dir_all(folder.path().join(FOLDER)).expect("a folder");
        std::fs::write(&kept, "(path: None, plan: \"Plan(").expect("a file");
        assert!(Left::behind(folder.path()).is_empty());
        assert!(Keeper::start(folder.path()).is_some(), "another number is taken");
        assert!(kept.exists(), "it may still be of use to somebody");
    }
}
