//! Meshes in, binary data and the accessors into it out.
//!
//! *Units and frame*: millimetres in; metres with y up in 32 bits out.

use std::collections::BTreeMap;

use glam::DVec3;
use serde_json::{Value, json};

use crate::geom::Mesh;

/// Targets of buffer views, by the specification.
const ARRAY: u32 = 34_962;
const ELEMENT_ARRAY: u32 = 34_963;
/// Component types, by the specification.
const UNSIGNED_SHORT: u32 = 5123;
const UNSIGNED_INT: u32 = 5125;
const FLOAT: u32 = 5126;

/// The parts of the binary data, in the order in which they are laid down.
#[derive(Debug, Clone, Copy)]
enum View {
    Positions,
    Normals,
    Short,
    Long,
    Keys,
}

/// Where one mesh lies in the data, as places in the list of accessors.
#[derive(Debug, Clone, Copy)]
pub(super) struct Accessors {
    pub(super) positions: usize,
    pub(super) normals: usize,
    pub(super) triangles: usize,
    pub(super) edges: usize,
}

/// Binary data under construction.
#[derive(Debug, Default)]
pub(super) struct Buffer {
    views: [Vec<u8>; 5],
    accessors: Vec<Value>,
}

/// A vector of the world in the file's frame, its size unchanged.
pub(super) fn turned(vector: DVec3) -> DVec3 {
    DVec3::new(vector.x, vector.z, -vector.y)
}

impl Buffer {
    /// Lays down a mesh: corners that differ in place or normal once each, triangles and edges over them.
    pub(super) fn add(&mut self, mesh: &Mesh) -> Accessors {
        let mut places = BTreeMap::new();
        let mut corners = Vec::new();
        let mut triangles = Vec::new();
        for triangle in &mesh.triangles {
            for pair in triangle.corners.into_iter().zip(triangle.normals) {
                let place = *places.entry(pair).or_insert_with(|| {
                    corners.push(pair);
                    corners.len() - 1
                });
                triangles.push(place);
            }
        }
        // Edges run over the same corners, whatever their normal.
        let corner = |vertex: usize| {
            let mut found = places.range((vertex, 0)..=(vertex, usize::MAX));
            found.next().map(|(_, place)| *place)
        };
        let edges = mesh
            .edges
            .iter()
            .flatten()
            .filter_map(|vertex| corner(*vertex));
        let edges: Vec<usize> = edges.collect();
        let positions = corners
            .iter()
            .map(|(vertex, _)| mesh.vertices[*vertex] / 1000.0);
        let normals = corners.iter().map(|(_, normal)| mesh.normals[*normal]);
        Accessors {
            positions: self.add_vectors(View::Positions, positions),
            normals: self.add_vectors(View::Normals, normals),
            triangles: self.add_indices(&triangles, corners.len()),
            edges: self.add_indices(&edges, corners.len()),
        }
    }

    fn add_vectors(&mut self, view: View, vectors: impl Iterator<Item = DVec3>) -> usize {
        let data = &mut self.views[view as usize];
        let start = data.len();
        let mut low = [f32::INFINITY; 3];
        let mut high = [f32::NEG_INFINITY; 3];
        for vector in vectors {
            // Adding zero turns −0 into 0.
            let single = (turned(vector).as_vec3() + glam::Vec3::ZERO).to_array();
            for (axis, value) in single.into_iter().enumerate() {
                low[axis] = low[axis].min(value);
                high[axis] = high[axis].max(value);
                data.extend(value.to_le_bytes());
            }
        }
        let mut accessor = json!({
            "bufferView": view as usize,
            "byteOffset": start,
            "componentType": FLOAT,
            "count": (data.len() - start) / 12,
            "type": "VEC3",
        });
        if matches!(view, View::Positions) {
            accessor["min"] = json!(low);
            accessor["max"] = json!(high);
        }
        self.accessors.push(accessor);
        self.accessors.len() - 1
    }

    /// Lays down the seconds of keys, which rise.
    pub(super) fn add_times(&mut self, times: &[f64]) -> usize {
        let singles: Vec<f32> = times
            .iter()
            .map(|time| DVec3::splat(*time).as_vec3().x)
            .collect();
        let place = self.add_keys(&singles, "SCALAR", 1);
        self.accessors[place]["min"] = json!([singles.first()]);
        self.accessors[place]["max"] = json!([singles.last()]);
        place
    }

    /// Lays down the values of keys, in the file's own frame.
    pub(super) fn add_values(&mut self, values: &[DVec3]) -> usize {
        let singles = values.iter().map(|it| it.as_vec3() + glam::Vec3::ZERO);
        let singles: Vec<f32> = singles.flat_map(|it| it.to_array()).collect();
        self.add_keys(&singles, "VEC3", 3)
    }

    fn add_keys(&mut self, singles: &[f32], kind: &str, width: usize) -> usize {
        let data = &mut self.views[View::Keys as usize];
        let start = data.len();
        data.extend(singles.iter().flat_map(|single| single.to_le_bytes()));
        self.accessors.push(json!({
            "bufferView": View::Keys as usize,
            "byteOffset": start,
            "componentType": FLOAT,
            "count": singles.len() / width,
            "type": kind,
        }));
        self.accessors.len() - 1
    }

    fn add_indices(&mut self, indices: &[usize], corners: usize) -> usize {
        let short = u16::try_from(corners).is_ok();
        let view = if short { View::Short } else { View::Long };
        let data = &mut self.views[view as usize];
        let start = data.len();
        for index in indices {
            if short {
                data.extend(u16::try_from(*index).unwrap_or(u16::MAX).to_le_bytes());
            } else {
                data.extend(u32::try_from(*index).unwrap_or(u32::MAX).to_le_bytes());
            }
        }
        self.accessors.push(json!({
            "bufferView": view as usize,
            "byteOffset": start,
            "componentType": if short { UNSIGNED_SHORT } else { UNSIGNED_INT },
            "count": indices.len(),
            "type": "SCALAR",
        }));
        self.accessors.len() - 1
    }

    /// The accessors, the buffer views and the data.
    pub(super) fn finish(self) -> (Vec<Value>, Vec<Value>, Vec<u8>) {
        let mut data = Vec::new();
        let mut views = Vec::new();
        let mut accessors = self.accessors;
        let mut places = [0; 5];
        for (number, bytes) in self.views.iter().enumerate() {
            if bytes.is_empty() {
                continue;
            }
            places[number] = views.len();
            let vectors = number <= View::Normals as usize;
            let mut view = json!({
                "buffer": 0,
                "byteOffset": data.len(),
                "byteLength": bytes.len(),
            });
            // What moves parts is no business of the graphics card.
            if number != View::Keys as usize {
                view["target"] = json!(if vectors { ARRAY } else { ELEMENT_ARRAY });
            }
            if vectors {
                view["byteStride"] = json!(12);
            }
            views.push(view);
            data.extend(bytes);
            data.resize(data.len().next_multiple_of(4), 0);
        }
        for accessor in &mut accessors {
            let number = accessor["bufferView"].as_u64().unwrap_or(0);
            let place = usize::try_from(number)
                .ok()
                .and_then(|number| places.get(number));
            accessor["bufferView"] = json!(place);
        }
        (accessors, views, data)
    }
}
