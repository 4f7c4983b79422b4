//! What must stay as it is: the same seed, locked pieces, a stop.

use crate::bench::{bags, boards, place, task};
use arrange::{Proposal, Wish, propose};
use plan::Turn;
use std::num::NonZero;
use std::sync::atomic::{AtomicUsize, Ordering};

fn bytes(plan: &plan::Plan, proposals: &[Proposal]) -> Vec<String> {
    proposals.iter().map(|p| plan::file::write(&p.edit().apply(plan).expect("a plan"))).collect()
}

#[test]
fn the_same_seed_gives_the_same_bytes_on_one_thread_and_on_two() {
    let plan = task(150.0, vec![bags(9, 18.0), boards(4)]);
    let with = |seed: u64, threads: usize| {
        let wish = Wish { seed, threads: NonZero::new(threads).expect("more than none") };
        bytes(&plan, &propose(&plan, &wish, &|_| true))
    };
    let one = with(7, 1);
    assert!(!one.is_empty(), "a stack is laid out");
    assert_eq!(one, with(7, 2), "seed 7 on one thread and on two");
    assert_eq!(one, with(7, 1), "seed 7 again");
}

#[test]
fn locked_pieces_stay_where_they_are_and_the_rest_is_laid_around_them() {
    let mut plan = task(150.0, vec![bags(9, 18.0), boards(4)]);
    plan.stack = vec![
        place("plank", 2, [0.23, -0.1], Turn::Lengthwise),
        place("plank", 1, [0.23, 0.1], Turn::Lengthwise),
        place("sand bag", 4, [0.19, 0.0], Turn::Crosswise),
        place("sand bag", 9, [0.60, 0.0], Turn::Crosswise),
    ];
    plan.stack[2].locked = true;
    let proposals = propose(&plan, &Wish::default(), &|_| true);
    let best = proposals.first().expect("a stack");
    assert!(best.in_order(), "{:?}", best.shortfalls);
    // The locked bag and the planks that carry it, to the last bit; the free bag gives way.
    assert_eq!(best.places[..3], plan.stack[..3]);
    assert!(!best.places.contains(&plan.stack[3]), "the free bag stays where nobody asked it to");
}

#[test]
fn a_stop_is_heard_and_what_was_found_so_far_comes_back() {
    let plan = task(150.0, vec![bags(9, 18.0), boards(4)]);
    let best = std::sync::Mutex::new(None);
    let heard = AtomicUsize::new(0);
    let proposals = propose(&plan, &Wish::default(), &|told| {
        if let Some(proposal) = told.best {
            best.lock().expect("no panic").get_or_insert_with(|| proposal.places.clone());
        }
        heard.fetch_add(1, Ordering::Relaxed);
        best.lock().expect("no panic").is_none()
    });
    let first = best.into_inner().expect("no panic").expect("a first stack is shown");
    assert_eq!(proposals.first().map(|p| p.places.clone()), Some(first), "what was shown is kept");
}

#[test]
fn progress_never_goes_back_and_stays_between_nothing_and_all() {
    let plan = task(150.0, vec![bags(9, 18.0), boards(4)]);
    let told = std::sync::Mutex::new(Vec::new());
    let wish = Wish { seed: 1, threads: NonZero::new(1).expect("more than none") };
    propose(&plan, &wish, &|heard| {
        told.lock().expect("no panic").push(heard.done);
        true
    });
    let told = told.into_inner().expect("no panic");
    assert!(told.len() > 10, "got {} reports, want many", told.len());
    assert!(told.iter().all(|done| (0.0..=1.0).contains(done)), "from 0 to 1");
    let back = told.windows(2).find(|pair| pair[1] < pair[0] - 1e-12);
    assert_eq!(back, None, "a report that goes back");
}
