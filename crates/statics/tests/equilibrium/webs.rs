//! Binding straps as webs: what they bear on. Source: `own derivation`: a web spans what is narrower than
//! itself, and what has higher pieces on both sides; the lever shares the pull between two edges.

use crate::given::{Settled, near, panel, solid};
use quantity::STANDARD_GRAVITY_M_S2 as GRAVITY;
use statics::Body;
use statics::equilibrium::{Bears, DeadPull, Shares, Stack, least_energy};
use statics::spanned::{Flex, board};

const PULL_N: f64 = 800.0;

fn strap(at_in_bed_m: [f64; 2], after: usize) -> [DeadPull; 1] {
    [DeadPull { at_in_bed_m, width_m: 0.05, force_n: PULL_N, after }]
}

/// A board with two plates on it, side by side or one ahead of the other, a gap between them.
fn two_plates(gap_m: f64, axis: usize) -> Settled {
    let off_m = 0.5 * (0.3 + gap_m);
    let plate = |side: f64| {
        let mut centre_m = [0.0; 2];
        centre_m[axis] = side * off_m;
        solid(centre_m, [0.3, 0.3, 0.02], 14.0, 0.4)
    };
    let whole: Body = solid([0.0, 0.0], [1.2, 1.2, 0.04], 20.0, 0.4);
    Settled::new(&panel(0.4), vec![whole, plate(-1.0), plate(1.0)])
}

fn bears(pile: &Settled, dead: &[DeadPull; 1]) -> Vec<Bears> {
    dead[0].bears_on(&Stack { dead, ..pile.stack() }, pile.bodies.len())
}

#[test]
fn a_web_over_a_narrow_gap_bears_on_both_plates_and_not_on_the_board_below() {
    for axis in [0, 1] {
        let found = bears(&two_plates(0.01, axis), &strap([0.0, 0.0], 3));
        assert_eq!(found.iter().map(|one| one.body).collect::<Vec<_>>(), [1, 2], "axis {axis}");
        for one in &found {
            near("half", one.share, 0.5, 1e-12, "of the pull");
            // 20 mm of the web on each plate.
            near("on the plate", one.patch.area(), 0.02 * 0.05, 1e-12, "m2");
        }
    }
}

/// Edges at -0.1 and 0.1 m, the strap at 0.04 m: 0.14 / 0.2 on the right one.
#[test]
fn a_web_over_a_wide_gap_across_shares_its_pull_by_the_lever() {
    let found = bears(&two_plates(0.2, 1), &strap([0.0, 0.04], 3));
    assert_eq!(found.iter().map(|one| one.body).collect::<Vec<_>>(), [1, 2]);
    near("right", found[1].share, 0.7, 1e-12, "of the pull");
    near("left", found[0].share, 0.3, 1e-12, "of the pull");
    near("at the edge", found[1].at_in_bed.y, 0.1, 1e-12, "m");
}

/// Fore and aft there is nothing over which a strap that runs across would span.
#[test]
fn a_web_in_a_wide_gap_fore_and_aft_bears_on_what_is_under_it() {
    let found = bears(&two_plates(0.2, 0), &strap([0.0, 0.0], 3));
    assert_eq!(found.iter().map(|one| one.body).collect::<Vec<_>>(), [0]);
}

#[test]
fn beside_the_highest_piece_a_web_bears_on_what_is_under_it() {
    let found = bears(&two_plates(0.01, 1), &strap([0.0, 0.5], 3));
    assert_eq!(found.iter().map(|one| one.body).collect::<Vec<_>>(), [0]);
}

#[test]
fn all_parts_together_act_where_the_strap_crosses() {
    for (gap_m, at) in [(0.01, [0.03, 0.004]), (0.2, [-0.05, 0.06]), (0.03, [0.14, -0.02])] {
        let found = bears(&two_plates(gap_m, 1), &strap(at, 3));
        near("sum", found.iter().map(|one| one.share).sum(), 1.0, 1e-12, "of the pull");
        for axis in [0, 1] {
            let place: f64 = found.iter().map(|one| one.share * one.at_in_bed[axis]).sum();
            near(&format!("axis {axis}, gap {gap_m}"), place, at[axis], 1e-12, "m");
        }
    }
}

#[test]
fn plates_hand_the_pull_down_half_each() {
    let (pile, dead) = (two_plates(0.01, 1), strap([0.0, 0.0], 3));
    let Shares::Balanced { contacts, .. } = least_energy(&Stack { dead: &dead, ..pile.stack() }, 3) else {
        panic!("balanced")
    };
    for contact in &contacts[1..] {
        near("under a plate", contact.normal_n, 14.0 * GRAVITY + 0.5 * PULL_N, 0.01, "N");
    }
}

/// On a narrow crosswise support the web bends the board over its own width: P (L/4 - w/8) against P L/4
/// (source key `beam-theory`: a load over a part of the span).
#[test]
fn a_web_on_a_board_presses_it_over_its_width() {
    let whole = solid([0.5, 0.0], [1.0, 0.2, 0.04], 0.01, 0.4);
    let rail = |x: f64| statics::Bearing { x_m: [x - 0.0005, x + 0.0005], y_m: [-0.2, 0.2], top_m: 0.0, friction: 0.4 };
    let bed = statics::Bed {
        bearings: vec![rail(0.0005), rail(0.9995)],
        touch_m: 0.006,
        touch_hard_m: 0.001,
        beside_m: 0.005,
    };
    let pile = Settled::new(&bed, vec![whole]);
    let flex = Flex { body: 0, axis: 0, modulus_pa: Some(1e10) };
    for width_m in [0.05, 0.2] {
        let dead = [DeadPull { at_in_bed_m: [0.5, 0.0], width_m, force_n: PULL_N, after: 1 }];
        let stack = Stack { dead: &dead, ..pile.stack() };
        let Shares::Balanced { contacts, .. } = least_energy(&stack, 1) else { panic!("balanced") };
        let bent = board(&stack, 1, &flex, &contacts).along().expect("a board");
        let got = bent.bending().expect("forces that close").moment.value;
        near(&format!("{width_m} m wide"), got, PULL_N * (0.999 / 4.0 - width_m / 8.0), 0.005 * PULL_N, "N m");
    }
}
