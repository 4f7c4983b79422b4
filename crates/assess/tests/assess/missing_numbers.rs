//! Where a number is missing, a finding says so and never reads as safe.

use crate::bench::{bearing, bench, m, with_ballast, with_bed};
use crate::boards::planked;
use crate::fixture::ahead;
use crate::given::found;
use crate::random::{on_tubes, tilted};
use crate::worked::told;
use assess::{Ask, Check, Reach, State, assess};
use plan::Plan;

/// A plank 0.19 m wide on a rail 20 mm wide bends across its grain under a bag as wide as itself.
fn on_a_rail(grade: &str) -> Plan {
    let lots = with_ballast(&planked(250.0), |lots| {
        (lots[1].size[2], lots[1].grade) = (m(0.045), Some(grade.to_owned()));
    });
    with_bed(&lots, |bed| bed.bearings = vec![bearing("rail", [0.0, 1.0], [-0.01, 0.01])])
}

/// The American tables publish no value across the grain: nothing says that the board may bend that
/// way at all.
#[test]
fn bending_across_the_grain_without_a_published_value_is_told() {
    let plan = on_a_rail("Hem-Fir No. 2");
    let assessment = assess(&plan, Ask::full());
    let board = &assessment.exact.as_ref().unwrap().boards[0];
    let across_pa = board.bent.unwrap().across_pa.unwrap();
    assert!(across_pa > 5e4, "across: got {across_pa} Pa, want more than 5e4 Pa, difference {} Pa", across_pa - 5e4);
    assert_eq!(board.allowed.as_ref().unwrap().across_bending_pa, None);
    let finding = found(&plan, Reach::Full, Check::Boards);
    // On so narrow a rail each half of it would fall.
    assert_eq!(finding.state, State::Fails, "{finding:?}");
    for part in ["no published value", "lets the stack down at step 1"] {
        assert!(finding.text.contains(part), "“{part}” in {}", finding.text);
    }
}

/// A fixture that goes over shows no readings; “Article stands” fails beside it.
#[test]
fn scales_of_a_fixture_that_goes_over_are_not_decided() {
    let plan = ahead(&bench());
    assert!(plan.fixture.supports.iter().all(|support| support.capacity.is_some()));
    let scales = found(&plan, Reach::Full, Check::Scales);
    assert_eq!(scales.state, State::Undecided, "{scales:?}");
    assert!(scales.text.contains("is not known"), "{}", scales.text);
    assert_eq!(found(&plan, Reach::Full, Check::ArticleStands).state, State::Fails);
}

/// A stack without weight changes nothing: the article's own plumb line decides.
#[test]
fn a_stack_without_weight_lies_inside_the_footprint_of_its_article() {
    let weightless = with_ballast(&bench(), |lots| {
        lots[0].mass = quantity::Mass::kg(0.0);
        lots[0].weighed.clear();
    });
    let inside_m = assess(&weightless, Ask::closed()).closed.last().unwrap().fixture.edge_m.unwrap();
    assert!(inside_m > 0.3, "edge: got {inside_m} m, want more than 0.3 m, difference {} m", inside_m - 0.3);
    let footprint = found(&weightless, Reach::ClosedForm, Check::Footprint);
    assert_eq!(footprint.state, State::Met, "{footprint:?}");
    assert!(footprint.text.contains("inside the footprint"), "{}", footprint.text);
}

/// A thin plate that hangs over the lower end of a sloped bag, its centroid below the edge: no pull holds it,
/// so the closed form's multiplier is minus infinity: a fall without a number.
#[test]
fn a_plate_whose_centroid_hangs_below_its_edge_fails_without_a_value() {
    let drawn = [(0, 0.11, 0.0, false), (1, 0.47, 0.0, false)];
    let plan = tilted(on_tubes(&drawn), 0.0, 8.0, 4);
    let finding = found(&plan, Reach::ClosedForm, Check::TipMargin);
    assert_eq!(finding.state, State::Fails, "{finding:?}");
    assert_eq!(finding.value, None, "{finding:?}");
    let last = &told(&plan, Reach::ClosedForm)["steps"][1];
    assert!(last["collapse_bound"].is_null(), "{last}");
}

/// A rail under the middle of each half: a plank that split would still lie there, so that it is a caution up to a third
/// of what clear wood bears across its grain.
#[test]
fn a_board_that_would_hold_the_stack_split_is_a_caution_across_its_grain() {
    let narrow = with_bed(&on_a_rail("Hem-Fir No. 2"), |bed| {
        let rail = |name, y| bearing(name, [0.0, 1.0], y);
        bed.bearings = vec![rail("left rail", [-0.05, -0.03]), rail("right rail", [0.03, 0.05])];
    });
    let plan = with_ballast(&narrow, |lots| lots[1].size[2] = m(0.0381));
    let finding = found(&plan, Reach::Checks, Check::Boards);
    assert_eq!(finding.state, State::Caution, "{finding:?}");
    assert!(finding.text.contains("split along its length it would still hold"), "{}", finding.text);
    assert!(finding.text.contains("It is below that limit"), "which limit counts: {}", finding.text);
    // A third of 1.8 MPa of clear western white pine, green: the least of the softwoods that were read.
    assert_eq!(finding.limit.map(assess::Amount::si), Some(0.6e6), "{finding:?}");
}
