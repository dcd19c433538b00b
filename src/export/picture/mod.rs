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

use super::products::Bodies;
use super::{ExportError, Format, Products, Set};
use view::View;

/// The finished front as seen from the room.
pub(super) const FRONT: Format = Format::new(Set::Model, "picture-front.png", |products, file| {
    write(products, &view::FRONT, file)
});

/// The framing without its skins.
pub(super) const FRAMING: Format =
    Format::new(Set::Model, "picture-framing.png", |products, file| {
        write(products, &view::FRAMING, file)
    });

/// Cut upright through the middle of the unit.
pub(super) const SECTION: Format =
    Format::new(Set::Model, "picture-section.png", |products, file| {
        write(products, &view::SECTION, file)
    });

/// The finished chase in the room.
pub(super) const ISOMETRIC: Format =
    Format::new(Set::Model, "picture-isometric.png", |products, file| {
        write(products, &view::ISOMETRIC, file)
    });

/// Every picture.
const ALL: [(Format, View); 4] = [
    (FRONT, view::FRONT),
    (FRAMING, view::FRAMING),
    (SECTION, view::SECTION),
    (ISOMETRIC, view::ISOMETRIC),
];

/// Where points of the world lie in a picture, in pixels from its upper left corner, and the picture's size; no points
/// for a format that is no picture.
pub(super) fn spots(bodies: &Bodies<'_>, format: &Format, points: &[DVec3]) -> (DVec2, Vec<DVec2>) {
    let known = ALL.iter().find(|(known, _)| known.file == format.file);
    known.map_or((DVec2::ZERO, Vec::new()), |(_, view)| {
        scene::spots(bodies, view, points)
    })
}

fn write(products: &Products<'_>, view: &View, file: &'static str) -> Result<Vec<u8>, ExportError> {
    let canvas = scene::draw(&products.bodies()?, view);
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
