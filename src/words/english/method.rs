//! What is said of practising: values, what the coach says and why, how a snippet stands.

use crate::words::catalogue::{Count, messages};

messages! {
    after 0;

    // Verdicts, causes, hands.
    clean = "Clean";
    not_yet = "Not yet";
    too_loud = "too loud";
    too_soft = "too soft";
    early = "early";
    late = "late";
    uneven = "uneven";
    wrong_note = "wrong note";
    tense = "tense";
    left_hand = "Left hand";
    right_hand = "Right hand";
    both_hands = "Both hands";
    your_line = "Your line";
    the_left_hand = "left hand";
    the_right_hand = "right hand";
    a_single_line = "single line";

    // Choices.
    toward_the_goal = "toward the goal";
    setting_out = "setting out from the goal";
    onset_by_onset = "onset by onset";
    beat_by_beat = "beat by beat";
    bar_by_bar = "bar by bar";
    move_on_early = "Move on early";
    in_between = "In between";
    move_on_late = "Move on late";
    click_always = "always";
    click_in_the_count_in = "in the count-in only";
    click_never = "never";
    look_as_the_device = "as the device";
    look_paper = "paper";
    look_stage = "stage";

    // Numbers and places.
    percent(share: i64) = "{share}\u{a0}%";
    place(bar: &str, beat: &str) = "bar {bar}, beat {beat}";
    note_value(of: i64) = "1/{of} note";
    dotted_note_value(of: i64) = "dotted 1/{of} note";
    twice_dotted_note_value(of: i64) = "double-dotted 1/{of} note";
    tempo_is(beat: &str, bpm: i64) = "{beat} = {bpm}";
    onsets(number: Count) = [One "{number} onset", Other "{number} onsets"];
    minutes(number: Count) = [One "{number} minute", Other "{number} minutes"];

    // What the coach says, at the stand.
    the_goal_alone = "The goal alone, exactly as it should sound.";
    the_bar_of_the_goal = "The bar that leads to the goal, as it should sound.";
    again = "Again, the same.";
    mind_a_cause(cause: &str) = "Mostly here: {cause}. Mind that alone.";
    goes_well = "It goes well.";
    now_both_hands = "Now both hands together.";
    now_both_hands_slower = "Now both hands together, a little slower.";
    a_little_faster = "A little faster.";
    to_the_next_step = "On to the next step.";
    to_the_goal = "On to the goal.";
    onsets_in_front(number: Count) = [One "One onset in front.", Other "{number} onsets in front."];
    onsets_behind(number: Count) = [One "One onset behind.", Other "{number} onsets behind."];
    a_beat_in_front = "One beat in front.";
    a_beat_behind = "One beat behind.";
    a_bar_in_front = "One bar in front.";
    a_bar_behind = "One bar behind.";
    both_at_once = "Both hands at once.";
    both_now = "Now both hands.";
    one_hand_first = "One hand first.";
    nearer_to_the_goal = "Nearer to the goal.";
    a_smaller_task(onsets: Count) =
        [One "A smaller task first: only {onsets} onset.", Other "A smaller task first: only {onsets} onsets."];
    left_alone_first = "The left hand alone first.";
    right_alone_first = "The right hand alone first.";
    slower_all_else_the_same = "A little slower, all else the same.";
    something_easier = "Something easier first.";
    once_cold(nights: Count) = [
        One "Once, cold. It shows what the night has kept.",
        Other "Once, cold. It shows what {nights} nights have kept."
    ];
    held(nights: Count) = [One "It held overnight.", Other "It held for {nights} nights."];
    on_from_where_you_stopped = "On from where you stopped.";
    a_new_day = "A new day.";
    as_last_time_slower = "As last time, a little slower.";
    what_went_well_before = "First, what went well before.";
    full_tempo_once = "Something else: at the full tempo, fresh.";
    as_you_wish = "As you wish.";
    you_say_when = "You say when to go on.";
    your_choice_stands = "Your choice stands. Smaller or slower is one tap away.";
    from_the_first_step = "From the first step, with fresh ears.";

    // Why a block is left.
    whole_is_secure = "The whole snippet is secure. Well done.";
    enough_for_its_first_turn = "Enough for its first turn today.";
    minutes_are_used = "The focused minutes are used. What you did now settles.";
    no_more_to_gain = "No more to gain now. A rest does the next part.";
    each_miss_was_different = "Each miss was different: a sign to rest.";
    enough_at_this_tempo = "Enough for now. Try it again after a rest.";
    stopped = "Stopped. Short of perfect is a good result.";
    good_enough_by_ear = "Good enough for today. Your ear decides.";

    // Why, with its numbers.
    why_the_goal_alone = "Nothing has been played yet, so the work begins with the goal.";
    why_again(clean: i64, of: i64) =
        "{clean} of {of} at this step were clean: too few to go on, and not too hard so far.";
    why_onward(clean: i64, of: i64) = "{clean} of {of} at the step before were clean: that goes well enough to go on.";
    why_back(missed: i64, of: i64) =
        "{missed} of {of} at the step before were not yet clean: that step was too hard for now.";
    why_cold(nights: Count) = [
        One "{nights} night since the last repetition: the first one now tells what has stayed.",
        Other "{nights} nights since the last repetition: the first one now tells what has stayed."
    ];
    why_resumed = "The cold try was clean, so the work goes on where it stopped.";
    why_goes_on = "A new block goes on where the last one stopped.";
    why_easier = "The last block stopped at a step that failed, so this one begins easier.";
    why_something_else = "Slower has not helped, so this block begins with something else.";
    why_chosen = "You chose this step. The coach follows and judges it by its own repetitions.";
    why_held_back(what: &str) = "Next would be: {what}. You have taken it back twice, so it waits for another block.";
    why_afresh = "It is learned again from the first step; what was played before is kept.";
    why_whole_secure = "Every onset and both hands are secure at the target tempo.";
    why_held(nights: Count) = [
        One "The whole snippet was secure, and after a night it was clean at once.",
        Other "The whole snippet was secure, and after {nights} nights it was clean at once."
    ];
    why_minutes_used(minutes: Count) =
        [One "The {minutes} minute of this block is used.", Other "The {minutes} minutes of this block are used."];
    why_no_gain(repetitions: Count, from: &str, to: &str) = [
        One "Over the last {repetitions} repetition the estimate went from {from} to {to}.",
        Other "Over the last {repetitions} repetitions the estimate went from {from} to {to}."
    ];
    why_causes_differ(misses: Count) = [
        One "The last {misses} miss had another cause: attention is spent.",
        Other "The last {misses} misses each had another cause: attention is spent."
    ];
    why_slowest(bpm: i64) = "It is still too hard at {bpm}, the slowest tempo that helps.";
    why_stopped = "You ended the block.";
    why_good_enough = "You found it good enough for today. That counts as a success, whatever the estimate says.";
    move_begin = "beginning";
    move_again = "the same again";
    move_cold_try = "a cold try";
    move_join_hands = "joining hands";
    move_lengthen = "a longer span";
    move_narrow = "a smaller task";
    move_carry_through = "carrying it through";
    move_ease = "a slower tempo";
    move_climb = "a faster tempo";
    move_overruled = "your own step";
    move_leave = "a rest";
    move_start_afresh = "starting afresh";
    a_rest_changes_its_mind = "What would change its mind: a rest. The next block decides again.";
    you_change_its_mind = "What would change its mind: another step of your choice, or a new block.";
    clean_ones_to_go_on(number: Count) = [
        One "One more clean one leads on.",
        Other "{number} more clean ones in a row lead on."
    ];
    many_clean_ones_to_go_on = "Many more clean ones lead on.";
    misses_to_go_back(number: Count) = [
        One "One more not yet makes the task smaller or stops.",
        Other "{number} more not yet in a row make the task smaller or stop."
    ];
    many_misses_to_go_back = "Only many more not yet make the task smaller or stop.";
    estimate(mean: &str, low: &str, high: &str) =
        "A repetition is believed to be clean {mean} of the time, most likely {low} to {high}.";
    not_sure_yet = "Not sure yet: too little has been heard of this step to put a number on it.";
    goes_well_means(level: &str, fewest: i64) =
        "Goes well means: expected to be clean {level} of the time, after {fewest} clean at least.";
    secure_means(level: &str, certainty: &str, fewest: i64, stands: &str) =
        "Secure means: the whole more than {level} clean, with {certainty} certainty, after {fewest} clean in a row. It \
         stands at {stands}.";
    played_in_block(repetitions: Count, clean: i64) = [
        One "{repetitions} repetition, {clean} of it clean.",
        Other "{repetitions} repetitions, {clean} of them clean."
    ];
    changed_in_block(changes: Count) =
        [One "The step changed once.", Other "The step changed {changes} times."];
    estimate_after_block(mean: &str) = "After the last one the estimate stands at {mean}.";
    nothing_played_in_block = "Nothing has been played in this block yet.";

    // How a snippet stands.
    under_way(left: &str) = "A block is under way: {left} left.";
    another_block = "Another block today.";
    new = "New.";
    played_before = "Played before.";
    played_today = "Played today.";
    last_played(days: Count) = [One "Last played yesterday.", Other "Last played {days} days ago."];
    a_cold_try_first = "A cold try first.";
    has_had_its_blocks(name: &str) = "{name} has had its blocks for today.";
    is_settled(name: &str) = "{name} is settled for today.";
    is_left_out(name: &str) = "{name} is left out today. Nothing else changes.";
    afresh_keeps_history = "From its first step again. Its history is kept.";
    consider_afresh = "Missed cold for days. Starting afresh may be quicker.";
    judge_the_last = "judge this one, then rest";

    // Progress.
    clean_of_onsets(clean: i64, onsets: Count) =
        [One "{clean} of {onsets} onset clean", Other "{clean} of {onsets} onsets clean"];
    nothing_clean_yet = "nothing clean yet";
    all_clean_on_the_date(percent: &str, minutes: Count) = [
        One "At {minutes} minute a day all that is begun is clean on the date with a chance of {percent}.",
        Other "At {minutes} minutes a day all that is begun is clean on the date with a chance of {percent}."
    ];
    so_many_clean(from: i64, to: i64, of: Count) = [
        One "Most likely {from} to {to} of {of} snippet.",
        Other "Most likely {from} to {to} of {of} snippets."
    ];
    holds_back(name: &str, percent: &str) = "What holds it back: {name}. Without it: {percent}.";
    with_more_minutes(minutes: Count, percent: &str) = [
        One "With {minutes} minute more a day: {percent}.",
        Other "With {minutes} minutes more a day: {percent}."
    ];
    not_begun_yet(snippets: Count) = [
        One "{snippets} snippet is not begun and not counted.",
        Other "{snippets} snippets are not begun and not counted."
    ];
    foretold = "It is foretold from your own repetitions and mornings, and unsure while there are few.";
    breaks_most(place: &str, hands: &str) = "Most likely to break: {place} ({hands}).";
    and_breaks(place: &str, hands: &str) = "After that: {place} ({hands}).";
    most_often(cause: &str) = "most often {cause}";
    not_begun = "not begun";
    clean_of_all(clean: i64, of: i64) = "{clean} of {of} clean";
    progress_heading = "Progress";
    nothing_practised_yet = "Nothing has been practised yet.";
    date_is_today = "today";
    date_is_in(days: Count) = [One "in {days} day", Other "in {days} days"];
    date_was(days: Count) = [One "{days} day ago", Other "{days} days ago"];

    // Cautions. The limit of loudness: NIOSH criteria document 98-126, 1998.
    pain = "Pain, numbness or tingling means stop. If it comes back, see a licensed clinician.";
    loudness = "Keep the click as soft as you can still hear it. 85 dBA over eight hours is the recommended limit at \
        work; with headphones keep it lower.";
}
