//! Lists of the yard and the saw in TOML: lengths, angles, boards, sheets and prices.

use toml::de::{DeArray, DeTable, DeValue};

use super::decision::Decision;
use super::fault::Fault;
use super::fixed::FixedThing;
use super::reading::Reading;
use super::room_wall::RoomWall;
use super::stock;
use super::value::{Kind, Value};
use super::vent_step::VentStep;
use super::written::{Context, Written};
use super::yard::{BoardStock, Price, SheetKind, SheetStock};
use crate::units::{Angle, Length, Money, TapeUnit, parse_number};

/// Exactly (NIST SP 811, 2008, appendix B.8).
const KILOGRAMS_PER_POUND: f64 = 0.453_592_37;

impl Context<'_> {
    /// A list whose rows are of the parameter's kind.
    pub(super) fn rows(self, rows: &DeArray<'_>) -> Result<Value, Fault> {
        match self.parameter.kind {
            Kind::Lengths => self.each(rows, Self::length).map(Value::Lengths),
            Kind::Angles => self.each(rows, Self::angle).map(Value::Angles),
            Kind::Boards => self.each(rows, Self::board).map(Value::Boards),
            Kind::Sheets => self.each(rows, Self::sheet).map(Value::Sheets),
            Kind::VentPath => self.each(rows, Self::vent_step).map(Value::VentPath),
            Kind::FixedThings => self.each(rows, Self::fixed_thing).map(Value::FixedThings),
            Kind::Decisions => self.each(rows, Self::decision).map(Value::Decisions),
            Kind::Readings => self.each(rows, Self::reading).map(Value::Readings),
            Kind::Text
            | Kind::Flag
            | Kind::Count
            | Kind::Length
            | Kind::Slope
            | Kind::Lumber
            | Kind::Wood
            | Kind::Layers
            | Kind::Choice(_)
            | Kind::MantelRule
            | Kind::Angle
            | Kind::Prices
            | Kind::Amount(_)
            | Kind::Grid(_) => self.each(rows, Self::priced).map(Value::Prices),
        }
    }

    fn each<T>(
        self,
        rows: &DeArray<'_>,
        read: fn(Self, &Written<'_>) -> Result<T, Fault>,
    ) -> Result<Vec<T>, Fault> {
        rows.iter().map(|row| read(self, row)).collect()
    }

    /// An angle in degrees, with or without the unit.
    pub(super) fn angle(self, written: &Written<'_>) -> Result<Angle, Fault> {
        let (text, _) = self.number_text(written)?;
        let bare = ["degrees", "degree", "deg", "\u{b0}"]
            .iter()
            .find_map(|unit| text.trim().strip_suffix(unit))
            .unwrap_or(&text);
        let number = parse_number(bare).map_err(|_| self.unlike(written))?;
        Ok(Angle::degrees(number))
    }

    fn row<'a>(self, written: &'a Written<'_>, names: &[&str]) -> Result<&'a DeTable<'a>, Fault> {
        let DeValue::Table(table) = written.get_ref() else {
            return Err(self.unlike(written));
        };
        self.only(table, names)?;
        Ok(table)
    }

    fn cell<'a>(
        self,
        written: &Written<'_>,
        table: &'a DeTable<'a>,
        name: &str,
    ) -> Result<&'a Written<'a>, Fault> {
        table
            .get(name)
            .ok_or_else(|| self.lacks(&format!("`{name}` in a row"), written.span()))
    }

    fn board(self, written: &Written<'_>) -> Result<BoardStock, Fault> {
        let table = self.row(written, &["size", "length", "price", "treated"])?;
        let size = self.cell(written, table, "size")?;
        let text = size.get_ref().as_str().ok_or_else(|| self.unlike(size))?;
        let treated = table.get("treated").map_or(Ok(false), |it| {
            it.get_ref().as_bool().ok_or_else(|| self.unlike(it))
        });
        Ok(BoardStock {
            size: stock::stick(text).ok_or_else(|| self.unlike(size))?,
            length: self.length(self.cell(written, table, "length")?)?,
            price: self.price_of(table)?,
            treated: treated?,
        })
    }

    fn sheet(self, written: &Written<'_>) -> Result<SheetStock, Fault> {
        let table = self.row(
            written,
            &["material", "thickness", "width", "length", "price"],
        )?;
        let length =
            |name| -> Result<Length, Fault> { self.length(self.cell(written, table, name)?) };
        let material = self.cell(written, table, "material")?;
        let word = material.get_ref().as_str().unwrap_or_default();
        let (width, long) = (length("width")?, length("length")?);
        Ok(SheetStock {
            material: SheetKind::from_word(word)
                .ok_or_else(|| self.other_word(SheetKind::WORDS, word, material))?,
            thickness: length("thickness")?,
            width: width.min(long),
            length: width.max(long),
            price: self.price_of(table)?,
        })
    }

    fn priced(self, written: &Written<'_>) -> Result<Price, Fault> {
        let table = self.row(written, &["item", "price", "weight", "count"])?;
        let item = self.cell(written, table, "item")?;
        let text = item.get_ref().as_str().ok_or_else(|| self.unlike(item))?;
        Ok(Price {
            item: text.trim().to_owned(),
            price: self.price_of(table)?,
            weight: table.get("weight").map(|it| self.weight(it)).transpose()?,
            count: table.get("count").map(|it| self.count(it)).transpose()?,
        })
    }

    fn vent_step(self, written: &Written<'_>) -> Result<VentStep, Fault> {
        let text = written.get_ref().as_str();
        let text = text.ok_or_else(|| self.unlike(written))?;
        VentStep::parse(text, self.unit).map_err(|expected| self.unlike(written).expected(expected))
    }

    /// A weight in kilograms, written in either unit; a bare number is in pounds or kilograms as the tape is.
    fn weight(self, written: &Written<'_>) -> Result<f64, Fault> {
        let (text, is_bare) = self.number_text(written)?;
        let text = text.trim();
        let pounds = ["pounds", "lbs", "lb"]
            .iter()
            .find_map(|it| text.strip_suffix(it));
        let kilograms = text.strip_suffix("kg");
        let is_pounds = pounds.is_some() || (is_bare && self.unit == TapeUnit::Inch);
        let number = pounds.or(kilograms);
        if number.is_none() && !is_bare {
            return Err(self.unlike(written));
        }
        let number =
            parse_number(number.unwrap_or(text).trim()).map_err(|_| self.unlike(written))?;
        Ok(if is_pounds {
            number * KILOGRAMS_PER_POUND
        } else {
            number
        })
    }

    fn count(self, written: &Written<'_>) -> Result<u32, Fault> {
        let (text, _) = self.number_text(written)?;
        let count = text
            .trim()
            .parse()
            .ok()
            .filter(|it| (1..=10_000).contains(it));
        count.ok_or_else(|| self.unlike(written))
    }

    /// A place, and `height` from the floor or `up` and `down` from a level line.
    fn reading(self, written: &Written<'_>) -> Result<Reading, Fault> {
        let table = self.row(written, &["right", "out", "height", "up", "down"])?;
        let length =
            |name| -> Result<Length, Fault> { self.length(self.cell(written, table, name)?) };
        let (up, down) = if table.contains_key("height") {
            self.only(table, &["right", "out", "height"])?;
            (length("height")?, None)
        } else {
            (length("up")?, Some(length("down")?))
        };
        Ok(Reading {
            right: length("right")?,
            out: length("out")?,
            up,
            down,
        })
    }

    /// A thing on a wall.
    fn fixed_thing(self, written: &Written<'_>) -> Result<FixedThing, Fault> {
        let names = [
            "name", "wall", "from", "width", "sill", "height", "depth", "opens",
        ];
        let table = self.row(written, &names)?;
        let length =
            |name| -> Result<Length, Fault> { self.length(self.cell(written, table, name)?) };
        let text = |name| -> Result<(&str, &Written<'_>), Fault> {
            let cell = self.cell(written, table, name)?;
            let text = cell.get_ref().as_str().ok_or_else(|| self.unlike(cell))?;
            Ok((text, cell))
        };
        let (name, _) = text("name")?;
        let (word, wall) = text("wall")?;
        let opens = table.get("opens");
        let opens = opens.map(|it| it.get_ref().as_bool().ok_or_else(|| self.unlike(it)));
        let depth = table.get("depth").map(|it| self.length(it)).transpose()?;
        Ok(FixedThing {
            name: name.trim().to_owned(),
            wall: RoomWall::from_word(word)
                .ok_or_else(|| self.other_word(RoomWall::WORDS, word, wall))?,
            from: length("from")?,
            width: length("width")?,
            sill: length("sill")?,
            height: length("height")?,
            depth,
            opens: opens.transpose()?,
        })
    }

    /// Which question, who, when and what.
    fn decision(self, written: &Written<'_>) -> Result<Decision, Fault> {
        let table = self.row(written, &["question", "of", "who", "date", "what"])?;
        let text = |cell: &Written<'_>| match cell.get_ref() {
            DeValue::String(text) => Ok(text.trim().to_owned()),
            DeValue::Datetime(date) => Ok(date.to_string()),
            DeValue::Integer(_)
            | DeValue::Float(_)
            | DeValue::Boolean(_)
            | DeValue::Array(_)
            | DeValue::Table(_) => Err(self.unlike(cell)),
        };
        let needed = |name| self.cell(written, table, name).and_then(text);
        let more = |name| table.get(name).map(text).transpose();
        Ok(Decision {
            question: needed("question")?,
            of: more("of")?,
            who: needed("who")?,
            date: needed("date")?,
            what: more("what")?,
        })
    }

    fn price_of(self, table: &DeTable<'_>) -> Result<Option<Money>, Fault> {
        table.get("price").map(|it| self.money(it)).transpose()
    }

    /// An amount of whole hundredths.
    #[expect(
        clippy::cast_possible_truncation,
        reason = "whole, and far below the range of both types"
    )]
    fn money(self, written: &Written<'_>) -> Result<Money, Fault> {
        let (text, _) = self.number_text(written)?;
        // a number has at most six digits before its point, so that sums of prices are exact
        let hundredths = parse_number(&text).ok().map(|it| it * 100.0);
        match hundredths.filter(|it| (it - it.round()).abs() < 1e-6) {
            Some(whole) => Ok(Money::hundredths(whole.round() as i64)),
            None => Err(self
                .fault("holds no price")
                .found(text)
                .expected("a price below 1 million, in whole hundredths, such as 4.25")
                .way_out("write the price without a currency sign")
                .at(written.span())),
        }
    }
}
