//! STL: every part as a closed shell under its own name, clearance volumes left out.
//!
//! *Units and frame*: millimetres, in the world's frame. Text form, since the binary one has no
//! place for names.

use glam::DVec3;

use super::item::{Item, What};
use super::number::{SINGLE, push};
use super::{ExportError, Format, Products};
use crate::geom::Frame;

pub(super) const FORMAT: Format = Format {
    file: "model.stl",
    write,
};

#[expect(clippy::unnecessary_wraps, reason = "every format has this signature")]
fn write(products: &Products<'_>) -> Result<Vec<u8>, ExportError> {
    let mut text = String::new();
    for item in Item::all(products) {
        let What::Part(part) = item.what else {
            continue;
        };
        let mesh = &products.solids.shapes[item.placed.shape].mesh;
        let place = |vertex: &DVec3| item.placed.frame.point(*vertex);
        let vertices: Vec<DVec3> = mesh.vertices.iter().map(place).collect();
        push_line(&mut text, "solid ", &part.id);
        for triangle in &mesh.triangles {
            let corners = triangle.corners.map(|corner| vertices[corner]);
            push_facet(
                &mut text,
                corners,
                &item.placed.frame,
                mesh.normals[triangle.normals[0]],
            );
        }
        push_line(&mut text, "endsolid ", &part.id);
    }
    Ok(text.into_bytes())
}

/// A name has to stay on its line.
fn push_line(text: &mut String, word: &str, id: &str) {
    text.push_str(word);
    text.extend(id.chars().map(|c| if c.is_control() { ' ' } else { c }));
    text.push('\n');
}

/// The normal is the flat triangle's own; where it has no area to speak of, that of the surface.
fn push_facet(text: &mut String, [a, b, c]: [DVec3; 3], frame: &Frame, surface: DVec3) {
    let square = (b - a).cross(c - a);
    let normal = square
        .try_normalize()
        .unwrap_or_else(|| frame.vector(surface));
    text.push_str("facet normal");
    push_point(text, normal);
    text.push_str("\nouter loop\n");
    for corner in [a, b, c] {
        text.push_str("vertex");
        push_point(text, corner);
        text.push('\n');
    }
    text.push_str("endloop\nendfacet\n");
}

fn push_point(text: &mut String, point: DVec3) {
    for coordinate in point.to_array() {
        text.push(' ');
        // Some readers want a digit after the point.
        push(text, coordinate, SINGLE);
        text.push('0');
    }
}
