//! Which state of a plan is drawn, and where its pieces are.

use super::projection::View;
use crate::figure::{Material, Strength};
use assess::{Closed, StepState};
use nalgebra::Point3;
use plan::{Form, Plan};
use quantity::Quantity;

/// A state of a plan.
#[derive(Clone, Copy, Debug)]
pub struct Scene<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// What is known of it.
    pub layout: &'a Closed,
    /// How many placements are done.
    pub step: usize,
    /// The layer in hand, drawn strong, all others faint; none draws all of them strong.
    pub layer: Option<usize>,
    /// Whether pieces above the layer in hand are left out.
    pub hide_above: bool,
    /// Steps (from 0) that are selected: drawn with a heavier outline.
    pub selected: &'a [usize],
    /// The numbers (from 0) that its pieces go by where the plan is a part of another one's; none where
    /// they go by their own steps.
    pub numbers: Option<&'a [usize]>,
    /// Line of action minus occupant point with what lean and tilt add, fore-aft and lateral, floor frame, m; none
    /// where that is not solved: then the offset is told as laid.
    pub offset_m: Option<[f64; 2]>,
}

impl<'a> Scene<'a> {
    /// A plan with every piece in place and none in hand.
    pub fn whole(plan: &'a Plan, layout: &'a Closed) -> Self {
        Self {
            plan,
            layout,
            step: plan.steps(),
            layer: None,
            hide_above: false,
            selected: &[],
            numbers: None,
            offset_m: None,
        }
    }

    /// A layer in hand at the moment when its last piece lies, with nothing above it.
    pub fn of_layer(plan: &'a Plan, layout: &'a Closed, layer: usize) -> Self {
        let last = layout.pile.layer.iter().rposition(|l| *l == layer);
        let step = last.map_or(0, |s| s + 1);
        Self { plan, layout, step, layer: Some(layer), hide_above: true, selected: &[], numbers: None, offset_m: None }
    }

    /// Steps of the pieces that are drawn.
    pub fn pieces(&self) -> impl Iterator<Item = usize> + '_ {
        let done = self.step.min(self.plan.steps()).min(self.layout.pile.layer.len());
        (0..done).filter(|i| !self.hide_above || self.layer.is_none_or(|l| self.layer_of(*i) <= l))
    }

    /// The number that a piece goes by, from 1.
    pub fn number(&self, step: usize) -> usize {
        self.numbers.and_then(|numbers| numbers.get(step)).copied().unwrap_or(step) + 1
    }

    /// The layer of a piece.
    pub fn layer_of(&self, step: usize) -> usize {
        self.layout.pile.layer.get(step).copied().unwrap_or(1)
    }

    /// The state after the placements that are done.
    pub fn state(&self) -> Option<&'a StepState> {
        self.step.checked_sub(1).and_then(|k| self.layout.steps.get(k))
    }

    /// The outline of a piece in a view, m: what a pointer hits.
    pub fn outline(&self, view: View, step: usize) -> Option<[[f64; 2]; 4]> {
        Some(view.outline(&self.corners(step)?))
    }

    pub(super) fn strength(&self, step: usize) -> Strength {
        if self.layer.is_none_or(|l| l == self.layer_of(step)) { Strength::Strong } else { Strength::Faint }
    }

    pub(super) fn material(&self, step: usize) -> Material {
        match self.plan.lot_of(&self.plan.stack[step]).form {
            Form::Bag => Material::Sand,
            Form::Board => Material::Wood,
            Form::Solid => Material::Steel,
        }
    }

    /// The corners of a piece, floor frame, m: once round its left side, once round its right.
    pub(crate) fn corners(&self, step: usize) -> Option<[Point3<f64>; 8]> {
        let place = self.plan.stack.get(step)?;
        let [length, width, thickness] = self.plan.extent_of(place).map(Quantity::si);
        let [x, y] = place.at.map(Quantity::si);
        let z = *self.layout.pile.underside_m.get(step)?;
        let ranges = ([x - length / 2.0, x + length / 2.0], [y - width / 2.0, y + width / 2.0], [z, z + thickness]);
        Some(self.box_in_floor(ranges))
    }

    /// The corners of a box of the bed frame, floor frame, m.
    pub(crate) fn box_in_floor(&self, (x, y, z): ([f64; 2], [f64; 2], [f64; 2])) -> [Point3<f64>; 8] {
        let floor_from_bed = &self.layout.floor_from_bed;
        let at = |i: usize, y: f64| {
            let [along, up] = [[0, 0], [1, 0], [1, 1], [0, 1]][i % 4];
            floor_from_bed * Point3::new(x[along], y, z[up])
        };
        std::array::from_fn(|i| at(i, y[i / 4]))
    }

    /// Height of the floor, floor frame, m: the lowest of the supports, the straps' lower ends
    /// and zero.
    pub fn floor_m(&self) -> f64 {
        let supports = self.plan.fixture.supports.iter().map(|s| s.at[2].si());
        let straps = self.plan.fixture.hold_downs.iter().map(|h| h.on_floor[2].si());
        supports.chain(straps).fold(0.0, f64::min)
    }
}
