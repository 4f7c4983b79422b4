//! The plan's frames: floor from article from bed.

use crate::Plan;
use nalgebra::{Isometry3, Point3};
use quantity::{Length, Quantity, frame};

/// Three lengths as a point, m, in the frame of the field that they came from.
pub fn point([x, y, z]: [Length; 3]) -> Point3<f64> {
    Point3::new(x.si(), y.si(), z.si())
}

impl Plan {
    /// Floor frame from article frame: the article turned by its pitch about its pivot.
    pub fn floor_from_article(&self) -> Isometry3<f64> {
        frame::nose_up_about(self.article.pitch, point(self.article.pivot))
    }

    /// Article frame from bed frame: the bed turned by its slope at its origin.
    pub fn article_from_bed(&self) -> Isometry3<f64> {
        frame::nose_up_at(self.bed.slope, point(self.bed.origin))
    }

    /// Floor frame from bed frame.
    pub fn floor_from_bed(&self) -> Isometry3<f64> {
        self.floor_from_article() * self.article_from_bed()
    }
}
