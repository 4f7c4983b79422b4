//! The shape of a list: what parts its columns, and what its head calls them.

use quantity::{Kind, Unit, unit};

/// What a column of item numbers may be headed with.
const ITEM_HEADS: [&str; 8] = ["item", "no", "nr", "number", "#", "bag", "piece", "index"];

/// Which columns hold what.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Columns {
    pub(super) item: Option<usize>,
    pub(super) mass: usize,
    /// The unit that the head gives to bare numbers.
    pub(super) unit: Option<Unit>,
}

/// What parts the columns of a text. A comma does so only under a head that has one: elsewhere it
/// is a decimal mark, `24,6 kg`.
pub(super) fn delimiter(text: &str) -> u8 {
    let first = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    match () {
        () if text.contains('\t') => b'\t',
        () if text.contains(';') => b';',
        () if is_head(std::iter::once(first)) && first.contains(',') => b',',
        // A sign that no list holds: the whole line is one cell.
        () => 0x1F,
    }
}

/// Whether these cells are a head: words without a figure.
pub(super) fn is_head<'c>(mut cells: impl Iterator<Item = &'c str>) -> bool {
    let mut words = false;
    cells.all(|cell| {
        words |= cell.chars().any(|c| c.is_alphabetic() || c == '#');
        !cell.chars().any(|c| c.is_ascii_digit())
    }) && words
}

/// The columns that a head names; none where it names no masses.
pub(super) fn of_head(cells: &[&str]) -> Option<Columns> {
    let item =
        cells.iter().position(|cell| ITEM_HEADS.contains(&cell.trim_matches([' ', '.']).to_lowercase().as_str()));
    let named = |cell: &&str| {
        let cell = cell.to_lowercase();
        cell.contains("mass") || cell.contains("weight") || unit_in(&cell).is_some()
    };
    let alone = (cells.len() == 1 && item.is_none()).then_some(0);
    let mass = cells.iter().position(named).or(alone)?;
    // `weight, lbs`: a unit that strayed into another cell must not be missed.
    let unit = unit_in(cells[mass]).or_else(|| cells.iter().find_map(|cell| unit_in(cell)));
    Some(Columns { item, mass, unit })
}

/// The columns of a list without a head.
pub(super) fn of_cells(count: usize) -> Option<Columns> {
    match count {
        1 => Some(Columns { item: None, mass: 0, unit: None }),
        2 => Some(Columns { item: Some(0), mass: 1, unit: None }),
        _ => None,
    }
}

/// A unit of mass among the words of a head: `mass (kg)`, `weight, lbs`.
fn unit_in(cell: &str) -> Option<Unit> {
    let words = cell.split(|c: char| !c.is_alphanumeric());
    let known = |word: &str| unit::by_symbol(word).filter(|unit| unit.kind == Kind::Mass);
    words.filter(|word| !word.is_empty()).find_map(|word| known(word).or_else(|| known(word.strip_suffix('s')?)))
}
