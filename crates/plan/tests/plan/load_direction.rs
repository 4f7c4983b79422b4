//! A load with a forward part: its resultant, its direction, and the pitch that lets gravity act
//! along it.

use crate::near::assert_near;
use plan::{Edit, LoadCase, Plan, point};
use quantity::{Angle, Mass, Quantity, Units};

fn case(load_factor: f64, direction_deg: f64) -> LoadCase {
    LoadCase {
        load_factor,
        direction: Angle::rad(direction_deg.to_radians()),
        occupant_mass: Mass::kg(86.0),
        ..Plan::blank(Units::Metric).load_cases[0].clone()
    }
}

/// Worked by hand (`derived`): down 4.0 and forward 3.0 are the legs of a 3-4-5 triangle, so the
/// resultant is 5.0 and tan d = 3/4, d = 36.8699 deg. 86 kg x 5.0 = 430 kg have to lie on the seat;
/// the vertical part alone, 86 kg x 4.0 = 344 kg, is four fifths of that and would fall short.
#[test]
fn four_down_and_three_forward_make_five_that_lean_by_37_degrees() {
    let leaning = case(1.0, 0.0).with_parts([4.0, 3.0]);
    assert_near("resultant", leaning.load_factor, 5.0, 1e-15, "g");
    assert_near("direction", leaning.direction.si().to_degrees(), 36.8699, 0.000_05, "deg");
    let limit = plan::LimitLoad::of(&leaning).as_mass().si();
    assert_near("limit load", limit, 430.0, 1e-12, "kg");
    let [down, _] = leaning.parts();
    assert_near("vertical part alone", 86.0 * down, 344.0, 1e-12, "kg");
}

/// Worked by hand (`derived`): down 4.4, forward 0.5. 4.4^2 + 0.5^2 = 19.36 + 0.25 = 19.61, its root
/// is 4.42832 (4.42832^2 = 19.61002). tan d = 0.5 / 4.4 = 0.1136364; d = t - t^3/3 + t^5/5 =
/// 0.11363636 - 0.00048914 + 0.00000379 = 0.11315101 rad, and the next term takes 0.00000003 off:
/// 0.11315098 rad = 6.48307 deg. The article is pitched nose-down by as much.
#[test]
fn a_small_forward_part_leans_the_load_and_hardly_raises_it() {
    let leaning = case(4.4, 0.0).with_parts([4.4, 0.5]);
    assert_near("resultant", leaning.load_factor, 4.42832, 0.000_005, "g");
    assert_near("direction", leaning.direction.si().to_degrees(), 6.48307, 0.000_005, "deg");
    assert_near("pitch", leaning.pitch_due().si().to_degrees(), -6.48307, 0.000_005, "deg");
}

#[test]
fn parts_and_resultant_lead_into_each_other() {
    for (load_factor, direction_deg) in [(4.4, 0.0), (5.0, 30.0), (3.8, -12.5), (9.0, 59.0)] {
        let before = case(load_factor, direction_deg);
        let after = before.with_parts(before.parts());
        assert_near("load factor", after.load_factor, load_factor, 1e-14, "g");
        assert_near("direction", after.direction.si(), before.direction.si(), 1e-15, "rad");
    }
}

/// By another route: the frames of the program turn the article, not the load. With the pitch that
/// is due, the parts along the article's own axes, carried into the floor frame, point straight
/// down and are as long as the load factor.
#[test]
fn the_due_pitch_turns_the_load_straight_down_in_the_floor_frame() {
    for direction_deg in [0.0, 10.0, -15.0, 36.87] {
        let case = case(4.4, direction_deg);
        let mut plan = Plan::blank(Units::Metric);
        plan = Edit::Pitch { to: case.pitch_due() }.apply(&plan).expect("a gentle pitch");
        let [down, forward] = case.parts();
        let load_in_article = nalgebra::Vector3::new(-forward, 0.0, -down);
        let load_in_floor = plan.floor_from_article() * load_in_article;
        assert_near("along the floor", load_in_floor.x, 0.0, 1e-14, "g");
        assert_near("down", -load_in_floor.z, case.load_factor, 1e-14, "g");
        let pivot = point(plan.article.pivot);
        assert_eq!(plan.floor_from_article() * pivot, pivot, "the pivot stays");
    }
}
