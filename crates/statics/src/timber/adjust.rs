//! From a grade and the way a board lies to what it may bear.

use crate::timber::allowables::Allowables;
use crate::timber::dressed::american;
use crate::timber::european::european;
use crate::timber::table::{Duration, table};

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

/// What a board of this grade may bear under its plain weight in dry service; `None` where there
/// is no published value for it ([`look_up`] says why).
pub fn allowable(grade: &str, depth_m: f64, width_m: f64, duration: Duration, flat: bool) -> Option<Allowables> {
    look_up(grade, Lie { depth_m, width_m, flat }, duration).ok()
}

/// As [`allowable`], with the reason where there is none.
///
/// # Errors
/// An unknown grade, no size, or a size outside of the grade's table.
pub fn look_up(grade: &str, lie: Lie, duration: Duration) -> Result<Allowables, NoAllowable> {
    let Lie { depth_m, width_m, .. } = lie;
    if !(depth_m.is_finite() && width_m.is_finite() && depth_m > 0.0 && width_m > 0.0) {
        return Err(NoAllowable::Size { depth_m, width_m });
    }
    let wanted = plain(grade);
    if let Some(class) = table().classes.iter().find(|class| plain(&class.name) == wanted) {
        return european(class, lie, duration);
    }
    let named = |name: &str| plain(name) == wanted;
    let lumber = table().lumber.iter().find(|row| named(&row.name) || row.also.iter().any(|name| named(name)));
    match lumber {
        Some(lumber) => american(lumber, lie, duration),
        None => Err(NoAllowable::UnknownGrade { grade: grade.to_owned(), known: grades().join(", ") }),
    }
}

/// All grades of the table, as it writes them.
pub fn grades() -> Vec<&'static str> {
    let table = table();
    table
        .classes
        .iter()
        .map(|class| class.name.as_str())
        .chain(table.lumber.iter().map(|row| row.name.as_str()))
        .collect()
}

/// Letters and digits alone, small: `D. Fir-Larch No 1` and `d fir larch no. 1` are one grade.
fn plain(name: &str) -> String {
    name.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}
