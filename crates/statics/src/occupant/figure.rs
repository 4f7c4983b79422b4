//! The jointed figure: joints, segments and their centres of mass.

use super::{Build, Link, Posture, Station};
use std::f64::consts::{FRAC_PI_2, PI};

/// A segment of the body, both sides together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[expect(missing_docs, reason = "each is the part of the body of that name")]
pub enum Segment {
    Head,
    Trunk,
    UpperArms,
    Forearms,
    Hands,
    Thighs,
    Shanks,
    Feet,
}

/// A segment's share and its centre of mass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// Which.
    pub segment: Segment,
    /// Its share of the body; the shares of a figure sum to one.
    pub share: f64,
    /// Its centre of mass, seat's frame, m.
    pub cg_m: [f64; 2],
}

/// The joints and ends of the links, seat's frame, m.
#[derive(Debug, Clone, Copy, PartialEq)]
#[expect(missing_docs, reason = "each is the joint or end of that name")]
pub struct Joints {
    pub hip: [f64; 2],
    pub knee: [f64; 2],
    pub ankle: [f64; 2],
    pub heel: [f64; 2],
    pub toe: [f64; 2],
    pub neck: [f64; 2],
    pub vertex: [f64; 2],
    pub shoulder: [f64; 2],
    pub elbow: [f64; 2],
    pub wrist: [f64; 2],
    pub finger_tip: [f64; 2],
}

/// A body in a posture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    /// Joints and ends.
    pub joints: Joints,
    /// Its segments.
    pub parts: [Part; 8],
}

impl Figure {
    /// The centre of mass of the whole, seat's frame, m.
    pub fn cg_m(&self) -> [f64; 2] {
        self.of(|_| true).1
    }

    /// Share and centre of mass of what is left on the seat where floor and pedals carry shanks and
    /// feet.
    pub fn without_lower_legs(&self) -> (f64, [f64; 2]) {
        self.of(|segment| !matches!(segment, Segment::Shanks | Segment::Feet))
    }

    /// c = sum m r / sum m. Source: `own derivation`, the definition of the centre of mass.
    fn of(&self, counts: impl Fn(Segment) -> bool) -> (f64, [f64; 2]) {
        let parts = self.parts.iter().filter(|part| counts(part.segment));
        let [share, ahead, up] = parts.fold([0.0; 3], |[share, ahead, up], part| {
            [share + part.share, ahead + part.share * part.cg_m[0], up + part.share * part.cg_m[1]]
        });
        (share, [ahead / share, up / share])
    }
}

/// Puts a body into a posture.
///
/// The hip joint keeps its distances from both planes: with h above the pan and d ahead of the back,
/// b the recline and a the pan, ahead = (d cos a - h sin b) / cos(a - b) and up = (d sin a + h cos b)
/// / cos(a - b). The trunk's stations follow along the back, the limbs as chains of links. Source:
/// `own derivation` from the two planes' equations; a foot stands square to its shank.
///
/// Valid while pan and recline differ by less than a quarter turn.
pub fn seated(build: &Build, posture: &Posture) -> Figure {
    let trunk = Trunk::of(build, posture);
    let legs = Legs::of(build, posture, trunk.hip);
    let arms = Arms::of(build, posture, trunk.at(build.shoulder));
    let neck = trunk.at(build.neck);
    let up_the_head = FRAC_PI_2 + posture.head_lean_rad();
    let joints = Joints {
        hip: trunk.hip,
        knee: legs.knee,
        ankle: legs.ankle,
        heel: legs.heel,
        toe: beyond(legs.heel, legs.foot_rad, build.foot.link.length_m),
        neck,
        vertex: beyond(neck, up_the_head, build.head.length_m),
        shoulder: arms.shoulder,
        elbow: arms.elbow,
        wrist: arms.wrist,
        finger_tip: beyond(arms.wrist, arms.forearm_rad, build.hand.length_m),
    };
    let parts = [
        (Segment::Head, build.head.share, cg(&build.head, neck, up_the_head)),
        (Segment::Trunk, build.trunk_share, trunk.at(build.trunk)),
        (Segment::UpperArms, build.upper_arm.share, cg(&build.upper_arm, arms.shoulder, arms.upper_rad)),
        (Segment::Forearms, build.forearm.share, cg(&build.forearm, arms.elbow, arms.forearm_rad)),
        (Segment::Hands, build.hand.share, cg(&build.hand, arms.wrist, arms.forearm_rad)),
        (Segment::Thighs, build.thigh.share, cg(&build.thigh, trunk.hip, legs.thigh_rad)),
        (Segment::Shanks, build.shank.share, cg(&build.shank, legs.knee, legs.shank_rad)),
        (Segment::Feet, build.foot.link.share, cg(&build.foot.link, legs.heel, legs.foot_rad)),
    ];
    let whole: f64 = parts.iter().map(|(_, share, _)| share).sum();
    Figure { joints, parts: parts.map(|(segment, share, cg_m)| Part { segment, share: share / whole, cg_m }) }
}

/// The point at a distance from another in a direction, up from forward level.
fn beyond([ahead, up]: [f64; 2], direction_rad: f64, distance_m: f64) -> [f64; 2] {
    [ahead + distance_m * direction_rad.cos(), up + distance_m * direction_rad.sin()]
}

/// The centre of mass of a link that begins at a point in a direction.
fn cg(link: &Link, from: [f64; 2], direction_rad: f64) -> [f64; 2] {
    let on_axis = beyond(from, direction_rad, link.along * link.length_m);
    beyond(on_axis, direction_rad - FRAC_PI_2, link.behind * link.length_m)
}

struct Trunk {
    hip: [f64; 2],
    recline_rad: f64,
    /// From the hip joint back to the plane of the body's back, m.
    hip_ahead_m: f64,
}

impl Trunk {
    fn of(build: &Build, posture: &Posture) -> Self {
        let (recline, pan) = (posture.recline_rad, posture.pan_rad);
        let (above, ahead) = (build.hip.up_m + posture.under_m, build.hip.ahead_m + posture.behind_m);
        let planes = (pan - recline).cos();
        let hip = [
            (ahead * pan.cos() - above * recline.sin()) / planes,
            (ahead * pan.sin() + above * recline.cos()) / planes,
        ];
        Self { hip, recline_rad: recline, hip_ahead_m: build.hip.ahead_m }
    }

    fn at(&self, station: Station) -> [f64; 2] {
        let along = beyond(self.hip, self.recline_rad + FRAC_PI_2, station.up_m);
        beyond(along, self.recline_rad, station.ahead_m - self.hip_ahead_m)
    }
}

struct Legs {
    thigh_rad: f64,
    shank_rad: f64,
    foot_rad: f64,
    knee: [f64; 2],
    ankle: [f64; 2],
    heel: [f64; 2],
}

impl Legs {
    fn of(build: &Build, posture: &Posture, hip: [f64; 2]) -> Self {
        let thigh_rad = posture.thigh_rad.unwrap_or_else(|| lying(build, posture));
        let shank_rad = thigh_rad + posture.knee_rad - PI;
        let foot_rad = shank_rad + FRAC_PI_2;
        let knee = beyond(hip, thigh_rad, build.thigh.length_m);
        let ankle = beyond(knee, shank_rad, build.shank.length_m);
        let heel = beyond(beyond(ankle, foot_rad, -build.foot.ankle_m), shank_rad, build.foot.under_m);
        Self { thigh_rad, shank_rad, foot_rad, knee, ankle, heel }
    }
}

/// The direction of a thigh that lies on the pan: the knee joint is nearer to it than the hip joint.
pub(super) fn lying(build: &Build, posture: &Posture) -> f64 {
    let drop = (build.knee_above_pan_m - build.hip.up_m) / build.thigh.length_m;
    posture.pan_rad + drop.clamp(-1.0, 1.0).asin()
}

struct Arms {
    upper_rad: f64,
    forearm_rad: f64,
    shoulder: [f64; 2],
    elbow: [f64; 2],
    wrist: [f64; 2],
}

impl Arms {
    fn of(build: &Build, posture: &Posture, shoulder: [f64; 2]) -> Self {
        let (upper_rad, forearm_rad) = (posture.upper_arm_direction_rad(), posture.forearm_direction_rad());
        let elbow = beyond(shoulder, upper_rad, build.upper_arm.length_m);
        let wrist = beyond(elbow, forearm_rad, build.forearm.length_m);
        Self { upper_rad, forearm_rad, shoulder, elbow, wrist }
    }
}
