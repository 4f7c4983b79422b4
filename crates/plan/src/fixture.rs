//! Everything that holds the article during the test.

use quantity::{Force, Length, Stiffness};

/// Supports, straps and the floor.
#[derive(Clone, Debug, PartialEq)]
pub struct Fixture {
    /// Points that can only push up.
    pub supports: Vec<Support>,
    /// Tension-only ties from the article to the floor.
    pub hold_downs: Vec<HoldDown>,
    /// Tension-only ties over the stack.
    pub bindings: Vec<Binding>,
    /// Coefficient of friction between supports and floor.
    pub floor_friction: f64,
}

/// A point that can only push up on the article.
#[derive(Clone, Debug, PartialEq)]
pub struct Support {
    /// What it is called.
    pub name: String,
    /// Where it pushes, floor frame.
    pub at: [Length; 3],
    /// The greatest load that it may carry, as a reading.
    pub capacity: Option<quantity::Mass>,
    /// Whether it is a platform scale.
    pub scale: bool,
    /// Its stiffness; left out: alike for all supports.
    pub stiffness: Option<Stiffness>,
    /// The smallest step in which the scale shows its reading (division d); left out: not known.
    pub division: Option<quantity::Mass>,
}

/// A tension-only tie from the article to the floor.
#[derive(Clone, Debug, PartialEq)]
pub struct HoldDown {
    /// What it is called.
    pub name: String,
    /// Its upper end, article frame.
    pub on_article: [Length; 3],
    /// Its lower end, floor frame.
    pub on_floor: [Length; 3],
    /// The spring's own preload before the supports settle.
    pub preload: Force,
    /// The greatest pull that it is allowed.
    pub working_load: Force,
    /// Its stiffness.
    pub stiffness: Stiffness,
}

/// To what a binding strap is tied.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchors {
    /// To the article: it presses the seat and does not show on the scales.
    Article,
    /// To the floor: it presses the seat and the scales.
    Floor,
}

/// A tension-only tie over the stack.
#[derive(Clone, Debug, PartialEq)]
pub struct Binding {
    /// What it is called.
    pub name: String,
    /// To what it is tied.
    pub anchors: Anchors,
    /// Where it crosses the stack, bed frame.
    pub at: [Length; 2],
    /// The pull in each of its two legs.
    pub pull: Force,
    /// It is put on after this step.
    pub after: u32,
}
