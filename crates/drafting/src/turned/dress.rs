//! What a side is painted with: its material, the light on it, its outline.

use super::{Look, Spread};
use crate::figure::{Figure, Fill, Ink, Light, Pen, Surface, Weight};
use crate::solids::{Direction, Facing};
use crate::views::Scene;
use nalgebra::{Vector2, Vector3};
use plan::Form;

/// What a solid is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum What {
    /// The piece of a step, from 0.
    Piece(usize),
    /// A member of article or fixture.
    Member(Surface),
    /// A skin of the article: what lies behind it shows through.
    Skin,
    /// A line of the article without breadth: an edge of its own colour, which is seen on any ground.
    Line,
}

impl What {
    pub(super) fn lets_through(self) -> bool {
        self == What::Skin
    }

    pub(super) fn step(self) -> Option<usize> {
        match self {
            What::Piece(step) => Some(step),
            What::Member(_) | What::Skin | What::Line => None,
        }
    }
}

pub(super) struct Dresser<'a> {
    scene: &'a Scene<'a>,
    look: &'a Look<'a>,
    /// Unit vector to the light.
    light: Vector3<f64>,
}

impl<'a> Dresser<'a> {
    pub(super) fn of(scene: &'a Scene<'a>, look: &'a Look<'a>) -> Self {
        Self { scene, look, light: light(look.from) }
    }

    pub(super) fn paint(&self, figure: &mut Figure, what: What, side: &Facing) {
        let fill = match what {
            What::Line => Fill::Solid(Ink::Structure),
            _ => Fill::Shaded(self.surface(what), brightness(side.outward.dot(&self.light))),
        };
        let pen = self.pen(what);
        // At a sharp corner a joined outline would run out into a spike.
        if side.edges.iter().all(|edge| *edge) && !is_sharp(&side.outline) {
            return figure.polygon(side.outline.clone(), fill, Some(pen));
        }
        figure.polygon(side.outline.clone(), fill, None);
        for (i, _) in side.edges.iter().enumerate().filter(|(_, edge)| **edge) {
            let next = (i + 1) % side.outline.len();
            figure.line(vec![side.outline[i], side.outline[next]], pen);
        }
    }

    fn surface(&self, what: What) -> Surface {
        let step = match what {
            What::Member(surface) => return surface,
            What::Skin | What::Line => return Surface::Skin,
            What::Piece(step) => step,
        };
        if self.look.next == Some(step) {
            return Surface::Next;
        }
        if self.scene.layer.is_some_and(|layer| layer != self.scene.layer_of(step)) {
            return Surface::Pale;
        }
        surface_of(self.scene.plan.lot_of(&self.scene.plan.stack[step]).form)
    }

    fn pen(&self, what: What) -> Pen {
        if what == What::Line {
            return Pen::solid(Ink::Structure, Weight::Thin);
        }
        let edge = Pen::solid(Ink::Edge, Weight::Thin);
        let Some(step) = what.step() else { return edge };
        let weakest = self.look.weakest.map(|weakest| weakest.layer);
        if self.scene.selected.contains(&step) {
            Pen::solid(Ink::Is, Weight::Thick)
        } else if weakest == Some(self.scene.layer_of(step)) && self.look.spread == Spread::Together {
            Pen::solid(Ink::Wanted, Weight::Medium)
        } else {
            edge
        }
    }
}

/// Whether an outline has a corner of less than some fifteen degrees, as a side seen nearly edge on has.
fn is_sharp(outline: &[[f64; 2]]) -> bool {
    const COSINE: f64 = -0.965;
    let count = outline.len();
    let along = |i: usize| {
        let (a, b) = (outline[i % count], outline[(i + 1) % count]);
        Vector2::new(b[0] - a[0], b[1] - a[1])
    };
    (0..count).any(|i| along(i).dot(&along(i + 1)) < COSINE * along(i).norm() * along(i + 1).norm())
}

pub(super) fn surface_of(form: Form) -> Surface {
    match form {
        Form::Bag => Surface::Canvas,
        Form::Board => Surface::Timber,
        Form::Solid => Surface::Metal,
    }
}

/// The light goes with the viewer, over the right shoulder and from above, so that three sides of a
/// box always differ.
fn light(from: Direction) -> Vector3<f64> {
    let axes = from.axes();
    (axes.right * 0.35 + axes.toward * 0.35 + Vector3::z() * 0.75).normalize()
}

/// The cosine of the light's angle to a side as one of 256 steps, some light from everywhere added.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within 0 and 255")]
fn brightness(cosine: f64) -> Light {
    Light(((0.18 + 0.86 * cosine.max(0.0)).clamp(0.0, 1.0) * 255.0).round() as u8)
}
