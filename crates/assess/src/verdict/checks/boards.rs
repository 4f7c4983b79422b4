//! Do the boards bear it? Bending and shear against what their grade may bear lying flat for days.

use crate::closed::is_board;
use crate::exact::LITTLE_ACROSS_PA;
use crate::{Amount, Assessment, Bent, BoardState, Check, Finding, Source, State, Where, told};
use plan::Plan;
use quantity::{Grain, Length};
use statics::equilibrium::SplitEnd;
use statics::timber::{Allowables, Status, System, across_limit};
use std::cmp::Ordering;

/// From this share of its allowable stress a board is a caution: `common practice, no source`.
const NEAR_SHARE: f64 = 0.85;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let has_boards = (0..plan.steps()).any(|step| is_board(plan, step));
    match &assessment.exact {
        None if has_boards => vec![Finding::not_yet(Check::Boards)],
        Some(exact) if has_boards => {
            let with_all = exact.boards.iter().map(|board| judge(plan, board));
            let worst = with_all
                .max_by(|a, b| (a.state, a.share()).partial_cmp(&(b.state, b.share())).unwrap_or(Ordering::Equal));
            let on_the_way = exact.on_the_way.iter().flat_map(|borne| borne.boards.iter().map(|b| (b, borne.step)));
            let judged = on_the_way.clone().map(|(board, step)| found(plan, &along_alone(board), Some(step)));
            let worst = judged.fold(worst, |worst, next| match worst {
                Some(worst) if !next.is_worse_than(&worst) => Some(worst),
                _ => Some(next),
            });
            let open = on_the_way.filter(|(board, _)| is_open_across(board)).min_by_key(|(_, step)| *step);
            worst.into_iter().chain(open.map(|(board, step)| open_across(plan, board, step))).collect()
        }
        _ => Vec::new(),
    }
}

/// Whether it bends along its grain as is known, and across it as is not.
fn is_open_across(board: &BoardState) -> bool {
    board.allowed.is_ok() && board.bent.is_some_and(|bent| bent.across_pa.is_none())
}

/// What it bears along its grain is judged even where how it bends across it is not decided.
fn along_alone(board: &BoardState) -> BoardState {
    let across_pa = |bent: Bent| if is_open_across(board) { Some(0.0) } else { bent.across_pa };
    BoardState { bent: board.bent.map(|bent| Bent { across_pa: across_pa(bent), ..bent }), ..board.clone() }
}

/// The strips of a board that is loaded at one side alone may not balance by themselves, while the board does.
/// Not decided falls short, also where it passes with the steps after it.
fn open_across(plan: &Plan, board: &BoardState, step: usize) -> Finding {
    let name = plan.piece_name(board.step);
    Finding {
        check: Check::Boards,
        state: State::Undecided,
        value: None,
        limit: None,
        place: Where::Step { step, layer: None },
        text: format!(
            "How {name} bends across its grain after step {} was not decided; treat it as overloaded. Load it from \
             its middle outward.",
            step + 1
        ),
        sources: &[Source::Timber],
    }
}

pub(super) fn judge(plan: &Plan, board: &BoardState) -> Finding {
    found(plan, board, None)
}

/// A board with all pieces placed, or after a step (from 0) before.
fn found(plan: &Plan, board: &BoardState, after: Option<usize>) -> Finding {
    let when = after.map(|step| format!(" after step {}", step + 1)).unwrap_or_default();
    let name = format!("{}{when}", plan.piece_name(board.step));
    let (state, value, limit, text) = match (&board.bent, &board.allowed) {
        (None, _) => {
            (State::Undecided, None, None, format!("The bending of {name} was not decided; treat it as overloaded."))
        }
        (Some(bent), Err(why)) => {
            let stress = Amount::Stress(bent.bending_pa);
            let text = format!(
                "{name} bends to {}, but its allowable stress is not known: {why}. Enter its grade, or its \
                 allowable stresses, on the Ballast page.",
                stress.shown(plan.units)
            );
            (State::Undecided, Some(stress), None, text)
        }
        (Some(bent), Ok(allowed)) => stressed(plan, &name, bent, board, allowed),
    };
    Finding {
        check: Check::Boards,
        state,
        value,
        limit,
        place: Where::Pieces(vec![board.step]),
        text,
        sources: &[Source::Timber],
    }
}

/// State, what is measured, its limit, and the sentence.
type Judged = (State, Option<Amount>, Option<Amount>, String);

/// The worse of what a board bears along its grain and across it.
fn stressed(plan: &Plan, name: &str, bent: &Bent, board: &BoardState, allowed: &Allowables) -> Judged {
    let Some(across_pa) = bent.across_pa else {
        let text = format!("How {name} bends across its grain was not decided; treat it as overloaded.");
        return (State::Undecided, None, None, text);
    };
    let (along, across) = (along(plan, name, bent, allowed), across(plan, name, across_pa, board, allowed));
    match across {
        Some(across) if across.0 >= along.0 => across,
        _ => along,
    }
}

fn along(plan: &Plan, name: &str, bent: &Bent, allowed: &Allowables) -> Judged {
    let shear = ("shear", bent.shear_pa, allowed.shear_pa);
    let bending = ("bending", bent.bending_pa, allowed.bending_pa);
    let (what, is, may) = if shear.1 / shear.2 > bending.1 / bending.2 { shear } else { bending };
    let (value, limit) = (Amount::Stress(is), Amount::Stress(may));
    let bends = bent.deflection_m.map(|d| {
        let by = told::significant(Length::m(d.abs()), plan.units, Grain::Fine);
        format!("; it bends {by} between the outermost places that hold it, shear and creep left out")
    });
    let [is_shown, may_shown] = value.shown_beside(limit, plan.units);
    let memory = match allowed.status() {
        Status::Memory => "; part of that figure is recalled, not read: check it against the standard",
        _ => "",
    };
    let by = match allowed.system {
        System::Own => "by the plan's own figures".to_owned(),
        _ => format!("for grade {} lying flat for days, dry", allowed.grade),
    };
    let told = format!(
        "{name} is most heavily stressed in {what}: {is_shown} of {may_shown} {by}{}{memory}",
        bends.unwrap_or_default()
    );
    let (state, text) = match is / may {
        share if share > 1.0 => {
            (State::Fails, format!("{told}. Put a second board under it, or bring the pieces over the bearings."))
        }
        share if share > NEAR_SHARE => {
            let help = "The margin is small: put a second board under it, or shorten its span.";
            (State::Caution, format!("{told}. {help}"))
        }
        _ => (State::Met, format!("{told}.")),
    };
    (state, Some(value), Some(limit), text)
}

/// Across the grain: in order up to the grade's design value, a caution up to a third of what clear wood bears on
/// average, which is the limit; and a failure at once where the stack hangs on the board being whole. None where it
/// bends so little that nothing is to be told.
fn across(plan: &Plan, name: &str, is: f64, board: &BoardState, allowed: &Allowables) -> Option<Judged> {
    let design = allowed.across_bending_pa;
    if is <= design.unwrap_or(LITTLE_ACROSS_PA) {
        return None;
    }
    let stress = |pa: f64| Amount::Stress(pa).shown(plan.units);
    let design = match design {
        Some(design) => format!("Up to the design value of its grade, {}, it would be in order.", stress(design)),
        None if allowed.system == System::Own => "The plan has no figure for what it may bear there.".to_owned(),
        None => "Its grade has no published value for what it may bear there.".to_owned(),
    };
    let told = format!("Across its grain {name} bends to {}. {design}", stress(is));
    let Some(limit) = across_limit() else {
        return Some((State::Undecided, Some(Amount::Stress(is)), None, format!("{told} {ACROSS_HELP}")));
    };
    let what = format!(
        "The limit is {}: a third of the {} that the weakest clear softwood known here ({}) bears on average.",
        stress(limit.limit_pa),
        stress(limit.mean_pa),
        limit.species
    );
    let (state, why) = match board.split {
        _ if is > limit.limit_pa => (State::Fails, "It is past that limit.".to_owned()),
        Some(SplitEnd::LetsDown { step }) => {
            let why = "Below that limit it fails too, since split along its length it lets the stack down at step";
            (State::Fails, format!("{why} {step}."))
        }
        Some(SplitEnd::NotDecided { step }) => {
            let why = "It is below that limit, but what it does split along its length was not decided, at step";
            (State::Undecided, format!("{why} {step}."))
        }
        Some(SplitEnd::Stands) => {
            let why = "It is below that limit, and split along its length it would still hold the stack.";
            (State::Caution, why.to_owned())
        }
        None => (State::Caution, "It is below that limit.".to_owned()),
    };
    let text = format!("{told} {what} {why} {ACROSS_HELP}");
    Some((state, Some(Amount::Stress(is)), Some(Amount::Stress(limit.limit_pa)), text))
}

/// What helps a board that bends across its grain.
const ACROSS_HELP: &str = "Lay a layer of boards across under it, widen the bearing, or turn the board.";
