//! How many failures are expected at one place in one repetition: a gamma density, and what a verdict makes of it.
//!
//! A place with hazard h goes right with chance e⁻ʰ, so a step goes right with chance e⁻ᴴ, where H is the sum over its
//! places. The gamma density is conjugate to e⁻ʰ: with shape a and rate b, E e⁻ˢʰ = (b / (b + s))ᵃ, and weighting the
//! density by e⁻ˢʰ gives the shape a and the rate b + s.

/// A gamma density of a hazard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hazard {
    shape: f64,
    rate: f64,
}

/// Nobody is believed to fail less often or more often at one place, in failures a repetition.
const MEANS: (f64, f64) = (1e-4, 20.0);
/// Neither surer nor less sure than this, in the gamma's shape; so that no division goes wrong.
const SHAPES: (f64, f64) = (0.05, 400.0);

impl Hazard {
    /// A hazard with this mean, more than 0; a larger `shape` is surer of it.
    pub fn new(mean: f64, shape: f64) -> Self {
        Hazard { shape, rate: shape / mean }
    }

    /// The mean, in failures a repetition at the target tempo.
    pub fn mean(self) -> f64 {
        self.shape / self.rate
    }

    /// The variance.
    pub fn variance(self) -> f64 {
        self.mean() / self.rate
    }

    /// −ln E e⁻ˢʰ, what the place takes from the chance of a step, as a logarithm, where `strain` s ≥ 0 multiplies the hazard.
    pub fn cost(self, strain: f64) -> f64 {
        self.shape * (strain / self.rate).ln_1p()
    }

    /// The density weighted by `share` + (1 − `share`) e⁻ˢʰ, by its first two moments; `share` may lie beyond 0..1, as it does
    /// after a miss.
    pub fn weighted(self, share: f64, strain: f64) -> Self {
        let (Hazard { shape, rate }, clean) = (self, self.rate + strain);
        let first = share * shape / rate + (1.0 - share) * shape / clean;
        let second = shape * (shape + 1.0) * (share / (rate * rate) + (1.0 - share) / (clean * clean));
        let variance = (second - first * first).max(first * first / SHAPES.1);
        Hazard { shape: first * first / variance, rate: first / variance }
    }

    /// The hazard multiplied by `factor`, more than 0; its mean stays within what is believed of anybody.
    pub fn scaled(self, factor: f64) -> Self {
        Hazard { rate: self.shape / (self.mean() * factor).clamp(MEANS.0, MEANS.1), ..self }
    }

    /// Less sure by `share`, 0..1, of what is known, with the same mean.
    pub fn faded(self, share: f64) -> Self {
        let kept = (self.shape * share).clamp(SHAPES.0, SHAPES.1) / self.shape;
        Hazard { shape: self.shape * kept, rate: self.rate * kept }
    }
}

/// The probability that a gamma variable with this mean and variance, both more than 0, is at most `limit`: the regularised
/// incomplete gamma function P (DLMF 8.2.4), by its series (8.11.4) or, far out, by the continued fraction for 1 − P (8.9.2) as
/// Lentz's method evaluates it.
pub fn at_most(mean: f64, variance: f64, limit: f64) -> f64 {
    let (shape, x) = (mean * mean / variance, limit * mean / variance);
    let front = (shape * x.ln() - x - ln_gamma(shape)).exp();
    if x < shape + 1.0 {
        let (mut term, mut sum, mut n) = (1.0 / shape, 1.0 / shape, shape);
        while term > sum * 1e-9 {
            n += 1.0;
            term *= x / n;
            sum += term;
        }
        return (front * sum).min(1.0);
    }
    let mut b = x + 1.0 - shape;
    let (mut c, mut d) = (f64::MAX, 1.0 / b);
    let mut fraction = d;
    for i in 1..200 {
        let i = f64::from(i);
        let a = -i * (i - shape);
        b += 2.0;
        d = 1.0 / (a * d + b);
        c = b + a / c;
        fraction *= c * d;
        if (c * d - 1.0).abs() < 1e-9 {
            break;
        }
    }
    (1.0 - front * fraction).clamp(0.0, 1.0)
}

/// ln Γ(x) for x > 0: Stirling's series (DLMF 5.11.1) after the recurrence has brought x above 7.
fn ln_gamma(x: f64) -> f64 {
    let (mut x, mut below) = (x, 1.0);
    while x < 7.0 {
        below *= x;
        x += 1.0;
    }
    let (inverse, square) = (1.0 / x, 1.0 / (x * x));
    let series = inverse * (1.0 / 12.0 - square * (1.0 / 360.0 - square * (1.0 / 1260.0 - square / 1680.0)));
    (x - 0.5) * x.ln() - x + 0.5 * std::f64::consts::TAU.ln() + series - below.ln()
}
