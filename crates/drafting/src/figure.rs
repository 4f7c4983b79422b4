//! Figures: what is drawn, as plain data, before anybody knows the scale or the paper.
//!
//! The drawing plane is in metres: u to the right, v up. Lines and shapes live in it; text and
//! signs hang on a point of it but keep their size on paper and screen.

mod pen;

pub use pen::{Dash, Fill, Ink, Light, Material, Pen, Sign, Strength, Surface, Weight};

/// A figure: its marks in the order of painting, later ones over earlier ones.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Figure {
    /// What is drawn.
    pub marks: Vec<Mark>,
}

/// One thing that is drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A polygon or a polyline.
    Shape(Shape),
    /// A line of text.
    Text(Label),
    /// A sign of fixed size.
    Sign {
        /// Where its own point comes to lie, m.
        at: [f64; 2],
        /// Which sign.
        sign: Sign,
        /// Its colour.
        ink: Ink,
    },
}

/// A polygon or a polyline in the drawing plane.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Its corners, m.
    pub points: Vec<[f64; 2]>,
    /// Whether the last corner joins the first.
    pub closed: bool,
    /// What fills it; plain fills need a convex outline, hatching takes any.
    pub fill: Fill,
    /// What draws its outline.
    pub pen: Option<Pen>,
}

/// A line of text on a point of the drawing plane.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// The point that it hangs on, m.
    pub at: [f64; 2],
    /// How far from that point, in points: to the right, and up.
    pub shift_pt: [f64; 2],
    /// Which part of the text lies there.
    pub anchor: Anchor,
    /// Its size.
    pub size: TextSize,
    /// Its colour.
    pub ink: Ink,
    /// Whether it is set bold.
    pub bold: bool,
    /// What it does where there is no room.
    pub room: Room,
    /// What lies between it and the drawing behind.
    pub plate: Plate,
    /// What it says.
    pub text: String,
}

/// What a label does where there is no room for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Room {
    /// It stays where it is.
    Stay,
    /// It is left out unless it fits a box of this width and height (m) and covers no label
    /// before it.
    Within([f64; 2]),
    /// It moves by whole lines, first away from its point, until it covers no label before it; it
    /// is left out where that does not help.
    Dodge,
    /// It goes into a column beside the drawing, with a leader, where a drawing has such columns
    /// ([`crate::lower::lower_named`]); elsewhere it moves as one that dodges.
    Margin,
}

/// What lies between a label and the drawing behind it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Plate {
    /// Nothing.
    None,
    /// A plate of the ground's colour, so that lines do not run through the text.
    Plain,
    /// The same with a frame: the tag of a step.
    Framed,
    /// A light ground that fades what lies behind but does not hide it.
    Halo,
    /// The same in the tint of the piece on which the text stands.
    Tint(Material, Strength),
}

/// Which part of a text lies on its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Anchor {
    /// Across.
    pub align: Align,
    /// Up and down.
    pub level: Level,
}

impl Anchor {
    /// The middle of the text.
    pub const MIDDLE: Self = Self { align: Align::Centre, level: Level::Middle };
    /// The left end, at half height.
    pub const LEFT: Self = Self { align: Align::Left, level: Level::Middle };
    /// The right end, at half height.
    pub const RIGHT: Self = Self { align: Align::Right, level: Level::Middle };
    /// The middle of the upper edge: the text hangs below its point.
    pub const BELOW: Self = Self { align: Align::Centre, level: Level::Top };
    /// The middle of the baseline: the text stands on its point.
    pub const ABOVE: Self = Self { align: Align::Centre, level: Level::Baseline };
}

/// Where a text begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// Its left end lies on the point.
    Left,
    /// Its middle lies on the point.
    Centre,
    /// Its right end lies on the point.
    Right,
}

/// Which height of a text lies on its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Level {
    /// The line that letters stand on.
    Baseline,
    /// Half the height of a capital.
    Middle,
    /// The top of a capital.
    Top,
}

/// The three sizes of text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TextSize {
    /// Ticks and captions.
    Small,
    /// Reading size.
    Body,
    /// Heads, and numbers that are read at arm's length.
    Large,
}

impl TextSize {
    /// Its size in points.
    pub fn points(self) -> f64 {
        match self {
            TextSize::Small => 7.5,
            TextSize::Body => 9.5,
            TextSize::Large => 13.0,
        }
    }
}

impl Figure {
    /// Adds another figure over this one; its labels make way for those that are here.
    pub fn over(&mut self, other: Figure) {
        self.marks.extend(other.marks);
    }

    /// Adds a closed outline.
    pub fn polygon(&mut self, points: Vec<[f64; 2]>, fill: Fill, pen: Option<Pen>) {
        self.marks.push(Mark::Shape(Shape { points, closed: true, fill, pen }));
    }

    /// Adds an open line.
    pub fn line(&mut self, points: Vec<[f64; 2]>, pen: Pen) {
        self.marks.push(Mark::Shape(Shape { points, closed: false, fill: Fill::None, pen: Some(pen) }));
    }

    /// Adds a rectangle from its lower left to its upper right corner.
    pub fn rectangle(&mut self, low: [f64; 2], high: [f64; 2], fill: Fill, pen: Option<Pen>) {
        self.polygon(vec![low, [high[0], low[1]], high, [low[0], high[1]]], fill, pen);
    }

    /// Adds a sign.
    pub fn sign(&mut self, at: [f64; 2], sign: Sign, ink: Ink) {
        self.marks.push(Mark::Sign { at, sign, ink });
    }

    /// Adds a text.
    pub fn label(&mut self, label: Label) {
        self.marks.push(Mark::Text(label));
    }

    /// The least box around every shape and sign, lower left and upper right corner, m; none for
    /// an empty figure.
    pub fn bounds(&self) -> Option<[[f64; 2]; 2]> {
        let corners = self.marks.iter().flat_map(|mark| match mark {
            Mark::Shape(shape) => shape.points.as_slice(),
            Mark::Text(label) => std::slice::from_ref(&label.at),
            Mark::Sign { at, .. } => std::slice::from_ref(at),
        });
        corners.fold(None, |bounds, &p| Some(grown(bounds.unwrap_or([p, p]), p)))
    }
}

/// The least box around a box and a point.
pub(crate) fn grown([low, high]: [[f64; 2]; 2], p: [f64; 2]) -> [[f64; 2]; 2] {
    [[low[0].min(p[0]), low[1].min(p[1])], [high[0].max(p[0]), high[1].max(p[1])]]
}

impl Label {
    /// A text in reading size, its middle on a point, which stays where it is.
    pub fn new(at: [f64; 2], text: impl Into<String>) -> Self {
        Self {
            at,
            shift_pt: [0.0, 0.0],
            anchor: Anchor::MIDDLE,
            size: TextSize::Body,
            ink: Ink::Line,
            bold: false,
            room: Room::Stay,
            plate: Plate::None,
            text: text.into(),
        }
    }

    /// The same in small letters and quiet.
    pub fn caption(at: [f64; 2], text: impl Into<String>) -> Self {
        Self { size: TextSize::Small, ink: Ink::Quiet, ..Self::new(at, text) }
    }

    /// The same in another colour.
    pub fn ink(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }

    /// The same in another size.
    pub fn size(self, size: TextSize) -> Self {
        Self { size, ..self }
    }

    /// The same in bold.
    pub fn bold(self) -> Self {
        Self { bold: true, ..self }
    }

    /// The same, anchored and shifted (points; right, up).
    pub fn anchored(self, anchor: Anchor, shift_pt: [f64; 2]) -> Self {
        Self { anchor, shift_pt, ..self }
    }

    /// The same on a plate.
    pub fn on(self, plate: Plate) -> Self {
        Self { plate, ..self }
    }

    /// The same on a plain plate, moved until it covers no label before it.
    pub fn dodging(self) -> Self {
        Self { room: Room::Dodge, plate: Plate::Plain, ..self }
    }

    /// The same for a column beside the drawing.
    pub fn in_margin(self) -> Self {
        Self { room: Room::Margin, ..self.dodging() }
    }

    /// The same with another rule for want of room.
    pub fn room(self, room: Room) -> Self {
        Self { room, ..self }
    }
}
