//! How words are kept: every message has a name, its arguments have types, and each language is one list of texts.
//!
//! English is part of the program and checked by the compiler: a message that does not exist cannot be said, and its
//! arguments are those it asks for. Any other [`Language`] is a text file that is loaded beside the program; what it
//! lacks is said in English, and [`Language::faults`] tells what that is.

use crate::words::{
    english,
    plural::{Category, Rule},
};
use std::{collections::BTreeMap, fmt, sync::OnceLock};

/// A number that decides between singular and plural.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Count(pub u64);

impl From<usize> for Count {
    fn from(count: usize) -> Self {
        Count(count as u64)
    }
}

impl From<u32> for Count {
    fn from(count: u32) -> Self {
        Count(u64::from(count))
    }
}

/// What a message is told.
pub trait Argument {
    /// As it stands in the text.
    fn text(&self) -> String;

    /// The number that decides between the forms of the text, if it is one.
    fn count(&self) -> Option<u64> {
        None
    }
}

impl Argument for Count {
    fn text(&self) -> String {
        self.0.to_string()
    }

    fn count(&self) -> Option<u64> {
        Some(self.0)
    }
}

impl Argument for &str {
    fn text(&self) -> String {
        (*self).to_string()
    }
}

/// A number that stands in the text and changes no other word.
impl Argument for i64 {
    fn text(&self) -> String {
        self.to_string()
    }
}

/// A message as a language says it: one text, or one for each category of number.
pub type Forms<'a> = &'a [(Category, &'static str)];

/// A message of the program: its name, what it asks for, and its English.
pub struct Message {
    /// Unique; the key in a file of words.
    pub name: &'static str,
    /// The names of the places in its texts.
    pub arguments: &'static [&'static str],
    /// The argument that decides between the forms.
    pub counts: Option<&'static str>,
    /// Its texts in English.
    pub english: Forms<'static>,
}

/// Declares the messages of a part of the list that comes after so many others: `name = "text";`,
/// `name(argument: type) = "text {argument}";` or, with one [`Count`](crate::words::Count) among the arguments,
/// `name(count: Count) = [One "one", Other "{count}"];`.
macro_rules! messages {
    (after $before:expr; $($(#[$doc:meta])* $name:ident $(($($argument:ident: $kind:ty),+))? = $text:tt;)+) => {
        /// The messages, in the order of the list.
        #[allow(non_camel_case_types, reason = "a key is spelled as its function is")]
        enum Key { $($name),+ }

        /// The messages of this part.
        pub(super) const MESSAGES: &[$crate::words::catalogue::Message] = &[$($crate::words::catalogue::Message {
            name: stringify!($name),
            arguments: &[$($(stringify!($argument)),+)?],
            counts: $crate::words::catalogue::counting(&[$($((stringify!($argument), stringify!($kind))),+)?]),
            english: $crate::words::catalogue::forms!($text),
        }),+];

        /// The place of the first message of this part in the whole list, and of the first behind it.
        const FIRST: usize = $before;
        #[allow(dead_code, reason = "nothing comes after the last part")]
        pub(super) const END: usize = FIRST + MESSAGES.len();

        $($crate::words::catalogue::message! { $(#[$doc])* $name $(($($argument: $kind),+))? })+
    };
}

/// The function that says one message.
macro_rules! message {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[allow(missing_docs, reason = "its text tells")]
        pub fn $name() -> &'static str {
            $crate::words::catalogue::said(FIRST + Key::$name as usize)
        }
    };
    ($(#[$doc:meta])* $name:ident ($($argument:ident: $kind:ty),+)) => {
        $(#[$doc])*
        #[allow(missing_docs, reason = "its text tells")]
        pub fn $name($($argument: $kind),+) -> String {
            let arguments: &[(&str, &dyn $crate::words::catalogue::Argument)] =
                &[$((stringify!($argument), &$argument)),+];
            $crate::words::catalogue::said_of(FIRST + Key::$name as usize, arguments)
        }
    };
}

/// The forms of a text.
macro_rules! forms {
    ([$($category:ident $text:literal),+]) => {
        &[$(($crate::words::plural::Category::$category, $text)),+]
    };
    ($text:literal) => {
        &[($crate::words::plural::Category::Other, $text)]
    };
}

pub(crate) use {forms, message, messages};

/// The name of the argument that is a count.
pub const fn counting(arguments: &[(&'static str, &'static str)]) -> Option<&'static str> {
    let mut index = 0;
    while index < arguments.len() {
        if let b"Count" = arguments[index].1.as_bytes() {
            return Some(arguments[index].0);
        }
        index += 1;
    }
    None
}

/// What the page speaks; English where nothing was chosen.
static SPOKEN: OnceLock<Language> = OnceLock::new();

/// Speaks `language` from now on. It is chosen once, before anything is said; a page that is to speak another one is
/// reloaded.
pub fn speak(language: Language) {
    _ = SPOKEN.set(language);
}

/// A message without arguments, by its place in the list.
pub fn said(place: usize) -> &'static str {
    SPOKEN.get().map_or_else(|| in_english(place, None), |spoken| spoken.text(place, None))
}

/// A message with its arguments, by its place in the list.
pub fn said_of(place: usize, arguments: &[(&str, &dyn Argument)]) -> String {
    let count = arguments.iter().find_map(|(_, argument)| argument.count());
    let text = SPOKEN.get().map_or_else(|| in_english(place, count), |spoken| spoken.text(place, count));
    filled(text, arguments)
}

fn in_english(place: usize, count: Option<u64>) -> &'static str {
    form(english::nth(place).english, count.map_or(Category::Other, |count| Rule::English.category(count)))
}

/// The text for a category of number; for one that has no text of its own, the last.
fn form(forms: Forms, category: Category) -> &'static str {
    let of_category = forms.iter().find(|(known, _)| *known == category);
    of_category.or(forms.last()).map_or("", |(_, text)| text)
}

/// The text with each `{argument}` in its place.
fn filled(text: &str, arguments: &[(&str, &dyn Argument)]) -> String {
    let mut parts = text.split('{');
    let mut filled = parts.next().unwrap_or_default().to_string();
    for part in parts {
        let (name, rest) = part.split_once('}').unwrap_or((part, ""));
        let argument = arguments.iter().find(|(known, _)| *known == name);
        filled.extend(argument.map(|(_, argument)| argument.text()));
        filled.push_str(rest);
    }
    filled
}

/// A language that is loaded beside the program.
#[derive(Debug, PartialEq, Eq)]
pub struct Language {
    rule: Rule,
    texts: Vec<Vec<(Category, &'static str)>>,
    faults: Vec<Fault>,
}

/// What is wrong with a file of words.
#[derive(Clone, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the fields say what they hold")]
pub enum Fault {
    /// It does not begin with `plural = ` and a rule that the program knows.
    NoRule,
    /// A line that is no `name = text`.
    NoMessage { line: usize },
    /// A message that the program does not have.
    Unknown { name: String },
    /// A message that is not there, or not for numbers of this category.
    Missing { name: &'static str, category: Category },
    /// A place for an argument that the message does not have.
    NoSuchArgument { name: &'static str, argument: String },
    /// An argument that must be told and has no place.
    NoPlaceFor { name: &'static str, argument: &'static str },
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        match self {
            Fault::NoRule => write!(f, "the first line is no “plural = …” with a known rule"),
            Fault::NoMessage { line } => write!(f, "line {line} is no “name = text”"),
            Fault::Unknown { name } => write!(f, "there is no message “{name}”"),
            Fault::Missing { name, category } => write!(f, "“{name}” is missing for {category:?}"),
            Fault::NoSuchArgument { name, argument } => write!(f, "“{name}” has no “{argument}”"),
            Fault::NoPlaceFor { name, argument } => write!(f, "“{name}” must say “{argument}”"),
        }
    }
}

impl Language {
    /// Reads a file of words: `plural = RULE`, then a line `name = text` for every message or, where a count decides,
    /// a line `name.CATEGORY = text` for each category of the rule. Empty lines and lines that begin with `#` are
    /// passed over. The text lives as long as the page.
    pub fn read(file: &str) -> Language {
        let file: &'static str = String::from(file).leak();
        let lines = file.lines().map(str::trim).zip(1..);
        let mut lines = lines.filter(|(line, _)| !line.is_empty() && !line.starts_with('#'));
        let rule = lines
            .next()
            .and_then(|(line, _)| Rule::named(line.strip_prefix("plural")?.trim().strip_prefix('=')?.trim()));
        let mut language = Language {
            rule: rule.unwrap_or(Rule::English),
            texts: english::all().map(|_| Vec::new()).collect(),
            faults: Vec::from_iter(rule.is_none().then_some(Fault::NoRule)),
        };
        let keys: BTreeMap<&str, usize> = english::all().map(|message| message.name).zip(0..).collect();
        for (line, number) in lines {
            language.take(&keys, line, number);
        }
        language
    }

    fn take(&mut self, keys: &BTreeMap<&str, usize>, line: &'static str, number: usize) {
        let Some((name, text)) = line.split_once('=') else {
            self.faults.push(Fault::NoMessage { line: number });
            return;
        };
        let (name, category) = name.trim().split_once('.').unwrap_or((name.trim(), "other"));
        match (keys.get(name), Category::named(category)) {
            (Some(key), Some(category)) => self.texts[*key].push((category, text.trim())),
            _ => self.faults.push(Fault::Unknown { name: name.into() }),
        }
    }

    /// What is wrong with the file; nothing where every message can be said in it.
    pub fn faults(&self) -> Vec<Fault> {
        let of_messages = english::all().zip(&self.texts).flat_map(|(message, forms)| self.faults_of(message, forms));
        self.faults.iter().cloned().chain(of_messages).collect()
    }

    fn faults_of(&self, message: &Message, forms: Forms) -> Vec<Fault> {
        let name = message.name;
        let wanted = if message.counts.is_some() { self.rule.categories() } else { &[Category::Other] };
        let has = |category: Category| forms.iter().any(|(known, _)| *known == category);
        let missing = wanted.iter().filter(|category| !has(**category));
        let missing = missing.map(|category| Fault::Missing { name, category: *category });
        missing.chain(forms.iter().flat_map(|(category, text)| misplaced(message, *category, text))).collect()
    }

    fn text(&self, place: usize, count: Option<u64>) -> &'static str {
        let category = count.map_or(Category::Other, |count| self.rule.category(count));
        match self.texts[place].as_slice() {
            [] => in_english(place, count),
            forms => form(forms, category),
        }
    }

    /// The message with this name in this language, whatever the page speaks; `None` where there is none.
    pub fn say(&self, name: &str, arguments: &[(&str, &dyn Argument)]) -> Option<String> {
        let place = english::all().position(|message| message.name == name)?;
        let count = arguments.iter().find_map(|(_, argument)| argument.count());
        Some(filled(self.text(place, count), arguments))
    }
}

/// The arguments that have no place in a text, and the places that have no argument. A count may be left to the words
/// where its category is a single number: “yesterday”.
pub fn misplaced(message: &Message, category: Category, text: &str) -> Vec<Fault> {
    let name = message.name;
    let places: Vec<&str> = text.split('{').skip(1).map(|part| part.split('}').next().unwrap_or_default()).collect();
    let unknown = places.iter().filter(|place| !message.arguments.contains(place));
    let unknown = unknown.map(|place| Fault::NoSuchArgument { name, argument: (*place).into() });
    let may_go = |argument: &&str| category != Category::Other && message.counts == Some(argument);
    let unsaid = message.arguments.iter().filter(|argument| !places.contains(argument) && !may_go(argument));
    unknown.chain(unsaid.map(|argument| Fault::NoPlaceFor { name, argument })).collect()
}
