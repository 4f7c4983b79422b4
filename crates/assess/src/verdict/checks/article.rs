//! Do supports and straps hold the article, alone and with the stack on it? Lift-off from a support.

use crate::verdict::when;
use crate::verdict::when::NO_SUPPORTS;
use crate::{Assessment, Check, Exact, Finding, Source, State, Where};
use plan::Plan;
use statics::fixture::Settled;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    match &assessment.exact {
        _ if plan.stack.is_empty() => Vec::new(),
        _ if plan.fixture.supports.is_empty() => {
            vec![standing(State::Fails, Where::Fixture, NO_SUPPORTS.to_owned())]
        }
        Some(exact) => vec![stands(exact)],
        None => vec![Finding::not_yet(Check::ArticleStands)],
    }
}

fn standing(state: State, place: Where, text: String) -> Finding {
    Finding { check: Check::ArticleStands, state, value: None, limit: None, place, text, sources: Source::STATICS }
}

/// Whether supports and straps hold article and stack at every step, and the article before the first.
fn stands(exact: &Exact) -> Finding {
    let first = |is_so: &dyn Fn(&Settled) -> bool| exact.settled().find(|(_, s)| is_so(s)).map(|(placed, _)| placed);
    let falls = first(&|s| matches!(s, Settled::Falls { .. } | Settled::Loose));
    let open = first(&|s| matches!(s, Settled::NotDecided { .. }));
    let lifted = first(&|s| s.reactions().is_some_and(|r| r.lifted().next().is_some()));
    let (state, placed, text) = match (falls, open, lifted) {
        (Some(placed), ..) => (State::Fails, placed, goes_over(placed)),
        (_, Some(placed), _) => {
            let when = when::when(placed);
            (
                State::Undecided,
                placed,
                format!("What supports and straps carry {when} was not decided; treat it as tipping over."),
            )
        }
        (.., Some(placed)) => (State::Fails, placed, lifts_off(placed)),
        _ => (
            State::Met,
            exact.fixture.len(),
            "The fixture holds the article alone, and article and stack after every step; every support stays loaded."
                .to_owned(),
        ),
    };
    standing(state, when::place(placed), text)
}

fn goes_over(placed: usize) -> String {
    let what = match placed {
        0 => "Before the first piece, and again when the last is off, the article tips over".to_owned(),
        _ => format!("After step {placed} article and stack tip over"),
    };
    format!("{what}: no supports and straps hold it. Set supports further out, or strap it down.")
}

fn lifts_off(placed: usize) -> String {
    let what = match placed {
        0 => "Before the first piece".to_owned(),
        _ => format!("From step {placed} on"),
    };
    format!(
        "{what} a support carries nothing: the article lifts off it. Set that support further in, or strap the article down."
    )
}
