//! The worked boards. source key `worked-beams` (`derived`), files in `tests/cases`.

use crate::elements::{agrees, balances};
use crate::stated::{bent, near, same};
use serde_json::Value;
use statics::beam::{Beam, CrossSection, Load, Support};

const BOARDS: [&str; 2] =
    [include_str!("../cases/h01_board_uniform.json"), include_str!("../cases/h02_board_two_bags.json")];

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

fn read(board: &Value) -> Beam {
    let segment = |row: &Value| Load::Line {
        from_m: number(&row[0]),
        to_m: number(&row[1]),
        at_from_n_per_m: number(&row[2]),
        at_to_n_per_m: number(&row[3]),
    };
    let point = |row: &Value| Load::Point { at_m: number(&row[0]), force_n: number(&row[1]) };
    let support = |row: &Value| Support {
        at_m: number(&row[0]),
        stiffness_n_per_m: row[1].as_f64(),
        only_pushes: board["unilateral"].as_bool().unwrap(),
    };
    Beam {
        length_m: number(&board["length"]),
        section: CrossSection {
            width_m: number(&board["width"]),
            depth_m: number(&board["depth"]),
            modulus_pa: number(&board["E"]),
        },
        loads: list(&board["segments"]).iter().map(segment).chain(list(&board["points"]).iter().map(point)).collect(),
        supports: list(&board["supports"]).iter().map(support).collect(),
    }
}

#[test]
fn worked_boards_come_out_as_printed() {
    for text in BOARDS {
        let case: Value = serde_json::from_str(text).unwrap();
        let (id, want) = (case["id"].as_str().unwrap(), &case["expect"]);
        let beam = read(&case["board"]);
        let got = bent(&beam);
        for (index, reaction) in list(&want["reactions_n"]).iter().enumerate() {
            near(&format!("{id} reaction"), got.reactions_n[index], number(reaction), 1e-7 * number(reaction), "N");
        }
        same(&format!("{id} moment"), got.moment.value, number(&want["moment_nm"]), "N m");
        near(&format!("{id} moment's place"), got.moment.at_m, number(&want["at_m"]), 1e-9, "m");
        same(&format!("{id} shear"), got.shear.value.abs(), number(&want["shear_n"]), "N");
        same(&format!("{id} bending"), got.bending_pa, number(&want["bending_pa"]), "Pa");
        same(&format!("{id} shear stress"), got.shear_pa, number(&want["shear_pa"]), "Pa");
        same(&format!("{id} deflection"), got.deflection.value.abs(), number(&want["deflection_m"]), "m");
        near(&format!("{id} deflection's place"), got.deflection.at_m, number(&want["deflection_at_m"]), 1e-9, "m");
        agrees(id, &beam, &got);
        balances(id, &beam, &got);
    }
}
