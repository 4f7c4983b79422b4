//! Every way in which a question can end, and bodies at the rim of what is allowed.

use crate::given::{bag, bearing, bed, governing, level, multiplier, near, panel, sloped, solid, whole, whole_along};
use statics::{Decision, Reserve, Way, cuts, settle, walk};

#[test]
fn a_pile_with_a_hanging_body_is_loose_however_well_the_rest_stands() {
    let tube = bed(vec![bearing([-1.0, 1.0], [-1.0, 1.0], 0.0, 0.5)]);
    let bodies = [bag([0.0, 0.0]), bag([3.0, 0.0]), bag([0.0, 0.0])];
    let pile = settle(&tube, &bodies);
    let steps = walk(&level(), &bodies, &pile);
    assert_eq!(steps[0].least.stands(), Some(true), "before");
    assert_eq!((steps[1].least, steps[2].least), (Decision::Loose, Decision::Loose), "from then on");
    assert_eq!(steps[2].layer, 1, "the layer that is loose");
}

#[test]
fn a_lone_hanging_body_is_loose_and_has_no_edge() {
    let bodies = [bag([0.0, 0.0])];
    let pile = settle(&bed(Vec::new()), &bodies);
    let margin = &cuts(&level(), &bodies, &pile)[0];
    assert_eq!(margin.least, Decision::Loose, "least");
    assert!(margin.edge_m < -1e300 && margin.tip.multiplier < -1e300, "never inside: {margin:?}");
    assert_eq!(whole(&level(), &bodies, &pile), Decision::Loose, "the whole");
}

#[test]
fn a_cut_without_weight_is_left_out_and_a_step_without_weight_is_not_limited() {
    let mat = solid([0.2, 0.1], [0.5, 0.33, 0.002], 0.0, 0.5);
    let bodies = [mat.clone(), bag([0.2, 0.1]), mat];
    let pile = settle(&panel(0.5), &bodies);
    let steps = walk(&level(), &bodies, &pile);
    assert_eq!(steps[0].least, Decision::NotLimited, "the mat alone");
    near("where it is drawn", steps[0].centroid_in_floor.x, 0.2, 1e-15, "m");
    near("its mass", steps[0].mass_kg, 0.0, 0.0, "kg");
    let layers: Vec<usize> = cuts(&level(), &bodies, &pile).iter().map(|cut| cut.layer).collect();
    assert_eq!(layers, [1, 2], "layers with a centroid");
    near("slides", multiplier(whole(&level(), &bodies, &pile)), 0.5, 1e-6, "of weight");
}

/// Where nothing weighs anything the middle of the pieces is drawn.
#[test]
fn pieces_without_weight_are_drawn_at_their_mean() {
    let mats = [0.2, 0.9, 1.0].map(|x| solid([x, 0.1], [0.05, 0.33, 0.002], 0.0, 0.5));
    let pile = settle(&panel(0.5), &mats);
    let steps = walk(&level(), &mats, &pile);
    near("where three are drawn", steps[2].centroid_in_floor.x, 0.7, 1e-15, "m");
}

#[test]
fn a_gram_beside_a_tonne_keeps_its_own_margins() {
    let bodies = [
        solid([0.0, 0.0], [1.0, 1.0, 0.2], 1000.0, 0.5),
        solid([0.0, 0.0], [0.1, 0.1, 0.2], 0.001, 0.9),
        solid([2.0, 0.0], [0.1, 0.1, 0.2], 0.001, 0.9),
    ];
    let pile = settle(&panel(0.6), &bodies);
    let margins = cuts(&level(), &bodies, &pile);
    near("the gram on top", margins[1].tip.multiplier, 0.5, 1e-12, "of weight");
    near("its slide", margins[1].slide.multiplier, 0.5, 1e-12, "of weight");
    near("mass", margins[0].mass_kg, 1000.002, 1e-9, "kg");
    assert_eq!(whole(&level(), &bodies, &pile).stands(), Some(true), "the whole");
}

#[test]
fn uphill_a_flat_block_on_a_steep_rough_bed_bears_any_push() {
    // Tilt 40 deg and friction 2 (63 deg): a level push uphill stays within the cone, and the uphill
    // edge is higher than the centroid.
    let bodies = [solid([0.0, 0.0], [1.0, 1.0, 0.1], 25.0, 2.0)];
    let pile = settle(&panel(2.0), &bodies);
    let pose = sloped(40_f64.to_radians());
    assert_eq!(whole_along(&pose, &bodies, &pile, std::f64::consts::PI), Decision::NotLimited, "uphill");
    let downhill = multiplier(whole_along(&pose, &bodies, &pile, 0.0));
    near("downhill", downhill, (2_f64.atan() - 40_f64.to_radians()).tan(), 1e-6, "of weight");
    let least = multiplier(whole(&pose, &bodies, &pile));
    near("the least of all", least, downhill, 1e-6, "of weight");
}

#[test]
fn a_bed_on_its_edge_carries_nothing() {
    let bodies = [solid([0.0, 0.0], [1.0, 1.0, 0.1], 25.0, 2.0)];
    let pile = settle(&panel(2.0), &bodies);
    for tilt in [90_f64, 120.0] {
        let least = governing(&cuts(&sloped(tilt.to_radians()), &bodies, &pile));
        assert_eq!(least.stands(), Some(false), "at {tilt} deg: {least:?}");
    }
}

#[test]
fn a_certain_fall_outweighs_an_open_question_and_that_outweighs_any_reserve() {
    let reserve =
        |multiplier| Decision::Decided(Reserve { multiplier, direction_rad: 0.0, by: Way::Tip, any_way: false });
    let open = Decision::NotDecided { residual: None };
    let order =
        [Decision::Loose, Decision::Falls, reserve(-0.1), open, reserve(0.1), reserve(0.2), Decision::NotLimited];
    for (place, worse) in order.iter().enumerate() {
        assert!(!worse.governs(worse), "{worse:?} over itself");
        for better in &order[place + 1..] {
            assert!(worse.governs(better) && !better.governs(worse), "{worse:?} over {better:?}");
            assert!(!better.is_as_weak_as(worse), "{better:?} against {worse:?}");
        }
    }
}

#[test]
fn multipliers_within_a_millionth_are_one_number() {
    let reserve =
        |multiplier| Decision::Decided(Reserve { multiplier, direction_rad: 0.0, by: Way::Tip, any_way: false });
    for (got, is_alike) in [(0.3, true), (0.300_000_29, true), (0.300_000_31, false), (0.2, true)] {
        assert_eq!(reserve(got).is_as_weak_as(&reserve(0.3)), is_alike, "{got} against 0.3");
    }
    assert!(reserve(0.9e-7).is_as_weak_as(&reserve(0.0)), "next to nothing");
    let endless = reserve(f64::NEG_INFINITY);
    assert!(endless.is_as_weak_as(&endless), "no pull holds either");
    assert!(!Decision::NotLimited.is_as_weak_as(&reserve(0.3)), "no limit against 0.3");
}
