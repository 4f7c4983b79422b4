//! How the file looks: one thing a line where a person would look for it. The entries of lists are
//! written by RON's own writer, so that names and quoting are those which reading expects.

use super::spared::Spared;
use super::weighed::Weighed;
use super::written::Written;
use ron::ser::PrettyConfig;
use serde::Serialize;
use serde::de::DeserializeOwned;

/// The file's text of a plan.
pub(super) fn text(plan: &impl Laid) -> String {
    let mut page = Page::default();
    page.part("Plan(", plan, ")");
    page.text
}

/// Where a value of the file stands on the page: in one line, unless it says otherwise.
pub(super) trait Laid: Serialize + DeserializeOwned {
    /// Its fields, a line each.
    fn lines(&self, _: &mut Page) {}
    /// As a field of a part that has a line for each of its fields.
    fn field(&self, name: &str, page: &mut Page) {
        page.field(name, self);
    }
    /// As an entry of a list.
    fn entry(&self, page: &mut Page) {
        page.line(&format!("{},", in_one_line(self)));
    }
}

impl Laid for String {}
impl Laid for f64 {}
impl Laid for u32 {}
impl Laid for bool {}
impl Laid for Written {}
impl Laid for Weighed {}
impl<L: Laid> Laid for Option<L> {}
impl<L: Laid> Laid for [L; 2] {}
impl<L: Laid> Laid for [L; 3] {}

impl<L: Laid> Laid for Vec<L> {
    fn field(&self, name: &str, page: &mut Page) {
        page.list(name, self);
    }
}

impl<L: Laid> Laid for Spared<L> {
    fn field(&self, name: &str, page: &mut Page) {
        if let Some(told) = &self.0 {
            told.field(name, page);
        }
    }
}

#[derive(Default)]
pub(super) struct Page {
    text: String,
    depth: usize,
}

impl Page {
    fn line(&mut self, line: &str) {
        self.text.extend(std::iter::repeat_n("    ", self.depth));
        self.text.push_str(line);
        self.text.push('\n');
    }

    fn open(&mut self, head: &str) {
        self.line(head);
        self.depth += 1;
    }

    fn close(&mut self, foot: &str) {
        self.depth -= 1;
        self.line(foot);
    }

    /// A part with a line for each of its fields.
    pub(super) fn part(&mut self, head: &str, part: &impl Laid, foot: &str) {
        self.open(head);
        part.lines(self);
        self.close(foot);
    }

    fn field(&mut self, name: &str, value: &impl Serialize) {
        self.line(&format!("{name}: {},", in_one_line(value)));
    }

    fn list(&mut self, name: &str, entries: &[impl Laid]) {
        if entries.is_empty() {
            return self.line(&format!("{name}: [],"));
        }
        self.open(&format!("{name}: ["));
        entries.iter().for_each(|entry| entry.entry(self));
        self.close("],");
    }
}

fn in_one_line(value: &impl Serialize) -> String {
    let config = PrettyConfig::new()
        .struct_names(true)
        .compact_structs(true)
        .compact_arrays(true)
        .compact_maps(true)
        .new_line("\n");
    plain_apostrophes(&ron::ser::to_string_pretty(value, config).expect("every type of format 1 can be written as RON"))
}

/// RON's writer puts a backslash before every apostrophe, which no reader needs and people stumble
/// over. Backslashes stand within quotation marks only, and always before the character they mean.
fn plain_apostrophes(ron: &str) -> String {
    let mut plain = String::with_capacity(ron.len());
    let mut characters = ron.chars();
    while let Some(character) = characters.next() {
        if character != '\\' {
            plain.push(character);
        } else if let Some(meant) = characters.next() {
            plain.extend((meant != '\'').then_some(character));
            plain.push(meant);
        }
    }
    plain
}
