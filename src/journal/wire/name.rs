//! Values of a list that a later version may extend: hands, verdicts, causes, ….

use crate::{
    journal::{Theme, wire::Unread},
    method::{Cause, Direction, Grain, Hands, Strictness, Verdict},
    music::{Hand, NoteValue, passage::Articulation, pitch::Letter},
    pulse::Click,
};
use serde::{
    Deserialize, Deserializer, Serialize, Serializer,
    de::{self, Visitor},
};
use std::{fmt, marker::PhantomData};

/// A value by its name in the file.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Name<T> {
    /// A value that this version knows.
    Known(T),
    /// A name that only a later version knows.
    Later(String),
}

impl<T> Name<T> {
    /// The value, or the news that only a later version knows it.
    pub fn known(self) -> Result<T, Unread> {
        match self {
            Name::Known(value) => Ok(value),
            Name::Later(_) => Err(Unread::Later),
        }
    }

    /// Whether only a later version knows the name.
    pub fn is_later(&self) -> bool {
        matches!(self, Name::Later(_))
    }
}

/// What can be written by name.
pub trait Named: Copy + PartialEq + 'static {
    /// All values, each once, with their names. A name never changes.
    const NAMES: &'static [(&'static str, Self)];
}

/// Whether `text` could be the name of something in a later version: `snake_case`, at most 64 characters.
pub fn is_name(text: &str) -> bool {
    let letters = text.bytes().all(|letter| letter.is_ascii_lowercase() || letter == b'_');
    letters && text.len() <= 64 && text.starts_with(|first: char| first != '_')
}

impl<T: Named> Serialize for Name<T> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let name = match self {
            Name::Later(name) => Some(name.as_str()),
            Name::Known(value) => T::NAMES.iter().find(|(_, named)| named == value).map(|(name, _)| *name),
        };
        to.serialize_str(name.ok_or_else(|| serde::ser::Error::custom("a value without a name"))?)
    }
}

impl<'de, T: Named> Deserialize<'de> for Name<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Reading<T>(PhantomData<T>);
        impl<T: Named> Visitor<'_> for Reading<T> {
            type Value = Name<T>;
            fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
                f.write_str("a name")
            }
            fn visit_str<E: de::Error>(self, text: &str) -> Result<Name<T>, E> {
                match T::NAMES.iter().find(|(name, _)| *name == text) {
                    Some((_, value)) => Ok(Name::Known(*value)),
                    None if is_name(text) => Ok(Name::Later(text.into())),
                    None => Err(E::custom(format_args!("“{text}” is no name of anything here"))),
                }
            }
        }
        from.deserialize_str(Reading(PhantomData))
    }
}

macro_rules! names {
    ($($kind:ident { $($name:literal $value:ident),* $(,)? })*) => {$(
        impl Named for $kind {
            const NAMES: &'static [(&'static str, Self)] = &[$(($name, $kind::$value)),*];
        }
    )*};
}

names! {
    Letter { "C" C, "D" D, "E" E, "F" F, "G" G, "A" A, "B" B }
    Hand { "left" Left, "right" Right, "line" Line }
    Hands { "left" Left, "right" Right, "both" Both, "line" Line }
    NoteValue { "whole" Whole, "half" Half, "quarter" Quarter, "eighth" Eighth, "sixteenth" Sixteenth }
    Articulation {
        "accent" Accent, "strong_accent" StrongAccent, "staccato" Staccato, "staccatissimo" Staccatissimo,
        "tenuto" Tenuto, "detached_legato" DetachedLegato, "fermata" Fermata, "arpeggio" Arpeggio,
    }
    Direction { "toward_goal" TowardGoal, "setting_out" SettingOut }
    Grain { "onset" Onset, "beat" Beat, "bar" Bar }
    Verdict { "clean" Clean, "not_yet" NotYet }
    Cause {
        "too_loud" TooLoud, "too_soft" TooSoft, "early" Early, "late" Late, "uneven" Uneven,
        "wrong_note" WrongNote, "tense" Tense,
    }
    Strictness { "lenient" Lenient, "usual" Usual, "strict" Strict }
    Click { "always" Always, "count_in" CountIn, "never" Never }
    Theme { "device" Device, "paper" Paper, "stage" Stage }
}
