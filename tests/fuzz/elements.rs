//! Changes to whole elements of a score's text.

use std::ops::Range;

/// What numbers are replaced by: the borders of what a score can mean, and beyond.
const NUMBERS: [&str; 20] = [
    "0", "1", "2", "3", "4", "5", "7", "8", "16", "-1", "-3", "0.333", "0.001", "127", "255", "256", "65537", "999999",
    "1e300", "x",
];

/// The text after one change that `seed` chooses; `None` where it is no text with elements.
pub fn change(bytes: &[u8], seed: u32) -> Option<Vec<u8>> {
    let text = std::str::from_utf8(bytes).ok()?;
    let mut chance = Chance(u64::from(seed) | 1 << 40);
    let element = any_element(text, &mut chance)?;
    let other = any_element(text, &mut chance)?;
    let (before, own, after) = (&text[..element.start], &text[element.clone()], &text[element.end..]);
    let changed = match chance.below(6) {
        0 => [before, after].concat(),
        1 => [before, own, own, after].concat(),
        2 => [before, &text[other], after].concat(),
        3 => insert(&[before, after].concat(), own, &mut chance)?,
        4 => insert(text, own, &mut chance)?,
        _ => renumbered(text, &mut chance)?,
    };
    Some(changed.into_bytes())
}

struct Chance(u64);

impl Chance {
    /// A number below `bound`, by xorshift.
    fn below(&mut self, bound: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % bound.max(1) as u64) as usize
    }
}

/// An element from its tag to its end.
fn any_element(text: &str, chance: &mut Chance) -> Option<Range<usize>> {
    let tags: Vec<usize> = text.match_indices('<').map(|(at, _)| at).filter(|at| is_name(text, at + 1)).collect();
    let start = *tags.get(chance.below(tags.len()))?;
    let head = start + text[start..].find('>')? + 1;
    if text[..head].ends_with("/>") {
        return Some(start..head);
    }
    let name = text[start + 1..head].split(|letter: char| !(letter.is_alphanumeric() || letter == '-')).next()?;
    let close = format!("</{name}>");
    Some(start..head + text[head..].find(&close)? + close.len())
}

fn is_name(text: &str, at: usize) -> bool {
    text.as_bytes().get(at).is_some_and(u8::is_ascii_alphabetic)
}

fn insert(text: &str, element: &str, chance: &mut Chance) -> Option<String> {
    let tags: Vec<usize> = text.match_indices('<').map(|(at, _)| at).collect();
    let (before, after) = text.split_at(*tags.get(chance.below(tags.len()))?);
    Some([before, element, after].concat())
}

fn renumbered(text: &str, chance: &mut Chance) -> Option<String> {
    let digit = |at: usize| text.as_bytes()[at].is_ascii_digit();
    let numbers: Vec<usize> = (1..text.len()).filter(|at| digit(*at) && !digit(at - 1)).collect();
    let start = *numbers.get(chance.below(numbers.len()))?;
    let end = (start..text.len()).find(|at| !digit(*at)).unwrap_or(text.len());
    Some([&text[..start], NUMBERS[chance.below(NUMBERS.len())], &text[end..]].concat())
}
