//! The takeoff as tables that fit a terminal of 100 columns.

use std::fmt::Write as _;

use comfy_table::{ContentArrangement, Table, presets};

use super::table::WIDTH;
use crate::design::Design;
use crate::export::{
    amount, drawing, end_text, kilograms, lies, rip_text, setting_text, stop_text,
};
use crate::params::RoomWall;
use crate::takeoff::{BoardPlan, Row, Takeoff, square_feet};
use crate::units::{Length, Rounding, TapeUnit};

/// Everything, in the order of use.
pub(super) fn tables(design: &Design, takeoff: &Takeoff) -> String {
    let unit = design.params.project.unit;
    let mut text = format!("{}\n", design.params.project.name);
    section(
        &mut text,
        "Cut list, by wall and from the left",
        &cut_list(&takeoff.cut_list, unit),
    );
    let _ = writeln!(
        text,
        "Drawn with the wide face up, the lower or left end to the left: | square, / \\ miter, : bevel, % compound, > a peak."
    );
    section(
        &mut text,
        "Cut list by stock, the longest first",
        &by_stock(&takeoff.cut_list, unit),
    );
    section(&mut text, "Saw set-up, besides square", &saw(takeoff, unit));
    for plan in &takeoff.boards {
        boards(&mut text, plan, design);
    }
    sheets(&mut text, takeoff, unit);
    section(
        &mut text,
        "Layout marks, each from the plate's end; the stick stands beyond the line",
        &marks(takeoff, unit),
    );
    section(
        &mut text,
        "Story pole, from the bare slab",
        &pole(takeoff, unit),
    );
    section(
        &mut text,
        "Plumb lines on the existing wall, from the left corner",
        &plumb(takeoff, unit),
    );
    if !takeoff.packing.is_empty() {
        let title = "Packing: what lies between straight framing and the room at each reading";
        section(&mut text, title, &packing(takeoff, unit));
    }
    section(&mut text, "Buy list", &buy(design, takeoff));
    cost(&mut text, design, takeoff);
    section(&mut text, "Finish, without waste", &finish(takeoff, unit));
    section(&mut text, "Weights", &weights(takeoff, unit));
    let lacking: Vec<&str> = takeoff.without_weight().collect();
    if !lacking.is_empty() {
        let all = format!(
            "Not weighed, for want of a `weight` in `stock.prices`: {}.",
            lacking.join(", ")
        );
        text.push_str(&wrapped(&all));
    }
    text
}

fn table(header: &[&str]) -> Table {
    let mut table = Table::new();
    table
        .load_style(presets::UTF8_HORIZONTAL_ONLY)
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(WIDTH)
        .set_header(header.iter().copied());
    table
}

fn section(text: &mut String, title: &str, table: &Table) {
    if !table.is_empty() {
        let _ = writeln!(text, "\n{title}\n{table}");
    }
}

/// The places of a row, with how many pieces each has.
fn places(row: &Row) -> String {
    let kinds: Vec<&str> = row.kinds.iter().map(|it| it.name()).collect();
    let places = row.places.iter();
    let places: Vec<String> = places
        .map(|(place, count)| format!("{place} {count}"))
        .collect();
    format!("{}: {}", kinds.join(", "), places.join(", "))
}

fn cut_list(rows: &[Row], unit: TapeUnit) -> Table {
    let mut table = table(&[
        "",
        "mark",
        "qty",
        "stock",
        "what and where",
        "long point / short",
        "ends, and how it lies",
    ]);
    for row in rows {
        let long = row.long_point.tape(unit, row.rounding);
        let short = row.short_point.tape(unit, row.rounding);
        let mut ends = vec![
            format!("{} {}", drawing(row), lies(row.on_edge)),
            end_text(row, &row.ends[0], unit),
            end_text(row, &row.ends[1], unit),
        ];
        ends.extend(row.rip.as_ref().map(|rip| rip_text(row, rip, unit)));
        ends.extend(row.notes.iter().cloned());
        table.add_row([
            "[ ]".to_owned(),
            row.mark.clone(),
            row.quantity().to_string(),
            row.board.name(),
            places(row),
            if long == short {
                long
            } else {
                format!("{long}\n{short}")
            },
            ends.join("\n"),
        ]);
    }
    table
}

fn by_stock(rows: &[Row], unit: TapeUnit) -> Table {
    let mut rows: Vec<&Row> = rows.iter().collect();
    rows.sort_by(|a, b| {
        let by_stock = a.board.name().cmp(&b.board.name());
        by_stock.then(b.long_point.to_mm().total_cmp(&a.long_point.to_mm()))
    });
    let mut table = table(&["", "stock", "long point", "qty", "mark", "drawing"]);
    for row in rows {
        table.add_row([
            "[ ]".to_owned(),
            row.board.name(),
            row.long_point.tape(unit, row.rounding),
            row.quantity().to_string(),
            row.mark.clone(),
            drawing(row),
        ]);
    }
    table
}

fn saw(takeoff: &Takeoff, unit: TapeUnit) -> Table {
    let mut table = table(&["setting", "nearest stop", "test cut", "pieces"]);
    for setup in &takeoff.saw {
        let stops = [setup.miter_stop, setup.bevel_stop].map(|it| stop_text(it, unit));
        let stops: Vec<String> = stops.into_iter().filter(|it| !it.is_empty()).collect();
        let cuts = setup
            .cuts
            .iter()
            .map(|it| format!("{} x {} {}", it.quantity, it.mark, it.end));
        let mut setting = format!("{}, {}", setting_text(setup), lies(setup.on_edge));
        if let Some(way_out) = &setup.way_out {
            let _ = write!(setting, "\npast the saw's range: {way_out}");
        }
        table.add_row([
            setting,
            stops.join("\n"),
            format!(
                "{} in {}",
                setup.test.tape(unit, Rounding::Nearest),
                setup.test_leg.tape(unit, Rounding::Nearest)
            ),
            cuts.collect::<Vec<_>>().join(", "),
        ]);
    }
    table
}

fn boards(text: &mut String, plan: &BoardPlan, design: &Design) {
    let unit = design.params.project.unit;
    let currency = &design.params.stock.currency;
    let mut table = table(&[
        "board",
        "length",
        "pieces, in the order of the cuts",
        "offcut",
    ]);
    for (at, cut) in plan.boards.iter().enumerate() {
        let pieces = cut
            .pieces
            .iter()
            .map(|(mark, length)| format!("{mark} {}", length.tape(unit, Rounding::Nearest)));
        table.add_row([
            (at + 1).to_string(),
            cut.sold.length.feet_inches(unit.marks(), Rounding::Nearest),
            pieces.collect::<Vec<_>>().join(", "),
            cut.offcut.tape(unit, Rounding::Down),
        ]);
    }
    section(
        text,
        &format!("Cutting plan: {}", plan.board.name()),
        &table,
    );
    let cost = amount(plan.cost, currency, unit);
    if plan.is_proved() {
        let _ = writeln!(text, "{cost} of boards: no plan takes less.");
    } else {
        let bound = amount(plan.bound, currency, unit);
        let why = if plan.is_stopped() {
            "the search was stopped"
        } else {
            "the search ended at `stock.search_nodes`"
        };
        let _ = writeln!(
            text,
            "{cost} of boards; no plan takes less than {bound}; {why}."
        );
    }
    for near in &plan.near_misses {
        let by = near.by.tape(unit, Rounding::Up);
        let board = near.board.feet_inches(unit.marks(), Rounding::Nearest);
        let _ = writeln!(
            text,
            "{} is {by} too long for a board of {board}.",
            near.mark
        );
    }
}

fn sheets(text: &mut String, takeoff: &Takeoff, unit: TapeUnit) {
    let tape = |length: Length| length.tape(unit, Rounding::Nearest);
    for plan in &takeoff.sheets {
        let mut table = table(&["sheet", "pieces: width x height, and where it is from"]);
        for (at, cut) in plan.sheets.iter().enumerate() {
            let pieces = cut.pieces.iter().filter_map(|placed| {
                let piece = plan.piece(&placed.mark)?;
                let size = piece.high - piece.low;
                let cut_out = if piece.loops.len() > 1 || piece.loops[0].len() > 4 {
                    ", with cut-outs"
                } else {
                    ""
                };
                let backers = if piece.backers.is_empty() {
                    ""
                } else {
                    ", a joint needs a backer"
                };
                let corner = if piece.at_corners.is_empty() {
                    ""
                } else {
                    ", a joint at an opening's corner"
                };
                Some(format!(
                    "{} {} x {} {}{cut_out}{backers}{corner}",
                    placed.mark,
                    tape(Length::mm(size.x)),
                    tape(Length::mm(size.y)),
                    piece.part
                ))
            });
            table.add_row([(at + 1).to_string(), pieces.collect::<Vec<_>>().join("\n")]);
        }
        let sheet = &plan.sheet;
        let title = format!(
            "Sheets: {} {}, {} x {}",
            tape(sheet.thickness),
            sheet.material.word().replace('_', " "),
            tape(sheet.width),
            tape(sheet.length)
        );
        section(text, &title, &table);
        let count = plan.sheets.len();
        let _ = if count > plan.least {
            writeln!(
                text,
                "{}; no plan of rectangles needs fewer than {}.",
                counted(count),
                plan.least
            )
        } else {
            writeln!(
                text,
                "{}: no plan of rectangles needs fewer.",
                counted(count)
            )
        };
    }
}

fn counted(sheets: usize) -> String {
    format!("{sheets} sheet{}", if sheets == 1 { "" } else { "s" })
}

fn marks(takeoff: &Takeoff, unit: TapeUnit) -> Table {
    let tape = |length: Length| length.tape(unit, Rounding::Nearest);
    let mut table = table(&["plate", "from", "length", "near edges of the sticks"]);
    for plate in &takeoff.plates {
        let marks = plate.marks.iter().map(|it| {
            let name = it.part.split_once('/').map_or(it.part.as_str(), |it| it.1);
            format!("{} {}", tape(it.edge), name.replace('/', " "))
        });
        table.add_row([
            plate.plate.clone(),
            format!("{} end", plate.from),
            tape(plate.length),
            marks.collect::<Vec<_>>().join(", "),
        ]);
    }
    table
}

fn pole(takeoff: &Takeoff, unit: TapeUnit) -> Table {
    let mut table = table(&["height", "what"]);
    for mark in &takeoff.story_pole {
        table.add_row([
            mark.height.tape(unit, Rounding::Nearest),
            mark.what.to_string(),
        ]);
    }
    table
}

fn plumb(takeoff: &Takeoff, unit: TapeUnit) -> Table {
    let mut table = table(&["at", "what"]);
    for line in &takeoff.plumb_lines {
        table.add_row([
            line.right.tape(unit, Rounding::Nearest),
            match line.wall {
                RoomWall::Back => line.what.to_string(),
                _ => format!("{}, from the {}", line.what, line.from()),
            },
        ]);
    }
    table
}

fn packing(takeoff: &Takeoff, unit: TapeUnit) -> Table {
    let mut table = table(&["of", "at", "packed", "read"]);
    for it in &takeoff.packing {
        table.add_row([
            it.of.to_string(),
            format!(
                "{} from the {}",
                it.at.tape(unit, Rounding::Nearest),
                it.from
            ),
            it.thickness.tape(unit, Rounding::Nearest),
            it.read.to_string(),
        ]);
    }
    table
}

fn buy(design: &Design, takeoff: &Takeoff) -> Table {
    let currency = &design.params.stock.currency;
    let mut table = table(&[
        "section", "item", "qty", "spare", "board ft", "price", "cost", "detail",
    ]);
    for line in &takeoff.buy {
        let money = |it: Option<crate::units::Money>| {
            it.map_or_else(String::new, |it| format!("{currency}{it}"))
        };
        table.add_row([
            line.section.name().to_owned(),
            line.item.clone(),
            line.count.to_string(),
            if line.spare > 0 {
                format!("+{}", line.spare)
            } else {
                String::new()
            },
            line.board_feet
                .map_or_else(String::new, |it| format!("{it:.1}")),
            money(line.price),
            money(line.cost()),
            line.detail.clone(),
        ]);
    }
    table
}

fn cost(text: &mut String, design: &Design, takeoff: &Takeoff) {
    let missing: Vec<&str> = takeoff.without_price().collect();
    let priced = takeoff.buy.len() - missing.len();
    let _ = writeln!(
        text,
        "{}{} for {priced} of {} lines; {} have no price (`stock.boards`, `stock.sheets`, `stock.prices`).",
        design.params.stock.currency,
        takeoff.cost(),
        takeoff.buy.len(),
        missing.len()
    );
}

fn finish(takeoff: &Takeoff, unit: TapeUnit) -> Table {
    let mut table = table(&["face", "area", "outside corners"]);
    for face in &takeoff.finish {
        let area = match unit {
            TapeUnit::Inch => format!("{:.1} sq ft", square_feet(face.area)),
            TapeUnit::Millimeter => format!("{:.2} sq m", face.area * 1e-6),
        };
        table.add_row([
            face.face.to_string(),
            area,
            face.corners.feet_inches(unit.marks(), Rounding::Up),
        ]);
    }
    table
}

/// Words in lines that fit the width.
fn wrapped(words: &str) -> String {
    let mut lines = vec![String::new()];
    for word in words.split(' ') {
        let last = lines.len() - 1;
        if lines[last].is_empty() {
            word.clone_into(&mut lines[last]);
        } else if lines[last].chars().count() + 1 + word.chars().count() <= usize::from(WIDTH) {
            lines[last] = format!("{} {word}", lines[last]);
        } else {
            lines.push(word.to_owned());
        }
    }
    lines.join("\n") + "\n"
}

fn weights(takeoff: &Takeoff, unit: TapeUnit) -> Table {
    let mut table = table(&["what", "weight", ""]);
    for weight in &takeoff.weights {
        let lift = weight.two_can_lift.map_or("", |it| {
            if it {
                "two people can lift it in one piece"
            } else {
                "too heavy for two in one piece"
            }
        });
        table.add_row([
            weight.what.clone(),
            kilograms(weight.mass, unit),
            lift.to_owned(),
        ]);
    }
    table
}
