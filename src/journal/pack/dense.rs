//! Bytes as text, 15 bits to a character.
//!
//! The browser's quick store holds text and counts its characters, whatever they are. Those from U+0100 to
//! U+80FF are one UTF-16 unit each and no surrogates, so that each carries 15 bits unharmed.

/// The character that stands for 0.
const FIRST: u32 = 0x100;
const BITS: u32 = 15;

/// The bytes as text; the last character is filled up with zeros.
pub fn text(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len() / 5 * 8 + 3);
    let (mut held, mut count) = (0_u32, 0);
    for byte in bytes {
        held = held << 8 | u32::from(*byte);
        count += 8;
        if count >= BITS {
            count -= BITS;
            text.extend(char::from_u32(FIRST + (held >> count)));
            held &= (1 << count) - 1;
        }
    }
    if count > 0 {
        text.extend(char::from_u32(FIRST + (held << (BITS - count))));
    }
    text
}

/// The first `length` bytes of the text; `None` where it does not hold exactly so many.
pub fn bytes(text: &str, length: usize) -> Option<Vec<u8>> {
    if length > text.len() * 2 {
        return None;
    }
    let mut bytes = Vec::with_capacity(length + 1);
    let (mut held, mut count) = (0_u32, 0);
    for letter in text.chars() {
        let value = u32::from(letter).checked_sub(FIRST).filter(|value| *value < 1 << BITS)?;
        held = held << BITS | value;
        count += BITS;
        while count >= 8 {
            count -= 8;
            bytes.push((held >> count) as u8);
        }
        held &= (1 << count) - 1;
    }
    // The filling may be worth a byte of zeros.
    let filled = bytes.get(length..).is_some_and(|filling| matches!(filling, [] | [0])) && held == 0;
    bytes.truncate(length);
    filled.then_some(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn bytes_come_back_from_their_text(original: Vec<u8>) {
            let dense = text(&original);
            prop_assert_eq!(dense.chars().count(), (original.len() * 8).div_ceil(15));
            prop_assert!(dense.encode_utf16().all(|unit| (0x100..0x8100).contains(&unit)));
            prop_assert_eq!(bytes(&dense, original.len()), Some(original.clone()));
            prop_assert_eq!(bytes(&dense, original.len() + 2), None);
        }
    }
}
