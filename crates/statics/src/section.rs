//! What one cut carries, kept as running sums so that a further body costs next to nothing:
//! all bodies at or above a layer, against the contacts that cross into it from below.

use crate::body::Body;
use crate::hull::{Hull, Weakest};
use crate::margin::{Decision, Reserve, Way};
use crate::mass::{Masses, Sum};
use crate::rest::{Contact, ONE_HEIGHT_M, Pile};
use nalgebra::{Isometry3, Point3, Vector3};
use std::f64::consts::FRAC_PI_2;

/// Rounding in a level bed's pose must not make up a direction.
const LEVEL_RAD: f64 = 1e-12;

/// A pile on its bed on the floor, with what every cut needs to know of the bed's tilt.
pub(crate) struct Placed<'a> {
    pub(crate) floor_from_bed: &'a Isometry3<f64>,
    pub(crate) bodies: &'a [Body],
    pub(crate) pile: &'a Pile,
    tilt_rad: f64,
    downhill_rad: f64,
}

impl<'a> Placed<'a> {
    pub(crate) fn new(floor_from_bed: &'a Isometry3<f64>, bodies: &'a [Body], pile: &'a Pile) -> Self {
        let normal = floor_from_bed * Vector3::z();
        let level = normal.x.hypot(normal.y);
        let downhill_rad = if level > LEVEL_RAD { normal.y.atan2(normal.x) } else { 0.0 };
        Placed { floor_from_bed, bodies, pile, tilt_rad: level.atan2(normal.z), downhill_rad }
    }

    /// Least push at which a body slides off a plane that is tilted against the floor, all contacts
    /// at one coefficient of friction: tan(atan(friction) - tilt), downhill.
    ///
    /// Source: `own derivation`. The contact force stays within atan(friction) of the normal; it
    /// balances W straight down with lambda W downhill, a force at atan(lambda) + tilt to the normal.
    fn slide(&self, friction: f64) -> Reserve {
        let multiplier = match self.tilt_rad {
            tilt if tilt <= 0.0 => friction,
            tilt if tilt < FRAC_PI_2 => (friction.atan() - tilt).tan(),
            _ => f64::NEG_INFINITY,
        };
        let any_way = self.tilt_rad <= LEVEL_RAD;
        Reserve { multiplier, direction_rad: self.downhill_rad, by: Way::Slide, any_way }
    }
}

/// The sums of one cut.
#[derive(Clone, Default)]
pub(crate) struct Section {
    sum: Sum,
    hull: Hull,
    /// Corners that the hull has not yet taken in: one wrap for many contacts.
    waiting: Vec<Point3<f64>>,
    crossed: bool,
    planes_m: Option<[f64; 2]>,
    friction: f64,
    slide: Option<Reserve>,
    loose: bool,
}

/// The closed forms of one cut, floor frame.
#[derive(Clone)]
pub(crate) struct Closed {
    pub(crate) above: Masses,
    pub(crate) edge_m: f64,
    pub(crate) tip: Reserve,
    pub(crate) slide: Reserve,
}

impl Section {
    /// The centre in the floor frame: to turn the sum of every cut anew with every body costs more than all else.
    pub(crate) fn carry(&mut self, mass_kg: f64, centre_in_floor: &Point3<f64>) {
        self.sum.add(mass_kg, centre_in_floor);
    }

    /// A body with nothing under it is among those above.
    pub(crate) fn loosen(&mut self) {
        self.loose = true;
    }

    pub(crate) fn cross(&mut self, placed: &Placed, contact: &Contact) {
        let Contact { patch, plane_m, friction, .. } = contact;
        self.crossed = true;
        self.waiting.extend(patch.corners().map(|[x, y]| placed.floor_from_bed * Point3::new(x, y, *plane_m)));
        let [low, high] = self.planes_m.unwrap_or([*plane_m; 2]);
        self.planes_m = Some([low.min(*plane_m), high.max(*plane_m)]);
        if self.slide.is_none() || *friction > self.friction {
            self.friction = *friction;
            self.slide = Some(placed.slide(*friction));
        }
    }

    /// To be called when all contacts of the moment are in, before any margin is asked for.
    pub(crate) fn wrap(&mut self) {
        // A few at a time: what the first ones enclose is passed over quickly.
        for few in self.waiting.chunks(16) {
            self.hull.add(few);
        }
        self.waiting.clear();
    }

    /// What lies above, floor frame.
    pub(crate) fn masses(&self) -> Option<Masses> {
        self.sum.masses()
    }

    pub(crate) fn is_one_plane(&self) -> bool {
        self.planes_m.is_some_and(|[low, high]| high - low <= ONE_HEIGHT_M)
    }

    /// The closed forms; none for a cut that carries no weight and so has no centroid.
    pub(crate) fn closed(&self, placed: &Placed) -> Option<Closed> {
        let above = self.sum.masses()?;
        let Weakest { edge_m, multiplier, direction_rad } = self.hull.weakest(&above.centroid, &above.centroid);
        let tip = Reserve { multiplier, direction_rad, by: Way::Tip, any_way: false };
        let slide = self.slide.unwrap_or_else(|| placed.slide(0.0));
        Some(Closed { above, edge_m, tip, slide })
    }

    /// The least of the cut. At two heights the tip form is no bound, but the greatest friction is
    /// one at any heights: what slides by it does slide.
    pub(crate) fn least(&self, closed: &Closed) -> Decision {
        let Closed { edge_m, tip, slide, .. } = closed;
        if self.loose || !self.crossed {
            return Decision::Loose;
        }
        if !edge_m.is_finite() || tip.multiplier.is_nan() || slide.multiplier.is_nan() {
            return Decision::NotDecided { residual: None };
        }
        if self.is_one_plane() {
            return Decision::Decided(if slide.multiplier < tip.multiplier { *slide } else { *tip });
        }
        if slide.multiplier < 0.0 { Decision::Decided(*slide) } else { Decision::NotDecided { residual: None } }
    }

    /// Outward directions in plan of the edges of the contacts' hull, rad, floor frame.
    pub(crate) fn directions(&self) -> impl Iterator<Item = f64> + '_ {
        self.hull.directions()
    }
}
