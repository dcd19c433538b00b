//! GLB (glTF 2.0 in one file): the model tree as nodes, each part with its crisp edges and its facts.
//!
//! *Units and frame*: metres, y up: a point (x, y, z) of the world, in millimetres, is
//! (x, z, −y) / 1000 there. Identical shapes share their data, and identical parts their mesh.
//!
//! *Source*: Khronos glTF 2.0.8 specification (ISO/IEC 12113).

mod buffer;
mod camera;
mod file;
mod scene;

use super::{ExportError, Format, Products};

pub(super) const FORMAT: Format = Format {
    file: "model.glb",
    write,
};

fn write(products: &Products<'_>) -> Result<Vec<u8>, ExportError> {
    let (root, data) = scene::scene(products);
    file::pack(&root, data).map_err(|reason| ExportError::Unfit {
        file: FORMAT.file,
        reason,
    })
}
