//! Joints that are pulled.

use crate::{mid_man, near_mm, posture};
use statics::occupant::{Handle, Posture};

fn light_aircraft() -> Posture {
    posture([20.0, 10.0, 125.0, 25.0, 110.0])
}

#[test]
fn a_handle_pulled_to_where_it_is_changes_nothing() {
    let (build, sits) = (mid_man().build(), Posture { thigh_rad: Some(0.5), ..light_aircraft() });
    for handle in Handle::ALL {
        let pulled = sits.pulled(&build, handle, handle.at(&build, &sits));
        let (got, want) = (pulled.angle_rad(&build, handle), sits.angle_rad(&build, handle));
        assert!((got - want).abs() < 1e-9, "{handle:?}: got {got} rad, want {want} rad, off {}", got - want);
    }
}

#[test]
fn a_handle_goes_where_it_is_pulled() {
    let (build, sits) = (mid_man().build(), Posture { thigh_rad: Some(0.5), ..light_aircraft() });
    for handle in Handle::ALL {
        for by in [-0.15, 0.1] {
            let angle = sits.angle_rad(&build, handle) + by;
            let wanted = sits.with(&build, handle, angle);
            let to = handle.at(&build, &wanted);
            let at = handle.at(&build, &sits.pulled(&build, handle, to));
            near_mm(&format!("{handle:?} by {by} rad, ahead"), 1e3 * at[0], 1e3 * to[0], 0.01);
            near_mm(&format!("{handle:?} by {by} rad, up"), 1e3 * at[1], 1e3 * to[1], 0.01);
        }
    }
}

#[test]
fn a_handle_pulled_beyond_its_bounds_stops_there() {
    let (build, sits) = (mid_man().build(), light_aircraft());
    for handle in Handle::ALL {
        let [low, high] = handle.bounds_rad();
        for angle in [low - 0.3, high + 0.3] {
            let got = sits.with(&build, handle, angle).angle_rad(&build, handle);
            assert!((low - 1e-12..=high + 1e-12).contains(&got), "{handle:?}: got {got} rad of {low} to {high}");
        }
    }
}

#[test]
fn a_thigh_pulled_down_onto_the_pan_lies_there() {
    let (build, sits) = (mid_man().build(), Posture { thigh_rad: Some(0.6), ..light_aircraft() });
    let pulled = sits.pulled(&build, Handle::Thigh, [0.6, -0.2]);
    assert_eq!(pulled.thigh_rad, None, "a thigh cannot go through the pan");
}
