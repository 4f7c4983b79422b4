//! The plan in the window with its file and its history. One gesture is one step of undo.

use plan::{Edit, Fault, Plan};
use std::path::{Path, PathBuf};

/// A step of history: what was done, and the plan on its other side.
#[derive(Clone, Debug)]
struct Change {
    name: String,
    plan: Plan,
}

/// The plan in the window.
#[derive(Clone, Debug)]
pub struct Document {
    plan: Plan,
    path: Option<PathBuf>,
    saved: Option<Plan>,
    /// What its file held when it was last read or saved here.
    text: Option<String>,
    past: Vec<Change>,
    future: Vec<Change>,
    revision: u64,
}

impl Document {
    /// A plan as it came from a file with this text.
    pub fn opened(plan: Plan, path: PathBuf, text: String) -> Self {
        Self { saved: Some(plan.clone()), path: Some(path), text: Some(text), ..Self::untitled(plan) }
    }

    /// A plan that has no file yet; as it stands, losing it loses nothing.
    pub fn untitled(plan: Plan) -> Self {
        let (past, future) = (Vec::new(), Vec::new());
        Self { saved: Some(plan.clone()), plan, path: None, text: None, past, future, revision: 0 }
    }

    /// Unsaved work that was kept aside, with what its file holds now, as far as that is known; the text
    /// of that file where it still is what this work was begun on.
    pub fn recovered(plan: Plan, path: Option<PathBuf>, (saved, text): (Option<Plan>, Option<String>)) -> Self {
        Self { saved, path, text, ..Self::untitled(plan) }
    }

    /// Its file, where that holds something else by now than when it was last read or saved here.
    pub fn changed_by_others(&self) -> Option<&Path> {
        let path = self.path.as_deref()?;
        let changed = self.text.as_ref().map_or_else(|| path.exists(), |text| disk::holds_other(path, text));
        changed.then_some(path)
    }

    /// The plan as it was last read or saved.
    pub fn saved(&self) -> Option<&Plan> {
        self.saved.as_ref()
    }

    /// The plan.
    pub fn plan(&self) -> &Plan {
        &self.plan
    }

    /// Its file.
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// Goes up with every change, undo and redo included.
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// Whether it differs from what was saved.
    pub fn is_dirty(&self) -> bool {
        self.saved.as_ref() != Some(&self.plan)
    }

    /// Its name for the window's title: file name, else plan title.
    pub fn name(&self) -> String {
        let file = self.path.as_deref().and_then(Path::file_name).map(|n| n.to_string_lossy().into_owned());
        file.unwrap_or_else(|| format!("{} (no file yet)", self.plan.title))
    }

    /// Makes an edit; one that changes nothing leaves no trace.
    ///
    /// # Errors
    /// The fault that the plan would have; it then stays as it is.
    pub fn apply(&mut self, edit: &Edit) -> Result<(), Fault> {
        let next = edit.apply(&self.plan)?;
        if next != self.plan {
            let name = edit.name(&self.plan);
            self.past.push(Change { name, plan: std::mem::replace(&mut self.plan, next) });
            self.future.clear();
            self.revision += 1;
        }
        Ok(())
    }

    /// What undo would take back.
    pub fn undo_name(&self) -> Option<&str> {
        self.past.last().map(|change| change.name.as_str())
    }

    /// What redo would do again.
    pub fn redo_name(&self) -> Option<&str> {
        self.future.last().map(|change| change.name.as_str())
    }

    /// Takes the last change back.
    pub fn undo(&mut self) {
        if let Some(Change { name, plan }) = self.past.pop() {
            self.future.push(Change { name, plan: std::mem::replace(&mut self.plan, plan) });
            self.revision += 1;
        }
    }

    /// Does again what was taken back.
    pub fn redo(&mut self) {
        if let Some(Change { name, plan }) = self.future.pop() {
            self.past.push(Change { name, plan: std::mem::replace(&mut self.plan, plan) });
            self.revision += 1;
        }
    }

    /// Notes that the plan as it stands is in this file, by this text.
    pub fn saved_as(&mut self, path: PathBuf, text: String) {
        self.text = Some(text);
        self.saved = Some(self.plan.clone());
        self.path = Some(path);
    }
}
