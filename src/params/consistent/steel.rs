//! Where steel members may stand in for lumber, and what they need.

use super::Rule;
use crate::catalog::{FramingMember, SteelForm};
use crate::params::fault::Fault;
use crate::params::list::{PARAMETERS, Params};
use crate::params::value::Value;
use crate::params::yard::steel_fault;

pub(super) static RULES: &[Rule] = &[only_studs];

/// Tracks go with the studs that stand in them; walls that stand already are of wood.
fn only_studs(params: &Params) -> Vec<Fault> {
    let faults = PARAMETERS.iter().filter_map(|parameter| {
        let Some(Value::Lumber(FramingMember::Steel(steel))) = (parameter.get)(params) else {
            return None;
        };
        let is_new = matches!(parameter.group, "chase" | "front" | "recess");
        let stands = is_new && steel.form == SteelForm::Stud;
        (!stands).then(|| steel_fault(parameter.key, &steel, is_new))
    });
    faults.collect()
}
