//! Parameters in, a short digest of them out, which tells a print of one design from that of another.

use crate::params::{PARAMETERS, Params};
use crate::units::sha256;

/// How many bytes of the digest are written, each as two digits.
const BYTES: usize = 4;

/// The beginning of the SHA-256 digest (FIPS 180-4) of every key with its value. Comments, the order of a file, and a
/// default that is written out do not change it; a fact that is given does, even one that was drawn so without it.
pub fn digest(params: &Params) -> String {
    let line = |key| {
        let told = !params.untold.contains(&key);
        format!("{key} {told} {:?}\n", params.get(key))
    };
    let text: String = PARAMETERS.iter().map(|it| line(it.key)).collect();
    let bytes = sha256(text.as_bytes());
    let digits = bytes[..BYTES].iter().map(|it| format!("{it:02x}"));
    digits.collect()
}
