//! A page for each layer: from above with step numbers, from the side with this layer strong,
//! and the table by which hands put pieces down.

use super::beside::{self, Framed};
use super::place_words::{Datums, place_cells};
use super::readings::{self, Due};
use crate::figure::{Align, Figure};
use crate::page::{Book, Cell, Column, Style, Table};
use crate::views::{self, Scene, View};
use crate::words::{bare_mass, heading, unit_of_mass};
use assess::Assessment;
use plan::Plan;
use quantity::{Grain, Kind, Quantity};

pub(super) fn set(book: &mut Book, plan: &Plan, assessment: &Assessment, (due, layer): (&Due, usize)) {
    let steps: Vec<usize> =
        (0..plan.steps()).filter(|s| assessment.closed.pile.layer.get(*s) == Some(&layer)).collect();
    let top = assessment.closed.pile.layer.iter().copied().max().unwrap_or(layer);
    book.section(&format!("Layer {layer} of {top} · {}", steps_words(&steps)));
    let (table, notes) = (table(plan, assessment, &steps), out_of_order(assessment, &steps, layer));
    let readings = readings::table(plan, assessment, (due, &steps));
    let height_mm = drawing_height(book, [&table, &readings], notes.len());
    drawings(book, plan, assessment, (layer, height_mm));
    book.paragraph(Style::SMALL, &Datums::of(plan).sentence(plan));
    for note in &notes {
        book.paragraph(Style::STRONG, note);
    }
    book.cursor_mm += 1.0;
    table.set(book);
    // The readings of a layer are not torn: what does not fit under the drawing goes overleaf whole.
    let whole_mm = 9.0 + 3.0 * Style::SMALL.leading_mm() + readings.height_mm(book);
    heading(book, "Readings after each step: expected on the first line, write the reading on the second", whole_mm);
    if let Some(sentence) = due.sentence() {
        book.paragraph(Style::SMALL, &sentence);
    }
    if let Some(sentence) = readings::critical_words(plan, assessment, &steps) {
        book.paragraph(Style::SMALL, &sentence);
    }
    readings.set(book);
}

fn steps_words(steps: &[usize]) -> String {
    match steps {
        [] => "no piece".to_owned(),
        [one] => format!("step {}", one + 1),
        [first, .., last] => format!("steps {} to {}", first + 1, last + 1),
    }
}

/// A layer whose steps have those of other layers between them must say so: hands follow the
/// steps, not the pages.
fn out_of_order(assessment: &Assessment, steps: &[usize], layer: usize) -> Vec<String> {
    let (Some(first), Some(last)) = (steps.first(), steps.last()) else { return Vec::new() };
    let between = (*first..=*last).filter(|s| !steps.contains(s));
    between
        .map(|s| (s, assessment.closed.pile.layer.get(s).copied().unwrap_or(layer)))
        .map(|(s, other)| format!("Follow the step numbers: step {} comes in between, see layer {other}.", s + 1))
        .collect()
}

fn drawings(book: &mut Book, plan: &Plan, assessment: &Assessment, (layer, height_mm): (usize, f64)) {
    let scene = Scene::of_layer(plan, &assessment.closed, layer);
    let (mut above, side) = (views::above(&scene), views::side(&scene));
    let (Some(above_box), Some(side_box)) = (above.bounds(), stack_box(&scene, &above)) else { return };
    above.over(views::tape(&scene, Datums::of(plan).front_m, above_box));
    let above_box = above.bounds().unwrap_or(above_box);
    let framed = |caption, view, figure, (focus, share)| Framed { caption, view, figure, focus, share, below_mm: 0.0 };
    let both = [
        framed("From above: aft to the right, aircraft's right at top", View::Above, &above, (above_box, 0.58)),
        framed("From the side: aft to the right", View::Side, &side, (side_box, 0.42)),
    ];
    beside::set(book, &both, height_mm, plan.units);
}

/// As high as the tables leave it, so that a layer keeps to one page where it can; where it cannot,
/// the drawing takes its full height and the readings go overleaf.
fn drawing_height(book: &Book, tables: [&Table; 2], notes: usize) -> f64 {
    let text = 5.0 * Style::SMALL.leading_mm() + Style::STRONG.leading_mm() * notes as f64 + 13.5;
    let room = book.bottom_mm() - book.cursor_mm - text;
    let [put_down, read] = tables.map(|table| table.height_mm(book));
    let both = room - put_down - read;
    if both >= LEAST_MM { both.min(MOST_MM) } else { (room - put_down).clamp(LEAST_MM, MOST_MM) }
}

/// Least and most height of the drawings, mm.
const LEAST_MM: f64 = 55.0;
const MOST_MM: f64 = 98.0;

/// What a layer's side view must show: the whole stack as it will be in the end, so that every
/// page has one scale, and a little below the bed.
fn stack_box(scene: &Scene, above: &Figure) -> Option<[[f64; 2]; 2]> {
    let whole = Scene::whole(scene.plan, scene.layout);
    let outlines = whole.pieces().filter_map(|s| whole.outline(View::Side, s)).flatten();
    let bed = scene.plan.floor_from_bed() * nalgebra::Point3::origin();
    let [low, high] = above.bounds()?;
    let start = [[low[0], bed.z - 0.12], [high[0], bed.z]];
    Some(outlines.fold(start, crate::figure::grown))
}

fn table(plan: &Plan, assessment: &Assessment, steps: &[usize]) -> Table {
    let unit = unit_of_mass(plan);
    let tape = plan.units.unit(Kind::Length, Grain::Fine).symbol;
    let mut columns = vec![
        Column::fixed("step", 10.0, Align::Right),
        Column::fixed("piece", names_mm(plan, steps), Align::Left),
        Column::wide("how it lies"),
        Column::fixed(format!("front edge, {tape}"), 21.0, Align::Left),
        Column::fixed(format!("left edge, {tape}"), 21.0, Align::Left),
        Column::fixed(format!("mass, {unit}"), 14.0, Align::Right),
    ];
    columns.extend(done_columns(plan, steps));
    let rows = steps.iter().flat_map(|step| rows_of(plan, assessment, steps, *step)).collect();
    Table { columns, rows, row_mm: 7.5 }
}

/// The width of the longest name among these pieces, mm: how they lie gets the rest.
fn names_mm(plan: &Plan, steps: &[usize]) -> f64 {
    let names = steps.iter().map(|step| Style::STRONG.width_mm(&plan.piece_name(*step)));
    names.fold(0.0, f64::max).clamp(15.0, 38.0) + 0.5
}

/// A column of boxes to tick for each run that comes this far.
fn done_columns(plan: &Plan, steps: &[usize]) -> Vec<Column> {
    let runs = plan.runs();
    let head = |number: usize| if runs.len() == 1 { "done".to_owned() } else { format!("run {}", number + 1) };
    let reach = |run: &plan::Run| steps.first().is_some_and(|step| *step < run.placements(plan));
    let runs = runs.iter().enumerate().filter(|(_, run)| reach(run));
    runs.map(|(number, _)| Column::fixed(head(number), 10.0, Align::Centre)).collect()
}

/// The piece's row, and one for each thing that must be done before the next piece.
fn rows_of(plan: &Plan, assessment: &Assessment, steps: &[usize], step: usize) -> Vec<Vec<Cell>> {
    let number = Style { size_pt: 14.0, ..Style::STRONG };
    let [lies, front, left] = place_cells(plan, &assessment.closed, step);
    let barred = is_after_ultimate(assessment, step);
    let lies = if barred { "DO NOT PLACE: ultimate load is on already".to_owned() } else { lies };
    let piece = vec![
        Cell::Text((step + 1).to_string(), number),
        Cell::strong(plan.piece_name(step)),
        Cell::text(lies),
        Cell::strong(front),
        Cell::strong(left),
        Cell::text(bare_mass(plan, plan.mass_of(&plan.stack[step]).si())),
    ];
    let boxes = |runs: &[plan::Run]| {
        let reached = runs.iter().filter(|run| steps.first().is_some_and(|first| *first < run.placements(plan)));
        let tick =
            |run: &plan::Run| if step < run.placements(plan) && !barred { Cell::Tick } else { Cell::text("–") };
        reached.map(tick).collect::<Vec<_>>()
    };
    let boxes = boxes(&plan.runs());
    let then = after(plan, assessment, step).into_iter().map(|text| {
        let empty = || Cell::text("");
        vec![empty(), Cell::strong("then"), Cell::strong(text), empty(), empty(), empty()]
    });
    std::iter::once(piece).chain(then).map(|row| row.into_iter().chain(boxes.clone()).collect()).collect()
}

/// Whether a piece would go on when ultimate load is reached: no sheet orders that.
fn is_after_ultimate(assessment: &Assessment, step: usize) -> bool {
    let barred =
        |finding: &assess::Finding| matches!(&finding.place, assess::Where::Pieces(steps) if steps.contains(&step));
    assessment.findings.iter().any(|finding| finding.check == assess::Check::AfterUltimate && barred(finding))
}

/// Binding straps and holds due after a step.
fn after(plan: &Plan, assessment: &Assessment, step: usize) -> Vec<String> {
    let due = |after: u32| usize::try_from(after).is_ok_and(|a| a == step + 1);
    let straps = plan.fixture.bindings.iter().filter(|b| due(b.after));
    let straps = straps.map(|b| {
        format!("Put on the binding strap “{}”, {} in each leg.", b.name, b.pull.shown(plan.units, Grain::Coarse))
    });
    let holds = plan.holds.iter().zip(&assessment.closed.hold_steps).filter(|(_, at)| **at == Some(step));
    let holds = holds.map(|(hold, _)| {
        let then = if hold.unload { ", then take all off" } else { "" };
        format!("Hold “{}”: stop, see Holds{then}.", hold.name)
    });
    straps.chain(holds).collect()
}
