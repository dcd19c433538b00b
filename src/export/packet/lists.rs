//! The takeoff in, cut list and buy list out, each with its boxes to tick.

use super::html::Html;
use super::table::{Cell, Table};
use super::{Packet, section};
use crate::design::Kind;
use crate::export::{amount, drawing, end_text, lies, rip_text, setting_text, stop_text};
use crate::takeoff::{BoardPlan, End, Line, Row, Setup};
use crate::units::{Length, Money, Rounding, TapeUnit};

/// Writes the cut list and the settings of the saw.
pub(super) fn cuts(html: &mut Html, packet: &Packet<'_>) {
    let (takeoff, unit) = (packet.takeoff, packet.unit());
    section(html, "cuts", "Cut list", |html| {
        html.leaf(
            "p",
            &[],
            "Drawn with the wide face up, the lower or left end to the left; a dashed line is a bevel. \
             Lengths are from long point to long point. Write the mark on the wood.",
        );
        Table {
            caption: "Sticks, by wall and from the left",
            heads: &[
                "",
                "mark",
                "qty",
                "stock",
                "long point",
                "short point",
                "ends",
                "cuts",
                "where",
            ],
            rows: takeoff.cut_list.iter().map(|it| stick(it, unit)).collect(),
        }
        .write(html);
        Table {
            caption: "Saw set-up, besides square",
            heads: &["", "setting", "nearest stop", "test cut", "pieces"],
            rows: takeoff.saw.iter().map(|it| setup(it, unit)).collect(),
        }
        .write(html);
    });
}

fn stick(row: &Row, unit: TapeUnit) -> Vec<Cell> {
    let long = row.long_point.tape(unit, row.rounding);
    let short = row.short_point.tape(unit, row.rounding);
    let mut cuts: Vec<String> = if row.ends.iter().all(End::is_square) {
        vec!["both ends square".to_owned()]
    } else {
        let ends = row.ends.iter().map(|end| end_text(row, end, unit));
        let lies = format!("lies {}", lies(row.on_edge));
        ends.chain([lies]).collect()
    };
    cuts.extend(row.rip.as_ref().map(|rip| rip_text(row, rip, unit)));
    cuts.extend(row.notes.iter().cloned());
    vec![
        Cell::Tick(row.mark.clone()),
        Cell::Text(row.mark.clone()),
        Cell::Number(row.quantity().to_string()),
        Cell::Words(row.board.name()),
        Cell::Number(long.clone()),
        Cell::Number(if short == long { String::new() } else { short }),
        Cell::Stick(drawing(row)),
        Cell::Lines(cuts),
        Cell::Text(format!("{}: {}", kinds(&row.kinds), places(row))),
    ]
}

fn places(row: &Row) -> String {
    let names: Vec<&str> = row.places.iter().map(|it| it.0.name()).collect();
    names.join(", ")
}

fn kinds(kinds: &[Kind]) -> String {
    let names: Vec<&str> = kinds.iter().map(|it| it.name()).collect();
    names.join(", ")
}

fn setup(setup: &Setup, unit: TapeUnit) -> Vec<Cell> {
    let mut setting = vec![format!("{}, {}", setting_text(setup), lies(setup.on_edge))];
    setting.extend(
        setup
            .way_out
            .iter()
            .map(|it| format!("past the saw's range: {it}")),
    );
    let stops = [setup.miter_stop, setup.bevel_stop].map(|it| stop_text(it, unit));
    let tape = |length: Length| length.tape(unit, Rounding::Nearest);
    let cuts = setup.cuts.iter();
    let cuts = cuts.map(|it| format!("{} \u{d7} {} {}", it.quantity, it.mark, it.end));
    vec![
        Cell::Tick(setting.join("; ")),
        Cell::Text(setting.join("; ")),
        Cell::Lines(stops.to_vec()),
        Cell::Text(format!("{} in {}", tape(setup.test), tape(setup.test_leg))),
        Cell::Text(cuts.collect::<Vec<_>>().join(", ")),
    ]
}

/// Writes what is bought, and which piece comes from which board.
pub(super) fn buy(html: &mut Html, packet: &Packet<'_>) {
    let takeoff = packet.takeoff;
    let currency = &packet.products.design.params.stock.currency;
    section(html, "buy", "Buy list", |html| {
        Table {
            caption: "What to buy",
            heads: &[
                "", "item", "qty", "spare", "price", "cost", "section", "detail",
            ],
            rows: takeoff.buy.iter().map(|it| bought(it, currency)).collect(),
        }
        .write(html);
        let missing = takeoff.without_price().count();
        let text = format!(
            "{currency}{} for {} of {} lines; {missing} have no price.",
            takeoff.cost(),
            takeoff.buy.len() - missing,
            takeoff.buy.len(),
        );
        html.leaf("p", &[], &text);
        for plan in &takeoff.boards {
            boards(html, packet, plan);
        }
    });
}

fn bought(line: &Line, currency: &str) -> Vec<Cell> {
    let money = |it: Option<Money>| {
        Cell::Number(it.map_or_else(String::new, |it| format!("{currency}{it}")))
    };
    let spare = if line.spare > 0 {
        format!("+{}", line.spare)
    } else {
        String::new()
    };
    vec![
        Cell::Tick(line.item.clone()),
        Cell::Words(line.item.clone()),
        Cell::Number(line.count.to_string()),
        Cell::Number(spare),
        money(line.price),
        money(line.cost()),
        Cell::Lines(vec![line.section.name().to_owned()]),
        Cell::Lines(vec![line.detail.clone()]),
    ]
}

fn boards(html: &mut Html, packet: &Packet<'_>, plan: &BoardPlan) {
    let unit = packet.unit();
    let currency = &packet.products.design.params.stock.currency;
    let rows = plan.boards.iter().enumerate().map(|(number, board)| {
        let pieces = board
            .pieces
            .iter()
            .map(|(mark, length)| format!("{mark} {}", length.tape(unit, Rounding::Nearest)));
        let length = board.sold.length;
        let name = format!("{} number {}", plan.board.name(), number + 1);
        vec![
            Cell::Tick(name),
            Cell::Number((number + 1).to_string()),
            Cell::Number(length.feet_inches(unit.marks(), Rounding::Nearest)),
            Cell::Text(pieces.collect::<Vec<_>>().join(", ")),
            Cell::Number(board.offcut.tape(unit, Rounding::Down)),
        ]
    });
    let cost = amount(plan.cost, currency, unit);
    let proof = if plan.is_proved() {
        "no plan takes less".to_owned()
    } else {
        format!(
            "no plan takes less than {}",
            amount(plan.bound, currency, unit)
        )
    };
    let caption = format!(
        "Cutting plan for {}: {cost} of boards; {proof}",
        plan.board.name()
    );
    Table {
        caption: &caption,
        heads: &[
            "",
            "board",
            "length",
            "pieces, in the order of the cuts",
            "offcut",
        ],
        rows: rows.collect(),
    }
    .write(html);
}
