//! Writes seeded designs with one to three parts moved by up to 2 in, and the tool's overlaps of every
//! two parts, for an outside mesh library to compare (`tests/outside/overlaps.py`).
//!
//! Each design gets a folder in `target/tmp/moved`, with a manifest like that of the exported designs.

use chasewright::design::Group;
use chasewright::geom::{Body, Frame};
use chasewright::params::Params;
use chasewright::units::Length;
use glam::DVec3;

use crate::generate::random_params;
use crate::outside::{folder, manifest};
use crate::samples::{Sample, of_design, of_params};

/// How far a round part's mesh may be off here, to keep the files small.
const CHORD_ERROR: Length = Length::mm(0.25);

/// Numbers that look random and are the same every time: `SplitMix64`.
///
/// Source: Steele, Lea, Flood, "Fast splittable pseudorandom number generators" (OOPSLA 2014), from memory.
struct Seeded(u64);

impl Seeded {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    fn below(&mut self, count: usize) -> usize {
        usize::try_from(self.next() % count as u64).unwrap()
    }

    /// A whole number of 64ths of an inch, up to 2 in either way, so that faces often just touch.
    fn shift(&mut self) -> f64 {
        (self.below(257) as f64 - 128.0) / 64.0 * 25.4
    }
}

/// The design of these parameters with one to three parts moved.
fn moved(params: &Params, seed: u64) -> Sample {
    let mut design = of_params(params).design;
    let movable: Vec<usize> = (0..design.parts.len())
        .filter(|place| design.parts[*place].group != Group::Room)
        .collect();
    let mut random = Seeded(seed);
    for _ in 0..=random.below(3) {
        let place = movable[random.below(movable.len())];
        let body = &design.parts[place].body;
        let shift = DVec3::new(random.shift(), random.shift(), random.shift());
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
    for seed in 0..300 {
        let sample = moved(&random_params(seed), seed);
        let path = folder("moved", &seed.to_string()).join("manifest.json");
        std::fs::write(path, manifest(&sample, CHORD_ERROR).to_string()).unwrap();
    }
}
