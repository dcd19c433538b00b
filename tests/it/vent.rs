//! The vent's path, its passes and what keeps clear of it.

use chasewright::params::{Params, read};

use crate::generate::PATHS;

const STEPPED: &str = include_str!("../params/good/stepped.toml");
const ONE_WALL: &str = include_str!("../params/good/one_wall.toml");

/// A good file with its rise replaced by a path.
fn with_path(text: &str, path: &str) -> Params {
    let lines = text.lines().map(|line| {
        if line.starts_with("rise = ") {
            path
        } else {
            line
        }
    });
    let text: Vec<&str> = lines.collect();
    read(&text.join("\n")).unwrap_or_else(|faults| panic!("{path}: {faults:#?}"))
}

#[test]
fn every_path_of_the_generator_is_good() {
    for path in PATHS {
        with_path(STEPPED, path);
        with_path(ONE_WALL, path);
    }
}
