//! What could not be read or kept, as each error of the core is said: one sentence with what to do.
//!
//! The types themselves hold no words; they are worded here, so that a language need not be known where music is read.

use crate::{
    journal::{
        ScoreFileError,
        file::ImportError,
        limits::{self, Beyond},
    },
    method::snippet::SnippetError,
    music::{
        TappedError,
        meter::NotAMeter,
        musicxml::{
            FileKind, LARGEST_FILE, LARGEST_TEXT, MOST_BARS, MOST_ELEMENTS, MOST_NOTES, Mend, Mended, ReadError,
        },
        passage::PassageError,
    },
    words::{Count, say},
};
use std::fmt;

impl fmt::Display for SnippetError {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        match self {
            SnippetError::GoalOutside => f.write_str(say::goal_outside()),
        }
    }
}

impl fmt::Display for PassageError {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(match self {
            PassageError::Empty => say::nothing_is_played(),
            PassageError::TooLong => say::passage_too_long(),
            PassageError::BrokenBars => say::broken_bars(),
            PassageError::BrokenOnsets => say::broken_onsets(),
        })
    }
}

impl fmt::Display for TappedError {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(match self {
            TappedError::Nothing => say::nothing_was_tapped(),
            TappedError::TooLong => say::tapped_too_long(),
            TappedError::TooFast => say::tapped_too_fast(),
        })
    }
}

impl fmt::Display for NotAMeter {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(&say::not_a_meter(&self.0))
    }
}

impl fmt::Display for ScoreFileError {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(match self {
            ScoreFileError::TooLargeToKeep => say::score_too_large_to_keep(),
            ScoreFileError::Damaged => say::kept_score_damaged(),
        })
    }
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(&match *self {
            ReadError::FileTooLarge => say::file_too_large(mebibytes(LARGEST_FILE)),
            ReadError::UnpackedTooLarge => say::unpacks_too_large(mebibytes(LARGEST_TEXT)),
            ReadError::DamagedXml { line } => say::score_damaged(line.into()),
            ReadError::OwnEntities { line } => say::declares_entities(line.into()),
            ReadError::TooManyBars => say::too_many_bars(MOST_BARS as i64),
            ReadError::TooManyNotes => say::too_many_notes(MOST_NOTES as i64),
            ReadError::TooManyElements => say::too_many_elements(MOST_ELEMENTS as i64),
            ReadError::OtherFile(kind) => other_file(kind).into(),
            ReadError::Empty => say::file_is_empty().into(),
            ReadError::DamagedZip => say::zip_damaged().into(),
            ReadError::NoScoreInZip => say::no_score_in_zip().into(),
            ReadError::UnknownEncoding => say::unknown_encoding().into(),
            ReadError::NotAScore => say::not_a_score().into(),
            ReadError::NoNotes => say::no_notes().into(),
        })
    }
}

fn mebibytes(bytes: usize) -> i64 {
    (bytes >> 20) as i64
}

fn other_file(kind: FileKind) -> &'static str {
    match kind {
        FileKind::Pdf => say::is_a_pdf(),
        FileKind::Picture => say::is_a_picture(),
        FileKind::Midi => say::is_midi(),
        FileKind::Gzip => say::is_gzip(),
    }
}

impl fmt::Display for ImportError {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(&match self {
            ImportError::TooLarge => say::import_too_large().into(),
            ImportError::Unreadable => say::file_not_given_out().into(),
            ImportError::NotJson { line } => say::import_breaks_off(*line as i64),
            ImportError::NotAJournal => say::import_no_journal().into(),
            ImportError::Newer { version } => say::import_newer(*version as i64),
            ImportError::Damaged { why } => say::import_damaged(why),
        })
    }
}

impl fmt::Display for Beyond {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(&match self {
            Beyond::Number => say::beyond_number().into(),
            Beyond::Depth => say::beyond_depth(limits::DEPTH as i64),
            Beyond::Text => say::beyond_text(limits::TEXT_CHARS as i64),
            Beyond::Score => say::beyond_score(limits::SCORE_CHARS as i64),
            Beyond::Notes => say::beyond_notes(limits::NOTES as i64),
        })
    }
}

impl fmt::Display for Mended {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        let what = self.change.to_string();
        f.write_str(&match self.places {
            0 | 1 => say::mended_in_a_bar(&self.bar, &what),
            places => say::mended_in_more(&self.bar, Count::from(places - 1), &what),
        })
    }
}

impl fmt::Display for Mend {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(match self {
            Mend::Divisions => say::mended_divisions(),
            Mend::Rounded => say::mended_rounded(),
            Mend::NoLength => say::mended_no_length(),
            Mend::Overfull => say::mended_overfull(),
            Mend::LooseTie => say::mended_loose_tie(),
            Mend::LooseGrace => say::mended_loose_grace(),
            Mend::OddPitch => say::mended_odd_pitch(),
            Mend::NoPitch => say::mended_no_pitch(),
            Mend::NoAlter => say::mended_no_alter(),
            Mend::NoMeter => say::mended_no_meter(),
            Mend::OddKey => say::mended_odd_key(),
            Mend::FarKey => say::mended_far_key(),
            Mend::TwoKeys => say::mended_two_keys(),
            Mend::InsideBar => say::mended_inside_bar(),
            Mend::StaffLines => say::mended_staff_lines(),
            Mend::OddValue => say::mended_odd_value(),
            Mend::LooseSlur => say::mended_loose_slur(),
            Mend::LooseTuplet => say::mended_loose_tuplet(),
            Mend::LooseSign => say::mended_loose_sign(),
            Mend::LooseOrnament => say::mended_loose_ornament(),
            Mend::Crowded => say::mended_crowded(),
            Mend::LongBar => say::mended_long_bar(),
            Mend::Transposing => say::mended_transposing(),
            Mend::RepeatsOnce => say::mended_repeats_once(),
            Mend::Cues => say::mended_cues(),
            Mend::Hidden => say::mended_hidden(),
            Mend::Lyrics => say::mended_lyrics(),
            Mend::OtherOrnaments => say::mended_other_ornaments(),
            Mend::OtherArticulations => say::mended_other_articulations(),
            Mend::OddAccidental => say::mended_odd_accidental(),
            Mend::OtherFermatas => say::mended_other_fermatas(),
            Mend::Noteheads => say::mended_noteheads(),
            Mend::OtherPedals => say::mended_other_pedals(),
            Mend::OtherSigns => say::mended_other_signs(),
            Mend::OtherTempi => say::mended_other_tempi(),
            Mend::Abbreviations => say::mended_abbreviations(),
            Mend::ChordSymbols => say::mended_chord_symbols(),
            Mend::Tablature => say::mended_tablature(),
        })
    }
}
