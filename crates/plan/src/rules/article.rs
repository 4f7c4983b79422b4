//! The article.

use super::faults::Faults;
use super::thing::Thing;
use crate::{Article, KeepClear, Line, Path, Picture, Weighing};

pub(super) fn rules(article: &Article, faults: &mut Faults) {
    let thing = Thing::of("article", "the article");
    faults.not_negative(&thing.field("mass"), article.mass);
    faults.all_finite(&thing.field("centroid"), &article.centroid);
    faults.gentle(&thing.field("pitch"), article.pitch);
    faults.all_finite(&thing.field("pivot"), &article.pivot);
    outline(&thing.path.field("outline"), &article.outline, faults);
    keep_clear(&thing.path.field("keep_clear"), &article.keep_clear, faults);
    if let Some(picture) = &article.picture {
        picture_rules(&thing.path.field("picture"), picture, faults);
    }
    weighings(&thing.path.field("weighings"), &article.weighings, faults);
}

fn picture_rules(path: &Path, picture: &Picture, faults: &mut Faults) {
    let thing = Thing { path: path.clone(), called: "the picture".to_owned() };
    if picture.path.trim().is_empty() {
        faults.add(path.field("path"), "the picture has no file: give its path, or remove the picture".to_owned());
    }
    faults.all_finite(&thing.field_called("at", "place"), &picture.at);
    faults.above_zero(&thing.field("width"), picture.width);
    faults.finite(&thing.field("turn"), picture.turn);
}

fn weighings(list: &Path, weighings: &[Weighing], faults: &mut Faults) {
    faults.names(list, "weighing", weighings.iter().map(|weighing| weighing.name.as_str()));
    for (i, weighing) in weighings.iter().enumerate() {
        let thing = Thing::entry(list, i, "weighing", &weighing.name);
        faults.gentle(&thing.field("pitch"), weighing.pitch);
        let points = thing.path.field("points");
        faults.names(&points, "weighing point", weighing.points.iter().map(|point| point.name.as_str()));
        for (k, point) in weighing.points.iter().enumerate() {
            let thing = Thing::entry(&points, k, "weighing point", &point.name);
            faults.all_finite(&thing.field_called("at", "place"), &point.at);
            faults.not_negative(&thing.field("reading"), point.reading);
            faults.not_negative(&thing.field("tare"), point.tare);
            if let Some(division) = point.division {
                faults.above_zero(&thing.field("division"), division);
            }
        }
    }
}

fn outline(list: &Path, lines: &[Line], faults: &mut Faults) {
    for (i, line) in lines.iter().enumerate() {
        let thing = Thing::entry(list, i, "line", &line.name);
        let points = thing.field("points");
        if line.points.len() < 2 {
            let sentence =
                format!("{} has {}: a line needs at least 2", thing.called, counted(line.points.len(), "point"));
            faults.add(points.path.clone(), sentence);
        }
        for (k, point) in line.points.iter().enumerate() {
            faults.all_finite(&points.number(k), point);
        }
        breadth(&thing, line, faults);
    }
}

fn breadth(thing: &Thing, line: &Line, faults: &mut Faults) {
    let width = thing.field("width");
    if let Some(half) = line.half_breadth {
        faults.above_zero(&thing.field_called("half_breadth", "half-breadth"), half);
    }
    let Some(wide) = line.width else { return };
    faults.above_zero(&width, wide);
    if line.half_breadth.is_none_or(|half| half < wide) {
        let sentence = format!(
            "{} has a width but no half-breadth of at least that: give how far its outer side lies from the middle",
            thing.called
        );
        faults.add(width.path.clone(), sentence);
    }
}

fn keep_clear(list: &Path, regions: &[KeepClear], faults: &mut Faults) {
    faults.names(list, "keep-clear region", regions.iter().map(|region| region.name.as_str()));
    for (i, region) in regions.iter().enumerate() {
        region_rules(&Thing::entry(list, i, "keep-clear region", &region.name), region, faults);
    }
}

fn region_rules(thing: &Thing, region: &KeepClear, faults: &mut Faults) {
    let side = thing.field("side");
    if region.side.len() < 3 {
        let sentence =
            format!("{} has {}: a region needs at least 3", thing.called, counted(region.side.len(), "corner"));
        faults.add(side.path.clone(), sentence);
    }
    for (k, corner) in region.side.iter().enumerate() {
        faults.all_finite(&side.number(k), corner);
    }
    let y = thing.field_called("y", "pair of buttock lines");
    let [low, high] = region.y;
    if faults.both_finite(&y, region.y) && low > high {
        let (low, high) = (faults.told(&y.path, low), faults.told(&y.path, high));
        faults.add(y.path, format!("{} reaches from y {low} to {high}: put the lower one first", thing.called));
    }
    faults.not_negative(&thing.field("clearance"), region.clearance);
}

fn counted(count: usize, one: &str) -> String {
    match count {
        0 => format!("no {one}"),
        1 => format!("1 {one}"),
        more => format!("{more} {one}s"),
    }
}
