//! The structure under test. All in the article frame.

use quantity::{Angle, Length, Mass};

/// The structure under test.
#[derive(Clone, Debug, PartialEq)]
pub struct Article {
    /// What it is called.
    pub name: String,
    /// Its mass as it stands on the fixture.
    pub mass: Mass,
    /// Its centroid (station, buttock line, waterline).
    pub centroid: [Length; 3],
    /// Nose-up turn against the floor.
    pub pitch: Angle,
    /// The point about which it is turned, which stays where it is.
    pub pivot: [Length; 3],
    /// Side view, drawing only.
    pub outline: Vec<Line>,
    /// Regions that ballast must not touch or approach.
    pub keep_clear: Vec<KeepClear>,
    /// A photograph or drawing over which the side view is traced.
    pub picture: Option<Picture>,
    /// Weighings from which mass and centroid can be worked out.
    pub weighings: Vec<Weighing>,
}

/// A picture of the side view: nose to the left, as the side view is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// Its file, from the folder in which the plan lies.
    pub path: String,
    /// Where its middle lies (station, waterline).
    pub at: [Length; 2],
    /// What its width shows.
    pub width: Length,
    /// Nose-up turn of the picture against the article frame.
    pub turn: Angle,
}

/// The article on scales, in one attitude.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighing {
    /// What it is called.
    pub name: String,
    /// Nose-up turn of the article against the floor during this weighing.
    pub pitch: Angle,
    /// The places at which scales carried it.
    pub points: Vec<WeighingPoint>,
}

/// A place at which a scale carried the article.
#[derive(Clone, Debug, PartialEq)]
pub struct WeighingPoint {
    /// What stands on the scale.
    pub name: String,
    /// Where the article is carried (station, buttock line, waterline): a point that turns with it,
    /// such as a jack pad or the axle of a wheel.
    pub at: [Length; 3],
    /// What the scale shows.
    pub reading: Mass,
    /// What of that is chocks, blocks and stands.
    pub tare: Mass,
    /// The smallest step in which the scale shows its reading; left out: not known.
    pub division: Option<Mass>,
}

/// A line of the side view (station, waterline), and what it stands for across the article: drawing
/// only.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it shows.
    pub name: String,
    /// Its corners.
    pub points: Vec<[Length; 2]>,
    /// How far what it shows reaches to either side of the article's middle; left out: not known, it
    /// is drawn as a line in the middle.
    pub half_breadth: Option<Length>,
    /// The width of each of a pair, left and right, that reach so far; left out: it is one thing
    /// across the whole breadth. For a closed line.
    pub width: Option<Length>,
    /// What it is made of.
    pub stuff: Stuff,
}

impl Line {
    /// A line in the article's middle.
    pub fn new(name: String, points: Vec<[Length; 2]>) -> Self {
        Self { name, points, half_breadth: None, width: None, stuff: Stuff::Metal }
    }

    /// Whether its last corner is its first one: it shows a cross-section, not a sheet.
    pub fn is_closed(&self) -> bool {
        self.points.len() > 3 && self.points.first() == self.points.last()
    }
}

/// What a part of the article is made of, as far as a drawing cares.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Stuff {
    /// Tube, sheet, laminate.
    #[default]
    Metal,
    /// Sawn timber.
    Timber,
}

/// A region that ballast must not touch or approach: a side-view shape between two buttock lines.
#[derive(Clone, Debug, PartialEq)]
pub struct KeepClear {
    /// What is there.
    pub name: String,
    /// Its corners in the side view (station, waterline), closed by themselves.
    pub side: Vec<[Length; 2]>,
    /// From this buttock line to that one.
    pub y: [Length; 2],
    /// Whether somebody entered the one and the other; a region that was drawn in the side view alone has neither.
    pub y_known: [bool; 2],
    /// How far ballast stays away.
    pub clearance: Length,
}
