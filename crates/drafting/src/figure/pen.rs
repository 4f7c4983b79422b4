//! With what a figure is drawn: colours by their meaning, fills, pens, signs of fixed size.

/// A colour by its meaning.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Ink {
    /// Outlines and running text.
    Line,
    /// Captions, ticks, what stands behind.
    Quiet,
    /// What is: stack, centroid, plumb line, readings. Teal.
    Is,
    /// What is wanted or allowed: occupant point, tolerance, limits, cautions. Orange.
    Wanted,
    /// Article, bearings, fixture. Steel grey.
    Structure,
    /// Keep-clear regions. Violet.
    Clear,
    /// Edges of shaded solids: dark by day and by night.
    Edge,
    /// The grid of a floor.
    Grid,
    /// What is, where it runs on inside a piece: a breath of it, so that the piece and its number stay.
    IsWithin,
    /// What is wanted or allowed, where it runs on inside a piece.
    WantedWithin,
}

/// What fills a shape.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// Nothing.
    None,
    /// The ground of the drawing, which hides what lies behind.
    Ground,
    /// A material: colour, and a texture that tells it from the others without colour.
    Material(Material, Strength),
    /// A thin wash of a colour.
    Tint(Ink),
    /// A colour that covers.
    Solid(Ink),
    /// Slanted lines.
    Hatch(Ink),
    /// The side of a solid, with the light that falls on it.
    Shaded(Surface, Light),
}

/// The surface of a solid that is drawn with light on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Surface {
    /// Bags.
    Canvas,
    /// Boards, timber of article and fixture.
    Timber,
    /// Plates, weights, tube, scales.
    Metal,
    /// The piece that comes next. Teal.
    Next,
    /// Pieces that are not in hand.
    Pale,
    /// Sheet of the article; what lies behind it shows through.
    Skin,
    /// Straps.
    Strap,
    /// The floor.
    Floor,
}

/// How much light falls on a side: 0 none, 255 all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Light(pub u8);

/// What a piece is made of, as far as a drawing cares.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Material {
    /// Bags: plain.
    Sand,
    /// Boards: grain lines along the longer side.
    Wood,
    /// Plates, weights, cans: one line across.
    Steel,
}

/// Whether a piece is in hand or stands behind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Strength {
    /// In hand.
    Strong,
    /// Already there.
    Faint,
}

/// What draws a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Pen {
    /// Its colour.
    pub ink: Ink,
    /// Its thickness.
    pub weight: Weight,
    /// Its pattern.
    pub dash: Dash,
}

impl Pen {
    /// An unbroken line.
    pub const fn solid(ink: Ink, weight: Weight) -> Self {
        Self { ink, weight, dash: Dash::Solid }
    }

    /// A broken line: hidden, or a limit.
    pub const fn dashed(ink: Ink, weight: Weight) -> Self {
        Self { ink, weight, dash: Dash::Dashed }
    }

    /// A line of dashes and dots: an axis, a plumb line.
    pub const fn chain(ink: Ink, weight: Weight) -> Self {
        Self { ink, weight, dash: Dash::Chain }
    }
}

/// The thickness of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Weight {
    /// Hatching, grain, ticks.
    Hair,
    /// Outlines behind.
    Thin,
    /// Outlines in hand.
    Medium,
    /// The article, the floor.
    Thick,
}

impl Weight {
    /// Its thickness in points.
    pub fn points(self) -> f64 {
        match self {
            Weight::Hair => 0.35,
            Weight::Thin => 0.6,
            Weight::Medium => 1.0,
            Weight::Thick => 1.8,
        }
    }
}

/// The pattern of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Dash {
    /// Unbroken.
    Solid,
    /// Broken.
    Dashed,
    /// Dash and dot.
    Chain,
}

/// A sign of fixed size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// The centroid of the stack: a disc with two opposite quarters filled.
    Centroid,
    /// The occupant point: a ring with a cross through it.
    OccupantPoint,
    /// The head of an arrow that points down onto its point.
    ArrowDown,
    /// A support: a wedge that pushes up on its point.
    SupportUp,
    /// A check that is met: a ring.
    Holds,
    /// A caution: a triangle.
    Near,
    /// A check that falls short: a crossed square.
    Fails,
    /// A check that is not decided: a broken ring.
    Undecided,
    /// A check for which no limit is given: a short bar.
    NoLimit,
    /// A dot: one step of a track.
    Dot,
    /// An empty box for a tick of the pencil.
    TickBox,
}
