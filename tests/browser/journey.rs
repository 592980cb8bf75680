//! The whole journey: a real score comes in, bars and goal are chosen, and the snippet is practised
//! to its rest with the coach of the library beside the page.

use crate::{
    harness::{Chromium, Site, Viewport},
    stand::at_the_stand,
};
use std::{fs, path::Path, rc::Rc, time::Duration};
use tailfirst::{
    clock::Moment,
    method::{Coach, Hands, Happening, HappeningKind, Move, Settings, Snippet, Verdict},
    music::musicxml,
    pulse::Round,
};

/// Clara Schumann's Polonaise op. 1 no. 1; see tests/scores/README.md for its source and licence.
fn score() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/scores/polonaise_op1n1.mxl")
}

/// Bars 24 and 25 as the page cuts them, with the goal on the first beat of bar 25.
fn snippet() -> Snippet {
    let part = &musicxml::read(&fs::read(score()).expect("a file")).expect("a score").score.parts[0];
    let passage = part.cut(23..=24, &part.usual_hands()).expect("a passage");
    let goal = passage.onsets().iter().position(|onset| onset.at == passage.bars()[1].start).expect("a downbeat");
    let tempo = part.bars[23].tempo.expect("a tempo");
    Snippet::new("Bars 24–25".into(), passage, goal, tempo).expect("a snippet")
}

async fn bring_in(browser: &Chromium, snippet: &Snippet) {
    browser.visit("pieces").await;
    browser.choose_file(&score()).await;
    browser.tap("Keep it and choose bars").await;
    browser.fill("First bar", "24").await;
    browser.fill("Last bar", "25").await;
    browser.fill("Goal", &format!("Onset {}: bar 25, beat 1", snippet.goal() + 1)).await;
    browser.tap("Add the snippet").await;
    browser.wait_for_text(snippet.name()).await;
}

/// The player's plan: on until four onsets or more are played with both hands, then too hard until the task
/// has been narrowed to fewer onsets, then clean until it is carried through.
#[derive(Default)]
struct Plan {
    narrowed: bool,
    /// How many onsets were too hard.
    stumbled_over: Option<usize>,
}

impl Plan {
    fn next(&mut self, coach: &Coach, now: Moment) -> Verdict {
        let step = coach.advice(now).step;
        let onsets = step.span.count();
        if onsets >= 4 && step.hands == Hands::Both {
            self.stumbled_over.get_or_insert(onsets);
        }
        self.narrowed |= self.stumbled_over.is_some_and(|stumbled_over| onsets < stumbled_over);
        if self.stumbled_over.is_some() && !self.narrowed { Verdict::NotYet } else { Verdict::Clean }
    }
}

async fn plays_the_whole_journey(viewport: Viewport) {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.set_viewport(viewport).await;
    let snippet = Rc::new(snippet());
    bring_in(&browser, &snippet).await;
    browser.open_row(snippet.name()).await;
    browser.begin().await;

    let now = || Moment::new(0, 0);
    let mut coach = Coach::new(Rc::clone(&snippet));
    coach.follow(&Happening { at: now(), kind: HappeningKind::BlockBegan(Settings::default()) });
    let (mut plan, mut moves, mut reloaded) = (Plan::default(), Vec::new(), false);
    let mut played = 0;
    while !moves.contains(&Move::CarryThrough) {
        let step = coach.advice(now()).step;
        shows(&browser, &snippet, &coach, now()).await;
        if played == 5 && !reloaded {
            reloaded = true;
            browser.refresh().await.expect("a reload in the middle of the block");
            browser.begin().await;
            shows(&browser, &snippet, &coach, now()).await;
        }
        let verdict = plan.next(&coach, now());
        let shortest = Round::new(&snippet, step).shortest_seconds();
        browser.judge_after(verdict, Duration::from_secs_f64(shortest + 0.1)).await;
        coach.follow(&Happening {
            at: now(),
            kind: HappeningKind::Played { step, verdict, cause: None, broke_at: None },
        });
        moves.push(coach.advice(now()).led_by);
        played += 1;
        assert!(played < 80, "the plan never came to carrying through: {moves:?}");
    }
    for expected in [Move::JoinHands, Move::Lengthen, Move::Narrow, Move::CarryThrough] {
        assert!(moves.contains(&expected), "{expected:?} never came: {moves:?}");
    }
    browser.tap("Stop").await;
    browser.wait_for_text("rests until").await;
    browser.refresh().await.expect("a reload in the rest");
    browser.wait_for_text("rests until").await;
    browser.visit("progress").await;
    browser.wait_for_text(&format!("of {played} clean")).await;
    browser.finish().await;
}

/// The page shows what the library's coach advises.
async fn shows(browser: &Chromium, snippet: &Snippet, coach: &Coach, now: Moment) {
    let step = coach.advice(now).step;
    let drawn = format!("Onsets {} to {} of {}", step.span.first() + 1, step.span.last() + 1, snippet.name());
    browser.wait_for(&format!(".staff svg[aria-label='{drawn}']")).await;
    let hands = match step.hands {
        Hands::Left => "Left hand",
        Hands::Right => "Right hand",
        Hands::Both => "Both hands",
        Hands::Line => "Your line",
    };
    assert_eq!(browser.text(".what strong").await, hands);
    let tempo = browser.text(".what span").await;
    assert!(tempo.ends_with(&format!("= {}", step.bpm)), "{tempo}");
}

#[tokio::test]
async fn the_whole_journey_on_a_tablet_laid_across() {
    plays_the_whole_journey(Viewport::LANDSCAPE).await;
}

#[tokio::test]
async fn the_whole_journey_on_an_upright_tablet() {
    plays_the_whole_journey(Viewport::PORTRAIT).await;
}

#[tokio::test]
async fn not_yet_offers_causes_that_never_block_and_undo_takes_the_verdict_back() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::NotYet).await;
    browser.tap("too loud").await;
    browser.wait_for(".cause[aria-pressed=true]").await;
    browser.judge(Verdict::NotYet).await;
    browser.tap("too loud").await;
    browser.wait_for_text("Mostly here: too loud. Mind that alone.").await;
    browser.tap("Undo not yet").await;
    browser.tap("Undo not yet").await;
    browser.wait_for_text("The goal alone, exactly as it should sound.").await;
    browser.tap("Stop").await;
    browser.visit("progress").await;
    browser.wait_for_text("not begun").await;
    browser.finish().await;
}

#[tokio::test]
async fn a_second_knock_that_comes_too_soon_is_a_bounce() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.sit_down_to_the_first_snippet().await;
    tokio::time::sleep(Duration::from_millis(500)).await;
    let knocks = "const clean = document.querySelector('.target.clean');
        for (let knock = 0; knock < 3; knock += 1) clean.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true }));";
    browser.run(knocks).await;
    browser.tap("Stop").await;
    browser.visit("progress").await;
    browser.wait_for_text("1 of 1 clean").await;
    browser.finish().await;
}

#[tokio::test]
async fn the_player_overrules_and_asks_why() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.sit_down_to_the_first_snippet().await;
    browser.tap("Another step").await;
    browser.tap("Longer").await;
    browser.tap("Close").await;
    browser.wait_for_text("As you wish.").await;
    browser.tap("Why?").await;
    browser.wait_for_text("You chose this step.").await;
    browser.wait_for_text("Goes well means: expected to be clean 75\u{a0}% of the time").await;
    browser.wait_for_text("more clean ones in a row lead on.").await;
    browser.finish().await;
}
