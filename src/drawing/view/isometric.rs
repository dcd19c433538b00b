//! The framing in isometric: assembled, and pulled apart in the order of the job.

use glam::DVec3;

use crate::design::{Branch, Group, Kind, Part, Stage, Step, order};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::hidden;
use crate::drawing::ink::Pen;
use crate::drawing::solid::Solid;
use crate::drawing::subject::Subject;
use crate::params::ChaseWall;

/// Lengths along the axes are drawn in the sheet's own scale, not shortened.
///
/// Source: ISO 5456-3:1996: the projection shortens each axis by √(2/3).
fn stretch() -> f64 {
    1.5_f64.sqrt()
}

/// Framing, platform, unit and vent as they stand.
pub(in crate::drawing) fn assembled(subject: &Subject<'_>) -> Vec<Figure> {
    vec![draw(
        subject,
        "Framing, platform, unit and vent",
        |_| DVec3::ZERO,
        &|_| None,
    )]
}

/// The same pulled apart.
pub(in crate::drawing) fn exploded(subject: &Subject<'_>) -> Vec<Figure> {
    let order = order(subject.design);
    vec![draw(
        subject,
        "Exploded view, in the order of the job",
        apart,
        &|part| step(part, &order),
    )]
}

fn is_shown(part: &Part) -> bool {
    let group = matches!(
        part.group,
        Group::Framing | Group::Platform | Group::Unit | Group::Vent
    );
    group && part.kind != Kind::Firestop
}

/// How far a part is moved off its place, in millimetres.
fn apart(part: &Part) -> DVec3 {
    match part.branch {
        Branch::Wall(wall) => match wall {
            ChaseWall::LeftSide => DVec3::new(-700.0, 0.0, 0.0),
            ChaseWall::RightSide => DVec3::new(700.0, 0.0, 0.0),
            ChaseWall::Front | ChaseWall::SetBack | ChaseWall::Opened => {
                DVec3::new(0.0, -900.0, 0.0)
            }
            ChaseWall::Back => DVec3::new(0.0, 1300.0, 0.0),
            ChaseWall::BumpOut => DVec3::new(0.0, -1700.0, 0.0),
        },
        Branch::Recess => DVec3::new(0.0, -450.0, 0.0),
        Branch::Unit => DVec3::new(0.0, -2700.0, 0.0),
        Branch::Vent => DVec3::new(0.0, 500.0, 500.0),
        Branch::WallPass => DVec3::new(0.0, 900.0, 0.0),
        Branch::RoofPass
        | Branch::Platform
        | Branch::ExistingWall
        | Branch::Ceiling
        | Branch::Face(_)
        | Branch::Cover(_)
        | Branch::Lining(_)
        | Branch::Fireblock
        | Branch::Mantel
        | Branch::Cabinets
        | Branch::Gas
        | Branch::Cables
        | Branch::Room
        | Branch::Behind
        | Branch::Fixed => DVec3::ZERO,
    }
}

/// What the framing of a branch is called here.
fn framing(branch: Branch) -> String {
    match branch {
        Branch::Wall(ChaseWall::Opened) => "framing in the opened wall".to_owned(),
        Branch::Recess => "framing behind the recess".to_owned(),
        Branch::ExistingWall => "blocks in the existing walls".to_owned(),
        Branch::Ceiling => "blocks over the ceiling".to_owned(),
        Branch::Wall(
            ChaseWall::Front
            | ChaseWall::SetBack
            | ChaseWall::LeftSide
            | ChaseWall::RightSide
            | ChaseWall::Back
            | ChaseWall::BumpOut,
        )
        | Branch::Platform
        | Branch::Face(_)
        | Branch::Cover(_)
        | Branch::Lining(_)
        | Branch::Fireblock
        | Branch::Mantel
        | Branch::Unit
        | Branch::Vent
        | Branch::WallPass
        | Branch::RoofPass
        | Branch::Cabinets
        | Branch::Gas
        | Branch::Cables
        | Branch::Room
        | Branch::Behind
        | Branch::Fixed => format!("{branch} wall"),
    }
}

/// What is said of the first part of each piece that is pulled off.
fn step(part: &Part, order: &[Step]) -> Option<String> {
    let name = framing(part.branch);
    let at = |stage: Stage| order.iter().position(|it| *it == Step::Stage(stage));
    let walls_first = at(Stage::Walls) < at(Stage::Platform);
    let (number, what) = match part.stage {
        Stage::WallPass => (1, "pass through the wall"),
        Stage::Platform => (if walls_first { 3 } else { 2 }, "platform"),
        Stage::Plates | Stage::Walls | Stage::RoomBlocks => {
            (if walls_first { 2 } else { 3 }, name.as_str())
        }
        Stage::Unit => (4, "unit"),
        Stage::Vent => (5, "vent and cap"),
        Stage::Existing
        | Stage::Thimble
        | Stage::SealedWall
        | Stage::Fireblocks
        | Stage::Gas
        | Stage::Wiring
        | Stage::PassSealed
        | Stage::CableShelf
        | Stage::MantelBrackets
        | Stage::Board
        | Stage::Finish
        | Stage::Mantel
        | Stage::Screen => return None,
    };
    Some(format!("{number}  {what}"))
}

fn draw(
    subject: &Subject<'_>,
    title: &str,
    apart: fn(&Part) -> DVec3,
    step: &dyn Fn(&Part) -> Option<String>,
) -> Figure {
    let mut figure = Figure::new(title, "");
    let eye = Eye::isometric();
    let parts = subject.parts(is_shown);
    let solids: Vec<Solid> = parts
        .iter()
        .map(|(part, _)| Solid::new(&part.body, apart(part)))
        .collect();
    let all: Vec<&Solid> = solids.iter().collect();
    let lines = hidden::visible(&all, &eye, None).into_iter().map(|it| it.1);
    for [a, b] in hidden::merged(lines.collect()) {
        figure.line(Pen::Edge, a * stretch(), b * stretch());
    }
    let mut said: Vec<String> = Vec::new();
    for ((part, _), solid) in parts.iter().zip(&solids) {
        let Some(text) = step(part) else { continue };
        if said.contains(&text) {
            continue;
        }
        let middle = solid.vertices.iter().sum::<DVec3>() / solid.vertices.len().max(1) as f64;
        figure.call(eye.see(middle).truncate() * stretch(), text.clone());
        said.push(text);
    }
    figure.notes.push(
        "Isometric: lengths along the wall, out from it and upright are to scale; others are not."
            .to_owned(),
    );
    figure
}
