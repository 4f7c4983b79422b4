//! Article, floor and bed: what turns with what.

use crate::bench::{at, bench, degrees, put, with_article, with_bed};
use crate::given::{CLOSED, CONE, near};
use crate::worked::{list, number, numbers, told};
use assess::{Ask, Reach, assess};
use plan::Plan;
use serde_json::Value;

/// A bench whose stack leans a little, so that directions matter.
fn leaning() -> Plan {
    put(&bench(), 2, [0.24, 0.03])
}

/// The article pitched, the bed packed level on it.
fn packed_level(plan: &Plan, pitch_deg: f64) -> Plan {
    let pitched = with_article(plan, |article| {
        article.pitch = degrees(pitch_deg);
        article.pivot = at([2.2, 0.0, 0.0]);
    });
    with_bed(&pitched, |bed| bed.slope = degrees(-pitch_deg))
}

fn same_number(what: &str, got: &Value, want: &Value, tolerance: f64, unit: &str) {
    near(what, number(got), number(want), tolerance, unit);
}

#[test]
fn a_bed_packed_level_on_a_pitched_article_keeps_the_margins_of_no_pitch() {
    let level = told(&leaning(), Reach::Full);
    for pitch in [-8.0, 3.5, 12.0] {
        let packed = told(&packed_level(&leaning(), pitch), Reach::Full);
        for (got, want) in list(&packed["layers"]).iter().zip(list(&level["layers"])) {
            let what = format!("pitch {pitch} deg, layer {}", want["layer"]);
            same_number(&format!("{what}, edge"), &got["edge_m"], &want["edge_m"], CLOSED, "m");
            same_number(&format!("{what}, tip"), &got["tip_deg"], &want["tip_deg"], 1e-7, "deg");
        }
        for (got, want) in list(&packed["steps"]).iter().zip(list(&level["steps"])) {
            let what = format!("pitch {pitch} deg, step {}", want["step"]);
            let (reserve, bound) = ("collapse", "collapse_bound");
            same_number(&what, &got[reserve]["multiplier"], &want[reserve]["multiplier"], CONE, "of weight");
            same_number(&what, &got[bound]["multiplier"], &want[bound]["multiplier"], CLOSED, "of weight");
        }
    }
}

/// Only the bed's tilt against the floor counts for a stack: pitch and slope add.
#[test]
fn pitch_and_slope_tilt_the_stack_alike() {
    let pitched = with_article(&leaning(), |article| article.pitch = degrees(6.0));
    let sloped = with_bed(&leaning(), |bed| bed.slope = degrees(6.0));
    let [pitched, sloped] = [pitched, sloped].map(|plan| assess(&plan, Ask::closed()));
    for (got, want) in pitched.closed.layers.iter().zip(&sloped.closed.layers) {
        let what = format!("layer {}", want.layer);
        near(&format!("{what}, edge"), got.edge_m, want.edge_m, CLOSED, "m");
        near(&format!("{what}, tip"), got.tip_rad, want.tip_rad, CLOSED, "rad");
        near(&format!("{what}, slide"), got.slide.multiplier, want.slide.multiplier, CLOSED, "of weight");
    }
}

/// With the forward end up pieces want to go aft: gravity in the bed's axes is (sin s, 0, -cos s).
#[test]
fn a_bed_with_its_forward_end_up_is_weakest_aft() {
    for (slope, toward) in [(8.0, 0.0), (-8.0, 180.0)] {
        let got = told(&with_bed(&bench(), |bed| bed.slope = degrees(slope)), Reach::Full);
        let last = list(&got["steps"]).last().unwrap();
        near("direction", number(&last["collapse"]["direction_deg"]), toward, 1e-6, "deg");
        let tilt = 8.0_f64.to_radians();
        near("reserve", number(&last["collapse"]["multiplier"]), (0.5_f64.atan() - tilt).tan(), CONE, "of weight");
    }
}

/// The bed turns about its own origin in the article: x' = x cos s + z sin s, z' = -x sin s + z cos s.
#[test]
fn the_centroid_goes_with_the_slope_about_the_beds_origin() {
    let got = told(&with_bed(&bench(), |bed| bed.slope = degrees(5.0)), Reach::ClosedForm);
    let (sin, cos) = 5.0_f64.to_radians().sin_cos();
    let (along, up) = (0.2, 0.165);
    let want = [1.0 + along * cos + up * sin, 0.0, 0.5 - along * sin + up * cos];
    for (axis, (got, want)) in numbers::<3>(&got["centroid"]).into_iter().zip(want).enumerate() {
        near(&format!("centroid, axis {axis}"), got, want, CLOSED, "m");
    }
}

/// Supports stand on the floor: pitching the article about a point moves its centroid over them.
#[test]
fn supports_stay_on_the_floor_when_the_article_is_pitched() {
    let pitched = with_article(&bench(), |article| article.pitch = degrees(4.0));
    let state = assess(&pitched, Ask::closed()).closed.last().unwrap().fixture;
    let (sin, cos) = 4.0_f64.to_radians().sin_cos();
    let (article_x, stack_x) = (1.2 * cos + 0.5 * sin, 1.2 * cos + 0.665 * sin);
    let want = (60.0 * article_x + 75.0 * stack_x) / 135.0;
    near("station of article and stack", state.centroid.x, want, CLOSED, "m");
}
