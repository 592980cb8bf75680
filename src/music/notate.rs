//! Notation for a passage that has none: tapped, counted, or separated from its score.
//!
//! A staff for each hand. Where pitches are unknown it has one line. Each note is printed until the next
//! one of its hand, split where a bar ends; a beat that is not divided by two is a tuplet.

use crate::{
    music::{
        Bar, Hand, Note, Onset, Part, Passage, Quarters,
        score::{Dynamic, ScoreBar},
        written::{Anchor, Clef, Diatonic, Event, Head, Kind, Spanner, Spans, Stem, Value, Voice, WrittenBar},
    },
    sort,
};

/// The part that a passage makes by itself, and who plays each staff.
pub(super) fn notate(passage: &Passage) -> (Part, Vec<Hand>) {
    let notes = || passage.onsets().iter().flat_map(|onset| &onset.notes);
    let mut hands = vec![Hand::Right, Hand::Line, Hand::Left];
    hands.retain(|hand| notes().any(|note| note.hand == *hand));
    let pitched = notes().all(|note| note.pitch.is_some());
    let clefs: Vec<Clef> = hands.iter().map(|hand| clef(passage, *hand, pitched)).collect();
    let bar_of = |bar: &Bar| ScoreBar {
        number: bar.number.clone(),
        length: bar.length,
        missing: bar.missing,
        meter: bar.meter,
        fifths: 0,
        tempo: None,
        attacks: Vec::new(),
        dynamics: dynamics(passage, bar),
        written: WrittenBar { clefs: clefs.clone(), ..WrittenBar::default() },
    };
    let mut part = Part {
        id: String::new(),
        name: String::new(),
        staves: hands.len() as u8,
        lines: if pitched { 5 } else { 1 },
        bars: passage.bars().iter().map(bar_of).collect(),
        spanners: Vec::new(),
    };
    for (staff, hand) in (1..).zip(&hands) {
        Staff { passage, hand: *hand, staff, lowest: clefs[usize::from(staff) - 1].lowest_line() }.write(&mut part);
    }
    (part, hands)
}

/// The clef that needs fewer ledger lines: the bass clef where most of the hand lies under middle C.
fn clef(passage: &Passage, hand: Hand, pitched: bool) -> Clef {
    const MIDDLE_C: i16 = 60;
    let notes = passage.onsets().iter().flat_map(|onset| &onset.notes).filter(|note| note.hand == hand);
    let keys: Vec<i16> = notes.filter_map(|note| note.pitch).map(|pitch| pitch.midi()).collect();
    let low = keys.iter().filter(|key| **key < MIDDLE_C).count();
    match pitched {
        false => Clef::PERCUSSION,
        true if 2 * low > keys.len() => Clef::BASS,
        true => Clef::TREBLE,
    }
}

fn dynamics(passage: &Passage, bar: &Bar) -> Vec<Dynamic> {
    let inside = |onset: &&Onset| bar.start <= onset.at && onset.at < bar.start + bar.length;
    let mark =
        |onset: &Onset| Some(Dynamic { at: onset.at - bar.start, staff: 1, above: None, mark: onset.dynamic.clone()? });
    passage.onsets().iter().filter(inside).filter_map(mark).collect()
}

/// The staff of one hand.
struct Staff<'a> {
    passage: &'a Passage,
    hand: Hand,
    staff: u8,
    lowest: Diatonic,
}

/// What is printed from one place of a bar to another: the notes of an onset, or silence.
#[derive(Clone, Copy)]
struct Stretch<'a> {
    /// From the start of the bar.
    from: Quarters,
    to: Quarters,
    onset: Option<&'a Onset>,
    /// It goes on what was printed before, and goes on after this.
    tied: [bool; 2],
}

impl<'a> Staff<'a> {
    fn write(&self, part: &mut Part) {
        for (index, bar) in self.passage.bars().iter().enumerate() {
            let mut voice = Voice { name: self.staff.to_string(), events: Vec::new() };
            let stretches = self.stretches(bar);
            if stretches.iter().all(|stretch| stretch.onset.is_none()) {
                voice.events.push(self.silence(bar));
            } else {
                let tuplets = self.beats(bar, &stretches, &mut voice.events);
                part.spanners.extend(tuplets.into_iter().map(|tuplet| self.bracket(index, tuplet)));
            }
            part.bars[index].written.voices.push(voice);
        }
    }

    fn plays(&self, onset: &Onset) -> bool {
        onset.plays(self.hand)
    }

    /// The sounding and silent stretches that fill the bar.
    fn stretches(&self, bar: &Bar) -> Vec<Stretch<'a>> {
        let end = bar.start + bar.length;
        let onsets: Vec<&'a Onset> = self.passage.onsets().iter().filter(|onset| self.plays(onset)).collect();
        let (mut stretches, mut here) = (Vec::new(), bar.start);
        for (index, onset) in onsets.iter().enumerate() {
            let next = onsets.get(index + 1).map_or(onset.at + self.lasts(onset), |next| next.at);
            let until = next.min(onset.at + self.lasts(onset));
            if until <= bar.start || onset.at >= end {
                continue;
            }
            let (from, to) = (onset.at.max(bar.start), until.min(end));
            if here < from {
                stretches.push(Stretch { from: here, to: from, onset: None, tied: [false; 2] });
            }
            stretches.push(Stretch { from, to, onset: Some(onset), tied: [onset.at < from, to < until] });
            here = to;
        }
        if here < end {
            stretches.push(Stretch { from: here, to: end, onset: None, tied: [false; 2] });
        }
        let in_bar =
            |stretch: Stretch<'a>| Stretch { from: stretch.from - bar.start, to: stretch.to - bar.start, ..stretch };
        stretches.into_iter().map(in_bar).collect()
    }

    fn lasts(&self, onset: &Onset) -> Quarters {
        let notes = onset.notes.iter().filter(|note| note.hand == self.hand);
        notes.map(|note| note.lasts).filter(|lasts| *lasts > Quarters::ZERO).max().unwrap_or(Quarters::ONE)
    }

    fn silence(&self, bar: &Bar) -> Event {
        let kind = Kind::Rest { staff: self.staff, place: None, whole_bar: true };
        event(Quarters::ZERO, bar.length, (Value::Whole, 0), None, kind)
    }

    /// Writes the stretches out beat by beat, and tells which beats are tuplets: the figure, the first
    /// and the last event.
    fn beats(&self, bar: &Bar, stretches: &[Stretch<'a>], events: &mut Vec<Event>) -> Vec<(u8, Quarters, Quarters)> {
        let beats = Beats { bar, stretches, beat: bar.meter.beat().quarters() };
        let mut tuplets: Vec<(u8, Quarters, Quarters)> = Vec::new();
        for stretch in stretches {
            let mut from = stretch.from;
            while from < stretch.to {
                let begins = beats.begin_of(from);
                let figure = beats.division(begins);
                let to = beats.end_of_value(from, stretch.to);
                let tied = [stretch.tied[0] || from > stretch.from, stretch.tied[1] || to < stretch.to];
                events.push(self.event(Stretch { from, to, tied, ..*stretch }, tuplet(figure)));
                match tuplets.last_mut() {
                    _ if figure == 1 => {}
                    Some((_, first, last)) if *first >= begins => *last = from,
                    _ => tuplets.push((figure, from, from)),
                }
                from = to;
            }
        }
        tuplets
    }

    fn event(&self, stretch: Stretch, tuplet: Option<(u8, u8)>) -> Event {
        let lasts = stretch.to - stretch.from;
        let printed = tuplet.map_or(lasts, |(actual, normal)| lasts * i64::from(actual) / i64::from(normal));
        let kind = match stretch.onset {
            Some(onset) => Kind::Notes(self.heads(onset, stretch.tied)),
            None => Kind::Rest { staff: self.staff, place: None, whole_bar: false },
        };
        let mut event = event(stretch.from, lasts, shape(printed), tuplet, kind);
        for note in stretch.onset.iter().flat_map(|onset| &onset.notes).filter(|note| note.hand == self.hand) {
            let new = note.articulations.iter().filter(|_| !stretch.tied[0]);
            event.articulations.extend(new);
        }
        sort::by_key(&mut event.articulations, |sign| *sign);
        event.articulations.dedup();
        event
    }

    fn heads(&self, onset: &Onset, [tied_from, tied_on]: [bool; 2]) -> Vec<Head> {
        // The one line is the middle line.
        let middle = Diatonic(self.lowest.0 + 4);
        let head = |note: &Note| Head {
            pitch: note.pitch,
            place: note.pitch.map_or(middle, Diatonic::from),
            staff: self.staff,
            accidental: None,
            tied_from,
            tied_on,
            fingering: note.fingering.clone().filter(|_| !tied_from),
        };
        let mut heads: Vec<Head> = onset.notes.iter().filter(|note| note.hand == self.hand).map(head).collect();
        sort::by_key(&mut heads, |head| head.place);
        heads
    }

    fn bracket(&self, bar: usize, (figure, first, last): (u8, Quarters, Quarters)) -> Spanner {
        let anchor = |at| Anchor { bar: bar as isize, at, staff: self.staff, voice: self.staff.to_string(), grace: 0 };
        let kind = Spans::Tuplet { figure, bracket: None };
        Spanner { kind, from: anchor(first), to: anchor(last), above: None }
    }
}

fn event(at: Quarters, lasts: Quarters, (value, dots): (Value, u8), tuplet: Option<(u8, u8)>, kind: Kind) -> Event {
    Event {
        at,
        lasts,
        value,
        dots,
        tuplet,
        kind,
        stem: Stem::Free,
        beams: Vec::new(),
        grace: None,
        articulations: Vec::new(),
        fermata: None,
        ornaments: Vec::new(),
    }
}

/// The beats of a bar and what is played in them.
struct Beats<'a> {
    bar: &'a Bar,
    stretches: &'a [Stretch<'a>],
    beat: Quarters,
}

impl Beats<'_> {
    /// Where the beat begins in which a place lies; before the bar where a pickup opens inside a beat.
    fn begin_of(&self, at: Quarters) -> Quarters {
        self.beat * ((at + self.bar.missing) / self.beat).floor().to_integer() - self.bar.missing
    }

    /// Into how many parts the beat is divided that begins here, apart from halving: 1, 3, 5, …
    fn division(&self, begins: Quarters) -> u8 {
        let edges = self.stretches.iter().map(|stretch| stretch.from);
        let inside = edges.filter(|edge| begins < *edge && *edge < begins + self.beat);
        let odd = inside.map(|edge| {
            // Of a dotted beat the thirds are plain.
            let part = (edge - begins) / self.beat * self.beat.numerator();
            *part.denom() >> part.denom().trailing_zeros()
        });
        u8::try_from(odd.max().unwrap_or(1)).unwrap_or(1)
    }

    /// Where the value ends that is printed from `from` on, if it is to last until `until`. None reaches
    /// out of a tuplet or into one.
    fn end_of_value(&self, from: Quarters, until: Quarters) -> Quarters {
        let next = self.begin_of(from) + self.beat;
        if self.division(next - self.beat) > 1 {
            return until.min(next);
        }
        let to =
            longest(from + self.bar.missing, until - from, self.beat).map_or(until.min(next), |length| from + length);
        let mut beats = std::iter::successors(Some(next), |begins| Some(*begins + self.beat));
        let meets_tuplet = beats.by_ref().take_while(|begins| *begins < to).any(|begins| self.division(begins) > 1);
        if meets_tuplet { next } else { to }
    }
}

/// So many in the time of the next smaller power of two.
fn tuplet(figure: u8) -> Option<(u8, u8)> {
    (figure > 1).then(|| (figure, 1 << figure.ilog2()))
}

/// The longest plain value, dotted or not, that fills no more than `room` and does not hide the beat it
/// begins in: off the beat nothing is longer than a beat.
fn longest(at: Quarters, room: Quarters, beat: Quarters) -> Option<Quarters> {
    let on_beat = (at / beat).is_integer();
    let most = if on_beat { room } else { room.min(beat) };
    let values = Value::ALL.iter().rev().flat_map(|value| [value.quarters() * 3 / 2, value.quarters()]);
    values.filter(|length| *length <= most).find(|length| on_beat || *length == room || (at / *length).is_integer())
}

/// The value and dots of a printed length; the nearest shorter one where there is none.
fn shape(printed: Quarters) -> (Value, u8) {
    let dotted = |value: Value| [(value, 2, 7), (value, 1, 6), (value, 0, 4)];
    let shapes = Value::ALL.iter().rev().flat_map(|value| dotted(*value));
    let mut fitting = shapes.filter(|(value, _, quarters)| value.quarters() * *quarters / 4 <= printed);
    fitting.next().map_or((Value::N128th, 0), |(value, dots, _)| (value, dots))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::music::Meter;

    /// A passage of one line in one meter from its onsets, each lasting until the next.
    fn line(meter: &str, bars: usize, onsets: &[(i64, i64)]) -> Passage {
        let meter: Meter = meter.parse().expect("a meter");
        let bar = |n: usize| Bar {
            number: (n + 1).to_string(),
            start: meter.bar() * n as i64,
            length: meter.bar(),
            meter,
            missing: Quarters::ZERO,
        };
        let mut places: Vec<_> = onsets.iter().map(|(n, d)| Quarters::new(*n, *d).expect("a place")).collect();
        places.push(meter.bar() * bars as i64);
        let onset = |pair: &[Quarters]| {
            let notes = vec![Note::unpitched(Hand::Line, pair[1] - pair[0])];
            Onset { at: pair[0], notes, dynamic: None }
        };
        Passage::new((0..bars).map(bar).collect(), places.windows(2).map(onset).collect()).expect("a passage")
    }

    /// What is printed, bar by bar: `4.` is a dotted quarter, `r8` an eighth rest, `~` a tie onward.
    fn printed(passage: &Passage) -> String {
        let (part, _) = notate(passage);
        let name = |event: &Event| {
            let value = 128 >> (event.value as u32).min(7);
            let dots = ".".repeat(usize::from(event.dots));
            match &event.kind {
                Kind::Rest { whole_bar: true, .. } => "R".to_string(),
                Kind::Rest { .. } => format!("r{value}{dots}"),
                Kind::Notes(heads) => format!("{value}{dots}{}", if heads[0].tied_on { "~" } else { "" }),
            }
        };
        let bar = |bar: &ScoreBar| bar.written.voices[0].events.iter().map(name).collect::<Vec<_>>().join(" ");
        part.bars.iter().map(bar).collect::<Vec<_>>().join(" | ")
    }

    #[test]
    fn a_rhythm_is_printed_as_one_would_write_it() {
        assert_eq!(printed(&line("4/4", 1, &[(0, 1), (1, 1), (3, 2), (2, 1)])), "4 8 8 2");
        assert_eq!(printed(&line("4/4", 1, &[(1, 1), (5, 2)])), "r4 4. 8~ 4");
        assert_eq!(printed(&line("6/8", 1, &[(0, 1), (3, 2), (2, 1), (5, 2)])), "4. 8 8 8");
        assert_eq!(printed(&line("3/4", 2, &[(0, 1), (2, 1)])), "2 4~ | 2.");
        assert_eq!(printed(&line("4/4", 2, &[(4, 1)])), "R | 1");
    }

    #[test]
    fn a_beat_in_thirds_is_a_triplet_with_its_figure() {
        let passage = line("2/4", 1, &[(0, 1), (1, 3), (2, 3), (1, 1)]);
        assert_eq!(printed(&passage), "8 8 8 4");
        let (part, _) = notate(&passage);
        let events = &part.bars[0].written.voices[0].events;
        assert!(events[..3].iter().all(|event| event.tuplet == Some((3, 2))) && events[3].tuplet.is_none());
        let [bracket] = &part.spanners[..] else { panic!("one triplet") };
        assert_eq!(bracket.kind, Spans::Tuplet { figure: 3, bracket: None });
        assert_eq!((bracket.from.at, bracket.to.at), (Quarters::ZERO, Quarters::new(2, 3).expect("a place")));
    }

    #[test]
    fn the_printed_values_fill_the_bar_whatever_is_tapped() {
        let places = [(0, 1), (1, 6), (1, 3), (1, 2), (2, 3), (3, 4), (1, 1), (5, 4), (2, 1), (11, 4), (10, 3)];
        for first in 0..places.len() {
            for last in first..places.len() {
                let (part, _) = notate(&line("4/4", 1, &places[first..=last]));
                let events = &part.bars[0].written.voices[0].events;
                let total: Quarters = events.iter().map(|event| event.lasts).sum();
                assert_eq!(total, Quarters::whole(4), "{first} {last}");
                assert!(events.windows(2).all(|pair| pair[0].at + pair[0].lasts == pair[1].at));
            }
        }
    }
}
