//! The catalogue: English agrees with itself, a translation is checked against it, and plurals follow CLDR.

use intl_pluralrules::{PluralCategory, PluralRuleType, PluralRules};
use std::{
    fmt::Write,
    fs,
    path::{Path, PathBuf},
};
use tailfirst::words::{
    Count, SERVED,
    catalogue::{Fault, Language, misplaced},
    english,
    plural::{Category, Rule},
    say, spoken,
};

fn category_name(category: Category) -> String {
    format!("{category:?}").to_lowercase()
}

/// English, written as a file of another language's words.
fn english_as_a_file() -> String {
    let mut file = String::from("# English again\nplural = en\n");
    for message in english::all() {
        for (category, text) in message.english {
            let form = if message.counts.is_some() { format!(".{}", category_name(*category)) } else { String::new() };
            writeln!(file, "{}{form} = {text}", message.name).expect("text takes more");
        }
    }
    file
}

#[test]
fn every_english_text_has_a_place_for_each_argument_and_both_forms_of_each_count() {
    for message in english::all() {
        let forms: Vec<Category> = message.english.iter().map(|(category, _)| *category).collect();
        let wanted: &[Category] =
            if message.counts.is_some() { &[Category::One, Category::Other] } else { &[Category::Other] };
        assert_eq!(forms, wanted, "{}", message.name);
        for (category, text) in message.english {
            assert_eq!(misplaced(message, *category, text), [], "{text}");
            assert_eq!(text.trim(), *text, "{}", message.name);
            assert!(!text.is_empty() && !text.contains("  "), "{}: {text}", message.name);
        }
    }
}

#[test]
fn one_night_and_several_are_said_each_in_its_form() {
    assert_eq!(say::held(Count(1)), "It held overnight.");
    assert_eq!(say::held(Count(3)), "It held for 3 nights.");
    assert_eq!(say::onsets(Count(0)), "0 onsets");
    assert_eq!(say::place("12", "2 1/2"), "bar 12, beat 2 1/2");
}

#[test]
fn a_translation_that_says_everything_has_no_fault() {
    assert_eq!(Language::read(&english_as_a_file()).faults(), []);
}

#[test]
fn what_a_translation_lacks_or_has_too_much_is_named() {
    let file = english_as_a_file();
    let without = |line: &str| Language::read(&file.replace(line, "")).faults();
    assert_eq!(without("\nagain = Again, the same."), [Fault::Missing { name: "again", category: Category::Other }]);
    assert_eq!(without("held.one = It held overnight.\n"), [Fault::Missing { name: "held", category: Category::One }]);
    assert_eq!(without("plural = en\n")[0], Fault::NoRule);
    let changed = |from: &str, to: &str| Language::read(&file.replace(from, to)).faults();
    assert_eq!(
        changed("{name} is settled for today.", "{nom} is settled."),
        [
            Fault::NoSuchArgument { name: "is_settled", argument: "nom".into() },
            Fault::NoPlaceFor { name: "is_settled", argument: "name" }
        ]
    );
    assert_eq!(changed("\nagain = ", "\nagian = ")[0], Fault::Unknown { name: "agian".into() });
    assert_eq!(changed("\nagain = ", "\nagain "), {
        let line = file.lines().position(|line| line.starts_with("again = ")).expect("it is there") + 1;
        [Fault::NoMessage { line }, Fault::Missing { name: "again", category: Category::Other }]
    });
}

#[test]
fn a_language_with_more_forms_than_english_is_asked_for_all_of_them_and_uses_them() {
    let polish = "plural = pl
        minutes.one = {number} minuta
        minutes.few = {number} minuty
        minutes.many = {number} minut
        not_yet = jeszcze nie";
    let polish = Language::read(polish);
    let minutes = |number| polish.say("minutes", &[("number", &Count(number))]).expect("a message");
    assert_eq!(
        [1, 2, 5, 12, 22, 25].map(minutes),
        ["1 minuta", "2 minuty", "5 minut", "12 minut", "22 minuty", "25 minut"]
    );
    assert_eq!(polish.say("not_yet", &[]).as_deref(), Some("jeszcze nie"));
    // What it does not say yet is said in English.
    assert_eq!(polish.say("onsets", &[("number", &Count(1))]).as_deref(), Some("1 onset"));
    let faults = polish.faults();
    assert!(faults.contains(&Fault::Missing { name: "onsets", category: Category::Few }), "{faults:?}");
}

#[test]
fn the_page_speaks_the_first_of_the_device_s_languages_that_it_knows() {
    let served = ["de", "pl"];
    assert_eq!(spoken(["pl-PL", "de"], &served), Some("pl"));
    assert_eq!(spoken(["fi", "DE-at", "en"], &served), Some("de"));
    assert_eq!(spoken(["en-GB", "pl"], &served), None);
    assert_eq!(spoken(["fi"], &served), None);
}

/// Whatever is in a name stays as it is: braces in a title are no places for arguments.
#[test]
fn a_title_is_never_read_as_a_text() {
    assert_eq!(say::is_settled("{name} {x"), "{name} {x is settled for today.");
}

/// Every file of words that is served beside the program, and no other is asked for.
#[test]
fn every_language_that_is_served_says_everything() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("static/words");
    let files = fs::read_dir(folder).into_iter().flatten().map(|file| file.expect("a file").path());
    let files: Vec<PathBuf> = files.collect();
    let code = |file: &PathBuf| file.file_stem().and_then(|name| name.to_str()).expect("a code").to_string();
    let mut codes: Vec<String> = files.iter().map(code).collect();
    codes.sort_unstable();
    assert_eq!(codes, SERVED.map(String::from));
    for file in files {
        let faults = Language::read(&fs::read_to_string(&file).expect("text")).faults();
        let named: Vec<String> = faults.iter().map(Fault::to_string).collect();
        assert!(named.is_empty(), "{}:\n{}", file.display(), named.join("\n"));
    }
}

/// Against the rules of CLDR 37 in the crate `intl_pluralrules` 7. Later editions give millions a form of their own in
/// French, Spanish and Italian; so these are compared below a million.
#[test]
fn plural_rules_are_those_of_cldr() {
    let numbers = (0..=1_200_u64).chain([10_000, 1_000_000, 1_000_001, 2_000_000, 3_000_002]);
    let numbers: Vec<u64> = numbers.collect();
    for code in ["ja", "zh", "ko", "en", "de", "nl", "sv", "fr", "es", "it", "cs", "sk", "pl", "ru", "uk"] {
        let known = PluralRules::get_locales(PluralRuleType::CARDINAL);
        let language = known.into_iter().find(|known| *known == code).expect("CLDR knows it");
        let cldr = PluralRules::create(language, PluralRuleType::CARDINAL).expect("rules");
        let rule = Rule::named(code).expect("a known language");
        let own_millions = matches!(rule, Rule::French | Rule::Spanish);
        for number in numbers.iter().filter(|number| !own_millions || **number < 1_000_000) {
            let theirs = match cldr.select(*number).expect("a category") {
                PluralCategory::ZERO => Category::Zero,
                PluralCategory::ONE => Category::One,
                PluralCategory::TWO => Category::Two,
                PluralCategory::FEW => Category::Few,
                PluralCategory::MANY => Category::Many,
                PluralCategory::OTHER => Category::Other,
            };
            assert_eq!(rule.category(*number), theirs, "{code}: {number}");
            assert!(rule.categories().contains(&theirs), "{code}: {theirs:?}");
        }
    }
}

/// Sources of the page, with their paths.
fn page_sources(folder: &Path, sources: &mut Vec<(PathBuf, String)>) {
    for entry in fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").path()) {
        if entry.is_dir() {
            page_sources(&entry, sources);
        } else {
            sources.push((entry.clone(), fs::read_to_string(&entry).expect("a source")));
        }
    }
}

/// Whether a line of the page's sources holds a literal that would be read by a player: between braces, as a label or
/// where a value is made, with a capital or of several words.
fn says_something_itself(line: &str) -> bool {
    let literals =
        ["{ \"", "label=\"", "=> \"", "format!(\""].into_iter().flat_map(|opening| line.split(opening).skip(1));
    let mut literals = literals.map(|rest| rest.split('"').next().unwrap_or_default());
    let is_word = |literal: &str| literal.starts_with(char::is_uppercase);
    // A first word with a parenthesis in it is a CSS function.
    let are_words = |literal: &str| {
        let first = literal.split_once(' ').map_or("", |(first, _)| first);
        first.starts_with(char::is_alphabetic) && !first.contains('(')
    };
    literals.any(|literal| is_word(literal) || are_words(literal))
}

#[test]
fn the_page_says_nothing_that_is_not_in_the_catalogue() {
    assert!(says_something_itself("<p>{ \"Rested\" }</p>") && says_something_itself("aria-label=\"Rest\""));
    assert!(says_something_itself("Rest => \"Rest\",") && says_something_itself("format!(\"Bar {bar}\")"));
    let mut sources = Vec::new();
    page_sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src/app"), &mut sources);
    assert!(sources.len() > 40, "only {} sources", sources.len());
    for (path, source) in sources {
        // How a drawing writes its curves is no word.
        let is_drawing = path.ends_with("components/drawing.rs");
        // A literal may stand on the line after its opening.
        let source = source.split("format!(").map(str::trim_start).collect::<Vec<_>>().join("format!(");
        let found = source.lines().find(|line| !is_drawing && says_something_itself(line));
        assert_eq!(found, None, "{}", path.display());
    }
}
