//! What several screens are made of.

pub mod absent;
pub mod chart;
pub mod field;
pub mod new_snippet;
pub mod onset_panel;
pub mod pulse_bar;
pub mod score_field;
pub mod snippet_form;
pub mod staff;
pub mod tap_tempo;
