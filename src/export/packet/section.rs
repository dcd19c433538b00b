//! What the sections of the packet share: what they are made from, and how one begins and ends.

use super::coding::base64;
use super::html::Html;
use crate::export::{ExportError, Format, Products};
use crate::units::TapeUnit;

/// What a packet is made from.
#[derive(Debug, Clone, Copy)]
pub(super) struct Packet<'a> {
    /// The design and what follows from it.
    pub(super) products: &'a Products<'a>,
}

impl Packet<'_> {
    pub(super) fn unit(self) -> TapeUnit {
        self.products.design.params.project.unit
    }

    /// A file of the model as a data URL's Base64.
    pub(super) fn file(self, format: &'static Format) -> Result<String, ExportError> {
        let files = self.products.files(format)?;
        Ok(files.iter().map(|(_, bytes)| base64(bytes)).collect())
    }
}

/// A picture as a data URL.
pub(super) fn picture(packet: Packet<'_>, format: &'static Format) -> Result<String, ExportError> {
    let png = packet.file(format)?;
    Ok(format!("data:image/png;base64,{png}"))
}

/// A section of the page with its title.
pub(super) fn section(
    html: &mut Html,
    id: &'static str,
    title: &'static str,
    inside: impl FnOnce(&mut Html),
) {
    let named = format!("{id}-title");
    html.line();
    html.element(
        "section",
        &[("id", id), ("aria-labelledby", named.as_str())],
        |html| {
            html.leaf("h2", &[("id", named.as_str())], title);
            inside(html);
            html.leaf("a", &[("class", "up"), ("href", "#contents")], "Contents");
        },
    );
    html.line();
}
