//! The exact equilibrium of the rigid-piece stack.
mod block;
mod cone;
mod energy;
mod factor;
mod forces;
mod front;
mod group;
mod handed;
mod inherit;
mod interior;
mod known;
mod mechanism;
mod motion;
mod plain;
mod proof;
mod pull;
mod search;
mod single;
mod steps;

pub use energy::{ContactForce, Shares, least_energy};
pub use front::StepEquilibrium;
pub use group::Stack;
pub use mechanism::{Mechanism, PieceMotion};
pub use pull::DeadPull;
pub use single::{collapse, collapse_by_general_solver, directions, least_collapse, stands};
pub use steps::every_step;
