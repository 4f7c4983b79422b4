//! Random stacks by two routes: Newton's steps from closed beds, and the weight brought on slowly in 50 parts.
//! Two hundred; `SOFT_STACKS` asks for another number.

use crate::given::{Given, floor, near, piece, relatively};
use statics::soft::{SoftEnd, Softness, at_rest, at_rest_in_parts};

struct Chance(u64);

impl Chance {
    /// Between two numbers.
    fn within(&mut self, from: f64, to: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        from + (to - from) * (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }
}

/// Two to five courses of one to three pieces, shifted, of several softnesses, sometimes with a board between.
fn stack(seed: u64) -> Given {
    let mut chance = Chance(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15).wrapping_add(1));
    let courses = chance.within(2.0, 5.99) as usize;
    let abreast = chance.within(1.0, 3.99) as usize;
    let (mut bodies, mut pieces) = (Vec::new(), Vec::new());
    for course in 0..courses {
        for slot in 0..abreast {
            let pitch_m = 0.39 * (slot as f64 - 0.5 * (abreast as f64 - 1.0));
            let off = [0, 1].map(|_| chance.within(-0.025, 0.025));
            let turned = course % 2 == 1 && abreast > 1;
            let (centre, extent) = if turned {
                ([pitch_m + off[0], off[1]], [0.33, 0.39 * abreast as f64, 0.11])
            } else {
                ([off[0], pitch_m + off[1]], [0.39 * abreast as f64, 0.33, 0.11])
            };
            bodies.push(piece(centre, extent, chance.within(15.0, 30.0)));
            let soft = Softness::of(chance.within(0.3e6, 1.5e6), 0.11);
            pieces.push(Softness { rim_m: chance.within(0.0, 0.03), ..soft });
        }
        if chance.within(0.0, 1.0) < 0.2 {
            bodies.push(piece([0.0, 0.0], [0.8, 0.8, 0.018], 5.0));
            pieces.push(Softness::RIGID);
        }
    }
    Given::new(&floor(), bodies, pieces).tilted(chance.within(-0.02, 0.02), chance.within(-0.02, 0.02))
}

fn count() -> u64 {
    std::env::var("SOFT_STACKS").ok().and_then(|text| text.parse().ok()).unwrap_or(200)
}

#[test]
fn two_routes_come_to_the_same_rest() {
    let (mut stood, mut fell) = (0, 0);
    for seed in 0..count() {
        let given = stack(seed);
        let step = given.bodies.len();
        let (at_once, slowly) = (at_rest(&given.soft(), step).end, at_rest_in_parts(&given.soft(), step, 50));
        match (&at_once, &slowly) {
            (SoftEnd::Stands(one), SoftEnd::Stands(other)) => {
                stood += 1;
                relatively(&format!("stack {seed}, critical"), one.critical, other.critical, 1e-6, "");
                near(&format!("stack {seed}, shift aft"), one.shift_m[0], other.shift_m[0], 1e-9, "m");
                near(&format!("stack {seed}, shift right"), one.shift_m[1], other.shift_m[1], 1e-9, "m");
                relatively(&format!("stack {seed}, settlement"), one.settlement_m, other.settlement_m, 1e-6, "m");
            }
            (one, other) => {
                fell += 1;
                assert_ne!(one.stands(), Some(true), "stack {seed}: at once {one:?}, slowly {other:?}");
                assert_ne!(other.stands(), Some(true), "stack {seed}: at once {one:?}, slowly {other:?}");
            }
        }
    }
    assert!(stood * 2 > count(), "{stood} stood, {fell} fell: too few to say anything");
    assert!(fell > 0, "none fell: too tame");
}
