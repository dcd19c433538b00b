//! Whether what spans an opening fits the wall that it stands in.

use super::{Rule, unless_fits};
use crate::catalog::FramingMember;
use crate::params::chase_wall::ChaseWall;
use crate::params::choice::{FrontForm, HeaderForm};
use crate::params::fault::Fault;
use crate::params::header::{Header, most_plies};
use crate::params::list::Params;

pub(super) static RULES: &[Rule] = &[
    steel_in_steel,
    within_wall,
    plies_within_wall,
    flat_in_steel,
];

/// A header with the key of its stock and that of its plies, and the studs of its wall.
struct InWall<'a> {
    stock_key: &'static str,
    plies_key: &'static str,
    header: Header<'a>,
    stud: &'a FramingMember,
}

/// Every header of the design that lies on edge, in its wall.
fn on_edge(params: &Params) -> impl Iterator<Item = InWall<'_>> {
    let unit = |stock_key, wall| InWall {
        stock_key,
        plies_key: "front.header_plies",
        header: params.unit_header(wall),
        stud: params.stud_of(wall),
    };
    let bump_out_key = match params.front.bump_out_header {
        Some(_) => "front.bump_out_header",
        None => "front.header",
    };
    let walls = match params.front.form {
        FrontForm::OneWall => vec![unit("front.header", ChaseWall::Front)],
        FrontForm::Stepped => vec![
            unit("front.header", ChaseWall::SetBack),
            unit(bump_out_key, ChaseWall::BumpOut),
        ],
    };
    let recess = params.recess_header().map(|header| InWall {
        stock_key: match params.recess.as_ref().and_then(|it| it.header.as_ref()) {
            Some(_) => "recess.header",
            None => "front.header",
        },
        plies_key: "recess.header_plies",
        header,
        stud: params.front_stud(),
    });
    let all = walls.into_iter().chain(recess);
    all.filter(|it| it.header.form == HeaderForm::OnEdge)
}

/// The faults of every header, those of one key once.
fn of_each(params: &Params, fault: impl Fn(&InWall<'_>) -> Vec<Fault>) -> Vec<Fault> {
    let mut faults: Vec<Fault> = on_edge(params).flat_map(|it| fault(&it)).collect();
    faults.dedup_by(|a, b| a.key == b.key);
    faults
}

/// Cripples of steel stand in the track of a steel header.
fn steel_in_steel(params: &Params) -> Vec<Fault> {
    of_each(params, |it| {
        let (Some(wood), FramingMember::Steel(_)) = (it.header.stock.wood(), it.stud) else {
            return Vec::new();
        };
        vec![
            Fault::new(it.stock_key, "a wall of steel needs a header of steel")
                .found(format!("`{}`", wood.name))
                .expected("a steel member, such as \"362S125-30\"")
                .way_out("write `header` with the designation of a steel stud"),
        ]
    })
}

/// Two members toe to toe fit between the faces of the wall.
fn within_wall(params: &Params) -> Vec<Fault> {
    of_each(params, |it| {
        let Some(steel) = it.header.stock.steel() else {
            return Vec::new();
        };
        let inside = it.stud.depth() - it.stud.nested() * 2.0;
        unless_fits(
            params,
            it.stock_key,
            ("two flanges of the header", steel.flange * 2.0),
            ("the depth of the wall's studs", inside),
            "take a member with narrower flanges, or deeper studs",
        )
    })
}

/// Plies stand side by side between the faces of the wall.
fn plies_within_wall(params: &Params) -> Vec<Fault> {
    of_each(params, |it| {
        let (Some(stock), Some(plies)) = (it.header.stock.wood(), it.header.plies) else {
            return Vec::new();
        };
        let most = most_plies(stock, it.stud);
        if plies <= most {
            return Vec::new();
        }
        vec![
            Fault::new(it.plies_key, "the plies are thicker than the wall")
                .found(format!("{plies} plies of {}", stock.name))
                .expected(format!("{most} at most in studs of {}", it.stud.name()))
                .way_out("take fewer plies, or deeper studs"),
        ]
    })
}

/// The header over the unit in a wall of steel is no track alone.
fn flat_in_steel(params: &Params) -> Vec<Fault> {
    let flat = params.front.header_form == HeaderForm::Flat;
    let walls = [params.front_stud(), params.lower_stud()];
    if !flat || walls.iter().all(|it| it.wood().is_some()) {
        return Vec::new();
    }
    vec![
        Fault::new("front.header_form", "a flat header is a stick of wood")
            .found("`flat` in a wall of steel")
            .expected("`on_edge`, with a steel member as `header`")
            .way_out("leave `header_form` out"),
    ]
}
