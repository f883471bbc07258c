//! A short name for bytes, to tell whether what something was made from is still the same.

use std::fmt;

use super::fnv::{EMPTY_128, fnv_128};

/// FNV-1a of 128 bits. It tells changes apart, and keeps nobody from forging one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fingerprint(u128);

impl Fingerprint {
    /// Of parts in order. Where one ends and the next begins counts too.
    pub fn of<'p>(parts: impl IntoIterator<Item = &'p [u8]>) -> Self {
        let mut print = Self(EMPTY_128);
        for part in parts {
            print.take(part);
            print.take(&(part.len() as u64).to_le_bytes());
        }
        print
    }

    fn take(&mut self, bytes: &[u8]) {
        self.0 = fnv_128(self.0, bytes);
    }
}

impl fmt::Display for Fingerprint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:032x}", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn where_parts_end_counts() {
        let of = |parts: &[&'static [u8]]| Fingerprint::of(parts.iter().copied());
        assert_ne!(of(&[b"ab", b"c"]), of(&[b"a", b"bc"]));
    }
}
