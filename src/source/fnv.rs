//! FNV-1a in three widths: the same on every machine, and enough to tell one thing from another; it keeps nobody from
//! forging one.
//!
//! Source: Fowler, Noll, Vo and Eastlake, "The FNV Non-Cryptographic Hash Algorithm", IETF RFC 9923.

/// In 32 bits.
pub fn fnv_32(bytes: &[u8]) -> u32 {
    bytes.iter().fold(0x811c_9dc5, |hash, byte| {
        (hash ^ u32::from(*byte)).wrapping_mul(0x0100_0193)
    })
}

/// In 64 bits, of parts as if they were one.
pub fn fnv_64(parts: &[&[u8]]) -> u64 {
    let bytes = parts.iter().flat_map(|part| part.iter());
    bytes.fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3)
    })
}

/// The 128-bit hash of nothing: the offset basis.
pub(super) const EMPTY_128: u128 = 0x6c62_272e_07bb_0142_62b8_2175_6295_c58d;

/// In 128 bits, going on from the hash of what came before. The prime is `2^88 + 2^8 + 0x3b`.
pub(super) fn fnv_128(before: u128, bytes: &[u8]) -> u128 {
    const PRIME: u128 = (1 << 88) + (1 << 8) + 0x3b;
    bytes.iter().fold(before, |hash, byte| {
        (hash ^ u128::from(*byte)).wrapping_mul(PRIME)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Test vectors of the Internet draft "The FNV Non-Cryptographic Hash Algorithm" (D. Eastlake and others).
    #[test]
    fn hashes_are_the_published_ones() {
        assert_eq!(fnv_64(&[]), 0xcbf2_9ce4_8422_2325);
        assert_eq!(fnv_64(&[b"a"]), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(fnv_64(&[b"foo", b"bar"]), 0x8594_4171_f739_67e8);
    }

    /// Test vectors of the algorithm's authors; from memory, unverified.
    #[test]
    fn the_longest_and_the_shortest_are_too() {
        let of = |bytes: &[u8]| format!("{:032x}", fnv_128(EMPTY_128, bytes));
        assert_eq!(of(b""), "6c62272e07bb014262b821756295c58d");
        assert_eq!(of(b"a"), "d228cb696f1a8caf78912b704e4a8964");
        assert_eq!(of(b"foobar"), "343e1662793c64bf6f0d3597ba446f18");
        assert_eq!(fnv_32(b""), 0x811c_9dc5);
        assert_eq!(fnv_32(b"a"), 0xe40c_292c);
        assert_eq!(fnv_32(b"foobar"), 0xbf9c_f968);
    }
}
