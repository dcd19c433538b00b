//! Bytes in, their Base64 text or the Base64 of their SHA-256 digest out.
//!
//! *Source*: RFC 4648 section 4 (Base64); FIPS 180-4 sections 4 to 6 (SHA-256), whose constants are the first
//! 32 bits of the fractions of square and cube roots of primes.

const DIGITS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/// Bytes as Base64 text, filled up with `=`.
pub(super) fn base64(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for group in bytes.chunks(3) {
        let byte = |place: usize| u32::from(group.get(place).copied().unwrap_or(0));
        let bits = byte(0) << 16 | byte(1) << 8 | byte(2);
        for place in 0..4 {
            let digit = (bits >> (18 - 6 * place)) & 63;
            text.push(if place <= group.len() {
                char::from(DIGITS[digit as usize])
            } else {
                '='
            });
        }
    }
    text
}

/// A text's digest as a content security policy names it.
pub(super) fn policy_hash(text: &str) -> String {
    format!("'sha256-{}'", base64(&sha256(text.as_bytes())))
}

/// The SHA-256 digest.
fn sha256(bytes: &[u8]) -> Vec<u8> {
    let rounds = roots(64, third_root);
    let mut state = roots(8, second_root);
    let mut message = bytes.to_vec();
    message.push(0x80);
    while message.len() % 64 != 56 {
        message.push(0);
    }
    message.extend((bytes.len() as u64 * 8).to_be_bytes());
    for block in message.chunks(64) {
        mix(&mut state, &rounds, block);
    }
    state.iter().flat_map(|word| word.to_be_bytes()).collect()
}

/// One block into the state.
fn mix(state: &mut [u32], rounds: &[u32], block: &[u8]) {
    let words = block.chunks(4);
    let mut schedule: Vec<u32> = words
        .map(|word| word.iter().fold(0, |all, byte| all << 8 | u32::from(*byte)))
        .collect();
    for place in 16..64 {
        let (early, late) = (schedule[place - 15], schedule[place - 2]);
        let first = early.rotate_right(7) ^ early.rotate_right(18) ^ (early >> 3);
        let second = late.rotate_right(17) ^ late.rotate_right(19) ^ (late >> 10);
        let sum = schedule[place - 16].wrapping_add(schedule[place - 7]);
        schedule.push(sum.wrapping_add(first).wrapping_add(second));
    }
    let mut turning: Vec<u32> = state.to_vec();
    for (constant, word) in rounds.iter().zip(schedule) {
        let (a, e) = (turning[0], turning[4]);
        let choice = (e & turning[5]) ^ (!e & turning[6]);
        let majority = (a & turning[1]) ^ (a & turning[2]) ^ (turning[1] & turning[2]);
        let lower = e.rotate_right(6) ^ e.rotate_right(11) ^ e.rotate_right(25);
        let upper = a.rotate_right(2) ^ a.rotate_right(13) ^ a.rotate_right(22);
        let first = turning[7].wrapping_add(lower).wrapping_add(choice);
        let first = first.wrapping_add(*constant).wrapping_add(word);
        turning.rotate_right(1);
        turning[4] = turning[4].wrapping_add(first);
        turning[0] = first.wrapping_add(upper).wrapping_add(majority);
    }
    for (word, turned) in state.iter_mut().zip(turning) {
        *word = word.wrapping_add(turned);
    }
}

/// The first 32 bits of the fraction of a root of each of the first primes.
fn roots(count: usize, root: fn(u128) -> u32) -> Vec<u32> {
    let primes =
        (2..).filter(|number: &u128| (2..*number).all(|other| !number.is_multiple_of(other)));
    primes.take(count).map(root).collect()
}

/// ⌊√n · 2³²⌋ without its whole part, in whole numbers.
fn second_root(number: u128) -> u32 {
    largest(|root| root * root <= number << 64)
}

/// ⌊∛n · 2³²⌋ without its whole part, in whole numbers.
fn third_root(number: u128) -> u32 {
    largest(|root| root * root * root <= number << 96)
}

/// The lower 32 bits of the largest number up to 2³⁶ that fits.
fn largest(fits: impl Fn(u128) -> bool) -> u32 {
    let mut root: u128 = 0;
    for bit in (0..36).rev() {
        if fits(root | 1 << bit) {
            root |= 1 << bit;
        }
    }
    u32::try_from(root & 0xFFFF_FFFF).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use std::fmt::Write as _;

    use super::{base64, sha256};

    /// RFC 4648 section 10.
    #[test]
    fn base64_is_that_of_the_standard() {
        let cases = [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ];
        for (bytes, text) in cases {
            assert_eq!(base64(bytes.as_bytes()), text);
        }
    }

    /// NIST, examples of FIPS 180-4: messages of one block and of two.
    #[test]
    fn the_digest_is_that_of_the_standard() {
        let cases = [
            (
                "abc",
                "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
            ),
            (
                "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
                "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
            ),
            (
                "",
                "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
            ),
        ];
        for (text, digest) in cases {
            let mut hex = String::new();
            for byte in sha256(text.as_bytes()) {
                let _ = write!(hex, "{byte:02x}");
            }
            assert_eq!(hex, digest);
        }
    }
}
