//! Labels, buttons and sentences of the screens.

use crate::words::catalogue::{Count, messages};

messages! {
    after crate::words::english::help::END;

    // What works beside the page.
    no_worker = "This browser does not let a page work in the background, which scores, exports and imports need. Open the \
        page in another browser.";
    worker_stopped = "The work in the background has stopped. Connect to the network once if this device has been offline since \
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
    beats_a_minute = "Beats per minute";
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
    mend_first = "One field is not valid yet. Correct it first; it says how.";
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
    how_many_minutes = "How many minutes do you have?";
    or_until = "Or until";
    give_a_later_time = "Give a time later today.";
    the_plan = "The plan";
    planned_until(time: &str) = "Planned until {time}. It follows what you do.";
    away_from_the_keys = "Away from the keys";
    away_until(time: &str) = "Away from the keys until {time}.";
    nothing_more_needs_these_minutes = "Nothing more needs these minutes. Well done.";
    not_in_these_minutes = "Not in these minutes";
    broke_at(place: &str) = "It broke at {place}";
    onset_at(number: i64, place: &str) = "Onset {number}: {place}";
    onsets_of(first: i64, last: i64, name: &str) = "Onsets {first} to {last} of {name}";
    fingers(hand: &str) = "Fingers, {hand}";
    this_onset = "This onset";
    to_mind = "To remember: position, motion, sound";
    onset_before = "Onset before";
    onset_after = "Onset after";

    // The program has broken down.
    has_stopped = "Tailfirst has stopped";
    what_is_kept_stays = "Something went wrong in the program. What was saved is still on this device.";
    start_again = "Start again";
    if_it_stops_again = "If it stops again, export what is saved here. Another device can import that file.";
    export_what_is_saved = "Export what is saved";

    // How well the journal is kept.
    newly_set_aside(number: Count) = [
        One "Something saved here cannot be read. It was set aside, not thrown away.",
        Other "{number} things saved here cannot be read. They were set aside, not thrown away."
    ];
    gone(number: Count) = [
        One "One entry is gone from this device.",
        Other "{number} entries are gone from this device."
    ];
    may_be_brought_back = "An export of another device, or an older one of this device, may bring back what is gone.";
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
    file_not_given_out = "The device did not hand over the file. Copy it to this device, then choose it again.";
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
        "Bar {bar} is chosen. Shape the snippet below and add it, or tap another bar to choose again.";
    bars_are_chosen(first: &str, last: &str) =
        "Bars {first}–{last} are chosen. Shape the snippet below and add it, or tap another bar to choose again.";

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
    was_shared(file: &str) = "{file} was handed over.";
    file_is_ready = "The file is ready.";
    share_it = "Share it";
    save_it = "Save it on this device";
    no_file_made = "The browser could not make the file. Try again from another browser window.";
    import = "Import";
    how_to_import = "Choose a file that another device exported, or drop it on this page. What is here stays; what is new is \
        added; importing it twice changes nothing.";
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
    cleared_unless_visited = "This browser erases what a page has stored when the page is not opened for seven days.";
    kept_on_home_screen = "It does not erase a page on the home screen: export, add the page there, and import the file.";
    ask_to_keep = "Ask the browser to keep it";
    later_heading = "From a newer version";
    written_later(entries: Count) = [
        One "One entry was written by a newer version of the program. It is kept and exported as it is, and shows in full \
            once this device is updated.",
        Other "{entries} entries were written by a newer version of the program. They are kept and exported as they are, \
            and show in full once this device is updated."
    ];
    noted_later(entries: Count) = [
        One "A newer version noted one thing more here.",
        Other "A newer version noted {entries} things more here."
    ];
    never_exported = "Nothing has been exported from this device yet.";
    exported_on(day: &str) = "The last export was on {day}.";
    nothing_exported_for(days: Count) = [
        One "Nothing has been exported since yesterday. A file elsewhere survives this device.",
        Other "Nothing has been exported for {days} days. A file elsewhere survives this device."
    ];
    export_now = "Export now";
    import_called_off = "The import was called off. Nothing was changed.";
    export_called_off = "The export was called off.";
    reading_called_off = "Reading the score was called off.";
    what_is_here = "What is here";
    room_taken(kilobytes: i64) = "It takes {kilobytes} kB of the browser’s quick store.";
    this_device_is(id: &str) = "This device, {id}";
    device_is(id: &str) = "Device {id}";
    wrote(entries: Count, day: &str) = [One "one entry, on {day}", Other "{entries} entries, the last on {day}"];
    before_the_import = "Before the last import";
    can_go_back(day: &str, time: &str) = "The last import was on {day} at {time}. What was here before it can be had back; what \
        was practised here since stays.";
    go_back = "Go back to before the import";
    went_back = "This is what was here before the import.";
    could_not_go_back = "What was here before cannot be read. Nothing was changed.";
    erase = "Erase everything";
    what_erasing_does = "Everything on this device is erased, with scores and settings. What was exported, and other devices, \
        stay as they are.";
    export_first = "Export first: without a file there is no way back.";
    type_to_erase(entries: i64) = "Type {entries}, the number of entries, to erase them all";
    erase_now = "Erase now";
    not_all_erased = "The browser did not erase everything. Clear the data of this page in the browser’s settings.";
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
        "Fitted to the grid: {mean} ms off on average, {throughout} ms throughout. Move a single onset?";
    what_an_onset_is = "All notes that begin together are one onset. One onset is put on each beat; the last is the goal.";
    onset_count = "Onsets";
    played_by = "Played by";
    meter = "Meter";
}
