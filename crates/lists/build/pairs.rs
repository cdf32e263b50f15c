//! Makes lines shorter: again and again the commonest pair of bytes gets a byte of its own, of those that ASCII does not use.

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
        let mut counts = vec![0_u32; 1 << 16];
        for pair in lines.iter().flat_map(|line| line.windows(2)).filter_map(<[u8]>::first_chunk) {
            counts[usize::from(u16::from_be_bytes(*pair))] += 1;
        }
        let commonest = (0..=u16::MAX).max_by_key(|pair| counts[usize::from(*pair)]).unwrap_or_default();
        if counts[usize::from(commonest)] == 0 {
            break;
        }
        let pair = commonest.to_be_bytes();
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
