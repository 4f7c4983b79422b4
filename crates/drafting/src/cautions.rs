//! The cautions: one list, in view on every page of the window and printed on every page of paper.
//!
//! They are `common practice, no source`, but for the fall zone and the people kept out of it
//! (bagged material stacked by hand).

/// The cautions in full. The last one says who decides.
pub const CAUTIONS: [&str; 11] = [
    "Stand clear of the fall zone, and never under the load.",
    "Article held as the plan has it: hold-downs on where it has any, catch blocks close under it.",
    "Two people for a lift, one more watching, or a hoist.",
    "Lower a piece, never drop it.",
    "Never catch or steady a falling stack.",
    "Eye, foot and hand protection.",
    "Ratchet straps are under tension: stay out of their line.",
    "Read scales and gauges from a distance or by camera.",
    "Stop at any noise, shift, or reading that does not fit.",
    "Stop at a deflection that jumps, or that goes on growing while the load stays.",
    "The limits and the loads are the builder's; local rules and a licensed engineer or inspector decide. This program's numbers are an aid, not an approval.",
];

/// The cautions as the first line of a table of so many fields: whoever opens the table elsewhere meets them first.
pub(crate) fn caution_row(fields: usize) -> Vec<String> {
    let mut row = vec![String::new(); fields];
    if let Some(first) = row.first_mut() {
        *first = format!("CAUTIONS: {CAUTION_LINE}");
    }
    row
}

/// The same in short for the foot of each page of paper: each of them but who decides, which stands below.
pub const STRIP: &str = "Stand clear of the fall zone, never under the load. Two lift, one more watches, or a hoist. Lower, never drop. \
                         Never catch a falling stack. Article held as planned, catch blocks close. Protect eyes, feet, hands. Keep out of \
                         the line of straps. Read from a distance or by camera. Stop at any noise, shift, reading or deflection \
                         that does not fit.";

/// Who decides, for the foot of each page of paper.
pub const DECIDES: &str = "An aid, not an approval: local rules and a licensed engineer or inspector decide.";

/// The cautions in one line, for where the full text is one step away.
pub const CAUTION_LINE: &str = "Stand clear of the fall zone, never under the load · article held as planned, catch blocks close · lower, never drop · \
                                stop at any noise, shift or odd reading · an aid, not an approval";
