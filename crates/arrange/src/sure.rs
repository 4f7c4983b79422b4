//! How much more than the load that is due must lie there, so that it is reached although not every piece was weighed.

use crate::doubt::{deviations_of, sd_kg};
use crate::impossible::Shortfall;
use crate::task::Task;
use assess::Check;
use plan::{Lot, Plan};
use quantity::{Grain, Mass, Quantity};
use statics::spread::below;

/// The mass of the whole heap beyond the load that is due, in deviations; infinite where all is weighed and enough. No part
/// of it has more, while each piece weighs more than so many of its deviations: leaving it out takes more off the mass than
/// off the doubt.
fn sure_of_all(plan: &Plan, due_kg: f64) -> f64 {
    let of_lot = |lot: &Lot| (1..=lot.count).map(|item| sd_kg(lot, item)).sum::<f64>();
    let spread_kg = plan.ballast.iter().map(|lot| of_lot(lot) * of_lot(lot)).sum::<f64>().sqrt();
    let beyond_kg = plan.ballast.iter().flat_map(|lot| (1..=lot.count).map(|item| lot.mass_of(item).si())).sum::<f64>()
        - due_kg * (1.0 - 1e-9);
    match (spread_kg > 0.0, beyond_kg < 0.0) {
        (true, _) => beyond_kg / spread_kg,
        (false, true) => f64::NEG_INFINITY,
        (false, false) => f64::INFINITY,
    }
}

/// That the load is missed too often however the pieces are chosen, as long as they are not weighed.
pub(crate) fn not_weighed(task: &Task) -> Option<Shortfall> {
    let (all, best) = (sure_of_all(task.plan, task.due_kg), sure_at_best(task));
    let sure = all.min(best);
    if task.due_kg <= 0.0 || !(0.0..deviations_of(task.plan.allow.chance)).contains(&sure) {
        return None;
    }
    let shown = |kg: f64| Mass::kg(kg).shown(task.plan.units, Grain::Coarse);
    let why = if all < best {
        "All pieces together weigh little more than the ultimate load"
    } else {
        "Nothing may be put on after the ultimate load is reached, so that no stack can pass it by more than its last piece"
    };
    let sentence = format!(
        "{why} of {}, and not all were weighed: at least {:.0} of 100 stacks would weigh less, and {:.0} of 100 are \
         allowed. What would help: weigh {}.",
        shown(task.due_kg),
        100.0 * (1.0 - below(sure)),
        100.0 * task.plan.allow.chance,
        lots_to_weigh(task.plan)
    );
    Some(Shortfall { check: Check::ChanceToMiss, sentence, is_certain: true, gap: None })
}

/// By how many deviations of its mass a stack can pass the load that is due at the most: by less than its heaviest piece,
/// over the deviation of the least doubtful pieces that reach the load. With L lots the root of the sum of squares is at
/// least the sum over the root of L. Source: `own derivation`.
fn sure_at_best(task: &Task) -> f64 {
    let items = || task.stocks.iter().flat_map(|stock| &stock.free).chain(task.kept.iter().map(|put| &put.item));
    let mut by_doubt: Vec<_> = items().filter(|item| item.mass_kg > 0.0).collect();
    by_doubt.sort_by(|a, b| (a.sd_kg / a.mass_kg).total_cmp(&(b.sd_kg / b.mass_kg)));
    let (mut missing_kg, mut doubt_kg) = (task.due_kg, 0.0);
    for item in by_doubt {
        let part = (missing_kg / item.mass_kg).clamp(0.0, 1.0);
        (missing_kg, doubt_kg) = (missing_kg - part * item.mass_kg, doubt_kg + part * item.sd_kg);
    }
    let heaviest_kg = items().map(|item| item.mass_kg).fold(0.0, f64::max);
    #[expect(clippy::cast_precision_loss, reason = "a few lots")]
    let least_kg = doubt_kg / (task.stocks.len().max(1) as f64).sqrt();
    if least_kg > 0.0 { heaviest_kg / least_kg } else { f64::INFINITY }
}

/// What to weigh, in a sentence; none where all was weighed.
pub(crate) fn what_to_weigh(plan: &Plan) -> Option<String> {
    let lots = lots_to_weigh(plan);
    (!lots.is_empty()).then(|| format!("What would help: weigh {lots}."))
}

/// The lots that leave most of the doubt, with how many pieces of each are to be put on a scale.
fn lots_to_weigh(plan: &Plan) -> String {
    let doubt = |lot: &Lot| (1..=lot.count).map(|item| sd_kg(lot, item)).sum::<f64>();
    let most = plan.ballast.iter().map(doubt).fold(0.0, f64::max);
    let told = |lot: &Lot| {
        let pieces = (1..=lot.count).filter(|item| !lot.is_weighed(*item)).count();
        let off = lot.mass_tolerance.shown(plan.units, Grain::Fine);
        format!("the {pieces} pieces of “{}” that were not ({off} more or less each)", lot.name)
    };
    let heavy = plan.ballast.iter().filter(|lot| doubt(lot) > 0.25 * most && most > 0.0);
    heavy.map(told).collect::<Vec<_>>().join(" and ")
}
