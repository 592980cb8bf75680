//! Every message in English, by the screen that says it.
//!
//! Sentences on the practice screen have at most twelve words and never scold. A sentence is one message or several
//! sentences in a row, never put together from parts of one.

use crate::words::{Count, catalogue::messages};

messages! {
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
    as_you_wish = "As you wish.";
    you_say_when = "You say when to go on.";
    your_choice_stands = "Your choice stands. Smaller or slower is one tap away.";
    from_the_first_step = "From the first step, with fresh ears.";

    // Why a block is left.
    whole_is_secure = "The whole snippet is secure. Well worked.";
    enough_for_its_first_turn = "Enough for its first turn today.";
    minutes_are_used = "The focused minutes are used. What you did now settles.";
    no_more_to_gain = "No more to gain now. A rest does the next part.";
    each_miss_was_different = "Each miss was different: a sign to rest.";
    enough_at_this_tempo = "Enough for now. Try it again after a rest.";
    stopped = "Stopped. Short of perfect is a good result.";
    good_enough_by_ear = "Good enough for today. Your ear decides.";

    // Why, with its numbers.
    why_the_goal_alone = "Nothing has been played yet, so the work begins with the goal alone.";
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
    a_rest_changes_its_mind = "What would change its mind: a rest. The next block decides anew.";
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
    learned_since(repetition: i64) =
        "Since repetition {repetition} of this step it is clean more often than not: that is 95\u{a0}% sure.";
    secure_means(level: &str, certainty: &str, fewest: i64, stands: &str) =
        "Secure means: more than {level} clean, with {certainty} certainty, after {fewest} clean at least. It stands \
         at {stands}.";
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
        work; headphones ask for less.";

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

    // What works beside the page.
    no_worker = "This browser lets no page work in the background, which scores, exports and imports need. Open the \
        page in another browser.";
    worker_stopped = "What works beside the page has stopped. Connect to the network once if this device has been offline since \
        the first visit, reload the page and try again.";

    // Buttons and labels of several screens.
    back = "Back";
    close = "Close";
    cancel = "Cancel";
    undo = "Undo";
    not_now = "Not now";
    change = "Change";
    change_snippet = "Change the snippet";
    remove = "Remove";
    duplicate = "Duplicate";
    practise = "Practise";
    go_on = "Go on";
    start_afresh = "Start afresh";
    back_to_the_piece = "Back to the piece";
    all_pieces = "All pieces";
    back_to_today = "Back to today";
    copy_of(name: &str) = "{name} (copy)";
    was_removed(name: &str) = "{name} was removed.";
    remove_named(name: &str) = "Remove {name}";
    duplicate_named(name: &str) = "Duplicate {name}";
    change_named(name: &str) = "Change {name}";
    move_up(name: &str) = "Move {name} up";
    move_down(name: &str) = "Move {name} down";
    not_here = "This is not here";
    why_not_here = "It was removed, or it has not been imported to this device yet.";

    // The places of the page.
    places = "Places";
    today = "Today";
    pieces = "Pieces";
    your_data = "Your data";
    settings = "Settings";
    window_title(place: &str) = "{place} · Tailfirst";
    open_in_another_window = "Open in another window";
    why_one_window = "Only one window at a time can write down what you practise.";
    go_on_here = "Go on here";
    opening_your_journal = "Opening your journal …";
    new_version = "A new version is ready.";
    use_it_now = "Use it now";
    has_rested(name: &str) = "{name} has rested.";

    // Settings.
    practising = "Practising";
    when_secure = "When a step is secure";
    block_minutes = "Minutes in a block";
    rest_minutes = "Minutes of rest after a block";
    blocks_a_day = "Blocks a day for one snippet";
    the_click = "The click";
    click_heard = "Heard";
    the_look = "The look";
    theme = "Theme";
    keys_and_pedals = "Keys and pedals";
    which_keys = "Clean: right or down arrow, Page Down, C. Not yet: left or up arrow, Page Up, N. Undo: Backspace, U. \
        A page-turn pedal that sends one of these pairs works at once.";
    care = "Care";
    rest_is_work = "Rest is part of the work. After twenty-five minutes at the instrument, take five away from it.";
    give_a_number(least: i64, most: i64) = "Give a whole number from {least} to {most}.";
    tempo = "Tempo";
    beat = "Beat";
    beats_a_minute = "Beats a minute";
    tap_the_tempo = "Tap the tempo here, four times or more";

    // Pieces and their snippets.
    no_piece_yet = "No piece yet. Add the one you are preparing.";
    add_a_piece = "Add a piece";
    no_score_at_hand = "No score at hand? Give it a title, then tap the rhythm in or count its onsets.";
    add_by_title = "Add a piece by its title";
    snippets(number: Count) = [One "{number} snippet", Other "{number} snippets"];
    the_snippets = "Snippets";
    no_snippet_yet = "No snippet yet. Choose the few seconds that do not work.";
    choose_bars_from_score = "Choose bars from the score";
    tap_the_rhythm = "Tap the rhythm in";
    count_the_onsets = "Count the onsets";
    neighbours_have_held = "Neighbours have held over a night:";
    join(name: &str) = "Join {name}";
    the_piece = "The piece";
    title = "Title";
    composer = "Composer";
    performance_date = "Performance date";
    give_a_title = "Give the piece a title.";
    the_snippet = "The snippet";
    add_the_snippet = "Add the snippet";
    name = "Name";
    give_a_name = "Give the snippet a name.";
    mend_first = "One field holds what will not do. Mend it first; it says how.";
    a_tap_sets = "A tap on the staff sets:";
    the_begin = "Begin";
    the_end = "End";
    begins_with = "Begins with";
    ends_with = "Ends with";
    tap_the_goal = "The goal is where every repetition arrives. Tap it.";
    goal = "Goal";
    grows = "Grows";
    at_a_time = "At a time";
    difficult_hand = "The difficulty is in the";
    onset_at(number: i64, place: &str) = "Onset {number}: {place}";
    onsets_of(first: i64, last: i64, name: &str) = "Onsets {first} to {last} of {name}";
    fingers(hand: &str) = "Fingers, {hand}";
    this_onset = "This onset";
    to_mind = "To mind: position, motion, sound";
    onset_before = "Onset before";
    onset_after = "Onset after";

    // How well the journal is kept.
    kept_well = "Both copies on this device are up to date.";
    kept_under_way = "The latest is still being written to the second copy.";
    kept_quick_only = "Only the quick copy on this device is up to date: what is new is lost if the browser is stopped.";
    kept_safe_only = "Only the copy in the browser’s database is up to date.";
    kept_nowhere = "Neither copy on this device is up to date: what is new is lost when this page is closed.";
    saved_quick_only = "Saved once only: the browser’s database does not answer. Leave this page open; export your data if \
        this stays.";
    saved_safe_only = "Saved once only: the browser’s quick store takes no more. Export your data, and make room on the \
        device.";
    saved_nowhere = "Not saved: this browser keeps nothing for this page. Export your data before you close it, and allow \
        the page to store data or make room on the device.";
    entries_not_saved(number: Count) = [
        One "One entry is here, but not saved yet. Leave this page open.",
        Other "{number} entries are here, but not saved yet. Leave this page open."
    ];

    // A score file.
    from_a_score_file = "From a score file (MusicXML: .musicxml, .xml or .mxl)";
    reading_the_score = "Reading the score …";
    how_much_is_read = "How much of the score is read";
    nothing_was_changed = "Nothing was changed.";
    file_not_given_out = "The device does not give the file out. Copy it to this device, then choose it again.";
    what_was_read = "What was read";
    bars(number: Count) = [One "{number} bar", Other "{number} bars"];
    parts(number: Count) = [One "{number} part", Other "{number} parts"];
    keep_and_choose_bars = "Keep it and choose bars";
    another_file = "Another file";
    mended(number: Count) = [One "{number} thing mended or left out", Other "{number} things mended or left out"];

    // Choosing bars.
    tap_the_first_bar = "Tap the first bar.";
    tap_the_last_bar(first: &str) = "Bar {first} is the first. Tap the last bar, or bar {first} again for it alone.";
    bar_is_chosen(bar: &str) =
        "Bar {bar} is chosen. Shape the snippet below and add it, or tap another bar to choose anew.";
    bars_are_chosen(first: &str, last: &str) =
        "Bars {first}–{last} are chosen. Shape the snippet below and add it, or tap another bar to choose anew.";

    // The practice screen.
    begin(minutes: &str) = "Begin · {minutes}";
    this_snippet = "This snippet";
    go_on_with(left: &str) = "Go on · {left} left";
    practise_anyway = "Practise anyway";
    what_was_not_right_at_last = "What was not yet right at last?";
    undo_clean = "Undo clean";
    undo_not_yet = "Undo not yet";
    undo_my_step = "Undo my step";
    undo_the_fresh_start = "Undo the fresh start";
    undo_stop = "Undo stop";
    undo_the_end = "Undo the end";
    undo_good_enough = "Undo good enough";
    bring_it_back = "Bring it back";
    rest_after_all = "Rest after all";
    not_this_one_today = "Not this one today";
    good_enough_for_today = "Good enough for today";
    good_enough = "Good enough";
    this_step = "This step";
    stop = "Stop";
    why = "Why?";
    another_step = "Another step";
    longer = "Longer";
    shorter = "Shorter";
    other_hand = "Other hand";
    slower = "Slower";
    faster = "Faster";
    time = "Time";
    left = "left";
    what_was_not_right = "What was not yet right?";
    chart_asked = "asked";
    chart_clean = "clean";
    chart_not_yet = "not yet";

    // Today and the rest.
    nothing_to_practise = "There is nothing to practise yet. Bring in the few seconds that do not work.";
    nothing_left_today = "Nothing is left for today.";
    next_up = "Next";
    rests_more(time: &str) = "rests {time} more";
    side_good_enough = "good enough for today";
    side_enough = "enough for today";
    not_today = "Not today";
    bring_back = "Bring back";
    bring_back_named(name: &str) = "Bring {name} back";
    rest = "Rest";
    done_for_today = "Done for today";
    rests_until(name: &str, time: &str) = "{name} rests until {time}.";
    tomorrow = "Tomorrow";
    stay_away = "Stay away from the keys for five minutes: an early rest without other playing brought the largest \
        gain overnight.";
    away_or_something_unlike = "Away from the instrument, or something unlike it:";
    nothing_else_due = "Nothing else is due now. Leave the instrument for a while.";

    // What is taken back.
    removed_from(piece: &str, day: &str) = "from {piece}, removed on {day}";
    removed_piece(day: &str) = "piece with its snippets, removed on {day}";

    // Your data.
    stays_on_device = "Everything stays on this device. Nothing is sent anywhere.";
    removed = "Removed";
    export = "Export";
    one_file_with_all(entries: Count) = [
        One "One file with all of it: {entries} entry. Keep a copy elsewhere.",
        Other "One file with all of it: {entries} entries. Keep a copy elsewhere."
    ];
    export_to_a_file = "Export to a file";
    was_handed_over(file: &str) = "{file} was handed to the browser.";
    no_file_made = "The browser made no file. Try again from another browser window.";
    import = "Import";
    how_to_import = "Choose a file that another device exported. What is here stays; what is new is added; importing it \
        twice changes nothing.";
    import_from_a_file = "Import from a file";
    reading = "Reading …";
    keeping_what_came = "Read. Keeping what is new …";
    writing_the_file = "Writing the file …";
    how_much_is_done = "How much is done";
    nothing_new = "Nothing in the file was new.";
    known_already(entries: Count) = [One "One entry was here already.", Other "{entries} entries were here already."];
    unread_in_file(texts: Count) = [
        One "One text in it could not be read; it is set aside.",
        Other "{texts} texts in it could not be read; they are set aside."
    ];
    entries_added(entries: Count) = [One "One entry was added.", Other "{entries} entries were added."];
    twins_kept(entries: Count) = [
        One "One has the number of another that is here; both are kept.",
        Other "{entries} have the numbers of others that are here; both are kept."
    ];
    keeping = "Keeping";
    promised_to_keep = "The browser has promised to keep it.";
    not_promised_to_keep = "The browser has not promised to keep it: it may clear what is long unused. Export now and \
        then.";
    unknown_how_long = "The browser does not say how long it keeps it. Export now and then.";
    ask_to_keep = "Ask the browser to keep it";
    set_aside = "Set aside";
    why_set_aside = "These could not be read. They are kept as they are and travel in the export.";
    this_device = "This device";
    check_this_device = "Check this device";
    check_yes = "Yes:";
    check_no = "No:";
    clicks_exact = "every click falls on its exact sample.";
    clicks_off(samples: Count) =
        [One "clicks are up to {samples} sample off.", Other "clicks are up to {samples} samples off."];
    click_lost = "a click was lost.";
    no_sound = "the browser renders no sound; the pulse can still be seen.";
    can_store = "what is written can be read back.";
    cannot_store = "nothing can be stored for this page.";
    stays_awake = "the screen can be kept awake during a block.";
    falls_asleep = "the screen cannot be kept awake; lengthen the device's own time-out.";
    opens_offline = "the page opens without a network.";
    not_yet_offline = "the page is not yet kept for use without a network; open it once more over HTTPS.";

    // Bars of a score.
    choose_bars = "Choose bars";
    score_bar_by_bar = "The score, bar by bar";
    no_score_kept = "No score is kept for this piece. Add it again from its file, or tap the rhythm in.";
    part = "Part";
    first_bar = "First bar";
    last_bar = "Last bar";
    give_a_bar(first: &str, last: &str) = "Give a bar from {first} to {last}.";
    part_and_staves(part: &str, staves: Count) = [One "{part} ({staves} staff)", Other "{part} ({staves} staves)"];
    bar_named(bar: &str) = "Bar {bar}";
    bars_named(first: &str, last: &str) = "Bars {first}–{last}";
    staff_is_for(staff: i64) = "Staff {staff} is for the";

    // A rhythm tapped in, onsets counted.
    tap_again = "Tap again";
    start_the_pulse = "Start the pulse";
    how_to_tap = "After one bar of count-in, tap each onset on the pad of its hand; both pads for both.";
    tapped_onsets(number: Count) = [One "{number} tapped onset", Other "{number} tapped onsets"];
    taps(number: Count) = [One "{number} tap", Other "{number} taps"];
    pad_left = "Left";
    pad_both = "Both";
    pad_right = "Right";
    done = "Done";
    onset_number(number: i64) = "Onset {number}";
    ms_off(ms: &str) = "{ms} ms";
    earlier = "Earlier";
    later = "Later";
    onset_earlier(number: i64) = "Onset {number} earlier";
    onset_later(number: i64) = "Onset {number} later";
    to_the_grid(mean: i64, throughout: &str) =
        "Brought to the grid: {mean} ms off in the mean, {throughout} ms throughout. Move a single onset?";
    what_an_onset_is = "All notes that begin together are one onset. One onset is put on each beat; the last is the goal.";
    onset_count = "Onsets";
    played_by = "Played by";
    meter = "Meter";

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
    unknown_encoding = "The letters of the file cannot be told; export the score as MusicXML in UTF-8.";
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
    import_no_journal = "This file is no journal; choose the file that an export made.";
    import_newer(version: i64) = "This file was written by a newer version of the program (format {version}); update \
        this device, then import it again.";
    import_damaged(why: &str) = "This file is damaged ({why}); export it again on the other device.";
    beyond_number = "no device has come to its number";
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
    mended_loose_tie = "a tie begins nowhere; its note is played anew";
    mended_loose_grace = "grace notes that lead to no note are printed and belong to no onset";
    mended_odd_pitch = "a pitch off the keyboard or between the keys was moved to the nearest key";
    mended_no_pitch = "a note whose pitch cannot be read is kept as a rhythm alone";
    mended_no_alter = "an alteration that cannot be read is left out; its note is a natural";
    mended_no_meter = "the meter is missing or unusual; the one before it was kept, 4/4 at the start";
    mended_odd_key = "a key signature of its own make is not shown; the one before it was kept";
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
    mended_other_tempi = "a tempo mark that gives no beats a minute is not shown";
    mended_abbreviations = "signs that stand for repeated bars or beats are not shown; the bars are as the file fills them";
    mended_chord_symbols = "chord symbols and figures are not shown";
    mended_tablature = "tablature and string numbers are not shown";
}
