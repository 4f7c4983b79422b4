//! Does a bag hang over the edge of what carries it? Statics counts it as a block; what hangs over droops, and the fill
//! runs there. So it is said, a caution at most: that it stands is another check's business.

use crate::closed::problem;
use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::Plan;
use statics::{Body, Contact, Patch};

/// The share of a bag's length or width that may hang over unsaid: `common practice, no source`.
const SHARE: f64 = 1.0 / 3.0;

/// How far a bag hangs over, and along which axis of the bed, by the share of its own extent there.
struct Over {
    step: usize,
    axis: usize,
    share: f64,
}

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let bodies = problem::bodies(plan);
    let contacts = &assessment.closed.pile.contacts;
    let mut over: Vec<Over> = contacts
        .chunk_by(|one, other| one.upper == other.upper)
        .filter(|under| bodies[under[0].upper].soft)
        .map(|under| farthest(&bodies[under[0].upper], under))
        .filter(|over| over.share > SHARE)
        .collect();
    over.sort_by(|one, other| other.share.total_cmp(&one.share));
    let Some(worst) = over.first() else { return Vec::new() };
    let by = Amount::Distance(worst.share * bodies[worst.step].extent_m[worst.axis]);
    let others = match over.len() - 1 {
        0 => String::new(),
        1 => "; one bag more does, by less".to_owned(),
        more => format!("; {more} bags more do, by less"),
    };
    let text = format!(
        "{} hangs over the edge of what carries it by {}, more than a third of its {}{others}. What hangs over droops, \
         and the fill runs there. Move it inward, or put a board under it.",
        plan.piece_name(worst.step),
        by.shown(plan.units),
        ["extent fore and aft", "extent across"][worst.axis],
    );
    vec![Finding {
        check: Check::OverTheEdge,
        state: State::Caution,
        value: Some(by),
        limit: None,
        place: Where::Pieces(over.iter().map(|over| over.step).collect()),
        text,
        sources: Source::PRACTICE,
    }]
}

/// Over the outermost edges of all that carries the bag: it spans what lies between two of them.
fn farthest(bag: &Body, under: &[Contact]) -> Over {
    let sides = |patch: &Patch| [patch.x_m, patch.y_m];
    let of_axis = |axis: usize| {
        let own = sides(&bag.footprint())[axis];
        let borne = under.iter().map(|contact| sides(&contact.patch)[axis]);
        let [low, high] =
            borne.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], side| [low.min(side[0]), high.max(side[1])]);
        let over_m = (low - own[0]).max(own[1] - high);
        Over { step: under[0].upper, axis, share: over_m / bag.extent_m[axis] }
    };
    let [along, across] = [of_axis(0), of_axis(1)];
    if across.share > along.share { across } else { along }
}
