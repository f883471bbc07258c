//! What a template is given, and all of it written down: where the same is written, the same page comes of it.

use std::hash::{DefaultHasher, Hash, Hasher};

use serde::Serialize;

/// Values by name, as a template sees them.
#[derive(Debug, Clone, Default)]
pub(super) struct Context {
    values: tera::Context,
    written: Vec<u8>,
    /// Whether something could not be written down.
    partial: bool,
}

/// Tells one set of values from another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Digest {
    hash: u64,
    length: usize,
}

impl Context {
    /// No values yet.
    pub(super) fn new() -> Self {
        Self::default()
    }

    /// Gives a value a name.
    pub(super) fn insert<T: Serialize + ?Sized>(&mut self, name: &'static str, value: &T) {
        self.values.insert(name, value);
        self.written.extend_from_slice(name.as_bytes());
        self.written.push(b'=');
        self.partial |= serde_json::to_writer(&mut self.written, value).is_err();
        self.written.push(b'\n');
    }

    /// The values for the template engine.
    pub(super) fn values(&self) -> &tera::Context {
        &self.values
    }

    /// What tells these values from others; none where that cannot be told.
    pub(super) fn digest(&self) -> Option<Digest> {
        let mut hasher = DefaultHasher::new();
        self.written.hash(&mut hasher);
        (!self.partial).then(|| Digest {
            hash: hasher.finish(),
            length: self.written.len(),
        })
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
}
