//! What makes lots and placements unusable.

use super::assert_faults;
use crate::WRITTEN;
use plan::faults;
use plan::file::read;
use quantity::{Length, Mass};

#[test]
fn lots_that_make_no_sense_are_faults() {
    assert_faults(
        WRITTEN,
        &[
            (
                |p| p.ballast[1].name = "gravel bag".into(),
                "ballast[2].name",
                "lot 2 is called “gravel bag” like lot 1: give one of them another name",
            ),
            (
                |p| {
                    let pa = quantity::Pressure::pa;
                    p.ballast[1].strength = Some(plan::Strength { bending: pa(8e6), shear: pa(0.0), modulus: pa(9e9) });
                },
                "ballast[2].strength.shear",
                "the allowable shear stress of lot “plank” is 0 MPa: it must be more than 0",
            ),
            (
                |p| p.ballast[1].size[2] = Length::m(-0.05),
                "ballast[2].size[3]",
                "the thickness of lot “plank” is -0.05 m: it must be more than 0",
            ),
            (
                |p| p.ballast[1].mass = Mass::kg(-4.1),
                "ballast[2].mass",
                "the mass of lot “plank” is -4.1 kg: it must be 0 or more",
            ),
            (
                |p| p.ballast[1].mass_tolerance = Mass::kg(-0.1),
                "ballast[2].mass_tolerance",
                "the mass tolerance of lot “plank” is -0.1 kg: it must be 0 or more",
            ),
            (
                |p| p.ballast[2].count = 0,
                "ballast[3].count",
                "lot “steel plate” is empty: its count must be 1 or more, or delete it",
            ),
            (
                |p| p.ballast[0].friction = -0.5,
                "ballast[1].friction",
                "the friction of lot “gravel bag” is -0.5: it must be 0 or more",
            ),
            (
                |p| p.ballast[0].weighed.extend([(31, Mass::kg(25.0))]),
                "ballast[1].weighed{31}",
                "lot “gravel bag” has no item 31 to be weighed: its items are numbered from 1 to 30",
            ),
            (
                |p| p.ballast[2].weighed.extend([(0, Mass::kg(25.0))]),
                "ballast[3].weighed{0}",
                "lot “steel plate” has no item 0 to be weighed: it has item 1 alone",
            ),
            (
                |p| p.ballast[0].weighed.extend([(3, Mass::kg(-25.0))]),
                "ballast[1].weighed{3}",
                "the weighed mass of item 3 of lot “gravel bag” is -25 kg: it must be 0 or more",
            ),
        ],
    );
}

#[test]
fn placements_that_make_no_sense_are_faults() {
    assert_faults(
        WRITTEN,
        &[
            (
                |p| p.stack[2].lot = "shot bag".into(),
                "stack[3].lot",
                "step 3 places a piece of lot “shot bag”, which does not exist: “gravel bag”, “plank” or “steel plate” fits",
            ),
            (
                |p| p.ballast.clear(),
                "stack[1].lot",
                "step 1 places a piece of lot “plank”, which does not exist: there is none, so add one to ballast",
            ),
            (
                |p| p.stack[1].item = 9,
                "stack[2].item",
                "step 2 places item 9 of lot “plank”, which has no such item: its items are numbered from 1 to 8",
            ),
            (
                |p| p.stack[1].item = 1,
                "stack[2].item",
                "plank 1 is placed twice, at steps 1 and 2: take another item, or remove one placement",
            ),
            (
                |p| p.stack[0].at[1] = Length::m(f64::INFINITY),
                "stack[1].at[2]",
                "number 2 in the place of step 1 is not a finite number: type a number",
            ),
        ],
    );
}

#[test]
fn a_lot_has_no_more_pieces_than_anybody_carries() {
    let mut plan = read(WRITTEN).unwrap_or_else(|error| panic!("{error}"));
    plan.ballast[0].count = 10_000;
    assert!(faults(&plan).is_empty());
    plan.ballast[0].count = u32::MAX;
    let told = faults(&plan).remove(0).sentence;
    assert!(told.ends_with("has 4294967295 pieces: its count must be 10000 or less"), "{told}");
}
