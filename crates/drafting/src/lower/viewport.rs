//! Where a figure lies on the device, and back.

/// Which part of the drawing plane shows where on the device.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Viewport {
    /// The point of the drawing plane in the middle of the area, m.
    pub centre: [f64; 2],
    /// Device units per metre.
    pub scale: f64,
    /// Left, top, right and bottom of the area, device units, y downwards. Nothing is drawn
    /// outside it.
    pub area: [f64; 4],
    /// Device units per point (1/72 in): the size of text, signs and pens.
    pub unit_per_pt: f64,
}

impl Viewport {
    /// The greatest scale at which a box of the drawing plane fits an area with a margin all
    /// round (device units).
    pub fn fitting([low, high]: [[f64; 2]; 2], area: [f64; 4], margin: f64, unit_per_pt: f64) -> Self {
        let room = |from: f64, to: f64| (to - from - 2.0 * margin).max(1e-6);
        let span = |axis: usize| (high[axis] - low[axis]).max(1e-6);
        let scale = (room(area[0], area[2]) / span(0)).min(room(area[1], area[3]) / span(1));
        let centre = [f64::midpoint(low[0], high[0]), f64::midpoint(low[1], high[1])];
        Self { centre, scale, area, unit_per_pt }
    }

    /// From the drawing plane (m) to the device.
    pub fn to_device(&self, [u, v]: [f64; 2]) -> [f64; 2] {
        let [x, y] = self.middle();
        [x + (u - self.centre[0]) * self.scale, y - (v - self.centre[1]) * self.scale]
    }

    /// From the device to the drawing plane, m.
    pub fn to_plane(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        let [middle_x, middle_y] = self.middle();
        [self.centre[0] + (x - middle_x) / self.scale, self.centre[1] - (y - middle_y) / self.scale]
    }

    fn middle(&self) -> [f64; 2] {
        [f64::midpoint(self.area[0], self.area[2]), f64::midpoint(self.area[1], self.area[3])]
    }
}
