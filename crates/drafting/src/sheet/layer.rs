//! A page for each layer: the stack with this layer in hand, the plan from marks that no piece covers, and a row
//! a step with its place, its mass, what the scales should show and what they do; holds and straps boxed in between.

use super::hold;
use super::known::Known;
use super::panel::{Field, Panel};
use super::picture::Picture;
use super::place_words::place_cells;
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::text::NO_BREAK;
use crate::turned::{Look, Numbers, Spread, turned};
use crate::views::{self, Scene};
use crate::words::{bare_mass, mass, unit_of_force, unit_of_mass};
use quantity::{Grain, Kind, Quantity};

pub(super) fn set(book: &mut Book, known: &Known, layer: usize) {
    let steps = known.steps_of(layer);
    let head = format!("Layer {layer} of {}", known.top_layer());
    book.section_on(&head, &under(known, &steps, layer));
    let page = LayerPage::of(book, known, layer, steps);
    page.set(book);
}

/// `Steps 44 to 49: six shot bags, lengthwise, on layer 8`.
fn under(known: &Known, steps: &[usize], layer: usize) -> String {
    let steps_words = match steps {
        [] => "No piece".to_owned(),
        [one] => format!("Step {}", one + 1),
        [first, .., last] => format!("Steps {} to {}", first + 1, last + 1),
    };
    let lots = super::front::lots(known, steps);
    let on = if layer == 1 { "on the bed".to_owned() } else { format!("on layer {}", layer - 1) };
    format!("{steps_words}: {lots}, {on}")
}

/// The rows of a layer and how they are shared out among pages.
struct LayerPage<'a> {
    known: &'a Known<'a>,
    layer: usize,
    steps: Vec<usize>,
    table: Table,
    /// What comes before the row of a step and after it.
    around: Vec<[Vec<Panel>; 2]>,
    notes: Vec<(Style, String)>,
}

/// Least and most height of the drawings, mm.
const LEAST_MM: f64 = 54.0;
const MOST_MM: f64 = 150.0;
/// Drawings lower than this have no height to spare, mm: what is said of them stands beside them.
const LOW_MM: f64 = 88.0;
/// The width of what is said there, mm.
const SAID_MM: f64 = 38.0;
/// Air under the drawings, mm.
const UNDER_MM: f64 = 0.5;
/// Air over and between what is said beside low drawings, mm.
const SAID_TOP_MM: f64 = 5.0;
const SAID_AIR_MM: f64 = 1.5;
/// Share of the width for the stack in the round; the rest is the plan.
const SHARE: f64 = 0.42;

impl<'a> LayerPage<'a> {
    fn of(book: &Book, known: &'a Known, layer: usize, steps: Vec<usize>) -> Self {
        let table = table(book, known, &steps);
        let around = steps.iter().map(|step| [before(known, *step), after(known, *step)]).collect();
        let notes = notes(known, &steps, layer);
        Self { known, layer, steps, table, around, notes }
    }

    /// Height of a row with what stands around it, mm.
    fn group_mm(&self, book: &Book, index: usize) -> f64 {
        let panels = self.around[index].iter().flatten().map(|panel| panel.height_mm(book)).sum::<f64>();
        self.table.row_mm(book, index) + panels
    }

    /// Which rows stand on which page: as few pages as go, filled evenly.
    fn shared_out(&self, book: &Book) -> Vec<std::ops::Range<usize>> {
        let groups: Vec<f64> = (0..self.steps.len()).map(|index| self.group_mm(book, index)).collect();
        let room = book.bottom_mm() - book.cursor_mm - self.table.heads_mm(book) - LEAST_MM - UNDER_MM;
        let fewest = packed(&groups, room);
        // The least room that takes no more pages than that spreads the rows evenly.
        let mut even = fewest.clone();
        for part in 1..40 {
            let tighter = packed(&groups, room * (1.0 - f64::from(part) / 40.0));
            if tighter.len() > fewest.len() {
                break;
            }
            even = tighter;
        }
        even
    }

    fn set(&self, book: &mut Book) {
        let pages = self.shared_out(book);
        let mut number = None;
        for (page, rows) in pages.iter().enumerate() {
            if page > 0 {
                book.overleaf();
            }
            let rows_mm: f64 = rows.clone().map(|index| self.group_mm(book, index)).sum();
            let left_mm = book.bottom_mm() - book.cursor_mm - rows_mm - self.table.heads_mm(book) - UNDER_MM;
            let height_mm = left_mm.clamp(LEAST_MM.min(left_mm.max(20.0)), MOST_MM);
            if self.known.is_sketch() {
                book.cursor_mm += height_mm + UNDER_MM;
            } else {
                self.drawings(book, height_mm);
            }
            let set_head = self.table.set_head(book);
            let table = *number.get_or_insert(set_head);
            for index in rows.clone() {
                let [before, after] = &self.around[index];
                before.iter().for_each(|panel| panel.set(book));
                self.table.set_row(book, (table, index), &self.table.rows[index]);
                after.iter().for_each(|panel| panel.set(book));
            }
        }
    }

    fn drawings(&self, book: &mut Book, height_mm: f64) {
        let (top, bottom) = (book.cursor_mm, book.cursor_mm + height_mm);
        let scene = Scene::of_layer(self.known.plan, &self.known.assessment.closed, self.layer);
        let said_mm = self.said_mm();
        if height_mm < LOW_MM && said_mm <= height_mm {
            let right = book.right_mm() - SAID_MM;
            let split = book.left_mm() + SHARE * (right - book.left_mm());
            self.in_the_round(book, &scene, [book.left_mm(), top, split - 3.0, bottom]);
            self.seen_from_above(book, &scene, ([split, top, right - 3.0, bottom], true));
            self.say(book, [right, top]);
        } else {
            let split = book.left_mm() + SHARE * book.width_mm();
            let room_mm = split - book.left_mm() - 3.0;
            let notes_mm: f64 = self.notes.iter().map(|note| note_mm(note, room_mm)).sum();
            let datums = self.datums();
            let over = bottom - book.paragraph_mm(Style::NOTE, &datums);
            self.in_the_round(book, &scene, [book.left_mm(), top, split - 3.0, over - notes_mm]);
            self.seen_from_above(book, &scene, ([split, top, book.right_mm(), over], false));
            book.cursor_mm = over - notes_mm;
            for (style, note) in &self.notes {
                book.part(crate::page::Role::Paragraph, |book| book.lines(*style, note, room_mm));
            }
            book.paragraph(Style::NOTE, &datums);
        }
        book.cursor_mm = bottom + UNDER_MM;
    }

    /// What is said of mark and string.
    fn datums(&self) -> String {
        self.known.datums.short(self.known.plan)
    }

    /// What is said of the layer, one under the other.
    fn said(&self) -> impl Iterator<Item = (Style, String)> + '_ {
        self.notes.iter().cloned().chain([(Style::NOTE, self.datums())])
    }

    /// Its height, mm.
    fn said_mm(&self) -> f64 {
        SAID_TOP_MM + self.said().map(|note| note_mm(&note, SAID_MM) + SAID_AIR_MM).sum::<f64>()
    }

    /// Says it in a column from its upper left corner.
    fn say(&self, book: &mut Book, [left, top]: [f64; 2]) {
        let mut y = top + SAID_TOP_MM;
        for (style, note) in self.said() {
            book.part(crate::page::Role::Paragraph, |book| {
                for line in crate::text::wrap(&note, SAID_MM, style.size_mm(), style.bold) {
                    y += style.leading_mm();
                    book.text([left, y - 0.28 * style.size_mm()], Align::Left, style, &line);
                }
            });
            y += SAID_AIR_MM;
        }
    }

    /// The layer from above, taped. Where there is little height the arrow to the nose stands in the caption, and the
    /// pieces have its room.
    fn seen_from_above(&self, book: &mut Book, scene: &Scene, (area, is_low): ([f64; 4], bool)) {
        let datum = &self.known.datums;
        let taped =
            views::Taping { mark: &datum.mark, front_m: datum.front_m, sides: datum.sides(), string_m: datum.across_m };
        let drawn = if is_low { views::marked_bare } else { views::marked };
        let figure = drawn(scene, taped);
        let Some(focus) = figure.bounds() else { return };
        let told = format!(
            "Layer {} from above, nose to the left, the pieces with their step numbers; taped from mark {} and from \
             the string as the rows below say.",
            self.layer, datum.mark
        );
        let caption = match is_low {
            true => "From above, right at top",
            false => "From above: nose to the left, right at top; numbers are steps",
        };
        let air = if is_low { [8.0, 5.0, 14.0, 4.0] } else { [8.0, 2.0, 14.0, 3.0] };
        Picture { figure: &figure, focus, caption, told }.set(book, area, air);
        if is_low {
            book.text([area[2], area[1] + 3.6], Align::Right, Style::FIGURE, "← NOSE");
        }
    }

    /// The stack as it will stand with this layer on it, the layer lifted a little.
    fn in_the_round(&self, book: &mut Book, scene: &Scene, area: [f64; 4]) {
        let marks = self.known.datums.marks(self.known.plan);
        let marks: Vec<_> = marks.iter().map(|(name, at)| (name.as_str(), *at)).collect();
        let spread = Spread::Lifted { layer: self.layer, by_m: LIFTED_M };
        let look = Look { spread, numbers: Numbers::OfLayer, marks: &marks, ..Look::default() };
        let turned = turned(scene, &look);
        let Some(focus) = turned.figure.bounds() else { return };
        let from = look.from.words();
        let told = format!(
            "Article and fixture {from}, with the stack up to layer {}, which is lifted and drawn stronger than what lies below.",
            self.layer
        );
        let picture = Picture { figure: &turned.figure, focus, caption: "This layer, lifted", told };
        picture.set(book, area, [0.0, 0.0, 0.0, 0.0]);
    }
}

/// How far the layer in hand is lifted in the drawing, m.
const LIFTED_M: f64 = 0.10;

fn note_mm((style, note): &(Style, String), room_mm: f64) -> f64 {
    style.leading_mm() * crate::text::wrap(note, room_mm, style.size_mm(), style.bold).len() as f64
}

/// Rows in pages of this room, each page with one at the least.
fn packed(groups: &[f64], room: f64) -> Vec<std::ops::Range<usize>> {
    let (mut pages, mut from, mut filled) = (Vec::new(), 0, 0.0);
    for (index, height) in groups.iter().enumerate() {
        if index > from && filled + height > room {
            pages.push(from..index);
            (from, filled) = (index, 0.0);
        }
        filled += height;
    }
    pages.push(from..groups.len());
    pages
}

/// What must be known for the whole layer.
fn notes(known: &Known, steps: &[usize], layer: usize) -> Vec<(Style, String)> {
    let plan = known.plan;
    let mut notes: Vec<_> = out_of_order(known, steps, layer).into_iter().map(|note| (Style::STRONG, note)).collect();
    let lifts = steps.iter().filter_map(|step| known.lift(*step));
    let hardest = lifts.max_by(|a, b| a.index.total_cmp(&b.index));
    if let Some((lift, warning)) = hardest.and_then(|lift| Some((lift, lift.warning()?))) {
        let height = lift.put_down.shown(plan.units, Grain::Coarse);
        notes.push((Style::STRONG, format!("{}, put down at {height}. {warning}", plan.piece_name(lift.step))));
    }
    notes
}

/// A layer whose steps have those of other layers between them must say so: hands follow the
/// steps, not the pages.
fn out_of_order(known: &Known, steps: &[usize], layer: usize) -> Vec<String> {
    let (Some(first), Some(last)) = (steps.first(), steps.last()) else { return Vec::new() };
    let layers = &known.assessment.closed.pile.layer;
    let between = (*first..=*last).filter(|s| !steps.contains(s));
    between
        .map(|s| (s, layers.get(s).copied().unwrap_or(layer)))
        .map(|(s, other)| format!("Follow the step numbers: step {} comes in between, see layer {other}.", s + 1))
        .collect()
}

/// What an instrument is called, and its unit.
fn instruments(known: &Known) -> Vec<(String, &'static str)> {
    let plan = known.plan;
    let scales = plan.fixture.supports.iter().filter(|s| s.scale).map(|s| (s.name.clone(), unit_of_mass(plan)));
    scales.chain(plan.fixture.hold_downs.iter().map(|s| (s.name.clone(), unit_of_force(plan)))).collect()
}

fn table(book: &Book, known: &Known, steps: &[usize]) -> Table {
    let tape = known.plan.units.unit(Kind::Length, Grain::Fine).symbol;
    let places: Vec<[String; 3]> =
        steps.iter().map(|s| place_cells(known.plan, &known.assessment.closed, *s)).collect();
    let wide =
        places.iter().flat_map(|place| &place[1..]).map(|words| Style::FIGURE.width_mm(words)).fold(19.0, f64::max);
    let instruments = instruments(known);
    let several = known.runs.len() > 1;
    let last = steps.iter().max().map_or(0, |step| step + 1);
    let step_mm = Style::STEP.width_mm(&last.to_string()).max(STEP_MM);
    let (each, name_mm) = widths(book, step_mm + wide, instruments.len());
    let mut columns = vec![
        Column::fixed("step", step_mm, Align::Left),
        Column::fixed("piece, and how it lies", name_mm, Align::Left),
        Column::fixed(format!("from {}, from string, {tape}", known.datums.mark), wide + 0.4, Align::Left),
    ];
    columns.extend(instruments.iter().map(|(name, unit)| Column::fixed(format!("{name}, {unit}"), each, Align::Left)));
    columns.push(Column::fixed(if several { "lies, run" } else { "lies" }, TICK_MM, Align::Right));
    let rows = steps.iter().zip(places).map(|(step, place)| row(known, *step, place)).collect();
    Table { columns, rows, row_mm: 0.0 }
}

/// Least width of the number of a step, mm.
const STEP_MM: f64 = 8.0;
const TICK_MM: f64 = 9.0;
/// Least and most width of a box for what is read, and of the name of a piece, mm.
const READ_MM: [f64; 2] = [12.5, 25.0];
const NAME_MM: [f64; 2] = [28.0, 47.0];

/// The width of a box for what is read, and what is left for the name of the piece, mm.
fn widths(book: &Book, taken_mm: f64, count: usize) -> (f64, f64) {
    let gaps = 3.0 * (3 + count) as f64;
    let room = book.width_mm() - taken_mm - 0.4 - TICK_MM - gaps;
    let each = |name_mm: f64| (room - name_mm) / count.max(1) as f64;
    let read_mm = if each(NAME_MM[1]) >= READ_MM[1] * 0.85 { each(NAME_MM[1]) } else { each(NAME_MM[0]) };
    let read_mm = read_mm.clamp(READ_MM[0], READ_MM[1]);
    (read_mm, (room - read_mm * count as f64).max(20.0))
}

fn row(known: &Known, step: usize, [lies, front, left]: [String; 3]) -> Vec<Cell> {
    let plan = known.plan;
    let runs = known.runs_of(step);
    let own = mass(plan, plan.mass_of(&plan.stack[step]).si());
    let applied =
        known.assessment.closed.steps.get(step).map_or_else(|| "–".to_owned(), |s| bare_mass(plan, s.applied_kg));
    let lines = |lines: Vec<(String, Style)>| Cell::Lines(lines);
    let piece = |lies: (String, Style)| {
        let masses = format!("{own}, in{NO_BREAK}all{NO_BREAK}{applied}");
        lines(vec![(plan.piece_name(step), Style::STRONG), (masses, Style::BODY), lies])
    };
    let mut row = vec![lines(vec![((step + 1).to_string(), Style::STEP)])];
    if runs.is_empty() {
        row.push(piece(("DO NOT PLACE: ultimate load is on already".to_owned(), Style::STRONG)));
        row.extend(std::iter::repeat_with(|| lines(Vec::new())).take(2 + instruments(known).len()));
        return row;
    }
    row.push(piece((lies, Style::NOTE)));
    row.push(lines(vec![(front, Style::FIGURE), (left, Style::FIGURE)]));
    row.extend(readings(known, step, runs.len()));
    let several = known.runs.len() > 1;
    let ticks = runs.iter().map(|run| if several { (run + 1).to_string() } else { String::new() }).collect();
    row.push(Cell::Ticks(ticks));
    row
}

/// What each scale and each strap should show after a step, and boxes for what it does.
fn readings(known: &Known, step: usize, boxes: usize) -> Vec<Cell> {
    let plan = known.plan;
    let scales = plan.fixture.supports.iter().enumerate().filter(|(_, s)| s.scale);
    let scales = scales.map(|(index, _)| known.due.reading(plan, step + 1, index));
    let straps = (0..plan.fixture.hold_downs.len()).map(|index| known.due.pull(plan, step + 1, index));
    let cell = |due: String| {
        let (due, band) =
            due.split_once(" ± ").map_or((due.clone(), String::new()), |(a, b)| (a.to_owned(), format!("± {b}")));
        Cell::Reading { due, band, boxes }
    };
    scales.chain(straps).map(cell).collect()
}

/// Straps that go on before the first piece.
fn before(known: &Known, step: usize) -> Vec<Panel> {
    if step == 0 { straps(known, 0) } else { Vec::new() }
}

/// Straps and holds that are due after a step.
fn after(known: &Known, step: usize) -> Vec<Panel> {
    let mut panels = if known.is_barred(step) { Vec::new() } else { straps(known, step + 1) };
    panels.extend(hold::after(known, step));
    if step + 1 == known.plan.steps() {
        panels.extend(hold::unreached(known));
    }
    panels
}

/// Nobody goes to the pile for a strap: `common practice, no source`.
const FROM_AFAR: &str =
    "Its ends lead out of the fall zone. Tension it from there; where they do not, STOP and plan anew.";

fn straps(known: &Known, placed: usize) -> Vec<Panel> {
    let plan = known.plan;
    let due = plan.fixture.bindings.iter().filter(|b| usize::try_from(b.after).is_ok_and(|after| after == placed));
    let panel = |strap: &plan::Binding| Panel {
        title: format!("STRAP “{}” on, then read the scales", strap.name),
        aside: "out of its line",
        lines: vec![(Style::BODY, super::rig::binding_words(plan, strap)), (Style::STRONG, FROM_AFAR.to_owned())],
        fields: vec![
            Field::read("pull, left leg", strap.pull.shown(plan.units, Grain::Coarse), unit_of_force(plan)),
            Field::read("pull, right leg", strap.pull.shown(plan.units, Grain::Coarse), unit_of_force(plan)),
            Field::ticked("on"),
        ],
        then: None,
    };
    due.map(panel).collect()
}
