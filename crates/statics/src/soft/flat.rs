//! A pile whose contacts are cut back to the flats: rims carry nothing, in the rigid margins neither.

use super::given::SoftStack;
use super::model::bed;
use crate::rest::{Contact, Pile};

/// The pile with every contact cut back by the rims of the pieces on its two sides, for the rigid solver and the
/// closed margins. Heights and layers stay; a piece that only rims hold up counts as hanging. Without rims it is the
/// same pile. Source: `own derivation`, of the rim's meaning (see [`super::Softness::rim_m`]).
pub fn flats(given: &SoftStack) -> Pile {
    let pile = given.stack.pile;
    let cut = |contact: &Contact| Some(Contact { patch: bed(given, contact)?.0, ..contact.clone() });
    let contacts: Vec<Contact> = pile.contacts.iter().filter_map(cut).collect();
    let mut held = vec![false; given.count()];
    contacts.iter().for_each(|contact| held[contact.upper] = true);
    let hanging = (0..given.count()).filter(|&body| !held[body]).collect();
    Pile { contacts, hanging, ..pile.clone() }
}
