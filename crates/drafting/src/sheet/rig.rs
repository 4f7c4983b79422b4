//! The fixture: what stands where, what holds it down, and what it bears of a level push.

use super::known::Known;
use super::level;
use super::picture::Picture;
use crate::figure::{Align, Mark};
use crate::page::{Book, Cell, Column, Role, Style, Table};
use crate::views::{self, Scene, View};
use crate::words::{bare_place, force, heading, unit_of_place};
use assess::Assessment;
use plan::{Anchors, Plan, PreloadSet};
use quantity::{Grain, Quantity};

/// Whether mark and string were told as well: where the drawings leave room for it.
pub(super) fn set(book: &mut Book, known: &Known) -> bool {
    let (plan, assessment) = (known.plan, known.assessment);
    book.section_on(
        "Fixture",
        &format!("Stations, buttock lines and waterlines of the floor frame, {}", unit_of_place(plan)),
    );
    let pages = [View::Side, View::Above];
    let scene = Scene { step: 0, ..Scene::whole(plan, &assessment.closed) };
    // What stands under the drawings is set first in thought: the drawings share what is left.
    let words_mm: f64 = words(plan).iter().map(|line| book.paragraph_mm(Style::BODY, line) + AIR_MM).sum();
    let tables = supports(plan).height_mm(book) + straps_mm(book, plan, assessment) + words_mm;
    let room = book.bottom_mm() - book.cursor_mm - tables - 6.0;
    let marks_mm = level::marks_mm(book, known);
    let are_marks_told = 0.5 * (room - marks_mm) - 1.0 >= AMPLE_MM;
    let room = if are_marks_told { room - marks_mm } else { room };
    let height_mm = (0.5 * room - 1.0).clamp(58.0, 105.0);
    for view in pages {
        drawing(book, &scene, view, height_mm);
    }
    supports(plan).set(book);
    if !plan.fixture.hold_downs.is_empty() {
        book.cursor_mm += STRAPS_MM;
        straps(plan, assessment).set(book);
    }
    for line in words(plan) {
        book.keep_together(book.paragraph_mm(Style::BODY, &line) + AIR_MM);
        book.cursor_mm += AIR_MM;
        book.paragraph(Style::BODY, &line);
    }
    if are_marks_told {
        level::marks(book, known);
    }
    are_marks_told
}

/// A drawing of the fixture is no lower for the sake of what might stand on the next page, mm.
const AMPLE_MM: f64 = 80.0;

/// Air over a line under the tables, mm.
const AIR_MM: f64 = 1.5;

/// What is said of straps beneath the tables.
fn words(plan: &Plan) -> Vec<String> {
    let bindings = plan.fixture.bindings.iter();
    let told = bindings.map(|strap| format!("Binding strap “{}”: {}", strap.name, binding_words(plan, strap)));
    preloads(plan).into_iter().chain(told).collect()
}

/// Air over the table of straps, mm.
const STRAPS_MM: f64 = 3.0;

fn straps_mm(book: &Book, plan: &Plan, assessment: &Assessment) -> f64 {
    if plan.fixture.hold_downs.is_empty() {
        return 0.0;
    }
    STRAPS_MM + straps(plan, assessment).height_mm(book)
}

/// The bare article on its supports, with the places of supports and straps as dimensions.
fn drawing(book: &mut Book, scene: &Scene, view: View, height_mm: f64) {
    book.keep_together(height_mm);
    let area = [book.left_mm(), book.cursor_mm, book.right_mm(), book.cursor_mm + height_mm];
    let figure = views::dimensioned(scene, view, [book.width_mm() - 12.0 - NAMES_MM, height_mm - 22.0]);
    if let Some(focus) = figure.bounds() {
        let (caption, told) = match view {
            View::Above => ("From above: nose to the left, aircraft's right at top", "from above"),
            _ => ("From the left side", "from the left side"),
        };
        let told = format!(
            "The bare article on its supports {told}, nose to the left; the places that the tables below name."
        );
        let below = if view == View::Above { 2.0 } else { BELOW_MM };
        Picture { figure: &figure, focus, caption, told }.set_named(book, area, [12.0, 2.0, NAMES_MM, below]);
    }
    book.cursor_mm += height_mm + 1.0;
}

/// Room for the column of names at the right of a drawing, mm.
const NAMES_MM: f64 = 40.0;
/// Room under the floor for the names of what stands on it, mm.
const BELOW_MM: f64 = 13.0;

/// What the fixture bears of a level push, by its direction.
pub(super) fn push(book: &mut Book, plan: &Plan, assessment: &Assessment) {
    let Some(step) = plan.steps().checked_sub(1) else { return };
    let Some(curve) = assess::push_curve(plan, &assessment.closed, assessment.exact.as_ref(), step) else { return };
    let mut pushed = views::push(&curve);
    let Some(focus) = pushed.bounds() else { return };
    // What the drawing says in the window stands beside it here: on the curve it would hide what it tells of.
    let weakest =
        pushed.marks.iter().find_map(|mark| if let Mark::Text(label) = mark { Some(label.text.clone()) } else { None });
    pushed.marks.retain(|mark| !matches!(mark, Mark::Text(_)));
    // The bed alone: pieces would hide the curve of what is asked.
    let mut figure = views::above(&Scene { step: 0, ..Scene::whole(plan, &assessment.closed) });
    // So would the names of bearings, which the curve would strike through.
    figure.marks.retain(|mark| !matches!(mark, Mark::Text(_)));
    figure.over(pushed);
    heading(book, "Level push on the fixture, all in place", HEIGHT_MM + 10.0);
    let straps = match (plan.fixture.hold_downs.is_empty(), curve.solved) {
        (true, _) => "",
        (false, true) => ", straps counted up to their working load",
        (false, false) => ", straps left out",
    };
    let text = format!(
        "Solid: the greatest level push at the stack's centroid in each direction before article and stack tip or \
         slide{straps}. Dashed: the required push, {:.2} of the stack's weight. To scale: the push shifts the \
         line of action to the curve on the floor.",
        curve.asked
    );
    let top = book.cursor_mm;
    if let Some(weakest) = weakest {
        let bold = Style { bold: true, ..Style::NOTE };
        book.part(Role::Paragraph, |book| book.lines(bold, &format!("{weakest}."), BESIDE_MM));
    }
    book.part(Role::Paragraph, |book| book.lines(Style::NOTE, &text, BESIDE_MM));
    let area = [book.left_mm() + BESIDE_MM + 4.0, top, book.right_mm(), top + HEIGHT_MM];
    views::nose(&mut figure, View::Above);
    let focus = figure.bounds().unwrap_or(focus);
    let caption = "From above: nose to the left, aircraft's right at top";
    let told =
        "The footprint from above with the greatest level push in each direction and the required one.".to_owned();
    Picture { figure: &figure, focus, caption, told }.set(book, area, [4.0, 2.0, 4.0, 2.0]);
    book.cursor_mm = top + HEIGHT_MM;
}

/// Height of the drawing of the push, and width of what is said beside it, mm.
const HEIGHT_MM: f64 = 54.0;
const BESIDE_MM: f64 = 52.0;

fn supports(plan: &Plan) -> Table {
    let place = unit_of_place(plan);
    let columns = vec![
        Column::wide("support"),
        Column::fixed(format!("station, {place}"), 24.0, Align::Right),
        Column::fixed(format!("buttock line, {place}"), 26.0, Align::Right),
        Column::fixed(format!("waterline, {place}"), 24.0, Align::Right),
        Column::fixed("stands there", 22.0, Align::Centre),
    ];
    let row = |support: &plan::Support| {
        let mut row = vec![Cell::strong(support.name.as_str())];
        row.extend(bare_place(plan, support.at).map(Cell::text));
        row.push(Cell::Tick);
        row
    };
    Table { columns, rows: plan.fixture.supports.iter().map(row).collect(), row_mm: 7.0 }
}

fn straps(plan: &Plan, assessment: &Assessment) -> Table {
    let place = unit_of_place(plan);
    let columns = vec![
        Column::wide("strap"),
        Column::fixed(format!("on the article ({place}, article frame)"), 40.0, Align::Left),
        Column::fixed(format!("on the floor ({place}, floor frame)"), 40.0, Align::Left),
        Column::fixed("preload", 17.0, Align::Right),
        Column::fixed("working load", 17.0, Align::Right),
        Column::fixed("greatest pull", 18.0, Align::Right),
    ];
    let steps = assessment.exact.iter().flat_map(|exact| exact.expected.iter().flatten());
    let most = |index: usize| steps.clone().filter_map(|s| s.straps_n.get(index)).fold(f64::NAN, |a, b| a.max(*b));
    let row = |(index, strap): (usize, &plan::HoldDown)| {
        let most = most(index);
        vec![
            Cell::strong(strap.name.as_str()),
            Cell::text(bare_place(plan, strap.on_article).join(", ")),
            Cell::text(bare_place(plan, strap.on_floor).join(", ")),
            Cell::text(force(plan, strap.preload.si())),
            Cell::text(force(plan, strap.working_load.si())),
            Cell::text(if most.is_nan() { "–".to_owned() } else { force(plan, most) }),
        ]
    };
    Table { columns, rows: plan.fixture.hold_downs.iter().enumerate().map(row).collect(), row_mm: 8.0 }
}

/// When preloads are set: the tare follows from it.
fn preloads(plan: &Plan) -> Vec<String> {
    let when = |set: PreloadSet, told: &str| {
        let straps = plan.fixture.hold_downs.iter().filter(|strap| strap.preload_set == set);
        let names: Vec<String> = straps.map(|strap| format!("“{}”", strap.name)).collect();
        (!names.is_empty()).then(|| format!("Preload set {told}: {}.", names.join(", ")))
    };
    let before = when(PreloadSet::Before, "before the article settles on its supports");
    let after = when(PreloadSet::After, "after the article has settled, by gauge in the strap");
    [before, after].into_iter().flatten().collect()
}

/// Where a binding strap goes, and when.
/// Where a binding strap goes, and how tight.
pub fn binding_words(plan: &Plan, strap: &plan::Binding) -> String {
    let to = if strap.anchors == Anchors::Article { "the article" } else { "the floor" };
    let [x, y] = strap.at.map(|c| c.shown(plan.units, Grain::Coarse));
    format!(
        "Over the stack, {} wide, tied to {to}: {x} aft and {y} right of the bed's origin, {} in each leg, put on after step {}.",
        strap.width.shown(plan.units, Grain::Fine),
        strap.pull.shown(plan.units, Grain::Coarse),
        strap.after
    )
}
