//! The draws themselves: the same on any threads, stopped when asked, nothing made of nothing.

use crate::given::{Stack, WIDE, block, panel, scatter};
use statics::spread::{Draw, Sampled, Scatter, Watch, sample};
use std::num::NonZero;

fn tower() -> Stack {
    let bodies: Vec<_> = (0..9_u32).map(|k| block([0.01 * f64::from(k % 3), 0.0], [0.5, 0.33, 0.11], 25.0)).collect();
    let doubts = scatter(bodies.len(), 0.4, 0.008);
    Stack::new(panel(), bodies, doubts)
}

fn draw(seed: u64, threads: usize) -> Draw {
    Draw { draws: NonZero::new(7_321).unwrap(), seed, threads: NonZero::new(threads).unwrap() }
}

#[test]
fn the_same_seed_gives_the_same_numbers_on_one_and_on_many_threads() {
    let tower = tower();
    let drawn = |threads: usize| sample(&tower.question(), &WIDE, &draw(3, threads), &Watch::default());
    let one = drawn(1);
    assert!(one.outcome().is_some(), "an outcome: {one:?}");
    for threads in [2, 3, 8] {
        assert_eq!(drawn(threads), one, "{threads} threads against one, to the last bit");
    }
}

#[test]
fn another_seed_gives_other_numbers() {
    let tower = tower();
    let drawn = |seed: u64| sample(&tower.question(), &WIDE, &draw(seed, 1), &Watch::default());
    assert_ne!(drawn(3), drawn(4), "seeds 3 and 4");
}

#[test]
fn a_drawing_that_is_asked_to_stop_tells_nothing() {
    let (tower, watch) = (tower(), Watch::default());
    watch.stop();
    assert_eq!(sample(&tower.question(), &WIDE, &draw(3, 2), &watch), Sampled::Stopped, "stopped");
}

#[test]
fn progress_ends_at_the_number_of_draws() {
    let (tower, watch) = (tower(), Watch::default());
    sample(&tower.question(), &WIDE, &draw(3, 2), &watch);
    assert_eq!(watch.done(), 7_321, "draws done");
}

#[test]
fn nothing_comes_of_no_weight_or_of_scatter_that_is_none() {
    let end = |stack: &Stack| sample(&stack.question(), &WIDE, &draw(3, 1), &Watch::default());
    assert_eq!(end(&Stack::new(panel(), Vec::new(), scatter(0, 0.4, 0.0))), Sampled::Nothing, "no bodies");
    let weightless = vec![block([0.0, 0.0], [0.5, 0.33, 0.11], 0.0)];
    assert_eq!(end(&Stack::new(panel(), weightless, scatter(1, 0.4, 0.0))), Sampled::Nothing, "no weight");
    let tower = tower();
    for bad in [
        Scatter { placement_sd_m: f64::NAN, ..tower.scatter.clone() },
        Scatter { common_share: 1.1, ..tower.scatter.clone() },
        scatter(3, 0.4, 0.0),
        scatter(9, -0.4, 0.0),
    ] {
        let stack = Stack::new(panel(), tower.bodies.clone(), bad);
        assert_eq!(end(&stack), Sampled::Nothing, "{:?}", stack.scatter);
    }
}
