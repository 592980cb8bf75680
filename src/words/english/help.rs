//! The program's own words, and the Help page.

use crate::words::catalogue::messages;

messages! {
    after crate::words::english::method::END;

    // The program's own words, in a line where they are met.
    goal_in_a_line = "The goal: what all this leads to. A roof marks it.";
    resting_hand_in_a_line = "Small, faint notes: the hand that rests. Leave them out.";
    onset_in_a_line = "An onset: everything that begins at one moment, in either hand.";
    cold_try_in_a_line = "A cold try: the first repetition after a night, unprepared.";

    // Help.
    help_heading = "Help";
    help_way_one = "Choose the few seconds that do not work yet and the goal they lead to. Practise the goal alone, \
        then with one onset in front, then one more: one hand, then both, always in the pulse.";
    help_way_two = "After each repetition say how it was: Clean or Not yet. You are the judge. The coach decides the \
        next step from what you say and tells you why under “Why?”; you can overrule it under “Another step”.";
    help_way_three = "After a few focused minutes the snippet rests. Come back the next day: what stayed overnight is \
        what counts.";
    help_goal = "The goal and its roof";
    help_goal_text = "The goal is the note or chord that everything leads to. The roof over the staff marks it. \
        Practice begins with the goal alone: exactly as it should sound, with its motion, its finger and its loudness.";
    help_goal_picture = "Two staves. Only the last note is black, and a small roof stands over it.";
    help_resting_hand = "The resting hand";
    help_resting_hand_text = "Where one hand practises alone, the notes of the other stand there small and faint. They \
        show what will be added and are not played.";
    help_resting_hand_picture =
        "The same bars: the upper staff is black, the notes of the lower staff are small and faint.";
    help_onset = "Onsets and the lead-in";
    help_onset_text = "An onset is everything that begins at one moment, in either hand: a note, an interval or a \
        chord. What is played now is printed black; it grows by one onset or a few at a time. The onsets before \
        the goal are its lead-in.";
    help_onset_picture = "The same bars: the last three onsets are black, what stands before them is faint.";
    help_cold_try = "The cold try";
    help_cold_try_text = "The first repetition after a night comes without warming up, once. Only it can tell what has \
        stayed. Missed or clean, both are news: the work goes on from there.";
    help_verdicts = "Clean and not yet";
    help_verdicts_text = "Clean means: the right notes, in the pulse, with the sound you want. Everything else is not \
        yet. What was not yet right can be named after it, and need not be.";
    help_broke = "Where it broke";
    help_broke_text = "After “Not yet” a tap on the note where it broke tells the coach the place: the next smaller task \
        is about it. It need not be named; a second tap opens what is written there.";
    help_secure = "Goes well and secure";
    help_secure_text = "A step goes well when it is good enough to go on from. Secure is said of the whole snippet \
        only: it will most likely be clean the next time, too.";
    help_too_hard = "When it is too hard";
    help_too_hard_text = "The coach makes the task smaller: one hand alone, or the newest onsets alone. If that is not \
        enough it takes a slower tempo, and comes back up before anything is added.";
    help_rest = "Block and rest";
    help_rest_text = "A block is the few minutes that one snippet gets. Then it rests, and you play something else or \
        leave the instrument. Stopping short of perfect is a good result.";
    help_pulse = "The pulse";
    help_pulse_text = "Two marks set out from the edges and meet in the middle on the beat. The count-in begins so that \
        the first onset falls on its true place in the bar.";
    help_joining = "Joining snippets";
    help_joining_text = "Two neighbouring snippets that both held overnight can be joined into a longer one under \
        Pieces.";
}
