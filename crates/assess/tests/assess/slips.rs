//! Figures that nothing forbids and nobody means (`common practice, no source`).

use crate::bench::{bench, tail_strap, with_ballast, with_fixture};
use crate::given::all_of;
use assess::{Reach, State, assess};
use plan::Plan;
use quantity::{Force, Mass};

const CHECK: &str = "Unlikely figures";

#[test]
fn figures_that_are_seldom_meant_are_near_and_say_what_to_look_for() {
    let mut rough_bed = bench();
    rough_bed.bed.friction = 3.5;
    let rough_floor = with_fixture(&bench(), |fixture| fixture.floor_friction = 1.6);
    let rough_bags = with_ballast(&bench(), |lots| lots[0].friction = 1.51);
    let unsure = with_ballast(&bench(), |lots| lots[0].mass_tolerance = Mass::kg(25.0));
    let overpulled = with_fixture(&bench(), |fixture| {
        fixture.hold_downs = vec![plan::HoldDown { working_load: Force::n(300.0), ..tail_strap(4.0, 301.0) }];
    });
    let rows: [(Plan, &str); 5] = [
        (rough_bed, "friction of the bed is 3.5"),
        (rough_floor, "friction of the floor is 1.6"),
        (rough_bags, "friction of lot “sand bag” is 1.51"),
        (unsure, "25.0 kg ± 25.0 kg"),
        (overpulled, "301 N, more than the 300 N"),
    ];
    for (plan, says) in rows {
        let findings = all_of(&assess(&plan, Reach::ClosedForm).findings, CHECK);
        let [finding] = findings.as_slice() else { panic!("{says}: one finding is due: {findings:#?}") };
        assert_eq!(finding.state, State::Near, "{finding:?}");
        assert!(finding.text.contains(says), "{says}: {}", finding.text);
    }
}

#[test]
fn usual_figures_say_nothing() {
    let usual = with_ballast(&bench(), |lots| (lots[0].friction, lots[0].mass_tolerance) = (1.5, Mass::kg(24.9)));
    for plan in [bench(), usual] {
        assert_eq!(all_of(&assess(&plan, Reach::ClosedForm).findings, CHECK), []);
    }
}
