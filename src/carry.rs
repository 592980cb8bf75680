//! Values as bytes: for messages between the page and its worker, and for data built into the program.
//!
//! Both sides always come from one build, so versions and names are not needed: a value is its fields one after the
//! other, an enum the number of its variant and then that variant's fields. Whole numbers are written seven bits to a
//! byte, the lowest first (LEB128, DWARF 5 section 7.6), signed ones folded so that small ones stay small.
//! [`from_bytes`] restores what [`bytes_of`] wrote; any other bytes give a value or `None`, never a panic.

use std::{collections::BTreeSet, rc::Rc};

/// A value that can be carried.
pub trait Carry: Sized {
    /// Writes the value at the end of `out`.
    fn put(&self, out: &mut Vec<u8>);
    /// Takes a value from the front of `bytes`; `None` where there is none.
    fn take(bytes: &mut &[u8]) -> Option<Self>;
}

/// The value as bytes.
pub fn bytes_of<T: Carry>(value: &T) -> Vec<u8> {
    let mut out = Vec::new();
    value.put(&mut out);
    out
}

/// The value that these bytes are, all of them.
pub fn from_bytes<T: Carry>(mut bytes: &[u8]) -> Option<T> {
    let value = T::take(&mut bytes)?;
    bytes.is_empty().then_some(value)
}

impl Carry for u64 {
    fn put(&self, out: &mut Vec<u8>) {
        let mut rest = *self;
        while rest >= 0x80 {
            out.push(rest as u8 | 0x80);
            rest >>= 7;
        }
        out.push(rest as u8);
    }

    fn take(bytes: &mut &[u8]) -> Option<u64> {
        let mut value = 0_u64;
        for shift in (0..64).step_by(7) {
            let (byte, rest) = bytes.split_first()?;
            *bytes = rest;
            value |= u64::from(byte & 0x7F) << shift;
            if byte & 0x80 == 0 {
                return Some(value);
            }
        }
        None
    }
}

impl Carry for i64 {
    fn put(&self, out: &mut Vec<u8>) {
        ((self << 1) ^ (self >> 63)).cast_unsigned().put(out);
    }

    fn take(bytes: &mut &[u8]) -> Option<i64> {
        let folded = u64::take(bytes)?;
        Some((folded >> 1).cast_signed() ^ -(folded & 1).cast_signed())
    }
}

/// Integers that are written as a wider type.
macro_rules! as_wider {
    ($($narrow:ty as $wide:ty),*) => {$(
        impl Carry for $narrow {
            fn put(&self, out: &mut Vec<u8>) {
                (*self as $wide).put(out);
            }
            fn take(bytes: &mut &[u8]) -> Option<Self> {
                <$wide>::take(bytes)?.try_into().ok()
            }
        }
    )*};
}
as_wider!(u8 as u64, u16 as u64, u32 as u64, usize as u64, i8 as i64, i16 as i64, isize as i64);

impl Carry for bool {
    fn put(&self, out: &mut Vec<u8>) {
        u8::from(*self).put(out);
    }

    fn take(bytes: &mut &[u8]) -> Option<bool> {
        Some(u8::take(bytes)? != 0)
    }
}

impl Carry for Rc<str> {
    fn put(&self, out: &mut Vec<u8>) {
        self.len().put(out);
        out.extend_from_slice(self.as_bytes());
    }

    fn take(bytes: &mut &[u8]) -> Option<Rc<str>> {
        str::from_utf8(taken(bytes)?).ok().map(Rc::from)
    }
}

impl Carry for String {
    fn put(&self, out: &mut Vec<u8>) {
        self.len().put(out);
        out.extend_from_slice(self.as_bytes());
    }

    fn take(bytes: &mut &[u8]) -> Option<String> {
        str::from_utf8(taken(bytes)?).ok().map(String::from)
    }
}

/// Bytes with their count in front.
fn taken<'a>(bytes: &mut &'a [u8]) -> Option<&'a [u8]> {
    let (taken, rest) = { usize::take(bytes).and_then(|length| bytes.split_at_checked(length)) }?;
    *bytes = rest;
    Some(taken)
}

/// Plain bytes, as fast as a copy.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Raw(pub Vec<u8>);

impl Carry for Raw {
    fn put(&self, out: &mut Vec<u8>) {
        self.0.len().put(out);
        out.extend_from_slice(&self.0);
    }

    fn take(bytes: &mut &[u8]) -> Option<Raw> {
        taken(bytes).map(|taken| Raw(taken.to_vec()))
    }
}

impl<T: Carry> Carry for Option<T> {
    fn put(&self, out: &mut Vec<u8>) {
        self.is_some().put(out);
        self.iter().for_each(|value| value.put(out));
    }

    fn take(bytes: &mut &[u8]) -> Option<Self> {
        Some(if bool::take(bytes)? { Some(T::take(bytes)?) } else { None })
    }
}

impl<T: Carry> Carry for Vec<T> {
    fn put(&self, out: &mut Vec<u8>) {
        self.len().put(out);
        self.iter().for_each(|item| item.put(out));
    }

    fn take(bytes: &mut &[u8]) -> Option<Vec<T>> {
        let count = usize::take(bytes)?;
        // Every item takes at least one byte, so no count can demand more room than there are bytes.
        let mut items = Vec::with_capacity(count.min(bytes.len()));
        for _ in 0..count {
            items.push(T::take(bytes)?);
        }
        Some(items)
    }
}

impl<T: Carry + Ord> Carry for BTreeSet<T> {
    fn put(&self, out: &mut Vec<u8>) {
        self.len().put(out);
        self.iter().for_each(|item| item.put(out));
    }

    fn take(bytes: &mut &[u8]) -> Option<Self> {
        Vec::take(bytes).map(BTreeSet::from_iter)
    }
}

impl<A: Carry, B: Carry> Carry for (A, B) {
    fn put(&self, out: &mut Vec<u8>) {
        self.0.put(out);
        self.1.put(out);
    }

    fn take(bytes: &mut &[u8]) -> Option<(A, B)> {
        Some((A::take(bytes)?, B::take(bytes)?))
    }
}

/// Structs, each with all its fields: one that is left out does not compile.
macro_rules! carry_structs {
    ($($name:ty { $($field:ident),* })*) => {$(
        impl $crate::carry::Carry for $name {
            fn put(&self, out: &mut Vec<u8>) {
                let Self { $($field),* } = self;
                $($crate::carry::Carry::put($field, out);)*
            }
            fn take(bytes: &mut &[u8]) -> Option<Self> {
                Some(Self { $($field: $crate::carry::Carry::take(bytes)?),* })
            }
        }
    )*};
}

/// Enums, each with all its variants: one that is left out does not compile. The numbers are those that are carried.
macro_rules! carry_enums {
    ($($name:ty { $($number:literal $variant:ident $(($($item:ident),*))? $({ $($field:ident),* })?),* })*) => {$(
        impl $crate::carry::Carry for $name {
            fn put(&self, out: &mut Vec<u8>) {
                match self {
                    $(Self::$variant $(($($item),*))? $({ $($field),* })? => {
                        out.push($number);
                        $($($crate::carry::Carry::put($item, out);)*)?
                        $($($crate::carry::Carry::put($field, out);)*)?
                    })*
                }
            }
            fn take(bytes: &mut &[u8]) -> Option<Self> {
                let (number, rest) = bytes.split_first()?;
                *bytes = rest;
                Some(match *number {
                    $($number => {
                        $($(let $item = $crate::carry::Carry::take(bytes)?;)*)?
                        $($(let $field = $crate::carry::Carry::take(bytes)?;)*)?
                        Self::$variant $(($($item),*))? $({ $($field),* })?
                    })*
                    _ => return None,
                })
            }
        }
    )*};
}

/// Values that are written as another type and rebuilt from it.
macro_rules! carry_as {
    ($($name:ty as $other:ty: $put:expr, $take:expr;)*) => {$(
        impl $crate::carry::Carry for $name {
            fn put(&self, out: &mut Vec<u8>) {
                let put: fn(&$name) -> $other = $put;
                $crate::carry::Carry::put(&put(self), out);
            }
            fn take(bytes: &mut &[u8]) -> Option<Self> {
                let take: fn($other) -> Option<$name> = $take;
                take($crate::carry::Carry::take(bytes)?)
            }
        }
    )*};
}
pub(crate) use {carry_as, carry_enums, carry_structs};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    type Sample = (Vec<(u64, i64)>, (Option<String>, (isize, (bool, u8))));

    proptest! {
        #[test]
        fn every_value_comes_back(value: Sample) {
            prop_assert_eq!(from_bytes::<Sample>(&bytes_of(&value)), Some(value));
        }

        #[test]
        fn any_bytes_at_all_give_a_value_or_nothing(bytes: Vec<u8>) {
            if let Some(value) = from_bytes::<Sample>(&bytes) {
                prop_assert_eq!(from_bytes(&bytes_of(&value)), Some(value));
            }
        }
    }

    #[test]
    fn numbers_are_written_as_the_standard_has_them() {
        // DWARF 5, section 7.6, examples of unsigned LEB128.
        for (number, bytes) in [(2_u64, &[0x02][..]), (127, &[0x7F]), (128, &[0x80, 0x01]), (12_857, &[0xB9, 0x64])] {
            assert_eq!(bytes_of(&number), bytes);
        }
    }

    #[test]
    fn a_number_that_promises_more_than_there_is_asks_for_no_room() {
        assert_eq!(from_bytes::<Vec<u64>>(&bytes_of(&u64::MAX)), None);
    }
}
