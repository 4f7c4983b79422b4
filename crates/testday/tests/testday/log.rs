//! The log's text: what is written comes back; what was altered is refused; what was torn is told.

use crate::bench::{limit_run, whole_day};
use proptest::prelude::*;
use testday::{Day, Entry, Log};

/// The text of a run, made once.
fn limit_text() -> &'static str {
    static TEXT: std::sync::OnceLock<String> = std::sync::OnceLock::new();
    TEXT.get_or_init(|| limit_run().text)
}

fn read(text: &str) -> Log {
    Log::read(text).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn what_is_written_comes_back() {
    let diary = whole_day(4.0);
    let again = read(&diary.text);
    assert_eq!(again, diary.log);
    assert_eq!(diary.text.lines().count(), again.lines().len(), "one line an entry");
    assert_eq!(again.torn(), [""; 0]);
}

#[test]
fn a_line_torn_anywhere_is_passed_over_and_told() {
    let diary = limit_run();
    let whole = diary.text.trim_end();
    let last = whole.rfind('\n').expect("more than one line") + 1;
    for cut in (last + 1)..whole.len() {
        if !diary.text.is_char_boundary(cut) {
            continue;
        }
        let log = read(&diary.text[..cut]);
        assert_eq!(log.lines().len(), diary.log.lines().len() - 1, "cut at {cut}");
        assert_eq!(log.torn(), [diary.text[last..cut].trim_end()], "cut at {cut}");
        assert_eq!(log.lines(), &diary.log.lines()[..log.lines().len()]);
    }
}

/// Goes on with a text as the writer does: what is in the file, and one line more.
fn gone_on(text: &str, said: &str) -> String {
    let (_, more) = read(text).next("later", Entry::Note { text: said.to_owned() });
    format!("{text}{more}")
}

#[test]
fn an_entry_that_was_taken_counts_although_the_newline_after_it_is_lost() {
    let diary = limit_run();
    let without = diary.text.trim_end();
    let log = read(without);
    assert_eq!(log.lines(), diary.log.lines());
    assert_eq!(log.torn(), [""; 0]);
    let longer = gone_on(&gone_on(without, "first"), "second");
    assert_eq!(read(&longer).lines().len(), diary.log.lines().len() + 2, "what comes after goes on the chain");
}

#[test]
fn a_disk_that_was_full_several_times_in_a_row_costs_no_entry() {
    let diary = limit_run();
    // Each time the writer gets no further than the first bytes of its line.
    let mut text = diary.text.clone();
    for cut in [1, 9, 16, 17, 18, 30, 60] {
        let longer = gone_on(&text, "not taken");
        text.push_str(&longer[text.len()..text.len() + cut]);
    }
    let log = read(&text);
    assert_eq!((log.lines(), log.torn().len()), (diary.log.lines(), 7));
    let longer = gone_on(&gone_on(&text, "taken"), "taken too");
    let again = read(&longer);
    assert_eq!(again.lines().len(), diary.log.lines().len() + 2);
    assert_eq!(again.torn(), log.torn(), "what was torn is still told");
}

#[test]
fn a_log_cut_at_every_byte_goes_on_and_is_cut_and_read_again() {
    let diary = limit_run();
    let start = diary.text.find('\n').expect("the plan's line") + 1;
    // From the second line on; the plan's own line is long and no different.
    for cut in (start..=diary.text.len()).filter(|cut| diary.text.is_char_boundary(*cut)) {
        let kept = read(&diary.text[..cut]).lines().len();
        let longer = gone_on(&diary.text[..cut], "went on");
        assert_eq!(read(&longer).lines().len(), kept + 1, "cut at {cut}");
        let again = cut + (longer.len() - cut) * (cut % 7) / 7;
        let last = gone_on(&longer[..again], "went on again");
        assert!(read(&last).lines().len() > kept, "cut at {cut} and at {again}");
    }
}

#[test]
fn zeros_that_a_lost_power_left_at_the_end_are_passed_over() {
    let diary = limit_run();
    let text = format!("{}{}", diary.text, "\0".repeat(300));
    let longer = gone_on(&text, "went on");
    assert_eq!(read(&longer).lines().len(), diary.log.lines().len() + 1);
}

#[test]
fn a_log_whose_newlines_an_editor_changed_is_read() {
    let diary = limit_run();
    assert_eq!(read(&diary.text.replace('\n', "\r\n")).lines(), diary.log.lines());
    assert_eq!(read(&format!("{}\n\n", diary.text)).lines(), diary.log.lines());
}

#[test]
fn a_last_line_that_was_altered_is_no_torn_one() {
    let diary = limit_run();
    let at = diary.text.trim_end().rfind("2026").expect("the last line's date");
    let altered = format!("{}2025{}", &diary.text[..at], &diary.text[at + 4..]);
    let error = Log::read(&altered).expect_err("it was altered");
    assert_eq!(error.line, diary.log.lines().len());
}

#[test]
fn a_text_of_another_kind_is_no_log() {
    assert_eq!(Log::read(crate::bench::PLAN).expect_err("a plan").line, 1);
    assert!(!Log::begins(crate::bench::PLAN.as_bytes()));
    assert!(Log::begins(limit_text().as_bytes()));
}

#[test]
fn after_a_torn_line_the_day_goes_on_and_nothing_is_rewritten() {
    let diary = limit_run();
    let torn = &diary.text[..diary.text.len() - 9];
    let mut log = read(torn);
    let (line, text) = log.next("later", Entry::Note { text: "went on".to_owned() });
    assert!(text.starts_with('\n'), "a new line begins: {text:?}");
    let longer = format!("{torn}{text}");
    log.push(line, &text);
    let again = read(&longer);
    assert_eq!(again.lines(), log.lines());
    assert_eq!(again.torn().len(), 1, "what was torn is still told");
    let (_, next) = again.next("later", Entry::Resumed);
    assert!(!next.starts_with('\n'), "the line before is whole");
}

#[test]
fn a_line_that_was_altered_or_taken_out_is_refused_with_its_number() {
    let diary = whole_day(4.0);
    let lines: Vec<&str> = diary.text.lines().collect();
    for spoilt in 1..lines.len() - 2 {
        let without: Vec<_> = lines.iter().enumerate().filter(|(i, _)| *i != spoilt).map(|(_, line)| *line).collect();
        let error = Log::read(&(without.join("\n") + "\n")).expect_err("a line is missing");
        assert_eq!(error.line, spoilt + 1);
        let mut altered = lines.clone();
        let other = lines[spoilt].replacen("2026", "2025", 1);
        altered[spoilt] = &other;
        let error = Log::read(&(altered.join("\n") + "\n")).expect_err("a line was altered");
        assert_eq!(error.line, spoilt + 1);
        assert!(error.sentence.contains("altered"), "{}", error.sentence);
    }
}

#[test]
fn the_fingerprint_of_a_log_changes_with_every_line() {
    let mut diary = limit_run();
    let before = diary.log.fingerprint().to_owned();
    diary.add(Entry::Note { text: "a noise".to_owned() });
    assert_ne!(diary.log.fingerprint(), before);
    assert_eq!(read(&diary.text).fingerprint(), diary.log.fingerprint());
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused_with_a_sentence(text in "\\PC*(\n\\PC*){0,4}") {
        match Log::read(&text) {
            Ok(log) => { let _ = Day::of(&log).map_err(|refused| refused.to_string()); }
            Err(error) => prop_assert!(!error.to_string().is_empty()),
        }
    }

    #[test]
    fn a_sound_log_with_bytes_changed_never_panics(at in 0_usize..4000, with in "\\PC{0,3}") {
        let text = limit_text();
        let at = (0..=at.min(text.len())).rev().find(|i| text.is_char_boundary(*i)).unwrap_or(0);
        let spoilt = format!("{}{with}{}", &text[..at], &text[at..]);
        if let Ok(log) = Log::read(&spoilt) {
            let _ = Day::of(&log).map_err(|refused| refused.to_string());
        }
    }
}
