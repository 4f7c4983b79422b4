//! The pile that two benches share.

use statics::{Bearing, Bed, Body};

/// Six bags a layer, laid across the layer below in turn, on three tubes.
pub(crate) fn pile(count: u32) -> (Bed, Vec<Body>) {
    let tube = |x: f64| Bearing { x_m: [x, x + 0.05], y_m: [-0.8, 0.8], top_m: 0.0, friction: 0.5 };
    let bed =
        Bed { bearings: [0.0, 0.45, 0.9].map(tube).to_vec(), touch_m: 0.006, touch_hard_m: 0.006, beside_m: 0.005 };
    (bed, (0..count).map(bag).collect())
}

fn bag(number: u32) -> Body {
    let (layer, slot) = (number / 6, number % 6);
    let turned = layer % 2 == 1;
    let (across, along) =
        if turned { (f64::from(slot / 2), f64::from(slot % 2)) } else { (f64::from(slot % 2), f64::from(slot / 2)) };
    let extent_m = if turned { [0.33, 0.50, 0.11] } else { [0.50, 0.33, 0.11] };
    let centre_m = [0.02 + (0.5 + across) * extent_m[0], (along - if turned { 0.5 } else { 1.0 }) * extent_m[1]];
    Body { centre_m, extent_m, mass_kg: 24.0 + 0.1 * f64::from(slot), friction: 0.5, soft: true }
}
