//! Whether the vent's steps make a pipe that leaves the house.

use super::{Rule, fits, unless_fits};
use crate::params::choice::Collar;
use crate::params::fault::Fault;
use crate::params::list::Params;
use crate::units::Length;

pub(super) static RULES: &[Rule] = &[
    rise_or_path,
    steps,
    flue_in_pipe,
    rafters_in_roof,
    roof_under_ridge,
    rafters_once,
];

/// A vent is either the common one, by its rise, or any other, by its path.
fn rise_or_path(params: &Params) -> Vec<Fault> {
    let vent = &params.vent;
    let fault = |problem: &str, found: &str| {
        Fault::new("vent.rise", problem.to_owned())
            .found(found)
            .expected("`rise` for a vent that rises, turns once and goes out the back, or `path` for any other")
            .way_out("write one of the two")
    };
    match (vent.collar, vent.rise, &vent.path) {
        (_, Some(_), Some(_)) => vec![fault(
            "the vent has both a rise and a path",
            "`rise` beside `path`",
        )],
        (_, None, None) => vec![fault(
            "`vent.rise` is missing",
            "[vent] without `rise` and without `path`",
        )],
        (Collar::Back, Some(_), None) => vec![
            Fault::new(
                "vent.rise",
                "the vent from a collar that faces back does not rise first",
            )
            .found("`rise` with collar = \"back\"")
            .expected("`path`, step by step from the collar")
            .way_out("write path = [\"through back wall\"], or steps that rise first"),
        ],
        _ => Vec::new(),
    }
}

fn steps(params: &Params) -> Vec<Fault> {
    let Some(path) = &params.vent.path else {
        return Vec::new();
    };
    let flaws = params.walk().1.into_iter();
    flaws
        .map(|flaw| {
            let written = path.get(flaw.step).map(|step| step.text(params.project.unit));
            let written = written.unwrap_or_else(|| "no step".to_owned());
            Fault::new("vent.path", format!("the vent's path fails at step {}: {}", flaw.step + 1, flaw.problem))
                .found(format!("`{written}`"))
                .expected(flaw.expected)
                .way_out("follow the pipe step by step from the collar; lengths count to where center lines meet")
        })
        .collect()
}

fn flue_in_pipe(params: &Params) -> Vec<Fault> {
    let vent = &params.vent;
    let Some(flue) = vent.flue_diameter else {
        return Vec::new();
    };
    let room = vent.pipe_diameter - vent.pipe_wall * 2.0;
    let metal = vent.pipe_wall * 2.0;
    if fits(flue, metal) {
        return vec![
            Fault::new("vent.flue_diameter", "the inner pipe is all metal")
                .found("a diameter of no more than twice `pipe_wall`")
                .expected("the outer diameter of the inner pipe")
                .way_out("check both diameters"),
        ];
    }
    unless_fits(
        params,
        "vent.flue_diameter",
        ("the inner pipe", flue),
        ("the outer pipe's inside", room),
        "write the inner pipe's own diameter, and the outer one's as `pipe_diameter`",
    )
}

fn rafters_in_roof(params: &Params) -> Vec<Fault> {
    params.roof.as_ref().map_or_else(Vec::new, |roof| {
        let layers: Length = roof.board + roof.rafter.depth();
        unless_fits(
            params,
            "roof.thickness",
            ("the ceiling's board with the rafters", layers),
            ("the roof's thickness", roof.thickness),
            "measure the thickness from the ceiling's surface to the roof's, square to the slope",
        )
    })
}

/// The rafters' places are written once: with the roof, or without one by themselves.
fn rafters_once(params: &Params) -> Vec<Fault> {
    let Some(rafters) = &params.rafters else {
        return Vec::new();
    };
    let fault = |problem: &str, found: &str, way_out: &str| {
        vec![
            Fault::new("rafters.first", problem.to_owned())
                .found(found)
                .expected("the first rafter's center, in one place")
                .way_out(way_out),
        ]
    };
    match (&params.roof, rafters.first) {
        (Some(_), Some(_)) => fault(
            "the rafters' places are given twice",
            "`first` beside [roof]",
            "leave `first` out: `roof.first_rafter` gives it",
        ),
        (None, None) => fault(
            "the rafters' places are not given",
            "no `first`, and no [roof]",
            "find the first rafter, and write where its center is",
        ),
        _ => Vec::new(),
    }
}

/// Rafters and the pass between them are laid out under one plane.
fn roof_under_ridge(params: &Params) -> Vec<Fault> {
    if params.roof.is_none() || params.ridge.is_none() {
        return Vec::new();
    }
    vec![
        Fault::new(
            "roof.thickness",
            "a roof is laid out under one plane, not under a ridge",
        )
        .found("[roof] beside [ridge]")
        .expected("the side of the ridge that the vent goes through, as a ceiling without a ridge")
        .way_out("take [roof] out and send the vent through a wall, or take [ridge] out"),
    ]
}
