//! The drawing of a load case: which way its arrows point.

use assess::{Ask, assess};
use drafting::figure::{Dash, Figure, Ink, Mark, Sign, Weight};
use drafting::views;
use plan::{Edit, Plan};
use quantity::Angle;

const PLAN: &str = include_str!("../../../assets/examples/tandem-rear-seat.ron");

/// The demo's case leaning by so much, its article pitched by so much.
fn leaning(direction_deg: f64, pitch_deg: f64) -> Plan {
    let mut plan = plan::file::read(PLAN).expect("the demo opens");
    plan.load_cases[0].direction = Angle::rad(direction_deg.to_radians());
    let to = Angle::rad(pitch_deg.to_radians());
    Edit::Pitch { to }.apply(&plan).expect("a gentle pitch")
}

fn drawn(plan: &Plan) -> (Figure, [f64; 2]) {
    let at = assess(plan, Ask::closed()).closed.target_in_floor;
    (views::load(plan, at).0, [at.x, at.z])
}

/// From the occupant point to the tip of the load's arrow, m.
fn load(figure: &Figure) -> [f64; 2] {
    let line = figure.marks.iter().find_map(|mark| match mark {
        Mark::Shape(shape) if shape.pen.is_some_and(|p| p.ink == Ink::Wanted && p.weight == Weight::Thick) => {
            Some(shape)
        }
        _ => None,
    });
    let points = &line.expect("the load is drawn").points;
    [points[1][0] - points[0][0], points[1][1] - points[0][1]]
}

fn lean_deg([u, v]: [f64; 2]) -> f64 {
    (-u).atan2(-v).to_degrees()
}

fn near(what: &str, got: f64, want: f64) {
    assert!((got - want).abs() < 1e-9, "{what}: got {got} deg, want {want} deg, difference {} deg", got - want);
}

/// Station is aft to the right, so forward is left; nose-up turns the article, and the load with
/// it, so that it leans aft (frames of the program).
#[test]
fn the_load_leans_forward_by_its_direction_and_aft_by_the_pitch() {
    for (direction, pitch) in [(0.0, 0.0), (10.0, 0.0), (10.0, -10.0), (10.0, 4.0), (-20.0, 0.0)] {
        let (figure, _) = drawn(&leaning(direction, pitch));
        near("lean on the floor", lean_deg(load(&figure)), direction + pitch);
    }
}

#[test]
fn gravity_points_straight_down_from_the_occupant_point() {
    let (figure, at) = drawn(&leaning(25.0, 3.0));
    let chain = figure.marks.iter().find_map(|mark| match mark {
        Mark::Shape(shape) if shape.pen.is_some_and(|p| p.dash == Dash::Chain) => Some(shape.points.clone()),
        _ => None,
    });
    let chain = chain.expect("gravity is drawn");
    let bits = |p: [f64; 2]| p.map(f64::to_bits);
    assert_eq!(bits(chain[0]), bits(at), "it hangs on the occupant point");
    assert_eq!(chain[1][0].to_bits(), at[0].to_bits(), "straight down");
    assert!(chain[1][1] < at[1], "down: from {} m to {} m", at[1], chain[1][1]);
    let sign = figure
        .marks
        .iter()
        .any(|mark| matches!(mark, Mark::Sign { sign: Sign::ArrowDown, at, .. } if bits(*at) == bits(chain[1])));
    assert!(sign, "with its arrowhead");
}

#[test]
fn the_parts_are_told_where_there_are_two_of_them() {
    let told = |plan: &Plan, word: &str| {
        let (figure, _) = drawn(plan);
        figure.marks.iter().any(|mark| matches!(mark, Mark::Text(label) if label.text.contains(word)))
    };
    // 3.8 at 30 deg: 3.8 cos 30 = 3.29 down, 3.8 sin 30 = 1.90 forward (`derived`).
    assert!(told(&leaning(30.0, 0.0), "3.29 down") && told(&leaning(30.0, 0.0), "1.90 forward"));
    assert!(told(&leaning(-30.0, 0.0), "1.90 aft"));
    assert!(!told(&leaning(0.0, 0.0), "down") && told(&leaning(0.0, 0.0), "load factor 3.80"));
}
