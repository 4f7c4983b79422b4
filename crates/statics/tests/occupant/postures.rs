//! The model's postures, worked out beforehand by an independent program. Source: `occupant-model`.

use crate::{cg_mm, figure, mid_man, near_mm, person, posture};
use statics::occupant::{Build, Person, Posture, Sex, Table, seated};

struct Row {
    name: &'static str,
    /// Recline, pan, knee, arm, elbow, deg.
    angles: [f64; 5],
    /// Under, behind, mm.
    packed: [f64; 2],
    /// Ahead and up of the seat reference point, mm, for the three people.
    want: [[f64; 2]; 3],
}

const fn row(name: &'static str, angles: [f64; 5], packed: [f64; 2], want: [[f64; 2]; 3]) -> Row {
    Row { name, angles, packed, want }
}

/// A woman of 51 kg and 1525 mm, a man of 85 kg and 1755 mm, a man of 111 kg and 1870 mm.
const ROWS: [Row; 9] = [
    row("hands on lap", [0., 0., 90., 15., 95.], [0., 0.], [[192., 193.], [220., 243.], [246., 259.]]),
    row("arms hanging", [0., 0., 90., 0., 180.], [0., 0.], [[182., 185.], [206., 232.], [231., 248.]]),
    row("forearms level", [0., 0., 90., 0., 90.], [0., 0.], [[188., 191.], [214., 240.], [240., 257.]]),
    row("hand on stick", [13., 6., 110., 25., 110.], [0., 0.], [[157., 208.], [175., 261.], [197., 280.]]),
    row("light aircraft", [20., 10., 125., 25., 110.], [0., 0.], [[138., 218.], [150., 273.], [171., 293.]]),
    row("cushions", [20., 10., 125., 25., 110.], [25., 15.], [[144., 244.], [156., 299.], [177., 319.]]),
    row("glider", [30., 15., 135., 25., 125.], [0., 0.], [[107., 222.], [110., 277.], [129., 298.]]),
    row("glider, back pack", [30., 15., 135., 25., 125.], [0., 80.], [[187., 243.], [190., 298.], [209., 320.]]),
    row("lying far back", [45., 20., 145., 25., 130.], [0., 0.], [[65., 212.], [57., 264.], [72., 286.]]),
];

fn people() -> [Person; 3] {
    [person(Sex::Female, 51.0, 1525.0), mid_man(), person(Sex::Male, 111.0, 1870.0)]
}

fn packed(angles: [f64; 5], [under, behind]: [f64; 2]) -> Posture {
    Posture { under_m: under * 1e-3, behind_m: behind * 1e-3, ..posture(angles) }
}

#[test]
fn postures_lie_where_they_were_worked_out_to_the_millimetre() {
    for row in &ROWS {
        for (person, want) in people().iter().zip(row.want) {
            let got = cg_mm(person, &packed(row.angles, row.packed));
            let what = format!("{}, {} kg", row.name, person.mass_kg);
            // Printed in whole millimetres: half of one, and as much for the foot, whose place the
            // printed model leaves open.
            near_mm(&format!("{what}, ahead"), got[0], want[0], 0.8);
            near_mm(&format!("{what}, up"), got[1], want[1], 0.8);
        }
    }
}

/// What a change moves, from a light aircraft's posture with the man of 85 kg.
#[test]
fn what_a_change_moves_is_what_was_worked_out() {
    let (man, light) = (mid_man(), posture([20.0, 10.0, 125.0, 25.0, 110.0]));
    let base = cg_mm(&man, &light);
    let turned = |angles: [f64; 5]| cg_mm(&man, &posture(angles));
    let body = |mass: f64, stature: f64| cg_mm(&person(Sex::Male, mass, stature), &light);
    let under = |under: f64, behind: f64| cg_mm(&man, &packed([20.0, 10.0, 125.0, 25.0, 110.0], [under, behind]));
    let built = |change: fn(&mut Build)| {
        let mut build = man.build();
        change(&mut build);
        seated(&build, &light).cg_m().map(|m| 1e3 * m)
    };
    let changes = [
        ("recline + 5 deg", turned([25.0, 10.0, 125.0, 25.0, 110.0]), [-20.0, -8.0]),
        ("pan + 5 deg", turned([20.0, 15.0, 125.0, 25.0, 110.0]), [-3.0, 21.0]),
        ("knee + 20 deg", turned([20.0, 10.0, 145.0, 25.0, 110.0]), [6.0, 8.0]),
        ("arm + 20 deg", turned([20.0, 10.0, 125.0, 45.0, 110.0]), [3.0, 9.0]),
        ("elbow + 20 deg", turned([20.0, 10.0, 125.0, 25.0, 130.0]), [1.0, -3.0]),
        ("mass + 10 kg", body(95.0, 1755.0), [8.0, 1.0]),
        ("stature + 50 mm", body(85.0, 1805.0), [1.0, 7.0]),
        ("25 mm under", under(25.0, 0.0), [-9.0, 24.0]),
        ("25 mm behind", under(0.0, 25.0), [25.0, 4.0]),
        ("trunk 15 mm ahead", built(|b| b.trunk.ahead_m += 0.015), [6.0, 2.0]),
        ("legs on their axes", built(on_axis), [1.0, 6.0]),
    ];
    for (what, got, want) in changes {
        near_mm(&format!("{what}, ahead"), got[0] - base[0], want[0], 0.6);
        near_mm(&format!("{what}, up"), got[1] - base[1], want[1], 0.6);
    }
    // Printed for 20 mm of slump more.
    let slumped = cg_mm(&Person { slump_m: 0.040, ..man }, &light);
    near_mm("slump + 20 mm, ahead", slumped[0] - base[0], 3.0, 0.6);
    near_mm("slump + 20 mm, up", slumped[1] - base[1], -7.0, 0.6);
}

fn on_axis(build: &mut Build) {
    (build.thigh.behind, build.shank.behind) = (0.0, 0.0);
}

/// Shanks and feet carried by floor and pedals: the rest lies further aft and higher.
#[test]
fn lower_legs_off_the_seat_move_the_point_aft_and_up() {
    for (angles, want) in [
        ([0.0, 0.0, 90.0, 0.0, 90.0], [171.0, 296.0]),
        ([20.0, 10.0, 125.0, 25.0, 110.0], [79.0, 312.0]),
        ([30.0, 15.0, 135.0, 25.0, 125.0], [31.0, 305.0]),
    ] {
        let (_, cg) = figure(&mid_man(), &posture(angles)).without_lower_legs();
        near_mm(&format!("{angles:?}, ahead"), 1e3 * cg[0], want[0], 1.0);
        near_mm(&format!("{angles:?}, up"), 1e3 * cg[1], want[1], 1.0);
    }
}

/// The same man with another table. The beforehand program placed the segments of the other tables
/// by choices that it does not print: within 3 mm ours are the same, within 5 mm where the pelvis's
/// length is not told either. The tables differ by 20 mm and more.
#[test]
fn other_tables_put_the_same_man_where_they_were_worked_out() {
    let postures = [ROWS[2].angles, ROWS[4].angles, ROWS[6].angles, ROWS[8].angles];
    let tables = [
        (Table::DeLeva, Sex::Male, [[214., 240.], [150., 273.], [110., 277.], [57., 264.]], 0.8),
        (Table::DeLeva, Sex::Female, [[235., 221.], [177., 254.], [141., 260.], [95., 250.]], 0.8),
        (Table::Winter, Sex::Male, [[201., 251.], [134., 280.], [93., 282.], [39., 267.]], 3.0),
        (Table::Dumas, Sex::Male, [[210., 246.], [143., 275.], [103., 279.], [49., 264.]], 3.0),
        (Table::Dumas, Sex::Female, [[219., 233.], [154., 261.], [118., 264.], [70., 250.]], 5.0),
    ];
    for (table, sex, wants, within) in tables {
        let person = Person { table, ..person(sex, 85.0, 1755.0) };
        for (angles, want) in postures.iter().zip(wants) {
            let got = cg_mm(&person, &posture(*angles));
            near_mm(&format!("{table:?} {sex:?} {angles:?}, ahead"), got[0], want[0], within);
            near_mm(&format!("{table:?} {sex:?} {angles:?}, up"), got[1], want[1], within);
        }
    }
}
