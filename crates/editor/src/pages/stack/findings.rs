//! The findings: what to do next, how many stand how, then the groups in their fixed order. What falls
//! short or asks for a look is an open card; what is met is one line a group. Groups with a failure come first.

use super::hand::Jump;
use super::table::Table;
use super::{finding, next, quiet};
use crate::icons::Icon;
use crate::{look, paint, signs};
use assess::{Group, State};
use drafting::figure::Ink;
use eframe::egui::{self, Align2, FontId, ScrollArea, Sense, Ui, WidgetInfo, accesskit::Role, pos2, vec2};

/// Height of a group's line.
const LINE: f32 = 26.0;

pub(super) fn show(ui: &mut Ui, table: &mut Table) {
    let findings = &table.shown.assessment.findings;
    let (coming, here): (Vec<usize>, Vec<usize>) =
        (0..findings.len()).partition(|index| table.shown.waits_for_more(&findings[*index]));
    let is_worked_out =
        |index: &usize| findings[*index].state == State::Undecided && table.shown.assessment.is_undecided();
    let (working, here): (Vec<usize>, Vec<usize>) = here.iter().partition(|index| is_worked_out(index));
    next::show(ui, table, &here);
    counts(ui, table, &here, coming.len());
    ui.add_space(4.0);
    ScrollArea::vertical().id_salt("findings").auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 4.0;
        quiet::still_to_come(ui, table, &coming);
        quiet::being_worked_out(ui, table, &working);
        for of in worst_first(table, &here) {
            group(ui, table, of, &here);
        }
        ui.add_space(4.0);
        quiet::columns(ui, table);
    });
}

/// How many stand how, worst first; a click goes to the first of them.
fn counts(ui: &mut Ui, table: &mut Table, here: &[usize], coming: usize) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(2.0, 2.0);
        for state in [State::Fails, State::Undecided, State::Caution, State::NoLimit] {
            let count = here.iter().filter(|index| table.shown.assessment.findings[**index].state == state).count();
            // What waits for more pieces is not decided, here as at the tab.
            let count = if state == State::Undecided { count + coming } else { count };
            if count == 0 && state != State::Fails {
                continue;
            }
            let words = counted(state, count);
            let (sign, ink) = signs::of_state(state);
            signs::sign(ui, table.look, sign, if count == 0 { Ink::Quiet } else { ink });
            let words = egui::Label::new(look::caption(table.look, words)).selectable(false).sense(Sense::click());
            if ui.add(words).on_hover_text("Goes to the first of them").clicked() && count > 0 {
                table.hand.jump = Some(Jump::First(state));
                table.hand.groups.extend(groups_of(table, here, state));
            }
            ui.add_space(8.0);
        }
    });
}

/// The groups with a failure, then those with what is not decided, then the others, each in their fixed order.
fn worst_first(table: &Table, here: &[usize]) -> [Group; 7] {
    let findings = &table.shown.assessment.findings;
    let of_group = |of: Group| here.iter().map(|index| &findings[*index]).filter(move |f| f.check.group() == of);
    let mut all = Group::ALL;
    all.sort_by_key(|of| match of_group(*of).map(|f| f.state).max() {
        Some(State::Fails) => 0,
        Some(State::Undecided) => 1,
        _ => 2,
    });
    all
}

/// The group of the first finding in a state, where it would be folded away.
fn groups_of(table: &Table, here: &[usize], state: State) -> Option<Group> {
    let findings = &table.shown.assessment.findings;
    let of = |group: &Group| {
        here.iter().any(|index| findings[*index].check.group() == *group && findings[*index].state == state)
    };
    worst_first(table, here).into_iter().find(of).filter(|_| is_quiet(state))
}

/// What is folded to a line.
fn is_quiet(state: State) -> bool {
    matches!(state, State::Met | State::NoLimit)
}

fn group(ui: &mut Ui, table: &mut Table, of: Group, here: &[usize]) {
    let findings = &table.shown.assessment.findings;
    let mut all: Vec<usize> = here.iter().copied().filter(|index| findings[*index].check.group() == of).collect();
    all.sort_by_key(|index| std::cmp::Reverse(findings[*index].state));
    if all.is_empty() {
        return;
    }
    let quiet = |index: &usize| is_quiet(findings[*index].state);
    let (folded, open): (Vec<usize>, Vec<usize>) = all.iter().copied().partition(quiet);
    let states: Vec<State> = all.iter().map(|index| findings[*index].state).collect();
    head(ui, table, of, (&states, folded.is_empty()));
    for index in open {
        finding::card(ui, table, index);
    }
    if table.hand.groups.contains(&of) {
        for index in folded {
            finding::whole(ui, table, index);
        }
    }
}

/// A group's line: its name, how many stand how, and a caret where something is folded.
fn head(ui: &mut Ui, table: &mut Table, of: Group, (states, bare): (&[State], bool)) {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), LINE), Sense::click());
    let told = told(states);
    let is_open = table.hand.groups.contains(&of);
    let label = format!("{}: {told}", of.heading());
    response.widget_info(|| WidgetInfo::selected(Role::Button, !bare, is_open, &label));
    let (look, painter) = (table.look, ui.painter());
    painter.hline(rect.x_range(), rect.top(), egui::Stroke::new(1.0, look.rule()));
    if response.has_focus() {
        let ring = egui::Stroke::new(1.0, look.ink(Ink::Is));
        painter.rect_stroke(rect, 2.0, ring, egui::StrokeKind::Inside);
    }
    let middle = rect.center().y;
    let bold = FontId::new(look::BODY, paint::bold_family());
    let name = pos2(rect.left() + 2.0, middle);
    let name = painter.text(name, Align2::LEFT_CENTER, of.heading(), bold, look.ink(Ink::Line));
    let quiet = look.ink(Ink::Quiet);
    let small = FontId::proportional(look::SMALL);
    let at = pos2(rect.right() - 18.0, middle);
    let told = leading(&told, at.x - name.right() - 24.0, |text| {
        painter.layout_no_wrap(text.to_owned(), small.clone(), quiet).size().x
    });
    let words = painter.text(at, Align2::RIGHT_CENTER, told, small, quiet);
    if states.iter().all(|state| *state == State::Met) {
        let (sign, ink) = signs::of_state(State::Met);
        let at = [f64::from(words.left()) - 11.0, f64::from(middle)];
        paint::primitives(painter, drafting::lower::sign(sign, at, ink, 1.1, &look.palette));
    }
    if !bare {
        let icon = if is_open { Icon::CARET_DOWN } else { Icon::CARET_RIGHT };
        let ink = if response.hovered() { look.ink(Ink::Is) } else { quiet };
        icon.paint(painter, pos2(rect.right() - 8.0, middle), 12.0, ink);
    }
    if response.clicked() && !bare && !table.hand.groups.remove(&of) {
        table.hand.groups.insert(of);
    }
}

/// As many of the states as there is room for, the worst first; the line's own name has all of them.
fn leading(told: &str, room: f32, wide: impl Fn(&str) -> f32) -> String {
    let mut parts: Vec<&str> = told.split(" · ").collect();
    while parts.len() > 1 && wide(&parts.join(" · ")) > room {
        parts.pop();
    }
    parts.join(" · ")
}

/// `1 caution · 2 met`.
fn told(states: &[State]) -> String {
    let count = |state: State| states.iter().filter(|s| **s == state).count();
    let one = |state: State| Some(count(state)).filter(|n| *n > 0).map(|n| counted(state, n));
    State::ALL.into_iter().rev().filter_map(one).collect::<Vec<_>>().join(" · ")
}

/// `no failure`, `2 cautions`, `3 not decided`.
fn counted(state: State, count: usize) -> String {
    let word = match state {
        State::Fails => "failure",
        State::Caution => "caution",
        State::NoLimit => return format!("{count} without a limit"),
        state => return format!("{count} {}", state.word()),
    };
    match count {
        0 => format!("no {word}"),
        1 => format!("1 {word}"),
        _ => format!("{count} {word}s"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_group_tells_its_states_worst_first_and_never_calls_open_ones_met() {
        let states = [State::Met, State::Fails, State::Met, State::Undecided, State::Caution, State::Caution];
        assert_eq!(told(&states), "1 failure · 1 not decided · 2 cautions · 2 met");
        assert_eq!(told(&[State::NoLimit, State::Met]), "1 without a limit · 1 met");
        assert_eq!([counted(State::Fails, 0), counted(State::Fails, 2)], ["no failure", "2 failures"]);
        let letters = |text: &str| f32::from(u8::try_from(text.chars().count()).expect("short"));
        let of_states = told(&states);
        assert_eq!(leading(&of_states, 50.0, letters), of_states, "where there is room nothing is left out");
        assert_eq!(leading(&of_states, 26.0, letters), "1 failure · 1 not decided");
        assert_eq!(leading(&of_states, 3.0, letters), "1 failure", "the worst is always told");
        assert!(!is_quiet(State::Undecided) && !is_quiet(State::Caution) && !is_quiet(State::Fails));
    }
}
