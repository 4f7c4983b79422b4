//! What is proved about one direction, and by which route: forces that were checked to hold a push
//! (from below), a motion that was checked to exclude any greater one (from above). The method of
//! this crate is asked first, the general solver where that stops short.

use super::cone::Part;
use super::forces::{Forces, miss};
use super::group::Group;
use super::handed::{Normals, hand_down};
use super::interior::Shape;
use super::mended::mended;
use super::motion::{HalfPlane, Motion, admissible, half_plane};
use super::plain;
use quantity::frame::plan_direction;

/// A miss of balance or cone below this part of the weight is rounding.
pub(super) const BALANCED: f64 = 1e-7;
/// Bounds from below and above are one number when they are this close, relatively.
pub(super) const ALIKE: f64 = 1e-6;
/// Multipliers smaller than this are compared as if they were this great.
const SMALL: f64 = 0.1;

/// How many steps each solver may take in one solve. What fewer leave open comes back as not decided.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Steps of this crate's method.
    pub own: u32,
    /// Steps of the general solver, asked where the first stops short.
    pub general: u32,
}

impl Effort {
    /// As many as have decided every stack so far, with room to spare.
    pub const FULL: Effort = Effort { own: 60, general: 200 };
}

/// A push that forces were found to hold, and the normal forces among them.
#[derive(Clone)]
pub(super) struct Held {
    /// [aft, right], parts of the weight.
    pub(super) push: [f64; 2],
    pub(super) forces: Forces,
}

/// A motion that no equilibrium allows beyond its half-plane.
#[derive(Clone)]
pub(super) struct Barred {
    pub(super) half_plane: HalfPlane,
    pub(super) motion: Motion,
}

/// What came of one direction.
pub(super) enum Found {
    /// The greatest push, from below and from above.
    Limit(Held, Barred),
    /// As much as was asked for is held; how much more was not worked out.
    Held(Held),
    /// No push at all can hold it: the half-plane leaves out even the weight alone.
    Falls(Barred),
    /// The push may grow without end.
    Unlimited,
    /// Not decided; the miss of the best forces, if there were any.
    Open(Option<f64>),
}

/// Up to what a bound from below may fall short of one from above and still be the same number.
pub(super) fn slack(multiplier: f64) -> f64 {
    ALIKE * multiplier.abs().max(SMALL)
}

/// Forces to start from: those of the pile at rest where they are easily found, even pressure where not.
pub(super) fn start(group: &Group) -> Forces {
    let corners = 4 * group.joints.len();
    let at_rest = hand_down(group, [0.0; 2], &vec![0.0; corners]);
    let normals = at_rest.map_or_else(|| vec![0.25; corners], |forces| normals(group, &forces));
    // Well within the cones: a start on their skin stalls.
    let within = |(joint, normals): (&super::group::Joint, &[f64])| {
        let (mean, steepness) = (0.25 * normals.iter().sum::<f64>(), joint.steepness());
        std::array::from_fn::<Part, 4, _>(|corner| [steepness * (0.5 * (normals[corner] + mean) + 1e-4), 0.0, 0.0])
    };
    group.joints.iter().zip(normals.chunks_exact(4)).flat_map(within).collect()
}

/// The greatest push along a direction in plan, rad; once `enough` is held, any push that is.
pub(super) fn push(shape: &Shape, direction_rad: f64, enough: f64, effort: Effort) -> Found {
    let (group, direction) = (shape.group(), plan_direction(direction_rad));
    let along = group.axes.along(direction_rad);
    let own = shape.push(&along, enough, effort.own);
    if own.multiplier >= enough
        && let Some(held) = checked(group, direction, &own.forces, own.multiplier)
    {
        return Found::Held(held);
    }
    let found = weigh(group, direction, &own.forces, own.multiplier, own.motion);
    if !matches!(found, Found::Open(_)) {
        return found;
    }
    let Some(second) = plain::push(group, &along, effort.general) else { return found };
    if second.unlimited && grows_alone(group, direction, &second.forces, second.multiplier) {
        return Found::Unlimited;
    }
    match (weigh(group, direction, &second.forces, second.multiplier, second.motion), found) {
        (Found::Open(second), Found::Open(first)) => Found::Open(smaller(first, second)),
        (decided, _) => decided,
    }
}

/// The miss of a state that did not decide is worth more the smaller it is.
fn smaller(a: Option<f64>, b: Option<f64>) -> Option<f64> {
    a.into_iter().chain(b).filter(|miss| miss.is_finite()).min_by(f64::total_cmp)
}

/// Believes nothing: forces and motion are checked, and decide only if they meet.
fn weigh(group: &Group, direction: [f64; 2], forces: &Forces, multiplier: f64, motion: Motion) -> Found {
    let push = direction.map(|part| multiplier * part);
    let miss = miss(group, forces, push);
    let motion = admissible(group, motion);
    let barred = half_plane(group, &motion).map(|half_plane| Barred { half_plane, motion });
    match barred {
        Some(barred) if barred.half_plane.reach < -BALANCED => Found::Falls(barred),
        Some(barred) if miss <= BALANCED && meets(&barred, direction, multiplier) => {
            Found::Limit(Held { push, forces: forces.clone() }, barred)
        }
        _ => Found::Open(Some(miss).filter(|miss| miss.is_finite())),
    }
}

fn checked(group: &Group, direction: [f64; 2], forces: &Forces, multiplier: f64) -> Option<Held> {
    let push = direction.map(|part| multiplier * part);
    (miss(group, forces, push) <= BALANCED).then(|| Held { push, forces: forces.clone() })
}

fn meets(barred: &Barred, direction: [f64; 2], multiplier: f64) -> bool {
    barred.half_plane.along(direction) - multiplier <= slack(multiplier)
}

fn normals(group: &Group, forces: &Forces) -> Normals {
    let joints = group.joints.iter().zip(forces.chunks_exact(4));
    joints.flat_map(|(joint, parts)| parts.iter().map(|part| part[0] / joint.steepness())).collect()
}

/// A ray of forces that balances the push alone, without weight: it may be added any number of times.
fn grows_alone(group: &Group, direction: [f64; 2], forces: &Forces, multiplier: f64) -> bool {
    let ray: Forces = forces.iter().map(|part| part.map(|part| part / multiplier)).collect();
    let push = group.push(&group.axes.level(direction));
    let held = super::forces::on_bodies(group, &ray);
    let rows = push.iter().flatten().zip(held.iter().flatten()).map(|(push, held)| (push + held).abs());
    let cones = ray.iter().map(super::cone::outside);
    multiplier > 0.0 && rows.chain(cones).all(|miss| miss <= BALANCED)
}

/// Tries to prove by handing the load down that a push is held; see there for what this can't find.
pub(super) fn quickly(group: &Group, push: [f64; 2], near: &Forces) -> Option<Held> {
    let forces = hand_down(group, push, &normals(group, near))?;
    (miss(group, &forces, push) <= BALANCED).then_some(Held { push, forces })
}

/// The same by mending forces that hold nearly such a push.
pub(super) fn by_mending(shape: &Shape, push: [f64; 2], near: &Forces) -> Option<Held> {
    let forces = mended(shape, push, near)?;
    (miss(shape.group(), &forces, push) <= BALANCED).then_some(Held { push, forces })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::body::{Bearing, Bed, Body};
    use crate::equilibrium::group::{Facing, Joint, Stack};
    use crate::equilibrium::pull::DeadPull;
    use crate::rest::settle;
    use nalgebra::{Isometry3, Vector3};

    const FRICTION: f64 = 0.65;
    const HEIGHT_M: f64 = 0.175;

    /// The blocks of a wall in running bond: five a course, every second course with a half block at
    /// either end, the lowest first.
    fn wall(courses: u32) -> Vec<Body> {
        let course = |course: u32| -> Vec<(f64, f64)> {
            if course % 2 == 1 {
                return (0..5).map(|k| (0.4 * (f64::from(k) + 0.5), 0.4)).collect();
            }
            let whole = (0..4).map(|k| (0.4 * (f64::from(k) + 1.0), 0.4));
            [(0.1, 0.2)].into_iter().chain(whole).chain([(1.9, 0.2)]).collect()
        };
        let block = |(x, length): (f64, f64)| Body {
            centre_m: [x, 0.0],
            extent_m: [length, 0.3, HEIGHT_M],
            mass_kg: 10.0 * length,
            friction: FRICTION,
            soft: false,
        };
        (0..courses).flat_map(course).map(block).collect()
    }

    fn bed() -> Bed {
        let bearing = Bearing { x_m: [-9.0, 9.0], y_m: [-9.0, 9.0], top_m: 0.0, friction: FRICTION };
        Bed { bearings: vec![bearing], touch_m: 0.0, beside_m: 0.0 }
    }

    fn with_group<T>(bodies: &[Body], ask: impl Fn(Group) -> T) -> T {
        let pile = settle(&bed(), bodies);
        let stack = Stack { floor_from_bed: &Isometry3::identity(), bodies, pile: &pile, dead: &[] };
        ask(Group::new(&stack, bodies.len(), (0..bodies.len()).collect()).unwrap())
    }

    /// The upright joints between the blocks of each course: the one farther aft is the upper.
    fn with_upright_joints(mut group: Group, bodies: &[Body]) -> Group {
        for (lower, body) in bodies[1..].iter().enumerate() {
            let upper = lower + 1;
            if group.layers[upper] != group.layers[lower] {
                continue;
            }
            let half_m = 0.5 * body.extent_m[0];
            let middle = group.centres[upper] - Vector3::new(half_m / group.length_m, 0.0, 0.0);
            group.joints.push(Joint {
                upper,
                lower: Some(lower),
                from_upper: (middle - group.centres[upper]).into(),
                from_lower: (middle - group.centres[lower]).into(),
                middle,
                half: [0.15 / group.length_m, 0.5 * HEIGHT_M / group.length_m],
                facing: Facing::Aft,
                friction: FRICTION,
                contact: group.joints.len(),
            });
        }
        group
    }

    /// From below by checked forces, from above by the motion, for a push aft.
    fn bounds(group: &Group) -> [f64; 2] {
        let shape = Shape::new(group, vec![[0.02, 0.0, 0.0]; 4 * group.joints.len()]);
        let stop = shape.push(&group.axes.along(0.0), f64::INFINITY, Effort::FULL.own);
        let miss = miss(group, &stop.forces, [stop.multiplier, 0.0]);
        assert!(miss <= BALANCED, "miss {miss:e} of weight");
        let motion = half_plane(group, &stop.motion).unwrap();
        [stop.multiplier, motion.along([1.0, 0.0])]
    }

    /// Two published walls of rigid blocks with upright joints. Source: `ferris-tin-loi-2001` (`from memory`: the
    /// multipliers; size of the blocks, courses and friction were seen in the header of a public
    /// script; which course has the half blocks is not printed and was chosen by the match). Their
    /// associated law is the one of this module: what slides also opens, at the angle of friction.
    #[test]
    fn published_walls_of_33_and_55_blocks_have_their_associated_multipliers() {
        for (courses, blocks, want) in [(6, 33, 0.64286), (10, 55, 0.58000)] {
            let bodies = wall(courses);
            assert_eq!(bodies.len(), blocks, "blocks");
            let [below, above] = with_group(&bodies, |group| bounds(&with_upright_joints(group, &bodies)));
            let [down, up] = [below - want, above - want];
            assert!(down.abs() <= 5e-6, "{blocks} blocks: got {below}, want {want}, difference {down:e}, of weight");
            assert!(up.abs() <= 5e-6, "{blocks} blocks: got {above}, want {want}, difference {up:e}, of weight");
        }
    }

    #[test]
    fn leaving_out_the_upright_joints_of_a_wall_lowers_what_it_bears() {
        let bodies = wall(6);
        let [bare, _] = with_group(&bodies, |group| bounds(&group));
        let [full, _] = with_group(&bodies, |group| bounds(&with_upright_joints(group, &bodies)));
        assert!(
            bare < full && bare > 0.99 * full,
            "without {bare}, with {full}, difference {:e}, of weight",
            full - bare
        );
    }

    #[test]
    fn the_load_of_a_bound_stack_is_handed_down_without_a_solver() {
        let bodies = wall(3);
        let pile = settle(&bed(), &bodies);
        // Off the middle both ways: the strap twists what the push slants.
        let dead = [DeadPull { at_in_bed_m: [1.13, 0.06], force_n: 250.0, after: 1 }];
        let stack = Stack { floor_from_bed: &Isometry3::identity(), bodies: &bodies, pile: &pile, dead: &dead };
        let group = Group::new(&stack, bodies.len(), (0..bodies.len()).collect()).unwrap();
        for push in [[0.2, 0.0], [0.0, 0.15], [-0.15, 0.1]] {
            let near = vec![0.0; 4 * group.joints.len()];
            let forces = hand_down(&group, push, &near).unwrap();
            let miss = miss(&group, &forces, push);
            assert!(miss <= 1e-9, "push {push:?}: got a miss of {miss:e}, want 0, of weight");
            let nothing_known = vec![[0.0; 3]; near.len()];
            assert!(quickly(&group, push, &nothing_known).is_some(), "push {push:?}");
        }
    }

    /// Handing down gives up on this wall well before its limit, so that nothing but mending is left.
    #[test]
    fn forces_known_for_one_push_are_mended_for_others_up_to_the_limit_and_not_beyond() {
        let bodies = wall(4);
        with_group(&bodies, |group| {
            let shape = Shape::new(&group, start(&group));
            let Found::Limit(held, _) = push(&shape, 0.0, f64::INFINITY, Effort::FULL) else {
                panic!("the wall has a limit")
            };
            let limit = held.push[0];
            for part in [0.7, 0.95, 0.99] {
                let wanted = [part * limit, 0.0];
                let mended = by_mending(&shape, wanted, &held.forces);
                let mended = mended.unwrap_or_else(|| panic!("{part} of the limit {limit} was not found"));
                let miss = miss(&group, &mended.forces, wanted);
                assert!(miss <= BALANCED, "{part} of the limit: got a miss of {miss:e}, want 0, of weight");
            }
            let beyond = by_mending(&shape, [1.001 * limit, 0.0], &held.forces);
            assert!(beyond.is_none(), "more than the limit {limit} is held by nothing");
        });
    }

    #[test]
    fn solvers_that_are_stopped_short_decide_nothing() {
        let bodies = wall(4);
        with_group(&bodies, |group| {
            let shape = Shape::new(&group, start(&group));
            for effort in [Effort { own: 1, general: 1 }, Effort { own: 0, general: 2 }] {
                let found = push(&shape, 0.3, f64::INFINITY, effort);
                assert!(matches!(found, Found::Open(Some(_))), "after {} and {} steps", effort.own, effort.general);
            }
            let found = push(&shape, 0.3, f64::INFINITY, Effort::FULL);
            assert!(matches!(found, Found::Limit(..)), "with all steps");
        });
    }

    #[test]
    fn the_general_solver_decides_where_the_own_one_stops_short() {
        let bodies = wall(4);
        let limits = with_group(&bodies, |group| {
            let shape = Shape::new(&group, start(&group));
            [Effort::FULL, Effort { own: 0, ..Effort::FULL }].map(|effort| {
                match push(&shape, 0.3, f64::INFINITY, effort) {
                    Found::Limit(held, _) => held.push[0].hypot(held.push[1]),
                    _ => f64::NAN,
                }
            })
        });
        let difference = limits[1] - limits[0];
        let [want, got] = limits;
        assert!(difference.abs() <= 2e-6, "got {got}, want {want}, difference {difference:e}, of weight");
    }
}
