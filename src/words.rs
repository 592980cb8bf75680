//! Every word the player reads that more than one place or a decision needs; one file to translate.
//!
//! Sentences on the practice screen have at most twelve words and never scold.

use crate::{
    clock::Moment,
    journal::Theme,
    method::{
        Advice, Believed, Cause, Direction, Done, Grain, Hands, Leaving, Move, Reason, Snippet, Strictness, Sureness,
        Verdict,
    },
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

/// What the step asks, as the coach says it: one line, at most twelve words.
pub fn coach(advice: &Advice, snippet: &Snippet) -> String {
    match (advice.reason, advice.mind) {
        (Reason::Leave(leaving), _) => leave(leaving).into(),
        (Reason::NotSureYet { .. }, Some(cause)) => format!("Mostly {}. Mind that alone.", self::cause(cause)),
        (Reason::HeldOvernight, _) => "It held overnight. On from where you stopped.".into(),
        (Reason::GoesOn, _) => "Rested. On from where you stopped.".into(),
        (Reason::LeftFailing, _) => "Something easier first.".into(),
        (Reason::HeldBack(due), _) => held_back(due).into(),
        (
            Reason::Beginning
            | Reason::NotSureYet { .. }
            | Reason::Secure { .. }
            | Reason::TooHard { .. }
            | Reason::ColdTry { .. }
            | Reason::Chosen
            | Reason::Afresh,
            _,
        ) => led_by(advice, snippet),
    }
}

/// What the move asks.
fn led_by(advice: &Advice, snippet: &Snippet) -> String {
    let at_once = if advice.step.hands == Hands::Both { ", both hands at once" } else { "" };
    let sentence = match (advice.led_by, snippet.direction()) {
        (Move::Begin, Direction::TowardGoal) => "The goal alone, exactly as it should sound.",
        (Move::Begin, Direction::SettingOut) => "The first onset alone, exactly as it should sound.",
        (Move::Again, _) => "Again, the same.",
        (Move::ColdTry, _) => "Once, cold. It shows what the night has kept.",
        (Move::JoinHands, _) => "Secure. Now both hands together.",
        (Move::Lengthen, Direction::TowardGoal) => {
            return format!("Secure. One {} in front{at_once}.", unit(snippet.grain()));
        }
        (Move::Lengthen, Direction::SettingOut) => {
            return format!("Secure. One {} further{at_once}.", unit(snippet.grain()));
        }
        (Move::Narrow, _) => "A smaller task first: only this.",
        (Move::CarryThrough, _) => "Secure. Carry it on toward the goal.",
        (Move::Ease, _) => "A little slower, in the same pulse.",
        (Move::Climb, _) => "Secure. Back up toward the tempo.",
        (Move::Overruled, _) => "As you wish.",
        (Move::Leave, _) => "Time to rest.",
        (Move::StartAfresh, _) => "From the first step, with fresh ears.",
    };
    sentence.into()
}

/// What is put in front at a time.
fn unit(grain: Grain) -> &'static str {
    match grain {
        Grain::Onset => "onset",
        Grain::Beat => "beat",
        Grain::Bar => "bar",
    }
}

/// The step stays as the player wants it, although a move is due.
fn held_back(due: Move) -> &'static str {
    match due {
        Move::JoinHands | Move::Lengthen | Move::CarryThrough | Move::Climb => "Secure. You say when to go on.",
        _ => "Your choice stands. Smaller or slower is one tap away.",
    }
}

/// Why a snippet is left now.
pub fn leave(leaving: Leaving) -> &'static str {
    match leaving {
        Leaving::WholeSecure => "The whole snippet is secure. Well worked.",
        Leaving::MinutesUsed { .. } => "The focused minutes are used. What you did now settles.",
        Leaving::FlatOrFalling { .. } => "No more to gain now. A rest does the next part.",
        Leaving::CausesDiffer { .. } => "Each miss was different: a sign to rest.",
        Leaving::TempoFloor { .. } => "Enough for now. It will be easier rested.",
        Leaving::Stopped => "Stopped. Short of perfect is a good result.",
        Leaving::GoodEnough => "Good enough for today. Your ear decides.",
    }
}

/// What a snippet that is done for today is told to be.
pub fn done(done: Done, name: &str) -> String {
    match done {
        Done::BlocksPlayed => format!("{name} has had its blocks for today."),
        Done::GoodEnough => format!("{name} is settled for today."),
        Done::LeftOut => format!("{name} is left out today. Nothing else changes."),
    }
}

/// Which rule spoke, with its numbers, for whoever asks why.
pub fn rule(reason: Reason) -> String {
    match reason {
        Reason::Beginning => "Nothing has been played yet, so the work begins with the goal alone.".into(),
        Reason::NotSureYet { clean, of } => {
            format!("{clean} of {of} at this step were clean: neither secure nor too hard so far.")
        }
        Reason::Secure { clean, of } => {
            format!("{clean} of {of} at the step before were clean: that is secure enough to go on.")
        }
        Reason::TooHard { missed, of } => {
            format!("{missed} of {of} at the step before were not yet clean: that step was too hard for now.")
        }
        Reason::ColdTry { nights } => format!(
            "{} since the last repetition: the first one now tells what has stayed.",
            count(nights as usize, "night")
        ),
        Reason::HeldOvernight => "The cold try was clean, so the work goes on where it stopped.".into(),
        Reason::GoesOn => "A new block goes on where the last one stopped.".into(),
        Reason::LeftFailing => "The last block stopped at a step that failed, so this one begins easier.".into(),
        Reason::Chosen => "You chose this step. The coach follows and judges it by its own repetitions.".into(),
        Reason::HeldBack(due) => {
            format!("{} would be next. You have taken it back twice, so it waits for another block.", move_name(due))
        }
        Reason::Afresh => "It is learned again from the first step; what was played before is kept.".into(),
        Reason::Leave(Leaving::MinutesUsed { minutes }) => {
            format!("The {} of this block are used.", count(minutes as usize, "minute"))
        }
        Reason::Leave(Leaving::FlatOrFalling { from, to, repetitions }) => format!(
            "Over the last {repetitions} repetitions the estimate went from {} to {}.",
            percent(from),
            percent(to)
        ),
        Reason::Leave(Leaving::CausesDiffer { misses }) => {
            format!("The last {misses} misses each had another cause: attention is spent.")
        }
        Reason::Leave(Leaving::TempoFloor { bpm }) => {
            format!("It is still too hard at {bpm}, the slowest tempo that helps.")
        }
        Reason::Leave(Leaving::WholeSecure) => "Every onset and both hands are secure at the target tempo.".into(),
        Reason::Leave(Leaving::Stopped) => "You ended the block.".into(),
        Reason::Leave(Leaving::GoodEnough) => {
            "You found it good enough for today. That counts as a success, whatever the estimate says.".into()
        }
    }
}

/// The move as a name: "Joining hands".
fn move_name(made: Move) -> &'static str {
    match made {
        Move::Begin => "Beginning",
        Move::Again => "The same again",
        Move::ColdTry => "A cold try",
        Move::JoinHands => "Joining hands",
        Move::Lengthen => "A longer span",
        Move::Narrow => "A smaller task",
        Move::CarryThrough => "Carrying it through",
        Move::Ease => "A slower tempo",
        Move::Climb => "A faster tempo",
        Move::Overruled => "Your own step",
        Move::Leave => "A rest",
        Move::StartAfresh => "Starting afresh",
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
