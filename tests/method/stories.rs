//! What the coach says, told as stories: what the player does, the step that is asked for then, and the sentence.
//!
//! One line for each thing that happens: `the player's doing | the step | the sentence`. Onsets are counted from one, a
//! step is its onsets, its hands and its tempo, and `clean …` or `not yet …` is played until the coach asks for
//! something else than the same again.

use crate::{
    branches::{LEAVINGS, MOVES, REASONS, number_of_leaving, number_of_move, number_of_reason},
    happenings::{Lesson, snippet},
};
use std::{collections::BTreeSet, rc::Rc};
use tailfirst::{
    method::{Advice, Cause, Direction, Hands, HappeningKind, Move, Reason, Settings, Snippet, Step, Verdict},
    words,
};

struct Story {
    name: &'static str,
    /// One letter an onset: `R`ight, `L`eft or `B`oth.
    onsets: &'static str,
    /// Counted from one.
    goal: usize,
    direction: Direction,
    block_minutes: u32,
    told: &'static str,
}

const TOWARD: Story =
    Story { name: "", onsets: "BBBB", goal: 4, direction: Direction::TowardGoal, block_minutes: 30, told: "" };
const SETTING_OUT: Story = Story { goal: 1, direction: Direction::SettingOut, ..TOWARD };

const STORIES: &[Story] = &[
    Story {
        name: "Four onsets that go easily, from the goal to the whole, and the next morning",
        told: "
            begins      | 4 right 100   | The goal alone, exactly as it should sound.
            clean       | 4 both 100    | It goes well. Now both hands together.
            clean       | 3-4 both 100  | It goes well. One onset in front. Both hands at once.
            clean       | 3-4 both 100  | Again, the same.
            clean       | 1-4 both 100  | It goes well. 2 onsets in front. Both hands at once.
            clean       | 1-4 both 100  | Again, the same.
            clean …     | 1-4 both 100  | The whole snippet is secure. Well done.
            next day    | 1-4 both 100  | Once, cold. It shows what the night has kept.
            clean       | 1-4 both 100  | It held overnight. Enough for its first turn today.
            3 days on   | 1-4 both 100  | Once, cold. It shows what 3 nights have kept.
            clean       | 1-4 both 100  | It held for 3 nights. Enough for its first turn today.
            next day    | 1-4 both 100  | Once, cold. It shows what the night has kept.
            not yet     | 1-4 both 100  | Again, the same.
        ",
        ..TOWARD
    },
    Story {
        name: "The same, setting out from the first onset: what is added stands behind",
        told: "
            begins      | 1 right 100   | The goal alone, exactly as it should sound.
            clean …     | 1 both 100    | It goes well. Now both hands together.
            clean …     | 1-2 both 100  | It goes well. One onset behind. Both hands at once.
            not yet     | 1-2 both 100  | Again, the same.
            clean …     | 1-3 right 100 | It goes well. One onset behind. One hand first.
        ",
        ..SETTING_OUT
    },
    Story {
        name: "A goal in the middle: once the front is reached, the rest is added behind",
        onsets: "RRR",
        goal: 2,
        told: "
            begins      | 2 right 100   | The goal alone, exactly as it should sound.
            clean …     | 1-2 right 100 | It goes well. One onset in front.
            clean …     | 1-3 right 100 | It goes well. One onset behind.
            clean …     | 1-3 right 100 | The whole snippet is secure. Well done.
        ",
        ..TOWARD
    },
    Story {
        name: "Too hard together: each hand alone, then a smaller task, then slower, and back again",
        onsets: "RBLB",
        told: "
            begins      | 4 right 100   | The goal alone, exactly as it should sound.
            clean …     | 4 both 100    | It goes well. Now both hands together.
            clean …     | 3-4 both 100  | It goes well. One onset in front. Both hands at once.
            clean …     | 2-4 both 100  | It goes well. One onset in front. Both hands at once.
            not yet …   | 2 both 100    | A smaller task first: only 1 onset.
            clean …     | 2-3 both 100  | It goes well. One onset behind. Nearer to the goal.
            not yet …   | 2-3 left 100  | The left hand alone first.
            clean …     | 2-3 both 100  | It goes well. Now both hands together.
            not yet …   | 2-3 right 100 | The right hand alone first.
            clean …     | 2-3 both 100  | It goes well. Now both hands together.
            not yet …   | 2-3 both 84   | A little slower, all else the same.
            clean …     | 2-3 both 92   | It goes well. A little faster.
            clean …     | 2-3 both 100  | It goes well. A little faster.
        ",
        ..TOWARD
    },
    Story {
        name: "A smaller task far from the goal is carried toward it, onset by onset",
        onsets: "RRRRR",
        goal: 5,
        told: "
            begins      | 5 right 100   | The goal alone, exactly as it should sound.
            chooses 1-5 right 100 | 1-5 right 100 | As you wish.
            not yet …   | 1-2 right 100 | A smaller task first: only 2 onsets.
            clean …     | 1-3 right 100 | It goes well. One onset behind. Nearer to the goal.
            clean …     | 1-4 right 100 | It goes well. One onset behind. Nearer to the goal.
            clean …     | 1-5 right 100 | It goes well. On to the goal.
        ",
        ..TOWARD
    },
    Story {
        name: "The cause to mind is the newest, of this step",
        told: "
            begins      | 4 right 100   | The goal alone, exactly as it should sound.
            chooses 1-4 both 100 | 1-4 both 100 | As you wish.
            clean       | 1-4 both 100  | Again, the same.
            late        | 1-4 both 100  | Again, the same.
            late        | 1 both 100    | A smaller task first: only 1 onset.
            chooses 4 right 100 | 4 right 100 | As you wish.
            late        | 4 right 100   | Again, the same.
            late        | 4 right 100   | Mostly here: late. Mind that alone.
            early       | 4 right 100   | Again, the same.
        ",
        ..TOWARD
    },
    Story {
        name: "A cause of the step before says nothing about this one",
        told: "
            begins      | 4 right 100   | The goal alone, exactly as it should sound.
            late        | 4 right 100   | Again, the same.
            late        | 4 right 100   | Mostly here: late. Mind that alone.
            chooses 4 left 100 | 4 left 100 | As you wish.
            early       | 4 left 100    | Again, the same.
        ",
        ..TOWARD
    },
    Story {
        name: "Each miss is another one",
        told: "
            begins      | 4 right 100   | The goal alone, exactly as it should sound.
            late        | 4 right 100   | Again, the same.
            too loud    | 4 right 100   | Again, the same.
            clean       | 4 right 100   | Again, the same.
            tense       | 4 right 100   | Again, the same.
            early       | 4 right 100   | Each miss was different: a sign to rest.
            20 minutes on | 4 right 84    | As last time, a little slower.
        ",
        ..TOWARD
    },
    Story {
        name: "One miss on a single note does not make it slower day after day",
        told: "
            begins      | 4 right 100   | The goal alone, exactly as it should sound.
            not yet     | 4 right 100   | Again, the same.
            stops       | 4 right 100   | Stopped. Short of perfect is a good result.
            next day    | 4 right 100   | A new day. On from where you stopped.
            not yet     | 4 right 100   | Again, the same.
            stops       | 4 right 100   | Stopped. Short of perfect is a good result.
            next day    | 4 right 100   | A new day. On from where you stopped.
        ",
        ..TOWARD
    },
    Story {
        name: "A block left failing: slower where nothing went well yet, else what did",
        told: "
            begins      | 4 right 100   | The goal alone, exactly as it should sound.
            clean …     | 4 both 100    | It goes well. Now both hands together.
            clean …     | 3-4 both 100  | It goes well. One onset in front. Both hands at once.
            late        | 3-4 both 100  | Again, the same.
            too loud    | 3 both 100    | A smaller task first: only 1 onset.
            tense       | 3 both 100    | Again, the same.
            early       | 3 both 100    | Each miss was different: a sign to rest.
            20 minutes on | 4 both 100  | First, what went well before.
        ",
        ..TOWARD
    },
    Story {
        name: "What held overnight leads on from where the work stopped",
        told: "
            begins      | 4 right 100   | The goal alone, exactly as it should sound.
            clean …     | 4 both 100    | It goes well. Now both hands together.
            clean …     | 3-4 both 100  | It goes well. One onset in front. Both hands at once.
            stops       | 3-4 both 100  | Stopped. Short of perfect is a good result.
            20 minutes on | 3-4 both 100 | On from where you stopped.
            stops       | 3-4 both 100  | Stopped. Short of perfect is a good result.
            next day    | 4 both 100    | Once, cold. It shows what the night has kept.
            clean       | 3-4 both 100  | It held overnight. On from where you stopped.
            2 days on   | 4 both 100    | Once, cold. It shows what 2 nights have kept.
            2 days on   | 4 both 100    | Once, cold. It shows what 4 nights have kept.
            clean       | 3-4 both 100  | It held for 4 nights. On from where you stopped.
        ",
        ..TOWARD
    },
    Story {
        name: "The slowest tempo is a place to stop, not to dig on",
        onsets: "R",
        goal: 1,
        told: "
            begins      | 1 right 100   | The goal alone, exactly as it should sound.
            not yet …   | 1 right 84    | A little slower, all else the same.
            not yet …   | 1 right 69    | A little slower, all else the same.
            not yet …   | 1 right 58    | A little slower, all else the same.
            not yet …   | 1 right 50    | A little slower, all else the same.
            not yet …   | 1 right 50    | Enough for now. Try it again after a rest.
        ",
        ..TOWARD
    },
    Story {
        name: "The player's own word counts",
        told: "
            begins      | 4 right 100   | The goal alone, exactly as it should sound.
            clean …     | 4 both 100    | It goes well. Now both hands together.
            chooses 4 right 100 | 4 right 100 | As you wish.
            clean       | 4 right 100   | Again, the same.
            clean       | 4 right 100   | Again, the same.
            clean       | 4 both 100    | It goes well. Now both hands together.
            chooses 4 right 100 | 4 right 100 | As you wish.
            clean       | 4 right 100   | Again, the same.
            clean       | 4 right 100   | Again, the same.
            clean       | 4 right 100   | It goes well. You say when to go on.
            starts afresh | 4 right 100 | From the first step, with fresh ears.
            not yet     | 4 right 100   | Again, the same.
            good enough | 4 right 100   | Good enough for today. Your ear decides.
        ",
        ..TOWARD
    },
    Story {
        name: "The minutes are used, whatever is going on",
        block_minutes: 5,
        told: "
            begins      | 4 right 100   | The goal alone, exactly as it should sound.
            not yet     | 4 right 100   | Again, the same.
            6 minutes pass | 4 right 100 | The focused minutes are used. What you did now settles.
        ",
        ..TOWARD
    },
    Story {
        name: "Half clean and half missed, and nothing smaller is wanted: no gain",
        onsets: "RR",
        goal: 2,
        told: "
            begins      | 2 right 100   | The goal alone, exactly as it should sound.
            chooses 1-2 right 100 | 1-2 right 100 | As you wish.
            not yet …   | 1 right 100   | A smaller task first: only 1 onset.
            chooses 1-2 right 100 | 1-2 right 100 | As you wish.
            not yet …   | 1 right 100   | A smaller task first: only 1 onset.
            chooses 1-2 right 100 | 1-2 right 100 | As you wish.
            alternates … | 1-2 right 100 | No more to gain now. A rest does the next part.
        ",
        ..TOWARD
    },
    Story {
        name: "What was mended is taken up again at the tempo at which it went, and climbs",
        onsets: "RRRR",
        told: "
            begins      | 4 right 100   | The goal alone, exactly as it should sound.
            chooses 1-4 right 100 | 1-4 right 100 | As you wish.
            not yet …   | 1-2 right 100 | A smaller task first: only 2 onsets.
            not yet …   | 1 right 100   | A smaller task first: only 1 onset.
            clean …     | 1-2 right 100 | It goes well. One onset behind. Nearer to the goal.
            late        | 1-2 right 100 | Again, the same.
            too loud    | 2 right 100   | A smaller task first: only 1 onset.
            tense       | 2 right 100   | Again, the same.
            early       | 2 right 100   | Each miss was different: a sign to rest.
            20 minutes on | 1 right 100   | First, what went well before.
            clean …     | 1-2 right 100 | It goes well. One onset behind. Nearer to the goal.
        ",
        ..TOWARD
    },
    Story {
        name: "Stuck at the slowest tempo, the next block tries something else, never the same again",
        onsets: "R",
        goal: 1,
        told: "
            begins      | 1 right 100   | The goal alone, exactly as it should sound.
            not yet …   | 1 right 84    | A little slower, all else the same.
            not yet …   | 1 right 69    | A little slower, all else the same.
            not yet …   | 1 right 58    | A little slower, all else the same.
            not yet …   | 1 right 50    | A little slower, all else the same.
            not yet …   | 1 right 50    | Enough for now. Try it again after a rest.
            20 minutes on | 1 right 100 | Something else: at the full tempo, fresh.
        ",
        ..TOWARD
    },
];

/// What came of a line: each advice that was given on the way.
fn does(lesson: &mut Lesson, snippet: &Snippet, doing: &str) -> Advice {
    let words: Vec<&str> = doing.split_whitespace().collect();
    match words[..] {
        ["begins"] => lesson.advice(),
        ["clean"] => lesson.play(Verdict::Clean),
        ["not", "yet"] => lesson.play(Verdict::NotYet),
        ["clean", "…"] => until_a_move(lesson, |_| Verdict::Clean),
        ["not", "yet", "…"] => until_a_move(lesson, |_| Verdict::NotYet),
        ["alternates", "…"] => {
            until_a_move(lesson, |nth| if nth % 2 == 0 { Verdict::NotYet } else { Verdict::Clean })
        }
        ["chooses", span, hands, bpm] => {
            let step = read_step(&[span, hands, bpm]);
            assert!(snippet.can_play(step), "{doing}");
            lesson.happens(HappeningKind::Overruled(step))
        }
        ["stops"] => lesson.happens(HappeningKind::BlockEnded),
        ["good", "enough"] => lesson.happens(HappeningKind::GoodEnough),
        ["starts", "afresh"] => lesson.happens(HappeningKind::StartedAfresh),
        ["next", "day"] => lesson.sit_down(lesson.now.plus_minutes(24 * 60)),
        [days, "days", "on"] => lesson.sit_down(lesson.now.plus_minutes(24 * 60 * number(days))),
        [minutes, "minutes", "on"] => lesson.sit_down(lesson.now.plus_minutes(number(minutes))),
        [minutes, "minutes", "pass"] => {
            lesson.now = lesson.now.plus_minutes(number(minutes));
            lesson.advice()
        }
        _ => {
            let cause = Cause::ALL.into_iter().find(|cause| words::cause(*cause) == doing);
            let cause = cause.unwrap_or_else(|| panic!("nobody does “{doing}”"));
            let step = lesson.advice().step;
            lesson.happens(HappeningKind::Played { step, verdict: Verdict::NotYet, cause: Some(cause), broke_at: None })
        }
    }
}

fn number(text: &str) -> u32 {
    text.parse().expect("a number")
}

fn until_a_move(lesson: &mut Lesson, verdict: impl Fn(usize) -> Verdict) -> Advice {
    let moved = (0..40).map(|nth| lesson.play(verdict(nth))).find(|advice| advice.led_by != Move::Again);
    moved.expect("the coach moves on within forty repetitions")
}

fn in_words(step: Step) -> String {
    format!("{}-{} {:?} {}", step.span.first() + 1, step.span.last() + 1, step.hands, step.bpm)
}

fn read_step(words: &[&str]) -> Step {
    let onset = |text: &str| number(text) as usize - 1;
    let (first, last) = words[0].split_once('-').unwrap_or((words[0], words[0]));
    let hands = match words[1] {
        "left" => Hands::Left,
        "right" => Hands::Right,
        _ => Hands::Both,
    };
    crate::happenings::step(onset(first), onset(last), hands, number(words[2]) as u16)
}

/// Tells the story, hands on every advice that a line of it comes to, and tells where it went otherwise.
fn tell(story: &Story, mut hear: impl FnMut(&Advice)) -> Option<String> {
    let snippet: Rc<Snippet> = snippet(story.onsets, story.goal - 1, story.direction);
    let settings = Settings { block_minutes: story.block_minutes, ..Settings::default() };
    let mut lesson = Lesson::new(&snippet, settings);
    for line in story.told.lines().map(str::trim).filter(|line| !line.is_empty()) {
        let columns: Vec<&str> = line.split('|').map(str::trim).collect();
        let advice = does(&mut lesson, &snippet, columns[0]);
        let step = read_step(&columns[1].split_whitespace().collect::<Vec<_>>());
        let said = words::coach(&advice);
        if advice.step != step || said != columns[2] {
            return Some(format!("{}: {line}\n    but: {} {said}\n    {advice:?}", story.name, in_words(advice.step)));
        }
        hear(&advice);
    }
    None
}

#[test]
fn each_story_is_told_as_a_teacher_would() {
    let (mut reasons, mut moves, mut leavings) = (BTreeSet::new(), BTreeSet::new(), BTreeSet::new());
    let told_otherwise = STORIES.iter().filter_map(|story| {
        tell(story, |advice| {
            reasons.insert(number_of_reason(advice.reason));
            moves.insert(number_of_move(advice.led_by));
            if let Reason::Leave(leaving) = advice.reason {
                leavings.insert(number_of_leaving(leaving));
            }
        })
    });
    let otherwise: Vec<String> = told_otherwise.collect();
    assert!(otherwise.is_empty(), "{}", otherwise.join("\n"));
    assert_eq!(reasons, (0..REASONS).collect(), "some reason has no story");
    assert_eq!(moves, (0..MOVES).collect(), "some move has no story");
    assert_eq!(leavings, (0..LEAVINGS).collect(), "some way to leave has no story");
}
