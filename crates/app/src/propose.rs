//! `loadcairn propose`: writes a plan whose stack the program laid out.

use crate::failure::Failure;
use crate::target::Target;
use crate::terminal::{self, Progress, plain};
use arrange::{Heard, Proposal, Wish, propose};
use assess::State;
use plan::Plan;
use quantity::{Grain, Length, Mass, Quantity};
use std::path::Path;
use std::process::ExitCode;

/// What the name of a plan ends in.
const ENDINGS: [&str; 1] = ["ron"];

pub(crate) fn run((file, seed): (&Path, u64), target: &Target, progress: &Progress) -> Result<ExitCode, Failure> {
    target.admit(&ENDINGS, file)?;
    let plan = crate::read_plan(file)?;
    let heard = |heard: &Heard| progress.tell("laying out the stack", heard.done);
    let proposals = propose(&plan, &Wish { seed, ..Wish::default() }, &heard);
    let Some(best) = proposals.first() else { return Err(Failure::NoStack { file: file.to_owned() }) };
    if best.is_empty() {
        terminal::say(&nothing(&plan, best))?;
        return Ok(ExitCode::from(1));
    }
    let laid = best.edit().apply(&plan).map_err(|fault| Failure::Laying { file: file.to_owned(), fault })?;
    target.write(&ENDINGS, file, plan::file::write(&laid).as_bytes())?;
    terminal::say(&lines(&plan, best))?;
    Ok(if best.in_order() { ExitCode::SUCCESS } else { ExitCode::from(1) })
}

/// Why nothing can be laid. No file is written: a plan without its stack would help nobody.
fn nothing(plan: &Plan, proposal: &Proposal) -> String {
    let text = format!("{}: no piece could be laid, and no plan was written.\n", plain(&plan.title));
    text + &reasons(proposal) + &crate::check::closing()
}

fn reasons(proposal: &Proposal) -> String {
    let line = |heading: &str, sentence: &str| format!("falls short  {heading:<20}  {}\n", plain(sentence));
    proposal.shortfalls.iter().map(|short| line(short.check.heading(), &short.sentence)).collect()
}

/// The numbers of the stack, and a sentence for each thing that it could not meet.
fn lines(plan: &Plan, proposal: &Proposal) -> String {
    let n = &proposal.numbers;
    let mass = Mass::kg(n.applied_kg).shown(plan.units, Grain::Coarse);
    // Tenths of a millimetre: a line of action drawn this near would all read 0 mm.
    let fine = |m: f64| Length::m((m * 1e4).round() / 1e4).in_field(plan.units, Grain::Fine);
    let short = |m: f64| Length::m(m).shown(plan.units, Grain::Fine);
    let leans = if n.leans { ", leaning as its bags give" } else { "" };
    let reserve =
        n.reserve.map_or("no reserve".to_owned(), |reserve| format!("a reserve of {reserve:.2} of its weight{leans}"));
    let mut text = format!(
        "{}: {} pieces, {} of them boards, in {} layers, {} high, {mass}, {reserve}; line of action {} off fore and aft, {} off laterally, {} off at the worst hold.\n",
        plain(&plan.title),
        n.pieces,
        n.boards,
        n.layers,
        short(n.height_m),
        fine(n.offset_m[0].abs()),
        fine(n.offset_m[1].abs()),
        fine(n.worst_at_holds_m),
    );
    if let Some(sentence) = &proposal.by_turns {
        text += &format!("order        {}\n", plain(sentence));
    }
    for sentence in proposal.strap_changes(plan) {
        text += &format!("changed      {}\n", plain(&sentence));
    }
    text += &reasons(proposal);
    for caution in proposal.assessment.findings.iter().filter(|finding| finding.state == State::Caution) {
        text += &format!("caution      {:<20}  {}\n", caution.check.heading(), plain(&caution.text));
    }
    text += &format!("{}\n", proposal.assessment.tally().closing());
    text + &crate::check::closing()
}
