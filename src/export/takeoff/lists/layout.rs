//! Layout marks: on plates, on the story pole and on walls, and what is bored and packed.

use serde_json::{Value, json};

use super::Taken;
use crate::export::takeoff::table::Cell::{Millimetres, Tape};
use crate::export::takeoff::table::{Table, all, csv, json, mm, terminal};
use crate::params::RoomWall;
use crate::takeoff::StickMark;
use crate::units::Rounding;

/// The file of all marks. Each list fills those of its columns that it has something for.
const FILE: &str = "layout-marks.csv";

/// A row for each plate.
pub(in crate::export) fn plates(taken: &Taken<'_>) -> Table {
    let title = "Layout marks, each from the plate's end; the stick goes beyond the line";
    let text = |it: &StickMark| {
        let name = it.part.split_once('/').map_or(it.part.as_str(), |it| it.1);
        format!("{} {}", taken.tape(it.edge), name.replace('/', " "))
    };
    let value = |it: &StickMark| json!({ "part": it.part, "edge_mm": mm(it.edge), "level_mm": mm(it.level) });
    taken
        .list(terminal(title), &taken.takeoff.plates)
        .column(terminal("plate").json("plate"), |it| it.plate.clone())
        .column(terminal("from"), |it| format!("{} end", it.from))
        .column(json("from"), |it| it.from.name())
        .column(terminal("length").json("length_mm"), |it| it.length)
        .column(terminal("near edges of the sticks"), |it| {
            it.marks.iter().map(text).collect::<Vec<_>>().join(", ")
        })
        .column(json("marks"), |it| {
            it.marks.iter().map(value).collect::<Value>()
        })
        .table()
}

/// A row for each mark on a plate.
pub(super) fn marks(taken: &Taken<'_>) -> Vec<Table> {
    let plates = taken.takeoff.plates.iter();
    let marks = plates.flat_map(|plate| plate.marks.iter().map(move |mark| (plate, mark)));
    let list = taken.list(csv(FILE), marks);
    let list = list
        .column(csv("on"), |it| it.0.plate.clone())
        .column(csv("from"), |it| format!("{} end", it.0.from))
        .column(csv("mark at"), |it| it.1.edge)
        .column(csv("mark at mm"), |it| Millimetres(it.1.edge))
        .column(csv("level"), |it| it.1.level)
        .column(csv("what"), |it| it.1.part.clone())
        .column(csv("stands"), |_| "beyond the line");
    vec![list.table()]
}

/// The story pole.
pub(in crate::export) fn story_pole(taken: &Taken<'_>) -> Table {
    let names = terminal("Story pole, from the bare slab").csv(FILE);
    taken
        .list(names, &taken.takeoff.story_pole)
        .column(csv("on"), |_| "story pole")
        .column(csv("from"), |_| "bare slab")
        .column(csv("mark at").terminal("height"), |it| {
            Tape(Some(it.height), it.rounding)
        })
        .column(csv("mark at mm"), |it| Millimetres(it.height))
        .column(all("what"), |it| it.what.to_string())
        .column(json("height"), |it| it.tape(taken.unit()))
        .column(json("height_mm"), |it| it.height)
        .table()
}

/// Plumb lines on the walls.
pub(in crate::export) fn plumb_lines(taken: &Taken<'_>) -> Table {
    let names = terminal("Plumb lines on the existing wall, from the left corner").csv(FILE);
    taken
        .list(names, &taken.takeoff.plumb_lines)
        .column(csv("on"), |it| match it.wall {
            RoomWall::Back => "existing wall",
            RoomWall::Behind => "wall behind the chase",
            wall @ (RoomWall::Left | RoomWall::Right) => wall.name(),
        })
        .column(json("what"), |it| it.what.to_string())
        .column(csv("from").json("from"), |it| it.from())
        .column(json("right"), |it| it.tape(taken.unit()))
        .column(csv("mark at").terminal("at").json("right_mm"), |it| {
            Tape(Some(it.right), it.rounding)
        })
        .column(csv("mark at mm"), |it| Millimetres(it.right))
        .column(csv("what"), |it| it.what.to_string())
        .column(terminal("what"), |it| match it.wall {
            RoomWall::Back => it.what.to_string(),
            RoomWall::Behind | RoomWall::Left | RoomWall::Right => {
                format!("{}, from the {}", it.what, it.from())
            }
        })
        .column(csv("stands"), |_| "plumb line")
        .table()
}

/// Holes in sticks.
pub(in crate::export) fn bores(taken: &Taken<'_>) -> Table {
    taken
        .list(csv(FILE), &taken.takeoff.bores)
        .column(csv("on").json("part"), |it| it.part.clone())
        .column(csv("from"), |_| "foot")
        .column(csv("mark at"), |it| it.up)
        .column(csv("mark at mm"), |it| Millimetres(it.up))
        .column(csv("what").json("service"), |it| it.service.clone())
        .column(json("up_mm"), |it| it.up)
        .column(json("from_edge_mm"), |it| it.from_edge)
        .column(json("diameter_mm"), |it| it.diameter)
        .column(csv("stands"), |it| {
            let diameter = it.diameter.tape(taken.unit(), Rounding::Up);
            let middle = taken.tape(it.from_edge);
            format!("bore {diameter}, center {middle} from the nearer edge")
        })
        .table()
}

/// What is packed or scribed.
pub(in crate::export) fn packing(taken: &Taken<'_>) -> Table {
    let title = "Packing: what lies between straight framing and the room at each reading";
    taken
        .list(terminal(title).csv(FILE), &taken.takeoff.packing)
        .column(csv("on").terminal("of").json("of"), |it| it.of.to_string())
        .column(csv("from").json("from"), |it| it.from.name())
        .column(csv("mark at").json("at_mm"), |it| it.at)
        .column(csv("mark at mm"), |it| Millimetres(it.at))
        .column(terminal("at"), |it| {
            format!("{} from the {}", taken.tape(it.at), it.from)
        })
        .column(terminal("packed").json("thickness_mm"), |it| it.thickness)
        .column(csv("what").terminal("read").json("read"), |it| {
            it.read.to_string()
        })
        .column(csv("stands"), |it| {
            format!("packed {}", taken.tape(it.thickness))
        })
        .table()
}
