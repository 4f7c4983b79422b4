//! Do the boards bear it? Bending and shear against what their grade may bear lying flat for days.

use crate::closed::is_board;
use crate::{Amount, Assessment, Bent, BoardState, Check, Finding, Source, State, Where, told};
use plan::Plan;
use quantity::{Grain, Length};
use statics::timber::{Status, System};
use std::cmp::Ordering;

/// From this share of its allowable stress a board is a caution: `common practice, no source`.
const NEAR_SHARE: f64 = 0.85;

/// Below this, bending across the grain is not worth a word, Pa: a quarter of what the weakest
/// European class may bear there (`common practice, no source`).
const LITTLE_ACROSS_PA: f64 = 5e4;
/// Above this it is not decided without a figure, Pa: the weakest European class may bear no more there
/// (`common practice, no source`).
const MUCH_ACROSS_PA: f64 = 2e5;

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
        (Some(bent), Ok(allowed)) => stressed(plan, &name, bent, allowed),
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

type Judged = (State, Option<Amount>, Option<Amount>, String);

fn stressed(plan: &Plan, name: &str, bent: &Bent, allowed: &statics::timber::Allowables) -> Judged {
    let ratios = [("bending", bent.bending_pa, allowed.bending_pa), ("shear", bent.shear_pa, allowed.shear_pa)];
    let across = bent.across_pa.zip(allowed.across_bending_pa).map(|(is, may)| ("bending across the grain", is, may));
    let worst = ratios.into_iter().chain(across).max_by(|a, b| (a.1 / a.2).total_cmp(&(b.1 / b.2)));
    let (Some((what, is, may)), Some(across_pa)) = (worst, bent.across_pa) else {
        let text = format!("How {name} bends across its grain was not decided; treat it as overloaded.");
        return (State::Undecided, None, None, text);
    };
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
    let unpublished = allowed.across_bending_pa.is_none() && across_pa > LITTLE_ACROSS_PA;
    let (state, text) = match is / may {
        share if share > 1.0 => {
            (State::Fails, format!("{told}. Put a second board under it, or bring the pieces over the bearings."))
        }
        _ if unpublished => {
            let state = if across_pa > MUCH_ACROSS_PA { State::Undecided } else { State::Caution };
            (state, format!("{told}. {}", across_words(plan, across_pa, allowed.system)))
        }
        share if share > NEAR_SHARE => (
            State::Caution,
            format!(
                "{told}. The margin is small: put a second board under it, or shorten its \
                                      span."
            ),
        ),
        _ => (State::Met, format!("{told}.")),
    };
    (state, Some(value), Some(limit), text)
}

fn across_words(plan: &Plan, across_pa: f64, system: System) -> String {
    let why = match system {
        System::Own => "for which the plan has no figure",
        _ => "for which its grade has no published value",
    };
    let stress = Amount::Stress(across_pa).shown(plan.units);
    format!("Across the grain it bends to {stress}, {why}: lay boards so that they do not overhang sideways.")
}
