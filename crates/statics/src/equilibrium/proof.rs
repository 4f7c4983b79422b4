//! What is proved about one direction, and by which route: forces that were checked to hold a push
//! (from below), a motion that was checked to exclude any greater one (from above). The method of
//! this crate is asked first, the general solver where that stops short.

use super::forces::{Forces, miss, well_within};
use super::group::Group;
use super::handed::{Normals, hand_down};
use super::interior::Shape;
use super::motion::{HalfPlane, Motion, admissible, half_plane};
use super::partly::{self, About, Asked};
use super::plain;
pub(super) use crate::conic::BALANCED;
use crate::margin::slack;
use quantity::frame::plan_direction;

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

/// Forces to start from: those of the pile at rest where they are easily found, even pressure where not.
pub(super) fn start(group: &Group) -> Forces {
    let corners = 4 * group.joints.len();
    let at_rest = hand_down(group, [0.0; 2], &vec![0.0; corners]);
    let normals = at_rest.map_or_else(|| vec![0.25; corners], |forces| normals(group, &forces));
    let joints = group.joints.iter().zip(normals.chunks_exact(4));
    joints.flat_map(|(joint, normals)| well_within(joint, normals)).collect()
}

/// The greatest push along a direction in plan, rad; once `enough` is held, any push that is.
pub(super) fn push(shape: &Shape, direction_rad: f64, enough: f64, effort: Effort) -> Found {
    let (group, direction) = (shape.group(), plan_direction(direction_rad));
    let along = group.axes.along(direction_rad);
    let own = shape.push(group.push(&along), enough, effort.own);
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
    match barred(group, motion) {
        Some(barred) if barred.half_plane.reach < -BALANCED => Found::Falls(barred),
        Some(barred) if miss <= BALANCED && meets(&barred, direction, multiplier) => {
            Found::Limit(Held { push, forces: forces.clone() }, barred)
        }
        _ => Found::Open(Some(miss).filter(|miss| miss.is_finite())),
    }
}

/// What a motion bars, once it has been mended until no joint closes.
pub(super) fn barred(group: &Group, motion: Motion) -> Option<Barred> {
    let motion = admissible(group, motion);
    half_plane(group, &motion).map(|half_plane| Barred { half_plane, motion })
}

fn checked(group: &Group, direction: [f64; 2], forces: &Forces, multiplier: f64) -> Option<Held> {
    let push = direction.map(|part| multiplier * part);
    (miss(group, forces, push) <= BALANCED).then(|| Held { push, forces: forces.clone() })
}

fn meets(barred: &Barred, direction: [f64; 2], multiplier: f64) -> bool {
    barred.half_plane.along(direction) - multiplier <= slack(multiplier)
}

pub(super) fn normals(group: &Group, forces: &Forces) -> Normals {
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

/// The same by mending what cannot be handed down.
pub(super) fn by_mending(group: &Group, asked: &Asked, multiplier: f64) -> Option<Held> {
    checked(group, asked.direction(), &partly::mend(group, asked, multiplier)?, multiplier)
}

/// As much of `enough` as the layers about those in which a motion parts were found to bear.
pub(super) fn in_part(group: &Group, asked: &Asked, about: &About, enough: f64, effort: Effort) -> Option<Held> {
    let (multiplier, forces) = partly::push(group, asked, about, enough, effort.own)?;
    checked(group, asked.direction(), &forces, multiplier)
}

/// What bars a direction with all that lies over those layers in one piece.
pub(super) fn barred_in_part(group: &Group, asked: &Asked, about: &About, effort: Effort) -> Option<Barred> {
    barred(group, partly::going(group, asked, about, effort.own)?)
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
        Bed { bearings: vec![bearing], touch_m: 0.0, touch_hard_m: 0.0, beside_m: 0.0 }
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
        let stop = shape.push(group.push(&group.axes.along(0.0)), f64::INFINITY, Effort::FULL.own);
        let miss = miss(group, &stop.forces, [stop.multiplier, 0.0]);
        assert!(miss <= BALANCED, "miss {miss:e} of weight");
        let motion = half_plane(group, &stop.motion).unwrap();
        [stop.multiplier, motion.along([1.0, 0.0])]
    }

    /// Two walls of rigid blocks with upright joints. What decides is that forces and motion meet; the multipliers
    /// beside them are those of `ferris-tin-loi-2001`, `from memory` (size of the blocks, courses and friction were
    /// seen in the header of a public script; which course has the half blocks is not printed and was chosen by
    /// the match). Their associated law is the one of this module: what slides also opens, at the angle of friction.
    #[test]
    fn forces_and_motion_of_walls_of_33_and_55_blocks_meet_at_the_multipliers_recalled_from_memory() {
        for (courses, blocks, want) in [(6, 33, 0.64286), (10, 55, 0.58000)] {
            let bodies = wall(courses);
            assert_eq!(bodies.len(), blocks, "blocks");
            let [below, above] = with_group(&bodies, |group| bounds(&with_upright_joints(group, &bodies)));
            assert!((above - below).abs() <= slack(below), "{blocks} blocks: from below {below}, from above {above}");
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
        let dead = [DeadPull { at_in_bed_m: [1.13, 0.06], width_m: 0.05, force_n: 250.0, after: 1 }];
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
            let asked = Asked::new(&group, 0.0, &held.forces);
            for part in [0.7, 0.95, 0.99] {
                let mended = by_mending(&group, &asked, part * limit);
                let mended = mended.unwrap_or_else(|| panic!("{part} of the limit {limit} was not found"));
                let miss = miss(&group, &mended.forces, [part * limit, 0.0]);
                assert!(miss <= BALANCED, "{part} of the limit: got a miss of {miss:e}, want 0, of weight");
            }
            let beyond = by_mending(&group, &asked, 1.001 * limit);
            assert!(beyond.is_none(), "more than the limit {limit} is held by nothing");
        });
    }

    #[test]
    fn the_limit_of_a_tall_wall_is_found_again_on_the_layers_in_which_it_goes() {
        let bodies = wall(48);
        with_group(&bodies, |group| {
            let Found::Limit(held, barred) = push(&Shape::new(&group, start(&group)), 0.0, f64::INFINITY, Effort::FULL)
            else {
                panic!("the wall has a limit")
            };
            let (limit, above) = (held.push[0], barred.half_plane.along([1.0, 0.0]));
            let asked = Asked::new(&group, 0.0, &held.forces);
            let about = About { motion: &barred.motion, margin: 3, above };
            let enough = above - 0.9 * slack(above);
            let again = in_part(&group, &asked, &about, enough, Effort::FULL).map(|held| held.push[0]);
            assert!(again.is_some_and(|again| again >= enough), "forces: got {again:?}, want {enough}, of weight");
            let more = in_part(&group, &asked, &About { above: 2.0 * above, ..about }, 1.01 * limit, Effort::FULL);
            let more = more.map_or(0.0, |held| held.push[0]);
            assert!(more <= above, "got forces for {more}, want no more than the limit {limit}, of weight");
            let bar = barred_in_part(&group, &asked, &about, Effort::FULL).map(|bar| bar.half_plane.along([1.0, 0.0]));
            let is_limit = |bar: f64| bar >= limit - slack(limit) && bar <= limit + 2.0 * slack(limit);
            assert!(bar.is_some_and(is_limit), "motion: got {bar:?}, want {limit}, of weight");
        });
    }

    /// The forces of a wall at rest, which miss nothing but rounding.
    fn at_rest(group: &Group) -> Forces {
        let nothing_known = vec![[0.0; 3]; 4 * group.joints.len()];
        quickly(group, [0.0; 2], &nothing_known).map(|held| held.forces).expect("a wall stands by itself")
    }

    #[test]
    fn forces_out_of_balance_by_more_than_a_ten_millionth_of_the_weight_hold_nothing() {
        with_group(&wall(4), |group| {
            for (missing, holds) in [(0.0, true), (0.9e-7, true), (1.1e-7, false), (1e-5, false), (1e-3, false)] {
                let mut forces = at_rest(&group);
                forces[0][0] += group.joints[0].steepness() * missing;
                let got = checked(&group, [1.0, 0.0], &forces, 0.0).is_some();
                assert_eq!(got, holds, "forces that miss {missing:e} of the weight are taken");
            }
        });
    }

    /// Two level forces against one another along one edge of a joint: balance does not see them, the cone does.
    #[test]
    fn forces_steeper_than_friction_by_more_than_a_ten_millionth_of_the_weight_hold_nothing() {
        with_group(&wall(4), |group| {
            for (missing, holds) in [(-1e-6, true), (0.9e-7, true), (1.1e-7, false), (1e-5, false), (1e-3, false)] {
                let mut forces = at_rest(&group);
                let level = forces[0][0].max(forces[1][0]) + group.joints[0].steepness() * missing;
                (forces[0][1], forces[1][1]) = (level, -level);
                forces[1][0] = forces[0][0];
                let miss = miss(&group, &forces, [0.0; 2]);
                assert!(
                    (miss - missing.max(0.0)).abs() <= 1e-11,
                    "got a miss of {miss:e}, want {missing:e}, of weight"
                );
                let got = checked(&group, [1.0, 0.0], &forces, 0.0).is_some();
                assert_eq!(got, holds, "forces outside a cone by {missing:e} of the weight are taken");
            }
        });
    }

    #[test]
    fn a_limit_whose_forces_miss_balance_is_left_open() {
        with_group(&wall(4), |group| {
            let stop = Shape::new(&group, start(&group)).push(
                group.push(&group.axes.along(0.0)),
                f64::INFINITY,
                Effort::FULL.own,
            );
            for (missing, decides) in [(0.0, true), (2e-7, false), (1e-3, false)] {
                let mut forces = stop.forces.clone();
                forces[0][0] += group.joints[0].steepness() * missing;
                let found = weigh(&group, [1.0, 0.0], &forces, stop.multiplier, stop.motion.clone());
                assert_eq!(matches!(found, Found::Limit(..)), decides, "a miss of {missing:e} of the weight");
            }
        });
    }

    #[test]
    fn a_push_that_a_motion_bars_only_later_is_not_a_limit() {
        with_group(&wall(4), |group| {
            let stop = Shape::new(&group, start(&group)).push(
                group.push(&group.axes.along(0.0)),
                f64::INFINITY,
                Effort::FULL.own,
            );
            // Well within what it bears the forces hold, and the motion says nothing of that push.
            let near = vec![[0.0; 3]; 4 * group.joints.len()];
            let less = 0.2 * stop.multiplier;
            let held = quickly(&group, [less, 0.0], &near).expect("a fifth of the limit is held");
            let found = weigh(&group, [1.0, 0.0], &held.forces, less, stop.motion.clone());
            assert!(matches!(found, Found::Open(_)), "a fifth of the limit is told as the limit");
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
