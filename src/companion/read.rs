//! What the program understood of a score, as readable JSON: to find out why a bar looks wrong.

use serde::Serialize;
use std::{collections::BTreeMap, fs::File, io::Read, path::Path};
use tailfirst::{
    journal::wire::Name,
    music::{
        Pitch, Tempo,
        musicxml::{self, LARGEST_FILE, Reading},
        passage::Articulation,
        score::{Attack, Part, ScoreBar, WrittenNote},
    },
};

/// What the pitches of the report mean.
const PITCHES: &str = "MIDI key numbers, middle C is 60; as the file gives them: written for instruments that \
                       transpose, sounding under an octave sign";

#[derive(Serialize)]
struct Report {
    title: String,
    composer: String,
    pitches: &'static str,
    parts: Vec<PartReport>,
    mended: Vec<String>,
}

#[derive(Serialize)]
struct PartReport {
    id: String,
    name: String,
    staves: u8,
    bars: Vec<BarReport>,
}

/// Lengths and places are quarters, as fractions.
#[derive(Serialize)]
struct BarReport {
    index: usize,
    number: String,
    length: String,
    missing: String,
    meter: String,
    key_fifths: i8,
    tempo: Option<TempoReport>,
    /// By staff, 1 is the uppermost.
    staves: BTreeMap<u8, Vec<OnsetReport>>,
    dynamics: Vec<DynamicReport>,
}

#[derive(Serialize)]
struct TempoReport {
    beat: String,
    bpm: u16,
}

#[derive(Serialize)]
struct OnsetReport {
    onset: String,
    /// Lowest first.
    pitches: Vec<i16>,
    /// One for each note: those with a pitch first, lowest first.
    notes: Vec<NoteReport>,
}

#[derive(Serialize)]
struct NoteReport {
    #[serde(skip_serializing_if = "Option::is_none")]
    midi: Option<i16>,
    #[serde(skip_serializing_if = "Option::is_none")]
    spelled: Option<String>,
    lasts: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    fingering: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    articulations: Vec<Name<Articulation>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    graces: Vec<i16>,
}

#[derive(Serialize)]
struct DynamicReport {
    mark: String,
    at: String,
    staff: u8,
}

/// The score in the file at `path`, as pretty JSON.
///
/// # Errors
/// A sentence that names the file and says what to do.
pub fn read(path: &Path) -> Result<String, String> {
    let say = |error: &dyn std::fmt::Display| format!("{}: {error}", path.display());
    let mut bytes = Vec::new();
    // One byte more than is read, so that a larger file is seen to be one.
    let most = LARGEST_FILE as u64 + 1;
    File::open(path).and_then(|file| file.take(most).read_to_end(&mut bytes)).map_err(|error| say(&error))?;
    let reading = musicxml::read(&bytes).map_err(|error| say(&error))?;
    serde_json::to_string_pretty(&report(&reading)).map_err(|error| say(&error))
}

fn report(Reading { score, mended }: &Reading) -> Report {
    Report {
        title: score.title.clone(),
        composer: score.composer.clone(),
        pitches: PITCHES,
        parts: score.parts.iter().map(part).collect(),
        mended: mended.iter().map(ToString::to_string).collect(),
    }
}

fn part(part: &Part) -> PartReport {
    let bars = part.bars.iter().enumerate().map(|(index, bar)| bar_report(index, bar, part.staves));
    PartReport { id: part.id.clone(), name: part.name.clone(), staves: part.staves, bars: bars.collect() }
}

fn bar_report(index: usize, bar: &ScoreBar, staves: u8) -> BarReport {
    let of = |staff| bar.attacks.iter().filter(move |attack| attack.staff == staff).map(onset).collect();
    let dynamics = bar.dynamics.iter();
    BarReport {
        index,
        number: bar.number.clone(),
        length: bar.length.to_string(),
        missing: bar.missing.to_string(),
        meter: bar.meter.to_string(),
        key_fifths: bar.fifths,
        tempo: bar.tempo.map(|Tempo { beat, bpm }| TempoReport { beat: beat.quarters().to_string(), bpm: bpm.get() }),
        staves: (1..=staves).map(|staff| (staff, of(staff))).collect(),
        dynamics: dynamics
            .map(|dynamic| DynamicReport {
                mark: dynamic.mark.clone(),
                at: dynamic.at.to_string(),
                staff: dynamic.staff,
            })
            .collect(),
    }
}

fn onset(attack: &Attack) -> OnsetReport {
    let mut notes: Vec<_> = attack.notes.iter().map(note).collect();
    notes.sort_by_key(|note| note.midi.unwrap_or(i16::MAX));
    OnsetReport { onset: attack.at.to_string(), pitches: notes.iter().filter_map(|note| note.midi).collect(), notes }
}

fn note(note: &WrittenNote) -> NoteReport {
    NoteReport {
        midi: note.pitch.map(Pitch::midi),
        spelled: note.pitch.map(|pitch| pitch.to_string()),
        lasts: note.lasts.to_string(),
        fingering: note.fingering.clone(),
        articulations: note.articulations.iter().copied().map(Name::Known).collect(),
        graces: note.graces.iter().map(|pitch| pitch.midi()).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_report_names_every_onset_with_its_keys_fingers_and_marks() {
        let path = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/scores/polonaise_op1n1.mxl"));
        let report: serde_json::Value = serde_json::from_str(&read(path).expect("a report")).expect("JSON");
        let bar = &report["parts"][0]["bars"][24];
        assert_eq!((&bar["number"], &bar["length"]), (&"25".into(), &"3".into()));
        let onset = &bar["staves"]["1"][4];
        assert_eq!((&onset["onset"], &onset["pitches"][0]), (&"1".into(), &70.into()));
        assert_eq!(onset["notes"][0]["fingering"], "2");
        assert_eq!(onset["notes"][0]["articulations"][0], "accent");
        assert_eq!(bar["staves"]["2"][0]["pitches"], serde_json::json!([55, 61]));
    }

    #[test]
    fn a_file_that_cannot_be_read_is_named() {
        let missing = read(Path::new("no-such-score.xml")).expect_err("no such file");
        assert!(missing.starts_with("no-such-score.xml: "));
    }
}
