//! Writes seeded designs with one to three parts moved by up to 2 in, and the tool's overlaps of every
//! two parts, for an outside mesh library to compare (`tests/outside/overlaps.py`).
//!
//! Each design gets a folder in `target/tmp/moved`, with a manifest like that of the exported designs.

use chasewright::design::Group;
use chasewright::geom::{Body, Frame};
use chasewright::params::Params;
use chasewright::units::Length;
use glam::DVec3;

use crate::generate::{Random, random_params};
use crate::outside::{folder, manifest};
use crate::samples::{Sample, of_design, of_params};
use crate::support::is_quick;

/// How far a round part's mesh may be off here, to keep the files small.
const CHORD_ERROR: Length = Length::mm(0.25);

/// A whole number of 64ths of an inch, up to 2 in either way, so that faces often just touch.
fn shift(random: &mut Random) -> f64 {
    (random.below(257) as f64 - 128.0) / 64.0 * 25.4
}

/// The design of these parameters with one to three parts moved.
fn moved(params: &Params, seed: u64) -> Sample {
    let mut design = of_params(params).design;
    let movable: Vec<usize> = (0..design.parts.len())
        .filter(|place| design.parts[*place].group != Group::Room)
        .collect();
    let mut random = Random(seed);
    for _ in 0..=random.below(3) {
        let place = random.pick(&movable);
        let body = &design.parts[place].body;
        let shift = DVec3::from_array(std::array::from_fn(|_| shift(&mut random)));
        let frame = Frame {
            origin: body.frame.origin + shift,
            ..body.frame
        };
        design.parts[place].body = Body::new(body.shape.clone(), frame);
    }
    of_design(design)
}

#[test]
fn moved_parts_are_written_for_the_outside_mesh_library() {
    // the quick tier takes no random design through an outside reader
    let seeds = if is_quick() { 0..0 } else { 0..300 };
    for seed in seeds {
        let sample = moved(&random_params(seed), seed);
        let path = folder("moved", &seed.to_string()).join("manifest.json");
        std::fs::write(path, manifest(&sample, CHORD_ERROR).to_string()).unwrap();
    }
}
