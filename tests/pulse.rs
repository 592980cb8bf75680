//! One round of practice keeps the pulse: where the count-in begins, when the goal lands, how long the
//! breath is.

#[path = "support/invented.rs"]
mod invented;

use invented::{bars, passage, snippet, step, tempo};
use proptest::prelude::*;
use tailfirst::{
    method::{Hands, Snippet, Step},
    music::{Bpm, Hand, NoteValue},
    pulse::{Beat, Click, Round},
};

/// A one-line snippet of these bars and onsets at so many quarters a minute.
fn line(bar_text: &str, places: &str, bpm: u16) -> Snippet {
    snippet(passage(bars(bar_text, 1), &[(Hand::Line, places)]), tempo(NoteValue::Quarter, 0, bpm))
}

fn round(snippet: &Snippet, first: usize) -> Round {
    Round::new(snippet, step(snippet, first, snippet.goal(), Hands::Line))
}

/// The round's beats by number: count-in in brackets, a stroke before each bar's first.
fn spoken(round: &Round) -> String {
    let word = |beat: &Beat| {
        let stroke = if beat.opens_bar() { "|" } else { "" };
        if beat.count_in { format!("{stroke}({})", beat.number) } else { format!("{stroke}{}", beat.number) }
    };
    round.beats().iter().map(word).collect::<Vec<_>>().join(" ")
}

fn assert_close(left: f64, right: f64) {
    assert!((left - right).abs() < 1e-9, "{left} is not {right}");
}

#[test]
fn a_goal_on_the_downbeat_gets_one_bar_of_count_in_and_the_rest_of_its_bar_as_breath() {
    let round = round(&line("4/4 4/4", "0 1 2 3 4", 60), 4);
    assert_eq!(spoken(&round), "|(1) (2) (3) (4) |1 2 3 4");
    assert_eq!((round.goal(), round.played(), round.total()), (4.0, 5.0, 8.0));
}

#[test]
fn the_count_in_goes_on_through_the_lead_ins_own_bar() {
    let round = round(&line("4/4 4/4", "0 1 2 3 4", 120), 2);
    assert_eq!(spoken(&round), "|(1) (2) (3) (4) |(1) (2) 3 4 |1 2 3 4 |1 2 3 4");
    let sounded: Vec<_> = round.soundings().iter().map(|sounding| (sounding.onset, sounding.at)).collect();
    assert_eq!(sounded, [(2, 3.0), (3, 3.5), (4, 4.0)]);
}

#[test]
fn a_pickup_is_counted_in_as_if_its_bar_were_whole() {
    let round = round(&line("3/4-2 3/4", "0 1", 90), 0);
    assert_eq!(spoken(&round), "|(1) (2) (3) |(1) (2) 3 |1 2 3 |1 2 3");
    assert_close(round.goal(), 4.0);
}

#[test]
fn an_off_beat_and_a_triplet_lead_in_begin_between_the_beats() {
    let off_beat = round(&line("2/4 2/4", "3/2 2", 60), 0);
    assert_eq!(spoken(&off_beat), "|(1) (2) |(1) (2) |1 2 |1 2");
    assert_close(off_beat.soundings()[0].at, 3.5);
    let triplet = round(&line("2/4 2/4", "5/3 2", 60), 0);
    assert_close(triplet.soundings()[0].at, 2.0 + 5.0 / 3.0);
    assert_close(triplet.goal(), 4.0);
}

#[test]
fn a_change_of_meter_inside_the_span_is_beaten_where_it_stands() {
    let round = round(&line("3/4 2/4 4/4", "0 3 5", 60), 0);
    assert_eq!(spoken(&round), "|(1) (2) (3) |1 2 3 |1 2 |1 2 3 4");
}

#[test]
fn compound_bars_beat_in_dotted_quarters_and_odd_ones_in_their_own_unit() {
    let in_two = passage(bars("6/8 6/8", 1), &[(Hand::Line, "5/2 3")]);
    let in_two = round(&snippet(in_two, tempo(NoteValue::Quarter, 1, 60)), 0);
    assert_eq!(spoken(&in_two), "|(1) (2) |(1) (2) |1 2 |1 2");
    let in_five = round(&line("5/8 5/8", "0 5/2", 60), 1);
    assert_eq!(spoken(&in_five), "|(1) (2) (3) (4) (5) |1 2 3 4 5 |1 2 3 4 5");
    assert_close(in_five.beats()[1].at, 0.5);
}

#[test]
fn short_bars_are_counted_until_two_seconds_are_full_and_long_ones_are_not_waited_for() {
    let short = round(&line("2/4 2/4", "0 2", 120), 1);
    assert_eq!(spoken(&short), "|(1) (2) |(1) (2) |1 2 |1 2 |1 2");
    let long = round(&line("4/4 4/4", "0 7", 40), 1);
    assert_close(long.total() - long.played(), 3.0);
    assert_eq!(spoken(&long), "|(1) (2) (3) (4) |(1) (2) (3) 4 |1 2");
}

#[test]
fn the_last_bar_of_a_piece_with_a_pickup_is_filled_up() {
    let mut short_last = bars("4/4-3 4/4 4/4", 0);
    short_last[2].length = invented::quarters("3");
    let round = round(&snippet(passage(short_last, &[(Hand::Line, "4 5")]), tempo(NoteValue::Quarter, 0, 60)), 1);
    assert_eq!(spoken(&round), "|(1) (2) (3) (4) |1 2 3 4");
}

#[test]
fn the_hand_that_rests_is_waited_for_and_the_goal_still_has_its_place() {
    let both = passage(bars("4/4 4/4", 1), &[(Hand::Left, "0 2"), (Hand::Right, "0 1 2 4")]);
    let both = snippet(both, tempo(NoteValue::Quarter, 0, 60));
    let left = Round::new(&both, step(&both, 1, 3, Hands::Left));
    assert_eq!(left.soundings().iter().map(|sounding| sounding.onset).collect::<Vec<_>>(), [2]);
    assert_eq!(spoken(&left), "|(1) (2) (3) (4) |(1) (2) 3 4 |1 2 3 4");
    assert_eq!(left.goal(), 8.0);
    let nobody = Round::new(&both, step(&both, 1, 1, Hands::Left));
    assert!(nobody.soundings().is_empty() && nobody.goal() == 5.0);
}

#[test]
fn a_tap_before_the_span_can_have_been_played_is_known_as_a_bounce() {
    let snippet = line("4/4 4/4", "0 1 2 3 4", 60);
    assert_close(round(&snippet, 0).shortest_seconds(), 3.2);
    assert_close(round(&snippet, 4).shortest_seconds(), 0.35);
}

#[test]
fn the_click_is_heard_always_or_in_the_count_in_or_never() {
    let round = round(&line("3/4 3/4", "0 1 2 3", 60), 3);
    let heard = |click| round.clicks(click, 0.0, round.total()).count();
    assert_eq!([Click::Always, Click::CountIn, Click::Never].map(heard), [6, 3, 0]);
}

#[test]
fn the_phase_runs_from_mark_to_mark_and_into_the_next_round() {
    let round = round(&line("2/4 2/4", "0 1 2", 60), 1);
    let phase = round.phase(3.25);
    assert_eq!((phase.progress, phase.last.number, phase.next.number), (0.25, 2, 1));
    assert_eq!((phase.onset, round.phase(2.9).onset), (Some(1), None));
    let closing = round.phase(round.total() - 0.5);
    assert!(closing.next.opens_bar() && closing.next.count_in && closing.progress == 0.5);
    assert_eq!(round.phase(-1.0).progress, 0.0);
    assert_eq!(round.phase(1e9).progress, 1.0);
}

const METERS: [&str; 8] = ["4/4", "3/4", "2/4", "6/8", "5/8", "2/2", "3/8", "9/8"];
const BEATS: [(NoteValue, u8); 4] =
    [(NoteValue::Quarter, 0), (NoteValue::Quarter, 1), (NoteValue::Half, 0), (NoteValue::Eighth, 0)];

prop_compose! {
    fn any_step()(
        pickup in prop::sample::select(vec!["", "4/4-3", "6/8-5/2", "3/4-1/2"]),
        bar_text in prop::collection::vec(prop::sample::select(METERS.to_vec()), 1..5),
        places in prop::collection::btree_set(0i64..96, 1..12),
        value in prop::sample::select(BEATS.to_vec()),
        bpm in prop::sample::select(vec![10u16, 40, 60, 93, 132, 208, 400]),
        ends in any::<(prop::sample::Index, prop::sample::Index)>(),
    ) -> (Snippet, Step) {
        let bars = bars(&format!("{pickup} {}", bar_text.join(" ")), 1);
        let end = bars.iter().map(|bar| bar.length).sum::<tailfirst::music::Quarters>();
        let places = places.iter().map(|place| invented::quarters(&format!("{place}/6")));
        let mut places: Vec<_> = places.filter(|place| *place < end).map(|place| place.to_string()).collect();
        if places.is_empty() {
            places.push("0".into());
        }
        let count = places.len();
        let passage = passage(bars, &[(Hand::Line, &places.join(" "))]);
        let snippet = snippet(passage, tempo(value.0, value.1, bpm));
        let (a, b) = (ends.0.index(count), ends.1.index(count));
        let step = step(&snippet, a.min(b), a.max(b), Hands::Line);
        (snippet, step)
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_round_is_one_unbroken_pulse_around_what_is_played((snippet, step) in any_step()) {
        let round = Round::new(&snippet, step);
        let beats = round.beats();
        prop_assert!(beats[0].at == 0.0 && beats[0].opens_bar() && beats[0].count_in);
        prop_assert!(beats.windows(2).all(|pair| pair[0].at < pair[1].at));
        prop_assert!(beats.windows(2).all(|pair| pair[1].opens_bar() || pair[1].number == pair[0].number + 1));
        prop_assert!(beats.iter().all(|beat| beat.at < round.total()));
        prop_assert!(round.soundings()[0].at >= 2.0 - 1e-9);
        prop_assert!(round.total() - round.played() >= 2.0 - 1e-9);
        prop_assert!(round.played() >= round.goal());
        let first_at = snippet.passage().onsets()[step.span.first()].at;
        for sounding in round.soundings() {
            let away = snippet.tempo().seconds(snippet.passage().onsets()[sounding.onset].at - first_at);
            prop_assert!((sounding.at - round.soundings()[0].at - away).abs() < 1e-9);
        }
    }

    #[test]
    fn windows_that_meet_hold_every_click_once((snippet, step) in any_step(), window in 0.01f64..3.0) {
        let round = Round::new(&snippet, step);
        let count = (round.total() / window).ceil() as usize;
        let windows = (0..count).map(|n| (n as f64 * window, (n + 1) as f64 * window));
        let heard: Vec<Beat> = windows.flat_map(|(from, to)| round.clicks(Click::Always, from, to)).copied().collect();
        prop_assert_eq!(&heard, round.beats());
    }

    /// WCAG 2.2, 2.3.2: not more than three flashes in any one second. The fastest tempo has 400 beats per minute; what
    /// is shown of it stays within three marks a second, and moves without a jump.
    #[test]
    fn the_pulse_is_never_shown_more_than_three_times_a_second((snippet, step) in any_step()) {
        let round = Round::new(&snippet, Step { bpm: Bpm::MAX, ..step });
        let frame = 1.0 / 240.0;
        let frames = (0..=(round.total() / frame) as usize).map(|n| round.phase(n as f64 * frame));
        let phases: Vec<_> = frames.collect();
        let mut met: Vec<f64> = phases.iter().map(|phase| phase.last.at).collect();
        met.dedup();
        prop_assert!(met.windows(4).all(|marks| marks[3] - marks[0] >= 1.0 - 1e-6));
        let moved = |pair: &[tailfirst::pulse::Phase]| pair[1].progress - pair[0].progress;
        prop_assert!(phases.windows(2).all(|pair| pair[0].last != pair[1].last || moved(pair) <= 3.0 * frame + 1e-6));
    }
}

/// Gould 2011, "Time signatures" (from memory): the groups of an additive meter are the groups of its pulse.
#[test]
fn an_additive_meter_is_pulsed_in_its_groups() {
    let strong = |bar: &str, bpm| {
        let round = round(&line(&format!("{bar} {bar}"), "0 1", bpm), 0);
        let bar: Vec<Beat> = round.beats().iter().copied().take(5).collect();
        bar.iter().filter(|beat| beat.is_strong()).map(|beat| beat.number).collect::<Vec<_>>()
    };
    assert_eq!(strong("3+2/8", 60), [1, 4]);
    assert_eq!(strong("2+3/8", 60), [1, 3]);
    assert_eq!(strong("5/8", 60), [1]);
    // Eighths of 0.2 s come too fast to be shown: the eye is given the groups.
    let fast = round(&line("3+2/8 3+2/8", "0 1", 150), 0);
    let shown = [0.1, 0.7, 1.1].map(|seconds| fast.phase(seconds).last.number);
    assert_eq!(shown, [1, 4, 1]);
}

/// Where motion is not wanted the marks stand still between beats, come nearer with each, and meet on the bar's first.
#[test]
fn still_marks_step_from_beat_to_beat() {
    let round = round(&line("4/4 4/4", "0 1 2 3 4", 60), 4);
    let stepped = |seconds: f64| {
        let (come, meant) = round.phase(seconds).marks(true);
        (come, meant.opens_bar())
    };
    let bar: Vec<[(f64, bool); 3]> =
        (0..4).map(|beat| [0.0, 0.3, 0.9].map(|past| stepped(f64::from(beat) + past))).collect();
    assert!(bar.iter().all(|beat| beat.iter().all(|mark| *mark == beat[0])), "{bar:?}");
    let places: Vec<f64> = bar.iter().map(|beat| beat[0].0).collect();
    assert_eq!((places[0], bar[0][0].1), (1.0, true));
    assert!(places[1..].windows(2).all(|pair| pair[0] < pair[1]) && places[3] < 1.0, "{places:?}");
    assert_eq!(round.phase(0.5).marks(false).0, 0.5);
}

/// 6/8 in quarters clicks dotted quarters: 108 quarters a minute are 72 of them, and 72 is what is shown.
#[test]
fn the_tempo_that_is_shown_is_the_tempo_that_sounds() {
    for (bar_text, bpm) in [("6/8 6/8", 108), ("6/8 6/8", 100), ("4/4 4/4", 63), ("5/8 5/8", 90)] {
        let snippet = line(bar_text, "0 1 2", bpm);
        let round = round(&snippet, 1);
        let shown = snippet.pulse(snippet.tempo().bpm);
        let apart = round.beats()[1].at - round.beats()[0].at;
        let sounding = 60.0 / apart;
        assert!((sounding - f64::from(shown.bpm.get())).abs() <= 0.5, "{shown:?} is shown and {sounding} sounds");
        // What a new snippet is given is shown exactly.
        let given = snippet.clone().at_tempo(shown);
        assert_eq!(given.pulse(shown.bpm), shown);
        let round = Round::new(&given, step(&given, 1, 2, Hands::Line));
        assert_close(round.beats()[1].at - round.beats()[0].at, 60.0 / f64::from(shown.bpm.get()));
    }
}
