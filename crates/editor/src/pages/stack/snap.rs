//! Where a piece comes to rest in plan while it is moved: first against the face of a neighbour, so
//! that no sliver of a gap is left by accident; else in line with something; else on the grid. How high
//! it lies there is asked of the rest rule; nothing here knows the screen.

use super::guide::{Catch, Guide};
use crate::pages::drawing;
use assess::{Bed, Body};
use plan::{Form, Place, Plan};
use quantity::Quantity;

/// How a piece may move.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rule {
    /// Along which axes of the bed.
    pub(super) moves: [bool; 2],
    /// How near a line draws it, m; zero leaves it free.
    pub(super) reach_m: f64,
}

/// A box of the bed frame, m.
struct Block {
    catch: Catch,
    /// Low and high along x, along y, up.
    ranges: [[f64; 2]; 3],
}

/// What a piece in hand can hold at: the bed, and the pieces that stay where they are.
pub(super) struct Around {
    bed: Bed,
    /// Those that were put down before it, on which it can rest, with the heights of their undersides, m.
    under: Vec<(Body, f64)>,
    /// All that stay, beside which it can lie.
    beside: Vec<Block>,
    bearings: Vec<Block>,
    /// Lines across each axis at which an edge or the middle can hold.
    lines: [Vec<(f64, Catch)>; 2],
    squeeze_m: f64,
    grid_m: f64,
}

/// What is in hand.
pub(super) struct Moving<'a> {
    /// The piece under the pointer, which is the one that snaps.
    pub(super) place: &'a Place,
    /// The step at which it is put down.
    pub(super) step: usize,
    /// All steps that move with it.
    pub(super) steps: &'a [usize],
}

impl Around {
    /// The first so many pieces of a plan, but for those that move, with the heights of their
    /// undersides (bed frame, m).
    pub(super) fn of(plan: &Plan, undersides_m: &[f64], placed: usize, moving: &Moving) -> Self {
        let staying = || (0..placed.min(plan.steps())).filter(|step| !moving.steps.contains(step));
        let body = |step: usize| {
            let place = &plan.stack[step];
            Some((assess::body(plan.lot_of(place), place), *undersides_m.get(step)?))
        };
        let bed = assess::bed(plan);
        let target = plan.article_from_bed().inverse() * assess::occupant_point(plan).in_article;
        let soft = plan.lot_of(moving.place).form == Form::Bag;
        Self {
            under: staying().filter(|step| *step < moving.step).filter_map(body).collect(),
            beside: staying().filter_map(|step| body(step).map(|body| block(step, &body))).collect(),
            bearings: plan.bed.bearings.iter().enumerate().map(bearing).collect(),
            lines: [
                vec![(target.x, Catch::OccupantPoint)],
                vec![(-plan.bed.origin[1].si(), Catch::Centreline), (target.y, Catch::OccupantPoint)],
            ],
            squeeze_m: if soft { bed.beside_m } else { 0.0 },
            bed,
            grid_m: drawing::grid(plan.units).si(),
        }
    }
}

fn block(step: usize, (body, underside_m): &(Body, f64)) -> Block {
    let footprint = body.footprint();
    let up = [*underside_m, underside_m + body.extent_m[2]];
    Block { catch: Catch::Face(step), ranges: [footprint.x_m, footprint.y_m, up] }
}

fn bearing((index, bearing): (usize, &plan::Bearing)) -> Block {
    let top = bearing.top.si();
    let [x, y] = [bearing.x, bearing.y].map(|range| range.map(Quantity::si));
    Block { catch: Catch::Bearing(index), ranges: [x, y, [top, top]] }
}

/// By how much two ranges overlap; negative where they are apart.
fn overlap(a: [f64; 2], b: [f64; 2]) -> f64 {
    a[1].min(b[1]) - a[0].max(b[0])
}

/// A piece on its way to a place.
struct Snap<'a> {
    around: &'a Around,
    piece: &'a Body,
    rule: Rule,
}

/// The place nearest to the wanted one (centre, bed frame, m) by the ranks above, and what holds it
/// there along each axis.
pub(super) fn snap(around: &Around, piece: &Body, wanted: [f64; 2], rule: Rule) -> ([f64; 2], Vec<Guide>) {
    let snap = Snap { around, piece, rule };
    let (mut at, mut guides) = (wanted, Vec::new());
    // Twice: what it lies beside along one axis depends on where it came to hold along the other.
    for _ in 0..2 {
        guides.clear();
        for axis in [0, 1].into_iter().filter(|axis| rule.moves[*axis]) {
            at[axis] = wanted[axis];
            let (place, guide) = snap.along(axis, at);
            at[axis] = place;
            guides.extend(guide);
        }
    }
    (at, guides)
}

impl Snap<'_> {
    fn along(&self, axis: usize, at: [f64; 2]) -> (f64, Option<Guide>) {
        if self.rule.reach_m <= 0.0 {
            return ((at[axis] * 1000.0).round() / 1000.0, None);
        }
        let grid = self.around.grid_m;
        let face = |at: [f64; 2]| self.face(axis, at).map(|(place, guide)| (place, Some(guide)));
        let line = || self.line(axis, at[axis]).map(|(place, guide)| (place, Some(guide)));
        let held = face(at).or_else(line).unwrap_or_else(|| ((at[axis] / grid).round() * grid, None));
        // A line or the grid may have brought it near a face.
        let mut there = at;
        there[axis] = held.0;
        face(there).unwrap_or(held)
    }

    /// The nearest place at which it lies against a neighbour: one that stands at its height and
    /// reaches across it.
    fn face(&self, axis: usize, at: [f64; 2]) -> Option<(f64, Guide)> {
        let (half, reach_m) = (self.piece.extent_m[axis] / 2.0, self.face_reach_m());
        let places = self.around.beside.iter().flat_map(|block| {
            let [low, high] = block.ranges[axis];
            [(low - half, low, block), (high + half, high, block)]
        });
        let across = self.range(1 - axis, at);
        let is_across = |block: &Block| overlap(across, block.ranges[1 - axis]) > self.around.squeeze_m;
        let off = |place: f64| (place - at[axis]).abs();
        let mut places: Vec<_> =
            places.filter(|(place, _, block)| off(*place) <= reach_m && is_across(block)).collect();
        places.sort_by(|a, b| off(a.0).total_cmp(&off(b.0)));
        // Faces above one another are at one place: where it would lie there is asked once.
        let mut lies = (f64::NAN, [0.0; 2]);
        let neighbour = places.into_iter().find(|(place, _, block)| {
            if lies.0.total_cmp(place).is_ne() {
                let mut there = at;
                there[axis] = *place;
                lies = (*place, self.heights(there));
            }
            overlap(lies.1, block.ranges[2]) > self.around.bed.touch_m
        });
        neighbour.map(|(place, at, block)| (place, Guide { axis, at, catch: block.catch }))
    }

    fn range(&self, axis: usize, at: [f64; 2]) -> [f64; 2] {
        let half = self.piece.extent_m[axis] / 2.0;
        [at[axis] - half, at[axis] + half]
    }

    /// However near one looks, a gap of a few millimetres is no plan.
    fn face_reach_m(&self) -> f64 {
        self.rule.reach_m.max(2.0 * self.around.grid_m)
    }

    /// From its underside to its top, where it would come to rest. What it overlaps by less than a
    /// face draws it does not carry it: it is drawn off there.
    fn heights(&self, at: [f64; 2]) -> [f64; 2] {
        let (Around { bed, under, .. }, there) = (self.around, Body { centre_m: at, ..self.piece.clone() });
        let underside = assess::rest_height_m(bed, under, &there, self.face_reach_m());
        [underside, underside + there.extent_m[2]]
    }

    /// The nearest place at which an edge or the middle is in line with something.
    fn line(&self, axis: usize, at: f64) -> Option<(f64, Guide)> {
        let half = self.piece.extent_m[axis] / 2.0;
        let of_lines = self.around.lines[axis].iter().flat_map(|(line, catch)| {
            [0.0, -half, half].map(|part| (*line - part, Guide { axis, at: *line, catch: *catch }))
        });
        // Like with like: an edge with the same edge, a middle with a middle.
        let of_blocks = self.around.bearings.iter().chain(&self.around.beside).flat_map(|block| {
            let [low, high] = block.ranges[axis];
            let catch = block.catch.in_line();
            [(low, -half), (f64::midpoint(low, high), 0.0), (high, half)]
                .map(|(line, part)| (line - part, Guide { axis, at: line, catch }))
        });
        of_lines
            .chain(of_blocks)
            .filter(|(place, _)| (place - at).abs() <= self.rule.reach_m)
            .min_by(|a, b| (a.0 - at).abs().total_cmp(&(b.0 - at).abs()))
    }
}

#[cfg(test)]
mod tests {
    use super::{Around, Block, Catch, Rule, block, snap};
    use assess::{Bearing, Bed, Body};

    fn bag(centre_m: [f64; 2]) -> Body {
        Body { centre_m, extent_m: [0.33, 0.50, 0.11], mass_kg: 25.0, friction: 0.5, soft: true }
    }

    /// Two bags of one layer on a panel: one aft of a corner, one left of it and not quite in line.
    fn corner() -> Around {
        let bags = vec![(bag([0.495, 0.25]), 0.0), (bag([0.175, -0.25]), 0.0)];
        let panel = Block { catch: Catch::Bearing(0), ranges: [[-2.0, 2.0], [-2.0, 2.0], [0.0, 0.0]] };
        let bearing = Bearing { x_m: [-2.0, 2.0], y_m: [-2.0, 2.0], top_m: 0.0, friction: 0.5 };
        Around {
            bed: Bed { bearings: vec![bearing], touch_m: 0.006, touch_hard_m: 0.001, beside_m: 0.005 },
            beside: bags.iter().enumerate().map(|(step, bag)| block(step, bag)).collect(),
            under: bags,
            bearings: vec![panel],
            lines: [vec![(0.17, Catch::OccupantPoint)], vec![(0.24, Catch::Centreline)]],
            squeeze_m: 0.005,
            grid_m: 0.005,
        }
    }

    fn held(wanted: [f64; 2], reach_m: f64) -> ([f64; 2], Vec<Catch>) {
        let (at, guides) = snap(&corner(), &bag([0.0; 2]), wanted, Rule { moves: [true, true], reach_m });
        (at, guides.into_iter().map(|guide| guide.catch).collect())
    }

    fn near(got: [f64; 2], want: [f64; 2]) {
        for axis in [0, 1] {
            let difference = got[axis] - want[axis];
            assert!(difference.abs() < 1e-12, "got {got:?} m, want {want:?} m, difference {difference} m");
        }
    }

    #[test]
    fn a_bag_in_a_corner_holds_at_both_faces_before_lines_and_grid() {
        for off in [[0.02, -0.02], [-0.02, 0.02], [0.02, 0.02], [-0.004, 0.003]] {
            let (at, catches) = held([0.165 + off[0], 0.25 + off[1]], 0.03);
            near(at, [0.165, 0.25]);
            assert_eq!(catches, [Catch::Face(0), Catch::Face(1)], "{off:?} off the corner");
        }
    }

    #[test]
    fn no_gap_below_the_reach_is_left_where_a_line_or_the_grid_draws_nearer() {
        // 33 mm off the face: beyond reach, but the line brings it near.
        let (at, _) = held([0.165 - 0.033, 0.9], 0.04);
        assert!((at[0] - 0.17).abs() < 1e-12, "with nothing beside it the line holds: {at:?}");
        for gap in [0.0005, 0.0017, 0.0033, 0.0049, 0.0081] {
            // Looked at from so near that seven points are less than a millimetre.
            let (at, _) = held([0.165 - gap, 0.25], 0.0007);
            near(at, [0.165, 0.25]);
        }
    }

    #[test]
    fn a_free_piece_holds_at_nothing_and_lies_on_whole_millimetres() {
        let (at, catches) = held([0.1612, 0.2513], 0.0);
        near(at, [0.161, 0.251]);
        assert!(catches.is_empty(), "{catches:?}");
    }

    #[test]
    fn a_bag_on_top_does_not_hold_at_what_lies_beneath_it() {
        let (at, catches) = held([0.486, 0.228], 0.001);
        near(at, [0.485, 0.23]);
        assert!(!catches.iter().any(|catch| matches!(catch, Catch::Face(_))), "{catches:?}");
    }
}
