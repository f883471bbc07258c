//! What a template is given, and all of it written down: where the same is written, the same page comes of it.

use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::Arc;

use serde::Serialize;

/// Values by name, as a template sees them.
///
/// They are written down as JSON at once, and read by the template engine only where a page is really rendered: most are the
/// same as at the last save.
#[derive(Debug, Clone, Default)]
pub(super) struct Context {
    /// Values that many pages are given.
    shared: Arc<Shared>,
    written: Vec<(&'static str, String)>,
    hasher: DefaultHasher,
    /// Whether something could not be written down.
    partial: bool,
}

#[derive(Debug, Default)]
struct Shared {
    values: tera::Context,
}

/// Tells one set of inputs from another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Digest(u64);

impl Digest {
    /// Of whatever a page is made from.
    pub(super) fn of<T: Hash + ?Sized>(inputs: &T) -> Self {
        let mut hasher = DefaultHasher::new();
        inputs.hash(&mut hasher);
        Self(hasher.finish())
    }
}

impl Context {
    /// No values yet.
    pub(super) fn new() -> Self {
        Self::default()
    }

    /// Gives a value a name.
    pub(super) fn insert<T: Serialize + ?Sized>(&mut self, name: &'static str, value: &T) {
        match serde_json::to_string(value) {
            Ok(json) => {
                (name, &json).hash(&mut self.hasher);
                self.written.push((name, json));
            }
            Err(_) => self.partial = true,
        }
    }

    /// The same values, read once for many pages.
    pub(super) fn shared(self) -> Self {
        Self {
            shared: Arc::new(Shared {
                values: self.values(),
            }),
            written: Vec::new(),
            ..self
        }
    }

    /// The values for the template engine.
    pub(super) fn values(&self) -> tera::Context {
        let mut values = self.shared.values.clone();
        for (name, json) in &self.written {
            // What was written a moment ago can be read.
            let value: serde_json::Value = serde_json::from_str(json).unwrap_or_default();
            values.insert(*name, &value);
        }
        values
    }

    /// What tells these values from others; none where that cannot be told.
    pub(super) fn digest(&self) -> Option<Digest> {
        (!self.partial).then(|| Digest(self.hasher.finish()))
    }
}

#[cfg(test)]
mod tests {
    use super::Context;

    #[test]
    fn names_and_values_are_told_apart() {
        let of = |pairs: &[(&'static str, &str)]| {
            let mut context = Context::new();
            for (name, value) in pairs {
                context.insert(name, *value);
            }
            context.digest().unwrap()
        };
        assert_eq!(of(&[("a", "b")]), of(&[("a", "b")]));
        assert_ne!(of(&[("a", "b")]), of(&[("a", "c")]));
        assert_ne!(of(&[("a", "b\nc=\"d\"")]), of(&[("a", "b"), ("c", "d")]));
    }

    #[test]
    fn shared_values_stay_and_count() {
        let mut shared = Context::new();
        shared.insert("a", &1.5);
        let (alone, mut shared) = (shared.digest(), shared.shared());
        assert_eq!(shared.digest(), alone);
        shared.insert("b", "c");
        assert_ne!(shared.digest(), alone);
        let values = shared.values();
        assert!(values.contains_key("a") && values.contains_key("b"));
    }
}
