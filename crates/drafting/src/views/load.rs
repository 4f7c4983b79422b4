//! The load case in the article's side view as it stands on the floor: the load, its parts along the
//! article's own axes, and gravity, which a stack can only follow.

use super::arrow::barbs;
use super::members::members;
use super::projection::View;
use crate::figure::{Align, Anchor, Figure, Ink, Label, Level, Pen, Sign, Weight};
use nalgebra::{Point3, Vector3};
use plan::{LoadCase, Plan};
use quantity::frame::side;

/// How long the load is drawn, m: about a seat's height, whatever its load factor.
const LOAD_M: f64 = 0.55;
/// How far gravity's line reaches beyond the load, so that it is seen where both agree.
const BEYOND: f64 = 1.22;
/// An arrow's head, m.
const HEAD_M: f64 = 0.05;
/// A part smaller than this share of the load is not drawn: its arrow would be all head.
const NONE: f64 = 0.05;
/// How far above the occupant point a seat back may reach to be seen whole, m.
const TOP_M: f64 = 0.5;

/// The case in hand at the occupant point (floor frame, m), and the box of the figure that is to be
/// seen, lower left and upper right, m. The article's outline reaches beyond it.
pub fn load(plan: &Plan, occupant_in_floor: Point3<f64>) -> (Figure, [[f64; 2]; 2]) {
    let mut figure = members(plan, View::Side);
    let at = View::Side.project(occupant_in_floor);
    // A seat back is seen to its top where it is no higher than a head.
    let top = figure.bounds().map_or(at[1], |[_, high]| high[1].min(at[1] + TOP_M)) + 0.03;
    gravity(&mut figure, at);
    if let Some(case) = plan.case_in_hand() {
        vectors(&mut figure, plan, case, occupant_in_floor);
    }
    figure.sign(at, Sign::OccupantPoint, Ink::Wanted);
    let half = LOAD_M * 0.95;
    (figure, [[at[0] - half, at[1] - LOAD_M * BEYOND - 0.10], [at[0] + half, top.max(at[1] + 0.14)]])
}

fn gravity(figure: &mut Figure, at: [f64; 2]) {
    let foot = [at[0], at[1] - LOAD_M * BEYOND];
    figure.line(vec![at, foot], Pen::chain(Ink::Is, Weight::Medium));
    figure.sign(foot, Sign::ArrowDown, Ink::Is);
    figure.label(Label::caption(foot, "gravity").ink(Ink::Is).anchored(Anchor::BELOW, [0.0, -3.0]).dodging());
}

/// The load from the occupant point, and its parts tip to tail along the article's axes.
fn vectors(figure: &mut Figure, plan: &Plan, case: &LoadCase, occupant_in_floor: Point3<f64>) {
    let floor_from_article = plan.floor_from_article().rotation;
    let metres = LOAD_M / case.load_factor;
    let [down, forward] = case.parts();
    let down_in_floor = floor_from_article * Vector3::new(0.0, 0.0, -down * metres);
    let forward_in_floor = floor_from_article * Vector3::new(-forward * metres, 0.0, 0.0);
    let project = |p: Point3<f64>| View::Side.project(p);
    let at = project(occupant_in_floor);
    let corner = project(occupant_in_floor + down_in_floor);
    let tip = project(occupant_in_floor + down_in_floor + forward_in_floor);
    if forward.abs() > NONE * case.load_factor {
        part(figure, [at, corner], format!("{down:.2} down"));
        // Forward along x is negative.
        let side = side(0, -forward);
        part(figure, [corner, tip], format!("{:.2} {side}", forward.abs()));
    }
    arrow(figure, [at, tip], Pen::solid(Ink::Wanted, Weight::Thick));
    let left = tip[0] < at[0];
    let (align, shift) = if left { (Align::Right, -7.0) } else { (Align::Left, 7.0) };
    let anchor = Anchor { align, level: Level::Middle };
    let middle = [f64::midpoint(at[0], tip[0]), f64::midpoint(at[1], tip[1])];
    let text = format!("load factor {:.2}", case.load_factor);
    figure.label(Label::new(middle, text).ink(Ink::Wanted).bold().anchored(anchor, [shift, 0.0]).dodging());
}

fn part(figure: &mut Figure, [from, tip]: [[f64; 2]; 2], text: String) {
    arrow(figure, [from, tip], Pen::dashed(Ink::Wanted, Weight::Thin));
    let middle = [f64::midpoint(from[0], tip[0]), f64::midpoint(from[1], tip[1])];
    let upright = (tip[1] - from[1]).abs() > (tip[0] - from[0]).abs();
    let (anchor, shift) = if upright {
        (Anchor { align: Align::Left, level: Level::Middle }, [6.0, 0.0])
    } else {
        (Anchor::BELOW, [0.0, -4.0])
    };
    figure.label(Label::caption(middle, text).ink(Ink::Wanted).anchored(anchor, shift).dodging());
}

fn arrow(figure: &mut Figure, [from, tip]: [[f64; 2]; 2], pen: Pen) {
    figure.line(vec![from, tip], pen);
    figure.line(barbs(from, tip, HEAD_M), Pen::solid(pen.ink, Weight::Medium));
}
