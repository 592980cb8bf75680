//! Every word the player reads that more than one place or a decision needs; one file to translate.
//!
//! Sentences on the practice screen have at most twelve words and never scold.

mod coach;
pub mod help;
pub mod terms;
mod undo;

pub use coach::{coach, leave, rule};
pub use undo::{removed, undo};

use crate::{
    clock::Moment,
    journal::Theme,
    method::{Believed, Cause, Direction, Done, Grain, Hands, Reason, Standing, Strictness, Sureness, Tally, Verdict},
    music::{BeatUnit, Hand, NoteValue, Passage, Tempo},
    pulse::Click,
    workshop::Refusal,
};

pub fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Clean => "Clean",
        Verdict::NotYet => "Not yet",
    }
}

pub fn cause(cause: Cause) -> &'static str {
    match cause {
        Cause::TooLoud => "too loud",
        Cause::TooSoft => "too soft",
        Cause::Early => "early",
        Cause::Late => "late",
        Cause::Uneven => "uneven",
        Cause::WrongNote => "wrong note",
        Cause::Tense => "tense",
    }
}

pub fn hands(hands: Hands) -> &'static str {
    match hands {
        Hands::Left => "Left hand",
        Hands::Right => "Right hand",
        Hands::Both => "Both hands",
        Hands::Line => "Your line",
    }
}

pub fn hand(hand: Hand) -> &'static str {
    match hand {
        Hand::Left => "left hand",
        Hand::Right => "right hand",
        Hand::Line => "single line",
    }
}

/// The beat as a word: "dotted quarter".
pub fn beat(unit: BeatUnit) -> String {
    let value = match unit.value {
        NoteValue::Whole => "whole",
        NoteValue::Half => "half",
        NoteValue::Quarter => "quarter",
        NoteValue::Eighth => "eighth",
        NoteValue::Sixteenth => "sixteenth",
    };
    match unit.dots {
        0 => value.to_string(),
        1 => format!("dotted {value}"),
        _ => format!("double-dotted {value}"),
    }
}

/// "quarter = 72".
pub fn tempo(tempo: Tempo) -> String {
    format!("{} = {}", beat(tempo.beat), tempo.bpm)
}

pub fn direction(direction: Direction) -> &'static str {
    match direction {
        Direction::TowardGoal => "toward the goal",
        Direction::SettingOut => "setting out from the goal",
    }
}

pub fn grain(grain: Grain) -> &'static str {
    match grain {
        Grain::Onset => "onset by onset",
        Grain::Beat => "beat by beat",
        Grain::Bar => "bar by bar",
    }
}

pub fn strictness(strictness: Strictness) -> &'static str {
    match strictness {
        Strictness::Lenient => "Move on early",
        Strictness::Usual => "In between",
        Strictness::Strict => "Move on late",
    }
}

pub fn click(click: Click) -> &'static str {
    match click {
        Click::Always => "always",
        Click::CountIn => "in the count-in only",
        Click::Never => "never",
    }
}

pub fn theme(theme: Theme) -> &'static str {
    match theme {
        Theme::Device => "as the device",
        Theme::Paper => "paper",
        Theme::Stage => "stage",
    }
}

/// Where an onset of a passage is: "bar 12, beat 2 1/2". Beats are counted from one.
pub fn place(passage: &Passage, onset: usize) -> String {
    let Some(onset) = passage.onsets().get(onset) else { return String::new() };
    let bar = passage.bar_at(onset.at);
    let beats = (onset.at - bar.start + bar.missing) / bar.meter.beat().quarters();
    let (whole, rest) = (beats.trunc().to_integer() + 1, beats.fract());
    let rest = if *rest.numer() == 0 { String::new() } else { format!(" {rest}") };
    format!("bar {}, beat {whole}{rest}", bar.number)
}

/// Minutes and seconds: "4:05".
pub fn countdown(ms: i64) -> String {
    let seconds = (ms.max(0) + 999) / 1000;
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

/// The time on the wall: "18:05".
pub fn wall(moment: Moment) -> String {
    let (hour, minute) = moment.hour_minute();
    format!("{hour}:{minute:02}")
}

/// "1 onset", "3 onsets".
pub fn count(number: usize, one: &str) -> String {
    if number == 1 { format!("1 {one}") } else { format!("{number} {one}s") }
}

/// What a snippet that is done for today is told to be.
pub fn done(done: Done, name: &str) -> String {
    match done {
        Done::BlocksPlayed => format!("{name} has had its blocks for today."),
        Done::GoodEnough => format!("{name} is settled for today."),
        Done::LeftOut => format!("{name} is left out today. Nothing else changes."),
    }
}

/// How a snippet stands that may be practised now: `days_since` it was played last, and what a block that began now
/// would `begin` with.
pub fn standing(standing: Standing, days_since: Option<i32>, begin: Reason) -> String {
    let last_played = match (standing, days_since) {
        (Standing::Practising { .. }, _) => return "A block is under way.".into(),
        (Standing::Ready { blocks_today: 1.. }, _) => return "Rested: another block today.".into(),
        (_, None) => return "New.".into(),
        (_, Some(..0)) => "Played before".into(),
        (_, Some(0)) => "Played today".into(),
        (_, Some(1)) => "Last played yesterday".into(),
        (_, Some(days)) => format!("Last played {days} days ago"),
    };
    let cold = if matches!(begin, Reason::ColdTry { .. }) { ": a cold try first" } else { "" };
    format!("{last_played}{cold}.")
}

/// How much of a snippet of so many `onsets` has been played clean, and what keeps failing.
pub fn how_far(tally: &Tally, onsets: usize) -> String {
    let reached = match tally.furthest_clean {
        Some(step) => format!(
            "{} of {} clean, {}",
            step.span.count(),
            count(onsets, "onset"),
            hands(step.hands).to_ascii_lowercase()
        ),
        None => "nothing clean yet".into(),
    };
    match tally.most_named {
        Some(cause) => format!("{reached} · most often {}", self::cause(cause)),
        None => reached,
    }
}

/// "12 of 15 clean".
pub fn share_clean(tally: &Tally) -> String {
    match tally.repetitions {
        0 => "not begun".into(),
        all => format!("{} of {all} clean", tally.clean),
    }
}

/// What would change the coach's mind, from how many repetitions in a row with each verdict would.
pub fn change_of_mind(reason: Reason, until_a_move: impl Fn(Verdict) -> Option<u32>) -> String {
    match reason {
        Reason::Leave(_) => return "What would change its mind: a rest. The next block decides anew.".into(),
        Reason::HeldBack(_) => {
            return "What would change its mind: another step of your choice, or a new block.".into();
        }
        _ => {}
    }
    let needed = |verdict| match until_a_move(verdict) {
        Some(1) => "one more".to_string(),
        Some(more) => format!("{more} more in a row"),
        None => "many more".to_string(),
    };
    format!(
        "What would change its mind: {} clean, to go on; {} not yet, to make the task smaller or stop.",
        needed(Verdict::Clean),
        needed(Verdict::NotYet)
    )
}

/// What is believed of the step, with the band.
pub fn estimate(sureness: &Sureness) -> String {
    format!(
        "A repetition is believed to be clean {} of the time, most likely {} to {}.",
        percent(sureness.now.mean),
        percent(sureness.now.low),
        percent(sureness.now.high),
    )
}

/// The repetition since which the step has been learned.
pub fn learned(since: usize) -> String {
    format!("Since repetition {since} of this step it is clean more often than not: that is 95 % sure.")
}

/// What is asked of the step, and how far it is from that.
pub fn asked(sureness: &Sureness) -> String {
    format!(
        "Secure means: more than {} clean, with {} certainty, after {} clean at least. It stands at {}.",
        percent(sureness.asked.level),
        percent(sureness.asked.certainty),
        sureness.asked.fewest_clean,
        percent(sureness.chance_secure),
    )
}

/// How the block went, for whoever cannot see the chart.
pub fn course(block: &[Believed]) -> String {
    let clean = block.iter().filter(|one| one.verdict == Verdict::Clean).count();
    let changes = block.windows(2).filter(|pair| pair[0].step != pair[1].step).count();
    let (played, changed) = (count(block.len(), "repetition"), count(changes, "change"));
    match block.last() {
        Some(last) => format!(
            "{played}, {clean} clean, {changed} of step. After the last one the estimate stands at {}.",
            percent(last.chance.mean)
        ),
        None => NOTHING_PLAYED.into(),
    }
}

/// Where a block has no repetition to show.
pub const NOTHING_PLAYED: &str = "Nothing has been played in this block yet.";

/// Said beside starting afresh.
pub const AFRESH: &str = "From its first step again. Its history is kept.";

/// Said where starting afresh may help.
pub const CONSIDER_AFRESH: &str = "Missed cold for days. Starting afresh may be quicker.";

/// Said when the minutes are used while a repetition is being played.
pub const JUDGE_THE_LAST: &str = "judge this one, then rest";

/// 0.874 as "87 %", never parted at the end of a line.
pub fn percent(share: f64) -> String {
    format!("{}\u{a0}%", (100.0 * share).round() as i64)
}

/// The caution that stands wherever practising may go too far.
pub const PAIN: &str = "Pain, numbness or tingling means stop. If it comes back, see a licensed clinician.";

/// The caution about loudness; limits: NIOSH criteria document 98-126, 1998.
pub const LOUDNESS: &str = "Keep the click as soft as you can still hear it. 85 dBA over eight hours is the \
    recommended limit at work; headphones ask for less.";

/// Said where the browser starts no worker.
pub const NO_WORKER: &str = "This browser lets no page work in the background, which reading a score needs. Open the \
    page in another browser, or tap the rhythm in.";

/// Said where a worker could not be loaded or broke down.
pub const WORKER_STOPPED: &str = "What reads scores has stopped. Connect to the network once if this device has been \
    offline since the first visit, reload the page and try again.";

/// Why a score cannot be had, as a sentence.
pub fn refusal(why: Refusal) -> String {
    match why {
        Refusal::Unread(why) => sentence(&why.to_string()),
        Refusal::NotKept(why) => sentence(&why.to_string()),
        Refusal::Garbled => WORKER_STOPPED.into(),
    }
}

/// A sentence from what an error says.
fn sentence(said: &str) -> String {
    let mut letters = said.chars();
    let first = letters.next().map(|letter| letter.to_ascii_uppercase());
    first.into_iter().chain(letters).chain(['.']).collect()
}
