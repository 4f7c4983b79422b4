//! Article and fixture as solids: the outline's lines with their breadth, bearings, supports, catch
//! blocks, straps.

use super::dress::What;
use super::{Item, Spread, bags};
use crate::figure::Surface;
use crate::solids::Solid;
use crate::views::{self, Scene};
use nalgebra::{Isometry3, Point3, Vector3};
use plan::{Line, Stuff};
use quantity::Quantity;

/// How wide and deep a scale's platform and a block are drawn, m: the plan gives the middle of their
/// tops alone.
const PLATFORM_M: f64 = 0.16;
const BLOCK_M: f64 = 0.12;
/// How thick a bearing is drawn, m.
const BEARING_M: f64 = 0.02;
/// How thick a line without breadth, and a strap, is drawn, m.
const WIRE_M: f64 = 0.008;

pub(super) fn items(scene: &Scene, spread: Spread) -> Vec<Item> {
    let mut items = Vec::new();
    supports(scene, &mut items);
    catch_blocks(scene, &mut items);
    for line in &scene.plan.article.outline {
        outline(scene, line, &mut items);
    }
    bearings(scene, &mut items);
    straps(scene, spread, &mut items);
    items
}

fn member(surface: Surface, solid: Solid) -> Item {
    Item { what: What::Member(surface), solid }
}

/// From the floor up to a point, so wide and deep; nothing where that has no height.
fn pillar(scene: &Scene, top: Point3<f64>, wide_m: f64) -> Option<Solid> {
    let (floor_m, half) = (scene.floor_m(), 0.5 * wide_m);
    let at = |i: usize, y: f64| {
        let [x, z] = [[-half, floor_m], [half, floor_m], [half, top.z], [-half, top.z]][i % 4];
        Point3::new(top.x + x, top.y + y, z)
    };
    (top.z > floor_m + 1e-6).then(|| Solid::block(std::array::from_fn(|i| at(i, if i < 4 { -half } else { half }))))
}

fn supports(scene: &Scene, items: &mut Vec<Item>) {
    for support in &scene.plan.fixture.supports {
        let wide_m = if support.scale { PLATFORM_M } else { BLOCK_M };
        let solid = pillar(scene, plan::point(support.at), wide_m);
        items.extend(solid.map(|solid| member(Surface::Metal, solid)));
    }
}

fn catch_blocks(scene: &Scene, items: &mut Vec<Item>) {
    for block in &scene.plan.fixture.catch_blocks {
        let solid = pillar(scene, plan::point(block.at), BLOCK_M);
        items.extend(solid.map(|solid| member(Surface::Timber, solid)));
    }
}

fn bearings(scene: &Scene, items: &mut Vec<Item>) {
    for bearing in &scene.plan.bed.bearings {
        let top = bearing.top.si();
        let corners =
            scene.box_in_floor((bearing.x.map(Quantity::si), bearing.y.map(Quantity::si), [top - BEARING_M, top]));
        items.push(member(Surface::Metal, Solid::block(corners)));
    }
}

fn straps(scene: &Scene, spread: Spread, items: &mut Vec<Item>) {
    for strap in &scene.plan.fixture.hold_downs {
        let upper = scene.plan.floor_from_article() * plan::point(strap.on_article);
        items.extend(wire(upper, plan::point(strap.on_floor)).map(|solid| member(Surface::Strap, solid)));
    }
    for line in views::bindings_in_floor(scene, WIRE_M, |step| bags::lift(scene, spread, step)) {
        let pieces = line.windows(2).filter_map(|ends| wire(ends[0], ends[1]));
        items.extend(pieces.map(|solid| member(Surface::Strap, solid)));
    }
}

/// A square bar from point to point; none between points that coincide.
fn wire(from: Point3<f64>, to: Point3<f64>) -> Option<Solid> {
    let along = (to - from).try_normalize(1e-9)?;
    let beside = if along.y.abs() < 0.9 { Vector3::y() } else { Vector3::x() };
    let across = along.cross(&beside).normalize() * (0.5 * WIRE_M);
    let side = along.cross(&across);
    let outline = [from + across + side, from + across - side, from - across - side, from - across + side];
    Some(Solid::prism(&outline, to - from))
}

/// What a line of the side view stands for: a pair of members, one member, a skin, or only a line.
fn outline(scene: &Scene, line: &Line, items: &mut Vec<Item>) {
    let in_floor = scene.plan.floor_from_article();
    let points: Vec<[f64; 2]> = line.points.iter().map(|p| p.map(Quantity::si)).collect();
    let Some(half) = line.half_breadth.map(Quantity::si) else {
        return wires(&in_floor, &points, 0.0, items);
    };
    if !line.is_closed() {
        let skins = points.windows(2).map(|ends| skin(&in_floor, [ends[0], ends[1]], half));
        return items.extend(skins.map(|solid| Item { what: What::Skin, solid }));
    }
    match views::section(&points) {
        Some(section) => {
            let bars = views::ranges(line).into_iter().map(|range| bar(&in_floor, &section, range));
            items.extend(bars.map(|solid| member(surface(line.stuff), solid)));
        }
        // A section that is not convex: its outline on either side.
        None => [-half, half].into_iter().for_each(|y| wires(&in_floor, &points, y, items)),
    }
}

fn surface(stuff: Stuff) -> Surface {
    match stuff {
        Stuff::Metal => Surface::Metal,
        Stuff::Timber => Surface::Timber,
    }
}

fn wires(in_floor: &Isometry3<f64>, points: &[[f64; 2]], y: f64, items: &mut Vec<Item>) {
    let at = |[x, z]: [f64; 2]| in_floor * Point3::new(x, y, z);
    let solids = points.windows(2).filter_map(|ends| wire(at(ends[0]), at(ends[1])));
    items.extend(solids.map(|solid| Item { what: What::Line, solid }));
}

fn skin(in_floor: &Isometry3<f64>, [[x0, z0], [x1, z1]]: [[f64; 2]; 2], half: f64) -> Solid {
    let corners = [[x0, -half, z0], [x1, -half, z1], [x1, half, z1], [x0, half, z0]];
    Solid::sheet(corners.into_iter().map(|[x, y, z]| in_floor * Point3::new(x, y, z)).collect())
}

fn bar(in_floor: &Isometry3<f64>, section: &[[f64; 2]], [from, to]: [f64; 2]) -> Solid {
    let outline: Vec<Point3<f64>> = section.iter().map(|[x, z]| in_floor * Point3::new(*x, from, *z)).collect();
    Solid::prism(&outline, in_floor * Vector3::new(0.0, to - from, 0.0))
}
