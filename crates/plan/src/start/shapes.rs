//! The four shapes. Station 0 is the bed's front edge, buttock line 0 the middle, waterline 0 the tops of the scales.
//! Thicknesses of timber are drawn, in proportion to a size that is asked.

use super::cut::{Member, bearing, four_scales, scale, sheet};
use crate::{Plan, Stuff};
use quantity::{Angle, Length};

fn bed_at(plan: &mut Plan, waterline: f64) {
    plan.bed.origin = [0.0, 0.0, waterline].map(Length::m);
}

pub(super) fn spars(plan: &mut Plan, [distance, cap, breadth, across, top]: [f64; 5]) {
    bed_at(plan, top);
    let (half, rear) = (0.5 * (across + cap), distance);
    for (spar, leg, at) in [("front spar", "front legs", 0.0), ("rear spar", "rear legs", rear)] {
        let under = (top - 1.6 * cap).max(0.5 * top);
        let member = |name, z, pair| Member { name, x: [at, at + cap], z, half, pair, stuff: Stuff::Metal };
        member(spar, [under, top], None).draw(plan);
        member(leg, [0.0, under], Some(cap)).draw(plan);
        bearing(plan, spar, [at, at + cap], breadth);
    }
    sheet(plan, "seat pan", [[0.0, top], [rear + cap, top]], 0.5 * breadth);
    four_scales(plan, [0.5 * cap, rear + 0.5 * cap], across);
}

pub(super) fn bucket(plan: &mut Plan, [along, across, top, length, breadth]: [f64; 5]) {
    bed_at(plan, top);
    let (front, rear) = (0.5 * (length - along), 0.5 * (length + along));
    let thick = along / 18.0;
    let half = 0.5 * (across.max(breadth) + thick);
    let timber = |name, x, z, pair| Member { name, x, z, half, pair, stuff: Stuff::Timber };
    // The rails reach under the posts of a floor that is longer than the cells stand apart.
    let ends = [(front - 0.5 * thick).min(0.0), (rear + 0.5 * thick).max(length)];
    let cross = |middle: f64| [middle - 0.5 * thick, middle + 0.5 * thick];
    timber("front cross member", cross(front), [0.0, thick], None).draw(plan);
    timber("rear cross member", cross(rear), [0.0, thick], None).draw(plan);
    timber("rails", ends, [thick, 2.0 * thick], Some(thick)).draw(plan);
    let under = top - thick;
    timber("front posts", [0.0, thick], [2.0 * thick, under], Some(thick)).draw(plan);
    timber("rear posts", [length - thick, length], [2.0 * thick, under], Some(thick)).draw(plan);
    timber("front beam", [0.0, thick], [under, top], None).draw(plan);
    timber("rear beam", [length - thick, length], [under, top], None).draw(plan);
    sheet(plan, "bucket floor", [[0.0, top], [length, top]], 0.5 * breadth);
    bearing(plan, "bucket floor", [0.0, length], breadth);
    scale(plan, "left front cell", [front, -0.5 * across]);
    scale(plan, "right front cell", [front, 0.5 * across]);
    scale(plan, "rear cell", [rear, 0.0]);
}

/// The pan slopes by the difference of its edges' heights over its length, which is measured along it.
pub(super) fn cradle(plan: &mut Plan, [along, across, length, front, rear]: [f64; 5]) -> Result<(), &'static str> {
    let rise = (front - rear) / length;
    if rise.abs() >= STEEPEST {
        return Err("the pan's edges differ in height by more than four fifths of its length: check the heights of \
                    front and rear edge");
    }
    bed_at(plan, front);
    plan.bed.slope = Angle::rad(rise.asin());
    let level = length * (1.0 - rise * rise).sqrt();
    let thick = along / 9.0;
    let at = [0.5 * (level - along), 0.5 * (level + along)];
    for (name, x) in ["front cradle board", "rear cradle board"].into_iter().zip(at) {
        let x = [x - 0.5 * thick, x + 0.5 * thick];
        // Up to the pan where that is lower: a board does not stand through it.
        let under = x.map(|x| front - rise * length * (x / level).clamp(0.0, 1.0));
        let top = under[0].min(under[1]);
        Member { name, x, z: [0.0, top], half: 0.5 * across, pair: None, stuff: Stuff::Timber }.draw(plan);
    }
    sheet(plan, "pan", [[0.0, front], [level, rear]], 0.5 * across);
    bearing(plan, "pan", [0.0, length], across);
    four_scales(plan, at, across);
    Ok(())
}

/// Beyond this rise over length (53 degrees) nothing is a pan any more: `common practice, no source`.
const STEEPEST: f64 = 0.8;

pub(super) fn trestles(plan: &mut Plan, [along, across, length, breadth, top]: [f64; 5]) {
    bed_at(plan, top);
    let thick = along / 14.0;
    let at = [0.5 * (length - along), 0.5 * (length + along)];
    let half = 0.5 * (across + thick);
    for ((beam, legs), x) in [("front trestle", "front legs"), ("rear trestle", "rear legs")].into_iter().zip(at) {
        let under = (top - 1.5 * thick).max(0.5 * top);
        let x = [x - 0.5 * thick, x + 0.5 * thick];
        let timber = |name, z, pair| Member { name, x, z, half, pair, stuff: Stuff::Timber };
        timber(beam, [under, top], None).draw(plan);
        timber(legs, [0.0, under], Some(thick)).draw(plan);
    }
    sheet(plan, "cabin floor", [[0.0, top], [length, top]], 0.5 * breadth);
    bearing(plan, "cabin floor", [0.0, length], breadth);
    four_scales(plan, at, across);
}

/// From where to where a size is measured, article frame, m.
pub(super) type Span = [[f64; 3]; 2];

/// The five sizes of the spars on their picture.
pub(super) fn spans_of_spars([distance, cap, breadth, across, top]: [f64; 5]) -> [Span; 5] {
    let (half, rear) = (0.5 * (across + cap), distance + cap);
    [
        [[0.0, -half, top], [distance, -half, top]],
        [[distance, half, top], [rear, half, top]],
        [[0.0, -0.5 * breadth, top], [0.0, 0.5 * breadth, top]],
        [[0.5 * cap, -0.5 * across, 0.0], [0.5 * cap, 0.5 * across, 0.0]],
        [[rear, -half, 0.0], [rear, -half, top]],
    ]
}

/// Those of the bucket.
pub(super) fn spans_of_bucket([along, across, top, length, breadth]: [f64; 5]) -> [Span; 5] {
    let (front, rear) = (0.5 * (length - along), 0.5 * (length + along));
    let (side, left) = (-0.5 * across, -0.5 * breadth);
    [
        [[front, side, 0.0], [rear, side, 0.0]],
        [[front, side, 0.0], [front, -side, 0.0]],
        [[length, side, 0.0], [length, side, top]],
        [[0.0, left, top], [length, left, top]],
        [[0.0, left, top], [0.0, -left, top]],
    ]
}

/// Those of the cradle.
pub(super) fn spans_of_cradle([along, across, length, front, rear]: [f64; 5]) -> [Span; 5] {
    let rise = front - rear;
    let level = (length * length - rise * rise).max(0.0).sqrt();
    let at = [0.5 * (level - along), 0.5 * (level + along)];
    let side = -0.5 * across;
    [
        [[at[0], side, 0.0], [at[1], side, 0.0]],
        [[at[0], side, 0.0], [at[0], -side, 0.0]],
        [[0.0, side, front], [level, side, rear]],
        [[0.0, side, 0.0], [0.0, side, front]],
        [[level, side, 0.0], [level, side, rear]],
    ]
}

/// Those of the cabin floor.
pub(super) fn spans_of_trestles([along, across, length, breadth, top]: [f64; 5]) -> [Span; 5] {
    let at = [0.5 * (length - along), 0.5 * (length + along)];
    let (side, left) = (-0.5 * across, -0.5 * breadth);
    [
        [[at[0], side, 0.0], [at[1], side, 0.0]],
        [[at[0], side, 0.0], [at[0], -side, 0.0]],
        [[0.0, left, top], [length, left, top]],
        [[0.0, left, top], [0.0, -left, top]],
        [[length, left, 0.0], [length, left, top]],
    ]
}
