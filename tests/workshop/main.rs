//! What the page asks of its worker, as the two would do it: bytes there, bytes back.
#![cfg(not(target_arch = "wasm32"))]

#[path = "../support/players/dice.rs"]
mod dice;
mod exchange;
#[path = "../support/exported.rs"]
mod exported;
#[path = "../support/invented.rs"]
mod invented;
mod scores;
#[path = "../support/years.rs"]
mod years;

use std::io::{self, Read, Write};
use tailfirst::workshop::{Answer, Files, Gathered, Outcome, work};

/// The messages that a worker sends back for a task, which reads one file and writes another.
fn messages_about(task: &[u8], given: &mut dyn Read, made: &mut dyn Write) -> Vec<Vec<u8>> {
    let mut sent = Vec::new();
    work(task, Files { given, made }, &mut |answer| sent.push(answer.sent()));
    sent
}

/// The messages that a worker sends back for a task.
fn messages(task: &[u8]) -> Vec<Vec<u8>> {
    messages_about(task, &mut io::empty(), &mut io::sink())
}

/// How these messages end for the page.
fn gathered(messages: &[Vec<u8>]) -> Outcome {
    let mut gathered = Gathered::default();
    let ends: Vec<Outcome> = messages.iter().filter_map(|message| gathered.take(Answer::arrived(message))).collect();
    let [end] = ends.as_slice() else { panic!("a task ends once, not {} times", ends.len()) };
    end.clone()
}

/// How a task ends for the page.
fn outcome(task: &[u8]) -> Outcome {
    gathered(&messages(task))
}
