//! What binding straps that are on mean for a reserve, in words.

use plan::Plan;

/// The names of the binding straps that are on after so many placements.
fn straps_on(plan: &Plan, placed: usize) -> Vec<&str> {
    let on = plan.fixture.bindings.iter().filter(|strap| strap.after as usize <= placed);
    on.map(|strap| strap.name.as_str()).collect()
}

/// What a closed form of the reserve is: without straps never less than the true one; a strap that is on
/// may add to it as well as take from it.
pub(super) fn bound_words(plan: &Plan, placed: usize) -> &'static str {
    if straps_on(plan, placed).is_empty() { "upper bound" } else { "straps left out" }
}

/// A strap that is on may be what brings the stack down: a sentence about it, after a space.
pub(super) fn strap_helps(plan: &Plan, placed: usize) -> String {
    match straps_on(plan, placed).as_slice() {
        [] => String::new(),
        straps => format!(
            " Or move the binding strap “{}”, which is on by then, to the middle of the stack, or tension it less.",
            straps.join("” and “")
        ),
    }
}
