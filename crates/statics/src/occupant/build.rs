//! A body's links, offsets and shares: from mass and stature, or measured one by one.

use super::table::{Dimensions, Segments, Sex, Share, Table, TrunkTo, dimensions, segments};

/// Who sits there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Person {
    /// Mass of the body with what it wears, kg, more than 0.
    pub mass_kg: f64,
    /// Stature, m, more than 0.
    pub stature_m: f64,
    /// Whose dimensions and shares.
    pub sex: Sex,
    /// Which published table.
    pub table: Table,
    /// How much lower the person sits than drawn up to full sitting height, m. 20 mm is usual: a
    /// figure of habit, `common practice, no source`.
    pub slump_m: f64,
}

/// A place on the trunk.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Station {
    /// Along the back: for the hip above the loaded pan, for all others above the hip, m.
    pub up_m: f64,
    /// Ahead of the back plane, m.
    pub ahead_m: f64,
}

/// A limb's link with its mass, both sides together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Link {
    /// From joint to joint, m.
    pub length_m: f64,
    /// Share of the body's mass, any scale: shares are taken by their sum.
    pub share: f64,
    /// Its centre of mass from the nearer end, as a part of the length.
    pub along: f64,
    /// The same off the axis, towards the back of a standing person, as a part of the length.
    pub behind: f64,
}

/// A foot: the link goes from heel to toe at a right angle to the shank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Foot {
    /// Heel to toe.
    pub link: Link,
    /// The ankle ahead of the heel, m.
    pub ankle_m: f64,
    /// The link under the ankle, m.
    pub under_m: f64,
}

/// A body: links, offsets and shares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Build {
    /// Hip joint; up is above the loaded pan.
    pub hip: Station,
    /// Centre of mass of the trunk.
    pub trunk: Station,
    /// Share of the trunk.
    pub trunk_share: f64,
    /// Shoulder joint.
    pub shoulder: Station,
    /// Foot of the head's link.
    pub neck: Station,
    /// The body's front at the lower end of the breastbone.
    pub lower_chest: Station,
    /// Knee joint above the pan where the thigh lies on it, m.
    pub knee_above_pan_m: f64,
    /// Neck to vertex.
    pub head: Link,
    /// Shoulder to elbow.
    pub upper_arm: Link,
    /// Elbow to wrist.
    pub forearm: Link,
    /// Wrist to finger tip, in line with the forearm.
    pub hand: Link,
    /// Hip to knee.
    pub thigh: Link,
    /// Knee to ankle.
    pub shank: Link,
    /// Foot.
    pub foot: Foot,
}

/// Parts of the stature that the survey does not tell; each is an assumption of the model, and the
/// tests say what it moves. Source: `occupant-model`.
mod assumed {
    /// Hip joint above the loaded pan: 88 mm for a stature of 1.755 m, where a seating machine has
    /// 97 and a test dummy 87 (both `from memory`).
    pub(super) const HIP_ABOVE_PAN: f64 = 0.050;
    /// Knee joint above the pan under the thigh.
    pub(super) const KNEE_ABOVE_PAN: f64 = 0.035;
    /// Shoulder joint ahead of the back plane.
    pub(super) const SHOULDER_AHEAD: f64 = 0.053;
    /// The same by each kilogram above the usual, m.
    pub(super) const SHOULDER_BY_KG_M: f64 = 0.000_35;
    /// Head's link ahead of the back plane.
    pub(super) const NECK_AHEAD: f64 = 0.065;
    /// Ankle ahead of the heel, as a part of the foot.
    pub(super) const ANKLE_ON_FOOT: f64 = 0.2;
    /// Foot's centre of mass under the ankle.
    pub(super) const FOOT_UNDER_ANKLE: f64 = 0.025;
}

impl Person {
    /// The body, from the tables.
    ///
    /// Lengths are parts of the stature S; depths grow with the mass above 25 kg/m2 x S^2. Source:
    /// `ansur-ii-2012` for lengths and depths, `occupant-model` for the rest.
    pub fn build(&self) -> Build {
        let (stature_m, dimensions, segments) = (self.stature_m, dimensions(self.sex), segments(self.table, self.sex));
        let above_kg = self.mass_kg - 25.0 * stature_m * stature_m;
        let up_m = Heights::of(stature_m, self.slump_m, dimensions);
        let depth_m = |of_stature: f64, by_kg_m: f64| of_stature * stature_m + by_kg_m * above_kg;
        let trunk_up_m = match segments.trunk_to {
            TrunkTo::Cervicale => segments.trunk.along * up_m.neck,
            TrunkTo::Shoulder => segments.trunk.along * up_m.shoulder,
        };
        let trunk_ahead_m = dimensions.trunk_ahead.of(stature_m, above_kg);
        let limbs = Limbs { stature_m, dimensions, segments };
        Build {
            hip: Station {
                up_m: assumed::HIP_ABOVE_PAN * stature_m,
                ahead_m: dimensions.hip_ahead.of(stature_m, above_kg),
            },
            trunk: Station { up_m: trunk_up_m, ahead_m: trunk_ahead_m },
            trunk_share: segments.trunk.mass,
            shoulder: Station {
                up_m: up_m.shoulder,
                ahead_m: depth_m(assumed::SHOULDER_AHEAD, assumed::SHOULDER_BY_KG_M),
            },
            neck: Station { up_m: up_m.neck, ahead_m: assumed::NECK_AHEAD * stature_m },
            lower_chest: Station {
                up_m: up_m.lower_chest,
                ahead_m: dimensions.lower_chest_ahead.of(stature_m, above_kg),
            },
            knee_above_pan_m: assumed::KNEE_ABOVE_PAN * stature_m,
            head: limbs.link(dimensions.cervicale_to_vertex, segments.head, 0.0, 1.0),
            upper_arm: limbs.link(dimensions.upper_arm, segments.upper_arm, 0.0, 2.0),
            forearm: limbs.link(dimensions.forearm, segments.forearm, 0.0, 2.0),
            hand: limbs.link(dimensions.hand, segments.hand, 0.0, 2.0),
            thigh: limbs.link(dimensions.thigh, segments.thigh, dimensions.thigh_behind, 2.0),
            shank: limbs.link(dimensions.shank, segments.shank, dimensions.shank_behind, 2.0),
            foot: limbs.foot(),
        }
    }
}

/// Heights along the back above the hip joint, m.
struct Heights {
    neck: f64,
    shoulder: f64,
    lower_chest: f64,
}

impl Heights {
    fn of(stature_m: f64, slump_m: f64, dimensions: &Dimensions) -> Self {
        let vertex = (dimensions.sitting_height - assumed::HIP_ABOVE_PAN) * stature_m - slump_m;
        let neck = vertex - dimensions.cervicale_to_vertex * stature_m;
        Self {
            neck,
            shoulder: neck - dimensions.shoulder_under_cervicale * stature_m,
            lower_chest: vertex - dimensions.lower_chest_under_vertex * stature_m,
        }
    }
}

struct Limbs<'a> {
    stature_m: f64,
    dimensions: &'a Dimensions,
    segments: &'a Segments,
}

impl Limbs<'_> {
    fn link(&self, of_stature: f64, share: Share, behind: f64, sides: f64) -> Link {
        let length_m = of_stature * self.stature_m;
        Link { length_m, share: sides * share.mass, along: share.along, behind }
    }

    fn foot(&self) -> Foot {
        let link = self.link(self.dimensions.foot, self.segments.foot, 0.0, 2.0);
        Foot {
            link,
            ankle_m: assumed::ANKLE_ON_FOOT * link.length_m,
            under_m: assumed::FOOT_UNDER_ANKLE * self.stature_m,
        }
    }
}
