//! A measured value beside what it must reach.
//!
//! Machines of one kind differ by a factor of two, so a time alone says more of the machine than of the program. A timed
//! figure is therefore a [`Ratio`]: the work beside a yardstick measured in the same run, which is work that the program
//! cannot do without. The milliseconds of both are printed below it.

use std::{fmt, time::Instant};

/// The median of some measurements; of an even number the higher of the middle two.
pub fn median(mut times: Vec<f64>) -> f64 {
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}

/// Runs what waits for a browser.
pub fn wait<T>(measurement: impl Future<Output = T>) -> T {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().expect("a runtime");
    runtime.block_on(measurement)
}

/// How long the work takes, in milliseconds.
pub fn milliseconds<T>(work: impl FnOnce() -> T) -> f64 {
    let start = Instant::now();
    std::hint::black_box(work());
    1e3 * start.elapsed().as_secs_f64()
}

/// One figure. Smaller is better.
pub struct Figure {
    /// One word, with hyphens.
    pub name: &'static str,
    pub value: f64,
    pub unit: &'static str,
    /// The most it may be, in the same unit.
    pub target: f64,
}

impl Figure {
    fn holds(&self) -> bool {
        self.value <= self.target
    }
}

impl fmt::Display for Figure {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        let Figure { name, value, unit, target } = self;
        let outcome = if self.holds() { "holds" } else { "SHORT" };
        write!(f, "figure {name} {value:.1} {unit}, must be <= {target}: {outcome}")
    }
}

/// The same work and its yardstick timed in turn, in milliseconds, so that both meet the same machine.
#[derive(Default)]
pub struct Paired {
    pub work: Vec<f64>,
    pub yardstick: Vec<f64>,
}

impl Paired {
    /// Times both `times` times, one after the other.
    pub fn time<A, B>(times: usize, mut work: impl FnMut() -> A, mut yardstick: impl FnMut() -> B) -> Paired {
        let mut paired = Paired::default();
        for _ in 0..times {
            paired.work.push(milliseconds(&mut work));
            paired.yardstick.push(milliseconds(&mut yardstick));
        }
        paired
    }
}

/// A timed figure: how many times as long as its yardstick the work takes, by the medians of both.
pub struct Ratio {
    pub name: &'static str,
    pub paired: Paired,
    /// What the yardstick is.
    pub beside: &'static str,
    /// The most times the yardstick it may take.
    pub target: f64,
}

/// Prints each figure as it is added, and at the end how many hold.
#[derive(Default)]
pub struct Sheet {
    hold: usize,
    short: usize,
}

impl Sheet {
    pub fn add(&mut self, figure: Figure) {
        println!("{figure}");
        if figure.holds() {
            self.hold += 1;
        } else {
            self.short += 1;
        }
    }

    pub fn add_ratio(&mut self, Ratio { name, paired, beside, target }: Ratio) {
        let (work, yardstick) = (median(paired.work), median(paired.yardstick));
        self.add(Figure { name, value: work / yardstick, unit: "times", target });
        println!("    {work:.1} ms; beside it {yardstick:.1} ms: {beside}");
    }
}

impl fmt::Display for Sheet {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "figures: {} hold, {} short", self.hold, self.short)
    }
}
