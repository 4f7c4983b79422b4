//! The seated occupant as a jointed figure in the plane: where the centre of mass lies.
//!
//! The figure sits against two planes, the pan and the back, which meet at the seat reference point.
//! Its joints follow from mass, stature and the posture's angles; trunk, shoulder and head stand at
//! their own distance ahead of the back plane, because a trunk on the line from hip to shoulder
//! would put the whole about 29 mm too far forward. Left and right are alike: the point lies in the
//! seat's mid-plane.
//!
//! All points are in the seat's frame, m: ahead of the seat reference point along the level, and
//! above it, `[ahead, up]`. Angles are in rad.
//!
//! Limits of validity: a back-supported adult; the pelvis does not roll with recline (perhaps 10 mm);
//! shares of mass do not change with the body's mass, so that heavy people come out up to 25 mm too
//! far aft. Against published seated people the model is right to 25 mm fore and aft and in height
//! ([`KNOWN_WITHIN_M`]); no published figure for a reclined seat was found.
//!
//! Start reading at [`Person`], then [`Posture`], then [`seated`].

mod build;
mod drag;
mod figure;
mod posture;
mod table;
mod weighing;

pub use build::{Build, Foot, Link, Person, Station};
pub use drag::Handle;
pub use figure::{Figure, Joints, Part, Segment, seated};
pub use posture::Posture;
pub use table::{Sex, Table};
pub use weighing::{Found, Scale, weighed};

/// How well the point of a known posture is known, fore-aft and up, m. Source: `occupant-model`:
/// the worst of the published seated figures is missed by 25 mm.
pub const KNOWN_WITHIN_M: f64 = 0.025;
