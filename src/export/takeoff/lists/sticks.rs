//! The cut list, by place and by stock, and the settings of the saw.

use serde_json::{Value, json};

use super::Taken;
use crate::export::takeoff::table::{Cell, Names, Rows, Table, all, data, mm, only, read, rounded};
use crate::export::takeoff::texts::{EndSign, end_text, lies, rip_text, setting_text, stop_text};
use crate::takeoff::{Cut, End, Rip, Row, Setup, Stop};
use crate::units::{Angle, Length, TapeUnit};

/// The cut list, by wall and from the left.
pub(in crate::export) fn cut_list(taken: &Taken<'_>) -> Table {
    let names = only()
        .terminal("Cut list, by wall and from the left")
        .packet("Sticks, by wall and from the left")
        .csv("cut-list.csv");
    sticks(taken, names, &taken.takeoff.cut_list).table().with_after(
        "Drawn with the wide face up, the lower or left end to the left: | square, / \\ miter, : bevel, % compound, > a peak.",
    )
}

/// The same by stock, then the longest first; on the terminal in short.
pub(super) fn by_stock(taken: &Taken<'_>) -> Vec<Table> {
    let mut rows: Vec<&Row> = taken.takeoff.cut_list.iter().collect();
    rows.sort_by(|a, b| {
        let by_stock = a.board.name().cmp(&b.board.name());
        by_stock.then(b.long_point.to_mm().total_cmp(&a.long_point.to_mm()))
    });
    let names = only().terminal("Cut list by stock, the longest first");
    let short = taken
        .list(names, rows.iter().copied())
        .column(only().terminal(""), |it| Cell::Tick(it.mark.clone()))
        .column(only().terminal("stock"), |it| Cell::text(it.board.name()))
        .column(only().terminal("long point"), |it| long(it))
        .column(only().terminal("qty"), |it| Cell::Count(it.quantity()))
        .column(only().terminal("mark"), |it| Cell::text(&it.mark))
        .column(only().terminal("drawing"), |it| Cell::Ends(EndSign::of(it)));
    let whole = sticks(taken, only().csv("cut-list-by-stock.csv"), rows);
    vec![short.table(), whole.table()]
}

fn sticks<'a>(
    taken: &Taken<'_>,
    names: Names,
    rows: impl IntoIterator<Item = &'a Row>,
) -> Rows<&'a Row> {
    let unit = taken.unit();
    taken
        .list(names, rows)
        .column(read("").csv("done"), |it| Cell::Tick(it.mark.clone()))
        .column(all("mark"), |it| Cell::text(&it.mark))
        .column(read("qty").data("quantity"), |it| {
            Cell::Count(it.quantity())
        })
        .column(all("stock"), |it| Cell::Words(it.board.name()))
        .column(only().json("treated"), |it| Cell::Yes(it.board.treated))
        .column(only().csv("where").json("parts"), |it| {
            Cell::Lines(it.parts.clone())
        })
        .column(only().json("kinds"), |it| Cell::Lines(kinds(it)))
        .column(only().terminal("what and where"), |it| {
            Cell::Text(counted_places(it))
        })
        .column(only().terminal("long point / short"), |it| {
            Cell::Lines(lengths(it, unit))
        })
        .column(only().packet("long point").csv("long point"), |it| long(it))
        .column(only().json("long_point"), |it| {
            Cell::text(tape(it, it.long_point, unit))
        })
        .column(only().json("long_point_mm"), |it| long(it))
        .column(only().packet("short point"), |it| {
            match lengths(it, unit).len() {
                1 => Cell::Tape(None),
                _ => short(it),
            }
        })
        .column(only().csv("short point"), |it| short(it))
        .column(only().json("short_point"), |it| {
            Cell::text(tape(it, it.short_point, unit))
        })
        .column(only().csv("long point mm"), |it| {
            Cell::Millimetres(it.long_point)
        })
        .column(data("short point mm"), |it| {
            Cell::Millimetres(it.short_point)
        })
        .column(only().json("section_mm"), |it| {
            Cell::Data(json!([mm(it.section.0), mm(it.section.1)]))
        })
        .column(only().json("ends"), |it| {
            Cell::Data(it.ends.iter().map(|end| end_value(it, end, unit)).collect())
        })
        .column(only().csv("lower or left end"), |it| {
            Cell::text(end_text(it, &it.ends[0], unit))
        })
        .column(only().csv("upper or right end"), |it| {
            Cell::text(end_text(it, &it.ends[1], unit))
        })
        .column(only().terminal("ends, and how it lies"), |it| {
            let seen = format!("{} {}", EndSign::drawing(EndSign::of(it)), lies(it.on_edge));
            Cell::Lines([vec![seen], ends(it, unit), more(it, unit)].concat())
        })
        .column(only().csv("lies on the saw").json("lies"), |it| {
            Cell::text(lies(it.on_edge))
        })
        .column(data("drawing").packet("ends"), |it| {
            Cell::Ends(EndSign::of(it))
        })
        .column(only().packet("cuts"), |it| {
            let cuts = if it.ends.iter().all(End::is_square) {
                vec!["both ends square".to_owned()]
            } else {
                [ends(it, unit), vec![format!("lies {}", lies(it.on_edge))]].concat()
            };
            Cell::Lines([cuts, more(it, unit)].concat())
        })
        .column(only().packet("where"), |it| {
            let places: Vec<&str> = it.places.iter().map(|it| it.0.name()).collect();
            Cell::Text(format!("{}: {}", kinds(it).join(", "), places.join(", ")))
        })
        .column(only().csv("rip"), |it| Cell::Lines(rip(it, unit)))
        .column(only().json("rip"), |it| {
            Cell::Data(
                it.rip
                    .as_ref()
                    .map_or(Value::Null, |rip| rip_value(it, rip, unit)),
            )
        })
        .column(only().json("kilograms"), |it| Cell::Mass(it.mass))
        .column(data("notes"), |it| Cell::Lines(it.notes.clone()))
}

fn long(row: &Row) -> Cell {
    Cell::rounded(row.long_point, row.rounding)
}

fn short(row: &Row) -> Cell {
    Cell::rounded(row.short_point, row.rounding)
}

fn tape(row: &Row, length: Length, unit: TapeUnit) -> String {
    length.tape(unit, row.rounding)
}

/// Long point and short point; one where they read alike.
fn lengths(row: &Row, unit: TapeUnit) -> Vec<String> {
    let mut both = [row.long_point, row.short_point]
        .map(|it| tape(row, it, unit))
        .to_vec();
    both.dedup();
    both
}

fn kinds(row: &Row) -> Vec<String> {
    row.kinds.iter().map(|it| it.name().to_owned()).collect()
}

/// What the pieces are, and their places with how many each has.
fn counted_places(row: &Row) -> String {
    let places = row.places.iter();
    let places: Vec<String> = places
        .map(|(place, count)| format!("{place} {count}"))
        .collect();
    format!("{}: {}", kinds(row).join(", "), places.join(", "))
}

fn ends(row: &Row, unit: TapeUnit) -> Vec<String> {
    row.ends
        .iter()
        .map(|end| end_text(row, end, unit))
        .collect()
}

fn rip(row: &Row, unit: TapeUnit) -> Vec<String> {
    row.rip.iter().map(|rip| rip_text(row, rip, unit)).collect()
}

/// What else is to be known of a stick: its rip, and notes.
fn more(row: &Row, unit: TapeUnit) -> Vec<String> {
    [rip(row, unit), row.notes.clone()].concat()
}

fn rip_value(row: &Row, rip: &Rip, unit: TapeUnit) -> Value {
    json!({
        "text": rip_text(row, rip, unit),
        "width_mm": mm(rip.width),
        "thickness_mm": mm(rip.thickness),
        "edge_degrees": degrees(rip.edge),
    })
}

fn end_value(row: &Row, end: &End, unit: TapeUnit) -> Value {
    let (miter, bevel) = row.setting(end);
    json!({
        "place": end.place,
        "text": end_text(row, end, unit),
        "miter_degrees": degrees(miter),
        "bevel_degrees": degrees(bevel),
        "long_at": end.long_at,
        "second": end.second.as_ref().map(|it| {
            let (miter, bevel) = end.cuts().last().map_or_else(Default::default, |cut| row.setting(cut));
            json!({
                "miter_degrees": degrees(miter),
                "bevel_degrees": degrees(bevel),
                "meets_mm": mm(it.at),
                "from": it.from,
            })
        }),
    })
}

fn degrees(angle: Angle) -> f64 {
    rounded(angle.to_degrees())
}

/// The settings of the saw.
pub(in crate::export) fn saw(taken: &Taken<'_>) -> Table {
    let unit = taken.unit();
    let names = read("Saw set-up, besides square").csv("saw-setup.csv");
    let list = taken.list(names, &taken.takeoff.saw);
    let list = list
        .column(only().packet(""), |it| Cell::Tick(settings(it).join("; ")))
        .column(only().packet("setting"), |it| {
            Cell::text(settings(it).join("; "))
        })
        .column(only().terminal("setting"), |it| Cell::Lines(settings(it)))
        .column(only().csv("setting"), |it| Cell::text(setting_text(it)))
        .column(only().csv("lies"), |it| Cell::text(lies(it.on_edge)))
        .column(only().csv("miter").json("miter_degrees"), |it| {
            Cell::Angle(it.miter)
        })
        .column(only().json("bevel_degrees"), |it| Cell::Angle(it.bevel))
        .column(only().json("lies"), |it| Cell::text(lies(it.on_edge)))
        .column(only().csv("miter stop"), |it| {
            Cell::text(stop_text(it.miter_stop, unit))
        })
        .column(only().json("miter_stop"), |it| stop(it.miter_stop, unit))
        .column(only().csv("bevel"), |it| Cell::Angle(it.bevel))
        .column(only().csv("bevel stop"), |it| {
            Cell::text(stop_text(it.bevel_stop, unit))
        })
        .column(only().json("bevel_stop"), |it| stop(it.bevel_stop, unit))
        .column(read("nearest stop"), |it| {
            let stops = [it.miter_stop, it.bevel_stop].map(|it| stop_text(it, unit));
            Cell::Lines(stops.into_iter().filter(|it| !it.is_empty()).collect())
        })
        .column(read("test cut").csv("test cut"), |it| {
            Cell::Text(format!(
                "{} in {}",
                taken.tape(it.test),
                taken.tape(it.test_leg)
            ))
        });
    list.column(only().json("test_mm"), |it| Cell::tape(it.test))
        .column(only().json("test_leg_mm"), |it| Cell::tape(it.test_leg))
        .column(only().json("in_range"), |it| Cell::Yes(it.in_range))
        .column(only().terminal("pieces"), |it| {
            Cell::text(cuts(it, "x").join(", "))
        })
        .column(only().packet("pieces"), |it| {
            Cell::text(cuts(it, "\u{d7}").join(", "))
        })
        .column(only().csv("pieces"), |it| Cell::Lines(cuts(it, "x")))
        .column(data("way out"), |it| {
            it.way_out.as_ref().map_or(Cell::Nothing, Cell::text)
        })
        .column(only().json("cuts"), |it| {
            Cell::Data(it.cuts.iter().map(cut_value).collect())
        })
        .table()
}

/// A setting, and the way out where the saw does not go so far.
fn settings(setup: &Setup) -> Vec<String> {
    let setting = format!("{}, {}", setting_text(setup), lies(setup.on_edge));
    let past = setup.way_out.iter();
    let past = past.map(|it| format!("past the saw's range: {it}"));
    std::iter::once(setting).chain(past).collect()
}

fn cuts(setup: &Setup, times: &str) -> Vec<String> {
    let cuts = setup.cuts.iter();
    cuts.map(|it| format!("{} {times} {} {}", it.quantity, it.mark, it.end))
        .collect()
}

fn cut_value(cut: &Cut) -> Value {
    json!({ "mark": cut.mark, "quantity": cut.quantity, "end": cut.end })
}

fn stop(stop: Option<Stop>, unit: TapeUnit) -> Cell {
    Cell::Data(stop.map_or(Value::Null, |it| {
        json!({
            "degrees": degrees(it.angle),
            "gap_mm": mm(it.gap),
            "use_it": it.good,
            "text": stop_text(Some(it), unit),
        })
    }))
}
