//! Real touches: pressed, held and released on a page that moves under the finger.

use crate::{
    exported,
    harness::{Chromium, Site, Spot, Viewport},
    stand::at_the_stand,
};
use std::{
    fs,
    rc::Rc,
    time::{Duration, SystemTime, UNIX_EPOCH},
};
use tailfirst::{
    clock::Moment,
    journal::{DeviceId, EntryKind, Journal, Piece, PieceId, Preference, SnippetId},
    method::{Coach, Happening, HappeningKind, Move, Settings, Snippet, Verdict},
    music::{BeatUnit, Bpm, Hand, NoteValue, Tempo, counted::counted},
};

const HOLDS: [Duration; 4] =
    [Duration::from_millis(30), Duration::from_millis(100), Duration::from_millis(200), Duration::from_millis(800)];
/// As long as a browser may take to make a click of a touch.
const LATER: Duration = Duration::from_millis(700);
/// Longer than a bounce of a single onset.
const PLAYED: Duration = Duration::from_millis(450);

/// What can be tapped on the screen, except for the places at its foot, which stay what they are.
const CONTROLS: &str =
    "const controls = [...document.querySelectorAll('main :is(button, a, input, select), .notices button')];
    return controls.map((control) => control.getBoundingClientRect())
        .filter((box) => box.width && box.top >= 0 && box.bottom <= innerHeight - 70)
        .map((box) => [box.left, box.top, box.right, box.bottom])";

type Field = [f64; 4];

impl Chromium {
    async fn fields(&self, script: &str) -> Vec<Field> {
        serde_json::from_value(self.run(script).await).expect("boxes")
    }

    async fn field(&self, selector: &str) -> Field {
        self.wait_for(selector).await;
        self.fields(&format!(
            "const box = document.querySelector('{selector}').getBoundingClientRect();
            return [[box.left, box.top, box.right, box.bottom]]"
        ))
        .await[0]
    }

    async fn press_and_change_the_screen(&self, spot: Spot, to: &str) {
        self.fingers(&[], &[spot]).await;
        self.run(&format!("location.hash = '{to}'")).await;
        tokio::time::sleep(Duration::from_millis(100)).await;
        self.fingers(&[spot], &[]).await;
        tokio::time::sleep(LATER).await;
    }
}

fn middle([left, top, right, bottom]: Field) -> Spot {
    (0.5 * (left + right), 0.5 * (top + bottom))
}

/// A spot inside both, a finger's width from the edges of what they share.
fn shared(one: Field, other: Field) -> Option<Spot> {
    let field = [one[0].max(other[0]), one[1].max(other[1]), one[2].min(other[2]), one[3].min(other[3])];
    (field[2] - field[0] >= 8.0 && field[3] - field[1] >= 8.0).then(|| middle(field))
}

/// The journal of someone who has played so many snippets of one onset, each in a block that goes on, to
/// where one more clean repetition makes it secure.
fn on_the_brink(snippets: usize) -> (Journal, Vec<SnippetId>) {
    let unix_ms = SystemTime::now().duration_since(UNIX_EPOCH).expect("after 1970").as_millis() as i64;
    let now = Moment::new(unix_ms - 2_000, 0);
    let mut journal = Journal::new();
    let mut write = |kind: EntryKind| {
        let entry = journal.next(DeviceId(77), now, kind);
        journal.append(entry.clone());
        entry.id
    };
    write(EntryKind::Set(Preference::BlockMinutes(30)));
    let piece = Piece { title: "Bells".into(), composer: String::new(), tempo: None, date: None };
    let piece = PieceId(write(EntryKind::PieceAdded(piece)));
    let ids = (1..=snippets).map(|number| {
        let bell = Rc::new(bell(number));
        let id = SnippetId(write(EntryKind::SnippetAdded { piece, snippet: bell.clone() }));
        write(EntryKind::BlockBegan { snippet: id });
        let step = Coach::new(bell.clone()).advice(now).step;
        for _ in 1..clean_until_secure(&bell, now) {
            write(EntryKind::Played { snippet: id, step, verdict: Verdict::Clean });
        }
        id
    });
    let ids = ids.collect();
    (journal, ids)
}

fn bell(number: usize) -> Snippet {
    let tempo = Tempo { beat: BeatUnit::new(NoteValue::Quarter, 0), bpm: Bpm::new(72).expect("in range") };
    let passage = counted(1, &[Hand::Line], "4/4".parse().expect("a meter")).expect("a passage");
    Snippet::new(format!("Bell {number}"), passage, 0, tempo).expect("a snippet")
}

/// After how many clean repetitions the coach leaves the bell.
fn clean_until_secure(bell: &Rc<Snippet>, at: Moment) -> usize {
    let mut coach = Coach::new(bell.clone());
    coach.follow(&Happening {
        at,
        kind: HappeningKind::BlockBegan(Settings { block_minutes: 30, ..Settings::default() }),
    });
    let played =
        HappeningKind::Played { step: coach.advice(at).step, verdict: Verdict::Clean, cause: None, broke_at: None };
    let clean = (1..100).find(|_| {
        coach.follow(&Happening { at, kind: played.clone() });
        coach.advice(at).led_by == Move::Leave
    });
    clean.expect("one note becomes secure")
}

/// A browser with that journal, and its snippets.
async fn at_the_brink(site: &Site, snippets: usize) -> (Chromium, Vec<SnippetId>) {
    let (journal, ids) = on_the_brink(snippets);
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("bells.json");
    let last = journal.entries().last().expect("entries").at;
    fs::write(&path, exported::export(&journal, DeviceId(77), last)).expect("written");
    let browser = at_the_stand(site).await;
    browser.visit("data").await;
    browser.choose_file(&path).await;
    browser.wait_for_text("entries were added.").await;
    (browser, ids)
}

async fn go_on(browser: &Chromium, snippet: SnippetId) {
    browser.visit(&format!("practise/{}", snippet.0)).await;
    browser.wait_for_text("Go on").await;
    browser.begin().await;
    tokio::time::sleep(PLAYED).await;
}

/// The block has ended by the verdict, and nothing else has happened.
async fn rests_untouched(browser: &Chromium, snippet: SnippetId, after: &str) {
    tokio::time::sleep(LATER).await;
    let (place, heading) = (browser.run("return location.hash").await, browser.text("h1").await);
    assert_eq!((place.as_str(), heading.as_str()), (Some(&*format!("#practise/{}", snippet.0)), "Rest"), "{after}");
    assert_eq!(browser.text(".rest .small button:nth-child(2)").await, "Undo the end", "{after}");
}

#[tokio::test]
async fn no_touch_acts_twice_whatever_screen_follows_it() {
    let site = Site::serve();
    let sizes = [Viewport::LANDSCAPE, Viewport::PORTRAIT, Viewport::PHONE];
    let (browser, ids) = at_the_brink(&site, sizes.len() * (2 * HOLDS.len() + 2)).await;
    let mut ids = ids.into_iter();
    let mut next = || ids.next().expect("a snippet for each");
    let mut met = 0;
    for size in sizes {
        browser.set_viewport(size).await;
        go_on(&browser, next()).await;
        browser.touch(middle(browser.field(".target.clean").await), HOLDS[0]).await;
        browser.wait_for(".rest").await;
        let follows = browser.fields(CONTROLS).await;
        for hold in HOLDS {
            let snippet = next();
            go_on(&browser, snippet).await;
            let target = browser.field(".target.clean").await;
            let over_a_control = follows.iter().find_map(|control| shared(target, *control));
            met += usize::from(over_a_control.is_some());
            browser.touch(over_a_control.unwrap_or(middle(target)), hold).await;
            rests_untouched(&browser, snippet, &format!("a touch of {hold:?} on {}", size.name)).await;

            go_on(&browser, next()).await;
            browser.touch(middle(browser.field(".target.not-yet").await), hold).await;
            tokio::time::sleep(LATER).await;
            browser.wait_for(".causes").await;
            assert_eq!(undo_word(&browser).await, "Undo not yet", "{hold:?} on {}", size.name);
        }
        knocks_twice(&browser, next(), &follows).await;
    }
    assert!(met >= HOLDS.len(), "no control lay where a target had been: nothing was tried");
    browser.finish().await;
}

/// A knuckle that bounces: the second knock falls on the screen that the first one brought.
async fn knocks_twice(browser: &Chromium, snippet: SnippetId, follows: &[Field]) {
    go_on(browser, snippet).await;
    let target = browser.field(".target.clean").await;
    let spot = follows.iter().find_map(|control| shared(target, *control)).unwrap_or(middle(target));
    browser.touch(spot, Duration::from_millis(30)).await;
    browser.touch(spot, Duration::from_millis(30)).await;
    rests_untouched(browser, snippet, "a bounce").await;
}

async fn undo_word(browser: &Chromium) -> String {
    browser.text(".practise .small button:nth-child(2)").await
}

#[tokio::test]
async fn a_touch_acts_only_on_what_it_began_on_and_each_that_counts_is_marked() {
    let site = Site::serve();
    let (browser, ids) = at_the_brink(&site, 2).await;
    browser.set_viewport(Viewport::LANDSCAPE).await;
    on_a_page_that_moves(&browser).await;
    with_two_fingers(&browser, ids[0]).await;
    a_held_key_acts_once(&browser).await;
    each_verdict_is_marked_where_it_was_tapped(&browser).await;
    browser.finish().await;
}

/// The screen changes while the finger is down, and what it began on is gone.
async fn on_a_page_that_moves(browser: &Chromium) {
    browser.visit("data").await;
    let data = browser.fields(CONTROLS).await;
    browser.visit("today").await;
    let today = browser.fields(CONTROLS).await;
    let both = today.iter().flat_map(|one| data.iter().filter_map(|other| shared(*other, *one)));
    let spot = both.last().expect("two screens with something tappable at one spot");
    browser.visit("data").await;
    let counted = browser.text("main").await;
    browser.visit("today").await;
    let before = without_numbers(&browser.text("main").await);
    browser.visit("data").await;
    browser.press_and_change_the_screen(spot, "today").await;
    assert_eq!(browser.run("return location.hash").await, "#today", "a touch that began elsewhere has acted");
    assert_eq!(without_numbers(&browser.text("main").await), before, "a touch that began elsewhere has acted");
    browser.visit("data").await;
    assert_eq!(browser.text("main").await, counted, "a touch that began elsewhere has acted");
}

/// What a screen says, whatever time it is.
fn without_numbers(text: &str) -> String {
    text.chars().filter(|letter| !letter.is_ascii_digit()).collect()
}

/// A second finger comes down on the other target while the first is still on its own.
async fn with_two_fingers(browser: &Chromium, snippet: SnippetId) {
    go_on(browser, snippet).await;
    let (not_yet, clean) = (browser.field(".target.not-yet").await, browser.field(".target.clean").await);
    let (first, second) = (middle(not_yet), middle(clean));
    browser.fingers(&[], &[first]).await;
    tokio::time::sleep(PLAYED).await;
    browser.fingers(&[first], &[first, second]).await;
    tokio::time::sleep(Duration::from_millis(100)).await;
    browser.fingers(&[first, second], &[first]).await;
    browser.fingers(&[first], &[]).await;
    tokio::time::sleep(LATER).await;
    assert_eq!(undo_word(browser).await, "Undo not yet", "two fingers gave two verdicts");
}

async fn a_held_key_acts_once(browser: &Chromium) {
    tokio::time::sleep(PLAYED).await;
    browser.judge(Verdict::NotYet).await;
    browser.run("document.querySelector('.practise .small button:nth-child(2)').focus()").await;
    browser.hold_enter(4).await;
    tokio::time::sleep(LATER).await;
    assert_eq!(undo_word(browser).await, "Undo not yet", "a held key has undone more than one thing");
}

/// A tap that counts has a mark at once, a bounce has none, and no word has to be read.
async fn each_verdict_is_marked_where_it_was_tapped(browser: &Chromium) {
    browser
        .run(
            "globalThis.marks = [];
            new MutationObserver((changes) => {
                for (const { addedNodes } of changes)
                    for (const node of addedNodes)
                        if (node.matches?.('.taken')) {
                            const mark = node.querySelector('circle').getBoundingClientRect();
                            marks.push([mark.left + mark.width / 2, mark.top + mark.height / 2]);
                        }
            }).observe(document.body, { childList: true, subtree: true });",
        )
        .await;
    let [left, top, ..] = browser.field(".target.not-yet").await;
    let spots = [(left + 90.0, top + 70.0), (left + 200.0, top + 120.0)];
    for spot in spots {
        tokio::time::sleep(PLAYED).await;
        browser.touch(spot, Duration::from_millis(20)).await;
        browser.touch((spot.0 + 30.0, spot.1), Duration::from_millis(20)).await;
    }
    tokio::time::sleep(LATER).await;
    let marks: Vec<Spot> = serde_json::from_value(browser.run("return marks").await).expect("spots");
    assert_eq!(marks.len(), spots.len(), "a bounce is marked, or a verdict is not: {marks:?}");
    for (mark, spot) in marks.iter().zip(spots) {
        assert!((mark.0 - spot.0).hypot(mark.1 - spot.1) < 8.0, "marked at {mark:?}, tapped at {spot:?}");
    }
    let left = browser.run("return document.querySelectorAll('.taken').length").await;
    assert_eq!(left, 0, "the mark stays");
}

/// The width of a thumb, in CSS px. Common practice, no source.
const THUMB: f64 = 60.0;

#[tokio::test]
async fn nothing_that_ends_a_block_stands_next_to_a_target() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    let sizes = [(1180, 820), (1024, 690), (820, 1180), (390, 844), (844, 390), (590, 410)];
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::NotYet).await;
    for (width, height) in sizes {
        browser.set_viewport(Viewport { name: "any", width, height, scale: 1, text: 100 }).await;
        tokio::time::sleep(Duration::from_millis(300)).await;
        let targets = browser.fields(&boxes(".target")).await;
        let ends = browser.fields(&boxes(".small button:is(:first-child, :last-child)")).await;
        assert_eq!((targets.len(), ends.len()), (2, 2));
        for (end, target) in ends.iter().flat_map(|end| targets.iter().map(move |target| (end, target))) {
            let apart = |low: usize, high: usize| (end[low] - target[high]).max(target[low] - end[high]).max(0.0);
            let distance = apart(0, 2).hypot(apart(1, 3));
            assert!(distance >= THUMB, "{distance} px from {end:?} to {target:?} at {width} × {height}");
        }
    }
    browser.finish().await;
}

fn boxes(selector: &str) -> String {
    format!(
        "return [...document.querySelectorAll('{selector}')].map((element) => element.getBoundingClientRect())
            .map((box) => [box.left, box.top, box.right, box.bottom])"
    )
}

#[tokio::test]
async fn undo_takes_back_one_thing_and_what_is_removed_can_be_brought_back() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.set_viewport(Viewport::LANDSCAPE).await;
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::Clean).await;
    browser.tap("Stop").await;
    browser.tap("Undo stop").await;
    browser.begin().await;
    browser.tap("Undo clean").await;
    browser.wait_for(".small button[disabled]").await;
    browser.tap("Stop").await;
    for number in 1..=8 {
        browser.visit("pieces").await;
        browser.tap("Duplicate Study for a Soft Landing").await;
        browser.wait_for(&format!(".rows li:nth-child({})", number + 1)).await;
    }
    browser
        .run("document.querySelector('.rows li:first-child button:last-child').scrollIntoView({ block: 'end' })")
        .await;
    browser.run("window.scrollTo(0, document.documentElement.scrollHeight)").await;
    browser.tap("Remove Study for a Soft Landing").await;
    browser.run("window.scrollTo(0, document.documentElement.scrollHeight)").await;
    let [_, top, _, bottom] = browser.field(".notice button").await;
    assert!(top >= 0.0 && bottom <= f64::from(Viewport::LANDSCAPE.height), "its undo is out of sight: {top}..{bottom}");
    browser.refresh().await.expect("a reload");
    browser.visit("data").await;
    browser.tap("Bring Study for a Soft Landing back").await;
    browser.visit("progress").await;
    browser.wait_for_text("Study for a Soft Landing").await;
    browser.visit("data").await;
    assert_eq!(browser.run("return document.querySelectorAll('#removed').length").await, 0);
    browser.finish().await;
}
