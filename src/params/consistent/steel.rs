//! Where steel members may stand in for lumber, and what they need.

use super::Rule;
use crate::catalog::{FramingMember, SteelForm};
use crate::params::fault::Fault;
use crate::params::layer::Layer;
use crate::params::list::{PARAMETERS, Params};
use crate::params::value::Value;

/// Keys whose sticks may be steel studs; boards of the yard may be anything.
const STUDS: [&str; 4] = [
    "chase.stud",
    "front.stud",
    "front.bump_out_stud",
    "front.header",
];

pub(super) static RULES: &[Rule] = &[
    only_where_modeled,
    header_of_a_steel_wall,
    header_within_wall,
];

fn only_where_modeled(params: &Params) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut judge = |key: &'static str, stock: &FramingMember| {
        let FramingMember::Steel(steel) = stock else {
            return;
        };
        let (problem, expected) = match (STUDS.contains(&key), steel.form) {
            (true, SteelForm::Stud) => return,
            (true, SteelForm::Track) => ("a track is no stud", "a stud, such as \"362S125-30\""),
            (false, SteelForm::Stud | SteelForm::Track) => (
                "this is framed in wood only",
                "a size of lumber, such as \"2x4\"",
            ),
        };
        faults.push(
            Fault::new(key, problem)
                .found(format!("`{}`, a steel member", steel.name))
                .expected(expected)
                .way_out("steel studs stand in `chase.stud`, `front.stud`, `front.bump_out_stud` and `front.header`; their tracks go with them"),
        );
    };
    for parameter in PARAMETERS {
        if let Some(Value::Lumber(stock)) = (parameter.get)(params) {
            judge(parameter.key, &stock);
        }
    }
    for layer in &params.platform.layers {
        if let Layer::Flat(stock) | Layer::OnEdge(stock) = layer {
            judge("platform.layers", stock);
        }
    }
    faults
}

/// Cripples of steel stand in the track of a steel header.
fn header_of_a_steel_wall(params: &Params) -> Vec<Fault> {
    let walls = [params.front_stud(), params.lower_stud()];
    let Some(header) = params.front.header.wood() else {
        return Vec::new();
    };
    if walls.into_iter().all(|it| it.wood().is_some()) {
        return Vec::new();
    }
    vec![
        Fault::new("front.header", "a wall of steel has a header of steel")
            .found(format!("`{}`", header.name))
            .expected("a steel member, such as \"362S125-30\"")
            .way_out("write `header` with the designation of a steel stud"),
    ]
}

/// Two members toe to toe fit between the faces of the wall.
fn header_within_wall(params: &Params) -> Vec<Fault> {
    let Some(header) = params.front.header.steel() else {
        return Vec::new();
    };
    let mut walls = vec![params.lower_stud()];
    if params.front.ledge.is_some() {
        walls.push(params.front_stud());
    }
    let inside = walls
        .into_iter()
        .map(|it| it.depth() - it.nested() * 2.0)
        .reduce(crate::units::Length::min)
        .unwrap_or_default();
    super::unless_fits(
        params,
        "front.header",
        ("two flanges of the header", header.flange * 2.0),
        ("the depth of the wall's studs", inside),
        "take a member with narrower flanges, or deeper studs",
    )
}
