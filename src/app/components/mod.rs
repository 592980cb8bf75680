//! What several screens are made of.

pub mod absent;
pub mod chart;
pub mod drawing;
pub mod export_reminder;
pub mod field;
pub mod new_piece;
pub mod new_snippet;
pub mod onset_panel;
pub mod pulse_bar;
pub mod score_field;
pub mod score_view;
pub mod snippet_form;
pub mod staff;
pub mod tap_field;
pub mod tap_tempo;
pub mod tempo_mark;
pub mod verdict_mark;
