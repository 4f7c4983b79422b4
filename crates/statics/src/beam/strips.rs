//! A board across its width.
//!
//! Model: the board is cut across into strips at every edge of a contact. Each strip is a beam as
//! long as the board is wide, under its share of the contacts. What these leave over, a force and
//! a twist, goes into the neighbouring strips as a shear that changes evenly over the width. That
//! is exact for the force where a board bends alike over its width, and an assumption for the
//! twist. Source: `own derivation`.
//!
//! Which side it errs on. A real plate hands part of a strip's moment on to its neighbours: left
//! out, so the moment found is too high. Twisting moments bend the board at an angle: left out,
//! which is unsafe for a board that is loaded at opposite corners. And wood is weak across its
//! grain: no value along the grain may be compared with a stress across it.

use crate::beam::{Bending, Board, CrossSection, End, FaceContact, Load, Misstated, Pressed, bend_given};

/// Strips narrower than this share of the length are the rounding of edges that were meant to lie
/// in line.
const NARROWEST: f64 = 1e-9;

/// The end of the question how a board bends across its width.
#[derive(Debug, Clone, PartialEq)]
pub enum Across {
    /// Nothing presses on it.
    Unloaded,
    /// Answered: the strip with the greatest bending stress, and how it bends.
    Worst {
        /// Where along the board the strip lies, m from its left end.
        strip_m: [f64; 2],
        /// How it bends; places are m across the board.
        bending: Box<Bending>,
        /// The greatest shear stress of any strip, Pa.
        shear_pa: f64,
    },
    /// Not answered, and so never to be read as safe.
    NotDecided {
        /// The worst miss of balance as a fraction of all load, if known.
        residual: Option<f64>,
    },
}

pub(super) fn across(board: &Board, modulus_pa: f64) -> Result<Across, Misstated> {
    let (above, below) = (faces(board, &board.above), faces(board, &board.below));
    let mut found = Across::Unloaded;
    for strip_m in strips(board, above.iter().chain(&below)) {
        let section = CrossSection { width_m: strip_m[1] - strip_m[0], depth_m: board.size_m[2], modulus_pa };
        found = match bend_given(&strip(board, strip_m, section, [&above, &below]))? {
            End::Balanced(bending) => found.or(strip_m, bending),
            End::NotDecided { residual } => return Ok(Across::NotDecided { residual }),
            End::Falls { .. } | End::Loose => return Ok(Across::NotDecided { residual: None }),
        };
    }
    Ok(found)
}

impl Across {
    /// The worse of what was found so far and another strip.
    fn or(self, strip_m: [f64; 2], bending: Bending) -> Across {
        match self {
            Across::Worst { strip_m: worst_m, bending: worst, shear_pa } => {
                let shear_pa = shear_pa.max(bending.shear_pa);
                // Of equal ones, to a billionth, the first.
                if bending.bending_pa > worst.bending_pa * (1.0 + 1e-9) {
                    Across::Worst { strip_m, bending: Box::new(bending), shear_pa }
                } else {
                    Across::Worst { strip_m: worst_m, bending: worst, shear_pa }
                }
            }
            _ if bending.moment.value.abs() > 0.0 => {
                Across::Worst { strip_m, shear_pa: bending.shear_pa, bending: Box::new(bending) }
            }
            other => other,
        }
    }
}

/// A contact as two lines: how its force goes along the board, and how across.
struct Face {
    along: Load,
    across: Load,
}

fn faces(board: &Board, contacts: &[FaceContact]) -> Vec<Face> {
    let face = |contact: &FaceContact| Face { along: with_base(contact, board.size_m[2]), across: contact.across() };
    contacts.iter().filter(|contact| contact.along().force_n() > 0.0).map(face).collect()
}

/// The pressure along the board, on a base at least as long as the board is thick (or as the
/// contact is long): no load reaches the middle of a board on less (`common practice, no source`).
fn with_base(contact: &FaceContact, least_m: f64) -> Load {
    let (along, [from_m, to_m]) = (contact.along(), contact.along_m);
    let [left_m, right_m] = along.ends_m();
    let least_m = least_m.min(to_m - from_m);
    if right_m - left_m >= least_m {
        return along;
    }
    let left_m = if left_m > from_m { to_m - least_m } else { from_m };
    Load::even(left_m, left_m + least_m, along.force_n() / least_m)
}

/// The stretches between all edges along the board.
fn strips<'a>(board: &Board, faces: impl Iterator<Item = &'a Face>) -> Vec<[f64; 2]> {
    let mut edges: Vec<f64> = faces.flat_map(|face| face.along.ends_m()).collect();
    edges.sort_by(f64::total_cmp);
    let narrowest_m = NARROWEST * board.size_m[0];
    edges.windows(2).filter(|pair| pair[1] - pair[0] > narrowest_m).map(|pair| [pair[0], pair[1]]).collect()
}

/// One strip with its share of both faces, its weight, and what its neighbours give.
fn strip(board: &Board, strip_m: [f64; 2], section: CrossSection, [above, below]: [&[Face]; 2]) -> Pressed {
    let [length_m, width_m, _] = board.size_m;
    let share = |face: &Face| {
        let force_n = face.along.force_between_n(strip_m[0], strip_m[1]);
        face.across.scaled(force_n / face.across.force_n())
    };
    let mut above: Vec<Load> = above.iter().map(share).collect();
    above.push(Load::even(0.0, width_m, board.weight_n * section.width_m / (length_m * width_m)));
    let below: Vec<Load> = below.iter().map(share).collect();
    above.push(from_neighbours(width_m, &above, &below));
    let all_n: f64 = above.iter().chain(&below).map(Load::strength_n).sum();
    Pressed { length_m: width_m, section, above, below, closes_within_n: 1e-9 * all_n }
}

/// The evenly changing push, down positive, that closes a strip: with F and T what is left over
/// downwards, T about the middle, -F / b in the middle and 6 T / b^2 more or less at the edges.
fn from_neighbours(width_m: f64, above: &[Load], below: &[Load]) -> Load {
    let middle_m = 0.5 * width_m;
    let sum = |of: &dyn Fn(&Load) -> f64| above.iter().map(of).sum::<f64>() - below.iter().map(of).sum::<f64>();
    let even = -sum(&Load::force_n) / width_m;
    let twist = -6.0 * sum(&|load| load.moment_about_n_m(middle_m)) / (width_m * width_m);
    Load::Line { from_m: 0.0, to_m: width_m, at_from_n_per_m: even - twist, at_to_n_per_m: even + twist }
}
