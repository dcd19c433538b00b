//! STL: every part as a closed shell, one after the other in the order of the design; clearance volumes left out.
//!
//! *Units and frame*: millimetres, in the world's frame, in 32 bits. Binary form: it is a quarter of the text's size,
//! and of the text's solids some readers take the first alone.

use glam::{DVec3, Vec3};
use stl_io::{Normal, Triangle, Vertex};

use super::{ExportError, Format, Products, Set};
use crate::geom::{Frame, Mesh};

pub(super) const FORMAT: Format = Format::new(Set::Model, "model.stl", write);

fn write(products: &Products<'_>, file: &'static str) -> Result<Vec<u8>, ExportError> {
    let solids = products.solids()?;
    let parts = solids.parts.iter();
    let facets = parts.flat_map(|it| facets(&solids.shapes[it.shape].mesh, it.frame));
    let facets = Counted {
        rest: facets.clone().count(),
        facets,
    };
    let mut bytes = Vec::with_capacity(84 + 50 * facets.rest);
    stl_io::write_stl(&mut bytes, facets).map_err(|error| ExportError::Unfit {
        file,
        reason: error.to_string(),
    })?;
    Ok(bytes)
}

/// Facets made one by one, since all at once are larger than the file.
struct Counted<F> {
    rest: usize,
    facets: F,
}

impl<F: Iterator> Iterator for Counted<F> {
    type Item = F::Item;

    fn next(&mut self) -> Option<F::Item> {
        self.rest = self.rest.saturating_sub(1);
        self.facets.next()
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        (self.rest, Some(self.rest))
    }
}

impl<F: Iterator> ExactSizeIterator for Counted<F> {}

/// The facets of one part.
fn facets(mesh: &Mesh, frame: Frame) -> impl Iterator<Item = Triangle> + Clone + use<'_> {
    // Adding a zero turns -0.0 into 0.0.
    let single = |point: DVec3| point.as_vec3() + Vec3::ZERO;
    let vertices: Vec<Vec3> = mesh
        .vertices
        .iter()
        .map(|it| single(frame.point(*it)))
        .collect();
    mesh.triangles.iter().filter_map(move |triangle| {
        let [a, b, c] = triangle.corners.map(|corner| vertices[corner]);
        let surface = single(frame.vector(mesh.normals[triangle.normals[0]]));
        // Where two corners are one in 32 bits, the shell is closed without the triangle.
        (a != b && b != c && c != a).then(|| facet([a, b, c], surface))
    })
}

/// The normal is the flat triangle's own; where it has no area to speak of, that of the surface.
fn facet([a, b, c]: [Vec3; 3], surface: Vec3) -> Triangle {
    let square = (b - a).cross(c - a).try_normalize();
    let normal = square.unwrap_or(surface) + Vec3::ZERO;
    Triangle {
        normal: Normal::new(normal.to_array()),
        vertices: [a, b, c].map(|it| Vertex::new(it.to_array())),
    }
}
