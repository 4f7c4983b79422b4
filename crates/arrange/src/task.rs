//! What is to be laid, in bare SI: the bed, the heap of pieces, the load that is due, the line on
//! which it must act. Bed frame unless a name says otherwise.

use assess::Clearances;
use assess::load::Load;
use nalgebra::{Isometry3, Point3, Vector3};
use plan::{Form, Place, Plan, Turn};
use quantity::{Length, Quantity, Units};
use statics::soft::Softness;
use statics::{Bed, Body, Pile, Under, settle};

/// A bag as it settles leaves this much room to its neighbour even where none squeezes, m: what
/// hands can do. `common practice, no source`.
const LEAST_GAP_M: f64 = 0.002;

/// The task and all that is asked thousands of times, made ready.
pub(crate) struct Task<'p> {
    pub(crate) plan: &'p Plan,
    pub(crate) bed: Bed,
    pub(crate) floor_from_bed: Isometry3<f64>,
    pub(crate) target_in_floor: Point3<f64>,
    /// Ultimate load, kg.
    pub(crate) due_kg: f64,
    /// So many standard deviations of its mass must lie beyond that.
    pub(crate) deviations: f64,
    /// What is applied at each hold, kg.
    pub(crate) holds_kg: Vec<f64>,
    /// How far off the line of action may be at each of them, fore-aft and lateral, m.
    pub(crate) holds_allowed_m: Vec<[f64; 2]>,
    /// The lots in the plan's order, each with what is free to be placed.
    pub(crate) stocks: Vec<Stock>,
    /// What stays where it is, in placing order.
    pub(crate) kept: Vec<Put>,
    pub(crate) clearances: Clearances,
    /// Places are given in steps of this, m, so that a tape measure finds them.
    pub(crate) grid_m: f64,
    /// Room between neighbours, m.
    pub(crate) gap_m: f64,
}

/// A lot with the items that are free.
pub(crate) struct Stock {
    pub(crate) form: Form,
    /// Length, width, thickness, m.
    pub(crate) size_m: [f64; 3],
    pub(crate) friction: f64,
    /// How a piece gives; bags of which nothing was measured at the usual modulus.
    pub(crate) softness: Softness,
    /// Heaviest first; equals by their number.
    pub(crate) free: Vec<Item>,
}

/// One piece of a lot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Item {
    pub(crate) number: u32,
    pub(crate) mass_kg: f64,
    /// Standard deviation of that, kg; none where it was weighed.
    pub(crate) sd_kg: f64,
}

impl Item {
    /// Any piece, to see how it would lie.
    pub(crate) const ANY: Self = Self { number: 1, mass_kg: 0.0, sd_kg: 0.0 };
}

/// A piece put down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Put {
    /// Which lot, from 0.
    pub(crate) lot: usize,
    pub(crate) item: Item,
    /// Centre, m.
    pub(crate) at_m: [f64; 2],
    pub(crate) turn: Turn,
    /// As the plan has it.
    pub(crate) locked: bool,
    /// Must stay where it is.
    pub(crate) kept: bool,
}

impl<'p> Task<'p> {
    /// The task of a plan: locked pieces and what carries them stay, all else is free.
    pub(crate) fn of(plan: &'p Plan) -> Self {
        let mut task = Self::with_stack(plan);
        let carried = carriers(&task);
        let puts = std::mem::take(&mut task.kept);
        task.kept = puts.into_iter().zip(carried).filter(|(_, kept)| *kept).map(|(put, _)| put).collect();
        task.kept.iter_mut().for_each(|put| put.kept = true);
        task.free_what_is_not_kept();
        task
    }

    /// The task with every placed piece in `kept`, those that are not locked marked as free to move.
    pub(crate) fn with_stack(plan: &'p Plan) -> Self {
        let load = plan.case_in_hand().map(Load::of);
        let due_kg = load.map_or(0.0, |load| load.ultimate.as_mass().si());
        let bed = assess::bed(plan);
        let gap_m = bed.beside_m.max(LEAST_GAP_M);
        let mut task = Self {
            plan,
            bed,
            floor_from_bed: plan.floor_from_bed(),
            target_in_floor: assess::target_in_floor(plan),
            due_kg,
            deviations: crate::doubt::deviations(plan),
            holds_kg: plan.holds.iter().map(|hold| hold.at * due_kg).collect(),
            holds_allowed_m: plan.holds.iter().map(|hold| plan.tolerance_at(hold).map(Quantity::si)).collect(),
            stocks: plan.ballast.iter().map(stock).collect(),
            kept: plan.stack.iter().map(|place| put(plan, place)).collect(),
            clearances: Clearances::of(plan),
            grid_m: grid_m(plan.units),
            gap_m,
        };
        task.free_what_is_not_kept();
        task
    }

    /// The plan's own stack: what must stay first, then the rest in the order of placing.
    pub(crate) fn own(&self) -> Vec<Put> {
        let places = self.plan.stack.iter().map(|place| put(self.plan, place));
        let stays = |own: &Put| self.kept.iter().any(|kept| (kept.lot, kept.item.number) == (own.lot, own.item.number));
        self.kept.iter().copied().chain(places.filter(|own| !stays(own))).collect()
    }

    fn free_what_is_not_kept(&mut self) {
        for (lot, stock) in self.stocks.iter_mut().enumerate() {
            *stock = self::stock(&self.plan.ballast[lot]);
            stock.free.retain(|item| !self.kept.iter().any(|put| put.lot == lot && put.item.number == item.number));
        }
    }

    /// The piece as a box.
    pub(crate) fn body(&self, put: &Put) -> Body {
        let Stock { form, size_m, friction, .. } = &self.stocks[put.lot];
        let [length, width, thickness] = *size_m;
        let extent_m = match put.turn {
            Turn::Lengthwise => [length, width, thickness],
            Turn::Crosswise => [width, length, thickness],
        };
        let (mass_kg, soft) = (put.item.mass_kg, *form == Form::Bag);
        Body { centre_m: put.at_m, extent_m, mass_kg, friction: *friction, soft }
    }

    pub(crate) fn bodies(&self, stack: &[Put]) -> Vec<Body> {
        stack.iter().map(|put| self.body(put)).collect()
    }

    /// The piece as a plan has it.
    pub(crate) fn place(&self, put: &Put) -> Place {
        Place {
            lot: self.plan.ballast[put.lot].name.clone(),
            item: put.item.number,
            at: put.at_m.map(Length::m),
            turn: put.turn,
            locked: put.locked,
        }
    }

    pub(crate) fn places(&self, stack: &[Put]) -> Vec<Place> {
        stack.iter().map(|put| self.place(put)).collect()
    }

    /// Where the plumb line through the occupant point passes at this height of the bed, m.
    pub(crate) fn line_at(&self, height_m: f64) -> [f64; 2] {
        let foot = self.floor_from_bed * Point3::new(0.0, 0.0, height_m);
        let off = self.target_in_floor - foot;
        self.in_bed([off.x, off.y])
    }

    /// A level way in the floor frame as a way along the bed with the same plan, m. The bed is
    /// turned about y alone, so that x and y do not mix.
    pub(crate) fn in_bed(&self, [x_m, y_m]: [f64; 2]) -> [f64; 2] {
        let along = self.floor_from_bed.rotation * Vector3::x();
        [x_m / along.x, y_m]
    }

    /// The nearest place of the grid.
    pub(crate) fn on_grid(&self, at_m: [f64; 2]) -> [f64; 2] {
        at_m.map(|m| (m / self.grid_m).round() * self.grid_m)
    }

    /// The least and greatest x and y of the bearings, m; none without bearings.
    pub(crate) fn bearings_span(&self) -> Option<[[f64; 2]; 2]> {
        let span = |of: fn(&statics::Bearing) -> [f64; 2]| {
            let ends = self.bed.bearings.iter().map(of);
            ends.reduce(|a, b| [a[0].min(b[0]), a[1].max(b[1])])
        };
        Some([span(|b| b.x_m)?, span(|b| b.y_m)?])
    }

    /// Standard deviation of the mass of all that is laid, all pieces of a lot off alike, kg. Source: `own derivation`, the
    /// law of propagation; the check draws stacks of that kind too, and they spread the more.
    fn spread_kg(&self, stack: &[Put]) -> f64 {
        let mut of_lot = vec![0.0; self.stocks.len()];
        for put in stack {
            of_lot[put.lot] += put.item.sd_kg;
        }
        of_lot.iter().map(|sd| sd * sd).sum::<f64>().sqrt()
    }

    /// What is lacking of the load that is due, with what must lie beyond it where pieces were not weighed, kg.
    pub(crate) fn lacking_kg(&self, stack: &[Put]) -> f64 {
        let sure_kg = Self::mass_kg(stack) - self.deviations * self.spread_kg(stack);
        (self.due_kg * (1.0 - 1e-9) - sure_kg).max(0.0)
    }

    /// How many pieces would be put on after the load that is due is reached.
    pub(crate) fn put_on_after(&self, stack: &[Put]) -> usize {
        let mut mass_kg = 0.0;
        let reached = stack.iter().position(|put| {
            mass_kg += put.item.mass_kg;
            mass_kg >= self.due_kg * (1.0 - 1e-9)
        });
        reached.map_or(0, |step| stack.len() - step - 1)
    }

    /// Mass of pieces, kg.
    pub(crate) fn mass_kg(stack: &[Put]) -> f64 {
        stack.iter().map(|put| put.item.mass_kg).sum()
    }
}

/// A millimetre, or a twentieth of an inch.
fn grid_m(units: Units) -> f64 {
    match units {
        Units::Metric => 0.001,
        Units::InchPound => 0.05 * 0.0254,
    }
}

fn stock(lot: &plan::Lot) -> Stock {
    let item = |number: u32| item(lot, number);
    let mut free: Vec<Item> = (1..=lot.count).map(item).collect();
    free.sort_by(|a, b| b.mass_kg.total_cmp(&a.mass_kg).then(a.number.cmp(&b.number)));
    Stock {
        form: lot.form,
        size_m: lot.size.map(Quantity::si),
        friction: lot.friction,
        softness: assess::softness(lot),
        free,
    }
}

fn item(lot: &plan::Lot, number: u32) -> Item {
    Item { number, mass_kg: lot.mass_of(number).si(), sd_kg: crate::doubt::sd_kg(lot, number) }
}

fn put(plan: &Plan, place: &Place) -> Put {
    let lot = plan.ballast.iter().position(|lot| lot.name == place.lot).unwrap_or_default();
    Put {
        lot,
        item: item(plan.lot_of(place), place.item),
        at_m: place.at.map(Quantity::si),
        turn: place.turn,
        locked: place.locked,
        kept: place.locked,
    }
}

/// For each placed piece whether it is locked or carries, itself or through others, one that is.
fn carriers(task: &Task) -> Vec<bool> {
    let mut kept: Vec<bool> = task.kept.iter().map(|put| put.locked).collect();
    let Pile { contacts, .. } = settle(&task.bed, &task.bodies(&task.kept));
    // Contacts stand in the order of the upper piece: from the last one down, one pass is enough.
    for contact in contacts.iter().rev() {
        if let Under::Body(lower) = contact.lower {
            kept[lower] |= kept[contact.upper];
        }
    }
    kept
}
