//! Boards within a pile: what presses on them, and which low places their bending reaches.
//!
//! The rest rule lets a hard piece lie a little above a rail and counts the rail as a contact. Whether it
//! carries is another matter: it does once boards have bent by as much as the gap, and then by what
//! is left of the bending. Contact forces are chosen by least energy as ever; the force over a gap is
//! that at which the board just touches. Bags squeeze, so that a gap to a bag counts as closed.
//!
//! Source: `own derivation`; over two supports and a low third one it is the textbook's superposition
//! (source key `beam-theory`). Limits: boards bend along their length alone; bags and plates between do
//! not give way; a piece that cannot stand otherwise leans on the low place and takes there what it
//! needs.

mod board;
mod low;
mod sinking;

pub use board::{Flex, board};

use crate::equilibrium::{Shares, Stack, least_energy};
use crate::rest::{Contact, ONE_HEIGHT_M, Under};
use low::Low;

/// What even a poor board has along its grain, Pa: whatever such a board does not reach, none does
/// (`common practice, no source`).
const LEAST_MODULUS_PA: f64 = 4e9;
/// Less than this part of all contact forces is none.
const UNLOADED: f64 = 1e-6;

/// The contact forces among the first `step` pieces, by least energy, with low places loaded only as
/// far as bending reaches them. Where a board of which the modulus is not known might reach one, they
/// are not decided.
pub fn shares(stack: &Stack, step: usize, flexes: &[Flex]) -> Shares {
    let low = low_contacts(stack, step);
    if low.is_empty() {
        return least_energy(stack, step);
    }
    let unknown = |flex: &&Flex| flex.modulus_pa.is_none() && touches(stack, flex.body, &low);
    let hangs_on_unknown = flexes.iter().any(|flex| unknown(&flex));
    let soft = |flex: &Flex| Flex { modulus_pa: flex.modulus_pa.or(Some(LEAST_MODULUS_PA)), ..*flex };
    let flexes: Vec<Flex> = flexes.iter().map(soft).collect();
    let found = Low { stack, step, flexes: &flexes, low: &low }.shares();
    if hangs_on_unknown && !is_unreached(&found, &low) { Shares::NotDecided { residual: None } } else { found }
}

/// Whether the forces leave every low place alone.
fn is_unreached(found: &Shares, low: &[usize]) -> bool {
    let Shares::Balanced { contacts, .. } = found else { return true };
    let all_n: f64 = contacts.iter().map(|contact| contact.normal_n).sum();
    low.iter().all(|at| contacts[*at].normal_n <= UNLOADED * all_n)
}

/// Contacts with a gap between hard pieces, by their place in the pile's list.
fn low_contacts(stack: &Stack, step: usize) -> Vec<usize> {
    let soft = |under: Under| matches!(under, Under::Body(body) if stack.bodies[body].soft);
    let is_low =
        |contact: &Contact| contact.gap_m > ONE_HEIGHT_M && !stack.bodies[contact.upper].soft && !soft(contact.lower);
    let here = stack.pile.contacts.iter().take_while(|contact| contact.upper < step).enumerate();
    here.filter(|(_, contact)| is_low(contact)).map(|(at, _)| at).collect()
}

fn touches(stack: &Stack, body: usize, low: &[usize]) -> bool {
    low.iter().map(|at| &stack.pile.contacts[*at]).any(|c| c.upper == body || c.lower == Under::Body(body))
}
