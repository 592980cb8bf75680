//! Values that are written as their text: moments, fractions, identities.

use serde::{
    Deserialize, Deserializer, Serialize, Serializer,
    de::{self, Visitor},
};
use std::{fmt, marker::PhantomData, str::FromStr};

/// A value in the form that its `Display` writes and its `FromStr` reads. No text is allocated on
/// the way in: a journal holds millions of them.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Text<T>(pub T);

impl<T: fmt::Display> Serialize for Text<T> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(&self.0)
    }
}

impl<'de, T: FromStr<Err: fmt::Display>> Deserialize<'de> for Text<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Reading<T>(PhantomData<T>);
        impl<T: FromStr<Err: fmt::Display>> Visitor<'_> for Reading<T> {
            type Value = T;
            fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
                f.write_str("a text")
            }
            fn visit_str<E: de::Error>(self, text: &str) -> Result<T, E> {
                text.parse().map_err(E::custom)
            }
        }
        from.deserialize_str(Reading(PhantomData)).map(Text)
    }
}
