//! The first page: what was to be proved, and what the day shows.

use super::annex;
use super::straps;
use crate::figure::{Align, Ink, Sign};
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::{deflection, heading, mass};
use assess::load::Load;
use quantity::Quantity;
use testday::{Account, Answer, Day, Device, Entry, Ground, Log, SetRead};

pub(super) fn set(book: &mut Book, log: &Log, account: &Account) {
    book.section("Test record");
    book.running_head("Test record");
    facts(log, account).set_bare(book);
    heading(book, "1 Verdict", 60.0);
    verdict(account).set(book);
    book.cursor_mm += 1.5;
    book.paragraph(
        Style::SMALL,
        "Yes: the pieces were the load, the scales agree within their band, the line of action was within the tolerance about the occupant point, and the hold lasted (at least three seconds at ultimate, 14 CFR 23.305(b) as amended to 23-45). Held, but: all of that, with the load farther off the point than is allowed, or for less time than was planned. The set that counts is the one after limit load (23.305(a)). Not shown is never yes. The rules that apply and those who sign decide what this test proves.",
    );
    open(book, account);
    annex::list(
        book,
        "Stops, their likely causes, and on what ground the test was continued",
        (log, account),
        is_override,
    );
}

/// What the verdict leaves open: deflections beside what was expected, and what is not known of them and of zeros. An
/// expectation is no limit, and no such deflection turns a yes into a no.
fn open(book: &mut Book, account: &Account) {
    heading(book, "What the verdict leaves open", 22.0);
    let plan = &account.day.plan;
    let mut open = account.reservations();
    open.extend(not_entered(&account.day));
    if !plan.gauges.is_empty() && plan.gauges.iter().all(|g| g.expected_at_limit.or(g.expected_at_ultimate).is_none()) {
        open.push(
            "No expected deflection is given in the plan: the readings of the gauges were held against none."
                .to_owned(),
        );
    }
    let moved = |device: &Device| account.day.zero_return(device).is_some_and(|zero| zero.is_back() == Some(false));
    let devices = Device::all(plan);
    let beside = devices.iter().filter(|device| moved(device));
    open.extend(beside.map(|device| format!("{} did not come back to its zero: part 4.", device.name())));
    if open.is_empty() {
        return book.paragraph(Style::BODY, "Nothing, by the entries of the log.");
    }
    for sentence in open {
        book.keep_together(book.paragraph_mm(Style::BODY, &sentence));
        book.paragraph(Style::BODY, &sentence);
    }
}

/// What nobody entered of a seat that was loaded.
fn not_entered(day: &Day) -> Vec<String> {
    if !day.was_loaded() {
        return Vec::new();
    }
    let uninspected =
        "Nobody entered an inspection: whether anything cracked, broke or stayed bent is not known.".to_owned();
    let scales = day.scales_without_zero_after();
    let names: Vec<_> = scales.iter().map(Device::name).collect();
    let zeros = format!("The zero after the test was not entered: {}.", names.join(", "));
    let told = [(day.inspections.is_empty(), uninspected), (!names.is_empty(), zeros)];
    told.into_iter().filter(|(is_open, _)| *is_open).map(|(_, sentence)| sentence).collect()
}

/// What the verdict cannot be read without: checks that fell short, stops, and who continued.
fn is_override(entry: &Entry) -> bool {
    matches!(
        entry,
        Entry::LoadedAlthough { .. }
            | Entry::Stopped { .. }
            | Entry::WentOn { .. }
            | Entry::Aborted { .. }
            | Entry::Resumed
    )
}

/// No hold tells by itself that nothing broke.
const NOT_INSPECTED: &str = "not entered: whether anything cracked, broke or stayed bent is not in this log";

fn facts(log: &Log, account: &Account) -> Table {
    let day = &account.day;
    let plan = &day.plan;
    let mut lines = vec![("Plan", format!("{}, fingerprint {}", plan.title, day.fingerprint))];
    lines.push(("Article", format!("{}, {}", plan.article.name, mass(plan, plan.article.mass.si()))));
    if let Some(case) = plan.case_in_hand() {
        let load = Load::of(case);
        let [limit, ultimate] = [load.limit.as_mass(), load.ultimate.as_mass()].map(|m| mass(plan, m.si()));
        lines.push(("Load case", format!("{}. {}", case.name, case.basis_in_full(plan.units))));
        lines.push(("Load", format!("limit {limit}, ultimate {ultimate}")));
    }
    lines.push(("Times", times(log, account)));
    lines.push(("Closed", closed(log, account)));
    let torn = match log.torn().len() {
        0 => String::new(),
        count => format!("; {count} line(s) cut short by a crash, which never counted"),
    };
    lines.push(("Log", format!("{} lines, last checksum {}{torn}", log.lines().len(), log.fingerprint())));
    if let Some(why) = &day.aborted {
        lines.push(("Given up", why.clone()));
    }
    if let Some((checks, why)) = &day.although {
        lines.push(("Loaded although", format!("{} fell short. Reason: {why}", checks.join(", "))));
    }
    if day.inspections.is_empty() && day.runs.iter().any(|run| run.placed() > 0) {
        lines.push(("Inspection", NOT_INSPECTED.to_owned()));
    }
    lines.extend(straps::not_known(account).map(|text| ("Straps", text)));
    lines.extend(against(log).map(|text| ("Against a stop", text)));
    if day.format < testday::FORMAT {
        lines.push(("Rules", format!("the log has format {}: the verdict follows the rules of its day", day.format)));
    }
    let row =
        |(name, text): (&str, String)| vec![Cell::Text(name.to_owned(), Style::BODY.ink(Ink::Quiet)), Cell::text(text)];
    let columns = vec![Column::fixed("", 27.0, Align::Left), Column::wide("")];
    Table { columns, rows: lines.into_iter().map(row).collect(), row_mm: 6.0 }
}

/// What was signed for against a stop.
fn against(log: &Log) -> impl Iterator<Item = String> + '_ {
    log.lines().iter().filter_map(|line| match &line.entry {
        Entry::WentOn { why, ground: Some(Ground::Against { name }) } => {
            Some(format!("line {}, signed by {name}: {why}", line.number))
        }
        _ => None,
    })
}

/// Who closed the day, and when.
fn closed(log: &Log, account: &Account) -> String {
    let ended = log.lines().iter().rev().find(|line| matches!(line.entry, Entry::Ended { .. }));
    match (&account.day.ended, ended) {
        (Some(by), Some(line)) => format!("by {by}, {}", line.at),
        _ => "NOT CLOSED in this log".to_owned(),
    }
}

fn times(log: &Log, account: &Account) -> String {
    let first = log.lines().first().map_or("", |line| line.at.as_str());
    let ended = log.lines().iter().find(|line| matches!(line.entry, Entry::Ended { .. }));
    let last = match (ended, log.lines().last()) {
        (Some(line), _) if account.day.ended.is_some() => format!("ended {}", line.at),
        (_, Some(line)) => format!("not ended; last entry {}", line.at),
        _ => String::new(),
    };
    let again = log.lines().iter().filter(|line| line.entry == Entry::Resumed).count();
    let again = if again > 0 { format!("; the program was opened again {again} time(s)") } else { String::new() };
    format!(
        "begun {first}, {last} (wall clock of the machine; tables have its time of day, UTC where no offset stands here){again}"
    )
}

fn verdict(account: &Account) -> Table {
    let columns = vec![
        Column::fixed("question", 49.0, Align::Left),
        Column::fixed("answer", 22.0, Align::Left),
        Column::wide("with what numbers"),
    ];
    let row = |(question, answer): (&str, &Answer)| {
        let (sign, ink) = sign_of(answer);
        vec![Cell::strong(question), Cell::State(sign, ink, answer.word().to_owned()), Cell::text(answer.why())]
    };
    let verdict = &account.verdict;
    let greatest = verdict.greatest.as_deref().unwrap_or("nothing was on the seat");
    let mut rows = vec![vec![Cell::strong("Greatest load reached"), Cell::text(""), Cell::text(greatest)]];
    rows.extend(verdict.answers().into_iter().map(row));
    Table { columns, rows, row_mm: 11.0 }
}

/// How an answer is marked, on the record and in the window.
pub fn sign_of(answer: &Answer) -> (Sign, Ink) {
    match answer {
        Answer::Yes(_) => (Sign::Holds, Ink::Is),
        Answer::Beside(_) => (Sign::Near, Ink::Wanted),
        Answer::No(_) => (Sign::Fails, Ink::Wanted),
        Answer::NotShown(_) => (Sign::Undecided, Ink::Wanted),
    }
}

/// What the gauges kept, run by run.
pub(super) fn sets(account: &Account) -> Table {
    let columns = vec![
        Column::wide("gauge"),
        Column::fixed("run", 12.0, Align::Right),
        Column::fixed("read before", 20.0, Align::Right),
        Column::fixed("read after", 20.0, Align::Right),
        Column::fixed("set", 20.0, Align::Right),
        Column::fixed("allowed", 20.0, Align::Right),
        Column::fixed("state", 25.0, Align::Left),
    ];
    let plan = &account.day.plan;
    let row = |set: &SetRead| {
        let name = plan.gauges.get(set.gauge).map_or("", |gauge| gauge.name.as_str());
        let state = match set.set_m {
            None => Cell::State(Sign::Undecided, Ink::Wanted, "not read".to_owned()),
            Some(_) if set.is_over() && set.counts => Cell::State(Sign::Fails, Ink::Wanted, "too much".to_owned()),
            Some(_) if !set.counts => Cell::text("not after limit"),
            Some(_) => Cell::State(Sign::Holds, Ink::Is, "within".to_owned()),
        };
        let told = |m: Option<f64>| Cell::text(m.map_or("–".to_owned(), |m| deflection(plan, m)));
        vec![
            Cell::strong(name),
            Cell::text((set.run + 1).to_string()),
            told(set.read_m[0]),
            told(set.read_m[1]),
            told(set.set_m),
            Cell::text(deflection(plan, set.allowed_m)),
            state,
        ]
    };
    Table { columns, rows: account.verdict.sets.iter().map(row).collect(), row_mm: 7.0 }
}
