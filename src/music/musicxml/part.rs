//! One part: its bars in a row, how long each is, and where a bar begins before its first note.

use crate::{
    music::{
        Quarters, Tempo,
        musicxml::{
            bar::{ReadBar, Reader},
            barlines::close_endings,
            counting::correction,
            document::{PartMeasures, child},
            error::ReadError,
            mended::{Mend, Mending},
            ties::Ties,
            voices::from_lowest,
        },
        score::{Part, ScoreBar},
        written::{Event, Kind, Spanner, Spans},
    },
    sort,
};
use num_rational::Ratio;
use std::collections::BTreeMap;

/// Tempo marks by bar index and place in the bar.
pub(super) type TempoMarks = BTreeMap<(usize, Quarters), Tempo>;

/// Reads a part and tells of each bar. Its tempo marks go to `tempi`: they hold for all parts.
pub(super) fn part(
    measures: &PartMeasures,
    mending: &mut Mending,
    notes_read: &mut usize,
    tempi: &mut TempoMarks,
    tell_bar: &mut impl FnMut(),
) -> Result<Part, ReadError> {
    let correction = correction(&measures.measures);
    let mut reader = Reader::new(correction, mending, notes_read);
    let (mut bars, mut ties, mut bar_clefs) = (Vec::<ScoreBar>::new(), Ties::default(), Vec::new());
    for (index, measure) in measures.measures.iter().enumerate() {
        tell_bar();
        let ReadBar { notes, mut dynamics, tempi: marks, length, written, clefs } = reader.measure(measure)?;
        bar_clefs.push(clefs);
        if index == 0 {
            say_what_is_missing(measures, correction, &mut reader);
        }
        ties.bar(notes, length, &mut |change| reader.say(change));
        dynamics.iter_mut().for_each(|dynamic| dynamic.at = dynamic.at.min(length));
        sort::by_key(&mut dynamics, |dynamic| dynamic.at);
        for (at, tempo) in marks {
            tempi.entry((index, at)).or_insert(tempo);
        }
        bars.push(ScoreBar {
            number: measure.number.clone(),
            length,
            missing: Quarters::ZERO,
            meter: reader.meter,
            fifths: reader.fifths,
            tempo: None,
            attacks: Vec::new(),
            dynamics,
            written,
        });
    }
    let staves = reader.staves;
    let (spanners, lines) = reader.finish();
    for (bar, attacks) in bars.iter_mut().zip(ties.finish()) {
        bar.attacks = attacks;
    }
    find_pickups(&mut bars, |index| measures.measures[index].implicit);
    bars.iter_mut().zip(bar_clefs).for_each(|(bar, clefs)| bar.written.clefs = clefs.of(staves));
    close_endings(bars.iter_mut().map(|bar| &mut bar.written));
    shift_octaves(&mut bars, &spanners);
    Ok(Part { id: measures.id.into(), name: measures.name.clone(), staves, lines, bars, spanners })
}

/// Moves what stands under an octave sign to where it is printed: the file gives what sounds.
fn shift_octaves(bars: &mut [ScoreBar], spanners: &[Spanner]) {
    for Spanner { kind, from, to, .. } in spanners {
        let Spans::Octave(octaves) = *kind else { continue };
        let (first, last) = (from.bar.max(0) as usize, to.bar.max(0) as usize);
        for (index, bar) in (first..).zip(bars.get_mut(first..=last).into_iter().flatten()) {
            let under = |at| (index, at) >= (first, from.at) && (index, at) < (last, to.at);
            let events = bar.written.voices.iter_mut().flat_map(|voice| &mut voice.events);
            events.filter(|event| under(event.at)).for_each(|event| shift(event, from.staff, octaves));
        }
    }
}

fn shift(event: &mut Event, on_staff: u8, octaves: i8) {
    let Kind::Notes(heads) = &mut event.kind else { return };
    for head in heads.iter_mut().filter(|head| head.staff == on_staff) {
        head.place.0 -= 7 * i16::from(octaves);
    }
    from_lowest(heads);
}

fn say_what_is_missing(measures: &PartMeasures, correction: Ratio<i64>, reader: &mut Reader) {
    let first = measures.measures.first();
    let timed = first.is_some_and(|measure| {
        let mut attributes = measure.content.children().filter(|node| node.has_tag_name("attributes"));
        attributes.any(|attributes| child(attributes, "time").is_some())
    });
    if !timed {
        reader.say(Mend::NoMeter);
    }
    if correction != Ratio::ONE {
        reader.say(Mend::Divisions);
    }
}

/// Finds the bars that begin late: the first bar if it is short, the second half of a bar that was
/// divided, and a short uncounted bar before a whole one.
fn find_pickups(bars: &mut [ScoreBar], is_implicit: impl Fn(usize) -> bool) {
    let lacks = |bar: &ScoreBar| bar.meter.bar() - bar.length;
    for index in 0..bars.len() {
        let missing = lacks(&bars[index]);
        if missing <= Quarters::ZERO {
            continue;
        }
        let completes = |first: &ScoreBar, second: &ScoreBar| {
            first.meter == second.meter && first.missing == Quarters::ZERO && first.length == lacks(second)
        };
        let second_half = index > 0 && completes(&bars[index - 1], &bars[index]);
        let upbeat = is_implicit(index) && bars.get(index + 1).is_some_and(|next| !completes(&bars[index], next));
        if index == 0 || second_half || upbeat {
            bars[index].missing = missing;
        }
    }
}

/// Tells every bar the tempo in force. A mark inside a bar holds from the next bar on, but where
/// nothing was in force before it.
pub(super) fn set_tempi(bars: &mut [ScoreBar], marks: &TempoMarks) {
    let mut in_force = None;
    for (index, bar) in bars.iter_mut().enumerate() {
        let here = || marks.range((index, Quarters::ZERO)..(index + 1, Quarters::ZERO));
        for ((_, at), tempo) in here() {
            if *at == Quarters::ZERO || in_force.is_none() {
                in_force = Some(*tempo);
            }
        }
        bar.tempo = in_force;
        in_force = here().last().map(|(_, tempo)| *tempo).or(in_force);
    }
}
