//! Values by name, for names that are looked up far more often than they are listed.

#![expect(
    clippy::disallowed_types,
    reason = "no order of its own can reach the output: a listing is put in order first"
)]

use std::borrow::Borrow;
use std::collections::HashMap;
use std::hash::Hash;

/// A map from names to values. Its listing is in the order of the names.
#[derive(Debug, Clone)]
pub struct ByName<K, V>(HashMap<K, V>);

impl<K, V> Default for ByName<K, V> {
    fn default() -> Self {
        Self(HashMap::new())
    }
}

impl<K: Borrow<str> + Hash + Eq + Ord, V> ByName<K, V> {
    /// The value of a name.
    pub fn get(&self, name: &str) -> Option<&V> {
        self.0.get(name)
    }

    /// Gives a name a value, and hands back the one that it had.
    pub fn insert(&mut self, name: K, value: V) -> Option<V> {
        self.0.insert(name, value)
    }

    /// Takes a name away, with its value.
    pub fn remove(&mut self, name: &str) -> Option<V> {
        self.0.remove(name)
    }

    /// How many names there are.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there is no name.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Takes away the names that are not `wanted`.
    pub fn retain(&mut self, wanted: impl Fn(&str) -> bool) {
        self.0.retain(|name, _| wanted(name.borrow()));
    }

    /// The value of a name, which begins as the default one.
    pub fn get_or_default(&mut self, name: K) -> &mut V
    where
        V: Default,
    {
        self.0.entry(name).or_default()
    }

    /// The value of a name, which begins as `first`.
    pub fn get_or(&mut self, name: K, first: V) -> &mut V {
        self.0.entry(name).or_insert(first)
    }

    /// All names and their values, in the order of the names.
    pub fn iter(&self) -> impl Iterator<Item = (&K, &V)> {
        let mut all: Vec<(&K, &V)> = self.0.iter().collect();
        all.sort_unstable_by_key(|(name, _)| *name);
        all.into_iter()
    }

    /// All names, in order.
    pub fn names(&self) -> impl Iterator<Item = &K> {
        self.iter().map(|(name, _)| name)
    }

    /// The names that `wanted` picks, in order.
    pub fn picked(&self, wanted: impl Fn(&K) -> bool) -> impl Iterator<Item = &K> {
        let mut names: Vec<&K> = self.0.keys().filter(|name| wanted(name)).collect();
        names.sort_unstable();
        names.into_iter()
    }
}

impl<K: Hash + Eq, V> FromIterator<(K, V)> for ByName<K, V> {
    fn from_iter<I: IntoIterator<Item = (K, V)>>(pairs: I) -> Self {
        Self(pairs.into_iter().collect())
    }
}

impl<K: Hash + Eq, V> Extend<(K, V)> for ByName<K, V> {
    fn extend<I: IntoIterator<Item = (K, V)>>(&mut self, pairs: I) {
        self.0.extend(pairs);
    }
}

#[cfg(test)]
mod tests {
    use super::ByName;

    #[test]
    fn a_listing_is_in_order() {
        let names = ["weir", "oat", "rosemary", "soda"];
        let mut map: ByName<&str, usize> = names.into_iter().zip(0..).collect();
        assert_eq!(
            map.names().copied().collect::<Vec<_>>(),
            ["oat", "rosemary", "soda", "weir"]
        );
        assert_eq!(map.insert("oat", 9), Some(1));
        *map.get_or_default("pine") += 1;
        assert_eq!(
            (map.remove("oat"), map.remove("pine"), map.remove("elm")),
            (Some(9), Some(1), None)
        );
    }
}
