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
}

/// A line of the side view (station, waterline).
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it shows.
    pub name: String,
    /// Its corners.
    pub points: Vec<[Length; 2]>,
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
    /// How far ballast stays away.
    pub clearance: Length,
}
