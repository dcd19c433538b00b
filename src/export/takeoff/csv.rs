//! Tables of the takeoff as comma-separated values after RFC 4180: lines end with CR LF, a field with a comma,
//! a quote or a line end stands in quotes, and a quote within is doubled.

use super::texts::{amount, degrees, drawing, end_text, lies, rip_text, setting_text, stop_text};
use super::{ExportError, TakeoffFormat};
use crate::design::Design;
use crate::params::RoomWall;
use crate::takeoff::{Row, Takeoff, is_weighed};
use crate::units::{Length, Rounding, TapeUnit};

pub(super) const CUT_LIST: TakeoffFormat = TakeoffFormat {
    file: "cut-list.csv",
    write: cut_list,
};
pub(super) const CUT_LIST_BY_STOCK: TakeoffFormat = TakeoffFormat {
    file: "cut-list-by-stock.csv",
    write: cut_list_by_stock,
};
pub(super) const SAW_SETUP: TakeoffFormat = TakeoffFormat {
    file: "saw-setup.csv",
    write: saw_setup,
};
pub(super) const CUTTING_PLAN: TakeoffFormat = TakeoffFormat {
    file: "cutting-plan.csv",
    write: cutting_plan,
};
pub(super) const SHEETS: TakeoffFormat = TakeoffFormat {
    file: "sheets.csv",
    write: sheets,
};
pub(super) const LAYOUT_MARKS: TakeoffFormat = TakeoffFormat {
    file: "layout-marks.csv",
    write: layout_marks,
};
pub(super) const BUY_LIST: TakeoffFormat = TakeoffFormat {
    file: "buy-list.csv",
    write: buy_list,
};
pub(super) const WEIGHTS: TakeoffFormat = TakeoffFormat {
    file: "weights.csv",
    write: weights,
};

type Bytes = Result<Vec<u8>, ExportError>;

/// A table on the way to bytes.
struct Table(String);

impl Table {
    fn new(header: &[&str]) -> Self {
        let mut table = Self(String::new());
        table.row(header.iter().map(|it| (*it).to_owned()));
        table
    }

    fn row(&mut self, fields: impl IntoIterator<Item = String>) {
        let fields: Vec<String> = fields.into_iter().map(|it| field(&it)).collect();
        self.0.push_str(&fields.join(","));
        self.0.push_str("\r\n");
    }

    #[expect(clippy::unnecessary_wraps, reason = "the form of every writer")]
    fn bytes(self) -> Bytes {
        Ok(self.0.into_bytes())
    }
}

fn field(text: &str) -> String {
    if text.contains(['"', ',', '\r', '\n']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}

fn unit(design: &Design) -> TapeUnit {
    design.params.project.unit
}

/// Millimetres to a thousandth; never minus zero.
fn mm(length: Length) -> String {
    format!("{:.3}", (length.to_mm() * 1000.0).round() / 1000.0 + 0.0)
}

const CUT_LIST_HEADER: [&str; 15] = [
    "done",
    "mark",
    "quantity",
    "stock",
    "where",
    "long point",
    "short point",
    "long point mm",
    "short point mm",
    "lower or left end",
    "upper or right end",
    "lies on the saw",
    "drawing",
    "rip",
    "notes",
];

fn cut_list(design: &Design, takeoff: &Takeoff) -> Bytes {
    cut_rows(design, takeoff.cut_list.iter())
}

/// By stock, then the longest first.
fn cut_list_by_stock(design: &Design, takeoff: &Takeoff) -> Bytes {
    let mut rows: Vec<&Row> = takeoff.cut_list.iter().collect();
    rows.sort_by(|a, b| {
        let by_stock = a.board.name().cmp(&b.board.name());
        by_stock.then(b.long_point.to_mm().total_cmp(&a.long_point.to_mm()))
    });
    cut_rows(design, rows.into_iter())
}

fn cut_rows<'a>(design: &Design, rows: impl Iterator<Item = &'a Row>) -> Bytes {
    let unit = unit(design);
    let mut table = Table::new(&CUT_LIST_HEADER);
    for row in rows {
        table.row([
            String::new(),
            row.mark.clone(),
            row.quantity().to_string(),
            row.board.name(),
            row.parts.join("; "),
            row.long_point.tape(unit, row.rounding),
            row.short_point.tape(unit, row.rounding),
            mm(row.long_point),
            mm(row.short_point),
            end_text(row, &row.ends[0], unit),
            end_text(row, &row.ends[1], unit),
            lies(row.on_edge).to_owned(),
            drawing(row),
            row.rip
                .as_ref()
                .map_or_else(String::new, |rip| rip_text(row, rip, unit)),
            row.notes.join("; "),
        ]);
    }
    table.bytes()
}

fn saw_setup(design: &Design, takeoff: &Takeoff) -> Bytes {
    let unit = unit(design);
    let header = [
        "setting",
        "lies",
        "miter",
        "miter stop",
        "bevel",
        "bevel stop",
        "test cut",
        "pieces",
        "way out",
    ];
    let mut table = Table::new(&header);
    for setup in &takeoff.saw {
        let cuts = setup
            .cuts
            .iter()
            .map(|it| format!("{} x {} {}", it.quantity, it.mark, it.end));
        table.row([
            setting_text(setup),
            lies(setup.on_edge).to_owned(),
            degrees(setup.miter),
            stop_text(setup.miter_stop, unit),
            degrees(setup.bevel),
            stop_text(setup.bevel_stop, unit),
            format!(
                "{} in {}",
                setup.test.tape(unit, Rounding::Nearest),
                setup.test_leg.tape(unit, Rounding::Nearest)
            ),
            cuts.collect::<Vec<_>>().join("; "),
            setup.way_out.clone().unwrap_or_default(),
        ]);
    }
    table.bytes()
}

fn cutting_plan(design: &Design, takeoff: &Takeoff) -> Bytes {
    let (unit, currency) = (unit(design), &design.params.stock.currency);
    let header = [
        "board",
        "number",
        "length",
        "pieces",
        "offcut",
        "offcut mm",
        "plan",
        "bound",
        "proved",
    ];
    let mut table = Table::new(&header);
    for plan in &takeoff.boards {
        for (at, cut) in plan.boards.iter().enumerate() {
            let pieces: Vec<&str> = cut.pieces.iter().map(|it| it.0.as_str()).collect();
            table.row([
                plan.board.name(),
                (at + 1).to_string(),
                cut.sold.length.feet_inches(unit.marks(), Rounding::Nearest),
                pieces.join("; "),
                cut.offcut.tape(unit, Rounding::Down),
                mm(cut.offcut),
                amount(plan.cost, currency, unit),
                amount(plan.bound, currency, unit),
                if plan.is_proved() {
                    "yes"
                } else if plan.is_stopped() {
                    "no, stopped"
                } else {
                    "no"
                }
                .to_owned(),
            ]);
        }
    }
    table.bytes()
}

fn sheets(design: &Design, takeoff: &Takeoff) -> Bytes {
    let unit = unit(design);
    let text = |length: Length| length.tape(unit, Rounding::Nearest);
    let header = [
        "sheet",
        "number",
        "mark",
        "part",
        "width",
        "height",
        "cut out, from the low corner",
        "from the sheet's side",
        "from the sheet's end",
        "turned",
        "factory edges",
        "backers needed at",
        "joints at an opening's corner",
    ];
    let mut table = Table::new(&header);
    for plan in &takeoff.sheets {
        for (number, cut) in plan.sheets.iter().enumerate() {
            for placed in &cut.pieces {
                let Some(piece) = plan.piece(&placed.mark) else {
                    continue;
                };
                let size = piece.high - piece.low;
                let corners = |loops: &Vec<glam::DVec2>| {
                    let corners = loops.iter().map(|it| {
                        let from = *it - piece.low;
                        format!(
                            "{} across {} up",
                            text(Length::mm(from.x)),
                            text(Length::mm(from.y))
                        )
                    });
                    corners.collect::<Vec<_>>().join(", ")
                };
                let places = |places: &[Length]| {
                    let places = places.iter().map(|it| text(*it));
                    places.collect::<Vec<_>>().join("; ")
                };
                let plain = piece.loops.len() == 1 && piece.loops[0].len() == 4;
                let outline = if plain { "" } else { "outline: " };
                let loops: Vec<String> = piece.loops.iter().map(corners).collect();
                table.row([
                    sheet_name(plan, unit),
                    (number + 1).to_string(),
                    placed.mark.clone(),
                    piece.part.clone(),
                    text(Length::mm(size.x)),
                    text(Length::mm(size.y)),
                    if plain {
                        String::new()
                    } else {
                        format!("{outline}{}", loops.join("; hole: "))
                    },
                    text(placed.from_side),
                    text(placed.from_end),
                    if placed.is_turned { "yes" } else { "no" }.to_owned(),
                    plan.factory_edges(placed).join("; "),
                    places(&piece.backers),
                    places(&piece.at_corners),
                ]);
            }
        }
    }
    table.bytes()
}

fn sheet_name(plan: &crate::takeoff::SheetPlan, unit: TapeUnit) -> String {
    let text = |length: Length| length.tape(unit, Rounding::Nearest);
    let sheet = &plan.sheet;
    format!(
        "{} {} {} x {}",
        text(sheet.thickness),
        sheet.material.word(),
        text(sheet.width),
        text(sheet.length)
    )
}

fn layout_marks(design: &Design, takeoff: &Takeoff) -> Bytes {
    let unit = unit(design);
    let text = |length: Length| length.tape(unit, Rounding::Nearest);
    let mut table = Table::new(&[
        "on",
        "from",
        "mark at",
        "mark at mm",
        "level",
        "what",
        "stands",
    ]);
    for plate in &takeoff.plates {
        for mark in &plate.marks {
            table.row([
                plate.plate.clone(),
                format!("{} end", plate.from),
                text(mark.edge),
                mm(mark.edge),
                text(mark.level),
                mark.part.clone(),
                "beyond the line".to_owned(),
            ]);
        }
    }
    for mark in &takeoff.story_pole {
        let fields = [
            "story pole".to_owned(),
            "bare slab".to_owned(),
            text(mark.height),
            mm(mark.height),
        ];
        table.row(
            fields
                .into_iter()
                .chain([String::new(), mark.what.to_string(), String::new()]),
        );
    }
    for line in &takeoff.plumb_lines {
        let fields = [
            match line.wall {
                RoomWall::Back => "existing wall",
                RoomWall::Behind => "wall behind the chase",
                wall => wall.name(),
            }
            .to_owned(),
            line.from().to_owned(),
            text(line.right),
            mm(line.right),
        ];
        table.row(fields.into_iter().chain([
            String::new(),
            line.what.to_string(),
            "plumb line".to_owned(),
        ]));
    }
    for it in &takeoff.bores {
        let place = format!(
            "bore {}, middle {} from the nearer edge",
            it.diameter.tape(unit, Rounding::Up),
            text(it.from_edge)
        );
        table.row([
            it.part.clone(),
            "foot".to_owned(),
            text(it.up),
            mm(it.up),
            String::new(),
            it.service.clone(),
            place,
        ]);
    }
    for it in &takeoff.packing {
        table.row([
            it.of.to_string(),
            it.from.to_string(),
            text(it.at),
            mm(it.at),
            String::new(),
            it.read.to_string(),
            format!("packed {}", text(it.thickness)),
        ]);
    }
    table.bytes()
}

fn buy_list(design: &Design, takeoff: &Takeoff) -> Bytes {
    let currency = &design.params.stock.currency;
    let header = [
        "section",
        "item",
        "count",
        "spare",
        "board feet",
        "price",
        "cost",
        "detail",
    ];
    let mut table = Table::new(&header);
    for line in &takeoff.buy {
        let money = |it: Option<crate::units::Money>| {
            it.map_or_else(String::new, |it| format!("{currency}{it}"))
        };
        table.row([
            line.section.name().to_owned(),
            line.item.clone(),
            line.count.to_string(),
            line.spare.to_string(),
            line.board_feet
                .map_or_else(String::new, |it| format!("{it:.2}")),
            money(line.price),
            money(line.cost()),
            line.detail.clone(),
        ]);
    }
    for face in &takeoff.finish {
        let area = crate::takeoff::square_feet(face.area);
        let corners = face.corners.feet_inches(unit(design).marks(), Rounding::Up);
        table.row([
            "finish".to_owned(),
            face.face.to_string(),
            String::new(),
            String::new(),
            String::new(),
            String::new(),
            String::new(),
            format!(
                "{area:.1} sq ft ({:.2} sq m) without waste; outside corners {corners}",
                face.area * 1e-6
            ),
        ]);
    }
    table.bytes()
}

fn weights(design: &Design, takeoff: &Takeoff) -> Bytes {
    let mut table = Table::new(&["what", "weight", "kilograms", "two people can lift it"]);
    let mass = |kilograms: f64| {
        [
            super::kilograms(kilograms, unit(design)),
            format!("{kilograms:.3}"),
        ]
    };
    for weight in &takeoff.weights {
        let [text, plain] = mass(weight.mass);
        let lift = weight
            .two_can_lift
            .map_or("", |it| if it { "yes" } else { "no" });
        table.row([weight.what.clone(), text, plain, lift.to_owned()]);
    }
    for item in takeoff.without_weight() {
        let fields = [item, "not given", "", ""];
        table.row(fields.map(str::to_owned));
    }
    for part in design.parts.iter().filter(|it| is_weighed(it)) {
        let [text, plain] = mass(part.body.volume() * 1e-9 * part.material.density);
        table.row([part.id.clone(), text, plain, String::new()]);
    }
    table.bytes()
}
