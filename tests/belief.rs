//! What is believed of the places of a snippet, against exact sums that an independent script has computed.

#[path = "support/invented.rs"]
mod invented;

use invented::{bars, passage, snippet, tempo};
use serde::Deserialize;
use std::collections::BTreeMap;
use tailfirst::{
    method::{Belief, Priors, Pupil, Snippet, Span, Step, Verdict, hazard},
    music::{Hand, NoteValue},
};

/// The reference; where it comes from stands in the file itself.
#[derive(Deserialize)]
struct Reference {
    posteriors: Vec<Posterior>,
    tails: Vec<Tail>,
}

#[derive(Deserialize)]
struct Posterior {
    slip: f64,
    /// Steps by their onsets, and whether they were clean.
    heard: Vec<(String, u8)>,
    /// The exact chance that each step is judged clean next.
    next: BTreeMap<String, f64>,
}

#[derive(Deserialize)]
struct Tail {
    mean: f64,
    variance: f64,
    limit: f64,
    at_most: f64,
}

fn reference() -> Reference {
    serde_json::from_str(include_str!("data/belief.json")).expect("the reference reads")
}

/// Two onsets of one hand: three places.
fn two_onsets() -> Snippet {
    snippet(passage(bars("4/4", 1), &[(Hand::Right, "0 1")]), tempo(NoteValue::Quarter, 0, 80))
}

fn step(snippet: &Snippet, onsets: &str) -> Step {
    let span = match onsets {
        "1" => Span::only(0),
        "2" => Span::only(1),
        _ => snippet.whole(),
    };
    Step { span, hands: snippet.hands_in(span).expect("hands"), bpm: snippet.tempo().bpm }
}

/// The reference's priors: nothing is learned and nothing fades.
fn still(slip: f64) -> Priors {
    let learns_nothing = Pupil { share: 1.0 / 3.0, by_clean: 0.0, by_missed: 0.0 };
    Priors {
        hazards: [0.06, 0.17, 0.17],
        shape: 1.5,
        levels: [(0.5, 0.3), (1.0, 0.4), (2.2, 0.3)],
        pupils: [learns_nothing; 3],
        slip,
        kept: [1.0; 3],
        after: [1.0; 2],
        ..Priors::CHOSEN
    }
}

fn heard(snippet: &Snippet, posterior: &Posterior) -> Belief {
    let mut belief = Belief::first(snippet, &still(posterior.slip));
    for (onsets, clean) in &posterior.heard {
        let verdict = if *clean == 1 { Verdict::Clean } else { Verdict::NotYet };
        belief.hear(step(snippet, onsets), verdict, None);
    }
    belief
}

/// Without misses and slips nothing is approximated; two moments for each place err by a little after them.
#[test]
fn the_next_chance_is_exact_after_clean_repetitions_and_close_after_misses() {
    let snippet = two_onsets();
    let mut worst: f64 = 0.0;
    for posterior in reference().posteriors {
        let belief = heard(&snippet, &posterior);
        let exact = posterior.slip == 0.0 && posterior.heard.iter().all(|(_, clean)| *clean == 1);
        for (onsets, chance) in &posterior.next {
            let off = (belief.chance(step(&snippet, onsets)) - chance).abs();
            worst = worst.max(off);
            assert!(off < if exact { 1e-12 } else { 0.03 }, "{:?}, {onsets}: off by {off}", posterior.heard);
        }
    }
    println!("the next chance is off by at most {worst:.4}");
}

#[test]
fn tails_of_the_gamma_density_are_exact() {
    for Tail { mean, variance, limit, at_most } in reference().tails {
        let ours = hazard::at_most(mean, variance, limit);
        assert!((ours - at_most).abs() < 1e-7, "{mean} {variance} {limit}: {ours}, not {at_most}");
    }
}

/// A miss says that something broke, and most of it where least was known.
#[test]
fn a_miss_is_laid_at_the_door_of_what_has_not_been_clean_yet() {
    let snippet = two_onsets();
    let mut belief = Belief::first(&snippet, &still(0.02));
    (0..6).for_each(|_| belief.hear(step(&snippet, "1"), Verdict::Clean, None));
    let before = ["1", "2"].map(|onsets| belief.chance(step(&snippet, onsets)));
    belief.hear(step(&snippet, "1-2"), Verdict::NotYet, None);
    let lost = ["1", "2"].map(|onsets| belief.chance(step(&snippet, onsets)));
    assert!(before[0] - lost[0] < 0.75 * (before[1] - lost[1]), "{before:?} {lost:?}");
}

/// Whoever says where it broke has heard that it went right up to there, and nothing of what comes after.
#[test]
fn a_miss_is_laid_where_the_player_heard_it() {
    let snippet = two_onsets();
    let after = |broke_at: Option<usize>| {
        let mut belief = Belief::first(&snippet, &still(0.02));
        belief.hear(step(&snippet, "1-2"), Verdict::NotYet, broke_at);
        ["1", "2"].map(|onsets| belief.chance(step(&snippet, onsets)))
    };
    let ([first, second], at_the_first, at_the_second) = (after(None), after(Some(0)), after(Some(1)));
    assert!(at_the_first[0] < first && at_the_first[1] > second, "{at_the_first:?}, unsaid {first} {second}");
    assert!(at_the_second[0] > first && at_the_second[1] < second, "{at_the_second:?}, unsaid {first} {second}");
    assert_eq!(after(Some(7)), after(None), "an onset that was not played says nothing");
}

/// A step that always failed is not believed in again because it was left for a while.
#[test]
fn what_has_always_failed_is_remembered_over_rests() {
    let snippet = two_onsets();
    let whole = step(&snippet, "1-2");
    let mut belief = Belief::first(&snippet, &Priors::CHOSEN);
    let mut visits = Vec::new();
    for _ in 0..4 {
        (0..3).for_each(|_| belief.hear(whole, Verdict::NotYet, None));
        belief.rest();
        visits.push(belief.chance(whole));
    }
    assert!(visits.is_sorted_by(|before, after| after <= before) && visits[0] < 0.5, "{visits:?}");
}

#[test]
fn where_little_was_heard_no_number_is_told() {
    let snippet = two_onsets();
    let whole = step(&snippet, "1-2");
    let mut belief = Belief::first(&snippet, &Priors::CHOSEN);
    assert!(!belief.point(whole).tells());
    (0..8).for_each(|_| belief.hear(whole, Verdict::Clean, None));
    assert!(belief.point(whole).tells(), "{:?}", belief.point(whole));
}

/// Ten years of one step leave every number a chance.
#[test]
fn no_history_is_too_long_or_too_one_sided() {
    let snippet = two_onsets();
    let whole = step(&snippet, "1-2");
    for clean_of_seven in 0..=7 {
        let mut belief = Belief::first(&snippet, &Priors::CHOSEN);
        for nth in 0..20_000 {
            let verdict = if nth % 7 < clean_of_seven { Verdict::Clean } else { Verdict::NotYet };
            belief.hear(whole, verdict, None);
            if nth % 50 == 0 {
                belief.sleep();
            }
        }
        let point = belief.point(whole);
        let ascending = [0.0, point.low, point.mean, point.high, 1.0];
        assert!(
            ascending.iter().all(|number| number.is_finite()) && ascending.is_sorted(),
            "{clean_of_seven}: {point:?}"
        );
        assert!((0.0..=1.0).contains(&belief.chance_above(whole, 0.8)), "{clean_of_seven}");
    }
}
