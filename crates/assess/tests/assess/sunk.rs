//! How faces sink as bags give, and what a piece that is set down meets.

use crate::bench::{lot, place, soft};
use crate::given::near;
use crate::soft::column;
use assess::{Ask, Assessment, assess};
use plan::{Form, Plan};

/// These lots one on another, the lowest first: bags of whole faces at 0.3 MPa, and plates of the same size.
fn pile(lots: &[&str]) -> Plan {
    let mut plan = column(1, Some(soft(0.3e6, 0.0)));
    plan.ballast.push(lot("plate", Form::Solid, [0.50, 0.33, 0.11], 25.0));
    plan.stack = (1..).zip(lots).map(|(item, lot)| place(lot, item, [0.2, 0.0])).collect();
    assert_eq!(plan::faults(&plan), []);
    plan
}

fn faces_mm(assessment: &Assessment, plan: &Plan) -> (Vec<f64>, Vec<[f64; 2]>) {
    let soft = assessment.exact.as_ref().and_then(|exact| exact.soft.as_ref()).expect("bags");
    let last = plan.steps() - 1;
    let middles = soft.moved_after(last).iter().map(|moved| -1e3 * moved.shift_m[2]).collect();
    let faces = soft.faces_sunk_m(plan, &assessment.closed.pile, last);
    (middles, faces.into_iter().map(|both| both.map(|m| 1e3 * m)).collect())
}

/// Where each face comes to lie, mm, by how far the middles sink.
type Made = fn(&[f64]) -> Vec<f64>;

/// What lies on a bearing does not sink there; two bags alike share what gives between them; a plate keeps its thickness,
/// so that both of its faces sink as its middle does; the uppermost face goes with its piece. `Own derivation`.
#[test]
fn faces_on_one_another_sink_alike_and_share_what_gives_by_their_softness() {
    let rows: [(&[&str], Made); 3] = [
        (&["sand bag", "sand bag"], |m| vec![0.0, 0.5 * (m[0] + m[1]), m[1]]),
        (&["sand bag", "plate", "sand bag"], |m| vec![0.0, m[1], m[1], m[2]]),
        (&["sand bag", "plate", "plate"], |m| vec![0.0, m[1], 0.5 * (m[1] + m[2]), m[2]]),
    ];
    for (lots, want) in rows {
        let plan = pile(lots);
        let (middles, faces) = faces_mm(&assess(&plan, Ask::checks()), &plan);
        assert!(middles[0] > 0.05, "{lots:?} sink: {middles:?} mm");
        let want = want(&middles);
        for (piece, [under, top]) in faces.into_iter().enumerate() {
            near(&format!("{lots:?}: underside of {piece}"), under, want[piece], 1e-9, "mm");
            near(&format!("{lots:?}: top of {piece}"), top, want[piece + 1], 1e-9, "mm");
        }
    }
}

/// A bag of 0.50 x 0.33 m, 0.11 m thick, at 0.3 MPa: 0.165 x 0.3e6 / 0.11 = 450 kN/m by itself; the one that is set down
/// on it gives as much once more. A plate on the seat meets what nobody knows. By hand.
#[test]
fn a_piece_that_is_set_down_meets_the_bags_under_it_and_itself() {
    let met = |lots: &[&str]| {
        let exact = assess(&pile(lots), Ask::checks()).exact.expect("solved");
        exact.soft.expect("bags").under_n_per_m
    };
    let bags = met(&["sand bag", "plate", "sand bag"]);
    let of_one = 0.165 * 0.3e6 / 0.11;
    near("a bag on the seat", bags[0].expect("it gives"), of_one, 0.02 * of_one, "N/m");
    near("a plate on a bag", bags[1].expect("the bag gives"), of_one, 0.02 * of_one, "N/m");
    near("a bag on that", bags[2].expect("both give"), 0.5 * of_one, 0.02 * of_one, "N/m");
    assert_eq!(met(&["plate", "sand bag"])[0], None, "a plate on the seat");
}
