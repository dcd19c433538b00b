//! A room and its mirror image have the same margins: no verdict knows left from right.
//!
//! Studs of a layout count from the left, so what depends on where they fall is left out.

use std::collections::BTreeMap;

use chasewright::check::check;
use chasewright::design::design;
use chasewright::params::{Ceiling, Params, Ridge, RidgeRun};
use chasewright::units::{Length, Slope};

use crate::generate::random_params;

/// Rules that judge studs of a layout, and findings that name a side.
const OF_LAYOUTS: [&str; 8] = [
    "existing stud cut",
    "held",
    "part in part",
    "part without room",
    "pass in its bay",
    "recess header",
    "stud spacing",
    "tilt-up",
];

fn mirrored(params: &Params) -> Params {
    let mut image = params.clone();
    let (room, chase) = (params.room.width, &params.chase);
    let rise = params.ceiling.rise_right;
    let height = params.underside().height_at(room, Length::ZERO);
    image.ceiling.height = params.ceiling.height.map(|_| height);
    for reading in &mut image.ceiling.readings {
        reading.right = room - reading.right;
    }
    image.ceiling.rise_right = Slope::ratio(-rise.to_ratio());
    if let Some(ridge) = &mut image.ridge {
        mirror_ridge(ridge, &mut image.ceiling, params);
    }
    image.chase.left = room - chase.left - chase.width;
    image.appliance.center = params.appliance.center.map(|center| room - center);
    if let Some(recess) = &mut image.recess {
        recess.center = recess.center.map(|center| room - center);
    }
    let wall = &params.wall;
    let mut last = wall.first_stud;
    while last + wall.stud_spacing + wall.stud.thickness / 2.0 <= room {
        last += wall.stud_spacing;
    }
    image.wall.first_stud = room - last;
    image
}

fn mirror_ridge(ridge: &mut Ridge, ceiling: &mut Ceiling, params: &Params) {
    let room = params.room.width;
    match ridge.runs {
        RidgeRun::Along => {
            let across = params.ceiling.rise_right.rise(room);
            ridge.height = ridge.height.map(|height| height + across);
            ridge.far_height = ridge.far_height.map(|height| height + across);
        }
        RidgeRun::Out => {
            let planes = params.underside();
            let [left, right] = [0, 1].map(|at| planes.planes()[at].slope.x);
            ceiling.rise_right = Slope::ratio(-right);
            ridge.at = room - ridge.at;
            ridge.fall = Some(Slope::ratio(left));
            ridge.height = None;
            ridge.far_height = None;
        }
    }
}

/// The least margin of everything that is judged, the sides not told apart.
fn margins(params: &Params) -> BTreeMap<String, f64> {
    let mut least = BTreeMap::new();
    for finding in check(&design(params)) {
        let of_layout = |part: &String| part.contains("stud") || part.contains("cripple");
        let Some(numbers) = finding.numbers else {
            continue;
        };
        if OF_LAYOUTS.contains(&finding.rule) || finding.parts.first().is_some_and(of_layout) {
            continue;
        }
        let about = match (finding.rule, finding.parts.last()) {
            ("clearance", Some(volume)) => volume.as_str(),
            ("inside the room", _) => "",
            _ => &finding.about,
        };
        let about = about.replace("left", "side").replace("right", "side");
        let margin = least
            .entry(format!("{}: {about}", finding.rule))
            .or_insert(f64::INFINITY);
        *margin = margin.min(numbers.margin);
    }
    least
}

#[test]
fn the_mirror_image_of_a_room_has_the_same_margins() {
    let mut compared = 0;
    for seed in 0..400 {
        let params = random_params(seed);
        let (here, there) = (margins(&params), margins(&mirrored(&params)));
        for (about, margin) in &here {
            // Near a clearance, the nearest other part may be a stud of a layout on one side only.
            let Some(image) = there.get(about) else {
                continue;
            };
            compared += 1;
            let apart = (margin - image).abs();
            assert!(apart < 1e-4, "seed {seed}: {about}: {margin} and {image}");
        }
    }
    assert!(compared > 4000, "{compared}");
}
