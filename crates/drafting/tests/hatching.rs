//! Hatching stays inside its outline, whatever the outline.

use drafting::lower::hatched;
use proptest::prelude::*;

const AREA: [f64; 4] = [-1e3, -1e3, 1e3, 1e3];

/// Whether a point lies inside a polygon, by the winding of its corners about the point: another
/// route than the crossings by which the hatching itself is cut.
fn winds_about(polygon: &[[f64; 2]], [x, y]: [f64; 2]) -> bool {
    let angle = |p: [f64; 2]| (p[1] - y).atan2(p[0] - x);
    let turn: f64 = (0..polygon.len())
        .map(|i| {
            let step = angle(polygon[(i + 1) % polygon.len()]) - angle(polygon[i]);
            (step + std::f64::consts::PI).rem_euclid(std::f64::consts::TAU) - std::f64::consts::PI
        })
        .sum();
    turn.abs() > std::f64::consts::PI
}

fn star() -> impl Strategy<Value = Vec<[f64; 2]>> {
    proptest::collection::vec(5.0..100.0_f64, 5..14).prop_map(|radii| {
        let count = radii.len() as f64;
        let corner = |(i, r): (usize, f64)| {
            let turn = std::f64::consts::TAU * i as f64 / count;
            [r * turn.cos(), r * turn.sin()]
        };
        radii.into_iter().enumerate().map(corner).collect()
    })
}

proptest! {
    #[test]
    fn hatch_lines_stay_inside_a_concave_outline(outline in star(), spacing in 0.5..9.0_f64) {
        for [a, b] in hatched(&outline, spacing, AREA) {
            for share in [0.01, 0.3, 0.5, 0.7, 0.99] {
                let p = [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
                let length = (a[0] - b[0]).hypot(a[1] - b[1]);
                prop_assert!(length < 1e-6 || winds_about(&outline, p), "got {p:?}, want a point inside {outline:?}, device units");
            }
        }
    }

    #[test]
    fn hatch_lines_stay_inside_the_area(outline in star()) {
        let area = [-20.0, -10.0, 30.0, 25.0];
        for p in hatched(&outline, 2.0, area).into_iter().flatten() {
            let out = (area[0] - p[0]).max(p[0] - area[2]).max(area[1] - p[1]).max(p[1] - area[3]);
            prop_assert!(out <= 1e-9, "got {p:?}, want within {area:?}, outside by {out} device units");
        }
    }
}

#[test]
fn a_square_is_hatched_over_its_whole_diagonal() {
    let square = [[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]];
    let lines = hatched(&square, 1.0, AREA);
    // The diagonal across the lines is 14.14 long: 14 lines at a spacing of 1 (`own derivation`).
    assert_eq!(lines.len(), 14, "got {} lines, want 14 lines, difference {}", lines.len(), lines.len().abs_diff(14));
}

#[test]
fn nothing_is_hatched_for_an_outline_that_is_no_number() {
    assert!(hatched(&[[f64::NAN, 0.0], [1.0, 0.0], [0.0, 1.0]], 1.0, AREA).is_empty());
    assert!(hatched(&[], 1.0, AREA).is_empty());
}
