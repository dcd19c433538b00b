//! Bytes in, their SHA-256 digest out (FIPS 180-4).

use hmac_sha256::Hash;

/// The digest of some bytes.
pub fn sha256(bytes: &[u8]) -> [u8; 32] {
    Hash::hash(bytes)
}
