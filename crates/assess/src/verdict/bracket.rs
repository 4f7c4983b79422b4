//! What is judged by how bags give, where nobody measured that: at the softest, the usual and the stiffest that
//! they may be. It fails if it fails with the stiffest, and is met if met with the softest; else the usual one
//! says whether it is a caution or not decided.

use super::finding::{State, Where};
use crate::amount::Amount;
use crate::closed::softness::{ASSUMED_PA, BRACKET_PA};
use crate::exact::{Soft, Yielding};
use plan::Plan;
use quantity::{Grain, Pressure, Quantity};

/// What a check makes of one softness.
pub(super) struct Judged {
    pub(super) state: State,
    pub(super) value: Option<Amount>,
    pub(super) place: Where,
    pub(super) text: String,
}

/// Judges a stack as its bags give, by the rule of the three softnesses where they were not measured.
pub(super) fn bracketed(plan: &Plan, soft: &Soft, judge: impl Fn(&Yielding) -> Judged) -> Judged {
    let usual = judge(&soft.usual);
    let Some([softest, stiffest]) = soft.bracket.as_ref().map(|bracket| bracket.each_ref().map(&judge)) else {
        return usual;
    };
    let shown = |pa: f64| Pressure::pa(pa).shown(plan.units, Grain::Coarse);
    // Where the bags do not decide, there is nothing to measure.
    if [&softest, &stiffest].iter().all(|end| (end.state, &end.text) == (usual.state, &usual.text)) {
        return usual;
    }
    let [low, high] = BRACKET_PA.map(shown);
    let measure = "Measure three bags, ten minutes on the floor: see the Ballast page";
    let said =
        |judged: Judged, state: State, of: String| Judged { state, text: format!("{} {of}", judged.text), ..judged };
    let at = shown(ASSUMED_PA);
    if stiffest.state == State::Fails {
        // Told at the usual one, as every other number of the stack is: two steps for one fall would be two truths.
        let of = format!("That is at {at}: nobody measured how the bags give, and it fails even at {high}.");
        return said(if usual.state == State::Fails { usual } else { stiffest }, State::Fails, of);
    }
    if softest.state == State::Met {
        return said(usual, State::Met, format!("Nobody measured how the bags give; it is met even at {low}."));
    }
    if usual.state.falls_short() {
        let end = if stiffest.state.falls_short() { "it is not decided either" } else { "it would pass" };
        let of = format!("That is at {at}, for nobody measured how the bags give; at {high} {end}. {measure}.");
        return said(usual, State::Undecided, of);
    }
    let of = format!("That is at {at}, for nobody measured how the bags give; at {low} it is worse. {measure}.");
    said(usual, State::Caution, of)
}
