//! A Bloom filter with one hash before the word lists: nearly all words that are in none are turned away by it, without a search. The
//! build script makes it, by this same file.

/// Bits, as a power of two: some eighteen thousand lines set one in fourteen.
const BITS: u32 = 18;

/// Bytes of the filter.
pub(crate) const BYTES: usize = 1 << (BITS - 3);

/// The number of the bit of a line.
pub(crate) fn bit(line: impl Iterator<Item = u8>) -> usize {
    let hash =
        line.fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3));
    // The last step mixes upwards only: the highest bits are the best mixed.
    (hash.wrapping_mul(0x9e37_79b9_7f4a_7c15) >> (u64::BITS - BITS)) as usize
}
