//! Loads on a beam: at a point, or along a line and changing evenly.

/// A push on a beam. Positive figures push the way that the list says in which the load stands:
/// loads and what lies above push down, reactions and what lies below push up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Load {
    /// All at one place.
    Point {
        /// Where, m from the left end.
        at_m: f64,
        /// How strong, N.
        force_n: f64,
    },
    /// Spread along the beam, changing evenly from one end to the other.
    Line {
        /// Its left end, m from the beam's left end.
        from_m: f64,
        /// Its right end, m from the beam's left end.
        to_m: f64,
        /// How strong at its left end, N/m.
        at_from_n_per_m: f64,
        /// How strong at its right end, N/m.
        at_to_n_per_m: f64,
    },
}

impl Load {
    /// The same everywhere between two places (m), N/m.
    pub fn even(from_m: f64, to_m: f64, n_per_m: f64) -> Load {
        Load::Line { from_m, to_m, at_from_n_per_m: n_per_m, at_to_n_per_m: n_per_m }
    }

    /// The pressure that stands for two forces (N, each at least zero) at the two ends of a contact
    /// (m): same resultant, same place, and nowhere a pull. In the middle third it changes evenly over
    /// the whole contact; outside of it a triangle remains, three times as long as the resultant's
    /// distance from its edge; at the edge itself a point. Source: `own derivation` (the resultant of
    /// an even change from p to q over h lies at h (p + 2 q) / (3 (p + q)); p = 0 or q = 0 at the
    /// thirds).
    pub fn between_ends(from_m: f64, to_m: f64, force_at_from_n: f64, force_at_to_n: f64) -> Load {
        let (length_m, force_n) = (to_m - from_m, force_at_from_n + force_at_to_n);
        if force_n <= 0.0 || length_m <= 0.0 {
            return Load::Point { at_m: from_m, force_n: force_n.max(0.0) };
        }
        let arm_m = length_m * force_at_to_n / force_n;
        if 3.0 * arm_m < length_m {
            triangle(from_m, 3.0 * arm_m, force_n, length_m)
        } else if 3.0 * (length_m - arm_m) < length_m {
            triangle(to_m, -3.0 * (length_m - arm_m), force_n, length_m)
        } else {
            let end = |near_n: f64, far_n: f64| (4.0 * near_n - 2.0 * far_n) / length_m;
            let (at_from_n_per_m, at_to_n_per_m) =
                (end(force_at_from_n, force_at_to_n), end(force_at_to_n, force_at_from_n));
            Load::Line { from_m, to_m, at_from_n_per_m, at_to_n_per_m }
        }
    }

    /// Its whole force, N.
    pub fn force_n(&self) -> f64 {
        match *self {
            Load::Point { force_n, .. } => force_n,
            Load::Line { from_m, to_m, at_from_n_per_m, at_to_n_per_m } => {
                0.5 * (to_m - from_m) * (at_from_n_per_m + at_to_n_per_m)
            }
        }
    }

    /// Force times distance from a place (m), N m; positive where a positive force lies right of it.
    pub fn moment_about_n_m(&self, place_m: f64) -> f64 {
        match *self {
            Load::Point { at_m, force_n } => force_n * (at_m - place_m),
            Load::Line { from_m, to_m, at_from_n_per_m, at_to_n_per_m } => {
                let length_m = to_m - from_m;
                self.force_n() * (from_m - place_m)
                    + length_m * length_m * (at_from_n_per_m + 2.0 * at_to_n_per_m) / 6.0
            }
        }
    }

    /// The same push the other way.
    pub fn reversed(&self) -> Load {
        self.scaled(-1.0)
    }

    /// The same push, so many times as strong.
    pub fn scaled(&self, by: f64) -> Load {
        match *self {
            Load::Point { at_m, force_n } => Load::Point { at_m, force_n: by * force_n },
            Load::Line { from_m, to_m, at_from_n_per_m, at_to_n_per_m } => {
                Load::Line { from_m, to_m, at_from_n_per_m: by * at_from_n_per_m, at_to_n_per_m: by * at_to_n_per_m }
            }
        }
    }

    /// All of it without signs, N, or more: what a force is small against.
    pub(super) fn strength_n(&self) -> f64 {
        match *self {
            Load::Point { force_n, .. } => force_n.abs(),
            Load::Line { from_m, to_m, at_from_n_per_m, at_to_n_per_m } => {
                0.5 * (to_m - from_m).abs() * (at_from_n_per_m.abs() + at_to_n_per_m.abs())
            }
        }
    }

    /// Where it begins and ends, m from the beam's left end.
    pub fn ends_m(&self) -> [f64; 2] {
        match *self {
            Load::Point { at_m, .. } => [at_m, at_m],
            Load::Line { from_m, to_m, .. } => [from_m, to_m],
        }
    }

    /// Its force between two places, N.
    pub(super) fn force_between_n(&self, from_m: f64, to_m: f64) -> f64 {
        let Load::Line { from_m: left_m, to_m: right_m, at_from_n_per_m, at_to_n_per_m } = *self else {
            return 0.0;
        };
        let (a_m, b_m) = (from_m.max(left_m), to_m.min(right_m));
        if b_m <= a_m {
            return 0.0;
        }
        let middle = (0.5 * (a_m + b_m) - left_m) / (right_m - left_m);
        (b_m - a_m) * (at_from_n_per_m + middle * (at_to_n_per_m - at_from_n_per_m))
    }
}

/// A triangle with its full height at an edge, running from there by a base that may point left.
fn triangle(edge_m: f64, base_m: f64, force_n: f64, contact_m: f64) -> Load {
    // On a base below this share of the contact the rounding of its two ends would show in the force: a board
    // with such a triangle did not close across its grain.
    if base_m.abs() < 1e-6 * contact_m {
        return Load::Point { at_m: edge_m, force_n };
    }
    let height = 2.0 * force_n / base_m.abs();
    if base_m > 0.0 {
        Load::Line { from_m: edge_m, to_m: edge_m + base_m, at_from_n_per_m: height, at_to_n_per_m: 0.0 }
    } else {
        Load::Line { from_m: edge_m + base_m, to_m: edge_m, at_from_n_per_m: 0.0, at_to_n_per_m: height }
    }
}
