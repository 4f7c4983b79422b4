//! A figure typed over a rule's: the basis no longer tells it, and a finding says so.

use crate::bench::{bench, with_case};
use crate::given::{all_of, found};
use assess::{Ask, Check, Reach, State, assess};
use plan::standard::Standard;
use quantity::Mass;

#[test]
fn a_mass_typed_over_the_rules_is_a_finding_until_the_basis_is_rewritten() {
    let rule = Standard::all().iter().find(|rule| rule.name == "14 CFR 23, utility category").unwrap();
    let started = with_case(&bench(), |case| *case = rule.fill(case));
    assert_eq!(all_of(&assess(&started, Ask::closed()).findings, Check::Basis), [], "as the rule has it");
    let lighter = with_case(&started, |case| case.occupant_mass = Mass::kg(70.0));
    let finding = found(&lighter, Reach::ClosedForm, Check::Basis);
    assert_eq!(finding.state, State::Caution);
    for part in ["occupant mass 70.0 kg, the basis says 97.5 kg", "14 CFR 23, utility category", "no longer the rule's"]
    {
        assert!(finding.text.contains(part), "{part}: {}", finding.text);
    }
    let own = with_case(&lighter, |case| case.from_rule = None);
    assert_eq!(all_of(&assess(&own, Ask::closed()).findings, Check::Basis), [], "rewritten");
}
