//! A whole part to scroll through, laid out step by step.

use tailfirst::{
    music::{Score, musicxml, study},
    notation::engraving::Scroll,
};

/// The study so many times over, as a score of its own.
fn long(times: usize) -> Score {
    let mut score = study::score();
    let part = &mut score.parts[0];
    part.bars = part.bars.iter().cycle().take(times * part.bars.len()).cloned().collect();
    score
}

#[test]
fn a_long_part_is_laid_out_step_by_step_without_a_gap() {
    let score = long(12);
    let part = &score.parts[0];
    let mut scroll = Scroll::begin(1_000.0, 8.0);
    let (mut steps, mut laid_out) = (0, 0);
    while !scroll.is_whole(part) {
        scroll.go_on(part);
        let bars = scroll.systems.last().expect("systems").bars.end;
        assert!(bars > laid_out && bars - laid_out <= 60, "{} bars in one step", bars - laid_out);
        (steps, laid_out) = (steps + 1, bars);
    }
    assert!(steps > 5, "in {steps} steps");
    assert_eq!((scroll.systems[0].bars.start, laid_out), (0, part.bars.len()));
    for pair in scroll.systems.windows(2) {
        assert_eq!(pair[0].bars.end, pair[1].bars.start);
        assert!((pair[0].top + pair[0].height - pair[1].top).abs() < 0.01);
    }
    assert!(scroll == Scroll::new(part, 1_000.0, 8.0));
}

#[test]
fn a_bar_of_three_thousand_notes_becomes_systems_that_can_be_read() {
    let note = "<note><pitch><step>C</step><octave>5</octave></pitch><duration>1</duration><type>16th</type></note>";
    let attributes = "<attributes><divisions>4</divisions></attributes>";
    let text = format!(
        "<score-partwise><part-list/><part id='P1'><measure number='1'>{attributes}{}</measure></part></score-partwise>",
        note.repeat(3_000)
    );
    let part = &musicxml::read(text.as_bytes()).expect("a score").score.parts[0];
    let scroll = Scroll::new(part, 1_000.0, 8.0);
    let shapes = (0..scroll.systems.len()).map(|system| scroll.draw(part, system, None).drawing.shapes.len());
    assert!(scroll.systems.len() > 20 && shapes.max().is_some_and(|most| most < 1_000));
}
