//! Everything that holds the article during the test.

use quantity::{Force, Length, Stiffness};

/// Supports, straps, catch blocks and the floor.
#[derive(Clone, Debug, PartialEq)]
pub struct Fixture {
    /// Points that can only push up.
    pub supports: Vec<Support>,
    /// Tension-only ties from the article to the floor.
    pub hold_downs: Vec<HoldDown>,
    /// Tension-only ties over the stack.
    pub bindings: Vec<Binding>,
    /// What catches the article if it fails.
    pub catch_blocks: Vec<CatchBlock>,
    /// Coefficient of friction between supports and floor.
    pub floor_friction: f64,
    /// Height of the floor on which people stand, floor frame z; none: it is level with the lowest support.
    pub floor: Option<Length>,
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
    /// The pull to which it is drawn on the bare article.
    pub preload: Force,
    /// When it is drawn to that pull.
    pub preload_set: PreloadSet,
    /// The greatest pull that it is allowed.
    pub working_load: Force,
    /// Its stiffness.
    pub stiffness: Stiffness,
}

/// When a strap is drawn to its preload.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PreloadSet {
    /// Before the article settles on its supports under its own weight: the settling then slackens
    /// or tightens it.
    #[default]
    Before,
    /// After the article has settled: the bare article stands under exactly this pull, as a gauge
    /// in the strap shows it.
    After,
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
    /// Width of its web, with which it bears on what it crosses.
    pub width: Length,
    /// It is put on after this step.
    pub after: u32,
}

impl Binding {
    /// `width` where a plan leaves it out: the usual web of a lashing strap, `common practice, no
    /// source`.
    pub const WIDTH: Length = Length::m(0.050);
}

/// What catches the article if it fails.
#[derive(Clone, Debug, PartialEq)]
pub struct CatchBlock {
    /// What it is called.
    pub name: String,
    /// Middle of its top, floor frame.
    pub at: [Length; 3],
    /// The gap between it and the article before loading.
    pub gap: Length,
}
