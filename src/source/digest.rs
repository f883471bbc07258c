//! A digest of bytes that is the same on every machine.

use std::fmt;

/// FNV-1a in 128 bits, by Fowler, Noll and Vo: it tells one state of a thing from another, and is no lock against anybody who
/// means to deceive.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Digest(u128);

impl Default for Digest {
    fn default() -> Self {
        Self(0x6c62_272e_07bb_0142_62b8_2175_6295_c58d)
    }
}

impl Digest {
    /// The digest of some bytes.
    pub fn of(bytes: &[u8]) -> Self {
        Self::default().over(bytes)
    }

    /// The digest of what went before and of a part more. A part is told from its neighbours by its length.
    #[must_use]
    pub fn and(self, part: &[u8]) -> Self {
        self.over(&(part.len() as u64).to_le_bytes()).over(part)
    }

    fn over(self, bytes: &[u8]) -> Self {
        const PRIME: u128 = 0x0100_0000_0000_0000_0000_013b;
        let hash = bytes.iter().fold(self.0, |hash, &byte| {
            (hash ^ u128::from(byte)).wrapping_mul(PRIME)
        });
        Self(hash)
    }

    /// The digest of its text.
    pub fn from_text(text: &str) -> Option<Self> {
        u128::from_str_radix(text, 16).ok().map(Self)
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:032x}", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Test vectors of the Internet draft "The FNV Non-Cryptographic Hash Algorithm" (D. Eastlake and others).
    #[test]
    fn digests_are_the_published_ones() {
        assert_eq!(Digest::of(b"").to_string(), "6c62272e07bb014262b821756295c58d");
        assert_eq!(Digest::of(b"a").to_string(), "d228cb696f1a8caf78912b704e4a8964");
        assert_eq!(Digest::of(b"foobar").to_string(), "343e1662793c64bf6f0d3597ba446f18");
    }

    #[test]
    fn parts_are_told_apart_and_text_reads_back() {
        let of = |parts: &[&str]| {
            let start = Digest::default();
            parts.iter().fold(start, |digest, part| digest.and(part.as_bytes()))
        };
        assert_ne!(of(&["ab", "c"]), of(&["a", "bc"]));
        let digest = of(&["ab", "c"]);
        assert_eq!(Digest::from_text(&digest.to_string()), Some(digest));
        assert_eq!(Digest::from_text("no digest"), None);
    }
}
