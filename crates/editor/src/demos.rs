//! The demo plans in the binary.

use plan::Plan;

/// Title for menus, and file text.
pub const DEMOS: [(&str, &str); 3] = [
    ("Tandem rear seat, bucket in its frame (metric)", include_str!("../../../assets/examples/tandem-rear-seat.ron")),
    ("Side by side, panel seat (inch-pound)", include_str!("../../../assets/examples/side-by-side.ron")),
    ("Four faults to find (metric)", include_str!("../../../assets/examples/four-faults.ron")),
];

/// A demo plan.
pub(crate) fn demo(index: usize) -> Plan {
    let (_, text) = DEMOS.get(index).copied().unwrap_or(DEMOS[0]);
    plan::file::read(text).expect("the demos in the binary are read by a test")
}
