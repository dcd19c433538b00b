//! The cut list, by place and by stock, and the settings of the saw.

use serde_json::{Value, json};

use super::Taken;
use crate::export::takeoff::table::Cell::{Ends, Mass, Millimetres, Tape, Tick, Words};
use crate::export::takeoff::table::{
    Names, Rows, Table, all, csv, data, json, mm, packet, read, rounded, terminal,
};
use crate::export::takeoff::texts::{EndSign, end_text, lies, rip_text, setting_text, stop_text};
use crate::takeoff::{End, EndCut, Row, Setup, Stop};
use crate::units::{Angle, TapeUnit};

/// The cut list, by wall and from the left.
pub(in crate::export) fn cut_list(taken: &Taken<'_>) -> Table {
    let names = terminal("Cut list, by wall and from the left")
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
    let names = terminal("Cut list by stock, the longest first");
    let short = taken
        .list(names, rows.iter().copied())
        .column(terminal(""), |it| Tick(it.mark.clone()))
        .column(terminal("stock"), |it| it.board.name())
        .column(terminal("long point"), |it| it.long())
        .column(terminal("qty"), |it| it.quantity())
        .column(terminal("mark"), |it| it.mark.clone())
        .column(terminal("drawing"), |it| Ends(EndSign::of(it)));
    let whole = sticks(taken, csv("cut-list-by-stock.csv"), rows);
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
        .column(read("").csv("done"), |it| Tick(it.mark.clone()))
        .column(all("mark"), |it| it.mark.clone())
        .column(read("qty").data("quantity"), |it| it.quantity())
        .column(all("stock"), |it| Words(it.board.name()))
        .column(json("treated"), |it| it.board.treated)
        .column(csv("where").json("parts"), |it| it.parts.clone())
        .column(json("kinds"), |it| kinds(it))
        .column(terminal("what and where"), |it| counted_places(it))
        .column(terminal("long point / short"), |it| lengths(it, unit))
        .column(packet("long point").csv("long point"), |it| it.long())
        .column(json("long_point"), |it| it.long().tape(unit))
        .column(json("long_point_mm"), |it| it.long())
        .column(packet("short point"), |it| {
            let reads_alike = lengths(it, unit).len() == 1;
            Tape(
                (!reads_alike).then_some(it.short_point),
                it.short().rounding,
            )
        })
        .column(csv("short point"), |it| it.short())
        .column(json("short_point"), |it| it.short().tape(unit))
        .column(csv("long point mm"), |it| Millimetres(it.long_point))
        .column(data("short point mm"), |it| Millimetres(it.short_point))
        .column(json("section_mm"), |it| {
            json!([mm(it.section.0), mm(it.section.1)])
        })
        .column(json("ends"), |it| -> Value {
            it.ends.iter().map(|end| end_value(it, end, unit)).collect()
        })
        .column(csv("lower or left end"), |it| {
            end_text(it, &it.ends[0], unit)
        })
        .column(csv("upper or right end"), |it| {
            end_text(it, &it.ends[1], unit)
        })
        .column(terminal("ends, and how it lies"), |it| {
            let seen = format!("{} {}", EndSign::drawing(EndSign::of(it)), lies(it.on_edge));
            [vec![seen], ends(it, unit), more(it, unit)].concat()
        })
        .column(csv("lies on the saw").json("lies"), |it| lies(it.on_edge))
        .column(data("drawing").packet("ends"), |it| Ends(EndSign::of(it)))
        .column(packet("cuts"), |it| {
            let cuts = if it.ends.iter().all(End::is_square) {
                vec!["both ends square".to_owned()]
            } else {
                [ends(it, unit), vec![format!("lies {}", lies(it.on_edge))]].concat()
            };
            [cuts, more(it, unit)].concat()
        })
        .column(packet("where"), |it| {
            let places: Vec<&str> = it.places.iter().map(|it| it.0.name()).collect();
            format!("{}: {}", kinds(it).join(", "), places.join(", "))
        })
        .column(csv("rip"), |it| rip(it, unit))
        .column(json("rip"), |it| rip_value(it, unit))
        .column(json("kilograms"), |it| Mass(it.mass))
        .column(data("notes"), |it| it.notes.clone())
}

/// Long point and short point; one where they read alike.
fn lengths(row: &Row, unit: TapeUnit) -> Vec<String> {
    let mut both = [row.long(), row.short()].map(|it| it.tape(unit)).to_vec();
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

fn rip_value(row: &Row, unit: TapeUnit) -> Value {
    row.rip.as_ref().map_or(Value::Null, |it| {
        json!({
            "text": rip_text(row, it, unit),
            "width_mm": mm(it.width),
            "thickness_mm": mm(it.thickness),
            "edge_degrees": degrees(it.edge),
        })
    })
}

fn end_value(row: &Row, end: &End, unit: TapeUnit) -> Value {
    let (miter, bevel) = row.setting(end);
    json!({
        "place": end.place.name(),
        "text": end_text(row, end, unit),
        "miter_degrees": degrees(miter),
        "bevel_degrees": degrees(bevel),
        "long_at": end.long_at.iter().map(|it| it.name()).collect::<Vec<_>>(),
        "second": end.second.as_ref().map(|it| {
            let (miter, bevel) = end.cuts().last().map_or_else(Default::default, |cut| row.setting(cut));
            json!({
                "miter_degrees": degrees(miter),
                "bevel_degrees": degrees(bevel),
                "meets_mm": mm(it.at),
                "from": it.from.name(),
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
    taken
        .list(names, &taken.takeoff.saw)
        .column(packet(""), |it| Tick(settings(it).join("; ")))
        .column(packet("setting"), |it| settings(it).join("; "))
        .column(terminal("setting"), |it| settings(it))
        .column(csv("setting"), |it| setting_text(it))
        .column(csv("lies"), |it| lies(it.on_edge))
        .column(csv("miter").json("miter_degrees"), |it| it.miter)
        .column(json("bevel_degrees"), |it| it.bevel)
        .column(json("lies"), |it| lies(it.on_edge))
        .column(csv("miter stop"), |it| stop_text(it.miter_stop, unit))
        .column(json("miter_stop"), |it| stop(it.miter_stop, unit))
        .column(csv("bevel"), |it| it.bevel)
        .column(csv("bevel stop"), |it| stop_text(it.bevel_stop, unit))
        .column(json("bevel_stop"), |it| stop(it.bevel_stop, unit))
        .column(read("nearest stop"), |it| {
            let stops = [it.miter_stop, it.bevel_stop].map(|it| stop_text(it, unit));
            stops
                .into_iter()
                .filter(|it| !it.is_empty())
                .collect::<Vec<_>>()
        })
        .column(read("test cut").csv("test cut"), |it| {
            format!("{} in {}", taken.tape(it.test), taken.tape(it.test_leg))
        })
        .column(json("test_mm"), |it| it.test)
        .column(json("test_leg_mm"), |it| it.test_leg)
        .column(json("in_range"), |it| it.in_range)
        .column(terminal("pieces"), |it| cuts(it, "x").join(", "))
        .column(packet("pieces"), |it| cuts(it, "\u{d7}").join(", "))
        .column(csv("pieces"), |it| cuts(it, "x"))
        .column(data("way out"), |it| it.way_out.clone())
        .column(json("cuts"), |it| {
            it.cuts.iter().map(cut_value).collect::<Value>()
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

fn cut_value(cut: &EndCut) -> Value {
    json!({ "mark": cut.mark, "quantity": cut.quantity, "end": cut.end.name() })
}

fn stop(stop: Option<Stop>, unit: TapeUnit) -> Value {
    stop.map_or(Value::Null, |it| {
        json!({
            "degrees": degrees(it.angle),
            "gap_mm": mm(it.gap),
            "use_it": it.good,
            "text": stop_text(Some(it), unit),
        })
    })
}
