//! What cannot be read or kept, and what was mended or left out.

use crate::words::catalogue::{Count, messages};

messages! {
    after crate::words::english::screens::END;

    // What cannot be read or kept.
    goal_outside = "The goal is not in these bars; tap one of their onsets.";
    nothing_is_played = "Nothing is played in these bars; choose bars that hold notes.";
    passage_too_long = "This is too long for one snippet; choose fewer bars.";
    broken_bars = "The bars do not follow one another without a gap.";
    broken_onsets = "The onsets are not in order inside their bars.";
    nothing_was_tapped = "Nothing was tapped; tap the rhythm once while the pulse runs.";
    tapped_too_long = "This is too long for one snippet; tap fewer bars.";
    tapped_too_fast = "More was tapped than six onsets a beat; tap again to a slower pulse.";
    not_a_meter(text: &str) = "“{text}” is not a time signature; write it as 3/4, 6/8 or 3+2/8.";
    score_too_large_to_keep = "This score is too large to keep; export only the movement you play.";
    kept_score_damaged = "The kept score is damaged; choose its file again.";
    file_is_empty = "The file is empty; export the score again and choose the new file.";
    file_too_large(mebibytes: i64) = "The file is larger than {mebibytes} MiB; export only the part you play.";
    unpacks_too_large(mebibytes: i64) =
        "The score unpacks to more than {mebibytes} MiB; export only the part you play.";
    zip_damaged =
        "The packed file is damaged or locked; export the score again, packed (.mxl) or not (.musicxml).";
    no_score_in_zip = "The packed file holds no score; choose an .mxl file made from a score.";
    unknown_encoding = "The encoding of the file is unknown; export the score as MusicXML in UTF-8.";
    score_damaged(line: i64) =
        "The score is damaged at line {line}; export it again from the program that wrote it.";
    declares_entities(line: i64) =
        "Line {line} declares entities, which no score needs; export it as plain MusicXML.";
    not_a_score = "This is not a MusicXML score; choose a file that ends in .musicxml, .xml or .mxl.";
    is_a_pdf = "This is a PDF, which shows pages and holds no notes; export the score as MusicXML from the program that \
        wrote it.";
    is_a_picture = "This is a picture, which holds no notes; choose the score itself, exported as MusicXML.";
    is_midi = "This is a MIDI file, which holds keys and times and no notation; export the score as MusicXML.";
    is_gzip = "This file is packed with gzip; unpack it and choose the score inside.";
    no_notes = "The score holds no notes in any of its parts; choose another score.";
    too_many_bars(most: i64) = "The score has more than {most} bars; export only the part you play.";
    too_many_notes(most: i64) = "The score has more than {most} notes; export only the part you play.";
    too_many_elements(most: i64) = "The file has more than {most} elements; export only the part you play.";
    import_too_large = "This file is too large to be a journal; choose the file that an export made.";
    import_breaks_off(line: i64) =
        "This file breaks off or is damaged at line {line}; export it again on the other device.";
    import_no_journal = "This file is not a journal; choose the file that an export made.";
    import_newer(version: i64) = "This file was written by a newer version of the program (format {version}); update \
        this device, then import it again.";
    import_damaged(why: &str) = "This file is damaged ({why}); export it again on the other device.";
    beyond_number = "its number is higher than any device could have reached";
    beyond_depth(most: i64) = "it is nested more than {most} deep";
    beyond_text(most: i64) = "one of its texts is longer than {most} characters";
    beyond_score(most: i64) = "its score is larger than {most} characters";
    beyond_notes(most: i64) = "more than {most} notes or signs stand together in it";

    // What was mended or left out on the way in.
    mended_in_a_bar(bar: &str, what: &str) = "Bar {bar}: {what}";
    mended_in_more(bar: &str, more: Count, what: &str) = [
        One "Bar {bar} and one more place: {what}",
        Other "Bar {bar} and {more} more places: {what}"
    ];
    mended_divisions = "the note lengths disagreed with the note shapes; the shapes were followed";
    mended_rounded = "rounded note lengths were made exact";
    mended_no_length = "a note without a length was given the length of its shape, or a quarter";
    mended_overfull = "there is more in the bar than its meter holds; the bar was made longer";
    mended_loose_tie = "a tie begins nowhere; its note is played again";
    mended_loose_grace = "grace notes that lead to no note are printed and belong to no onset";
    mended_odd_pitch = "a pitch off the keyboard or between the keys was moved to the nearest key";
    mended_no_pitch = "a note whose pitch cannot be read is kept as a rhythm alone";
    mended_no_alter = "an alteration that cannot be read is left out; its note is a natural";
    mended_no_meter = "the meter is missing or unusual; the one before it was kept, 4/4 at the start";
    mended_odd_key = "an unusual key signature is not shown; the one before it was kept";
    mended_far_key = "a key of more than seven sharps or flats is shown with seven";
    mended_two_keys = "staves in different keys are shown in the key of the first";
    mended_inside_bar = "a key or meter that changes inside a bar holds from the next bar on";
    mended_staff_lines = "a staff with another number of lines is shown with five";
    mended_odd_value = "a note value beyond the breve or the 128th is printed as the nearest of them";
    mended_loose_slur = "a slur without a begin or an end is left out";
    mended_loose_tuplet = "a tuplet sign without a begin or an end is left out";
    mended_loose_sign = "a hairpin, pedal or octave sign without a begin or an end is left out";
    mended_loose_ornament = "a trill line or tremolo without a begin or an end is left out";
    mended_crowded = "more stands at one place than can be printed; some of it is played but not shown";
    mended_long_bar = "a very long bar is shown in pieces, with dashed lines between them";
    mended_transposing = "the instrument transposes; its pitches stay as written";
    mended_repeats_once = "repeats are kept as written, once";
    mended_cues = "cue notes are not shown";
    mended_hidden = "notes that are hidden in print are not shown";
    mended_lyrics = "lyrics are not shown";
    mended_other_ornaments = "some ornament signs are not shown";
    mended_other_articulations = "some articulation signs are not shown";
    mended_odd_accidental = "accidentals between the common ones are not shown";
    mended_other_fermatas = "fermatas of other shapes are shown as the usual one";
    mended_noteheads = "noteheads of other shapes are shown round";
    mended_other_pedals = "marks for the middle pedal are not shown";
    mended_other_signs = "some signs over or under the staff are not shown";
    mended_other_tempi = "a tempo mark without beats per minute is not shown";
    mended_abbreviations = "signs that stand for repeated bars or beats are not shown; the bars are filled as in the file";
    mended_chord_symbols = "chord symbols and figures are not shown";
    mended_tablature = "tablature and string numbers are not shown";
}
