//! Bytes in, their Base64 text or the Base64 of their SHA-256 digest out.
//!
//! *Source*: RFC 4648 section 4 (Base64); FIPS 180-4 (SHA-256).

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

use crate::units::sha256;

/// Bytes as Base64 text, filled up with `=`.
pub(super) fn base64(bytes: &[u8]) -> String {
    STANDARD.encode(bytes)
}

/// A text's digest as a content security policy names it.
pub(super) fn policy_hash(text: &str) -> String {
    format!("'sha256-{}'", base64(&sha256(text.as_bytes())))
}
