//! The core's own speed, natively.

use crate::figure::{Figure, Paired, Ratio, Sheet, median, milliseconds};
use std::{rc::Rc, time::Instant};
use tailfirst::{
    clock::Moment,
    journal::{DeviceId, Entry, EntryId, EntryKind, Journal, SnippetId, State},
    method::{Coach, Happening, HappeningKind, Settings, Verdict},
    music::musicxml,
    notation::engraving::Scroll,
};

/// Repetitions that one snippet has behind it.
const LONG_HISTORY: usize = 5_000;
/// Ten years at 400 repetitions a day.
const TEN_YEARS: u64 = 10 * 365 * 400;

pub fn measure(sheet: &mut Sheet) {
    sheet.add(Figure { name: "advice", value: advice(), unit: "us", target: 50.0 });
    sheet.add_ratio(Ratio {
        name: "score-of-300-bars",
        paired: reading(),
        beside: "the same text only parsed as XML",
        target: 3.0,
    });
    sheet.add(Figure { name: "long-bar-growth", value: growth(), unit: "times the notes", target: 1.5 });
    let paired = fold();
    sheet.add(Figure { name: "ten-year-fold", value: median(paired.work.clone()), unit: "ms", target: 300.0 });
    sheet.add_ratio(Ratio {
        name: "ten-year-fold-to-reading",
        paired,
        beside: "the same entries read from their JSON texts",
        target: 2.0,
    });
}

/// Clean two times in three, over and over.
fn verdict(nth: usize) -> Verdict {
    if nth % 3 == 2 { Verdict::NotYet } else { Verdict::Clean }
}

/// The median time of one more repetition and its advice, in microseconds.
fn advice() -> f64 {
    let journal = Journal::new();
    let (_, record) = journal.state().snippets().next().expect("the study");
    let mut coach = Coach::new(Rc::clone(&record.snippet));
    let at = |nth: usize| Moment::new(1_795_600_800_000 + 4_000 * nth as i64, 0);
    let mut play = |nth: usize| {
        if nth.is_multiple_of(60) {
            coach.follow(&Happening { at: at(nth), kind: HappeningKind::BlockBegan(Settings::default()) });
        }
        let step = coach.advice(at(nth)).step;
        coach.follow(&Happening {
            at: at(nth),
            kind: HappeningKind::Played { step, verdict: verdict(nth), cause: None, broke_at: None },
        });
        coach.advice(at(nth)).sureness.now.mean
    };
    (0..LONG_HISTORY).for_each(|nth| _ = play(nth));
    let times = (LONG_HISTORY..LONG_HISTORY + 1_000).map(|nth| 1e3 * milliseconds(|| play(nth)));
    median(times.collect())
}

/// Reading a piano score of 300 bars, one bar over and over with a chord and a run of sixteenths in each hand, beside
/// parsing its text.
fn reading() -> Paired {
    let score = long_score(300);
    Paired::time(
        21,
        || assert!(musicxml::read(score.as_bytes()).is_ok()),
        || assert!(roxmltree::Document::parse(&score).is_ok()),
    )
}

/// How much longer it takes to read and lay out a bar of 48,000 notes than sixteen times one of 3,000.
fn growth() -> f64 {
    let seconds = |notes: usize| {
        let note = "<note><pitch><step>C</step><octave>5</octave></pitch><duration>1</duration></note>";
        let bar = format!("<measure number='1'>{}</measure>", note.repeat(notes));
        let score = format!("<score-partwise><part-list/><part id='P1'>{bar}</part></score-partwise>");
        let start = Instant::now();
        let read = musicxml::read(score.as_bytes()).expect("a score").score;
        std::hint::black_box(Scroll::new(&read.parts[0], 1_000.0, 8.0));
        start.elapsed().as_secs_f64()
    };
    let short = median((0..5).map(|_| seconds(3_000)).collect());
    seconds(48_000) / (16.0 * short)
}

fn long_score(bars: usize) -> String {
    let note = |staff: u8, octave: u8, step: char, more: &str| {
        format!(
            "<note>{more}<pitch><step>{step}</step><octave>{octave}</octave></pitch><duration>1</duration>\
             <voice>{staff}</voice><type>16th</type><stem>up</stem><staff>{staff}</staff></note>"
        )
    };
    let hand = |staff: u8, octave: u8| -> String {
        let run = "CDEFGAGFEDCDEFG".chars().map(|step| note(staff, octave, step, "")).collect::<String>();
        note(staff, octave, 'C', "") + &note(staff, octave, 'E', "<chord/>") + &run
    };
    let bar = hand(1, 5) + "<backup><duration>16</duration></backup>" + &hand(2, 3);
    let attributes = "<attributes><divisions>4</divisions><staves>2</staves></attributes>";
    let bars: String =
        (1..=bars).map(|number| format!("<measure number='{number}'>{attributes}{bar}</measure>")).collect();
    format!("<score-partwise><part-list/><part id='P1'>{bars}</part></score-partwise>")
}

/// The fold over ten years of repetitions, beside reading each of them from its text.
fn fold() -> Paired {
    let journal = Journal::new();
    let (snippet, record) = journal.state().snippets().next().expect("the study");
    let step = Coach::new(Rc::clone(&record.snippet)).advice(Moment::new(0, 0)).step;
    let supplied: Vec<Entry> = journal.entries().collect();
    let entries: Vec<Entry> =
        supplied.into_iter().chain((0..TEN_YEARS).map(|nth| played(snippet, step, nth))).collect();
    let texts: Vec<String> = entries.iter().map(Entry::written).collect();
    let read_all = || texts.iter().filter(|text| Entry::read(text).is_ok()).count();
    Paired::time(3, || State::of(&entries), || assert_eq!(read_all(), texts.len()))
}

fn played(snippet: SnippetId, step: tailfirst::method::Step, nth: u64) -> Entry {
    let id = EntryId { number: 10 + nth, device: DeviceId(1) };
    let kind = EntryKind::Played { snippet, step, verdict: verdict(nth as usize) };
    Entry { id, at: Moment::new(1_795_600_800_000 + 4_000 * nth as i64, 0), kind }
}
