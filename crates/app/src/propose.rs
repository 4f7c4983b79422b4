//! `loadcairn propose`: writes a plan whose stack the program laid out.

use crate::failure::Failure;
use arrange::{Proposal, Wish, propose};
use assess::State;
use plan::Plan;
use quantity::{Grain, Length, Mass, Quantity};
use std::path::Path;
use std::process::ExitCode;

pub(crate) fn run(file: &Path, output: &Path, seed: u64) -> Result<ExitCode, Failure> {
    let plan = crate::read_plan(file)?;
    let proposals = propose(&plan, &Wish { seed, ..Wish::default() }, &|_| true);
    let Some(best) = proposals.first() else { return Err(Failure::NoStack { file: file.to_owned() }) };
    let laid = best.edit().apply(&plan).map_err(|fault| Failure::Laying { file: file.to_owned(), fault })?;
    let text = plan::file::write(&laid);
    editor::disk::write_whole(output, text.as_bytes())
        .map_err(|source| Failure::Write { file: output.to_owned(), source })?;
    crate::check::print(&lines(&plan, best));
    Ok(if best.holds() { ExitCode::SUCCESS } else { ExitCode::from(1) })
}

/// The numbers of the stack, and a sentence for each thing that it could not meet.
fn lines(plan: &Plan, proposal: &Proposal) -> String {
    let n = &proposal.numbers;
    let mass = Mass::kg(n.applied_kg).shown(plan.units, Grain::Coarse);
    // Tenths of a millimetre: a line of action drawn this near would all read 0 mm.
    let fine = |m: f64| Length::m((m * 1e4).round() / 1e4).in_field(plan.units, Grain::Fine);
    let short = |m: f64| Length::m(m).shown(plan.units, Grain::Fine);
    let reserve =
        n.reserve.map_or("no reserve".to_owned(), |reserve| format!("a reserve of {reserve:.2} of its weight"));
    let mut text = format!(
        "{}: {} pieces, {} of them boards, in {} layers, {} high, {mass}, {reserve}; line of action {} off fore and aft, {} off laterally, {} off at the worst hold.\n",
        plan.title,
        n.pieces,
        n.boards,
        n.layers,
        short(n.height_m),
        fine(n.offset_m[0].abs()),
        fine(n.offset_m[1].abs()),
        fine(n.worst_at_holds_m),
    );
    for sentence in proposal.strap_changes(plan) {
        text += &format!("changed      {sentence}\n");
    }
    for shortfall in &proposal.shortfalls {
        text += &format!("falls short  {:<20}  {}\n", shortfall.check, shortfall.sentence);
    }
    for near in proposal.assessment.findings.iter().filter(|finding| finding.state == State::Near) {
        text += &format!("near         {:<20}  {}\n", near.check, near.text);
    }
    if proposal.holds() {
        text += "Every check holds.\n";
    }
    text + "An aid, not an approval: local rules and a licensed engineer or inspector decide.\n"
}
