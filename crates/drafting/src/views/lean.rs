//! How the bags let the stack lean, drawn to an exaggerated scale over the stack as it is laid.

use super::projection::View;
use super::scene::Scene;
use crate::figure::{Anchor, Figure, Fill, Ink, Label, Pen, Weight};
use assess::{Moved, Soft};
use nalgebra::{Point3, Rotation3, Vector3};
use quantity::Quantity;

/// The scales to which it may be drawn.
const SCALES: [f64; 8] = [200.0, 100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0];
/// A corner is drawn no farther off than this part of the stack's height.
const MOST: f64 = 0.3;
/// No piece is drawn thinner by more than this part of its thickness.
const MOST_SQUEEZED: f64 = 0.4;

/// All pieces from the side as they lean and sink at the step that is drawn, each cut through its middle, with the
/// scales told. A bag that gives is drawn as much thinner, so that pieces stay on one another. None: not solved, or
/// the stack does not stand.
pub fn lean(scene: &Scene, soft: &Soft) -> Option<Figure> {
    let leaning = Leaning::of(scene, soft)?;
    let mut figure = Figure::default();
    let pen = Pen::solid(Ink::Is, Weight::Medium);
    for step in scene.pieces() {
        let corners = leaning.corners(step, [leaning.scale, leaning.sinking])?;
        let cut = (0..4).map(|i| nalgebra::center(&corners[i], &corners[i + 4]));
        figure.polygon(cut.map(|corner| View::Side.project(corner)).collect(), Fill::None, Some(pen));
    }
    let [_, high] = figure.bounds()?;
    figure.label(Label::caption(high, leaning.words()).ink(Ink::Is).anchored(Anchor::LEFT, [8.0, 0.0]).dodging());
    Some(figure)
}

/// To what scales the lean of a state is drawn, in words; none where it is not solved, or where the stack does not stand.
pub fn lean_words(scene: &Scene, soft: &Soft) -> Option<String> {
    Some(Leaning::of(scene, soft)?.words())
}

/// The pieces of a state as they lean and sink, to the scales that the view from the side has.
pub(crate) struct Leaning<'a> {
    scene: &'a Scene<'a>,
    moved: &'a [Moved],
    /// How much lower underside and top of each piece are, m.
    faces_m: Vec<[f64; 2]>,
    /// Of shifts and turns, and of sinking.
    scale: f64,
    sinking: f64,
}

impl<'a> Leaning<'a> {
    /// None: not solved, or the stack does not stand.
    pub(crate) fn of(scene: &'a Scene<'a>, soft: &'a Soft) -> Option<Self> {
        let last = scene.step.checked_sub(1)?;
        let faces_m = soft.faces_sunk_m(scene.plan, &scene.layout.pile, last);
        let mut leaning = Self { scene, moved: soft.moved_after(last), faces_m, scale: 1.0, sinking: 1.0 };
        let laid: Vec<Point3<f64>> = scene.pieces().filter_map(|step| scene.corners(step)).flatten().collect();
        let heights = laid.iter().map(|corner| corner.z);
        let [low, high] = heights.fold([f64::INFINITY, f64::NEG_INFINITY], |[a, b], z| [a.min(z), b.max(z)]);
        let most_m = scene.pieces().filter_map(|step| leaning.off_m(step)).reduce(f64::max)?;
        let fits = |scale: &f64| scale * most_m <= MOST * (high - low);
        leaning.scale = SCALES.into_iter().find(fits).unwrap_or(1.0);
        let thin = |scale: &f64| scene.pieces().all(|step| scale * leaning.squeezed(step) <= MOST_SQUEEZED);
        leaning.sinking = SCALES.into_iter().find(thin).unwrap_or(1.0);
        Some(leaning)
    }

    /// To what scales it is drawn, in words.
    pub(crate) fn words(&self) -> String {
        format!("lean drawn × {:.0}, sinking × {:.0}", self.scale, self.sinking)
    }

    /// A box of a piece (once round its left side, once round its right) as it leans, floor frame, m.
    pub(crate) fn box_of(&self, step: usize, laid: [Point3<f64>; 8]) -> Option<[Point3<f64>; 8]> {
        self.leant(step, laid, [self.scale, self.sinking])
    }

    /// How far the farthest corner of a piece goes, true to scale, m.
    fn off_m(&self, step: usize) -> Option<f64> {
        let (laid, leans) = (self.scene.corners(step)?, self.corners(step, [1.0, 0.0])?);
        laid.iter().zip(&leans).map(|(laid, leans)| (leans - laid).norm()).reduce(f64::max)
    }

    /// By what part of its thickness a piece is squeezed.
    fn squeezed(&self, step: usize) -> f64 {
        let thickness_m = self.scene.plan.extent_of(&self.scene.plan.stack[step])[2].si();
        self.faces_m.get(step).map_or(0.0, |[low_m, high_m]| (high_m - low_m) / thickness_m)
    }

    /// The corners of a piece with its shift and turn, and its sinking, so many times as large, floor frame, m.
    fn corners(&self, step: usize, scales: [f64; 2]) -> Option<[Point3<f64>; 8]> {
        self.leant(step, self.scene.corners(step)?, scales)
    }

    fn leant(&self, step: usize, laid: [Point3<f64>; 8], [scale, sinking]: [f64; 2]) -> Option<[Point3<f64>; 8]> {
        let (moved, faces_m) = (self.moved.get(step)?, self.faces_m.get(step)?);
        let floor_from_bed = &self.scene.layout.floor_from_bed;
        let [aft, right, _] = moved.shift_m;
        let shift = floor_from_bed * (scale * Vector3::new(aft, right, 0.0));
        let turn = Rotation3::from_scaled_axis(floor_from_bed * (scale * Vector3::from(moved.turn_rad)));
        let centre = nalgebra::center(&laid[0], &laid[6]);
        let down = |face: usize| floor_from_bed * Vector3::new(0.0, 0.0, -sinking * faces_m[face]);
        // Once round its left side, once round its right: two lower corners, then two upper ones.
        let lowered = |(at, corner): (usize, Point3<f64>)| {
            centre + turn * (corner - centre) + shift + down(usize::from(at % 4 >= 2))
        };
        let mut corners = laid;
        corners.iter_mut().enumerate().for_each(|(at, corner)| *corner = lowered((at, *corner)));
        Some(corners)
    }
}
