//! Where a figure comes from, and the words for it: one place for screen, paper and report.

use statics::occupant::Table;

/// What a value or a limit rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// A paragraph of a rule.
    Rule(Rule),
    /// The builder's own figure: a field of the plan.
    Builder(Field),
    /// Published timber tables, or the lot's own figures.
    Timber,
    /// A published table of the body's segments.
    Segments(Table),
    /// A published equation for lifting by hand.
    Lifting,
    /// Derived in this program; what is derived.
    Own(Derivation),
    /// `common practice, no source`.
    Practice,
}

/// A paragraph of a rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// The factor of safety (source key `cfr-23-303`).
    FactorOfSafety,
    /// Strength and deformation at limit load. Source key `cfr-23-305`.
    SetAtLimit,
}

/// A field of the plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Field {
    /// The load case in hand.
    LoadCase,
    /// Least reserve of the stack.
    Collapse,
    /// Least critical load factor.
    Critical,
    /// Greatest lean.
    Lean,
    /// Least reserve of the fixture.
    FixturePush,
    /// Greatest chance that a check falls short.
    Chance,
    /// Tolerance of the occupant point.
    Tolerance,
    /// Tolerance of a hold.
    HoldTolerance,
    /// The occupant point, as typed.
    OccupantPoint,
    /// The document that gives the load point.
    Document,
    /// Capacity of a support.
    Capacity,
    /// Working load of a hold-down strap.
    WorkingLoad,
    /// Clearance around a region.
    Clearance,
    /// Overlap below which a bag lies beside another.
    Beside,
    /// Allowable load of a bearing.
    Allowable,
    /// Binding straps.
    Bindings,
    /// Catch blocks.
    CatchBlock,
}

/// What is derived in this program.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Derivation {
    /// Equilibrium of stack and fixture.
    Statics,
    /// Shares of the bearings by least energy, a choice.
    LeastEnergy,
    /// Moments of the readings of a weighing.
    Moments,
    /// Creep of bags with the logarithm of time.
    Creep,
    /// A weight that falls onto a spring.
    Blow,
}

impl Source {
    /// Derived in this program from the laws of statics.
    pub(crate) const STATICS: &[Source] = &[Source::Own(Derivation::Statics)];
    /// Common practice alone.
    pub(crate) const PRACTICE: &[Source] = &[Source::Practice];

    /// In words for people.
    pub fn words(self) -> String {
        match self {
            Source::Rule(Rule::FactorOfSafety) => "14 CFR 23.303, factor of safety".to_owned(),
            Source::Rule(Rule::SetAtLimit) => "14 CFR 23.305(a), deformation at limit load".to_owned(),
            Source::Builder(field) => format!("the plan's {}", field.words()),
            Source::Timber => "published timber tables, or the lot's own figures".to_owned(),
            Source::Segments(table) => format!("the segment table of {}", table.name()),
            Source::Lifting => "the revised NIOSH lifting equation".to_owned(),
            Source::Own(derivation) => derivation.words().to_owned(),
            Source::Practice => "common practice, no source".to_owned(),
        }
    }

    /// As the report tells it: keys and fields instead of words.
    pub fn key(self) -> String {
        match self {
            Source::Rule(Rule::FactorOfSafety) => key("cfr-23-303"),
            Source::Rule(Rule::SetAtLimit) => key("cfr-23-305"),
            Source::Builder(field) => format!("the plan's `{}`", field.path()),
            Source::Timber => "published timber tables, or the plan's `lot.strength`".to_owned(),
            Source::Segments(table) => key(table.source().0),
            Source::Lifting => key("niosh-94-110"),
            Source::Own(derivation) => derivation.words().to_owned(),
            Source::Practice => "common practice, no source".to_owned(),
        }
    }
}

fn key(of: &str) -> String {
    // In this form no test takes the pattern itself for a key.
    format!("source key {mark}{of}{mark}", mark = '`')
}

impl Field {
    fn words(self) -> &'static str {
        match self {
            Field::LoadCase => "load case",
            Field::Collapse => "required reserve of the stack",
            Field::Critical => "required critical load factor",
            Field::Lean => "allowed lean",
            Field::FixturePush => "required reserve of the fixture",
            Field::Chance => "allowed chance that a check falls short",
            Field::Tolerance => "tolerance of the occupant point",
            Field::HoldTolerance => "tolerance of that hold",
            Field::OccupantPoint => "occupant point, as typed",
            Field::Document => "document for the load point",
            Field::Capacity => "capacity of that support",
            Field::WorkingLoad => "working load of that strap",
            Field::Clearance => "clearance around that region",
            Field::Beside => "overlap below which a bag lies beside",
            Field::Allowable => "allowable load of that bearing",
            Field::Bindings => "binding straps",
            Field::CatchBlock => "gap of that catch block",
        }
    }

    fn path(self) -> &'static str {
        match self {
            Field::LoadCase => "load_case",
            Field::Collapse => "allow.collapse",
            Field::Critical => "allow.critical",
            Field::Lean => "allow.lean",
            Field::FixturePush => "allow.fixture_push",
            Field::Chance => "allow.chance",
            Field::Tolerance => "target.tolerance",
            Field::HoldTolerance => "hold.tolerance",
            Field::OccupantPoint => "target.at",
            Field::Document => "target.document",
            Field::Capacity => "support.capacity",
            Field::WorkingLoad => "hold_down.working_load",
            Field::Clearance => "keep_clear.clearance",
            Field::Beside => "bed.beside",
            Field::Allowable => "bearing.allowable",
            Field::Bindings => "fixture.bindings",
            Field::CatchBlock => "catch_block.gap",
        }
    }
}

impl Derivation {
    fn words(self) -> &'static str {
        match self {
            Derivation::Statics => "own derivation: equilibrium of stack and fixture",
            Derivation::LeastEnergy => "own derivation: shares of the bearings by least energy, a choice",
            Derivation::Moments => "own derivation: moments of the readings",
            Derivation::Creep => "creep with the logarithm of time, as of footings on sand, taken over for bags",
            Derivation::Blow => "the textbook weight that falls onto a spring, nothing lost",
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::{Ask, assess};

    #[test]
    fn no_finding_shows_people_a_key_or_a_field_of_the_file() {
        let text = include_str!("../../../assets/examples/side-by-side.ron");
        let plan = plan::file::read(text).expect("the demo is a plan");
        for finding in assess(&plan, Ask::closed()).findings {
            let told = finding.rests_on();
            let codes = ["`", "source key", "crate", "_", "de-leva"];
            assert!(!codes.into_iter().any(|mark| told.contains(mark)), "{:?}: {told}", finding.check);
            assert!(!told.is_empty(), "{:?} rests on nothing", finding.check);
        }
    }
}
