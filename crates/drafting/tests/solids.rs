//! The order in which sides are painted, against a depth buffer: along a line of sight the nearest
//! solid is the one that was painted last. The depth buffer is this test's own; it knows nothing of
//! parting planes, circles and cuts.

use drafting::solids::{Direction, Facing, Solid, in_order};
use nalgebra::{Isometry3, Point3, Rotation3, Translation3, UnitQuaternion, Vector3};

/// Lines of sight across and up.
const SIGHTS: usize = 90;
/// Nearer than this to an edge, or to another solid in depth, nothing is compared, m.
const EDGE_M: f64 = 0.004;

/// A small generator of the same numbers every time (Lehmer's, modulus 2^31 - 1, factor 48271).
struct Draw(u64);

impl Draw {
    fn unit(&mut self) -> f64 {
        self.0 = self.0 * 48_271 % 0x7fff_ffff;
        f64::from(u32::try_from(self.0).expect("31 bits")) / f64::from(0x7fff_ffff_u32)
    }

    fn within(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    fn direction(&mut self) -> Direction {
        Direction::new(self.within(-180.0, 180.0), self.within(8.0, 70.0))
    }
}

/// The corners of an upright box in the order that solids ask for.
fn corners(low: [f64; 3], high: [f64; 3]) -> [Point3<f64>; 8] {
    let at = |i: usize| {
        let [x, z] = [[low[0], low[2]], [high[0], low[2]], [high[0], high[2]], [low[0], high[2]]][i % 4];
        Point3::new(x, if i < 4 { low[1] } else { high[1] }, z)
    };
    std::array::from_fn(at)
}

fn block(low: [f64; 3], high: [f64; 3]) -> Solid {
    Solid::block(corners(low, high))
}

fn sheet(points: &[[f64; 3]]) -> Solid {
    Solid::sheet(points.iter().map(|[x, y, z]| Point3::new(*x, *y, *z)).collect())
}

fn double_area(outline: &[[f64; 2]], p: [f64; 2], i: usize) -> f64 {
    let (a, b) = (outline[i], outline[(i + 1) % outline.len()]);
    (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
}

/// How far inside a convex outline a point lies, m: negative outside. Either sense of going round.
fn depth_inside(outline: &[[f64; 2]], p: [f64; 2]) -> f64 {
    let distance = |i: usize| {
        let (a, b) = (outline[i], outline[(i + 1) % outline.len()]);
        let length = (b[0] - a[0]).hypot(b[1] - a[1]);
        (length > 1e-9).then(|| double_area(outline, p, i) / length)
    };
    // Within for either sense of going round: the lesser distance, of one sign or of the other.
    let all = (0..outline.len()).filter_map(distance);
    let [least, most] = all.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], d| [low.min(d), high.max(d)]);
    least.max(-most)
}

/// A side of a solid as it is seen: in the picture, with what tells how near its plane is there.
struct Seen {
    of: usize,
    outline: Vec<[f64; 2]>,
    /// Square to its plane, and how that goes along the lines of sight.
    normal: Vector3<f64>,
    along: f64,
    corner: Point3<f64>,
}

/// Every side that is not seen edgewise. The far sides of a closed solid are met as well: they are never the nearest.
fn seen(solids: &[Solid], from: Direction) -> Vec<Seen> {
    let toward = from.toward();
    let of_side = |of: usize, side: &[Point3<f64>]| {
        let normal = (side[1] - side[0]).cross(&(side[2] - side[0]));
        let along = normal.dot(&toward);
        let outline = side.iter().map(|corner| from.project(*corner)).collect();
        (along.abs() >= 1e-9 * normal.norm()).then_some(Seen { of, outline, normal, along, corner: side[0] })
    };
    let sides = solids.iter().enumerate().flat_map(|(of, solid)| solid.sides().map(move |side| (of, side)));
    sides.filter_map(|(of, side)| of_side(of, &side)).collect()
}

/// How near to the viewer each side meets the line of sight through a point of the picture; with how far that is
/// from the side's edges.
fn met(sides: &[Seen], from: Direction, p: [f64; 2]) -> Vec<(usize, f64, f64)> {
    // The point of the side's plane that is seen there: from the foot of the line of sight along it.
    let foot = foot(from, p);
    let inside = sides.iter().map(|side| (side, depth_inside(&side.outline, p))).filter(|(_, inside)| *inside >= 0.0);
    inside.map(|(side, inside)| (side.of, side.normal.dot(&(side.corner - foot)) / side.along, inside)).collect()
}

/// The point of the line of sight nearest to the origin. Right and up are square to each other.
fn foot(from: Direction, p: [f64; 2]) -> Point3<f64> {
    let axis = |unit: Vector3<f64>| from.project(Point3::from(unit));
    let (x, y, z) = (axis(Vector3::x()), axis(Vector3::y()), axis(Vector3::z()));
    let back = |i: usize| Vector3::new(x[i], y[i], z[i]);
    Point3::from(back(0) * p[0] + back(1) * p[1])
}

/// How many lines of sight were compared, and how many show another solid than the nearest.
fn compared(solids: &[Solid], from: Direction, painted: &[Facing]) -> [usize; 2] {
    let all: Vec<[f64; 2]> = solids.iter().flat_map(Solid::corners).map(|corner| from.project(*corner)).collect();
    let reach = |i: usize| all.iter().fold([f64::INFINITY, f64::NEG_INFINITY], |[a, b], p| [a.min(p[i]), b.max(p[i])]);
    let (across, up) = (reach(0), reach(1));
    #[expect(clippy::cast_precision_loss, reason = "below a hundred")]
    let part = |i: usize, [low, high]: [f64; 2]| low + (high - low) * (i as f64 + 0.5) / SIGHTS as f64;
    let sides = seen(solids, from);
    let (mut count, mut wrong) = (0, 0);
    for (i, k) in (0..SIGHTS).flat_map(|i| (0..SIGHTS).map(move |k| (i, k))) {
        let p = [part(i, across), part(k, up)];
        let met = met(&sides, from, p);
        let Some(nearest) = met.iter().copied().reduce(|a, b| if b.1 > a.1 { b } else { a }) else { continue };
        let near_edge = met.iter().any(|(_, along, inside)| *inside < EDGE_M && *along > nearest.1 - EDGE_M);
        let level = met.iter().any(|(of, along, _)| *of != nearest.0 && *along > nearest.1 - EDGE_M);
        let near_cut = painted.iter().any(|face| depth_inside(&face.outline, p).abs() < EDGE_M);
        if near_edge || level || near_cut {
            continue;
        }
        count += 1;
        let shown = painted.iter().rev().find(|face| depth_inside(&face.outline, p) > 0.0).map(|face| face.of);
        wrong += usize::from(shown != Some(nearest.0));
    }
    [count, wrong]
}

/// Axes of the floor and of a bed that slopes.
fn axes(slope: f64) -> Vec<Vector3<f64>> {
    let turn = Rotation3::from_axis_angle(&Vector3::y_axis(), slope);
    vec![Vector3::x(), Vector3::y(), Vector3::z(), turn * Vector3::x(), turn * Vector3::z()]
}

#[track_caller]
fn nearest_shows(solids: &[Solid], from: Direction, common: &[Vector3<f64>]) -> Vec<Facing> {
    let painted = in_order(solids, from, common, |_| false);
    let [count, wrong] = compared(solids, from, &painted);
    assert!(count > 200, "only {count} lines of sight {} tell anything", from.words());
    assert_eq!(wrong, 0, "of {count} lines of sight {} so many show what lies behind", from.words());
    painted
}

/// Layers of bags and boards on a sloping bed, with gaps; every other layer crosswise.
fn pile(draw: &mut Draw, slope: f64) -> Vec<Solid> {
    let mut solids = Vec::new();
    let turn = Isometry3::from_parts(
        Translation3::new(0.0, 0.0, 0.4),
        UnitQuaternion::from_axis_angle(&Vector3::y_axis(), slope),
    );
    let mut z = 0.0;
    for layer in 0..5 {
        let thick = draw.within(0.03, 0.09);
        let size = if layer % 2 == 0 { [0.24, 0.16] } else { [0.16, 0.24] };
        for spot in 0..6 {
            let [i, k] = if layer % 2 == 0 { [spot % 2, spot / 2] } else { [spot % 3, spot / 3] };
            let at = |n: i32, size: f64| f64::from(n) * (size + 0.004);
            let (x, y) = (at(i, size[0]) + draw.within(0.0, 0.003), at(k, size[1]) + draw.within(0.0, 0.003));
            let corners = corners([x, y, z], [x + size[0], y + size[1], z + thick]).map(|corner| turn * corner);
            solids.push(if layer == 0 { Solid::block(corners) } else { Solid::pillow(&corners) });
        }
        z += thick;
    }
    solids
}

#[test]
fn of_a_pile_the_nearest_piece_shows_from_everywhere() {
    for seed in 1..=16 {
        let mut draw = Draw(seed * 7919);
        let slope = draw.within(-0.3, 0.3);
        let solids = pile(&mut draw, slope);
        nearest_shows(&solids, draw.direction(), &axes(slope));
    }
}

#[test]
fn a_reversed_order_is_told_by_the_depth_buffer() {
    let mut draw = Draw(4711);
    let solids = pile(&mut draw, 0.1);
    let mut painted = in_order(&solids, Direction::HOME, &axes(0.1), |_| false);
    painted.reverse();
    let [count, wrong] = compared(&solids, Direction::HOME, &painted);
    assert!(wrong * 4 > count, "only {wrong} of {count} lines of sight tell that the order is reversed");
}

#[test]
fn swapping_any_two_solids_that_cover_each_other_is_told() {
    let (low, high) = (block([0.0, 0.0, 0.0], [0.5, 0.5, 0.2]), block([0.1, 0.1, 0.2], [0.4, 0.4, 0.5]));
    let solids = [high, low];
    let painted = nearest_shows(&solids, Direction::HOME, &[]);
    let (first, last) = (painted.first().expect("seen").of, painted.last().expect("seen").of);
    assert_eq!([first, last], [1, 0], "what lies beneath is painted first");
    let swapped: Vec<Facing> = painted.iter().rev().cloned().collect();
    assert!(compared(&solids, Direction::HOME, &swapped)[1] > 100, "the swap shows");
}

/// Each beam passes in front of the next: seen along the diagonal none of the three can be painted
/// last.
#[test]
fn three_beams_over_one_another_are_cut() {
    let beams = [
        block([-1.0, 0.2, -0.1], [1.0, 0.4, 0.1]),
        block([-0.1, -1.0, 0.2], [0.1, 1.0, 0.4]),
        block([0.2, -0.1, -1.0], [0.4, 0.1, 1.0]),
    ];
    // Towards (1, 1, 1): behind on the right, as high as the diagonal of a cube, arctan(1 / sqrt 2).
    let diagonal = Direction::new(-135.0, 35.264);
    let painted = nearest_shows(&beams, diagonal, &axes(0.0));
    assert!(painted.iter().any(|face| face.edges.contains(&false)), "nothing was cut");
    let mut draw = Draw(99);
    (0..8).for_each(|_| drop(nearest_shows(&beams, draw.direction(), &axes(0.0))));
}

/// A timber frame with its beams let into one another, halved joints drawn whole.
#[test]
fn beams_let_into_one_another_show_what_stands_out() {
    let frame = [
        block([0.0, 0.0, 0.0], [1.0, 0.08, 0.08]),
        block([0.0, 0.7, 0.0], [1.0, 0.78, 0.08]),
        block([0.1, -0.1, 0.02], [0.18, 0.9, 0.1]),
        block([0.8, -0.1, 0.02], [0.88, 0.9, 0.1]),
        block([0.1, 0.0, 0.04], [0.18, 0.08, 0.5]),
        block([0.8, 0.7, 0.04], [0.88, 0.78, 0.5]),
        block([-0.1, 0.01, 0.4], [1.1, 0.07, 0.46]),
    ];
    let mut draw = Draw(5);
    (0..10).for_each(|_| drop(nearest_shows(&frame, draw.direction(), &axes(0.0))));
}

/// A plate on posts that reach through it, a rail through both, bags on the plate between them: what lies in one another
/// is cut, the bags are not, though rail, bags and plate go round in a circle.
#[test]
fn what_lies_in_nothing_is_not_cut_beside_what_does() {
    let mut solids = vec![block([0.0, 0.0, 0.4], [1.0, 0.8, 0.42])];
    let posts = [[0.1, 0.1], [0.1, 0.6], [0.8, 0.1], [0.8, 0.6]];
    solids.extend(posts.map(|[x, y]| block([x, y, 0.0], [x + 0.08, y + 0.08, 0.7])));
    solids.push(block([-0.1, 0.11, 0.35], [1.1, 0.17, 0.5]));
    let bags = solids.len();
    for layer in 0..4 {
        let z = 0.42 + 0.05 * f64::from(layer);
        let at = |x: f64, y: f64| Solid::pillow(&corners([x, y, z], [x + 0.2, y + 0.15, z + 0.05]));
        solids.extend([at(0.25, 0.25), at(0.46, 0.25), at(0.25, 0.42), at(0.46, 0.42)]);
    }
    let mut draw = Draw(271);
    for from in (0..12).map(|_| draw.direction()) {
        let painted = nearest_shows(&solids, from, &axes(0.0));
        assert!(painted.iter().filter(|face| face.of >= bags).all(|face| !face.edges.contains(&false)), "a bag is cut");
        assert!(painted.iter().any(|face| face.edges.contains(&false)), "nothing is cut");
    }
}

/// Three boards of one thickness, halved into one another and flush above: none of them is missing where all three are.
#[test]
fn flush_boards_that_cross_at_one_place_leave_no_hole() {
    let turned = |deg: f64| {
        let turn = Rotation3::from_axis_angle(&Vector3::z_axis(), deg.to_radians());
        Solid::block(corners([-0.5, -0.05, 0.0], [0.5, 0.05, 0.05]).map(|corner| turn * corner))
    };
    let boards = [turned(0.0), turned(60.0), turned(120.0)];
    let above = Direction::new(20.0, 80.0);
    let painted = in_order(&boards, above, &axes(0.0), |_| false);
    for (x, y) in (-4..=4).flat_map(|x| (-4..=4).map(move |y| (0.01 * f64::from(x), 0.01 * f64::from(y)))) {
        let p = above.project(Point3::new(x + 0.001, y + 0.002, 0.05));
        assert!(painted.iter().any(|face| depth_inside(&face.outline, p) >= -1e-9), "a hole at {x}, {y} m");
    }
}

/// Sheets of a bucket that slopes, boards and bags in it, rails beside it.
#[test]
fn a_sloping_bucket_hides_and_is_hidden() {
    for seed in 1..=10 {
        let mut draw = Draw(seed * 104_729);
        let slope = draw.within(0.05, 0.35);
        let turn = Rotation3::from_axis_angle(&Vector3::y_axis(), slope);
        let tilted = |solid: [Point3<f64>; 8]| solid.map(|corner| turn * corner);
        let turned = |points: [[f64; 3]; 4]| {
            let at = |[x, y, z]: [f64; 3]| turn * Point3::new(x, y, z);
            Solid::sheet(points.map(at).to_vec())
        };
        let solids = vec![
            turned([[0.0, -0.25, 0.0], [0.5, -0.25, 0.0], [0.5, 0.25, 0.0], [0.0, 0.25, 0.0]]),
            turned([[0.5, -0.25, 0.0], [0.7, -0.25, 0.6], [0.7, 0.25, 0.6], [0.5, 0.25, 0.0]]),
            turned([[0.0, -0.25, 0.0], [-0.1, -0.25, 0.08], [-0.1, 0.25, 0.08], [0.0, 0.25, 0.0]]),
            Solid::block(tilted(corners([0.05, -0.2, 0.0], [0.45, 0.2, 0.04]))),
            Solid::pillow(&tilted(corners([0.05, -0.2, 0.04], [0.29, 0.0, 0.1]))),
            Solid::pillow(&tilted(corners([0.05, 0.0, 0.04], [0.29, 0.2, 0.1]))),
            Solid::pillow(&tilted(corners([0.1, -0.1, 0.1], [0.34, 0.1, 0.16]))),
            block([-0.2, -0.4, 0.0], [0.8, -0.34, 0.06]),
            block([-0.2, 0.34, 0.0], [0.8, 0.4, 0.06]),
        ];
        nearest_shows(&solids, draw.direction(), &axes(slope));
    }
}

#[test]
fn bags_that_lie_in_one_another_show_the_outer_one() {
    for seed in 1..=10 {
        let mut draw = Draw(seed * 31_337);
        let bag = |draw: &mut Draw, x: f64, y: f64| {
            let (x, y) = (x + draw.within(-0.01, 0.01), y + draw.within(-0.01, 0.01));
            Solid::pillow(&corners([x, y, 0.0], [x + 0.26, y + 0.18, 0.07]))
        };
        let mut bags: Vec<Solid> = Vec::new();
        for spot in 0..6 {
            bags.push(bag(&mut draw, 0.24 * f64::from(spot % 2), 0.16 * f64::from(spot / 2)));
        }
        nearest_shows(&bags, draw.direction(), &axes(0.0));
    }
}

/// Boxes any way round through each other, and crossing sheets: no axis is common to them.
#[test]
fn a_heap_of_anything_shows_the_nearest() {
    for seed in 1..=12 {
        let mut draw = Draw(seed * 65_537);
        let mut solids: Vec<Solid> = Vec::new();
        for _ in 0..9 {
            let turn = UnitQuaternion::from_euler_angles(draw.within(0.0, 6.0), draw.within(0.0, 6.0), draw.unit());
            let place = Translation3::new(draw.unit(), draw.unit(), draw.unit());
            let size = [0, 1, 2].map(|_| draw.within(0.05, 0.6));
            let pose = Isometry3::from_parts(place, turn);
            solids.push(Solid::block(corners([0.0; 3], size).map(|corner| pose * corner)));
        }
        solids.push(sheet(&[[0.0, 0.0, 0.1], [1.0, 0.0, 0.9], [1.0, 1.0, 0.9], [0.0, 1.0, 0.1]]));
        solids.push(sheet(&[[0.0, 0.0, 0.9], [1.0, 0.0, 0.1], [1.0, 1.0, 0.1], [0.0, 1.0, 0.9]]));
        nearest_shows(&solids, draw.direction(), &[]);
    }
}

#[test]
fn a_side_that_is_hidden_is_left_out_but_not_behind_what_lets_light_through() {
    let solids = [
        block([0.0, 0.0, 0.0], [0.2, 0.2, 0.2]),
        sheet(&[[-1.0, -1.0, 0.3], [1.0, -1.0, 0.3], [1.0, 1.0, 0.3], [-1.0, 1.0, 0.3]]),
    ];
    let from_above = Direction::new(60.0, 80.0);
    let hidden = in_order(&solids, from_above, &[], |_| false);
    assert!(hidden.iter().all(|face| face.of == 1), "the sheet hides the box");
    let through = in_order(&solids, from_above, &[], |of| of == 1);
    assert_eq!(through.iter().filter(|face| face.of == 0).count(), 3, "three sides of the box show through");
}

#[test]
fn a_direction_goes_by_corners_and_says_where_it_is() {
    let home = Direction::HOME;
    assert_eq!(home.words(), "from the left front, 25° above");
    let round: Vec<String> =
        std::iter::successors(Some(home), |at| Some(at.next_corner())).take(5).map(Direction::words).collect();
    let names = ["left front", "left rear", "right rear", "right front", "left front"];
    for (words, name) in round.iter().zip(names) {
        assert_eq!(*words, format!("from the {name}, 25° above"));
    }
    assert_eq!(home.next_corner().corner_before(), home);
    assert_eq!(Direction::new(90.0, 25.0).words(), "from the left, 25° above");
    assert_eq!(Direction::new(-180.0, 200.0).words(), "from behind, 85° above");
    assert_eq!(Direction::new(f64::NAN, f64::NAN).words(), "from ahead, 5° above");
}

/// From the left and low the picture is the side view: aft to the right, up upwards. From the left
/// front the nose points to the left, the left side to the right.
#[test]
fn the_picture_has_aft_left_and_up_where_the_viewer_sees_them() {
    let close = |got: f64, want: f64, what: &str| assert!((got - want).abs() < 1e-9, "{what}: got {got}, want {want}");
    let left = Direction::new(90.0, 30.0);
    close(left.project(Point3::new(1.0, 0.0, 0.0))[0], 1.0, "aft lies to the right");
    close(left.project(Point3::new(0.0, 0.0, 1.0))[1], 30.0_f64.to_radians().cos(), "up lies upwards, foreshortened");
    close(left.project(Point3::new(0.0, 1.0, 0.0))[1], 30.0_f64.to_radians().sin(), "the far side lies higher");
    let nose = Direction::HOME.project(Point3::new(-1.0, 0.0, 0.0));
    let left_side = Direction::HOME.project(Point3::new(0.0, -1.0, 0.0));
    assert!(nose[0] < 0.0 && nose[1] < 0.0, "the nose points to the left and to the viewer: {nose:?}");
    assert!(left_side[0] > 0.0 && left_side[1] < 0.0, "the left side lies to the right, nearer: {left_side:?}");
}
