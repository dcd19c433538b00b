//! A parameter's value apart from its field: what tools, sweeps and remedies pass around.

use super::datum::Following;
use super::decision::{DECISION, Decision};
use super::fixed::FixedThing;
use super::grid::{CableRoute, Columns, FloorRows, OutsideOpenings, PlumbRows, RunRows, SideRows};
use super::layer::Layer;
use super::manual::{MantelRule, Manual};
use super::reading::Reading;
use super::text::{angle_text, length_text};
use super::vent_step::VentStep;
use super::yard::{BoardStock, Price, SheetStock};
use crate::catalog::{FramingMember, Lumber};
use crate::units::{
    Amount, AmountKind, Angle, AreaWeight, HeatInput, Length, Pressure, Slope, TapeUnit, Weight,
};

/// How a thing fixed to a wall is written.
pub(super) const FIXED_THING: &str = "{ name = \"window\", wall = \"left\", from = \"30 in\", width = \"40 in\", sill = \"36 in\", height = \"48 in\" }";

/// What a parameter holds, which is also how it is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Free text, not empty.
    Text,
    /// `true` or `false`.
    Flag,
    /// A whole number.
    Count,
    /// A length as a tape reads it.
    Length,
    /// A slope.
    Slope,
    /// A stick's size, nominal or actual, or a steel member.
    Lumber,
    /// A stick's size, of wood only.
    Wood,
    /// Layers of the platform, from the slab up.
    Layers,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// A mantel rule, steps or ramp.
    MantelRule,
    /// Lengths.
    Lengths,
    /// An angle.
    Angle,
    /// Angles.
    Angles,
    /// Boards of the yard.
    Boards,
    /// Sheets of the yard.
    Sheets,
    /// Prices by name.
    Prices,
    /// The steps of a vent.
    VentPath,
    /// A number with a unit other than one of length.
    Amount(AmountKind),
    /// Rows of lengths under these columns.
    Grid(&'static Columns),
    /// Readings of the ceiling.
    Readings,
    /// Things fixed to the room's walls.
    FixedThings,
    /// What somebody decided.
    Decisions,
}

impl Kind {
    /// What it is and how it is written, with an example.
    pub fn written_as(self) -> String {
        match self {
            Self::Text => "text: \"Reading room\"".to_owned(),
            Self::Flag => "true or false".to_owned(),
            Self::Count => "a whole number: 1".to_owned(),
            Self::Length => {
                "a length: \"9' 4-1/2\\\"\", \"112 1/2 in\", \"450 mm\", \"2.85 m\"".to_owned()
            }
            Self::Slope => "a slope: \"3-1/2:12\", \"14 deg\" or \"25 %\"".to_owned(),
            Self::Lumber | Self::Wood => "a stick: \"2x4\" or \"45x95 mm\"".to_owned(),
            Self::Layers => {
                "layers from the slab up: [\"2x4 flat\", \"2x8 on edge\", \"3/4 in panel\"]"
                    .to_owned()
            }
            Self::Choice(words) => format!("one of {}", words.join(", ")),
            Self::Lengths => "lengths: [\"8 ft\", \"10 ft\", \"3.6 m\"]".to_owned(),
            Self::Angle => "an angle in degrees: 22.5".to_owned(),
            Self::Angles => "angles in degrees: [0, 22.5, 45]".to_owned(),
            Self::Boards => {
                "boards: [{ size = \"2x4\", length = \"8 ft\", price = 4.25, treated = false }, ...]"
                    .to_owned()
            }
            Self::Sheets => "sheets: [{ material = \"gypsum_board\", thickness = \"1/2 in\", \
                width = \"48 in\", length = \"96 in\", price = 14.50 }, ...]"
                .to_owned(),
            Self::Prices => "prices: [{ item = \"the unit\", price = 2600, weight = \"185 lb\" }, { item = \"foil tape\", count = 1 }, ...]"
                .to_owned(),
            Self::VentPath => "steps: [\"go 24 in\", \"turn 90 deg toward back\", \
                \"go 40 in rising 1/2:12\", \"offset 9 in toward left with 45 deg\", \
                \"through back wall\"] or \"through roof\""
                .to_owned(),
            Self::Amount(kind) => kind.written().to_owned(),
            Self::Grid(columns) => columns.written(),
            Self::Readings => "readings: [{ right = \"40 in\", out = \"12 in\", up = \"61 in\", down = \"48 in\" }, ...], \
                or `height` in place of `up` and `down`"
                .to_owned(),
            Self::FixedThings => format!("things: [{FIXED_THING}, ...]"),
            Self::Decisions => format!("decisions: [{DECISION}, ...]"),
            Self::MantelRule => {
                "{ steps = [[\"3 in\", \"9 in\"], ...], page = \"12\" } \
                or { base = \"7 in\", factor = \"1-1/4\", page = \"12\" }"
                    .to_owned()
            }
        }
    }
}

/// A value of one of the kinds.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Free text.
    Text(String),
    /// `true` or `false`.
    Flag(bool),
    /// A whole number.
    Count(u32),
    /// A length.
    Length(Length),
    /// A length that is written from another thing.
    Following(Following),
    /// A slope.
    Slope(Slope),
    /// A stick's size.
    Lumber(FramingMember),
    /// Layers of the platform.
    Layers(Vec<Layer>),
    /// One word out of a few.
    Choice(&'static str),
    /// A mantel rule.
    MantelRule(MantelRule),
    /// Lengths.
    Lengths(Vec<Length>),
    /// An angle.
    Angle(Angle),
    /// Angles.
    Angles(Vec<Angle>),
    /// Boards of the yard.
    Boards(Vec<BoardStock>),
    /// Sheets of the yard.
    Sheets(Vec<SheetStock>),
    /// Prices by name.
    Prices(Vec<Price>),
    /// The steps of a vent.
    VentPath(Vec<VentStep>),
    /// A number with a unit other than one of length.
    Amount(Amount),
    /// Rows of lengths, each as long as its columns.
    Grid(Vec<Vec<Length>>),
    /// Readings of the ceiling.
    Readings(Vec<Reading>),
    /// Things fixed to the room's walls.
    FixedThings(Vec<FixedThing>),
    /// What somebody decided.
    Decisions(Vec<Decision>),
    /// Any of the others out of the manual.
    Manual {
        /// The value itself.
        value: Box<Value>,
        /// The manual's page.
        page: String,
    },
}

/// A type that a parameter's field can have.
pub(super) trait Quantity: Sized {
    /// The kind of its values.
    const KIND: Kind;
    /// Whether the manual's page has to be written with it.
    const NEEDS_PAGE: bool = false;
    /// The value, or `None` where the field is left out.
    fn to_value(&self) -> Option<Value>;
    /// The reverse; `None` for a value of another kind.
    fn from_value(value: &Value) -> Option<Self>;
}

macro_rules! plain_quantity {
    ($($held:ty = $kind:ident),+ $(,)?) => {$(
        impl Quantity for $held {
            const KIND: Kind = Kind::$kind;

            fn to_value(&self) -> Option<Value> {
                Some(Value::$kind(self.clone()))
            }

            fn from_value(value: &Value) -> Option<Self> {
                match value {
                    Value::$kind(held) => Some(held.clone()),
                    _ => None,
                }
            }
        }
    )+};
}

plain_quantity! {
    String = Text,
    bool = Flag,
    u32 = Count,
    Length = Length,
    Slope = Slope,
    FramingMember = Lumber,
    Vec<Layer> = Layers,
    MantelRule = MantelRule,
    Vec<Length> = Lengths,
    Angle = Angle,
    Vec<Angle> = Angles,
    Vec<BoardStock> = Boards,
    Vec<SheetStock> = Sheets,
    Vec<Price> = Prices,
    Vec<Reading> = Readings,
    Vec<FixedThing> = FixedThings,
    Vec<Decision> = Decisions,
}

impl Quantity for Lumber {
    const KIND: Kind = Kind::Wood;

    fn to_value(&self) -> Option<Value> {
        Some(Value::Lumber(self.clone().into()))
    }

    fn from_value(value: &Value) -> Option<Self> {
        let Value::Lumber(member) = value else {
            return None;
        };
        member.wood().cloned()
    }
}

macro_rules! amount_quantity {
    ($($held:ident),+) => {$(
        impl Quantity for $held {
            const KIND: Kind = Kind::Amount(AmountKind::$held);

            fn to_value(&self) -> Option<Value> {
                Some(Value::Amount((*self).into()))
            }

            fn from_value(value: &Value) -> Option<Self> {
                match value {
                    Value::Amount(Amount { kind: AmountKind::$held, value }) => {
                        Some(Self::new(*value))
                    }
                    _ => None,
                }
            }
        }
    )+};
}

amount_quantity!(HeatInput, AreaWeight, Pressure, Weight);

macro_rules! grid_quantity {
    ($($held:ident),+) => {$(
        impl Quantity for $held {
            const KIND: Kind = Kind::Grid(&Self::COLUMNS);

            fn to_value(&self) -> Option<Value> {
                let rows = self.0.iter().map(|row| row.to_vec());
                Some(Value::Grid(rows.collect()))
            }

            fn from_value(value: &Value) -> Option<Self> {
                let Value::Grid(rows) = value else { return None };
                let rows = rows.iter().map(|row| row.as_slice().try_into().ok());
                rows.collect::<Option<Vec<_>>>().map(Self)
            }
        }
    )+};
}

grid_quantity!(
    SideRows,
    RunRows,
    CableRoute,
    OutsideOpenings,
    PlumbRows,
    FloorRows
);

impl Quantity for Vec<VentStep> {
    const KIND: Kind = Kind::VentPath;

    fn to_value(&self) -> Option<Value> {
        Some(Value::VentPath(self.clone()))
    }

    fn from_value(value: &Value) -> Option<Self> {
        let Value::VentPath(held) = value else {
            return None;
        };
        Some(held.clone())
    }
}

impl<T: Quantity> Quantity for Option<T> {
    const KIND: Kind = T::KIND;
    const NEEDS_PAGE: bool = T::NEEDS_PAGE;

    fn to_value(&self) -> Option<Value> {
        self.as_ref().and_then(T::to_value)
    }

    fn from_value(value: &Value) -> Option<Self> {
        T::from_value(value).map(Some)
    }
}

impl<T: Quantity> Quantity for Manual<T> {
    const KIND: Kind = T::KIND;
    const NEEDS_PAGE: bool = true;

    fn to_value(&self) -> Option<Value> {
        self.value.to_value().map(|value| Value::Manual {
            value: Box::new(value),
            page: self.page.clone(),
        })
    }

    fn from_value(value: &Value) -> Option<Self> {
        let Value::Manual { value, page } = value else {
            return None;
        };
        Some(Self {
            value: T::from_value(value)?,
            page: page.clone(),
        })
    }
}

impl Value {
    /// The value without its page.
    pub fn bare(&self) -> &Self {
        if let Self::Manual { value, .. } = self {
            value
        } else {
            self
        }
    }

    /// The value as a person would write it, lengths to the finest mark of the unit's tape.
    pub fn text(&self, unit: TapeUnit) -> String {
        match self {
            Self::Text(text) => text.clone(),
            Self::Flag(flag) => flag.to_string(),
            Self::Count(count) => count.to_string(),
            Self::Length(length) => length_text(*length, unit),
            Self::Following(following) => following.text(unit),
            Self::Slope(slope) => slope.text(),
            Self::Lumber(lumber) => lumber.name().to_owned(),
            Self::Layers(layers) => layers
                .iter()
                .map(|layer| layer_text(layer, unit))
                .collect::<Vec<_>>()
                .join(", "),
            Self::Choice(word) => (*word).to_owned(),
            Self::MantelRule(rule) => rule_text(rule, unit),
            Self::Lengths(lengths) => joined(lengths, |it| length_text(*it, unit)),
            Self::Angle(angle) => angle_text(*angle),
            Self::Angles(angles) => joined(angles, |it| angle_text(*it)),
            Self::Boards(boards) => joined(boards, |it| it.text(unit)),
            Self::Sheets(sheets) => joined(sheets, |it| it.text(unit)),
            Self::Prices(prices) => joined(prices, Price::text),
            Self::VentPath(steps) => joined(steps, |it| it.text(unit)),
            Self::Amount(amount) => amount.text(unit),
            Self::Grid(rows) => joined(rows, |row| {
                format!("[{}]", joined(row, |it| length_text(*it, unit)))
            }),
            Self::Readings(readings) => joined(readings, |it| it.text(unit)),
            Self::Decisions(decisions) => joined(decisions, Decision::text),
            Self::FixedThings(things) => joined(things, |it| it.text(unit)),
            Self::Manual { value, page } => format!("{}, page {page}", value.text(unit)),
        }
    }
}

fn joined<T>(items: &[T], text: impl Fn(&T) -> String) -> String {
    items.iter().map(text).collect::<Vec<_>>().join(", ")
}

fn layer_text(layer: &Layer, unit: TapeUnit) -> String {
    match layer {
        Layer::Flat(lumber) => format!("{} flat", lumber.name()),
        Layer::OnEdge(lumber) => format!("{} on edge", lumber.name()),
        Layer::Panel(thickness) => format!("{} panel", length_text(*thickness, unit)),
    }
}

fn rule_text(rule: &MantelRule, unit: TapeUnit) -> String {
    match rule {
        MantelRule::Steps(steps) => steps
            .iter()
            .map(|step| {
                let projection = length_text(step.projection, unit);
                format!("up to {projection}: {}", length_text(step.height, unit))
            })
            .collect::<Vec<_>>()
            .join("; "),
        MantelRule::Ramp { base, factor } => {
            format!("{} + {factor} x projection", length_text(*base, unit))
        }
    }
}
