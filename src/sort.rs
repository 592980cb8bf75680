//! One sort for all types. The standard library compiles one for each type; in this program those would make up a tenth
//! of the first download.

use std::cmp::Ordering;

/// Sorts by the `key` of each item; equal items keep their order.
pub fn by_key<T, K: Ord>(items: &mut [T], key: impl Fn(&T) -> K) {
    by(items, |one, other| key(one).cmp(&key(other)));
}

/// Sorts by `compare`; equal items keep their order.
pub fn by<T>(items: &mut [T], compare: impl Fn(&T, &T) -> Ordering) {
    // Most lists are in order already.
    if items.is_sorted_by(|one, other| compare(one, other).is_le()) {
        return;
    }
    let mut places = sorted(items.len(), &|one, other| compare(&items[one], &items[other]));
    for place in 0..items.len() {
        while places[place] != place {
            let to = places[place];
            items.swap(place, to);
            places.swap(place, to);
        }
    }
}

/// Where each of `count` items belongs.
#[cfg_attr(not(test), expect(clippy::disallowed_methods, reason = "this is the one sort"))]
fn sorted(count: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut order: Vec<usize> = (0..count).collect();
    order.sort_by(|one, other| compare(*one, *other));
    let mut places = vec![0; count];
    order.into_iter().enumerate().for_each(|(place, item)| places[item] = place);
    places
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn it_sorts_as_the_standard_library_does(mut items: Vec<(u8, u32)>) {
            let mut expected = items.clone();
            expected.sort_by_key(|(key, _)| key / 8);
            by_key(&mut items, |(key, _)| key / 8);
            prop_assert_eq!(items, expected);
        }
    }
}
