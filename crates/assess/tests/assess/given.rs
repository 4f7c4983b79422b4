//! The comparison that prints what it compared, and the finding that a check left.

use assess::{Amount, Ask, Check, Finding, Reach, State, Where, assess};
use plan::Plan;

pub(crate) const GRAVITY: f64 = quantity::STANDARD_GRAVITY_M_S2;

/// `tol.multiplier_socp` of the worked cases: how far two cone programmes may lie apart.
pub(crate) const CONE: f64 = 3e-6;

/// What closed forms keep: rounding alone.
pub(crate) const CLOSED: f64 = 1e-9;

pub(crate) fn near(what: &str, got: f64, want: f64, tolerance: f64, unit: &str) {
    let difference = got - want;
    assert!(
        difference.abs() <= tolerance,
        "{what}: got {got} {unit}, want {want} {unit}, difference {difference:e} {unit}, allowed {tolerance:e} {unit}"
    );
}

pub(crate) fn at_least(what: &str, got: f64, want: f64, unit: &str) {
    assert!(got >= want, "{what}: got {got} {unit}, want at least {want} {unit}, difference {:e} {unit}", got - want);
}

/// The findings of one check.
pub(crate) fn all_of(findings: &[Finding], check: Check) -> Vec<Finding> {
    findings.iter().filter(|f| f.check == check).cloned().collect()
}

/// The one finding of one check.
pub(crate) fn found(plan: &Plan, reach: Reach, check: Check) -> Finding {
    let findings = assess(plan, Ask::to(reach)).findings;
    let mut of_check = all_of(&findings, check);
    assert_eq!(of_check.len(), 1, "{check:?}: one finding is wanted among {findings:#?}");
    of_check.remove(0)
}

/// Words that a text must hold.
pub(crate) type Says = &'static [&'static str];

/// What a finding must say.
pub(crate) struct Want {
    pub(crate) check: Check,
    pub(crate) state: State,
    pub(crate) value: Option<Amount>,
    pub(crate) limit: Option<Amount>,
    pub(crate) place: Where,
    /// What the text names: things, numbers, and a remedy where the check falls short.
    pub(crate) says: Says,
}

impl Want {
    /// Holds a finding against this, its value within a tolerance in the value's own unit.
    pub(crate) fn meets(&self, finding: &Finding, tolerance: f64) {
        let told = format!("{:?} wanted {:?}: {finding:?}", self.check, self.state);
        assert_eq!(finding.check, self.check, "{told}");
        assert_eq!(finding.state, self.state, "{told}");
        assert_eq!(finding.place, self.place, "{told}");
        same_amount(&format!("value of {told}"), finding.value, self.value, tolerance);
        same_amount(&format!("limit of {told}"), finding.limit, self.limit, CLOSED);
        for said in self.says {
            assert!(finding.text.contains(said), "“{said}” is wanted in: {}", finding.text);
        }
        assert!(!finding.sources.is_empty(), "{told}");
    }
}

/// The same kind of amount, in the same unit, and the same number.
fn same_amount(what: &str, got: Option<Amount>, want: Option<Amount>, tolerance: f64) {
    match (got, want) {
        (Some(got), Some(want)) => {
            assert_eq!(
                std::mem::discriminant(&got),
                std::mem::discriminant(&want),
                "{what}: got {got:?}, want {want:?}"
            );
            // Relative for stresses and forces, so that one tolerance serves all.
            near(what, got.si(), want.si(), tolerance * want.si().abs().max(1.0), want.si_unit());
        }
        (got, want) => assert_eq!(got, want, "{what}"),
    }
}
