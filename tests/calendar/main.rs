//! Days and dates, against independent computations and laws.

mod forgetting;
mod reference;
