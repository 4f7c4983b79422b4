//! A second route: cubic beam elements with consistent loads, a stiffness matrix and nodes, none
//! of which the crate uses. Exact at nodes (source key `beam-theory`).

use crate::stated::near;
use nalgebra::{DMatrix, DVector, SMatrix, SVector};
use statics::beam::{Beam, Bending, Load};

/// Nodes (m from the left end), deflections there (m, down) and the reactions (N, up) of rigid or
/// sprung supports that hold both ways.
pub(crate) struct Route {
    pub(crate) nodes_m: Vec<f64>,
    pub(crate) deflections_m: Vec<f64>,
    pub(crate) reactions_n: Vec<f64>,
}

pub(crate) fn route(beam: &Beam) -> Route {
    let nodes_m = nodes(beam);
    let count = 2 * nodes_m.len();
    let (mut stiffness, mut forces) = (DMatrix::zeros(count, count), DVector::zeros(count));
    for element in 0..nodes_m.len() - 1 {
        let ends = [nodes_m[element], nodes_m[element + 1]];
        let (k, f) = (element_stiffness(beam, ends), element_forces(beam, ends));
        for row in 0..4 {
            forces[2 * element + row] += f[row];
            for column in 0..4 {
                stiffness[(2 * element + row, 2 * element + column)] += k[(row, column)];
            }
        }
    }
    for load in &beam.loads {
        if let Load::Point { at_m, force_n } = *load {
            forces[2 * index_of(&nodes_m, at_m)] += force_n;
        }
    }
    let springs = springs(beam, &nodes_m, &stiffness);
    for (row, spring) in &springs {
        stiffness[(*row, *row)] += spring;
    }
    let moved = stiffness.lu().solve(&forces).unwrap();
    Route {
        deflections_m: (0..nodes_m.len()).map(|node| moved[2 * node]).collect(),
        reactions_n: springs.iter().map(|(row, spring)| moved[*row] * spring).collect(),
        nodes_m,
    }
}

/// Supports as springs; a rigid one is some ten million times as stiff as the beam's own elements.
fn springs(beam: &Beam, nodes_m: &[f64], stiffness: &DMatrix<f64>) -> Vec<(usize, f64)> {
    let rigid = 1e7 * stiffness.diagonal().iter().step_by(2).fold(0.0_f64, |most, own| most.max(*own));
    let spring = |support: &statics::beam::Support| {
        (2 * index_of(nodes_m, support.at_m), support.stiffness_n_per_m.unwrap_or(rigid))
    };
    beam.supports.iter().map(spring).collect()
}

fn nodes(beam: &Beam) -> Vec<f64> {
    let even = (0..=16).map(|part| beam.length_m * f64::from(part) / 16.0);
    let mut nodes: Vec<f64> = beam.loads.iter().flat_map(Load::ends_m).collect();
    nodes.extend(beam.supports.iter().map(|support| support.at_m).chain(even));
    nodes.sort_by(f64::total_cmp);
    nodes.dedup_by(|a, b| (*a - *b).abs() < 1e-3 * beam.length_m);
    nodes
}

fn index_of(nodes_m: &[f64], at_m: f64) -> usize {
    let distance = |index: &usize| (nodes_m[*index] - at_m).abs();
    (0..nodes_m.len()).min_by(|a, b| distance(a).total_cmp(&distance(b))).unwrap()
}

fn element_stiffness(beam: &Beam, [from_m, to_m]: [f64; 2]) -> SMatrix<f64, 4, 4> {
    let h = to_m - from_m;
    let rows = [
        [12.0, 6.0 * h, -12.0, 6.0 * h],
        [6.0 * h, 4.0 * h * h, -6.0 * h, 2.0 * h * h],
        [-12.0, -6.0 * h, 12.0, -6.0 * h],
        [6.0 * h, 2.0 * h * h, -6.0 * h, 4.0 * h * h],
    ];
    SMatrix::from_fn(|row, column| rows[row][column] * beam.section.rigidity_n_m2() / h.powi(3))
}

/// Consistent loads of an evenly changing load, w in N/m at both ends of the element.
fn element_forces(beam: &Beam, [from_m, to_m]: [f64; 2]) -> SVector<f64, 4> {
    let h = to_m - from_m;
    let mut sum = SVector::zeros();
    for load in &beam.loads {
        let Load::Line { from_m: left, to_m: right, at_from_n_per_m, at_to_n_per_m } = *load else { continue };
        let middle = 0.5 * (from_m + to_m);
        if left <= middle && right >= middle {
            let at = |place: f64| at_from_n_per_m + (at_to_n_per_m - at_from_n_per_m) * (place - left) / (right - left);
            let (a, b) = (at(from_m), at(to_m));
            sum += SVector::from([
                h * (7.0 * a + 3.0 * b) / 20.0,
                h * h * (a / 20.0 + b / 30.0),
                h * (3.0 * a + 7.0 * b) / 20.0,
                -h * h * (a / 30.0 + b / 20.0),
            ]);
        }
    }
    sum
}

/// The crate's answer at every node of the second route. The rigid springs and the matrix leave
/// some six digits.
pub(crate) fn agrees(what: &str, beam: &Beam, bending: &Bending) {
    let route = route(beam);
    let most = |values: &[f64]| values.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
    let (force_n, sunk_m) = (most(&route.reactions_n), most(&route.deflections_m));
    for (index, want) in route.reactions_n.iter().enumerate() {
        let name = format!("{what}: reaction {} by elements", index + 1);
        near(&name, bending.reactions_n[index], *want, 2e-6 * force_n, "N");
    }
    for (at_m, want) in route.nodes_m.iter().zip(&route.deflections_m) {
        let name = format!("{what}: deflection at {at_m} m by elements");
        near(&name, bending.diagram.deflection_m(*at_m), *want, 2e-5 * sunk_m, "m");
    }
}

/// Balance of all forces about two places.
pub(crate) fn balances(what: &str, beam: &Beam, bending: &Bending) {
    let scale_n: f64 = beam.loads.iter().map(|load| load.force_n().abs()).sum();
    for place_m in [-0.3, beam.length_m + 0.7] {
        let down: f64 = beam.loads.iter().map(|load| load.moment_about_n_m(place_m)).sum();
        let pairs = beam.supports.iter().zip(&bending.reactions_n);
        let up: f64 = pairs.map(|(support, force_n)| force_n * (support.at_m - place_m)).sum();
        let name = format!("{what}: moments about {place_m} m");
        near(&name, up, down, 1e-9 * scale_n * (beam.length_m + 1.0), "N m");
    }
}
