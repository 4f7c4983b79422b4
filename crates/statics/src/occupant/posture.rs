//! How somebody sits: angles of the seat and of the joints, and what lies between body and seat.

use std::f64::consts::{FRAC_PI_2, PI};

/// How somebody sits. Angles in rad; joints are told by the angle that they enclose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Posture {
    /// The back plane, aft from upright.
    pub recline_rad: f64,
    /// The pan plane, forward end up from level.
    pub pan_rad: f64,
    /// The thigh, knee up from level; none: it lies on the pan.
    pub thigh_rad: Option<f64>,
    /// Enclosed by thigh and shank: half a turn is a straight leg.
    pub knee_rad: f64,
    /// The upper arm, forward from hanging along the back.
    pub arm_rad: f64,
    /// Enclosed by upper arm and forearm: half a turn is a straight arm.
    pub elbow_rad: f64,
    /// The head, aft from upright; none: half of the recline.
    pub head_rad: Option<f64>,
    /// What lies between body and pan, as thick as it is under load, m.
    pub under_m: f64,
    /// What lies between body and back, as thick as it is under load, m.
    pub behind_m: f64,
}

impl Posture {
    /// Upright on a level pan, forearms level.
    pub const UPRIGHT: Posture = Posture {
        recline_rad: 0.0,
        pan_rad: 0.0,
        thigh_rad: None,
        knee_rad: FRAC_PI_2,
        arm_rad: 0.0,
        elbow_rad: FRAC_PI_2,
        head_rad: None,
        under_m: 0.0,
        behind_m: 0.0,
    };

    /// The head's lean, aft from upright, rad.
    pub fn head_lean_rad(&self) -> f64 {
        self.head_rad.unwrap_or(self.recline_rad / 2.0)
    }

    /// The upper arm's direction, up from forward level, rad.
    pub(super) fn upper_arm_direction_rad(&self) -> f64 {
        self.recline_rad + self.arm_rad - FRAC_PI_2
    }

    /// The forearm's direction, up from forward level, rad.
    pub(super) fn forearm_direction_rad(&self) -> f64 {
        self.upper_arm_direction_rad() + PI - self.elbow_rad
    }
}
