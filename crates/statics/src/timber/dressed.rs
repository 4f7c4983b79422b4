//! American dimension lumber, two to four inches thick: reference design value x C_D x C_F x C_fu,
//! an allowable stress (source key `nds-lumber`).
//!
//! Sizes are those of the dressed wood. Between two sizes of the table the smaller factor counts.
//! Across the grain this system publishes no value for bending: there is none here.

use crate::timber::allowables::{Allowables, Factor, On, System};
use crate::timber::lie::{Lie, NoAllowable};
use crate::timber::table::{Dressed, Duration, Figure, Lumber, lasting, table};
use quantity::unit::INCH_M;

/// Sawn boards differ by this much from their dressed size, m (`common practice, no source`):
/// metric yards round 3.5 in to 89 mm.
const SAWN_M: f64 = 1e-3;
const THINNEST_IN: f64 = 1.5;
const THIN_UP_TO_IN: f64 = 2.5;
const THICKEST_IN: f64 = 3.5;

pub(super) fn american(lumber: &'static Lumber, lie: Lie, duration: Duration) -> Result<Allowables, NoAllowable> {
    let thickness_m = lie.depth_m.min(lie.width_m);
    let sizes_m = THINNEST_IN * INCH_M - SAWN_M..=THICKEST_IN * INCH_M + SAWN_M;
    if !sizes_m.contains(&thickness_m) {
        return Err(NoAllowable::Thickness { grade: &lumber.name, thickness_m });
    }
    let rules = &table().dressed;
    let reference = reference(lumber)
        .with(Factor::of("C_D", "duration of load", On::Strength, lasting(&rules.duration, duration)))
        .with(Factor::of("C_F", "size", On::Bending, size(rules, lie)));
    Ok(match flat(rules, lie) {
        Some(figure) => reference.with(Factor::of("C_fu", "flat use", On::Bending, figure)),
        None => reference,
    })
}

fn reference(lumber: &'static Lumber) -> Allowables {
    Allowables {
        grade: &lumber.name,
        system: System::American,
        bending_pa: lumber.bending.value.pa,
        shear_pa: lumber.shear.value.pa,
        modulus_pa: lumber.modulus.value.pa,
        across_bending_pa: None,
        across_modulus_pa: None,
        factors: Vec::new(),
        references: [
            (&lumber.bending.source, lumber.bending.status),
            (&lumber.shear.source, lumber.shear.status),
            (&lumber.modulus.source, lumber.modulus.status),
        ],
    }
}

/// C_F goes by the wide face, whichever way the board lies.
fn size(rules: &'static Dressed, lie: Lie) -> &'static Figure<f64> {
    let (wide_m, thickness_m) = (lie.depth_m.max(lie.width_m), lie.depth_m.min(lie.width_m));
    let fits = |up_to_in: Option<f64>| up_to_in.is_none_or(|up_to_in| wide_m <= up_to_in * INCH_M + SAWN_M);
    let row = rules.size.iter().find(|row| fits(row.up_to_in));
    let row = row.expect("the last row of sizes is open, as the tests see");
    if thickness_m >= THICKEST_IN * INCH_M - SAWN_M { &row.thick } else { &row.thin }
}

/// C_fu, for a board that lies on its wide face and is counted so.
fn flat(rules: &'static Dressed, lie: Lie) -> Option<&'static Figure<f64>> {
    if !lie.flat || lie.depth_m >= lie.width_m {
        return None;
    }
    let row = rules.flat.iter().rev().find(|row| lie.width_m >= row.from_in * INCH_M - SAWN_M)?;
    Some(if lie.depth_m > THIN_UP_TO_IN * INCH_M + SAWN_M { &row.thick } else { &row.thin })
}

impl Allowables {
    /// The same for three or more boards side by side, not more than 24 in apart, that share their
    /// load through something across them: C_r on bending, American lumber only, others unchanged.
    /// Never for a single board.
    pub fn side_by_side(self) -> Allowables {
        match self.system {
            System::American => {
                self.with(Factor::of("C_r", "boards side by side", On::Bending, &table().dressed.repetitive))
            }
            System::European | System::Own => self,
        }
    }
}
