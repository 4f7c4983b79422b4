//! The exact equilibrium of the rigid-piece stack: does it stand, how great a horizontal push would bring
//! it down, which pieces go and which way, after every placement.
//!
//! # The equations
//! Every contact rectangle carries at each of its four corners a force on the upper piece, n z + t, with n >= 0
//! and |t| <= mu n (z the normal of the bed, mu the smaller friction of the pair). For every piece, about its
//! own centre: sum f + w (g + lambda h) + straps = 0 and sum r x f + moments of straps = 0, with w its part
//! of the weight, g straight down, h level in the direction of the push. `stands`: is there a solution with
//! lambda = 0? The collapse multiplier: the greatest lambda for which there is one. Forces are divided by
//! the weight of the group of pieces that hold one another up, lengths by its extent.
//! Source: `own derivation`, statics of rigid bodies. On a level bed the multiplier is the tangent of the tilt
//! at which the stack goes.
//!
//! # What it leaves out, and on which side that errs
//! - With Coulomb friction this is the answer of dilatant sliding (what slides also opens), an upper bound
//!   of the real one: "falls" is certain, "stands" is necessary and, once friction is needed, not sufficient.
//!   Equal for rocking and for sliding in one plane; up to 22 % too high where contacts of unlike friction
//!   lie under one board (worked stack f05). So: take friction low. Unsafe side.
//! - Bags are soft: they squeeze, round off at the rim, and settle with time. Rigid pieces carry to the very
//!   edge of a contact, soft ones do not. Unsafe side.
//! - Dropping a bag, walking on the stack, straps that are tightened in jerks: no dynamics here. Unsafe side.
//! - Upright faces that touch carry nothing (walls with them bear up to 3 % more). Safe side.
//! - A corner can twist with its whole lever, half the diagonal; spread pressure twists less: 0 to 3.6 % of
//!   lambda seen (`derived`, measured on oblique pushes). Unsafe side.
//! - Straps are dead pulls: a strap that would tighten as the stack goes is not counted on. Safe side; a strap
//!   that slackens as the stack settles is the user's business.
//!
//! # How it is made quick, and why that is exact
//! Nothing is skipped by sampling. The pushes [aft, right] that can be carried form a convex set, since
//! forces of two equilibria, mixed, are an equilibrium of the mixed push (`bounds`).
//! - Lower bound: forces that were checked carry a push; the hull of such pushes is carried too.
//! - Upper bound: a motion under which no contact closes excludes all beyond a half-plane (`motion`); a solver's
//!   dual is such a motion. It stays a proof when a piece is added and is given a motion too (`inherit`).
//! - Groups that share only bearings are problems of their own (`group`); a placement changes one of them.
//! - A push is first tried by tracing a load path from piece to piece, all forces under a piece in one
//!   direction (`load_path`), near the forces known for the pushes beside it or for the pile before.
//! - Where that is blocked, the forces of the layers that are left are rebalanced: the least change that
//!   balances (`rebalance`).
//! - Where a stack fails, faces part in few layers: only these are solved, and what is found is checked on
//!   the whole stack (`layers`, `band`).
//! - What is left goes to an interior-point method whose linear system has one 6 x 6 block a piece
//!   (`interior`, `factor`); where that stops short a general conic solver is asked (`plain`). The forces to show
//!   come from the same systems (`quadratic`), ten to fifteen times as fast as from that solver.
//!
//! What each of them saves (`benches/README.md`): of 200 pieces every state takes 2.6 to 6.6 times as long if nothing is
//! inherited, 0.9 to 2.3 times without load paths, 1.3 to 2.7 times without programmes on layers, 0.9 to 1.7 times
//! without rebalancing.
//!
//! # Terms of limit analysis, and their names here
//! | term | meaning here | name |
//! | --- | --- | --- |
//! | statically admissible forces | forces that balance every piece and lie in every friction cone | `forces`, checked by `forces::miss` |
//! | load path | a push with forces for it through the whole group | `LoadPath` |
//! | lower bound (static theorem) | a push that admissible forces carry can be carried | `Bounds::lower`, `InnerHull` |
//! | mechanism | a motion of the pieces | `Motion`; for words and arrows `Mechanism` |
//! | kinematically admissible | under the motion no contact closes | `motion::admissible` |
//! | associated flow | what slides also opens, at the angle of friction | `motion::at_corners` |
//! | upper bound (kinematic theorem) | no push beyond the half-plane of an admissible mechanism can be carried | `UpperBound`, `HalfPlane` |
//! | collapse multiplier | the push at which both bounds meet, over the weight | `Decision::Decided` |
//!
//! # What decides
//! Forces count when the balance of every piece and every cone, worked out again from the returned numbers,
//! miss by less than 1e-7 of the weight; a motion counts after it has been made admissible: no contact closes.
//! A multiplier is decided when both meet within 1e-6 of it (1e-7 where it is below 0.1), and the number
//! shown is the lower one. All else is not decided. At the brink (a multiplier of nothing, within 1e-7)
//! either verdict is right, and it is shown as standing with no reserve.
//!
//! Start reading at `steps`, then `search`, then `proof`.

mod band;
pub(crate) mod block;
mod bounds;
pub(crate) mod cone;
mod energy;
pub(crate) mod factor;
mod forces;
mod front;
mod group;
mod inherit;
pub(crate) mod interior;
mod layers;
mod load_path;
mod mark;
mod mechanism;
mod motion;
mod plain;
mod proof;
mod pull;
mod quadratic;
mod rebalance;
mod search;
mod shortcuts;
mod single;
mod smallest;
mod split;
mod steps;

pub use energy::{ContactForce, Shares, least_energy};
pub(crate) use energy::{OPEN, least_energy_at};
pub use front::StepEquilibrium;
pub use group::Stack;
pub use mechanism::{Mechanism, PieceMotion};
pub use proof::Effort;
pub use pull::{Bears, DeadPull};
pub use shortcuts::{Shortcut, Shortcuts, Work};
pub use single::{collapse, collapse_by_general_solver, directions, stands};
pub use split::{SplitEnd, Splitting, when_split};
pub use steps::{every_step, every_step_with, steps_wanted};
