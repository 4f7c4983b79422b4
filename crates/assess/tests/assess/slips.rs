//! Figures that nothing forbids and nobody means (`common practice, no source`).

use crate::bench::{bench, hold_down, with_ballast, with_fixture};
use crate::given::{all_of, found};
use assess::{Ask, Check, Reach, State, assess};
use plan::Plan;
use quantity::{Force, Mass};

const CHECK: Check = Check::UnlikelyFigures;

#[test]
fn figures_that_are_seldom_meant_are_a_caution_and_say_what_to_look_for() {
    let mut rough_bed = bench();
    rough_bed.bed.friction = 3.5;
    let rough_floor = with_fixture(&bench(), |fixture| fixture.floor_friction = 1.6);
    let rough_bags = with_ballast(&bench(), |lots| lots[0].friction = 1.51);
    let unsure = with_ballast(&bench(), |lots| lots[0].mass_tolerance = Mass::kg(25.0));
    let rows: [(Plan, &str); 4] = [
        (rough_bed, "friction of the bed is 3.5"),
        (rough_floor, "friction of the floor is 1.6"),
        (rough_bags, "friction of lot “sand bag” is 1.51"),
        (unsure, "25.0 kg ± 25.0 kg"),
    ];
    for (plan, says) in rows {
        let findings = all_of(&assess(&plan, Ask::closed()).findings, CHECK);
        let [finding] = findings.as_slice() else { panic!("{says}: one finding is due: {findings:#?}") };
        assert_eq!(finding.state, State::Caution, "{finding:?}");
        assert!(finding.text.contains(says), "{says}: {}", finding.text);
    }
}

#[test]
fn usual_figures_say_nothing() {
    let usual = with_ballast(&bench(), |lots| (lots[0].friction, lots[0].mass_tolerance) = (1.5, Mass::kg(24.9)));
    for plan in [bench(), usual] {
        assert_eq!(all_of(&assess(&plan, Ask::closed()).findings, CHECK), []);
    }
}

#[test]
fn a_strap_put_on_with_more_than_its_working_load_fails() {
    let pulled = |preload_n: f64| {
        with_fixture(&bench(), |fixture| {
            fixture.hold_downs = vec![plan::HoldDown { working_load: Force::n(300.0), ..hold_down(4.0, preload_n) }];
        })
    };
    let finding = found(&pulled(301.0), Reach::ClosedForm, Check::StrapPreload);
    assert_eq!(finding.state, State::Fails, "{finding:?}");
    assert!(finding.text.contains("301 N, more than its working load of 300 N"), "{}", finding.text);
    assert_eq!(all_of(&assess(&pulled(300.0), Ask::closed()).findings, Check::StrapPreload), []);
}
