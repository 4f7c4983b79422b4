//! What a reader who does not see the pages is told: heads, headings, tables by rows, drawings in words (source key
//! `iso-32000`: logical structure).

use crate::page::Role;
use krilla::tagging::{Identifier, TableHeaderScope, Tag, TagGroup, TagTree, kind};
use std::num::NonZeroU16;

/// The structure of a document in the making.
#[derive(Default)]
pub(super) struct Tags {
    tree: TagTree,
    table: Option<Open>,
}

/// A table whose rows are still coming.
struct Open {
    number: usize,
    rows: TagGroup,
    row: (usize, TagGroup),
}

impl Tags {
    /// Adds what stands on a page.
    pub(super) fn take(&mut self, page: Vec<(&Role, Identifier)>) {
        for (role, name) in page {
            match role {
                Role::Cell { table, row, is_head } => self.cell([*table, *row], *is_head, name),
                Role::Head(words) => self.add(TagGroup::new(heading(1, Some(words.clone()))), name),
                Role::RunningHead => self.add(TagGroup::new(Tag::P), name),
                Role::Heading => self.add(TagGroup::new(heading(2, None)), name),
                Role::Paragraph => self.add(TagGroup::new(Tag::P), name),
                Role::Drawing(words) => self.add(TagGroup::new(Tag::Figure(Some(words.clone()))), name),
            }
        }
    }

    /// The whole structure.
    pub(super) fn finish(mut self) -> TagTree {
        self.close();
        self.tree
    }

    fn add(&mut self, mut group: TagGroup, name: Identifier) {
        self.close();
        group.push(name);
        self.tree.push(group);
    }

    fn cell(&mut self, [table, row]: [usize; 2], is_head: bool, name: Identifier) {
        let mut cell = if is_head { TagGroup::new(Tag::TH(TableHeaderScope::Column)) } else { TagGroup::new(Tag::TD) };
        cell.push(name);
        if self.table.as_ref().is_none_or(|open| open.number != table) {
            self.close();
        }
        let new_row = || (row, TagGroup::new(Tag::TR));
        let open =
            self.table.get_or_insert_with(|| Open { number: table, rows: TagGroup::new(Tag::Table), row: new_row() });
        if open.row.0 != row {
            let (_, done) = std::mem::replace(&mut open.row, new_row());
            open.rows.push(done);
        }
        open.row.1.push(cell);
    }

    fn close(&mut self) {
        if let Some(Open { mut rows, row: (_, last), .. }) = self.table.take() {
            rows.push(last);
            self.tree.push(rows);
        }
    }
}

fn heading(level: u16, title: Option<String>) -> Tag<kind::Hn> {
    Tag::Hn(NonZeroU16::new(level).unwrap_or(NonZeroU16::MIN), title)
}
