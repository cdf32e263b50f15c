//! Text that is packed when the crate is built: the commonest pairs of bytes have a byte of their own, of those that ASCII does not use.

/// A packed text: a byte from 128 on stands for a pair of bytes.
pub(crate) fn unpacked(text: &[u8], pairs: &[u8]) -> String {
    let mut waiting: Vec<u8> = text.iter().rev().copied().collect();
    let mut made = String::with_capacity(2 * text.len());
    while let Some(byte) = waiting.pop() {
        match byte.checked_sub(128).and_then(|number| pairs.get(2 * usize::from(number)..)?.first_chunk::<2>()) {
            Some([first, second]) => waiting.extend([*second, *first]),
            None => made.push(char::from(byte)),
        }
    }
    made
}
