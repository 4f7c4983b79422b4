//! Pieces and their numbers.

use super::projection::View;
use super::scene::Scene;
use crate::figure::{Figure, Fill, Ink, Label, Pen, Plate, Room, Strength, TextSize, Weight};
use nalgebra::Point3;
use std::collections::HashSet;

struct Drawn {
    step: usize,
    outline: [[f64; 2]; 4],
    middle: [f64; 2],
    room: [f64; 2],
    depth: f64,
}

/// The pieces, the furthest first.
pub(super) struct Pieces(Vec<Drawn>);

impl Pieces {
    pub(super) fn of(scene: &Scene, view: View) -> Self {
        let mut drawn: Vec<Drawn> = scene.pieces().filter_map(|step| seen(scene, view, step)).collect();
        // Steps break ties, so that the same plan always gives the same figure.
        drawn.sort_by(|a, b| b.depth.total_cmp(&a.depth).then(a.step.cmp(&b.step)));
        Self(drawn)
    }

    pub(super) fn draw(&self, figure: &mut Figure, scene: &Scene) {
        for piece in in_sight(scene, &self.0) {
            let (strength, pen) = (scene.strength(piece.step), pen(scene, piece.step));
            figure.polygon(piece.outline.to_vec(), Fill::Material(scene.material(piece.step), strength), Some(pen));
        }
    }

    /// Over all that runs through the pieces.
    pub(super) fn number(&self, figure: &mut Figure, scene: &Scene) {
        numbers(figure, scene, &self.0);
    }
}

/// How far off the middle of a piece its tag stands, a part of its longer side.
const OFF: f64 = 0.28;

/// The steps of the layer in hand as tags on its pieces; for the view from above. Pieces below
/// have none: their numbers would stand for what is hidden.
pub(super) fn tags(figure: &mut Figure, scene: &Scene) {
    let middle = scene.state().map(|state| View::Above.project(state.centroid));
    for step in scene.pieces().filter(|step| scene.strength(*step) == Strength::Strong) {
        let Some(outline) = scene.outline(View::Above, step) else { continue };
        let (mut at, mut room) = middle_and_room(&outline);
        // Off the middle, where centroid, occupant point and centreline meet, and away from it.
        let long = if room[0] >= room[1] { 0 } else { 1 };
        let beyond = at[long] - middle.map_or(at[long], |middle| middle[long]);
        let outward = if beyond.abs() > 1e-3 { beyond > 0.0 } else { long == 1 };
        at[long] += if outward { OFF } else { -OFF } * room[long];
        // It keeps within its piece wherever it makes way.
        room[long] *= 1.0 - 2.0 * OFF;
        let label = Label::new(at, scene.number(step).to_string()).bold().size(TextSize::Large);
        figure.label(label.room(Room::Within(room)).on(Plate::Framed));
    }
}

/// The pieces but for those that a nearer one of the same outline and pen hides: of a tall stack in
/// bond hardly a tenth is seen.
fn in_sight<'a>(scene: &Scene, drawn: &'a [Drawn]) -> Vec<&'a Drawn> {
    let mut nearer = HashSet::new();
    let mut seen: Vec<&Drawn> =
        drawn.iter().rev().filter(|piece| nearer.insert((spot(piece), pen(scene, piece.step)))).collect();
    seen.reverse();
    seen
}

/// Where an outline lies, its opposite corners counted in micrometres.
fn spot(piece: &Drawn) -> [i64; 4] {
    #[expect(clippy::cast_possible_truncation, reason = "a float cast saturates; a stack is some metres")]
    let counted = |m: f64| (m * 1e6).round() as i64;
    let [a, c] = [piece.outline[0], piece.outline[2]];
    [a[0], a[1], c[0], c[1]].map(counted)
}

fn seen(scene: &Scene, view: View, step: usize) -> Option<Drawn> {
    let corners = scene.corners(step)?;
    let centre = Point3::from((corners[0].coords + corners[6].coords) / 2.0);
    let outline = view.outline(&corners);
    let (middle, room) = middle_and_room(&outline);
    Some(Drawn { step, outline, middle, room, depth: view.depth(centre) })
}

fn pen(scene: &Scene, step: usize) -> Pen {
    if scene.selected.contains(&step) {
        return Pen::solid(Ink::Is, Weight::Thick);
    }
    match scene.strength(step) {
        Strength::Strong => Pen::solid(Ink::Line, Weight::Medium),
        Strength::Faint => Pen::solid(Ink::Quiet, Weight::Hair),
    }
}

/// The number of the nearest of the pieces that lie behind each other.
fn numbers(figure: &mut Figure, scene: &Scene, drawn: &[Drawn]) {
    let mut seen = Nearest::of(drawn);
    // The nearest come last in the painting, and first in the numbering.
    for piece in drawn.iter().rev() {
        seen.take(piece);
    }
    for piece in seen.all {
        number(figure, scene, piece);
    }
}

/// The nearest pieces, those behind left out.
struct Nearest<'a> {
    all: Vec<&'a Drawn>,
    grid: Grid,
}

impl<'a> Nearest<'a> {
    fn of(drawn: &[Drawn]) -> Self {
        Self { all: Vec::new(), grid: Grid::of(drawn) }
    }

    fn take(&mut self, piece: &'a Drawn) {
        if !self.grid.near(piece.middle).any(|nearer| alike(self.all[nearer], piece)) {
            self.grid.add(piece.middle, self.all.len());
            self.all.push(piece);
        }
    }
}

/// Pieces by the cell in which their middles lie: those that are alike lie in cells beside each other.
struct Grid {
    low: [f64; 2],
    cell_m: [f64; 2],
    columns: usize,
    /// The piece of each cell that was added last, and for each piece the one that was before it.
    last: Vec<Option<usize>>,
    before: Vec<Option<usize>>,
}

/// More cells than that a side are not worth their room.
const CELLS: f64 = 256.0;

impl Grid {
    /// A cell is as large as two middles that are alike can lie apart, or larger.
    fn of(drawn: &[Drawn]) -> Self {
        let middles = || drawn.iter().map(|piece| piece.middle);
        let first = middles().next().unwrap_or_default();
        let [low, high] = middles().fold([first, first], crate::figure::grown);
        let apart = |i: usize| drawn.iter().map(|piece| piece.room[i]).fold(1e-3, f64::max) / 6.0;
        let cell_m = [0, 1].map(|i| apart(i).max((high[i] - low[i]) / CELLS));
        let grid = Self { low, cell_m, columns: 0, last: Vec::new(), before: Vec::new() };
        let [columns, rows] = grid.cell(high).map(|cell| cell + 1);
        Self { columns, last: vec![None; columns * rows], ..grid }
    }

    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "some hundred cells; a cast saturates")]
    fn cell(&self, at: [f64; 2]) -> [usize; 2] {
        [0, 1].map(|i| ((at[i] - self.low[i]) / self.cell_m[i]) as usize)
    }

    fn add(&mut self, at: [f64; 2], piece: usize) {
        let [column, row] = self.cell(at);
        self.before.push(self.last[row * self.columns + column].replace(piece));
    }

    /// Those in the cell of a point and in the cells round it.
    fn near(&self, at: [f64; 2]) -> impl Iterator<Item = usize> + '_ {
        let [column, row] = self.cell(at);
        let rows = row.saturating_sub(1)..(row + 2).min(self.last.len() / self.columns);
        let columns = column.saturating_sub(1)..(column + 2).min(self.columns);
        let cells = rows.flat_map(move |row| columns.clone().map(move |column| row * self.columns + column));
        cells.flat_map(|cell| std::iter::successors(self.last[cell], |piece| self.before[*piece]))
    }
}

fn number(figure: &mut Figure, scene: &Scene, piece: &Drawn) {
    let strength = scene.strength(piece.step);
    let plate = Plate::Tint(scene.material(piece.step), strength);
    let label = Label::new(piece.middle, scene.number(piece.step).to_string()).on(plate).room(Room::Within(piece.room));
    let is_strong = strength == Strength::Strong && scene.layer.is_some();
    figure.label(if is_strong { label.bold() } else { label });
}

/// Whether two outlines lie on each other to within a sixth of their size.
fn alike(a: &Drawn, b: &Drawn) -> bool {
    (0..2).all(|i| (a.middle[i] - b.middle[i]).abs() < a.room[i].min(b.room[i]) / 6.0)
}

fn middle_and_room(outline: &[[f64; 2]]) -> ([f64; 2], [f64; 2]) {
    let [low, high] = outline.iter().fold([outline[0], outline[0]], |b, p| crate::figure::grown(b, *p));
    ([f64::midpoint(low[0], high[0]), f64::midpoint(low[1], high[1])], [high[0] - low[0], high[1] - low[1]])
}
