//! Where steel members may stand in for lumber, and what they need.

use super::Rule;
use crate::catalog::{FramingMember, SteelForm};
use crate::params::fault::Fault;
use crate::params::list::{PARAMETERS, Params};
use crate::params::value::Value;
use crate::params::yard::steel_fault;

pub(super) static RULES: &[Rule] = &[only_studs, header_of_a_steel_wall, header_within_wall];

/// Tracks go with the studs that stand in them; walls that stand already are of wood.
fn only_studs(params: &Params) -> Vec<Fault> {
    let faults = PARAMETERS.iter().filter_map(|parameter| {
        let Some(Value::Lumber(FramingMember::Steel(steel))) = (parameter.get)(params) else {
            return None;
        };
        let is_new = matches!(parameter.group, "chase" | "front");
        let stands = is_new && steel.form == SteelForm::Stud;
        (!stands).then(|| steel_fault(parameter.key, &steel, is_new))
    });
    faults.collect()
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
