//! The window through its accessibility names: what a screen reader finds, a test finds.

mod arrange;
mod at_hand;
mod by_keyboard;
mod by_name;
mod by_pointer;
mod files;
mod fixture_page;
mod forms;
mod gestures;
mod guided;
mod help;
mod history;
mod in_hand;
mod kept;
mod laid_out;
mod load_case;
mod looks;
mod lost_log;
mod occupant;
mod pictures;
mod replacing;
mod softness;
mod stage;
mod test_day;
mod turned;
mod weighing;
