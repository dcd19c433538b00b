//! The committed sample is that of the demo as it is now.

use std::collections::BTreeSet;

use chasewright::design::design;
use serde_json::Value;

use crate::scenarios::demo;

/// The JSON chunk of a GLB file (glTF 2.0, section 4.4: 12 bytes of header, then length and type).
fn json_of(glb: &[u8]) -> Value {
    let length = u32::from_le_bytes(glb[12..16].try_into().unwrap());
    serde_json::from_slice(&glb[20..20 + usize::try_from(length).unwrap()]).unwrap()
}

#[test]
fn the_sample_has_the_parts_of_the_demo() {
    let path = format!("{}/exports/sample/model.glb", env!("CARGO_MANIFEST_DIR"));
    let glb = json_of(&std::fs::read(path).expect("the sample is committed"));
    let nodes = glb["nodes"].as_array().unwrap();
    let found: BTreeSet<&str> = nodes
        .iter()
        .filter(|node| node["extras"]["id"].is_string())
        .map(|node| node["name"].as_str().unwrap())
        .collect();
    let model = design(&demo("reading-room"));
    let parts = model.parts.iter().map(|it| it.id.as_str());
    let volumes = model.clearances.iter().map(|it| it.id.as_str());
    let expected: BTreeSet<&str> = parts.chain(volumes).collect();
    assert_eq!(
        found, expected,
        "refresh it: cargo run --release -- build params/reading-room.toml --out exports/sample"
    );
}
