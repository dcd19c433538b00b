//! Layout marks: on plates, on the story pole and on walls, and what is bored and packed.

use serde_json::json;

use super::Taken;
use crate::export::takeoff::table::{Cell, Names, Table, all, mm, only};
use crate::params::RoomWall;
use crate::takeoff::StickMark;
use crate::units::Rounding;

/// The file of all marks. Each list fills those of its columns that it has something for.
const FILE: &str = "layout-marks.csv";

/// The columns of that file.
fn on() -> Names {
    only().csv("on")
}
fn from() -> Names {
    only().csv("from")
}
fn at() -> Names {
    only().csv("mark at")
}
fn at_mm() -> Names {
    only().csv("mark at mm")
}
fn what() -> Names {
    only().csv("what")
}
fn stands() -> Names {
    only().csv("stands")
}

/// A row for each plate.
pub(in crate::export) fn plates(taken: &Taken<'_>) -> Table {
    let title = "Layout marks, each from the plate's end; the stick stands beyond the line";
    let near_edges = |marks: &[StickMark]| {
        let marks = marks.iter().map(|it| {
            let name = it.part.split_once('/').map_or(it.part.as_str(), |it| it.1);
            format!("{} {}", taken.tape(it.edge), name.replace('/', " "))
        });
        Cell::text(marks.collect::<Vec<_>>().join(", "))
    };
    let mark = |it: &StickMark| json!({ "part": it.part, "edge_mm": mm(it.edge), "level_mm": mm(it.level) });
    taken
        .list(only().terminal(title), &taken.takeoff.plates)
        .column(only().terminal("plate").json("plate"), |it| {
            Cell::text(&it.plate)
        })
        .column(only().terminal("from"), |it| {
            Cell::Text(format!("{} end", it.from))
        })
        .column(only().json("from"), |it| Cell::text(it.from))
        .column(only().terminal("length").json("length_mm"), |it| {
            Cell::tape(it.length)
        })
        .column(only().terminal("near edges of the sticks"), |it| {
            near_edges(&it.marks)
        })
        .column(only().json("marks"), |it| {
            Cell::Data(it.marks.iter().map(mark).collect())
        })
        .table()
}

/// A row for each mark on a plate.
pub(super) fn marks(taken: &Taken<'_>) -> Vec<Table> {
    let plates = taken.takeoff.plates.iter();
    let marks = plates.flat_map(|plate| plate.marks.iter().map(move |mark| (plate, mark)));
    let list = taken.list(only().csv(FILE), marks);
    let list = list
        .column(on(), |it| Cell::text(&it.0.plate))
        .column(from(), |it| Cell::Text(format!("{} end", it.0.from)))
        .column(at(), |it| Cell::tape(it.1.edge))
        .column(at_mm(), |it| Cell::Millimetres(it.1.edge))
        .column(only().csv("level"), |it| Cell::tape(it.1.level))
        .column(what(), |it| Cell::text(&it.1.part))
        .column(stands(), |_| Cell::text("beyond the line"));
    vec![list.table()]
}

/// The story pole.
pub(in crate::export) fn story_pole(taken: &Taken<'_>) -> Table {
    let names = only().terminal("Story pole, from the bare slab").csv(FILE);
    taken
        .list(names, &taken.takeoff.story_pole)
        .column(on(), |_| Cell::text("story pole"))
        .column(from(), |_| Cell::text("bare slab"))
        .column(at().terminal("height"), |it| Cell::tape(it.height))
        .column(at_mm(), |it| Cell::Millimetres(it.height))
        .column(all("what"), |it| Cell::text(&it.what))
        .column(only().json("height_mm"), |it| Cell::tape(it.height))
        .table()
}

/// Plumb lines on the walls.
pub(in crate::export) fn plumb_lines(taken: &Taken<'_>) -> Table {
    let names = only().terminal("Plumb lines on the existing wall, from the left corner");
    taken
        .list(names.csv(FILE), &taken.takeoff.plumb_lines)
        .column(on(), |it| {
            Cell::text(match it.wall {
                RoomWall::Back => "existing wall",
                RoomWall::Behind => "wall behind the chase",
                wall => wall.name(),
            })
        })
        .column(only().json("what"), |it| Cell::text(it.what))
        .column(from().json("from"), |it| Cell::text(it.from()))
        .column(at().terminal("at").json("right_mm"), |it| {
            Cell::tape(it.right)
        })
        .column(at_mm(), |it| Cell::Millimetres(it.right))
        .column(what(), |it| Cell::text(it.what))
        .column(only().terminal("what"), |it| match it.wall {
            RoomWall::Back => Cell::text(it.what),
            _ => Cell::Text(format!("{}, from the {}", it.what, it.from())),
        })
        .column(stands(), |_| Cell::text("plumb line"))
        .table()
}

/// Holes in sticks.
pub(in crate::export) fn bores(taken: &Taken<'_>) -> Table {
    taken
        .list(only().csv(FILE), &taken.takeoff.bores)
        .column(on().json("part"), |it| Cell::text(&it.part))
        .column(from(), |_| Cell::text("foot"))
        .column(at(), |it| Cell::tape(it.up))
        .column(at_mm(), |it| Cell::Millimetres(it.up))
        .column(what().json("service"), |it| Cell::text(&it.service))
        .column(only().json("up_mm"), |it| Cell::tape(it.up))
        .column(only().json("from_edge_mm"), |it| Cell::tape(it.from_edge))
        .column(only().json("diameter_mm"), |it| Cell::tape(it.diameter))
        .column(stands(), |it| {
            let diameter = it.diameter.tape(taken.unit(), Rounding::Up);
            let middle = taken.tape(it.from_edge);
            Cell::Text(format!(
                "bore {diameter}, middle {middle} from the nearer edge"
            ))
        })
        .table()
}

/// What is packed or scribed.
pub(in crate::export) fn packing(taken: &Taken<'_>) -> Table {
    let title = "Packing: what lies between straight framing and the room at each reading";
    taken
        .list(only().terminal(title).csv(FILE), &taken.takeoff.packing)
        .column(on().terminal("of").json("of"), |it| Cell::text(&it.of))
        .column(from().json("from"), |it| Cell::text(it.from))
        .column(at().json("at_mm"), |it| Cell::tape(it.at))
        .column(at_mm(), |it| Cell::Millimetres(it.at))
        .column(only().terminal("at"), |it| {
            Cell::Text(format!("{} from the {}", taken.tape(it.at), it.from))
        })
        .column(only().terminal("packed").json("thickness_mm"), |it| {
            Cell::tape(it.thickness)
        })
        .column(what().terminal("read").json("read"), |it| {
            Cell::text(&it.read)
        })
        .column(stands(), |it| {
            Cell::Text(format!("packed {}", taken.tape(it.thickness)))
        })
        .table()
}
