//! Pictures (PNG) of the model, drawn by a rasterizer of our own: nearest surface wins, flat light
//! from the upper left, crisp dark edges, and what is translucent laid over it back to front.
//!
//! *Determinism*: no threads, no graphics hardware; the same products give the same bytes.

mod body;
mod camera;
mod canvas;
mod color;
mod cut;
mod outline;
mod scene;
mod view;

use glam::{DVec2, DVec3};

use super::{ExportError, Format, Products};
use view::View;

/// The finished front as seen from the room.
pub(super) const FRONT: Format = Format {
    file: "picture-front.png",
    write: |products| write(products, &view::FRONT, FRONT.file),
};

/// The framing without its skins.
pub(super) const FRAMING: Format = Format {
    file: "picture-framing.png",
    write: |products| write(products, &view::FRAMING, FRAMING.file),
};

/// Cut upright through the middle of the unit.
pub(super) const SECTION: Format = Format {
    file: "picture-section.png",
    write: |products| write(products, &view::SECTION, SECTION.file),
};

/// The finished chase in the room.
pub(super) const ISOMETRIC: Format = Format {
    file: "picture-isometric.png",
    write: |products| write(products, &view::ISOMETRIC, ISOMETRIC.file),
};

/// Every picture.
const ALL: [(Format, View); 4] = [
    (FRONT, view::FRONT),
    (FRAMING, view::FRAMING),
    (SECTION, view::SECTION),
    (ISOMETRIC, view::ISOMETRIC),
];

/// Where points of the world lie in the picture of this file, in pixels from its upper left corner, and the
/// picture's size; no points for a file that is no picture.
pub(super) fn spots(products: &Products<'_>, file: &str, points: &[DVec3]) -> (DVec2, Vec<DVec2>) {
    let known = ALL.iter().find(|(format, _)| format.file == file);
    known.map_or((DVec2::ZERO, Vec::new()), |(_, view)| {
        scene::spots(products, view, points)
    })
}

fn write(products: &Products<'_>, view: &View, file: &'static str) -> Result<Vec<u8>, ExportError> {
    let canvas = scene::draw(products, view);
    let (width, height) = canvas.size();
    encode(width, height, &canvas.bytes()).map_err(|error| ExportError::Unfit {
        file,
        reason: error.to_string(),
    })
}

/// PNG (ISO/IEC 15948): 8 bits a channel, three channels, sRGB.
fn encode(width: usize, height: usize, rows: &[u8]) -> Result<Vec<u8>, png::EncodingError> {
    let size = |pixels| u32::try_from(pixels).unwrap_or(u32::MAX);
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, size(width), size(height));
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_source_srgb(png::SrgbRenderingIntent::Perceptual);
    encoder.set_compression(png::Compression::Balanced);
    encoder.set_filter(png::Filter::Paeth);
    let mut writer = encoder.write_header()?;
    writer.write_image_data(rows)?;
    writer.finish()?;
    Ok(bytes)
}
