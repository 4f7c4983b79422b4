//! A hangar test as it is typed, before the plan takes it over.

use assess::{Hangar, HangarTest, Misread, hangar};
use plan::{Lot, Reading, Softness};
use quantity::{Length, Mass, Quantity, Time};

/// When the board is read after loading.
const TIMES: [Time; 2] = [Time::s(60.0), Time::s(600.0)];
/// Between both, s: what was read before it belongs to the first.
const BETWEEN_S: f64 = 200.0;

/// What was typed so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Trial {
    /// Mass put on the board.
    pub(super) added: Option<Mass>,
    /// How far it went down at the two times.
    pub(super) sinks: [Option<Length>; 2],
    /// The same as it was loaded again.
    pub(super) again: [Option<Length>; 2],
    /// Length and width of the flat.
    pub(super) flat: [Option<Length>; 2],
}

impl Trial {
    /// As a plan keeps it.
    pub(super) fn of(softness: &Softness) -> Trial {
        let flat = softness.flat.map_or([None; 2], |flat| flat.map(Some));
        let mut trial = Trial { added: softness.readings.first().map(|r| r.added), flat, ..Trial::default() };
        let loadings = softness.readings.chunk_by(|a, b| b.after > a.after);
        for (sinks, loading) in [&mut trial.sinks, &mut trial.again].into_iter().zip(loadings) {
            for reading in loading {
                sinks[usize::from(reading.after.si() > BETWEEN_S)] = Some(reading.sinks);
            }
        }
        trial
    }

    /// What was read, in its order.
    pub(super) fn readings(&self) -> Vec<Reading> {
        let added = self.added.unwrap_or_default();
        let read = |(after, sinks): (Time, Option<Length>)| sinks.map(|sinks| Reading { added, after, sinks });
        let of = |sinks: [Option<Length>; 2]| TIMES.into_iter().zip(sinks).filter_map(read);
        of(self.sinks).chain(of(self.again)).collect()
    }

    /// Length and width of the flat, where both were measured.
    pub(super) fn flat(&self) -> Option<[Length; 2]> {
        let [length, width] = self.flat;
        length.zip(width).map(|(length, width)| [length, width])
    }

    /// What it tells of a bag of the lot.
    pub(super) fn told(&self, lot: &Lot) -> Result<Hangar, Misread> {
        let flat = self.flat().unwrap_or_default();
        // An empty form has one thing to say, whatever else is missing.
        match self.readings() {
            readings if readings.is_empty() => Err(Misread::NoReading),
            readings => hangar(&HangarTest { size: lot.size, flat, readings: &readings }),
        }
    }
}
