//! Days and dates, against independent computations and laws.

mod dates;
mod days;
mod forgetting;
mod likenesses;
mod plans;
mod reference;
