//! Bodies in, the JSON of the scene and its binary data out.

use std::collections::BTreeMap;

use glam::{DMat3, DQuat, DVec3};
use serde_json::{Value, json};

use super::animation::{Actor, animation};
use super::buffer::{Accessors, Buffer, turned};
use super::camera::{Camera, cameras};
use crate::design::{Group, order};
use crate::export::appearance::Appearance;
use crate::export::attribute::{Sticks, Value as Attribute, attributes};
use crate::export::item::{Item, What};
use crate::export::products::Bodies;
use crate::export::tree::{Branch, Child};
use crate::geom::{Frame, Mesh};
use crate::units::TapeUnit;

/// What is shown.
pub(super) struct Model<'a> {
    /// The things in it, in the order of their groups.
    pub(super) items: &'a [Item<'a>],
    /// The mesh of each shape that they refer to.
    pub(super) meshes: &'a [&'a Mesh],
    /// Where parts are in one another, in the world's frame.
    pub(super) overlaps: Vec<Mesh>,
    /// Whether it is built step by step.
    pub(super) moves: bool,
}

/// A scene under construction.
struct Scene<'a> {
    bodies: &'a Bodies<'a>,
    model: &'a Model<'a>,
    sticks: Sticks,
    actors: Vec<Actor<'a>>,
    buffer: Buffer,
    nodes: Vec<Value>,
    meshes: Vec<Value>,
    materials: Vec<Value>,
    /// Where each shape's data lies.
    data: BTreeMap<usize, Accessors>,
    /// The mesh of a shape with a look.
    mesh_places: BTreeMap<(usize, &'static str), usize>,
    material_places: BTreeMap<&'static str, usize>,
}

/// The scene of a model as JSON text, and its binary data. Each list is written as soon as it is whole, since as a
/// tree it takes much memory.
pub(super) fn scene(bodies: &Bodies<'_>, model: &Model<'_>) -> (String, Vec<u8>) {
    let tree = Branch::root(&bodies.design.params.project.name, model.items);
    let mut scene = Scene {
        bodies,
        model,
        sticks: Sticks::new(bodies.design),
        actors: Vec::new(),
        buffer: Buffer::default(),
        nodes: Vec::new(),
        meshes: Vec::new(),
        materials: Vec::new(),
        data: BTreeMap::new(),
        mesh_places: BTreeMap::new(),
        material_places: BTreeMap::new(),
    };
    // Where nothing is left of a model there is no tree either: the format has no empty nodes.
    let whole = (!model.items.is_empty()).then(|| scene.add_branch(&tree));
    let mut roots: Vec<usize> = whole.into_iter().collect();
    roots.extend(scene.add_overlaps());
    let views = scene.add_cameras();
    roots.extend(views.iter().map(|(node, _)| *node));
    let cameras = views.into_iter().map(|(_, camera)| camera);
    let nodes = written(scene.nodes);
    let moves = model
        .moves
        .then(|| animation(&scene.actors, &order(bodies.design), &mut scene.buffer));
    let moves = written(moves.flatten().into_iter().collect());
    let generator = concat!("chasewright ", env!("CARGO_PKG_VERSION"));
    let mut members = vec![(
        "asset",
        json!({ "version": "2.0", "generator": generator }).to_string(),
    )];
    if !roots.is_empty() {
        let name = &bodies.design.params.project.name;
        members.push(("scene", json!(0).to_string()));
        members.push((
            "scenes",
            json!([{ "name": name, "nodes": roots }]).to_string(),
        ));
    }
    let (accessors, buffer_views, data) = scene.buffer.finish();
    let buffers = if data.is_empty() {
        Vec::new()
    } else {
        vec![json!({ "byteLength": data.len() })]
    };
    let lists = [
        ("nodes", nodes),
        ("meshes", written(scene.meshes)),
        ("materials", written(scene.materials)),
        ("cameras", written(cameras.collect())),
        ("animations", moves),
        ("accessors", written(accessors)),
        ("bufferViews", written(buffer_views)),
        ("buffers", written(buffers)),
    ];
    let lists = lists.into_iter();
    members.extend(lists.filter_map(|(name, list)| Some((name, list?))));
    let members = members
        .iter()
        .map(|(name, text)| format!("\"{name}\":{text}"));
    let text = format!("{{{}}}", members.collect::<Vec<_>>().join(","));
    (text, data)
}

/// A list as JSON text; the format has no empty lists.
fn written(list: Vec<Value>) -> Option<String> {
    (!list.is_empty()).then(|| Value::Array(list).to_string())
}

impl Scene<'_> {
    /// Adds a branch with all that hangs on it; its node's place.
    fn add_branch(&mut self, branch: &Branch) -> usize {
        let place = self.nodes.len();
        self.nodes.push(json!({ "name": branch.name }));
        let children: Vec<usize> = branch
            .children
            .iter()
            .map(|child| match child {
                Child::Branch(branch) => self.add_branch(branch),
                Child::Leaf(item) => self.add_item(*item),
            })
            .collect();
        if !children.is_empty() {
            self.nodes[place]["children"] = json!(children);
        }
        place
    }

    fn add_item(&mut self, place: usize) -> usize {
        let item = self.model.items[place];
        let look = item.look();
        let mesh = self.mesh(item.placed.shape, &look);
        let unit = self.bodies.design.params.project.unit;
        let mut node =
            json!({ "name": item.id(), "mesh": mesh, "extras": extras(&item, unit, &self.sticks) });
        place_node(&mut node, &item.placed.frame);
        self.nodes.push(node);
        self.actors.push(Actor {
            node: self.nodes.len() - 1,
            place: turned(item.placed.frame.origin) / 1000.0,
            part: match item.what {
                What::Part(part) => Some(part),
                What::Clearance(_) => None,
            },
        });
        self.nodes.len() - 1
    }

    /// The mesh of a shape with a look, made when it is first asked for.
    fn mesh(&mut self, shape: usize, look: &Appearance) -> usize {
        if let Some(place) = self.mesh_places.get(&(shape, look.name)) {
            return *place;
        }
        let data = match self.data.get(&shape) {
            Some(data) => *data,
            None => self.buffer.add(self.model.meshes[shape]),
        };
        self.data.insert(shape, data);
        let place = self.add_mesh(data, look);
        self.mesh_places.insert((shape, look.name), place);
        place
    }

    fn add_mesh(&mut self, data: Accessors, look: &Appearance) -> usize {
        let surface = self.material(look);
        let edge = self.material(&look.edge());
        self.meshes.push(json!({
            "primitives": [
                {
                    "attributes": { "POSITION": data.positions, "NORMAL": data.normals },
                    "indices": data.triangles,
                    "material": surface,
                    "mode": 4,
                },
                {
                    "attributes": { "POSITION": data.positions },
                    "indices": data.edges,
                    "material": edge,
                    "mode": 1,
                },
            ],
        }));
        self.meshes.len() - 1
    }

    fn material(&mut self, look: &Appearance) -> usize {
        if let Some(place) = self.material_places.get(look.name) {
            return *place;
        }
        let channel = |value| (Appearance::linear(value) * 1e4).round() / 1e4;
        let [red, green, blue] = look.color.map(channel);
        let mut material = json!({
            "name": look.name,
            "pbrMetallicRoughness": {
                "baseColorFactor": [red, green, blue, look.opacity],
                "metallicFactor": look.metalness,
                "roughnessFactor": look.roughness,
            },
        });
        if look.opacity < 1.0 {
            material["alphaMode"] = json!("BLEND");
        }
        self.materials.push(material);
        self.material_places
            .insert(look.name, self.materials.len() - 1);
        self.materials.len() - 1
    }

    /// Adds the bodies where parts are in one another, each under a branch of their own.
    fn add_overlaps(&mut self) -> Option<usize> {
        let bodies = self.model.overlaps.iter().zip(self.bodies.overlaps);
        let mut children = Vec::new();
        for (number, (body, shared)) in bodies.enumerate() {
            if body.triangles.is_empty() {
                continue;
            }
            let data = self.buffer.add(body);
            let mesh = self.add_mesh(data, &Appearance::OVERLAP);
            let name = format!("overlap/{}", number + 1);
            self.nodes.push(json!({
                "name": name,
                "mesh": mesh,
                "extras": { "parts": [shared.first, shared.second] },
            }));
            children.push(self.nodes.len() - 1);
        }
        if children.is_empty() {
            return None;
        }
        self.nodes
            .push(json!({ "name": "overlaps", "children": children }));
        Some(self.nodes.len() - 1)
    }

    /// Adds the saved views of what is built; their nodes' places, and the cameras.
    fn add_cameras(&mut self) -> Vec<(usize, Value)> {
        let Some(whole) = self.extent(|group| !group.stands_already()) else {
            return Vec::new();
        };
        let vent = self.extent(|group| group == Group::Vent).unwrap_or(whole);
        let axis = self.bodies.design.layout.unit_center.to_mm() / 1000.0;
        let views = cameras(whole, vent, axis).into_iter().enumerate();
        let views = views.map(|(number, Camera { camera, mut node })| {
            node["camera"] = json!(number);
            self.nodes.push(node);
            (self.nodes.len() - 1, camera)
        });
        views.collect()
    }

    /// Opposite corners of the box round all parts of some groups.
    fn extent(&self, wanted: fn(Group) -> bool) -> Option<(DVec3, DVec3)> {
        let items = self.model.items.iter();
        let built = items.filter(|item| matches!(item.what, What::Part(_)) && wanted(item.group()));
        let points = built.flat_map(|item| {
            let mesh = self.model.meshes[item.placed.shape];
            let frame = item.placed.frame;
            mesh.vertices
                .iter()
                .map(move |vertex| turned(frame.point(*vertex)) / 1000.0)
        });
        points.fold(None, |extent, point| match extent {
            None => Some((point, point)),
            Some((low, high)) => Some((point.min(low), point.max(high))),
        })
    }
}

/// What a viewer can show about a part.
fn extras(item: &Item<'_>, unit: TapeUnit, sticks: &Sticks) -> Value {
    match item.what {
        What::Part(part) => {
            let mut extras = json!({ "id": part.id, "kind": part.kind.name() });
            for (name, value) in attributes(part, sticks) {
                extras[name] = match value {
                    Attribute::Text(text) => json!(text),
                    Attribute::Length(length) => json!(length.tape(unit)),
                };
            }
            extras
        }
        What::Clearance(clearance) => json!({
            "id": clearance.id,
            "kind": clearance.kind.name(),
            "datum": clearance.datum,
        }),
    }
}

/// Gives a node its place, as a turn and a shift so that it can be animated.
fn place_node(node: &mut Value, frame: &Frame) {
    let shift = turned(frame.origin) / 1000.0;
    if shift != DVec3::ZERO {
        node["translation"] = json!(shift.to_array().map(rounded));
    }
    let turn = DQuat::from_mat3(&DMat3::from_cols(frame.x, frame.y, frame.z));
    let axis = turned(turn.xyz());
    if axis != DVec3::ZERO {
        let [x, y, z] = axis.to_array().map(rounded);
        node["rotation"] = json!([x, y, z, rounded(turn.w)]);
    }
}

/// Rounded to 1e-9, and never −0.
fn rounded(value: f64) -> f64 {
    (value * 1e9).round() / 1e9 + 0.0
}
