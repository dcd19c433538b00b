//! A model cut upright through the middle of the unit: what lies to the right of it, every cut closed.

use glam::DVec3;

use crate::design::Design;
use crate::export::item::Item;
use crate::export::products::Bodies;
use crate::geom::{Frame, Mesh, Plane};

/// What is left of a model, with a mesh for each shape that its items refer to.
pub(super) fn cut<'a>(bodies: &Bodies<'a>) -> (Vec<Item<'a>>, Vec<Mesh>) {
    let plane = plane(bodies.design);
    let mut meshes: Vec<Mesh> = bodies
        .solids
        .shapes
        .iter()
        .map(|it| it.mesh.clone())
        .collect();
    let mut items = Vec::new();
    for mut item in Item::all(bodies) {
        let whole = &meshes[item.placed.shape];
        let kept = whole.below(&seen_from(&item.placed.frame, &plane));
        if kept.triangles.is_empty() {
            continue;
        }
        if kept.vertices != whole.vertices {
            meshes.push(kept);
            item.placed.shape = meshes.len() - 1;
        }
        items.push(item);
    }
    (items, meshes)
}

/// The plane of the cut; what is kept lies below it.
pub(super) fn plane(design: &Design) -> Plane {
    let axis = design.layout.unit_center.to_mm();
    Plane::through(DVec3::X * axis, DVec3::NEG_X)
}

/// A plane of the world in a frame.
fn seen_from(frame: &Frame, plane: &Plane) -> Plane {
    Plane {
        normal: frame.local_vector(plane.normal),
        offset: plane.offset - plane.normal.dot(frame.origin),
    }
}
