//! The ways of proving with less than a programme of the whole stack. Each can be left out: a bench measures what it
//! saves, and a test holds that no answer hangs on it.

use std::cell::Cell;

/// One of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shortcut {
    /// Load paths traced from piece to piece.
    LoadPath,
    /// Forces of a neighbouring push rebalanced.
    Rebalance,
    /// Programmes on the layers in which faces part.
    Layers,
    /// Rebalancing only from the layer on at which the load path is blocked; without it, in the whole stack.
    Band,
    /// Mechanisms and forces of the state before.
    Inherit,
}

impl Shortcut {
    /// All of them.
    pub const ALL: [Shortcut; 5] =
        [Shortcut::LoadPath, Shortcut::Rebalance, Shortcut::Layers, Shortcut::Band, Shortcut::Inherit];
}

/// A set of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shortcuts([bool; Shortcut::ALL.len()]);

impl Shortcuts {
    /// With all of them, as every verdict is found.
    pub const ALL: Shortcuts = Shortcuts([true; Shortcut::ALL.len()]);
    /// With none: a programme of the whole stack for every bound.
    pub const NONE: Shortcuts = Shortcuts([false; Shortcut::ALL.len()]);

    /// The same without this one.
    pub fn without(mut self, shortcut: Shortcut) -> Shortcuts {
        self.0[shortcut as usize] = false;
        self
    }

    pub(super) fn has(self, shortcut: Shortcut) -> bool {
        self.0[shortcut as usize]
    }
}

/// How often each way was taken on the way to some verdicts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Work {
    /// Programmes of a whole group.
    pub whole: u32,
    /// Programmes of some of its layers.
    pub layers: u32,
    /// Forces rebalanced, or tried to.
    pub rebalanced: u32,
    /// Load paths traced, or tried to.
    pub traced: u32,
}

/// Which shortcuts a search may take, and the count of what it did.
pub(super) struct Means {
    shortcuts: Shortcuts,
    work: Cell<Work>,
}

impl Means {
    pub(super) fn new(shortcuts: Shortcuts) -> Means {
        Means { shortcuts, work: Cell::default() }
    }

    pub(super) fn has(&self, shortcut: Shortcut) -> bool {
        self.shortcuts.has(shortcut)
    }

    pub(super) fn count(&self, add: impl Fn(&mut Work)) {
        let mut work = self.work.get();
        add(&mut work);
        self.work.set(work);
    }

    pub(super) fn work(&self) -> Work {
        self.work.get()
    }
}

impl std::ops::AddAssign for Work {
    fn add_assign(&mut self, more: Work) {
        self.whole += more.whole;
        self.layers += more.layers;
        self.rebalanced += more.rebalanced;
        self.traced += more.traced;
    }
}
