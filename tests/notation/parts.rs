//! Any music that could be written: chords in voices, across the staves, with words, slurs and ties.

use super::written::{bar, part};
use proptest::prelude::*;
use tailfirst::music::{
    Part, Quarters,
    score::ScoreBar,
    written::{Anchor, Kind, Says, Spanner, Spans, StaffText, Value},
};

const LETTERS: [&str; 7] = ["C", "D", "E", "F", "G", "A", "B"];

prop_compose! {
    /// A chord of up to three notes of a fifth's compass or wider, as shorthand without its value.
    pub fn any_notes(low: i32, high: i32)(
        places in prop::collection::btree_set(low..high, 1..4),
        signs in prop::collection::vec(0usize..8, 3),
    ) -> String {
        let notes = places.iter().zip(signs).map(|(place, sign)| {
            let sign = ["", "", "", "", "#", "b", "##", "bb"][sign];
            format!("{}{sign}{}", LETTERS[place.rem_euclid(7) as usize], place.div_euclid(7))
        });
        notes.collect::<Vec<_>>().join("+")
    }
}

/// A voice that fills a bar of 4/4.
pub fn any_voice(low: i32, high: i32) -> impl Strategy<Value = String> {
    let figures = [
        "4 4",
        "8 8 8 8",
        "2",
        "4. 8",
        "8. 16 8 8",
        "16 16 16 16 4",
        "8 16 16 r4",
        "r8 8 4",
        "16 16 16 16 16 16 16 16",
    ];
    let half = (0..figures.len()).prop_flat_map(move |figure| {
        let values: Vec<&'static str> = figures[figure].split(' ').collect();
        let marks = prop::collection::vec(0usize..10, values.len());
        (prop::collection::vec(any_notes(low, high), values.len()), marks).prop_map(move |(notes, marks)| {
            let token = |((notes, value), mark): ((&String, &&str), &usize)| match value.strip_prefix('r') {
                Some(value) => format!("r:{value}"),
                None => {
                    format!("{notes}:{value}/f{},{}", mark % 5 + 1, [".", "-", ">", "^", "", "", "", "", "", ""][*mark])
                }
            };
            notes.iter().zip(&values).zip(&marks).map(token).collect::<Vec<_>>().join(" ")
        })
    });
    (half.clone(), half).prop_map(|(a, b)| format!("{a} {b}"))
}

prop_compose! {
    pub fn any_bar()(right in any_voice(31, 41), left in any_voice(18, 28), fifths in -7i8..=7) -> ScoreBar {
        bar("4/4", fifths, &[(1, &right), (2, &left)])
    }
}

prop_compose! {
    /// Two voices on the upper staff, as far apart or crossing as may be.
    pub fn any_two_voices()(upper in any_voice(30, 42), lower in any_voice(26, 38), left in any_voice(18, 28)) -> Part {
        part(vec![bar("4/4", -1, &[(1, &upper), (1, &lower), (2, &left)])])
    }
}

pub fn any_words() -> impl Strategy<Value = StaffText> {
    let says = prop::sample::select(vec![
        Says::Manner("dolce".into()),
        Says::Tempo("Allegro".into()),
        Says::Rehearsal("A".into()),
        Says::Metronome { beat: Value::Eighth, dots: 1, rate: "72".into() },
    ]);
    let place = (0i64..4, 1u8..=2, prop::option::of(any::<bool>()));
    (place, says).prop_map(|((at, staff, above), says)| StaffText { at: Quarters::ONE * at, staff, above, says })
}

pub fn any_part() -> impl Strategy<Value = Part> {
    prop::collection::vec(any_bar(), 1..3).prop_map(part)
}

prop_compose! {
    /// Eighths or sixteenths that change from staff to staff under their beams.
    pub fn any_across()(
        value in prop::sample::select(vec![8, 16]),
        notes in prop::collection::vec((any_notes(31, 39), any_notes(20, 28), any::<bool>()), 16),
        whole in any_notes(14, 18),
    ) -> Part {
        let token = |(upper, lower, down): &(String, String, bool)| match down {
            true => format!("{lower}:{value}/s2"),
            false => format!("{upper}:{value}"),
        };
        let voice: Vec<String> = notes[..value].iter().map(token).collect();
        part(vec![bar("4/4", 0, &[(1, &voice.join(" ")), (2, &format!("{whole}:1"))])])
    }
}

/// The staff's voice and, of all its events in a row, bar and place of this one and whether it is a note.
pub fn event_of(part: &Part, staff: u8, nth: usize) -> (isize, Quarters, bool) {
    let voice = usize::from(staff) - 1;
    let events = part.bars.iter().enumerate().flat_map(|(bar, of)| {
        of.written.voices[voice]
            .events
            .iter()
            .map(move |event| (bar as isize, event.at, matches!(event.kind, Kind::Notes(_))))
    });
    let events: Vec<_> = events.collect();
    events[nth % events.len()]
}

pub fn add_slur(part: &mut Part, staff: u8, from: usize, to: usize, above: Option<bool>) {
    let [(bar, at, note), (end_bar, end, end_note)] = [event_of(part, staff, from), event_of(part, staff, to)];
    if (bar, at) < (end_bar, end) && note && end_note {
        let anchor = |bar, at| Anchor { bar, at, staff, voice: staff.to_string(), grace: 0 };
        part.spanners.push(Spanner { kind: Spans::Slur, from: anchor(bar, at), to: anchor(end_bar, end), above });
    }
}

/// Ties each last chord of the first bar on to the same chord in the next.
pub fn tie_on(part: &mut Part) {
    let [first, second, ..] = &mut part.bars[..] else { return };
    for (before, after) in first.written.voices.iter_mut().zip(&mut second.written.voices) {
        let (Some(last), Some(next)) = (before.events.last_mut(), after.events.first_mut()) else { continue };
        if let (Kind::Notes(heads), Kind::Notes(_)) = (&mut last.kind, &next.kind) {
            heads.iter_mut().for_each(|head| head.tied_on = true);
            next.kind = last.kind.clone();
            let Kind::Notes(heads) = &mut next.kind else { continue };
            heads.iter_mut().for_each(|head| (head.tied_from, head.tied_on, head.fingering) = (true, false, None));
        }
    }
}
