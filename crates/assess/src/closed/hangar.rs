//! What the hangar test tells of a bag: a board on it, bags on the board, and how far the board goes down.

use crate::told::significant;
use plan::Reading;
use quantity::{Grain, Kind, Length, Mass, Pressure, Quantity, STANDARD_GRAVITY_M_S2 as GRAVITY, Units};
use statics::soft::{READING_S, Softness, creep_from_readings};

/// By so much a first reading may be early or late, s: `common practice, no source`.
const IN_TIME_S: f64 = 5.0;

/// What is read in the hangar test.
#[derive(Clone, Copy, Debug)]
pub struct HangarTest<'a> {
    /// Length, width and thickness of the bag, settled.
    pub size: [Length; 3],
    /// Length and width of the flat on which it stood.
    pub flat: [Length; 2],
    /// The readings in their order. Where the time does not go on, the bag was loaded again.
    pub readings: &'a [Reading],
}

/// What a hangar test tells.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hangar {
    /// Length, width and thickness of the bag.
    size: [Length; 3],
    flat: [Length; 2],
    first: Reading,
    later: Option<Reading>,
    /// Sinking by pressure, m3/N, 60 s after the first loading.
    pub compliance_m3_per_n: f64,
    /// Thickness by that.
    pub modulus: Pressure,
    /// The same as it was loaded again: for piles that were pressed beforehand. None: not read.
    pub again: Option<Pressure>,
    /// Share by which sinking grows for each tenfold of time. None: read once only.
    pub creep_per_decade: Option<f64>,
    /// Half of what the flat is shorter or narrower than the bag, the greater of both.
    pub rim: Length,
}

/// Why a hangar test tells nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Misread {
    /// Nothing was read.
    NoReading,
    /// The first reading is not the one 60 s after loading.
    NotInTime,
    /// No mass was added.
    NoMass,
    /// The board did not go down.
    NoSinking,
    /// It stood higher later than before.
    Rises,
    /// The flat has no length or no width.
    NoFlat,
    /// The flat is longer or wider than the bag.
    FlatBeyondBag,
}

impl Misread {
    /// What is wrong and what fits, in one sentence.
    pub fn sentence(self) -> &'static str {
        match self {
            Misread::NoReading => "Nothing was read yet: type the mass on the board and the sinking after 60 s.",
            Misread::NotInTime => "The first reading must be the one 60 s after loading.",
            Misread::NoMass => "The mass on the board is missing: type what was added, more than 0.",
            Misread::NoSinking => "The sinking after 60 s must be more than 0: read the board's height again.",
            Misread::Rises => "The board stands higher later than after 60 s: read both heights again.",
            Misread::NoFlat => "The flat is missing: type the length and width on which the bag stood, more than 0.",
            Misread::FlatBeyondBag => "The flat is longer or wider than the bag: measure it, or the bag, again.",
        }
    }
}

/// What a hangar test tells: c = sinking x flat / (mass x g) at the first loading after 60 s, modulus = thickness / c,
/// creep from the later reading, rim from the flat. Sources: `elastic-bar`, `schmertmann-creep`; the rim as the
/// greater of two sides is own judgement, on the safe side.
///
/// # Errors
/// What of the readings does not fit.
pub fn hangar(test: &HangarTest) -> Result<Hangar, Misread> {
    let [first, later, again] = sorted(test.readings)?;
    let [length_m, width_m, thickness_m] = test.size.map(Quantity::si);
    let [flat_length_m, flat_width_m] = test.flat.map(Quantity::si);
    if flat_length_m <= 0.0 || flat_width_m <= 0.0 {
        return Err(Misread::NoFlat);
    }
    if flat_length_m > length_m || flat_width_m > width_m {
        return Err(Misread::FlatBeyondBag);
    }
    let first = first.ok_or(Misread::NoReading)?;
    let compliance = |reading: &Reading| {
        Softness::measured(reading.sinks.si(), flat_length_m * flat_width_m, reading.added.si()).compliance_m3_per_n
    };
    let growth = |later: Reading| creep_from_readings(first.sinks.si(), (later.after.si(), later.sinks.si()));
    Ok(Hangar {
        size: test.size,
        flat: test.flat,
        first,
        later,
        compliance_m3_per_n: compliance(&first),
        modulus: Pressure::pa(thickness_m / compliance(&first)),
        again: again.map(|again| Pressure::pa(thickness_m / compliance(&again))),
        creep_per_decade: later.and_then(growth),
        rim: Length::m(0.5 * (length_m - flat_length_m).max(width_m - flat_width_m)),
    })
}

/// The readings by what they are: the first, the last of the same loading, the first of the next loading.
fn sorted(readings: &[Reading]) -> Result<[Option<Reading>; 3], Misread> {
    let first = *readings.first().ok_or(Misread::NoReading)?;
    let goes_on = |pair: &[Reading]| pair[1].after > pair[0].after;
    let loadings: Vec<&[Reading]> = readings.chunk_by(|a, b| goes_on(&[*a, *b])).collect();
    let later = loadings.first().and_then(|loading| loading.get(1..)?.last()).copied();
    let again = loadings.get(1).and_then(|loading| loading.first()).copied();
    for reading in [Some(first), again].into_iter().flatten() {
        fits(&reading)?;
    }
    match later {
        Some(later) if later.sinks < first.sinks => Err(Misread::Rises),
        _ => Ok([Some(first), later, again]),
    }
}

fn fits(reading: &Reading) -> Result<(), Misread> {
    match reading {
        _ if (reading.after.si() - READING_S).abs() > IN_TIME_S => Err(Misread::NotInTime),
        _ if reading.added.si() <= 0.0 => Err(Misread::NoMass),
        _ if reading.sinks.si() <= 0.0 => Err(Misread::NoSinking),
        _ => Ok(()),
    }
}

impl Hangar {
    /// How the figures come about, a line each, as it stands on the screen and on paper.
    pub fn arithmetic(&self, units: Units) -> Vec<String> {
        let modulus = |modulus: Pressure| significant(modulus, units, Grain::Coarse);
        let thickness = self.size[2].shown(units, Grain::Fine);
        let mut lines = vec![
            self.compliance_line(units),
            format!("modulus = thickness / c = {thickness} / c = {}", modulus(self.modulus)),
        ];
        lines.extend(self.creep_line(units));
        lines.push(self.rim_line(units));
        lines.extend(self.again.map(|again| {
            format!("loaded again: {}, for piles that were pressed beforehand; the plan uses the first", modulus(again))
        }));
        lines
    }

    fn compliance_line(&self, units: Units) -> String {
        let [length, width] = self.flat.map(|side| side.shown(units, Grain::Fine));
        format!(
            "c = sinking × flat / (mass × g) = {} × {length} × {width} / ({} × {GRAVITY} m/s²) = {:.2e} m³/N",
            sinking(self.first.sinks, units),
            self.first.added.shown(units, Grain::Coarse),
            self.compliance_m3_per_n
        )
    }

    fn creep_line(&self, units: Units) -> Option<String> {
        let (later, creep) = self.later.zip(self.creep_per_decade)?;
        let [was, is] = [self.first, later].map(|reading| sinking(reading.sinks, units));
        let after_s = later.after.si();
        Some(format!(
            "creep = ({is} / {was} - 1) / log({after_s:.0} s / {READING_S:.0} s) = {:.0} % for each tenfold of time",
            100.0 * creep
        ))
    }

    fn rim_line(&self, units: Units) -> String {
        let [length, width, _] = self.size.map(|side| side.shown_bare(units, Grain::Fine));
        let [flat_length, flat_width] = self.flat.map(|side| side.shown_bare(units, Grain::Fine));
        let unit = units.unit(Kind::Length, Grain::Fine).symbol;
        format!(
            "rim = half of the greater of {length} - {flat_length} and {width} - {flat_width} {unit} = {}",
            self.rim.shown(units, Grain::Fine)
        )
    }
}

/// A sinking to a tenth of a millimetre, or a thousandth of an inch.
fn sinking(length: Length, units: Units) -> String {
    let unit = units.unit(Kind::Length, Grain::Fine);
    let decimals = if unit.symbol == "mm" { 1 } else { 3 };
    format!("{:.decimals$} {}", length.si() / unit.si, unit.symbol)
}

/// How much to put on the board, least and most: 10 to 15 kPa, about what lies on a bag in a pile of six to nine
/// (`common practice, no source`).
pub fn hangar_load(size: [Length; 3]) -> [Mass; 2] {
    let area_m2 = size[0].si() * size[1].si();
    [10e3, 15e3].map(|pressure_pa| Mass::kg(pressure_pa * area_m2 / GRAVITY))
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::Time;

    const BAG: [Length; 3] = [Length::m(0.50), Length::m(0.33), Length::m(0.11)];
    /// All of its face.
    const WHOLE: [Length; 2] = [Length::m(0.50), Length::m(0.33)];

    fn read(after_s: f64, sinks_mm: f64) -> Reading {
        Reading { added: Mass::kg(250.0), after: Time::s(after_s), sinks: Length::m(1e-3 * sinks_mm) }
    }

    fn told(flat: [Length; 2], readings: &[Reading]) -> Result<Hangar, Misread> {
        hangar(&HangarTest { size: BAG, flat, readings })
    }

    fn close(got: f64, want: f64, within: f64, what: &str) {
        assert!((got - want).abs() <= within, "{what}: got {got}, want {want}, difference {}", got - want);
    }

    /// By hand: 0.006 x 0.165 / (250 x 9.80665) = 4.038e-7 m3/N; 0.11 / 4.038e-7 = 0.2724 MPa.
    #[test]
    fn a_bag_that_sinks_six_millimetres_under_250_kg_has_about_a_quarter_of_a_megapascal() {
        let got = told(WHOLE, &[read(60.0, 6.0)]).expect("the worked example");
        close(got.compliance_m3_per_n, 4.04e-7, 0.005e-7, "compliance, m3/N");
        close(got.modulus.si(), 0.27e6, 0.005e6, "modulus, Pa");
        assert_eq!((got.creep_per_decade, got.again), (None, None), "what was not read is not told");
        close(got.rim.si(), 0.0, 1e-12, "rim, m");
    }

    /// By hand: 6.6 / 6.0 - 1 = 0.1 over one decade; a flat of 0.46 x 0.25 m leaves 20 and 40 mm.
    #[test]
    fn ten_minutes_tell_the_creep_the_flat_tells_the_rim_and_a_second_loading_is_kept_apart() {
        let readings = [read(60.0, 6.0), read(600.0, 6.6), read(60.0, 2.0), read(600.0, 2.1)];
        let got = told([Length::m(0.46), Length::m(0.25)], &readings).expect("all was read");
        close(got.creep_per_decade.expect("two times"), 0.1, 1e-9, "creep for each tenfold of time");
        close(got.rim.si(), 0.040, 1e-12, "rim, m");
        let again = got.again.expect("loaded again").si();
        close(again / got.modulus.si(), 3.0, 1e-9, "a third of the sinking is three times the modulus");
    }

    #[test]
    fn what_cannot_be_is_refused_by_its_own_name() {
        let heavy_less = Reading { added: Mass::kg(0.0), ..read(60.0, 6.0) };
        let wide = [Length::m(0.50), Length::m(0.34)];
        let none = [Length::m(0.50), Length::m(0.0)];
        for (flat, readings, want) in [
            (WHOLE, vec![], Misread::NoReading),
            (WHOLE, vec![read(600.0, 6.0)], Misread::NotInTime),
            (WHOLE, vec![heavy_less], Misread::NoMass),
            (WHOLE, vec![read(60.0, 0.0)], Misread::NoSinking),
            (WHOLE, vec![read(60.0, 6.0), read(600.0, 5.0)], Misread::Rises),
            (wide, vec![read(60.0, 6.0)], Misread::FlatBeyondBag),
            (none, vec![read(60.0, 6.0)], Misread::NoFlat),
        ] {
            assert_eq!(told(flat, &readings).expect_err("refused"), want);
        }
    }

    #[test]
    fn the_arithmetic_names_every_figure_that_it_takes() {
        let got = told(WHOLE, &[read(60.0, 6.0), read(600.0, 6.6)]).expect("all was read");
        let lines = got.arithmetic(Units::Metric);
        let want =
            "c = sinking × flat / (mass × g) = 6.0 mm × 500 mm × 330 mm / (250.0 kg × 9.80665 m/s²) = 4.04e-7 m³/N";
        assert_eq!(lines[0], want);
        assert_eq!(lines[1], "modulus = thickness / c = 110 mm / c = 0.27 MPa");
        assert_eq!(lines[2], "creep = (6.6 mm / 6.0 mm - 1) / log(600 s / 60 s) = 10 % for each tenfold of time");
    }

    /// 165 kg to 252 kg on 0.165 m2: the worked example's 250 kg lies within.
    #[test]
    fn the_load_on_the_board_is_about_what_lies_on_a_bag_in_a_pile() {
        let [least, most] = hangar_load(BAG).map(Quantity::si);
        assert!(least < 250.0 && 250.0 < most, "{least} kg to {most} kg");
    }
}
