//! Random histories of devices that act apart and exchange files whole or in part: half of them end by exchanging
//! everything, half are put together in every order. A few minutes' worth, unless a number is given.

use crate::{
    devices::{exchanges, their_union_is_one, they_come_to_the_same, turns},
    figure::{Figure, Sheet},
};
use proptest::test_runner::{Config, TestRunner};
use std::{thread, time::Instant};

/// How many, unless a number is given.
const HISTORIES: u32 = 20_000;
/// Most turns of a history: most faults show in few, and few take little time.
const TURNS: usize = 24;

pub fn measure(sheet: &mut Sheet) {
    let histories = std::env::args().find_map(|argument| argument.parse().ok()).unwrap_or(HISTORIES);
    let threads = thread::available_parallelism().map_or(1, |threads| threads.get() as u32);
    let (start, each) = (Instant::now(), histories.div_ceil(2 * threads));
    let refuted: Vec<String> = thread::scope(|scope| {
        let runs: Vec<_> = (0..threads).map(|_| scope.spawn(move || run(each))).collect();
        runs.into_iter().flat_map(|run| run.join().expect("what panics is told as refuted")).collect()
    });
    refuted.iter().for_each(|refuted| println!("{refuted}"));
    println!(
        "{} random histories of up to {TURNS} turns on four devices, one a copy of another, in {:.0} s",
        2 * each * threads,
        start.elapsed().as_secs_f64()
    );
    let value = refuted.len() as f64;
    sheet.add(Figure { name: "refuted-by-random-histories", value, unit: "properties", target: 0.0 });
}

/// Plays so many histories for each of both properties; what was refuted, with the smallest history that does it.
fn run(cases: u32) -> Vec<String> {
    let runner = || TestRunner::new(Config { cases, failure_persistence: None, ..Config::default() });
    let same = runner().run(&(turns(TURNS), exchanges()), |(turns, order)| they_come_to_the_same(&turns, &order));
    let union = runner().run(&turns(TURNS), |turns| their_union_is_one(&turns));
    let refuted = [same.err().map(|refuted| refuted.to_string()), union.err().map(|refuted| refuted.to_string())];
    refuted.into_iter().flatten().collect()
}
