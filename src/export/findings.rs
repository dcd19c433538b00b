//! The findings as a file of JSON.

use super::{ExportError, Format, Products};

pub(super) const FORMAT: Format = Format {
    file: "findings.json",
    write,
};

#[expect(clippy::unnecessary_wraps, reason = "every format has this signature")]
fn write(products: &Products<'_>) -> Result<Vec<u8>, ExportError> {
    Ok(products.findings_json.as_bytes().to_vec())
}
