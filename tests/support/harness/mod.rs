//! The packed page in a real browser: [`Site`] serves it, [`Chromium`] shows it.

mod chromium;
mod devtools;
mod fingers;
pub mod install;
mod site;

pub use chromium::{Chromium, PATIENCE};
pub use devtools::Viewport;
pub use fingers::Spot;
pub use site::Site;
