//! The bed against the outline that is drawn under it. By the angles of the drawing alone.

use crate::bench::{at, bench, degrees, with_article, with_bed};
use crate::given::all_of;
use assess::{Amount, Ask, Check, Finding, State, assess};
use plan::{Line, Plan, start};

/// The bench with a straight line from 0.95 m to 1.45 m, which rises forward by so much, through its bed's origin at
/// station 1.0 m; and its bed at a slope, deg.
fn bench_on(line_deg: f64, bed_deg: f64) -> Plan {
    let z = |station: f64| 0.5 - (station - 1.0) * line_deg.to_radians().tan();
    let pan = Line::new("seat pan".to_owned(), [0.95, 1.45].map(|x| at([x, z(x)])).to_vec());
    let far = Line::new("shell".to_owned(), vec![at([0.5, 0.3]), at([1.8, 0.3])]);
    let drawn = with_article(&bench(), |article| article.outline = vec![far, pan]);
    with_bed(&drawn, |bed| bed.slope = degrees(bed_deg))
}

fn told(plan: &Plan) -> Vec<Finding> {
    all_of(&assess(plan, Ask::closed()).findings, Check::BedAsDrawn)
}

#[test]
fn a_bed_that_lies_otherwise_than_the_line_drawn_under_it_is_a_caution_with_both_slopes() {
    for (line_deg, bed_deg, apart_deg) in [(0.0, 5.0, 5.0), (8.0, 0.0, 8.0), (2.0, -2.0, 4.0)] {
        let findings = told(&bench_on(line_deg, bed_deg));
        let [finding] = &findings[..] else { panic!("one finding at {line_deg} and {bed_deg} deg: {findings:?}") };
        assert_eq!(finding.state, State::Caution, "{finding:?}");
        let Some(Amount::Angle(got)) = finding.value else { panic!("an angle: {finding:?}") };
        let want = apart_deg * std::f64::consts::PI / 180.0;
        assert!((got - want).abs() < 1e-9, "got {got} rad, want {want} rad, difference {:e} rad", got - want);
        assert!(finding.text.contains("“seat pan”"), "the line that it lies on: {}", finding.text);
    }
}

#[test]
fn a_bed_within_three_degrees_of_its_line_and_one_over_nothing_drawn_are_not_told() {
    for (line_deg, bed_deg) in [(0.0, 2.9), (6.0, 5.0), (-4.0, -4.0)] {
        assert_eq!(told(&bench_on(line_deg, bed_deg)), [], "{line_deg} and {bed_deg} deg");
    }
    let bare = with_bed(&bench(), |bed| bed.slope = degrees(10.0));
    assert_eq!(told(&bare), [], "nothing is drawn");
    let short = with_article(&bench_on(10.0, 0.0), |article| article.outline[1].points[1] = at([1.05, 0.49]));
    assert_eq!(told(&short), [], "a stub of 0.1 m is not what a bed of 0.4 m lies on");
}

#[test]
fn the_shapes_to_begin_with_lie_as_they_are_drawn() {
    for shape in start::Shape::ALL {
        let sizes = shape.sizes().map(|size| size.drawn);
        let plan = shape.plan(quantity::Units::Metric, sizes).expect("usual sizes");
        assert_eq!(told(&plan), [], "{shape:?}");
    }
}
