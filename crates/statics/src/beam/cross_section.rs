//! A rectangular section and its stresses.

/// A rectangle, bent about the axis along its width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrossSection {
    /// Across the load, m.
    pub width_m: f64,
    /// Along the load, m.
    pub depth_m: f64,
    /// Modulus of elasticity along the beam, Pa.
    pub modulus_pa: f64,
}

impl CrossSection {
    /// Area, m2.
    pub fn area_m2(&self) -> f64 {
        self.width_m * self.depth_m
    }

    /// Second moment of area b d^3 / 12, m4 (source key `beam-theory`).
    pub fn second_moment_m4(&self) -> f64 {
        self.width_m * self.depth_m.powi(3) / 12.0
    }

    /// Section modulus b d^2 / 6, m3 (source key `beam-theory`).
    pub fn section_modulus_m3(&self) -> f64 {
        self.width_m * self.depth_m.powi(2) / 6.0
    }

    /// E I, N m2.
    pub fn rigidity_n_m2(&self) -> f64 {
        self.modulus_pa * self.second_moment_m4()
    }

    /// Stress in the outermost fibre under a moment, Pa, without sign: M / (b d^2 / 6).
    pub fn bending_pa(&self, moment_n_m: f64) -> f64 {
        moment_n_m.abs() / self.section_modulus_m3()
    }

    /// Greatest shear stress, in the middle of the depth, Pa, without sign: 1.5 V / (b d).
    pub fn shear_pa(&self, shear_n: f64) -> f64 {
        1.5 * shear_n.abs() / self.area_m2()
    }
}
