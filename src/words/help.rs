//! What stands under Help.

pub const HEADING: &str = "Help";

/// How the work goes, in a few sentences.
pub const WAY: [&str; 3] = [
    "Choose the few seconds that do not work yet and the goal they lead to. Practise the goal alone, then with one onset \
     in front, then one more: one hand, then both, always in the pulse.",
    "After each repetition say how it was: Clean or Not yet. You are the judge. The coach decides the next step from what \
     you say and tells you why under “Why?”; you can overrule it under “Another step”.",
    "After a few focused minutes the snippet rests. Come back the next day: what stayed overnight is what counts.",
];

/// Other words, each with what it means.
pub const MORE: [(&str, &str); 6] = [
    (
        "Clean and not yet",
        "Clean means: the right notes, in the pulse, with the sound you want. Everything else is not yet. What was not \
         yet right can be named after it, and need not be.",
    ),
    (
        "Goes well and secure",
        "A step goes well when it is good enough to go on from. Secure is said of the whole snippet only: it will most \
         likely be clean the next time, too.",
    ),
    (
        "When it is too hard",
        "The coach makes the task smaller: one hand alone, or the newest onsets alone. If that is not enough it takes a \
         slower tempo, and comes back up before anything is added.",
    ),
    (
        "Block and rest",
        "A block is the few minutes that one snippet gets. Then it rests, and you play something else or leave the \
         instrument. Stopping short of perfect is a good result.",
    ),
    (
        "The pulse",
        "Two marks set out from the edges and meet in the middle on the beat. The count-in begins so that the first onset \
         falls on its true place in the bar.",
    ),
    (
        "Joining snippets",
        "Two neighbouring snippets that both held overnight can be joined into a longer one under Pieces.",
    ),
];
