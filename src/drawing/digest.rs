//! Parameters in, a short digest of them out, which tells a print of one design from that of another.

use hmac_sha256::Hash;

use crate::params::{PARAMETERS, Params};

/// How many bytes of the digest are written, each as two digits.
const BYTES: usize = 4;

/// The beginning of the SHA-256 digest (FIPS 180-4) of every key with its value. Comments, the order of a file, and a
/// default that is written out do not change it; a fact that is given does, even one that was drawn so without it.
pub fn digest(params: &Params) -> String {
    let mut hash = Hash::new();
    for parameter in PARAMETERS {
        let told = !params.untold.contains(&parameter.key);
        let value = params.get(parameter.key);
        hash.update(format!("{} {told} {value:?}\n", parameter.key));
    }
    let bytes = hash.finalize();
    let digits = bytes[..BYTES].iter().map(|it| format!("{it:02x}"));
    digits.collect()
}
