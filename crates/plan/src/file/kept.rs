//! What a value of the plan is in the file, both ways: one impl a kind of value. Records have theirs by
//! `record!`, from their line in the table of `v1`.

use super::layout::Laid;
use super::spared::Spared;
use super::weighed::Weighed;
use super::written::Written;
use crate::{Date, Fault, NotADate, Path, Way};
use quantity::{Angle, Force, Length, Mass, Pressure, Quantity, Stiffness, Time, Units};
use std::collections::BTreeMap;

/// A value of the plan as the file has it.
pub(super) trait Kept: Sized {
    /// How it stands in the file.
    type File: Laid;
    /// From the file; what is no quantity is collected.
    fn enter(file: Self::File, path: &Path, entry: &mut Entry) -> Self;
    /// To the file; the path tells how finely.
    fn leave(&self, path: &Path, exit: &Exit) -> Self::File;
}

/// Every value that is not the quantity which is due there.
#[derive(Default)]
pub(super) struct Entry {
    pub(super) faults: Vec<Fault>,
}

impl Entry {
    /// Zero stands in for what is no quantity: with a fault at hand the plan is thrown away.
    fn quantity<Q: Quantity>(&mut self, path: &Path, written: &Written) -> Q {
        written.quantity().unwrap_or_else(|error| {
            let sentence = format!("{}: {error}", field_words(path));
            self.faults.push(Fault { path: path.clone(), sentence });
            Q::from_si(0.0)
        })
    }
}

/// The last field on the way, in words: `mass tolerance`.
fn field_words(path: &Path) -> String {
    let field = path.0.iter().rev().find_map(|way| match way {
        Way::Field(name) => Some(name.replace('_', " ")),
        Way::Index(_) | Way::Key(_) => None,
    });
    field.unwrap_or_default()
}

/// In which units values are written.
pub(super) struct Exit {
    pub(super) units: Units,
}

macro_rules! quantities {
    ($($quantity:ident)*) => { $(
        impl Kept for $quantity {
            type File = Written;
            fn enter(file: Written, path: &Path, entry: &mut Entry) -> Self {
                entry.quantity(path, &file)
            }
            fn leave(&self, path: &Path, exit: &Exit) -> Written {
                Written::Text(self.written(exit.units, path.grain()))
            }
        }
    )* };
}

quantities! { Length Mass Force Stiffness Pressure Angle Time }

macro_rules! plain {
    ($($plain:ident)*) => { $(
        impl Kept for $plain {
            type File = $plain;
            fn enter(file: $plain, _: &Path, _: &mut Entry) -> Self {
                file
            }
            fn leave(&self, _: &Path, _: &Exit) -> $plain {
                self.clone()
            }
        }
    )* };
}

plain! { String f64 u32 bool }

impl Kept for Date {
    type File = String;
    /// A text that is no date is collected, and none stands in: the plan is thrown away.
    fn enter(file: String, path: &Path, entry: &mut Entry) -> Self {
        file.parse().unwrap_or_else(|error: NotADate| {
            entry.faults.push(Fault { path: path.clone(), sentence: format!("{}: {error}", field_words(path)) });
            Date::FIRST
        })
    }
    fn leave(&self, _: &Path, _: &Exit) -> String {
        self.to_string()
    }
}

impl<K: Kept, const N: usize> Kept for [K; N]
where
    [K::File; N]: Laid,
{
    type File = [K::File; N];
    fn enter(file: Self::File, path: &Path, entry: &mut Entry) -> Self {
        let mut index = 0..N;
        file.map(|one| K::enter(one, &path.index(index.next().unwrap_or(N)), entry))
    }
    fn leave(&self, path: &Path, exit: &Exit) -> Self::File {
        std::array::from_fn(|index| self[index].leave(&path.index(index), exit))
    }
}

impl<K: Kept> Kept for Vec<K> {
    type File = Vec<K::File>;
    fn enter(file: Self::File, path: &Path, entry: &mut Entry) -> Self {
        file.into_iter().enumerate().map(|(index, one)| K::enter(one, &path.index(index), entry)).collect()
    }
    fn leave(&self, path: &Path, exit: &Exit) -> Self::File {
        self.iter().enumerate().map(|(index, one)| one.leave(&path.index(index), exit)).collect()
    }
}

impl<K: Kept> Kept for Option<K> {
    type File = Option<K::File>;
    fn enter(file: Self::File, path: &Path, entry: &mut Entry) -> Self {
        file.map(|one| K::enter(one, path, entry))
    }
    fn leave(&self, path: &Path, exit: &Exit) -> Self::File {
        self.as_ref().map(|one| one.leave(path, exit))
    }
}

impl Kept for BTreeMap<u32, Mass> {
    type File = Weighed;
    fn enter(file: Weighed, path: &Path, entry: &mut Entry) -> Self {
        file.0.iter().map(|(item, mass)| (*item, entry.quantity(&path.key(*item), mass))).collect()
    }
    fn leave(&self, path: &Path, exit: &Exit) -> Weighed {
        Weighed(self.iter().map(|(item, mass)| (*item, mass.leave(path, exit))).collect())
    }
}

/// What may be left out and stands plainly where it stands, without RON's `Some`.
pub(super) trait Plain: Sized {
    /// How it stands in the file.
    type File: Laid;
    fn enter(file: Spared<Self::File>, path: &Path, entry: &mut Entry) -> Self;
    fn leave(&self, path: &Path, exit: &Exit) -> Spared<Self::File>;
}

impl<K: Kept> Plain for Option<K> {
    type File = K::File;
    fn enter(file: Spared<K::File>, path: &Path, entry: &mut Entry) -> Self {
        file.0.map(|one| K::enter(one, path, entry))
    }
    fn leave(&self, path: &Path, exit: &Exit) -> Spared<K::File> {
        Spared(self.as_ref().map(|one| one.leave(path, exit)))
    }
}
