//! Mass and centroid of a set of bodies.

use nalgebra::{Point3, Vector3};

/// The mass of a set and its centroid, in the frame of the points that went in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Masses {
    /// Mass of the set, kg.
    pub mass_kg: f64,
    /// Centroid of the set, m, frame of the input.
    pub centroid: Point3<f64>,
}

impl Masses {
    /// Mass and centroid of point masses (kg, m, any one frame); none if they weigh nothing,
    /// because a set without mass has no centroid.
    ///
    /// c = sum m r / sum m. Source: `own derivation`, the definition of the centre of mass.
    pub fn of(points: impl IntoIterator<Item = (f64, Point3<f64>)>) -> Option<Masses> {
        let mut sum = Sum::default();
        points.into_iter().for_each(|(mass_kg, at)| sum.add(mass_kg, &at));
        sum.masses()
    }
}

/// Running sums, so that a further body costs four additions.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Sum {
    mass_kg: f64,
    moment_kg_m: Vector3<f64>,
}

impl Sum {
    pub(crate) fn add(&mut self, mass_kg: f64, at: &Point3<f64>) {
        self.mass_kg += mass_kg;
        self.moment_kg_m += mass_kg * at.coords;
    }

    pub(crate) fn masses(&self) -> Option<Masses> {
        let Sum { mass_kg, moment_kg_m } = *self;
        (mass_kg > 0.0).then(|| Masses { mass_kg, centroid: Point3::from(moment_kg_m / mass_kg) })
    }
}
