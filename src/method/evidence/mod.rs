//! What is believed about the chance of a clean repetition: the state-space learning curve of
//! Smith et al. 2004, exactly, on a grid.
//!
//! The model (J Neurosci 24(2):447–461, doi 10.1523/JNEUROSCI.2908-03.2004): the logit of the chance
//! walks at random from repetition to repetition, xₖ = xₖ₋₁ + N(0, σ²), and a repetition is clean with
//! chance 1/(1 + e⁻ˣ). The paper follows x with Gaussian approximations; here the whole density is
//! kept, so that nothing is approximated but the grid itself.

mod belief;
mod curve;
mod grid;
mod kernel;
mod tails;

pub use belief::Belief;
pub use curve::{LearningCurve, learning_curve, learning_curve_by, learning_trial};
pub use kernel::Kernel;
pub use tails::Tails;
