//! Every word a player reads: what is said of the program's values, by the messages of [`say`].
//!
//! A message has a name and typed arguments. English, in `words/english/`, is part of the program; any other language is
//! one file that is loaded beside it and checked against English by a test. See [`catalogue`].

pub mod catalogue;
mod coach;
pub mod english;
mod errors;
pub mod keeping;
pub mod plural;
pub mod terms;
mod undo;

pub use catalogue::Count;
pub use coach::{coach, leave, rule};
pub use english as say;
pub use undo::{removed, undo};

use crate::{
    agenda::{Outlook, outlook::MORE_MINUTES},
    calendar::Chance,
    clock::Moment,
    journal::{SnippetId, SnippetRecord, Theme},
    method::{
        Asked, Believed, Cause, Direction, Done, Grain, Hands, Place, Reason, Standing, Strictness, Sureness, Tally,
        Verdict, Wanted,
    },
    music::{BeatUnit, Hand, NoteValue, Passage, Tempo},
    pulse::Click,
    workshop::Refusal,
};

/// The languages that are served beside the program, as `words/CODE.txt`; English is part of it.
pub const SERVED: [&str; 0] = [];

/// The first of the languages `wanted` that the program speaks, by its code among those `served`; `None` for English, and
/// where it speaks none of them.
pub fn spoken<'a>(wanted: impl IntoIterator<Item = &'a str>, served: &[&'static str]) -> Option<&'static str> {
    let speaks = |wanted: &str| {
        let language = wanted.split('-').next().unwrap_or(wanted);
        let code = served.iter().copied().find(|code| code.eq_ignore_ascii_case(language));
        (code.is_some() || language.eq_ignore_ascii_case("en")).then_some(code)
    };
    wanted.into_iter().find_map(speaks).flatten()
}

/// Whole sentences in a row.
pub fn sentences(all: impl IntoIterator<Item = String>) -> String {
    all.into_iter().collect::<Vec<_>>().join(" ")
}

/// Labels beside each other.
pub fn labels(all: impl IntoIterator<Item = String>) -> String {
    all.into_iter().collect::<Vec<_>>().join(" · ")
}

/// What the player tapped for it.
pub fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Clean => say::clean(),
        Verdict::NotYet => say::not_yet(),
    }
}

/// What was not yet right.
pub fn cause(cause: Cause) -> &'static str {
    match cause {
        Cause::TooLoud => say::too_loud(),
        Cause::TooSoft => say::too_soft(),
        Cause::Early => say::early(),
        Cause::Late => say::late(),
        Cause::Uneven => say::uneven(),
        Cause::WrongNote => say::wrong_note(),
        Cause::Tense => say::tense(),
    }
}

/// The hands of a step.
pub fn hands(hands: Hands) -> &'static str {
    match hands {
        Hands::Left => say::left_hand(),
        Hands::Right => say::right_hand(),
        Hands::Both => say::both_hands(),
        Hands::Line => say::your_line(),
    }
}

/// The hand of a note.
pub fn hand(hand: Hand) -> &'static str {
    match hand {
        Hand::Left => say::the_left_hand(),
        Hand::Right => say::the_right_hand(),
        Hand::Line => say::a_single_line(),
    }
}

/// The beat in words, by its share of a whole note, which every English speaker reads alike: "dotted 1/4 note".
pub fn beat(unit: BeatUnit) -> String {
    let of = match unit.value {
        NoteValue::Whole => 1,
        NoteValue::Half => 2,
        NoteValue::Quarter => 4,
        NoteValue::Eighth => 8,
        NoteValue::Sixteenth => 16,
    };
    match unit.dots {
        0 => say::note_value(of),
        1 => say::dotted_note_value(of),
        _ => say::twice_dotted_note_value(of),
    }
}

/// "1/4 note = 72".
pub fn tempo(tempo: Tempo) -> String {
    say::tempo_is(&beat(tempo.beat), tempo.bpm.get().into())
}

/// Which way a snippet grows.
pub fn direction(direction: Direction) -> &'static str {
    match direction {
        Direction::TowardGoal => say::toward_the_goal(),
        Direction::SettingOut => say::setting_out(),
    }
}

/// How much a snippet grows at a time.
pub fn grain(grain: Grain) -> &'static str {
    match grain {
        Grain::Onset => say::onset_by_onset(),
        Grain::Beat => say::beat_by_beat(),
        Grain::Bar => say::bar_by_bar(),
    }
}

/// How much certainty the player wants.
pub fn strictness(strictness: Strictness) -> &'static str {
    match strictness {
        Strictness::Lenient => say::move_on_early(),
        Strictness::Usual => say::in_between(),
        Strictness::Strict => say::move_on_late(),
    }
}

/// When the click is heard.
pub fn click(click: Click) -> &'static str {
    match click {
        Click::Always => say::click_always(),
        Click::CountIn => say::click_in_the_count_in(),
        Click::Never => say::click_never(),
    }
}

/// How the page looks.
pub fn theme(theme: Theme) -> &'static str {
    match theme {
        Theme::Device => say::look_as_the_device(),
        Theme::Paper => say::look_paper(),
        Theme::Stage => say::look_stage(),
    }
}

/// Where an onset of a passage is: "bar 12, beat 2 1/2". Beats are counted from one.
pub fn place(passage: &Passage, onset: usize) -> String {
    let Some(onset) = passage.onsets().get(onset) else { return String::new() };
    let bar = passage.bar_at(onset.at);
    let beats = (onset.at - bar.start + bar.missing) / bar.meter.beat().quarters();
    let (whole, rest) = (beats.trunc().to_integer() + 1, beats.fract());
    let beat = if *rest.numer() == 0 { whole.to_string() } else { format!("{whole} {rest}") };
    say::place(&bar.number, &beat)
}

/// Where a snippet breaks most; nothing where no place stands out.
pub fn costliest(places: &[Place], passage: &Passage) -> String {
    let told = |(nth, place): (usize, &Place)| {
        let (at, hands) = (self::place(passage, place.heard_at()), hands(place.hands));
        if nth == 0 { say::breaks_most(&at, hands) } else { say::and_breaks(&at, hands) }
    };
    sentences(places.iter().enumerate().map(told))
}

/// What is expected of a piece on its date; `name` is that of a snippet.
pub fn outlook(outlook: &Outlook, name: impl Fn(SnippetId) -> String) -> String {
    let share = |chance: Chance| percent(chance.get());
    let (from, to, of) = outlook.clean;
    let several = (of > 1).then(|| say::so_many_clean(from as i64, to as i64, of.into()));
    let back = outlook.holds_back.map(|(id, without)| say::holds_back(&name(id), &share(without)));
    let not_begun = (outlook.not_begun > 0).then(|| say::not_begun_yet(outlook.not_begun.into()));
    let more = say::with_more_minutes(MORE_MINUTES.into(), &share(outlook.with_more_minutes));
    let first = say::all_clean_on_the_date(&share(outlook.whole), outlook.minutes_a_day.into());
    let all = [Some(first), several, back, Some(more), not_begun, Some(say::foretold().into())];
    sentences(all.into_iter().flatten())
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

/// What a snippet that is done for today is told to be.
pub fn done(done: Done, name: &str) -> String {
    match done {
        Done::BlocksPlayed => say::has_had_its_blocks(name),
        Done::GoodEnough => say::is_settled(name),
        Done::LeftOut => say::is_left_out(name),
    }
}

/// How a snippet stands that may be practised now: `days_since` it was played last, and what a block that began now
/// would `begin` with, where that is to be told.
pub fn standing(standing: Standing, days_since: Option<i32>, begin: Option<Reason>, now: Moment) -> String {
    let last_played = match (standing, days_since) {
        (Standing::Practising { ends, .. }, _) => return say::under_way(&countdown(ends.ms_since(now))),
        (Standing::Ready { blocks_today: 1.. }, _) => return say::another_block().into(),
        (_, None) => return say::new().into(),
        (_, Some(..0)) => say::played_before().into(),
        (_, Some(0)) => say::played_today().into(),
        (_, Some(days)) => say::last_played(Count::from(days.unsigned_abs())),
    };
    let cold = matches!(begin, Some(Reason::ColdTry { .. })).then(|| say::a_cold_try_first().to_string());
    sentences([last_played].into_iter().chain(cold))
}

/// How much of a snippet of so many `onsets` has been played clean, in which hands, and what keeps failing.
pub fn how_far(tally: &Tally, onsets: usize) -> String {
    let reached = match tally.furthest_clean {
        Some(step) => vec![say::clean_of_onsets(step.span.count() as i64, onsets.into()), hands(step.hands).into()],
        None => vec![say::nothing_clean_yet().into()],
    };
    labels(reached.into_iter().chain(tally.most_named.map(|named| say::most_often(cause(named)))))
}

/// "12 of 15 clean".
pub fn share_clean(tally: &Tally) -> String {
    match tally.repetitions {
        0 => say::not_begun().into(),
        all => say::clean_of_all(tally.clean.into(), all.into()),
    }
}

/// What would change the coach's mind, from how many repetitions in a row with each verdict would.
pub fn change_of_mind(reason: Reason, until_a_move: impl Fn(Verdict) -> Option<u32>) -> String {
    match reason {
        Reason::Leave(_) => return say::a_rest_changes_its_mind().into(),
        Reason::HeldBack(_) => return say::you_change_its_mind().into(),
        _ => {}
    }
    let number = |verdict| until_a_move(verdict).map(Count::from);
    let clean = number(Verdict::Clean).map(say::clean_ones_to_go_on);
    let missed = number(Verdict::NotYet).map(say::misses_to_go_back);
    sentences([
        clean.unwrap_or_else(|| say::many_clean_ones_to_go_on().into()),
        missed.unwrap_or_else(|| say::many_misses_to_go_back().into()),
    ])
}

/// What is believed of the step, with the band.
pub fn estimate(sureness: &Sureness) -> String {
    let now = sureness.now;
    if !now.tells() {
        return say::not_sure_yet().into();
    }
    say::estimate(&percent(now.mean), &percent(now.low), &percent(now.high))
}

/// What is asked of the step, and how far the whole is from that.
pub fn asked(sureness: &Sureness) -> String {
    match sureness.wanted {
        Wanted::Well { level, fewest_clean } => say::goes_well_means(&percent(level), fewest_clean.into()),
        Wanted::Secure { asked: Asked { level, certainty, fewest_clean }, stands } => {
            say::secure_means(&percent(level), &percent(certainty), fewest_clean.into(), &percent(stands))
        }
    }
}

/// How the block went, for whoever cannot see the chart.
pub fn course(block: &[Believed]) -> String {
    let clean = block.iter().filter(|one| one.verdict == Verdict::Clean).count() as i64;
    let changes = block.windows(2).filter(|pair| pair[0].step != pair[1].step).count();
    match block.last() {
        Some(last) => sentences([
            say::played_in_block(block.len().into(), clean),
            say::changed_in_block(changes.into()),
            if last.chance.tells() {
                say::estimate_after_block(&percent(last.chance.mean))
            } else {
                say::not_sure_yet().into()
            },
        ]),
        None => say::nothing_played_in_block().into(),
    }
}

/// 0.874 as "87 %", never split at the end of a line.
pub fn percent(share: f64) -> String {
    say::percent((100.0 * share).round() as i64)
}

/// Why a score is not available, as a sentence.
pub fn refusal(why: Refusal) -> String {
    match why {
        Refusal::Unread(why) => why.to_string(),
        Refusal::NotKept(why) => why.to_string(),
        Refusal::NotTakenIn(why) => why.to_string(),
        Refusal::NotWritten => say::no_file_made().into(),
        Refusal::Garbled => say::worker_stopped().into(),
    }
}

/// What is said of a snippet of which a newer version noted more than this one can show.
pub fn noted_later(record: &SnippetRecord) -> Option<String> {
    let entries = record.written_later();
    (entries > 0).then(|| say::noted_later(entries.into()))
}
