//! Where steel members may stand in for lumber, and what they need.

use super::Rule;
use crate::catalog::{FramingMember, SteelForm};
use crate::params::fault::Fault;
use crate::params::layer::Layer;
use crate::params::list::{PARAMETERS, Params};
use crate::params::value::Value;

/// Keys whose sticks may be steel studs; boards of the yard may be anything.
const STUDS: [&str; 6] = [
    "chase.stud",
    "front.stud",
    "front.bump_out_stud",
    "front.header",
    "front.bump_out_header",
    "recess.header",
];

pub(super) static RULES: &[Rule] = &[only_where_modeled];

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
                .way_out("steel studs stand in `chase.stud`, `front.stud`, `front.bump_out_stud` and the headers; their tracks go with them"),
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
