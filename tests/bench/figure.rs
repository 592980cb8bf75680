//! A measured value beside what it must reach.

use std::fmt;

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
}

impl fmt::Display for Sheet {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "figures: {} hold, {} short", self.hold, self.short)
    }
}
