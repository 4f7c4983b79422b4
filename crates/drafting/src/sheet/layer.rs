//! A page for each layer: from above with step numbers, from the side with this layer strong,
//! and the table by which hands put pieces down.

use super::beside::{self, Framed};
use super::place_words::{Datums, place_words};
use crate::figure::{Align, Figure};
use crate::page::{Book, Cell, Column, Style, Table};
use crate::views::{self, Scene, View};
use assess::Assessment;
use plan::Plan;
use quantity::{Force, Grain, Kind, Mass, Quantity};

pub(super) fn set(book: &mut Book, plan: &Plan, assessment: &Assessment, layer: usize) {
    let steps: Vec<usize> = (0..plan.steps()).filter(|s| assessment.pile.layer.get(*s) == Some(&layer)).collect();
    let top = assessment.pile.layer.iter().copied().max().unwrap_or(layer);
    book.section(&format!("Layer {layer} of {top} · {}", steps_words(&steps)));
    let (table, notes) = (table(plan, assessment, &steps), out_of_order(assessment, &steps, layer));
    let readings = steps.last().and_then(|last| readings(plan, assessment, *last));
    // The readings take two lines of a long list of scales.
    let height_mm = drawing_height(book, &table, notes.len() + if readings.is_some() { 2 } else { 0 });
    drawings(book, plan, assessment, (layer, height_mm));
    book.paragraph(Style::SMALL, &Datums::of(plan).sentence(plan));
    for note in &notes {
        book.paragraph(Style::STRONG, note);
    }
    book.cursor_mm += 1.0;
    table.set(book);
    if let Some(readings) = readings {
        book.cursor_mm += 1.5;
        book.paragraph(Style::STRONG, &readings);
    }
}

/// What the scales and straps should show after a step, as solved; none where that is not known.
fn readings(plan: &Plan, assessment: &Assessment, step: usize) -> Option<String> {
    let reactions = assessment.exact.as_ref()?.fixture.get(step)?.settled.reactions()?;
    let scales = plan.fixture.supports.iter().zip(&reactions.supports).filter(|(support, _)| support.scale);
    let shown = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let scales = scales.map(|(support, force)| format!("{} {}", support.name, shown(force.reading_kg)));
    let straps = plan.fixture.hold_downs.iter().zip(&reactions.ties);
    let straps = straps.map(|(strap, tie)| {
        format!("{} pulls {}", strap.name, Force::n(tie.tension_n).shown(plan.units, Grain::Coarse))
    });
    let all: Vec<String> = scales.chain(straps).collect();
    (!all.is_empty()).then(|| format!("After step {} expect: {}.", step + 1, all.join(", ")))
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
        .map(|s| (s, assessment.pile.layer.get(s).copied().unwrap_or(layer)))
        .map(|(s, other)| format!("Follow the step numbers: step {} comes in between, see layer {other}.", s + 1))
        .collect()
}

fn drawings(book: &mut Book, plan: &Plan, assessment: &Assessment, (layer, height_mm): (usize, f64)) {
    let scene = Scene::of_layer(plan, assessment, layer);
    let (above, side) = (views::above(&scene), views::side(&scene));
    let (Some(above_box), Some(side_box)) = (above.bounds(), stack_box(&scene, &above)) else { return };
    let framed = |caption, view, figure, (focus, share)| Framed { caption, view, figure, focus, share, below_mm: 0.0 };
    let both = [
        framed("From above: aft to the right, the right-hand side up", View::Above, &above, (above_box, 0.58)),
        framed("From the side: aft to the right", View::Side, &side, (side_box, 0.42)),
    ];
    beside::set(book, &both, height_mm, plan.units);
}

/// As high as the table leaves it, so that a layer keeps to one page where it can.
fn drawing_height(book: &Book, table: &Table, notes: usize) -> f64 {
    let text = 2.0 * Style::SMALL.leading_mm() + Style::STRONG.leading_mm() * notes as f64 + 5.0;
    (book.bottom_mm() - book.cursor_mm - table.height_mm(book) - text).clamp(62.0, 94.0)
}

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
    let unit = plan.units.unit(Kind::Mass, Grain::Coarse).symbol;
    let columns = vec![
        Column::fixed("step", 10.0, Align::Right),
        Column::fixed("piece", 27.0, Align::Left),
        Column::wide("where it goes"),
        Column::fixed(format!("mass, {unit}"), 14.0, Align::Right),
        Column::fixed(format!("applied, {unit}"), 17.0, Align::Right),
        Column::fixed("done", 11.0, Align::Centre),
    ];
    let rows = steps.iter().flat_map(|step| rows_of(plan, assessment, *step)).collect();
    Table { columns, rows, row_mm: 9.0 }
}

/// The piece's row, and one for each thing that must be done before the next piece.
fn rows_of(plan: &Plan, assessment: &Assessment, step: usize) -> Vec<Vec<Cell>> {
    let place = &plan.stack[step];
    let number = Style { size_pt: 14.0, ..Style::STRONG };
    let bare = |kg: f64| Mass::kg(kg).shown_bare(plan.units, Grain::Coarse);
    let applied = assessment.steps.get(step).map_or_else(|| "–".to_owned(), |s| bare(s.applied_kg));
    let piece = vec![
        Cell::Text((step + 1).to_string(), number),
        Cell::strong(plan.piece_name(step)),
        Cell::text(place_words(plan, assessment, step)),
        Cell::text(bare(plan.mass_of(place).si())),
        Cell::strong(applied),
        Cell::Tick,
    ];
    let then = after(plan, assessment, step).into_iter().map(|text| {
        let empty = || Cell::text("");
        vec![empty(), Cell::strong("then"), Cell::strong(text), empty(), empty(), Cell::Tick]
    });
    std::iter::once(piece).chain(then).collect()
}

/// Binding straps and holds due after a step.
fn after(plan: &Plan, assessment: &Assessment, step: usize) -> Vec<String> {
    let due = |after: u32| usize::try_from(after).is_ok_and(|a| a == step + 1);
    let straps = plan.fixture.bindings.iter().filter(|b| due(b.after));
    let straps = straps.map(|b| {
        format!("Put on the binding strap “{}”, {} in each leg.", b.name, b.pull.shown(plan.units, Grain::Coarse))
    });
    let holds = plan.holds.iter().zip(&assessment.hold_steps).filter(|(_, at)| **at == Some(step));
    let holds = holds.map(|(hold, _)| format!("Hold “{}”: stop, read scales and gauges.", hold.name));
    straps.chain(holds).collect()
}
