//! How a reserve is told: as solved, as far as it was asked for, or as no more than an upper bound.

use super::Told;
use assess::{Decision, StepReserve};
use drafting::sheet::{bounded, is_bound};

/// As solved with the way in which it goes: `0.18 left, leans`.
pub(super) fn reserve_words(reserve: Option<StepReserve>) -> String {
    let words = decision_words(reserve.map(|reserve| reserve.least));
    match reserve.map(|reserve| (reserve.by, reserve.least)) {
        Some((assess::Told::Soft, Decision::Falls)) => "leans over by itself".to_owned(),
        Some((assess::Told::Soft, Decision::Decided(_))) => format!("{words}, leans"),
        _ => words,
    }
}

/// While no more than a closed form is known: `at most 0.30 left`.
pub(super) fn at_most(reserve: Option<StepReserve>) -> String {
    let words = reserve_words(reserve);
    match reserve.map(|reserve| reserve.least) {
        Some(Decision::Decided(push)) if push.multiplier >= 0.0 => format!("at most {words}"),
        Some(Decision::NotLimited) => "not solved yet".to_owned(),
        _ => words,
    }
}

/// The same of one step: `0.12 or more` where it was only asked for so much as the bags give. Of all steps together the least
/// is known, since it is solved so wherever it can be least.
pub(super) fn reserve_words_of_step(told: Told, reserve: Option<StepReserve>) -> String {
    let words = reserve_words(reserve);
    let exact = told.assessment.exact.as_ref().zip(told.step());
    let bound = exact.is_some_and(|(exact, step)| is_bound(told.plan, exact, step));
    reserve.filter(|_| bound).map_or(words, |reserve| bounded(&reserve))
}

fn decision_words(least: Option<Decision>) -> String {
    match least {
        None => "nothing placed".to_owned(),
        Some(Decision::Decided(r)) if r.multiplier < 0.0 => "falls by itself".to_owned(),
        Some(Decision::Decided(r)) => {
            format!("{:.2} {}", r.multiplier, r.toward())
        }
        Some(Decision::NotLimited) => "not limited".to_owned(),
        Some(Decision::NotDecided { .. }) => "not decided".to_owned(),
        Some(Decision::Falls) => "falls by itself".to_owned(),
        Some(Decision::Loose) => "a piece touches nothing".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use assess::{Reserve, Way};

    #[test]
    fn a_closed_form_is_told_as_no_more_than_an_upper_bound() {
        let of =
            |multiplier| Decision::Decided(Reserve { multiplier, direction_rad: 0.0, any_way: false, by: Way::Tip });
        let told = |least| {
            at_most(Some(StepReserve { least, by: assess::Told::Rigid, tips: None, pushed: false, at_least: None }))
        };
        assert_eq!(told(of(0.3)), "at most 0.30 aft");
        assert_eq!(told(of(-0.1)), "falls by itself");
        assert_eq!(told(Decision::NotLimited), "not solved yet", "nothing that reassures");
    }
}
