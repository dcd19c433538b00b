//! GLB (glTF 2.0 in one file): the model tree as nodes, each part with its crisp edges and its facts.
//!
//! *Units and frame*: metres, y up: a point (x, y, z) of the world, in millimetres, is
//! (x, z, −y) / 1000 there. Identical shapes share their data, and identical parts their mesh.
//!
//! *Source*: Khronos glTF 2.0.8 specification (ISO/IEC 12113).

mod animation;
mod buffer;
mod camera;
mod file;
mod scene;
mod section;

use super::item::Item;
use super::products::Bodies;
use super::{ExportError, Format, Products, Set};
use scene::Model;

pub(super) const FORMAT: Format = Format::new(Set::Model, "model.glb", write);

/// The same model cut open, for viewers that cannot cut.
pub(super) const SECTION: Format = Format::new(Set::Model, "section.glb", write_section);

fn write(products: &Products<'_>, file: &'static str) -> Result<Vec<u8>, ExportError> {
    let bodies = products.bodies()?;
    let shapes = bodies.solids.shapes.iter();
    let model = Model {
        items: &Item::all(&bodies),
        meshes: &shapes.map(|it| &it.mesh).collect::<Vec<_>>(),
        overlaps: bodies.overlaps.iter().map(|it| it.mesh.clone()).collect(),
        moves: true,
    };
    pack(&bodies, &model, file)
}

fn write_section(products: &Products<'_>, file: &'static str) -> Result<Vec<u8>, ExportError> {
    let bodies = products.bodies()?;
    let (items, meshes) = section::cut(&bodies);
    let plane = section::plane(bodies.design);
    let overlaps = bodies.overlaps.iter().map(|it| it.mesh.below(&plane));
    let model = Model {
        items: &items,
        meshes: &meshes.iter().collect::<Vec<_>>(),
        overlaps: overlaps.collect(),
        moves: false,
    };
    pack(&bodies, &model, file)
}

fn pack(
    bodies: &Bodies<'_>,
    model: &Model<'_>,
    file: &'static str,
) -> Result<Vec<u8>, ExportError> {
    let (text, data) = scene::scene(bodies, model);
    file::pack(text, data).map_err(|reason| ExportError::Unfit { file, reason })
}
