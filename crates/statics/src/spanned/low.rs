//! The force over each gap: that at which the bending closes just the gap.
//!
//! A price is put on the force of a low contact within the least energy. Beyond all measure, it is loaded
//! only by what cannot stand without it; as the price falls it takes more, and the boards bend less
//! there. The price at which the bending equals the gap is found contact by contact, until none
//! changes.

use super::board::Flex;
use super::sinking::Sinking;
use crate::equilibrium::{ContactForce, OPEN, Shares, Stack, least_energy_at};

/// The first step down from there.
const FIRST_STEP: f64 = 0.05;
/// Beyond such a price no board is looked for: the bending asks for more than the pile weighs.
const FARTHEST: f64 = 1e3;
/// How far bending and gap may differ, parts of the gap.
const MEETS: f64 = 1e-4;
const ROUNDS: usize = 12;
const STEPS: usize = 60;

/// Low contacts and what is around them.
pub(super) struct Low<'a> {
    pub(super) stack: &'a Stack<'a>,
    pub(super) step: usize,
    pub(super) flexes: &'a [Flex],
    /// By their place in the pile's list.
    pub(super) low: &'a [usize],
}

impl Low<'_> {
    pub(super) fn shares(&self) -> Shares {
        let mut prices = vec![0.0; self.stack.pile.contacts.len()];
        self.low.iter().for_each(|&at| prices[at] = OPEN);
        for _ in 0..ROUNDS {
            let found = least_energy_at(self.stack, self.step, &prices);
            let Shares::Balanced { contacts, .. } = &found else { return found };
            let Some(room_m) = self.room_m(contacts) else { break };
            match self.worst(&prices, &room_m) {
                None => return found,
                Some(at) => match self.meet(at, &mut prices) {
                    Some(()) => {}
                    None => break,
                },
            }
        }
        Shares::NotDecided { residual: None }
    }

    /// What is left of each gap, m, negative where the board would be pressed through; in the order
    /// of `low`.
    fn room_m(&self, forces: &[ContactForce]) -> Option<Vec<f64>> {
        let sinking = Sinking::of(self.stack, self.step, self.flexes, forces)?;
        let room = |at: &usize| {
            let contact = &self.stack.pile.contacts[*at];
            Some(contact.gap_m - sinking.closed_by_m(contact)?)
        };
        self.low.iter().map(room).collect()
    }

    fn meets_m(&self, at: usize) -> f64 {
        MEETS * self.stack.pile.contacts[at].gap_m
    }

    /// The contact that is farthest from what its price should have made it.
    fn worst(&self, prices: &[f64], room_m: &[f64]) -> Option<usize> {
        let miss = |(&at, room_m): (&usize, &f64)| {
            let miss_m = if prices[at] >= OPEN { (-room_m).max(0.0) } else { room_m.abs() };
            (miss_m / self.stack.pile.contacts[at].gap_m, at)
        };
        let misses = self.low.iter().zip(room_m).map(miss).filter(|(miss, _)| *miss > 2.0 * MEETS);
        misses.max_by(|one, other| one.0.total_cmp(&other.0)).map(|(_, at)| at)
    }

    /// Puts the price of one contact where its gap is just closed; all else as it is.
    fn meet(&self, at: usize, prices: &mut [f64]) -> Option<()> {
        let index = self.low.iter().position(|low| *low == at)?;
        let mut room_m = |price: f64| {
            prices[at] = price;
            let Shares::Balanced { contacts, .. } = least_energy_at(self.stack, self.step, prices) else { return None };
            self.room_m(&contacts).map(|room| room[index])
        };
        if room_m(OPEN)? >= 0.0 {
            return Some(());
        }
        let mut high = (0.0, room_m(0.0)?);
        let (mut low, mut stride) = (high, FIRST_STEP);
        // The lower price leaves room, the higher one leaves none.
        while low.1 < 0.0 && low.0 > -FARTHEST {
            high = low;
            low = (low.0 - stride, room_m(low.0 - stride)?);
            stride *= 2.0;
        }
        while high.1 >= 0.0 && high.0 < FARTHEST {
            low = high;
            high = (high.0 + stride, room_m(high.0 + stride)?);
            stride *= 2.0;
        }
        close_in(self.meets_m(at), [low, high], room_m)
    }
}

/// By false position, the end that stays halved in weight, between two prices of which one leaves room.
fn close_in(
    meets_m: f64,
    [mut low, mut high]: [(f64, f64); 2],
    mut room_m: impl FnMut(f64) -> Option<f64>,
) -> Option<()> {
    if low.1 < 0.0 || high.1 >= 0.0 {
        return None;
    }
    let mut stayed = 0_i32;
    for _ in 0..STEPS {
        let price = low.0 + (high.0 - low.0) * low.1 / (low.1 - high.1);
        let room = room_m(price)?;
        if room.abs() <= meets_m {
            return Some(());
        }
        if room >= 0.0 {
            low = (price, room);
            high.1 *= if stayed > 0 { 0.5 } else { 1.0 };
            stayed = 1;
        } else {
            high = (price, room);
            low.1 *= if stayed < 0 { 0.5 } else { 1.0 };
            stayed = -1;
        }
    }
    None
}
