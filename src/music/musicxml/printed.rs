//! What of one measure is printed, gathered note by note.

use crate::music::{
    Pitch, Quarters,
    musicxml::{
        document::{child, text_of},
        events,
        mended::Mend,
        signs,
        spanners::{End, Family, Spanners},
        tuplets,
        voices::{self, Beside, EventIndex, Voices},
    },
    passage::Articulation,
    written::{Anchor, Diatonic, Event, Head, Kind, Spanner, Spans, Value, Voice},
};
use roxmltree::Node;

/// Most noteheads of one chord: more than ten fingers and two forearms cover.
const MOST_HEADS: usize = 64;

/// What is known of a note or rest before its print is looked at.
pub(super) struct Sounding<'s> {
    pub(super) at: Quarters,
    /// Nothing for a grace note.
    pub(super) lasts: Quarters,
    pub(super) voice: &'s str,
    /// 1 is the uppermost.
    pub(super) staff: u8,
    /// `None` for rests and unpitched percussion.
    pub(super) pitch: Option<Pitch>,
    pub(super) articulations: &'s [Articulation],
    /// Of the meter in force.
    pub(super) full_bar: Quarters,
}

/// The print of the measure that is being read.
#[derive(Default)]
pub(super) struct Printed {
    voices: Voices,
    marks: Vec<Mark>,
    /// Of signs that belong to a staff.
    ends: Vec<End>,
}

/// One end of a sign at a note.
struct Mark {
    place: EventIndex,
    staff: u8,
    family: Family,
    number: u8,
    does: Does,
}

/// What a sign does at a note.
enum Does {
    Begins(Spans, Option<bool>),
    Ends,
    /// It begins and ends here.
    Stands(Spans, Option<bool>),
}

impl Printed {
    /// To be called before each note that is no chord's further note, shown or not.
    pub(super) fn end_chord(&mut self) {
        self.voices.end_chord();
    }

    /// Takes a note or rest; a chord's further note goes to the event of its first.
    pub(super) fn note(&mut self, node: Node, sounding: &Sounding, beside: &mut Beside, say: &mut impl FnMut(Mend)) {
        let chord = self.voices.open_chord().filter(|_| child(node, "chord").is_some());
        let place = match chord {
            Some((_, Event { kind: Kind::Notes(heads), .. })) if heads.len() == MOST_HEADS => None,
            Some((place, Event { kind: Kind::Notes(heads), articulations, fermata, ornaments, .. })) => {
                heads.push(head(node, sounding, say));
                add_new(articulations, sounding.articulations.iter().copied());
                *fermata = fermata.or_else(|| events::fermata(node, say));
                add_new(ornaments, events::ornaments(node, say));
                Some(place)
            }
            _ => self.voices.put(sounding.voice, sounding.staff, event(node, sounding, say), beside),
        };
        match place {
            Some(place) => self.note_marks(node, place, sounding.staff),
            None => say(Mend::Crowded),
        }
    }

    /// The signs between notes that begin or end at a note.
    fn note_marks(&mut self, node: Node, place: EventIndex, staff: u8) {
        let signs = || signs::notations(node).flat_map(|notations| notations.children()).filter(Node::is_element);
        let ornaments = signs().filter(|sign| sign.has_tag_name("ornaments")).flat_map(|sign| sign.children());
        for sign in signs().chain(ornaments) {
            if let Some((family, does)) = note_sign(node, sign) {
                self.mark(Mark { place, staff, family, number: number(sign), does });
            }
        }
    }

    /// A trill's line that ends where it has just begun stands over one note.
    fn mark(&mut self, mark: Mark) {
        let is_begin =
            |open: &&mut Mark| (open.family, open.number, open.place) == (Family::Trill, mark.number, mark.place);
        match (mark.family, &mark.does, self.marks.last_mut().filter(is_begin)) {
            (Family::Trill, Does::Ends, Some(open @ Mark { does: Does::Begins(..), .. })) => open.does.ends_here(),
            _ => self.marks.push(mark),
        }
    }

    /// Takes one end of a sign that belongs to a staff.
    pub(super) fn staff_end(&mut self, end: End) {
        self.ends.push(end);
    }

    /// The voices of the bar with this index, which has this length; its signs go to `spanners`.
    pub(super) fn finish(
        self,
        bar: usize,
        length: Quarters,
        beat: Quarters,
        spanners: &mut Spanners,
        say: &mut impl FnMut(Mend),
    ) -> Vec<Voice> {
        let Printed { voices, marks, mut ends } = self;
        let mut voices = voices.finish();
        let graces: Vec<_> = voices.iter().map(|voice| voices::grace_counts(&voice.events)).collect();
        let anchor = |(voice, event): EventIndex, staff| Anchor {
            bar: bar as isize,
            at: voices[voice].events[event].at.min(length),
            staff,
            voice: voices[voice].name.clone(),
            grace: graces[voice][event],
        };
        let marked = in_marked_tuplets(&voices, &marks);
        for (voice, Voice { events, .. }) in voices.iter().enumerate() {
            for (group, figure) in tuplets::unmarked(events, &marked[voice], beat) {
                let end = |index: usize| anchor((voice, index), voices::staff_of(&events[index]));
                let kind = Spans::Tuplet { figure, bracket: None };
                spanners.whole(Spanner { kind, from: end(*group.start()), to: end(*group.end()), above: None });
            }
        }
        ends.iter_mut().for_each(|end| end.anchor.at = end.anchor.at.min(length));
        for Mark { place, staff, family, number, does } in marks {
            let (begins, anchor) = (does.begins(), anchor(place, staff));
            match does {
                Does::Stands(kind, above) => {
                    spanners.whole(Spanner { kind, from: anchor.clone(), to: anchor, above });
                }
                _ => ends.push(End { family, number, begins, anchor }),
            }
        }
        spanners.bar(ends, say);
        let inside = |event: &Event| event.at < length || event.grace.is_some() && event.at == length;
        voices.iter_mut().for_each(|voice| voice.events.retain(inside));
        voices
    }
}

impl Does {
    fn begins(&self) -> Option<(Spans, Option<bool>)> {
        match self {
            Does::Begins(kind, above) => Some((*kind, *above)),
            _ => None,
        }
    }

    fn ends_here(&mut self) {
        if let Does::Begins(kind, above) = *self {
            *self = Does::Stands(kind, above);
        }
    }
}

/// What a sign between notes is and does at this note.
fn note_sign(note: Node, sign: Node) -> Option<(Family, Does)> {
    let (family, kind) = match sign.tag_name().name() {
        "slur" => (Family::Slur, Some(Spans::Slur)),
        "tuplet" => (Family::Tuplet, Some(tuplet(note, sign))),
        "wavy-line" => (Family::Trill, Some(Spans::Trill)),
        "tremolo" => (Family::Tremolo, events::tremolo(sign).map(Spans::Tremolo)),
        _ => return None,
    };
    match sign.attribute("type")? {
        "start" => Some((family, Does::Begins(kind?, above(sign)))),
        "stop" => Some((family, Does::Ends)),
        _ => None,
    }
}

fn event(node: Node, sounding: &Sounding, say: &mut impl FnMut(Mend)) -> Event {
    let &Sounding { at, lasts, .. } = sounding;
    let tuplet = events::tuplet(node);
    let (value, dots) = events::value(node, lasts, tuplet, say);
    let mut event = Event {
        at,
        lasts,
        value,
        dots,
        tuplet,
        kind: Kind::Notes(Vec::new()),
        stem: events::stem(node),
        beams: events::beams(node),
        grace: events::grace(node),
        articulations: sounding.articulations.to_vec(),
        fermata: events::fermata(node, say),
        ornaments: events::ornaments(node, say),
    };
    match child(node, "rest") {
        Some(rest) => event.kind = silence(rest, sounding),
        None => event.kind = Kind::Notes(vec![head(node, sounding, say)]),
    }
    if let Kind::Rest { whole_bar: true, .. } = event.kind {
        (event.value, event.dots, event.tuplet) = (Value::Whole, 0, None);
    }
    event
}

/// A rest as long as the meter's bar is one for the whole bar, whatever shape the file gives it.
fn silence(rest: Node, sounding: &Sounding) -> Kind {
    let fills = sounding.at == Quarters::ZERO && sounding.lasts == sounding.full_bar;
    let whole_bar = rest.attribute("measure") == Some("yes") || fills;
    Kind::Rest { staff: sounding.staff, place: events::display_place(rest), whole_bar }
}

fn head(node: Node, sounding: &Sounding, say: &mut impl FnMut(Mend)) -> Head {
    let display = child(node, "unpitched").and_then(events::display_place);
    if child(node, "notehead").and_then(|shape| shape.text()).is_some_and(|shape| shape.trim() != "normal") {
        say(Mend::Noteheads);
    }
    let (tied_from, tied_on) = signs::ties(node);
    Head {
        pitch: sounding.pitch,
        place: sounding.pitch.map(Diatonic::from).or(display).unwrap_or_else(events::middle_line),
        staff: sounding.staff,
        accidental: events::accidental(node, say),
        tied_from,
        tied_on,
        fingering: signs::fingering(node),
    }
}

/// A chord's signs stand once.
fn add_new<T: PartialEq>(signs: &mut Vec<T>, more: impl IntoIterator<Item = T>) {
    for sign in more {
        if !signs.contains(&sign) {
            signs.push(sign);
        }
    }
}

fn tuplet(note: Node, sign: Node) -> Spans {
    let printed = child(sign, "tuplet-actual").and_then(|actual| text_of(actual, "tuplet-number")?.parse().ok());
    let figure = printed.or(events::tuplet(note).map(|(actual, _)| actual)).unwrap_or(3);
    let hidden = sign.attribute("show-number") == Some("none");
    let bracket = sign.attribute("bracket").map(|bracket| bracket == "yes");
    Spans::Tuplet { figure: if hidden { 0 } else { figure }, bracket }
}

/// On which side the file puts a sign.
pub(super) fn above(sign: Node) -> Option<bool> {
    match (sign.attribute("placement"), sign.attribute("orientation")) {
        (Some("above"), _) | (None, Some("over")) => Some(true),
        (Some("below"), _) | (None, Some("under")) => Some(false),
        _ => None,
    }
}

/// What tells a sign from others of its family that are open at one time.
pub(super) fn number(sign: Node) -> u8 {
    sign.attribute("number").and_then(|number| number.trim().parse::<u8>().ok()).unwrap_or(1).clamp(1, 16)
}

/// By voice and event: whether it stands in a tuplet that the file marks.
fn in_marked_tuplets(voices: &[Voice], marks: &[Mark]) -> Vec<Vec<bool>> {
    let mut begin: Vec<Vec<i32>> = voices.iter().map(|voice| vec![0; voice.events.len()]).collect();
    let mut end = begin.clone();
    for Mark { place: (voice, event), does, .. } in marks.iter().filter(|mark| mark.family == Family::Tuplet) {
        let steps = if does.begins().is_some() { &mut begin } else { &mut end };
        steps[*voice][*event] += 1;
    }
    let depths = |(begin, end): (Vec<i32>, Vec<i32>)| {
        let mut depth = 0;
        let inside = |(begin, end): (i32, i32)| {
            depth += begin;
            let inside = depth > 0;
            depth = (depth - end).max(0);
            inside
        };
        begin.into_iter().zip(end).map(inside).collect()
    };
    begin.into_iter().zip(end).map(depths).collect()
}
