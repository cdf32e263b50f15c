//! Makes lines shorter: again and again the commonest pair of bytes gets a byte of its own, of those that ASCII does not use.

use std::collections::BTreeMap;

/// Lines in which a byte from 128 on stands for a pair of bytes.
pub(crate) struct Packed {
    pub(crate) lines: Vec<Vec<u8>>,
    /// Two bytes for each byte from 128 on, in their order.
    pub(crate) pairs: Vec<u8>,
}

pub(crate) fn pack(mut lines: Vec<Vec<u8>>) -> Packed {
    assert!(lines.iter().all(|line| line.is_ascii()), "only ASCII is packed");
    let mut pairs = Vec::new();
    for byte in 128..=u8::MAX {
        let mut counts: BTreeMap<[u8; 2], usize> = BTreeMap::new();
        for pair in lines.iter().flat_map(|line| line.windows(2)).filter_map(<[u8]>::first_chunk) {
            *counts.entry(*pair).or_default() += 1;
        }
        let Some((pair, _)) = counts.into_iter().max_by_key(|(_, count)| *count) else { break };
        pairs.extend(pair);
        lines.iter_mut().for_each(|line| *line = replaced(line, pair, byte));
    }
    Packed { lines, pairs }
}

fn replaced(line: &[u8], pair: [u8; 2], byte: u8) -> Vec<u8> {
    let mut made = Vec::with_capacity(line.len());
    let mut rest = line;
    while let Some((first, after)) = rest.split_first() {
        if rest.starts_with(&pair) {
            made.push(byte);
            rest = &rest[2..];
        } else {
            made.push(*first);
            rest = after;
        }
    }
    made
}
