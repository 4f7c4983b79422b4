//! The tilt at which a stack goes, against an independent engine that steps through time. Source:
//! `time-stepping-tilts` (`derived`: printed angles of a run of another program's engine). On a level bed the
//! multiplier is the tangent of that tilt. Allowed: 0.3 deg, the angle by which it turns before
//! 3 mm of movement are seen. The fifth of the printed stacks, a lapped pile of 16, is left out: its
//! geometry was not printed.

use crate::given::{Settled, near, panel, solid};

fn tilt(what: &str, pile: &Settled, direction_deg: f64, engine_deg: f64) {
    near(what, pile.multiplier(direction_deg).atan().to_degrees(), engine_deg, 0.3, "deg");
}

fn bag(x: f64, friction: f64) -> statics::Body {
    solid([x, 0.0], [0.5, 0.33, 0.11], 25.0, friction)
}

#[test]
fn a_column_of_six_goes_sideways_at_the_tilt_of_the_engine() {
    let column = Settled::new(&panel(0.6), (0..6).map(|_| bag(0.0, 0.6)).collect());
    tilt("column of six", &column, 90.0, 26.53);
}

#[test]
fn a_slick_column_of_three_slides_at_the_tilt_of_the_engine() {
    let column = Settled::new(&panel(0.3), (0..3).map(|_| bag(0.0, 0.3)).collect());
    tilt("column of three", &column, 0.0, 16.87);
}

#[test]
fn two_posts_and_a_board_go_at_the_tilt_of_the_engine() {
    let post = |x: f64| solid([x, 0.0], [0.3, 0.3, 0.3], 20.0, 0.3);
    let bodies = vec![post(0.0), post(1.0), solid([0.5, 0.0], [1.4, 0.3, 0.045], 7.0, 0.3)];
    tilt("two posts and a board", &Settled::new(&panel(0.3), bodies), 0.0, 16.96);
}

#[test]
fn five_bags_in_steps_go_at_the_tilt_of_the_engine() {
    let bodies = (0..5).map(|k| bag(0.06 * f64::from(k), 0.5)).collect();
    tilt("five bags in steps", &Settled::new(&panel(0.5), bodies), 0.0, 24.45);
}
