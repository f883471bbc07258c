//! A short name for bytes, to tell whether what something was made from is still the same.

use std::fmt;

/// FNV-1a of 128 bits: Fowler, Noll, Vo and Eastlake, The FNV Non-Cryptographic Hash Algorithm (IETF draft). It tells
/// changes apart, and keeps nobody from forging one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fingerprint(u128);

/// The offset basis of the algorithm.
const BASIS: u128 = 0x6c62_272e_07bb_0142_62b8_2175_6295_c58d;
/// The prime of the algorithm: 2^88 + 2^8 + 0x3b.
const PRIME: u128 = (1 << 88) + (1 << 8) + 0x3b;

impl Fingerprint {
    /// Of parts in order. Where one ends and the next begins counts too.
    pub fn of<'p>(parts: impl IntoIterator<Item = &'p [u8]>) -> Self {
        let mut print = Self(BASIS);
        for part in parts {
            print.take(part);
            print.take(&(part.len() as u64).to_le_bytes());
        }
        print
    }

    fn take(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.0 = (self.0 ^ u128::from(*byte)).wrapping_mul(PRIME);
        }
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
    fn it_is_the_published_function() {
        let of = |bytes: &[u8]| {
            let mut print = Fingerprint(BASIS);
            print.take(bytes);
            print.to_string()
        };
        // Test vectors of the algorithm's authors; from memory, unverified.
        assert_eq!(of(b""), "6c62272e07bb014262b821756295c58d");
        assert_eq!(of(b"a"), "d228cb696f1a8caf78912b704e4a8964");
        assert_eq!(of(b"foobar"), "343e1662793c64bf6f0d3597ba446f18");
    }

    #[test]
    fn where_parts_end_counts() {
        let of = |parts: &[&'static [u8]]| Fingerprint::of(parts.iter().copied());
        assert_ne!(of(&[b"ab", b"c"]), of(&[b"a", b"bc"]));
    }
}
