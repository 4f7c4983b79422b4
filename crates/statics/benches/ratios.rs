//! Each figure beside a named alternative, in one run and by one clock, and how the times grow: a general conic solver called
//! plainly on every state and direction, the simplex method on friction polygons, an engine that steps through time while
//! the same blocks settle. Blocks in crossed layers of six. Prints the tables of `README.md` and draws `growth.svg`, both
//! beside this file.
//!
//! Time is processor time of the process, all threads, so that a busy machine counts little.

#[path = "../tests/equilibrium/simplex.rs"]
mod simplex;
#[expect(dead_code, reason = "other benches measure bags and rough blocks too")]
mod stacks;

use rapier3d_f64::prelude::*;
use simplex::by_simplex;
use stacks::{Settled, crossing};
use statics::equilibrium::{Effort, collapse, collapse_by_general_solver, every_step};
use std::f64::consts::TAU;
use std::fmt::Write as _;
use std::hint::black_box;
use std::io::Write as _;

const DIRECTIONS: u32 = 16;
/// For how long the blocks settle in the engine, s.
const SETTLING_S: f64 = 2.0;
const STEP_S: f64 = 0.001;
/// Blocks are put this far apart in the engine, so that none begins within another, m.
const APART_M: f64 = 1e-4;

/// Times of one way, by pieces, s.
struct Curve {
    name: &'static str,
    ink: &'static str,
    points: Vec<(u32, f64)>,
}

fn main() -> std::io::Result<()> {
    let mut curves = Vec::new();
    let mut measure = |name, ink, counts: &[u32], work: &dyn Fn(&Settled)| {
        let point = |count: &u32| (*count, cost_s(&crossing(*count, 0.01), work));
        curves.push(Curve { name, ink, points: counts.iter().map(point).collect() });
    };
    let every = |settled: &Settled| {
        black_box(every_step(&settled.stack(), Effort::FULL, &|_| true));
    };
    measure("this crate, every state", "#0b6e69", &[12, 24, 48, 96, 192, 384], &every);
    measure("general conic solver, every state", "#b24a14", &[12, 24, 48, 96], &conic);
    measure("engine, two seconds of settling", "#6b5299", &[12, 24, 48, 96, 192], &engine);
    measure("this crate, one direction", "#0b6e69", &[6, 12, 18, 24], &|settled| {
        black_box(collapse(&settled.stack(), settled.bodies.len(), &[0.0]));
    });
    measure("simplex on polygons of eight, one direction", "#14171a", &[6, 12, 18, 24], &|settled| {
        black_box(by_simplex((&settled.bodies, &settled.pile), 0.0, 1.0));
    });
    let mut out = std::io::stdout();
    writeln!(out, "{}", table(&curves))?;
    std::fs::write(concat!(env!("CARGO_MANIFEST_DIR"), "/benches/growth.svg"), growth(&curves))
}

/// Every state on the way up, from scratch, in sixteen directions.
fn conic(settled: &Settled) {
    for placed in 1..=settled.bodies.len() {
        let state = Settled::new(&stacks::bed(0.6), settled.bodies[..placed].to_vec());
        for direction in 0..DIRECTIONS {
            let direction_rad = TAU * f64::from(direction) / f64::from(DIRECTIONS);
            black_box(collapse_by_general_solver(&state.stack(), direction_rad));
        }
    }
}

/// The blocks on a floor, stepped on. It answers no more than whether they stand by themselves.
fn engine(settled: &Settled) {
    let mut bodies = RigidBodySet::new();
    let mut colliders = ColliderSet::new();
    let floor = ColliderBuilder::cuboid(2.0, 2.0, 0.5).translation(Vector::new(0.0, 0.0, -0.5));
    colliders.insert(floor.friction(0.6));
    for (index, body) in settled.bodies.iter().enumerate() {
        let centre = settled.pile.centre(&settled.bodies, index);
        let lifted_m = APART_M * f64::from(u32::try_from(settled.pile.layer[index]).unwrap_or(u32::MAX));
        let at = Vector::new(centre.x, centre.y, centre.z + lifted_m);
        let block = bodies.insert(RigidBodyBuilder::dynamic().translation(at).can_sleep(false));
        let [x, y, z] = body.extent_m.map(|side| 0.5 * side);
        let shape = ColliderBuilder::cuboid(x, y, z).mass(body.mass_kg).friction(body.friction);
        colliders.insert_with_parent(shape, block, &mut bodies);
    }
    let parameters = IntegrationParameters { dt: STEP_S, ..IntegrationParameters::default() };
    let (mut pipeline, mut islands) = (PhysicsPipeline::new(), IslandManager::new());
    let (mut broad, mut narrow) = (DefaultBroadPhase::default(), NarrowPhase::new());
    let (mut joints, mut multibodies) = (ImpulseJointSet::new(), MultibodyJointSet::new());
    let (mut soft_bodies, mut continuous) = (SoftBodySet::default(), CCDSolver::new());
    let mut passed_s = 0.0;
    while passed_s < SETTLING_S {
        pipeline.step(
            Vector::new(0.0, 0.0, -9.80665),
            &parameters,
            &mut islands,
            &mut broad,
            &mut narrow,
            &mut bodies,
            &mut colliders,
            &mut joints,
            &mut multibodies,
            &mut soft_bodies,
            &mut continuous,
            &(),
            &(),
        );
        passed_s += STEP_S;
    }
    black_box(bodies.len());
}

/// Processor time of what is done, s: as often as it takes for the kernel's hundredths to tell it to a few in a hundred.
fn cost_s(settled: &Settled, work: &dyn Fn(&Settled)) -> f64 {
    let (before, mut times) = (processor_s(), 0.0);
    loop {
        work(settled);
        times += 1.0;
        let spent_s = processor_s() - before;
        if spent_s > 0.3 {
            return spent_s / times;
        }
    }
}

/// User and system time of the process, in the kernel's hundredths of a second.
fn processor_s() -> f64 {
    let text = std::fs::read_to_string("/proc/self/stat").expect("Linux tells what a process costs");
    let after_name = text.rsplit(')').next().expect("the name ends with a bracket");
    let ticks = after_name.split_whitespace().skip(11).take(2);
    ticks.map(|word| word.parse::<f64>().expect("ticks")).sum::<f64>() / 100.0
}

/// Every alternative beside this crate's time for the same stack.
fn table(curves: &[Curve]) -> String {
    let mut text = "| pieces | this crate | alternative | time | ratio |\n| --- | --- | --- | --- | --- |\n".to_owned();
    for (own, others) in [(&curves[0], &curves[1..3]), (&curves[3], &curves[4..5])] {
        for other in others {
            for (count, other_s) in &other.points {
                let own_s = own.points.iter().find(|(pieces, _)| pieces == count).map_or(f64::NAN, |(_, own_s)| *own_s);
                let ratio = other_s / own_s;
                let _ = writeln!(text, "| {count} | {own_s:.2e} s | {} | {other_s:.2e} s | {ratio:.0} |", other.name);
            }
        }
    }
    text
}

const WIDE_PT: f64 = 640.0;
const HIGH_PT: f64 = 400.0;
/// Least and greatest of the axes: pieces and seconds.
const PIECES: [f64; 2] = [5.0, 500.0];
const SECONDS: [f64; 2] = [1e-5, 1e3];

/// Time over pieces, both axes by powers, with the square drawn in.
fn growth(curves: &[Curve]) -> String {
    let along = |value: f64, [least, most]: [f64; 2]| (value / least).ln() / (most / least).ln();
    let at = |pieces: f64, s: f64| {
        [60.0 + (WIDE_PT - 80.0) * along(pieces, PIECES), HIGH_PT - 40.0 - (HIGH_PT - 60.0) * along(s, SECONDS)]
    };
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDE_PT} {HIGH_PT}\" font-family=\"sans-serif\" \
         font-size=\"11\">\n<title>Processor time by pieces</title>\n<rect width=\"100%\" height=\"100%\" fill=\"#faf8f4\"/>\n"
    );
    let mut text = |x: f64, y: f64, ink: &str, words: &str| {
        let _ = writeln!(svg, "<text x=\"{x:.1}\" y=\"{y:.1}\" fill=\"{ink}\">{words}</text>");
    };
    for power in -5..=3 {
        let [_, y] = at(PIECES[0], 10_f64.powi(power));
        text(8.0, y + 4.0, "#555", &format!("1e{power} s"));
    }
    for pieces in [5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0] {
        let [x, _] = at(pieces, SECONDS[0]);
        text(x - 8.0, HIGH_PT - 22.0, "#555", &format!("{pieces}"));
    }
    text(WIDE_PT / 2.0, HIGH_PT - 6.0, "#555", "pieces");
    for (line, curve) in curves.iter().enumerate() {
        let below = f64::from(u32::try_from(line).unwrap_or_default());
        text(74.0, 24.0 + 15.0 * below, curve.ink, curve.name);
    }
    text(74.0, 24.0 + 15.0 * 5.0, "#999", "dashed: the square of the pieces");
    let mut line = |points: &mut dyn Iterator<Item = (f64, f64)>, style: &str| {
        let places = points.map(|(pieces, s)| at(pieces, s)).map(|[x, y]| format!("{x:.1},{y:.1}"));
        let _ = writeln!(svg, "<polyline points=\"{}\" fill=\"none\" {style}/>", places.collect::<Vec<_>>().join(" "));
    };
    for curve in curves {
        let mut points = curve.points.iter().map(|(pieces, s)| (f64::from(*pieces), *s));
        line(&mut points, &format!("stroke=\"{}\" stroke-width=\"2\"", curve.ink));
    }
    let square = |pieces: f64| (pieces, curves[0].points[0].1 * (pieces / 12.0).powi(2));
    line(&mut [square(12.0), square(384.0)].into_iter(), "stroke=\"#999\" stroke-dasharray=\"4 4\"");
    svg + "</svg>\n"
}
