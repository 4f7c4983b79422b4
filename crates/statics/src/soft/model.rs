//! The first pieces of a stack on their beds: which beds there are, what loads them, what is out of
//! balance after a motion, and how that changes.

use super::factor::Factor;
use super::given::SoftStack;
use super::joint::{Joint, Lie, Look, Order, PAIR, PairBlock, add_pairs, quarter};
use super::softness::Softness;
use crate::body::Patch;
use crate::equilibrium::Bears;
use crate::equilibrium::block::{NO_WRENCH, ROWS, Wrench};
use crate::equilibrium::factor::{Pattern, Seat};
use crate::rest::{Contact, Under};
use nalgebra::{Matrix3, Vector3};
use quantity::STANDARD_GRAVITY_M_S2 as GRAVITY;
use quantity::frame::plan_direction;

/// Shift and turn of each piece, bed frame, m and rad.
pub(super) type Motion = Vec<Wrench>;

/// A piece weighs at least this part of the mean: a bed under nothing would be neither open nor closed.
const LEAST_PART: f64 = 1e-9;

/// The loads, as parts of all there is.
#[derive(Debug, Clone, Copy)]
pub(super) struct Load {
    /// Of the weights and the straps.
    pub(super) gravity: f64,
    /// Push on every piece as a part of its weight.
    pub(super) push: f64,
    /// Where the push points, unit vector, bed frame.
    pub(super) way: [f64; 3],
}

impl Load {
    pub(super) fn gravity(part: f64) -> Load {
        Load { gravity: part, push: 0.0, way: [0.0; 3] }
    }
}

/// A strap that presses a piece.
struct Pulled {
    body: usize,
    arm_m: Vector3<f64>,
    force_n: Vector3<f64>,
}

/// The beds and the balance at one motion.
pub(super) struct Seen {
    pub(super) looks: Vec<Look>,
    pub(super) unbalanced: Vec<Wrench>,
    /// How far out of balance, as a part of the load.
    pub(super) miss: f64,
}

/// The system.
pub(super) struct Model {
    pub(super) joints: Vec<Joint>,
    seats: Vec<Option<Seat>>,
    pub(super) pattern: Pattern,
    pub(super) weights_n: Vec<f64>,
    down: [f64; 3],
    pulled: Vec<Pulled>,
    /// All that presses down, N, and a length of the pieces, m: misses of balance are parts of them.
    total_n: f64,
    length_m: f64,
    /// The floor's x and y in the bed frame.
    pub(super) level: [Vector3<f64>; 2],
}

impl Model {
    /// None: a piece has no bed under it.
    pub(super) fn new(given: &SoftStack, step: usize) -> Option<Model> {
        let stack = &given.stack;
        if stack.pile.hanging.iter().any(|&body| body < step) {
            return None;
        }
        let joints = joints(given, step);
        let mut lies = vec![false; step];
        joints.iter().for_each(|joint| lies[joint.lie.upper] = true);
        lies.iter().all(|lies| *lies).then(|| Model::of(given, step, joints))
    }

    fn of(given: &SoftStack, step: usize, joints: Vec<Joint>) -> Model {
        let pattern = Pattern::new(step, joints.iter().filter_map(|joint| Some((joint.lie.upper, joint.lie.lower?))));
        let seat = |joint: &Joint| Some(pattern.seat(joint.lie.upper, joint.lie.lower?));
        let seats = joints.iter().map(seat).collect();
        let bodies = &given.stack.bodies[..step];
        let mass_kg: f64 = bodies.iter().map(|body| body.mass_kg).sum();
        let count = size_of_list(step);
        let least_kg = LEAST_PART * mass_kg / count;
        let weights_n: Vec<f64> = bodies.iter().map(|body| body.mass_kg.max(least_kg) * GRAVITY).collect();
        let length_m = bodies.iter().map(|body| 0.25 * (body.extent_m[0] + body.extent_m[1])).sum::<f64>() / count;
        let bed_from_floor = given.stack.floor_from_bed.rotation.inverse();
        let [aft, right, up] = [Vector3::x(), Vector3::y(), Vector3::z()].map(|axis| bed_from_floor * axis);
        let pulled = pulled(given, step, &-up);
        let total_n = weights_n.iter().sum::<f64>() + pulled.iter().map(|pull| pull.force_n.norm()).sum::<f64>();
        Model { joints, seats, pattern, weights_n, down: (-up).into(), pulled, total_n, length_m, level: [aft, right] }
    }

    /// The unit vector of a plan direction, bed frame.
    pub(super) fn way(&self, direction_rad: f64) -> [f64; 3] {
        let [aft, right] = plan_direction(direction_rad);
        (aft * self.level[0] + right * self.level[1]).into()
    }

    pub(super) fn still(&self) -> Motion {
        vec![NO_WRENCH; self.weights_n.len()]
    }

    /// What the loads and the beds leave out of balance, with the look of each bed that comes with it.
    pub(super) fn seen(&self, motion: &[Wrench], load: &Load, order: Order) -> Seen {
        let mut unbalanced = self.loads(motion, load, order);
        let looks = self.looks(motion, order);
        for (joint, look) in self.joints.iter().zip(&looks) {
            joint.share(&joint.force(look), &mut unbalanced);
        }
        Seen { miss: self.miss(&unbalanced), looks, unbalanced }
    }

    fn loads(&self, motion: &[Wrench], load: &Load, order: Order) -> Vec<Wrench> {
        let force = |weight: &f64| -> Wrench {
            let part = |axis: usize| weight * (load.gravity * self.down[axis] + load.push * load.way[axis]);
            [part(0), part(1), part(2), 0.0, 0.0, 0.0]
        };
        let mut loads: Vec<Wrench> = self.weights_n.iter().map(force).collect();
        for pull in &self.pulled {
            let turn = Vector3::from_row_slice(&motion[pull.body][3..]);
            let force_n = load.gravity * pull.force_n;
            let mut moment_n_m = pull.arm_m.cross(&force_n);
            if order == Order::Second {
                moment_n_m += load.gravity * pull.turning() * turn;
            }
            let wrench = force_n.iter().chain(moment_n_m.iter());
            loads[pull.body].iter_mut().zip(wrench).for_each(|(to, part)| *to += part);
        }
        loads
    }

    /// A push of the whole weight along a way.
    pub(super) fn push(&self, way: [f64; 3]) -> Vec<Wrench> {
        self.weights_n.iter().map(|weight| [weight * way[0], weight * way[1], weight * way[2], 0.0, 0.0, 0.0]).collect()
    }

    /// How far out of balance, as a part of the load.
    fn miss(&self, unbalanced: &[Wrench]) -> f64 {
        let (force, moment) = (self.total_n, self.total_n * self.length_m);
        let parts = unbalanced.iter().flat_map(|wrench| {
            wrench.iter().enumerate().map(move |(row, part)| part / if row < 3 { force } else { moment })
        });
        parts.map(|part| part * part).sum::<f64>().sqrt()
    }

    /// How far two motions are apart, m: a turn counts with a length of the pieces.
    pub(super) fn apart(&self, one: &[Wrench], other: &[Wrench]) -> f64 {
        let parts = one.iter().flatten().zip(other.iter().flatten()).enumerate();
        let apart = |(at, (a, b)): (usize, (&f64, &f64))| (a - b) * if at % ROWS < 3 { 1.0 } else { self.length_m };
        parts.map(apart).map(|apart| apart * apart).sum::<f64>().sqrt()
    }

    /// The linear system with every bed pressed all over: it never is singular.
    pub(super) fn closed(&self) -> Factor<'_> {
        let mut factor = Factor::new(&self.pattern, true);
        for (at, joint) in self.joints.iter().enumerate() {
            self.add(&mut factor, at, &joint.springs(&joint.closed()));
        }
        factor
    }

    /// How the balance changes with the motion, exactly: with the moving edges of half-open beds.
    pub(super) fn tangent(&self, looks: &[Look], load: &Load, order: Order) -> Factor<'_> {
        let edges = order == Order::Second && looks.iter().any(|look| look.pressed.edge.is_some());
        let mut factor = Factor::new(&self.pattern, !edges);
        for (at, (joint, look)) in self.joints.iter().zip(looks).enumerate() {
            let mut block = joint.springs(look);
            if order == Order::Second {
                joint.turning(look).take_from(&mut block);
            }
            if let Some(edge) = joint.edge(look).filter(|_| edges) {
                add_pairs(&mut block, &edge);
            }
            self.add(&mut factor, at, &block);
        }
        if order == Order::Second {
            self.turn_pulls(&mut factor, load.gravity);
        }
        factor
    }

    /// Springs alone, or less what the loads do as the beds turn: symmetric, for what a stack bears.
    pub(super) fn stiffness(&self, looks: &[Look], with_turning: bool) -> Factor<'_> {
        let mut factor = Factor::new(&self.pattern, true);
        for (at, (joint, look)) in self.joints.iter().zip(looks).enumerate() {
            let mut block = joint.springs(look);
            if with_turning {
                joint.turning(look).take_from(&mut block);
            }
            self.add(&mut factor, at, &block);
        }
        if with_turning {
            self.turn_pulls(&mut factor, 1.0);
        }
        factor
    }

    /// What the stack bears under its whole weight, and how its balance changes with the motion: with the moving edges of
    /// half-open beds; none where there are none, so that both are one.
    pub(super) fn stiffness_and_tangent(&self, looks: &[Look]) -> (Factor<'_>, Option<Factor<'_>>) {
        let stiffness = self.stiffness(looks, true);
        let edges = self.joints.iter().zip(looks).map(|(joint, look)| joint.edge(look)).enumerate();
        let mut tangent: Option<Factor> = None;
        for (at, edge) in edges.filter_map(|(at, edge)| Some((at, edge?))) {
            self.add(tangent.get_or_insert_with(|| stiffness.in_two_halves()), at, &edge);
        }
        (stiffness, tangent)
    }

    pub(super) fn looks(&self, motion: &[Wrench], order: Order) -> Vec<Look> {
        self.joints.iter().map(|joint| joint.look(motion, order)).collect()
    }

    fn add(&self, factor: &mut Factor, at: usize, block: &PairBlock) {
        let Lie { upper, lower, .. } = self.joints[at].lie;
        factor.add_own(upper, &quarter(block, 0, 0));
        if let Some((seat, lower)) = self.seats[at].zip(lower) {
            const { assert!(PAIR == 2 * ROWS) };
            factor.add_own(lower, &quarter(block, ROWS, ROWS));
            factor.add_pair(seat, &quarter(block, 0, ROWS), &quarter(block, ROWS, 0));
        }
    }

    fn turn_pulls(&self, factor: &mut Factor, gravity: f64) {
        for pull in &self.pulled {
            let turning = gravity * pull.turning();
            let mut block = [NO_WRENCH; ROWS];
            (0..3).for_each(|row| (0..3).for_each(|column| block[3 + row][3 + column] = -turning[(row, column)]));
            factor.add_own(pull.body, &block);
        }
    }

    /// The product of all that works on turning (beds and straps) with a motion.
    pub(super) fn turned(&self, turnings: &[super::joint::Turning], motion: &[Wrench]) -> Vec<Wrench> {
        let mut to = self.still();
        for (joint, turning) in self.joints.iter().zip(turnings) {
            joint.add_turned(turning, motion, &mut to);
        }
        for pull in &self.pulled {
            let moment = pull.turning() * Vector3::from_row_slice(&motion[pull.body][3..]);
            (0..3).for_each(|row| to[pull.body][3 + row] += moment[row]);
        }
        to
    }
}

impl Pulled {
    /// A dead pull turns with its point: (r F' + F r')/2 - (r.F) 1 times the turn, to the second order.
    /// Source: `own derivation`, from the potential -F . (theta x r + theta x (theta x r)/2).
    fn turning(&self) -> Matrix3<f64> {
        let product = self.arm_m * self.force_n.transpose();
        0.5 * (product + product.transpose()) - self.arm_m.dot(&self.force_n) * Matrix3::identity()
    }
}

fn pulled(given: &SoftStack, step: usize, down: &Vector3<f64>) -> Vec<Pulled> {
    let stack = &given.stack;
    let on = stack.dead.iter().filter(|pull| pull.after <= step);
    let pressed = |pull: &crate::equilibrium::DeadPull| {
        let bears = pull.bears_on(stack, step).into_iter();
        let force_n = pull.force_n * down;
        let part = move |bears: Bears| {
            let arm_m = bears.at_in_bed - stack.pile.centre(stack.bodies, bears.body);
            Pulled { body: bears.body, arm_m, force_n: bears.share * force_n }
        };
        bears.map(part).collect::<Vec<_>>()
    };
    on.flat_map(pressed).collect()
}

#[expect(clippy::cast_precision_loss, reason = "a count of pieces is far below 2^52")]
fn size_of_list(count: usize) -> f64 {
    count.max(1) as f64
}

fn joints(given: &SoftStack, step: usize) -> Vec<Joint> {
    let contacts = given.stack.contacts(step).iter().enumerate();
    contacts.filter_map(|(at, contact)| Some(Joint::new(lie(given, at, contact)?))).collect()
}

/// The flat of a contact and its stiffness across, N/m3. None: the rims leave nothing of it.
pub(super) fn bed(given: &SoftStack, contact: &Contact) -> Option<(Patch, f64)> {
    let flat = |body: usize| flat(given.stack.bodies[body].footprint(), given.pieces[body].rim_m);
    let beneath = match contact.lower {
        Under::Body(body) => flat(body),
        Under::Bearing(_) => contact.patch,
    };
    let patch = contact.patch.overlap(&flat(contact.upper))?.overlap(&beneath)?;
    Some((patch, given.stiffness(&sides(given, contact)).0))
}

fn sides(given: &SoftStack, contact: &Contact) -> [Softness; 2] {
    let under = match contact.lower {
        Under::Body(body) => given.pieces[body].halved(),
        Under::Bearing(bearing) => given.bearing(bearing),
    };
    [given.pieces[contact.upper].halved(), under]
}

fn lie(given: &SoftStack, at: usize, contact: &Contact) -> Option<Lie> {
    let (patch, _) = bed(given, contact)?;
    let middle_m = [0.5 * (patch.x_m[0] + patch.x_m[1]), 0.5 * (patch.y_m[0] + patch.y_m[1])];
    let arm = |body: usize| {
        let centre = given.stack.pile.centre(given.stack.bodies, body);
        [middle_m[0] - centre.x, middle_m[1] - centre.y, contact.plane_m - centre.z]
    };
    let lower = if let Under::Body(body) = contact.lower { Some(body) } else { None };
    let (stiffness, shear) = given.stiffness(&sides(given, contact));
    Some(Lie {
        upper: contact.upper,
        lower,
        arm_upper_m: arm(contact.upper),
        arm_lower_m: lower.map_or([0.0; 3], arm),
        half_m: [0.5 * (patch.x_m[1] - patch.x_m[0]), 0.5 * (patch.y_m[1] - patch.y_m[0])],
        stiffness,
        shear,
        friction: contact.friction,
        contact: at,
    })
}

fn flat(Patch { x_m, y_m }: Patch, rim_m: f64) -> Patch {
    let less = |[from, to]: [f64; 2]| [from + rim_m, to - rim_m];
    Patch { x_m: less(x_m), y_m: less(y_m) }
}

impl Softness {
    /// Half of a piece: what acts at one of its two faces.
    fn halved(self) -> Softness {
        Softness { compliance_m3_per_n: 0.5 * self.compliance_m3_per_n, ..self }
    }
}
