//! The chain of links against a general-purpose library of geometric solids: with the library's own
//! segments in our links the centre of mass must be the library's.

use crate::near_mm;
use serde::Deserialize;
use statics::occupant::{Build, Foot, Link, Posture, Station, seated};

const TEXT: &str = include_str!("library.ron");

#[derive(Deserialize)]
struct Library {
    subjects: Vec<Subject>,
}

#[derive(Deserialize)]
struct Subject {
    name: String,
    trunk_kg: f64,
    trunk_up_m: f64,
    head_kg: f64,
    head_up_m: f64,
    shoulder_up_m: f64,
    upper_arm: Limb,
    forearm: Limb,
    thigh: Limb,
    shank: Limb,
    sits: Vec<Sits>,
}

#[derive(Deserialize)]
struct Limb {
    mass_kg: f64,
    length_m: f64,
    along: f64,
}

/// Angles from the anatomical stance, and where the library puts the centre of mass from the middle
/// of the hip joints with the trunk upright.
#[derive(Deserialize)]
struct Sits {
    lean_deg: f64,
    hip_deg: f64,
    knee_deg: f64,
    shoulder_deg: f64,
    elbow_deg: f64,
    ahead_mm: f64,
    up_mm: f64,
}

impl Limb {
    fn link(&self) -> Link {
        Link { length_m: self.length_m, share: 2.0 * self.mass_kg, along: self.along, behind: 0.0 }
    }
}

impl Subject {
    /// The library's forearms carry the hands and its shanks the feet.
    fn build(&self) -> Build {
        let at = |up_m: f64| Station { up_m, ahead_m: 0.0 };
        let none = Link { length_m: 0.1, share: 0.0, along: 0.5, behind: 0.0 };
        Build {
            hip: at(0.0),
            trunk: at(self.trunk_up_m),
            trunk_share: self.trunk_kg,
            shoulder: at(self.shoulder_up_m),
            neck: at(0.0),
            lower_chest: at(0.0),
            knee_above_pan_m: 0.0,
            head: Link { length_m: 2.0 * self.head_up_m, share: self.head_kg, along: 0.5, behind: 0.0 },
            upper_arm: self.upper_arm.link(),
            forearm: self.forearm.link(),
            hand: none,
            thigh: self.thigh.link(),
            shank: self.shank.link(),
            foot: Foot { link: none, ankle_m: 0.0, under_m: 0.0 },
        }
    }
}

impl Sits {
    fn posture(&self) -> Posture {
        let recline_rad = self.lean_deg.to_radians();
        Posture {
            recline_rad,
            head_rad: Some(recline_rad),
            thigh_rad: Some((self.hip_deg - 90.0 + self.lean_deg).to_radians()),
            knee_rad: (180.0 - self.knee_deg).to_radians(),
            arm_rad: self.shoulder_deg.to_radians(),
            elbow_rad: (180.0 - self.elbow_deg).to_radians(),
            ..Posture::UPRIGHT
        }
    }

    /// The library's point turned aft by the lean about the hip joints.
    fn want_mm(&self) -> [f64; 2] {
        let (sin, cos) = self.lean_deg.to_radians().sin_cos();
        [self.ahead_mm * cos - self.up_mm * sin, self.ahead_mm * sin + self.up_mm * cos]
    }
}

/// Source: `yeadon-solids`: four subjects, seven postures, three of them reclined.
#[test]
fn links_put_a_librarys_segments_where_the_library_puts_them() {
    let library: Library = ron::from_str(TEXT).expect("the library's figures");
    assert_eq!(library.subjects.len(), 4);
    for subject in &library.subjects {
        for (k, sits) in subject.sits.iter().enumerate() {
            let got = seated(&subject.build(), &sits.posture()).cg_m().map(|m| 1e3 * m);
            let what = format!("{}, posture {}", subject.name, k + 1);
            // Two decimals are printed, and the masses to a milligram.
            near_mm(&format!("{what}, ahead"), got[0], sits.want_mm()[0], 0.02);
            near_mm(&format!("{what}, up"), got[1], sits.want_mm()[1], 0.02);
        }
    }
}

/// Read beforehand for one subject, turned to its lean. Source: `yeadon-solids`.
#[test]
fn the_turned_points_are_those_that_were_told() {
    let library: Library = ron::from_str(TEXT).expect("the library's figures");
    let subject = library.subjects.iter().find(|s| s.name == "male3").expect("the third man");
    let wants = [(20.0, [87.1, 183.3]), (30.0, [59.4, 186.9]), (45.0, [17.9, 177.2])];
    for (lean, want) in wants {
        let sits = subject.sits.iter().find(|s| (s.lean_deg - lean).abs() < 1e-9).expect("a posture of this lean");
        let got = sits.want_mm();
        near_mm(&format!("{lean} deg, ahead"), got[0], want[0], 0.1);
        near_mm(&format!("{lean} deg, up"), got[1], want[1], 0.1);
    }
}
