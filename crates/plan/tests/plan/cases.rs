//! The list of load cases and its named edits.

use plan::edit::CaseEdit;
use plan::standard::{Given, Special, Standard, Status};
use plan::{Edit, LoadCase, Plan};
use quantity::{Angle, Quantity, Units};

fn blank() -> Plan {
    Plan::blank(Units::Metric)
}

/// The plan after an edit, and the edit's name.
fn after(plan: &Plan, edit: CaseEdit) -> (Plan, String) {
    let edit = Edit::Case(edit);
    let name = edit.name(plan);
    (edit.apply(plan).expect("a plan without faults"), name)
}

fn names(plan: &Plan) -> Vec<&str> {
    plan.load_cases.iter().map(|case| case.name.as_str()).collect()
}

#[test]
fn a_new_or_copied_case_is_in_hand_and_its_name_is_its_own() {
    let plan = blank();
    let fresh = LoadCase { name: "gust".to_owned(), ..plan.load_cases[0].clone() };
    let (plan, name) = after(&plan, CaseEdit::Add(Box::new(fresh)));
    assert_eq!((names(&plan), plan.case.as_str()), (vec!["load case 1", "gust"], "gust"));
    assert_eq!(name, "add load case gust");
    let (plan, name) = after(&plan, CaseEdit::Duplicate(0));
    assert_eq!(names(&plan), ["load case 1", "gust", "load case 2"]);
    assert_eq!((plan.case.as_str(), name.as_str()), ("load case 2", "duplicate load case load case 1"));
    let (plan, _) = after(&plan, CaseEdit::Duplicate(1));
    assert_eq!(plan.case, "gust 2");
}

#[test]
fn removing_the_case_in_hand_takes_its_neighbour_and_the_last_one_stays() {
    let (plan, _) = after(&blank(), CaseEdit::Duplicate(0));
    let (plan, _) = after(&plan, CaseEdit::Duplicate(0));
    let (plan, _) = after(&plan, CaseEdit::Take(1));
    let (plan, name) = after(&plan, CaseEdit::Remove(1));
    assert_eq!((names(&plan), plan.case.as_str()), (vec!["load case 1", "load case 3"], "load case 3"));
    assert_eq!(name, "remove load case load case 2");
    let (plan, _) = after(&plan, CaseEdit::Remove(0));
    assert_eq!(plan.case, "load case 3", "what was in hand stays in hand");
    let refused = Edit::Case(CaseEdit::Remove(0)).apply(&plan).expect_err("a plan without a load case");
    assert!(refused.sentence.contains("there is none"), "got: {}", refused.sentence);
}

#[test]
fn an_edit_of_a_case_that_is_not_there_changes_nothing() {
    let plan = blank();
    let (standard, special) = (&Standard::all()[0], &Special::all()[0]);
    for edit in [
        CaseEdit::Duplicate(7),
        CaseEdit::Remove(7),
        CaseEdit::Take(7),
        CaseEdit::Start(7, standard),
        CaseEdit::Special(7, special),
    ] {
        assert_eq!(after(&plan, edit).0, plan);
    }
}

#[test]
fn starting_from_a_rule_is_one_step_that_fills_every_field_and_leaves_the_basis() {
    for standard in Standard::all() {
        let mut before = blank();
        before.load_cases[0].direction = Angle::rad(0.2);
        before.load_cases[0].special_factor = 1.15;
        let (plan, name) = after(&before, CaseEdit::Start(0, standard));
        let (was, case) = (&before.load_cases[0], &plan.load_cases[0]);
        assert_eq!(name, format!("start load case load case 1 from {}", standard.name));
        assert_eq!(case.name, was.name, "its name stays");
        let occupant = standard.occupant.as_ref().map_or(was.occupant_mass, |figure| figure.value);
        let filled = LoadCase {
            name: was.name.clone(),
            basis: case.basis.clone(),
            occupant_mass: occupant,
            load_factor: standard.load_factor.value,
            direction: Angle::rad(0.0),
            safety_factor: standard.safety.value,
            special_factor: 1.0,
            from_rule: case.from_rule.clone(),
            starting: plan::StartingValues { occupant_mass: standard.occupant.is_none(), load_factor: false },
        };
        assert_eq!(case, &filled, "{}", standard.name);
        assert!(case.basis.contains(&standard.name) && case.basis.contains(&standard.load_factor.place));
        assert!(!case.basis.contains('\n'), "one paragraph: {}", case.basis);
    }
}

#[test]
fn what_is_recalled_says_so_in_the_basis_that_it_leaves() {
    for standard in Standard::all() {
        let basis = standard.basis();
        assert_eq!(standard.recalled(), basis.contains("Check what is from memory"), "{basis}");
        let figures = [standard.load_factor.status, standard.safety.status];
        let occupant = standard.occupant.as_ref().map(|figure| figure.status);
        let recalled = figures.into_iter().chain(occupant).any(|status| status == Status::Memory);
        assert_eq!(standard.recalled(), recalled, "{}", standard.name);
    }
}

/// What a builder types over a rule's figure is told, and gone once the rule's figure is back.
#[test]
fn a_figure_typed_over_a_rules_marks_its_basis_as_changed() {
    let rule = Standard::all().iter().find(|rule| rule.name == "14 CFR 23, normal category").expect("in the table");
    let started = rule.fill(&blank().load_cases[0]);
    assert_eq!(started.basis_changed(Units::Metric), None, "as the rule has it");
    assert_eq!(started.basis_in_full(Units::Metric), started.basis);
    let lighter = LoadCase { occupant_mass: quantity::Mass::kg(86.0), ..started.clone() };
    let want = "Changed since it was started from 14 CFR 23, normal category: occupant mass 86.0 kg, the basis says \
                97.5 kg.";
    assert_eq!(lighter.basis_changed(Units::Metric).as_deref(), Some(want));
    assert!(lighter.basis_in_full(Units::Metric).ends_with(want), "on paper: {}", lighter.basis_in_full(Units::Metric));
    let changes: [fn(&mut LoadCase); 4] = [
        |case| case.load_factor = 3.7,
        |case| case.direction = Angle::rad(0.1),
        |case| case.safety_factor = 1.0,
        |case| case.special_factor = 1.15,
    ];
    for change in changes {
        let mut case = started.clone();
        change(&mut case);
        assert_eq!(case.changed_since_rule().len(), 1, "{case:?}");
    }
    let attached = Special::all()[0].fill(&started);
    assert_eq!(attached.basis_changed(Units::Metric), None, "the basis says the factor too");
}

#[test]
fn a_rewritten_basis_stands_for_its_figures() {
    let (plan, _) = after(&blank(), CaseEdit::Start(0, &Standard::all()[0]));
    let mut plan = plan;
    plan.load_cases[0].occupant_mass = quantity::Mass::kg(86.0);
    let (plan, name) = after(&plan, CaseEdit::Own(0));
    assert_eq!(plan.load_cases[0].basis_changed(Units::Metric), None);
    assert_eq!(name, "let the basis of load case 1 stand for its figures");
}

/// A load that a rule states as ultimate is not multiplied again (source key `cfr-25-303`).
#[test]
fn a_load_given_as_ultimate_gets_no_factor_of_safety() {
    let given: Vec<_> = Standard::all().iter().filter(|standard| standard.given == Given::Ultimate).collect();
    assert!(!given.is_empty(), "the table holds some");
    for standard in given {
        let case = standard.fill(&blank().load_cases[0]);
        let (limit, mass) = (plan::LimitLoad::of(&case), case.occupant_mass.si());
        let (got, want) = (limit.ultimate(&case).as_mass().si(), mass * standard.load_factor.value);
        assert!(
            (got - want).abs() < 1e-9,
            "{}: got {got} kg, want {want} kg, difference {} kg",
            standard.name,
            got - want
        );
        assert!(case.basis.contains("given as ultimate"), "{}", case.basis);
    }
}

#[test]
fn a_special_factor_multiplies_the_ultimate_load_and_stands_in_the_basis() {
    for special in Special::all() {
        let (plan, name) = after(&blank(), CaseEdit::Special(0, special));
        let case = &plan.load_cases[0];
        assert!(case.basis.ends_with(&format!("Special factor, {}: {}.", special.name, special.factor)));
        assert!(name.contains(&special.factor.printed), "{name}");
        let limit = plan::LimitLoad::of(case);
        let (got, want) = (limit.ultimate(case).as_mass().si(), 86.0 * 3.8 * 1.5 * special.factor.value);
        assert!(
            (got - want).abs() < 1e-9,
            "{}: got {got} kg, want {want} kg, difference {} kg",
            special.name,
            got - want
        );
    }
}

#[test]
fn a_value_is_nobodys_until_it_is_typed_even_where_the_typed_one_is_the_same_number() {
    use plan::edit::Part;
    let typed = |plan: &Plan, kg: f64| {
        let mut cases = plan.load_cases.clone();
        cases[0].occupant_mass = quantity::Mass::kg(kg);
        Edit::set(Part::LoadCases(cases), "occupant").apply(plan).expect("a mass")
    };
    let not_entered = |plan: &Plan| plan.load_cases[0].starting_values();
    let fresh = blank();
    assert!(not_entered(&fresh).occupant_mass && not_entered(&fresh).load_factor);
    let there_and_back = typed(&typed(&fresh, 90.0), 86.0);
    assert!(!not_entered(&there_and_back).occupant_mass && not_entered(&there_and_back).load_factor);
    // The file keeps it apart from a plan in which nobody typed; an older file tells by its figures.
    for plan in [fresh, there_and_back] {
        let text = plan::file::write(&plan);
        assert_eq!(plan::file::read(&text).expect("it opens").load_cases, plan.load_cases, "{text}");
    }
    assert!(!plan::file::write(&blank()).contains("not_entered"), "older programs read it");
}

#[test]
fn a_basis_says_that_the_figures_are_meant() {
    let mut case = blank().load_cases[0].clone();
    case.basis = "the design's own load sheet, case 1".to_owned();
    assert_eq!(case.starting_values().words(), None);
}

/// What stands as in a blank case without a basis is nobody's; a figure of its own was entered.
#[test]
fn an_older_file_tells_by_its_figures_which_values_nobody_entered() {
    let told = |mass: &str| {
        let text = crate::WRITTEN.replace("\"92.5 kg\"", mass);
        plan::file::read(&text).expect("it opens").load_cases[1].starting_values().words()
    };
    assert_eq!(told("\"92.5 kg\""), None);
    assert_eq!(told("\"86 kg\""), Some("occupant mass"));
}

/// 92 kg x 4.4 = 404.8 kg, and x 1.5 = 607.2 kg (`own derivation`), each times the acceleration of free fall.
#[test]
fn limit_and_ultimate_load_weigh_what_their_mass_weighs() {
    let case = &plan::file::read(crate::WRITTEN).expect("it opens").load_cases[0];
    let limit = plan::LimitLoad::of(case);
    let g = quantity::STANDARD_GRAVITY_M_S2;
    for (what, got, want) in
        [("limit", limit.force_n(), 404.8 * g), ("ultimate", limit.ultimate(case).force_n(), 607.2 * g)]
    {
        assert!((got - want).abs() < 1e-9 * want, "{what}: got {got} N, want {want} N, difference {} N", got - want);
    }
}

/// The figures of the rule from which a case was started are figures of the plan like others.
#[test]
fn a_rule_whose_figures_make_no_sense_is_a_fault() {
    let mut plan = blank();
    let sound = plan::FromRule {
        rule: "a rule".to_owned(),
        occupant_mass: Some(quantity::Mass::kg(86.0)),
        load_factor: 3.8,
        safety_factor: 1.5,
        special_factor: 1.0,
    };
    let faults = |plan: &mut Plan, rule: plan::FromRule| {
        plan.load_cases[0].from_rule = Some(rule);
        plan::faults(plan).len()
    };
    assert_eq!(faults(&mut plan, sound.clone()), 0);
    let spoilt = [
        plan::FromRule { occupant_mass: Some(quantity::Mass::kg(0.0)), ..sound.clone() },
        plan::FromRule { load_factor: -3.8, ..sound.clone() },
        plan::FromRule { safety_factor: f64::NAN, ..sound.clone() },
        plan::FromRule { special_factor: 0.0, ..sound },
    ];
    for rule in spoilt {
        assert_eq!(faults(&mut plan, rule.clone()), 1, "{rule:?}");
    }
}
