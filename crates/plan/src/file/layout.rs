//! How the file looks: one thing a line where a person would look for it. The entries of lists are
//! written by RON's own writer, so that names and quoting are those which reading expects.

use super::v1;
use ron::ser::PrettyConfig;
use serde::Serialize;

pub(super) fn text(plan: &v1::Plan) -> String {
    let mut page = Page { text: String::new(), depth: 0 };
    page.open("Plan(");
    page.field("format", &plan.format);
    page.field("title", &plan.title);
    page.field("units", &plan.units);
    page.open("load_cases: [");
    plan.load_cases.iter().for_each(|case| load_case(&mut page, case));
    page.close("],");
    page.field("case", &plan.case);
    article(&mut page, &plan.article);
    page.field("target", &plan.target);
    if !plan.other_targets.is_empty() {
        page.list("other_targets", &plan.other_targets);
    }
    fixture(&mut page, &plan.fixture);
    bed(&mut page, &plan.bed);
    page.list("ballast", &plan.ballast);
    page.list("stack", &plan.stack);
    page.list("gauges", &plan.gauges);
    page.list("holds", &plan.holds);
    page.field("allow", &plan.allow);
    page.close(")");
    page.text
}

fn load_case(page: &mut Page, case: &v1::LoadCase) {
    page.open("LoadCase(");
    page.field("name", &case.name);
    page.field("basis", &case.basis);
    page.field("occupant_mass", &case.occupant_mass);
    page.field("load_factor", &case.load_factor);
    page.field("direction", &case.direction);
    page.field("safety_factor", &case.safety_factor);
    page.field("special_factor", &case.special_factor);
    if case.from_rule.is_some() {
        page.field("from_rule", &case.from_rule);
    }
    if !case.not_entered.is_spared() {
        page.field("not_entered", &case.not_entered);
    }
    page.close("),");
}

fn article(page: &mut Page, article: &v1::Article) {
    page.open("article: Article(");
    page.field("name", &article.name);
    page.field("mass", &article.mass);
    page.field("centroid", &article.centroid);
    page.field("pitch", &article.pitch);
    page.field("pivot", &article.pivot);
    page.list("outline", &article.outline);
    page.list("keep_clear", &article.keep_clear);
    if let Some(picture) = &article.picture {
        page.field("picture", &Some(picture));
    }
    if !article.weighings.is_empty() {
        page.list("weighings", &article.weighings);
    }
    page.close("),");
}

fn fixture(page: &mut Page, fixture: &v1::Fixture) {
    page.open("fixture: Fixture(");
    page.list("supports", &fixture.supports);
    page.list("hold_downs", &fixture.hold_downs);
    page.list("bindings", &fixture.bindings);
    if !fixture.catch_blocks.is_empty() {
        page.list("catch_blocks", &fixture.catch_blocks);
    }
    page.field("floor_friction", &fixture.floor_friction);
    page.close("),");
}

fn bed(page: &mut Page, bed: &v1::Bed) {
    page.open("bed: Bed(");
    page.field("origin", &bed.origin);
    page.field("slope", &bed.slope);
    page.field("friction", &bed.friction);
    page.field("touch", &bed.touch);
    if !bed.touch_hard.is_spared() {
        page.field("touch_hard", &bed.touch_hard);
    }
    page.field("beside", &bed.beside);
    page.list("bearings", &bed.bearings);
    page.close("),");
}

struct Page {
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

    fn field(&mut self, name: &str, value: &impl Serialize) {
        self.line(&format!("{name}: {},", in_one_line(value)));
    }

    fn list(&mut self, name: &str, entries: &[impl Serialize]) {
        if entries.is_empty() {
            return self.line(&format!("{name}: [],"));
        }
        self.open(&format!("{name}: ["));
        entries.iter().for_each(|entry| self.line(&format!("{},", in_one_line(entry))));
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
