//! What happened on the test day.
//!
//! In: the plan as tested, and one [`Entry`] after another as people make them; time and text are
//! handed in. Out: where the day stands ([`Day`]), what the scales should show now and within what
//! ([`Course`]), the [`Ledger`] that leads from readings to the load on the seat, likely causes of a
//! reading that does not fit ([`diagnose`]), and the [`Verdict`].
//!
//! This crate must never alter a plan, open a file or read a clock. Nothing is ever rewritten: the
//! day is the fold over an append-only list of entries, and a correction is an entry that names what
//! it corrects. Start reading at [`Entry`], then [`Day`], then [`log`](mod@log), the text of the list.

mod account;
mod answer;
mod balance;
mod course;
mod day;
mod deflection;
mod detail;
mod diagnosis;
mod earlier;
mod entry;
mod hold;
mod ledger;
mod limits;
mod line_of_action;
pub mod log;
mod outlook;
mod rigid;
mod sets;
mod softer;
mod stop;
mod stops;
mod tare;
mod top;
mod verdict;
mod way_back;
mod weighed;

pub use account::{Account, Judged};
pub use answer::Answer;
pub use balance::{Due, Lever};
pub use course::{Course, Range};
pub use day::{
    Day, GaugeRead, HoldDone, LeanRead, Moment, Next, Refused, RunDone, SettlementRead, Stage, StopDone, StrapDone,
    Weighing,
};
pub use deflection::{DeflectionJudged, Expectation};
pub use detail::{Device, Field, Inspection, Item, LookedAfter, Said, ZeroReturn};
pub use diagnosis::{Cause, Fault, diagnose};
pub use entry::{Added, Deviation, Entry, FORMAT, Ground, Reading, StopGround};
pub use hold::{HELD_LONG_ENOUGH_S, HoldTimer, due_s};
pub use ledger::{Basis, Before, Centroid, Ledger, Pull, Row, Scale, Weighed, ledger};
pub use limits::{GaugeStop, Limit, Passed, lean_passed, limits_kept, limits_passed, limits_read};
pub use line_of_action::LineOfAction;
pub use log::{Line, Log, Unreadable};
pub use outlook::{Outlook, passed_words};
pub use sets::SetRead;
pub use softer::{SinkingRead, Softer, as_judged};
pub use stop::{FALSE_STOP_CHANCE, stop_factor};
pub use stops::{stop_at_once, stop_due};
pub use tare::{TARE_FAR_KG, TareBeside, TareLikely};
pub use top::{LeanJudged, LeanPlanned, lean_planned, shift_words};
pub use verdict::{Verdict, verdict};
pub use way_back::WayBack;
pub use weighed::weighed;
