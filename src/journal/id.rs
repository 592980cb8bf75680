//! Who wrote an entry and which one it is; a piece and a snippet are named by the entry that made
//! them.
//!
//! Refuses to know how a device comes by its number: chance is an argument.

use serde::{Deserialize, Serialize};
use std::{fmt, str::FromStr};

/// A device that writes entries, by a number drawn at random when it first opened the program.
/// Written in base 36: `3w5e11264sgsf`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct DeviceId(pub u64);

/// An entry: its number on its device, and the device. Written as `17-3w5e11264sgsf`.
///
/// A device numbers its entries one higher than the highest number it has seen anywhere, so the
/// order of identities puts every entry after all that its writer knew of (Lamport 1978, "Time,
/// clocks, and the ordering of events in a distributed system"; from memory). Wall clocks may
/// drift and jump; this order does not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct EntryId {
    pub number: u64,
    pub device: DeviceId,
}

/// A piece, named by the entry that added it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct PieceId(pub EntryId);

/// A snippet, named by the entry that added it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct SnippetId(pub EntryId);

/// A text that names no device or entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotAnId(String);

impl fmt::Display for NotAnId {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "“{}” names no entry; it should look like 17-3w5e11264sgsf", self.0)
    }
}

impl std::error::Error for NotAnId {}

const DIGITS: &[u8; 36] = b"0123456789abcdefghijklmnopqrstuvwxyz";

impl fmt::Display for DeviceId {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        let mut rest = self.0;
        let mut digits = Vec::new();
        while rest > 0 || digits.is_empty() {
            digits.push(char::from(DIGITS[(rest % 36) as usize]));
            rest /= 36;
        }
        f.write_str(&digits.iter().rev().collect::<String>())
    }
}

impl FromStr for DeviceId {
    type Err = NotAnId;
    fn from_str(text: &str) -> Result<Self, NotAnId> {
        let device = u64::from_str_radix(text, 36).map(DeviceId).map_err(|_| NotAnId(text.into()))?;
        if device.to_string() == text { Ok(device) } else { Err(NotAnId(text.into())) }
    }
}

impl fmt::Display for EntryId {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "{}-{}", self.number, self.device)
    }
}

impl FromStr for EntryId {
    type Err = NotAnId;
    fn from_str(text: &str) -> Result<Self, NotAnId> {
        text.split_once('-')
            .and_then(|(number, device)| Some(EntryId { number: number.parse().ok()?, device: device.parse().ok()? }))
            .filter(|id| id.to_string() == text && (1..=LAST_NUMBER).contains(&id.number))
            .ok_or_else(|| NotAnId(text.into()))
    }
}

/// Highest entry number that is accepted: every JSON reader can hold it exactly (RFC 8259, 6).
const LAST_NUMBER: u64 = (1 << 53) - 1;

macro_rules! written_as_text {
    ($($id:ty),*) => {$(
        impl TryFrom<String> for $id {
            type Error = NotAnId;
            fn try_from(text: String) -> Result<Self, NotAnId> {
                text.parse()
            }
        }
        impl From<$id> for String {
            fn from(id: $id) -> String {
                id.to_string()
            }
        }
    )*};
}
written_as_text!(DeviceId, EntryId);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_identity_is_read_back_as_written_and_only_so() {
        let id = EntryId { number: 17, device: DeviceId(u64::MAX) };
        assert_eq!(id.to_string(), "17-3w5e11264sgsf");
        assert_eq!(id.to_string().parse(), Ok(id));
        for wrong in ["17", "017-a", "17-A", "0-a", "17-3w5e11264sgsg", "17-", "+17-a"] {
            assert!(wrong.parse::<EntryId>().is_err(), "{wrong}");
        }
    }
}
