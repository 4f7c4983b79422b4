//! Figures made into primitives of a device: what is cut, what makes way.

use super::{close, example};
use drafting::figure::{Figure, Fill, Ink, Label, Material, Pen, Room, Sign, Strength, Weight};
use drafting::lower::{Primitive, Viewport, lower, lower_named};
use drafting::palette::Palette;
use drafting::views::{self, Scene, View};

#[test]
fn a_number_makes_way_for_the_sign_that_is_painted_over_it() {
    let mut figure = Figure::default();
    figure.label(Label::new([0.0, 0.0], "12").room(Room::Within([1.6, 0.3])));
    let at = |figure: &Figure| {
        let of = |m: &Primitive| if let Primitive::Text { at, .. } = m { Some(at[0]) } else { None };
        lower(figure, &screen(), &Palette::light()).iter().find_map(of).expect("the number is there")
    };
    let alone = at(&figure);
    figure.sign([0.0, 0.0], Sign::Centroid, Ink::Is);
    let beside = at(&figure);
    assert!((beside - alone).abs() > 12.0, "got {beside}, alone {alone}, want 12 device units apart at least");
}

pub(super) fn screen() -> Viewport {
    Viewport { centre: [0.0, 0.0], scale: 100.0, area: [0.0, 0.0, 200.0, 100.0], unit_per_pt: 1.0 }
}

#[test]
fn the_device_and_the_plane_lead_to_each_other() {
    let back = screen().to_plane(screen().to_device([0.31, -0.17]));
    close(back[0], 0.31, "across");
    close(back[1], -0.17, "up");
    assert!(
        screen().to_device([0.0, 0.2])[1] < screen().to_device([0.0, 0.1])[1],
        "up on the plane is up on the device"
    );
}

#[test]
fn what_lies_outside_the_area_is_not_drawn() {
    let mut figure = Figure::default();
    figure.rectangle([5.0, 5.0], [6.0, 6.0], Fill::Material(Material::Sand, Strength::Strong), None);
    figure.sign([9.0, 0.0], Sign::Centroid, Ink::Is);
    figure.label(Label::new([0.0, 3.0], "out of sight").room(Room::Dodge));
    assert!(lower(&figure, &screen(), &Palette::light()).is_empty());
}

#[test]
fn what_crosses_the_edge_of_the_area_is_cut_there() {
    let mut figure = Figure::default();
    let pen = Pen::solid(Ink::Line, Weight::Thin);
    figure.rectangle([-9.0, -0.1], [9.0, 0.1], Fill::Material(Material::Wood, Strength::Strong), Some(pen));
    figure.line(vec![[-9.0, 0.0], [9.0, 0.0]], pen);
    for mark in lower(&figure, &screen(), &Palette::light()) {
        let (Primitive::Polygon { points, .. } | Primitive::Polyline { points, .. }) = mark else { continue };
        for [x, y] in points {
            assert!(
                (-0.01..=200.01).contains(&x) && (-0.01..=100.01).contains(&y),
                "got {x}, {y}, want within 200 by 100 device units"
            );
        }
    }
}

#[test]
fn a_number_that_does_not_fit_its_piece_is_left_out() {
    let texts = |room: [f64; 2]| {
        let mut figure = Figure::default();
        figure.label(Label::new([0.0, 0.0], "12").room(Room::Within(room)));
        lower(&figure, &screen(), &Palette::light()).len()
    };
    assert_eq!((texts([0.3, 0.3]), texts([0.1, 0.3]), texts([0.3, 0.05])), (1, 0, 0));
}

#[test]
fn labels_at_one_point_make_way_for_each_other() {
    let mut figure = Figure::default();
    for name in ["left cell", "right cell", "front cell"] {
        figure.label(Label::new([0.0, 0.0], name).room(Room::Dodge));
    }
    let heights: Vec<f32> = lower(&figure, &screen(), &Palette::light())
        .iter()
        .filter_map(|m| if let Primitive::Text { at, .. } = m { Some(at[1]) } else { None })
        .collect();
    assert_eq!(heights.len(), 3, "got {} labels, want 3 labels", heights.len());
    for (i, a) in heights.iter().enumerate() {
        for b in &heights[i + 1..] {
            assert!((a - b).abs() > 9.0, "got baselines {a} and {b}, want 9 device units apart at least");
        }
    }
}

#[test]
fn states_differ_by_shape_and_not_by_colour_alone() {
    let shapes: Vec<Vec<Primitive>> = [Sign::Holds, Sign::Near, Sign::Fails, Sign::Undecided, Sign::NoLimit]
        .into_iter()
        .map(|s| drafting::lower::sign(s, [0.0, 0.0], Ink::Line, 1.0, &Palette::print()))
        .collect();
    for (i, a) in shapes.iter().enumerate() {
        for b in &shapes[i + 1..] {
            assert!(a != b, "two states share a shape in one colour");
        }
    }
}

/// Of the demo's fixture in a view of usual size: every name stands outside what is drawn and keeps off the others.
#[test]
fn the_names_of_a_fixture_stand_beside_it_and_keep_off_one_another() {
    let (plan, assessment) = example(0);
    let scene = Scene::whole(&plan, &assessment.closed);
    for view in [View::Side, View::Above] {
        let figure = views::rig(&scene, view);
        let around = figure.bounds().expect("it is drawn");
        let viewport = Viewport::fitting(around, [0.0, 0.0, 900.0, 500.0], 150.0, 1.36);
        let palette = Palette::light();
        let named = lower_named(&figure, &viewport, &palette, Vec::new());
        let texts: Vec<[f64; 4]> = named.iter().filter_map(text_box).collect();
        for (number, one) in texts.iter().enumerate() {
            for other in &texts[number + 1..] {
                let apart = one[0] >= other[2] || other[0] >= one[2] || one[1] >= other[3] || other[1] >= one[3];
                assert!(apart, "{view:?}: {one:?} covers {other:?}");
            }
        }
        // Neighbours of one kind share a name: there are fewer texts than where each stands at its point.
        let leaders = named.len() + 4 - lower(&figure, &viewport, &palette).len();
        assert!(leaders > 8, "{view:?}: {leaders} primitives more, leaders and dots");
        let says =
            |words: &str| named.iter().any(|p| matches!(p, Primitive::Text { text, .. } if text.contains(words)));
        assert!(view != View::Side || says("left, right"), "cells that stand behind one another share a name");
    }
}

/// The box of a text: capitals from its baseline up.
fn text_box(primitive: &Primitive) -> Option<[f64; 4]> {
    let Primitive::Text { at, align, size, bold, text, .. } = primitive else { return None };
    let [x, y, size] = [at[0], at[1], *size].map(f64::from);
    let wide = drafting::text::width(text, size, *bold);
    let left = match align {
        drafting::figure::Align::Left => x,
        drafting::figure::Align::Centre => x - 0.5 * wide,
        drafting::figure::Align::Right => x - wide,
    };
    Some([left, y - drafting::text::capital_height(size, *bold), left + wide, y])
}
