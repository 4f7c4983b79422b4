//! From a grade and the way a board lies to what it may bear.

use crate::timber::allowables::Allowables;
use crate::timber::dressed::american;
use crate::timber::european::european;
use crate::timber::lie::{Lie, NoAllowable};
use crate::timber::table::{Duration, table};

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
