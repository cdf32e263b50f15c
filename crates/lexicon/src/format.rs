//! The layout of the packed lexicon, shared by the program that writes it and the code that reads it.
//!
//! All numbers are little-endian.
//!
//! - Header: magic (8 bytes), version (u32), checksum of the body (u64), then eight u32: number of correspondences, of slots, of
//!   words, bytes of entries, number of oddities, bytes of oddities, bytes of the letter model, number of forms.
//! - Body: the commonest parts, slots (three bytes: offset of an entry plus one, 0 for an empty slot), entries, oddities, forms,
//!   letter model.
//! - Entry: length and letters of the word, its commonness (0: not listed; two bits are the country of the spelling), number of readings, the readings.
//! - Reading: number of bytes of its parts, the stressed part (255: none), its form (0: none; otherwise its number from 1; numbers
//!   from 255 are written as 255 and two more bytes), its parts.
//! - Part: a code, which is a correspondence or, from the number of correspondences upwards, an oddity. The highest bit means that
//!   the base's e was dropped before a suffix. The commonest codes are written as one byte, their index in the list of commonest
//!   parts; all others as two bytes, the first at least [`COMMON`], the second the lower eight bits.
//! - Oddity: length and letters, number of phones, length and names of the phones.

pub const MAGIC: [u8; 8] = *b"untaught";
pub const VERSION: u32 = 3;
pub const HEADER: usize = 8 + 4 + 8 + 8 * 4;
pub const SLOT: usize = 3;
/// The part of a word's commonness that is its size class.
pub const CLASS: u8 = 0x3f;
/// The bits of a word that is spelled so only in Britain, or only in America.
pub const BRITISH: u8 = 0x80;
pub const AMERICAN: u8 = 0x40;
/// Number of parts that are written as one byte.
pub const COMMON: usize = 224;
pub const E_DROPPED: u16 = 0x8000;
/// Bytes in a form: an affix, the change and the base's reading; or [`COMPOUND`], the seam and the readings of the two words.
pub const FORM: usize = 4;
pub const COMPOUND: u8 = u8::MAX;

/// Hashes a word or the body: multiplies and rotates eight bytes at a time. Not safe against hostile keys, but the table is
/// fixed.
pub fn hash(bytes: &[u8]) -> u64 {
    const FACTOR: u64 = 0x9e37_79b9_7f4a_7c15;
    let mut state = bytes.len() as u64 ^ FACTOR;
    let mut mix = |word: u64| state = (state ^ word).wrapping_mul(FACTOR).rotate_left(29);
    let chunks = bytes.chunks_exact(8);
    let mut last = [0u8; 8];
    let rest = chunks.remainder();
    last[..rest.len()].copy_from_slice(rest);
    for chunk in chunks {
        let mut word = [0u8; 8];
        word.copy_from_slice(chunk);
        mix(u64::from_le_bytes(word));
    }
    mix(u64::from_le_bytes(last));
    state ^ state >> 32
}

/// The first slot to look in.
pub fn slot(hash: u64, slots: usize) -> usize {
    ((u128::from(hash) * slots as u128) >> 64) as usize
}
