//! What must hold of any body in any posture.

use proptest::prelude::*;
use statics::occupant::{Build, Handle, Person, Posture, Sex, Table, seated};

fn anybody() -> impl Strategy<Value = Person> {
    let sexes = prop_oneof![Just(Sex::Female), Just(Sex::Male)];
    let tables = prop_oneof![Just(Table::DeLeva), Just(Table::Winter), Just(Table::Dumas)];
    (45.0..140.0, 1.45..2.05, sexes, tables).prop_map(|(mass_kg, stature_m, sex, table)| Person {
        mass_kg,
        stature_m,
        sex,
        table,
        slump_m: 0.020,
    })
}

fn any_posture() -> impl Strategy<Value = Posture> {
    let degrees = |low: f64, high: f64| (low..high).prop_map(f64::to_radians);
    let seat = (degrees(-5.0, 55.0), degrees(-5.0, 35.0), prop::option::of(degrees(0.0, 50.0)));
    let limbs = (degrees(40.0, 175.0), degrees(-20.0, 120.0), degrees(40.0, 175.0));
    (seat, limbs, 0.0..0.1, 0.0..0.1).prop_map(|((recline_rad, pan_rad, raised), limbs, under_m, behind_m)| {
        let thigh_rad = raised.map(|raised| pan_rad + raised);
        let (knee_rad, arm_rad, elbow_rad) = limbs;
        Posture { recline_rad, pan_rad, thigh_rad, knee_rad, arm_rad, elbow_rad, head_rad: None, under_m, behind_m }
    })
}

fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// Every share times the same factor.
fn scaled(build: &Build, factor: f64) -> Build {
    let mut scaled = *build;
    scaled.trunk_share *= factor;
    for link in [
        &mut scaled.head,
        &mut scaled.upper_arm,
        &mut scaled.forearm,
        &mut scaled.hand,
        &mut scaled.thigh,
        &mut scaled.shank,
        &mut scaled.foot.link,
    ] {
        link.share *= factor;
    }
    scaled
}

proptest! {
    /// A joint that turns by a thousandth moves the point by less than two thousandths of a metre:
    /// no link of anybody reaches two metres.
    #[test]
    fn the_point_moves_continuously_with_every_joint(person in anybody(), posture in any_posture()) {
        let build = person.build();
        let before = seated(&build, &posture).cg_m();
        for handle in Handle::ALL {
            let angle = posture.angle_rad(&build, handle);
            let after = seated(&build, &posture.with(&build, handle, angle + 1e-3)).cg_m();
            let moved = distance(before, after);
            prop_assert!(moved <= 2e-3, "{handle:?}: moved {moved} m, allowed 0.002 m");
        }
    }

    #[test]
    fn scaling_every_segments_mass_alike_moves_nothing(
        person in anybody(), posture in any_posture(), factor in 0.01..100.0,
    ) {
        let build = person.build();
        let (one, other) = (seated(&build, &posture).cg_m(), seated(&scaled(&build, factor), &posture).cg_m());
        prop_assert!(distance(one, other) < 1e-12, "moved by {} m", distance(one, other));
    }

    /// Two routes to the same point: all segments at once, and what is left on the seat together
    /// with what floor and pedals carry.
    #[test]
    fn what_the_seat_and_what_the_floor_carries_make_the_whole(person in anybody(), posture in any_posture()) {
        let figure = seated(&person.build(), &posture);
        let (left, left_cg) = figure.without_lower_legs();
        let lower = &figure.parts[6..];
        let whole = [0, 1].map(|k| left * left_cg[k] + lower.iter().map(|p| p.share * p.cg_m[k]).sum::<f64>());
        prop_assert!(distance(whole, figure.cg_m()) < 1e-12, "{whole:?} and {:?}", figure.cg_m());
    }

    /// The links keep their lengths whatever the posture.
    #[test]
    fn links_keep_their_lengths(person in anybody(), posture in any_posture()) {
        let build = person.build();
        let joints = seated(&build, &posture).joints;
        for (what, from, to, want) in [
            ("thigh", joints.hip, joints.knee, build.thigh.length_m),
            ("shank", joints.knee, joints.ankle, build.shank.length_m),
            ("foot", joints.heel, joints.toe, build.foot.link.length_m),
            ("upper arm", joints.shoulder, joints.elbow, build.upper_arm.length_m),
            ("forearm", joints.elbow, joints.wrist, build.forearm.length_m),
            ("head", joints.neck, joints.vertex, build.head.length_m),
        ] {
            let got = distance(from, to);
            prop_assert!((got - want).abs() < 1e-12, "{what}: got {got} m, want {want} m");
        }
    }

    /// The hip keeps its distance from both planes.
    #[test]
    fn the_hip_joint_keeps_its_distance_from_pan_and_back(person in anybody(), posture in any_posture()) {
        let build = person.build();
        let [ahead, up] = seated(&build, &posture).joints.hip;
        let above = up * posture.pan_rad.cos() - ahead * posture.pan_rad.sin();
        let from_back = ahead * posture.recline_rad.cos() + up * posture.recline_rad.sin();
        let (want_above, want_back) = (build.hip.up_m + posture.under_m, build.hip.ahead_m + posture.behind_m);
        prop_assert!((above - want_above).abs() < 1e-9, "above the pan {above} m, want {want_above} m");
        prop_assert!((from_back - want_back).abs() < 1e-9, "from the back {from_back} m, want {want_back} m");
    }
}
