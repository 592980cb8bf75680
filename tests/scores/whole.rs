//! The whole of a reading, used: what holds of every score, whatever bytes it was read from.

use tailfirst::{
    music::{
        Quarters,
        musicxml::read,
        score::{Part, ScoreBar},
        written::{Anchor, Event, Kind, Spans},
    },
    workshop::Answer,
};

/// Reads the bytes; whatever was understood is sound, crosses from the worker to the page unchanged, and can be cut
/// into a passage or is refused.
pub fn use_up(bytes: &[u8]) {
    let Ok(reading) = read(bytes) else { return };
    let carried = Answer::Score(reading.score.clone());
    assert!(Answer::arrived(&carried.sent()) == Some(carried), "another score arrived");
    for part in &reading.score.parts {
        let _ = part.cut(0..=part.bars.len().saturating_sub(1), &part.usual_hands());
        part.bars.iter().for_each(|bar| assert_bar(bar, part.staves));
        assert_spanners(part);
    }
    reading.mended.iter().for_each(|mended| assert!(!mended.to_string().is_empty()));
}

fn assert_bar(bar: &ScoreBar, staves: u8) {
    assert!(bar.length > Quarters::ZERO && bar.missing >= Quarters::ZERO);
    assert!(bar.attacks.iter().all(|attack| attack.at < bar.length && attack.at >= Quarters::ZERO));
    assert_eq!(bar.written.clefs.len(), usize::from(staves));
    let changes = &bar.written.clef_changes;
    assert!(changes.iter().all(|change| change.at > Quarters::ZERO && change.at <= bar.length));
    assert!(changes.is_sorted_by_key(|change| change.at));
    for voice in &bar.written.voices {
        voice.events.iter().for_each(|event| assert_event(event, bar.length, staves));
        let follow = |pair: &[Event]| pair[0].at.checked_add(pair[0].lasts).is_none_or(|end| end <= pair[1].at);
        assert!(voice.events.windows(2).all(follow), "events of {} overlap", voice.name);
    }
}

fn assert_event(event: &Event, length: Quarters, staves: u8) {
    let grace = event.grace.is_some();
    assert!(event.at >= Quarters::ZERO && (event.at < length || grace && event.at == length));
    assert!(event.dots <= 4 && (grace == (event.lasts == Quarters::ZERO)));
    match &event.kind {
        Kind::Notes(heads) => {
            assert!(!heads.is_empty() && heads.is_sorted_by_key(|head| head.place));
            assert!(heads.iter().all(|head| (1..=staves).contains(&head.staff)));
        }
        Kind::Rest { staff, .. } => assert!((1..=staves).contains(staff)),
    }
}

fn assert_spanners(part: &Part) {
    for spanner in &part.spanners {
        let stands = |anchor: &Anchor| {
            let bar = usize::try_from(anchor.bar).ok().and_then(|bar| part.bars.get(bar)).expect("one of the bars");
            assert!(anchor.at >= Quarters::ZERO && anchor.at <= bar.length);
            assert!((1..=part.staves).contains(&anchor.staff));
            (anchor.bar, anchor.at)
        };
        assert!(stands(&spanner.from) <= stands(&spanner.to));
        assert!(!matches!(spanner.kind, Spans::Tuplet { figure: 0, .. }));
    }
}
