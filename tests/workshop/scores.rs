//! Scores read by the worker.

use crate::{messages, outcome};
use tailfirst::{
    journal::ScoreFile,
    music::{
        Score,
        musicxml::{self, ReadError},
    },
    workshop::{Answer, Gathered, Outcome, Refusal, Task},
};

const POLONAISE: &[u8] = include_bytes!("../scores/polonaise_op1n1.mxl");
const ALOHA_OE: &[u8] = include_bytes!("../scores/aloha_oe.mxl");

fn take_in(bytes: &[u8]) -> Outcome {
    outcome(&Task::take_in("a score".into(), bytes.to_vec()).sent())
}

fn score_of(outcome: Outcome) -> Score {
    match outcome {
        Outcome::Read { reading, .. } => reading.score,
        other => panic!("no score: {other:?}"),
    }
}

#[test]
fn a_score_read_by_the_worker_is_the_score_read_here() {
    for bytes in [POLONAISE, ALOHA_OE] {
        let here = musicxml::read(bytes).expect("a score");
        let Outcome::Read { reading, file: Some(file) } = take_in(bytes) else { panic!("no score with its file") };
        assert!(reading == here, "{}", here.score.title);
        assert_eq!(file.unpack().as_deref(), Ok(bytes));
        assert!(score_of(outcome(&Task::ReadAgain(file).sent())) == here.score);
    }
}

/// A part of so many bars, each with four quarters.
fn long_score(bars: usize) -> String {
    let quarter = "<note><pitch><step>C</step><octave>4</octave></pitch><duration>1</duration></note>".repeat(4);
    let attributes = "<attributes><divisions>1</divisions></attributes>";
    let bars: String = (1..=bars).map(|n| format!("<measure number='{n}'>{attributes}{quarter}</measure>")).collect();
    format!("<score-partwise><part-list/><part id='P1'>{bars}</part></score-partwise>")
}

#[test]
fn a_long_score_comes_in_pieces_that_are_quick_to_take_in() {
    let task = Task::take_in("long".into(), long_score(3_000).into_bytes());
    let sent = messages(&task.sent());
    let largest = sent.iter().map(Vec::len).max().expect("messages");
    assert!(largest < 100_000, "a message of {largest} bytes");
    let done: Vec<u8> = sent
        .iter()
        .filter_map(|message| match Answer::arrived(message) {
            Some(Answer::Done(hundredths)) => Some(hundredths),
            _ => None,
        })
        .collect();
    assert!(done.len() > 20 && done.is_sorted() && done.last() == Some(&100), "{done:?}");
    assert_eq!(score_of(outcome(&task.sent())).parts[0].bars.len(), 3_000);
}

#[test]
fn what_cannot_be_read_kept_or_understood_is_refused() {
    assert_eq!(take_in(b"no score"), Outcome::Refused(Refusal::Unread(ReadError::NotAScore)));
    let damaged = Task::ReadAgain(ScoreFile { name: "a score".into(), deflated: "AAAA".into() });
    assert!(matches!(outcome(&damaged.sent()), Outcome::Refused(Refusal::NotKept(_))));
    assert_eq!(outcome(b"\xFF\xFF"), Outcome::Refused(Refusal::Garbled));
    let mut cut_short = messages(&Task::take_in(String::new(), POLONAISE.to_vec()).sent()).pop().expect("an end");
    cut_short.pop();
    assert_eq!(Gathered::default().take(Answer::arrived(&cut_short)), Some(Outcome::Refused(Refusal::Garbled)));
}
