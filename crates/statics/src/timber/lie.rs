//! How a board lies, and why there may be no allowable for it.

/// How a board lies under its load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lie {
    /// Along the load, m: of a board that lies flat, its thickness.
    pub depth_m: f64,
    /// Across the load, m.
    pub width_m: f64,
    /// Whether a board on its wide face is given the raise for flat use where its system has one.
    pub flat: bool,
}

/// Why there is no allowable: one sentence. None is ever assumed in its place.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum NoAllowable {
    /// Not in the table.
    #[error("grade “{grade}” is not known; known grades: {known}; or give your own allowable stresses")]
    UnknownGrade {
        /// As given.
        grade: String,
        /// All that would fit.
        known: String,
    },
    /// A size that is no size.
    #[error("the board measures {depth_m} m x {width_m} m; finite sizes above 0 m are expected")]
    Size {
        /// Along the load, m.
        depth_m: f64,
        /// Across the load, m.
        width_m: f64,
    },
    /// Beyond the sizes for which the grade's values hold.
    #[error("the values of {grade} hold for wood of 1.5 in to 3.5 in; this board is {:.2} in thick", .thickness_m / quantity::unit::INCH_M)]
    Thickness {
        /// As the table writes it.
        grade: &'static str,
        /// The board, m.
        thickness_m: f64,
    },
}
