//! Values by their keys, for whoever asks for the same one many times in a row: a history is long runs of one device and
//! one snippet.

use std::collections::BTreeMap;

/// Values by their keys. The one asked for last is found at once, the others in logarithmic time.
#[derive(Clone, Debug)]
pub struct AtHand<K, V> {
    places: BTreeMap<K, usize>,
    /// Empty where the value was removed.
    values: Vec<Option<V>>,
    latest: Option<(K, usize)>,
}

impl<K, V> Default for AtHand<K, V> {
    fn default() -> Self {
        AtHand { places: BTreeMap::new(), values: Vec::new(), latest: None }
    }
}

/// Equal where the same values have the same keys.
impl<K: Ord + Copy, V: PartialEq> PartialEq for AtHand<K, V> {
    fn eq(&self, other: &Self) -> bool {
        self.iter().eq(other.iter())
    }
}

impl<K: Ord + Copy, V> AtHand<K, V> {
    fn place(&self, key: K) -> Option<usize> {
        match self.latest {
            Some((latest, place)) if latest == key => Some(place),
            _ => self.places.get(&key).copied(),
        }
    }

    /// The value of the key.
    pub fn get(&self, key: K) -> Option<&V> {
        self.values[self.place(key)?].as_ref()
    }

    /// The value of the key, to be changed.
    pub fn get_mut(&mut self, key: K) -> Option<&mut V> {
        let place = self.place(key)?;
        self.latest = Some((key, place));
        self.values[place].as_mut()
    }

    /// Gives the key this value, in place of the one it may have had.
    pub fn insert(&mut self, key: K, value: V) {
        self.remove(key);
        self.places.insert(key, self.values.len());
        self.values.push(Some(value));
    }

    /// Takes the value of the key out.
    pub fn remove(&mut self, key: K) -> Option<V> {
        let place = self.places.remove(&key)?;
        self.latest = None;
        self.values[place].take()
    }

    /// All values in the order of their keys.
    pub fn iter(&self) -> impl Iterator<Item = (K, &V)> {
        self.places.iter().filter_map(|(key, place)| Some((*key, self.values[*place].as_ref()?)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn it_holds_what_a_map_holds(steps: Vec<(u8, Option<u16>)>) {
            let (mut at_hand, mut map) = (AtHand::default(), BTreeMap::new());
            for (key, value) in steps {
                let key = key % 8;
                match value {
                    Some(value) if value % 2 == 0 => {
                        at_hand.insert(key, value);
                        map.insert(key, value);
                    }
                    Some(value) => {
                        at_hand.get_mut(key).into_iter().for_each(|held| *held = value);
                        map.get_mut(&key).into_iter().for_each(|held| *held = value);
                    }
                    None => prop_assert_eq!(at_hand.remove(key), map.remove(&key)),
                }
                prop_assert_eq!(at_hand.get(key), map.get(&key));
            }
            prop_assert!(at_hand.iter().eq(map.iter().map(|(key, value)| (*key, value))));
        }
    }
}
