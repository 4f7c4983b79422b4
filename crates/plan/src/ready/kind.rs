//! The ready kinds, each with what a builder types, and the sums behind the proposal.

use super::proposal::{Ground, Proposal, density, mass, small};
use super::table::{Dressed, Filling, Material, Range, Wood, table};
use crate::Form;
use quantity::unit::INCH_M;
use quantity::{Length, Mass, Quantity, Units};

/// A ready kind with what is typed for it.
#[derive(Clone, Debug, PartialEq)]
pub enum Kind {
    /// Sand or shot in cloth.
    Bag(Bag),
    /// A plate or a block of one material.
    Plate(Plate),
    /// A can of water.
    Can(Can),
    /// Lumber.
    Board(Board),
}

/// A bag.
#[derive(Clone, Debug, PartialEq)]
pub struct Bag {
    /// What it is filled with.
    pub filling: &'static Filling,
    /// Mass of the filled bag.
    pub mass: Mass,
    /// Length and width as it lies, filled and settled: less than those of the empty bag.
    pub plan: [Length; 2],
}

/// A plate or a block.
#[derive(Clone, Debug, PartialEq)]
pub struct Plate {
    /// What it is made of.
    pub material: &'static Material,
    /// Length, width, thickness.
    pub size: [Length; 3],
}

/// A can of water.
#[derive(Clone, Debug, PartialEq)]
pub struct Can {
    /// Mass of the water.
    pub water: Mass,
    /// Mass of the empty can.
    pub empty: Mass,
    /// Outer length, width, height.
    pub size: [Length; 3],
}

/// Lumber.
#[derive(Clone, Debug, PartialEq)]
pub struct Board {
    /// Its grade with the mean density.
    pub wood: &'static Wood,
    /// The nominal size, or none where width and thickness are measured.
    pub nominal: Option<&'static Dressed>,
    /// Length, width, thickness; the last two count only without a nominal size.
    pub size: [Length; 3],
}

impl Kind {
    /// What is proposed, told in these units; none while a size or a mass is not above zero.
    pub fn propose(&self, units: Units) -> Option<Proposal> {
        let proposal = match self {
            Kind::Bag(bag) => bag.propose(units),
            Kind::Plate(plate) => plate.propose(units),
            Kind::Can(can) => can.propose(units),
            Kind::Board(board) => board.propose(units),
        };
        let sound = |si: f64| si.is_finite() && si > 0.0;
        (proposal.size.iter().all(|side| sound(side.si())) && sound(proposal.mass.si())).then_some(proposal)
    }

    /// The same where the settled thickness of a bag was measured: it goes before what follows from mass and density.
    pub fn propose_measured(&self, thickness: Length, units: Units) -> Option<Proposal> {
        let proposal = self.propose(units)?;
        match self {
            Kind::Bag(bag) => (thickness.si() > 0.0).then(|| bag.measured(proposal, thickness, units)),
            _ => Some(proposal),
        }
    }
}

/// The thickness of a bag that has settled on a level face: `m / (k rho l w)`, m, where `k` is the
/// share of the box around it that a settled bag fills (round edges; `common practice, no source`)
/// and `rho` its bulk density, kg/m3.
///
/// `own derivation`: the volume of the filling, `m / rho`, is that share of length x width x
/// thickness. It holds for a bag filled so far that it lies flat, one half to two thirds, tied or
/// folded loosely, and trodden or beaten level; not for a tight bag, which stands round.
pub fn settled_thickness(mass: Mass, plan: [Length; 2], density_kg_m3: f64) -> Length {
    let [length, width] = plan.map(Quantity::si);
    Length::m(mass.si() / (table().bag_share.value * density_kg_m3 * length * width))
}

fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

impl Bag {
    fn propose(&self, units: Units) -> Proposal {
        let [length, width] = self.plan;
        let range = &self.filling.density;
        let settled = |kg_m3: f64| settled_thickness(self.mass, self.plan, kg_m3);
        let thickness = settled(range.middle_kg_m3());
        let flat = &table().bag_flat;
        let stands = thickness.si() > flat.value * width.si();
        Proposal {
            form: Form::Bag,
            size: [length, width, thickness],
            mass: self.mass,
            mass_tolerance: self.mass * range.half_width(),
            friction: self.filling.friction.value,
            grade: None,
            thickness_between: Some([settled(range.high_kg_m3), settled(range.low_kg_m3)]),
            grounds: self.grounds(units),
            caution: stands.then(|| {
                format!(
                    "At that thickness and width a bag is round and does not lie flat (more than {} of its width): \
                     fill it less, or measure the settled thickness.",
                    percent(flat.value)
                )
            }),
        }
    }

    /// The proposal with a thickness that was measured: it rests on no density, and is judged by itself.
    fn measured(&self, proposal: Proposal, thickness: Length, units: Units) -> Proposal {
        let [length, width] = self.plan;
        let flat = &table().bag_flat;
        let densest = self.filling.density.high_kg_m3;
        let dense = self.mass.si() / volume_m3([length, width, thickness]);
        let caution = if thickness.si() > flat.value * width.si() {
            let limit = percent(flat.value);
            let share = percent(thickness.si() / width.si());
            Some(format!(
                "That thickness is {share} of the width, more than {limit}: such a bag is round and does not lie flat. Fill it less."
            ))
        } else if dense > densest {
            let [dense, densest] = [dense, densest].map(|kg_m3| density(kg_m3, units));
            let name = &self.filling.name;
            Some(format!(
                "In that size {name} would have {dense}, published are {densest} at most: measure the bag's sides and its mass again."
            ))
        } else {
            None
        };
        // What told of the thickness worked out has nothing to say of a measured one.
        let grounds = proposal.grounds.into_iter().skip(2).collect();
        Proposal { size: [length, width, thickness], thickness_between: None, grounds, caution, ..proposal }
    }

    fn grounds(&self, units: Units) -> Vec<Ground> {
        let Filling { name, density: range, friction, .. } = self.filling;
        let Range { low_kg_m3, high_kg_m3, source, status } = range;
        let between = format!("{} to {}", density(*low_kg_m3, units), density(*high_kg_m3, units));
        let [thin, thick] = [*high_kg_m3, *low_kg_m3].map(|kg_m3| settled_thickness(self.mass, self.plan, kg_m3));
        let share = &table().bag_share;
        vec![
            Ground {
                text: format!(
                    "Thickness {} to {}: {name} in bulk has {between}. Measure a settled bag under load.",
                    small(thin, units),
                    small(thick, units)
                ),
                source: source.clone(),
                status: *status,
            },
            Ground::of(share, format!("A settled bag fills {} of its bounding box.", percent(share.value))),
            Ground {
                text: format!(
                    "Mass ± {}: a bag filled to a mark varies as its density does. Weighing it removes this \
                     tolerance.",
                    mass(self.mass * range.half_width(), units)
                ),
                source: source.clone(),
                status: *status,
            },
            Ground::of(
                friction,
                format!(
                    "Friction {}: that of a woven big bag on a wooden pallet, taken for bag on bag too.",
                    friction.value
                ),
            ),
        ]
    }
}

fn volume_m3(size: [Length; 3]) -> f64 {
    size.into_iter().map(Quantity::si).product()
}

impl Plate {
    fn propose(&self, units: Units) -> Proposal {
        let Material { name, density: figure, friction } = self.material;
        let piece = Mass::kg(figure.value * volume_m3(self.size));
        let tolerance = &table().plate_tolerance;
        let spread = piece * tolerance.value;
        Proposal {
            form: Form::Solid,
            size: self.size,
            mass: piece,
            mass_tolerance: spread,
            friction: friction.value,
            grade: None,
            thickness_between: None,
            grounds: vec![
                Ground::of(
                    figure,
                    format!("Mass {}: {name} has {}.", mass(piece, units), density(figure.value, units)),
                ),
                Ground::of(
                    tolerance,
                    format!(
                        "Mass ± {}: sizes as measured and the alloy leave {}.",
                        mass(spread, units),
                        percent(tolerance.value)
                    ),
                ),
                Ground::of(
                    friction,
                    format!("Friction {}: low value used, as of smooth faces on themselves.", friction.value),
                ),
            ],
            caution: None,
        }
    }
}

impl Can {
    fn propose(&self, units: Units) -> Proposal {
        let Material { density: figure, friction, .. } = &table().water;
        let whole = self.water + self.empty;
        let tolerance = &table().can_tolerance;
        let spread = whole * tolerance.value;
        let holds = Mass::kg(figure.value * volume_m3(self.size));
        Proposal {
            form: Form::Solid,
            size: self.size,
            mass: whole,
            mass_tolerance: spread,
            friction: friction.value,
            grade: None,
            thickness_between: None,
            grounds: vec![
                Ground::of(figure, format!("Water has {}.", density(figure.value, units))),
                Ground::of(tolerance, format!("Mass ± {}: filled to its mark, not weighed.", mass(spread, units))),
                Ground::of(friction, format!("Friction {}: wet plastic or tin, low value used.", friction.value)),
            ],
            caution: (self.water.si() > holds.si()).then(|| {
                format!("A box of that size holds {} of water at the most: check size and mass.", mass(holds, units))
            }),
        }
    }
}

impl Board {
    /// Length, width, thickness: dressed, or as measured.
    pub fn dressed_size(&self) -> [Length; 3] {
        match self.nominal {
            Some(row) => [self.size[0], Length::m(row.width_in * INCH_M), Length::m(row.thickness_in * INCH_M)],
            None => self.size,
        }
    }

    fn propose(&self, units: Units) -> Proposal {
        let size = self.dressed_size();
        let figure = &self.wood.density;
        let piece = Mass::kg(figure.value * volume_m3(size));
        let (tolerance, planed) = (&table().wood_tolerance, &table().planed);
        let spread = piece * tolerance.value;
        let mut grounds = vec![Ground::of(
            figure,
            format!(
                "Mass {}: {} has {} in the mean ({}).",
                mass(piece, units),
                self.wood.grade,
                density(figure.value, units),
                self.wood.edition
            ),
        )];
        grounds.extend(self.nominal.map(|row| Ground {
            text: format!("{} is {} in × {} in when dressed.", row.nominal, row.thickness_in, row.width_in),
            source: row.source.clone(),
            status: row.status,
        }));
        grounds.push(Ground::of(
            tolerance,
            format!(
                "Mass ± {}: the density of one grade scatters by a tenth, twice that is used. A wet board is \
                     heavier still.",
                mass(spread, units)
            ),
        ));
        grounds.push(Ground::of(planed, format!("Friction {}: planed wood on plywood.", planed.value)));
        Proposal {
            form: Form::Board,
            size,
            mass: piece,
            mass_tolerance: spread,
            friction: planed.value,
            grade: Some(self.wood.grade.clone()),
            thickness_between: None,
            grounds,
            caution: None,
        }
    }
}
