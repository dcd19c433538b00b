//! What the one list is made of, and the macro that turns it into typed fields and a table of parameters.

use std::collections::BTreeMap;

use super::datum::{Axis, Follower};
use super::likely::{Doubt, Likely};
use super::list::{GROUPS, PARAMETERS, Params};
use super::nature::Nature;
use super::range::{Range, range_text};
use super::value::{Kind, Quantity, Value};
use crate::units::{Length, TapeUnit};

/// One parameter: all that reading, error texts and tools need to know of it.
#[derive(Debug, Clone, Copy)]
pub struct Parameter {
    /// Its dotted key, such as `chase.width`.
    pub key: &'static str,
    /// The name of the group it stands in, the part of the key before the dot.
    pub group: &'static str,
    /// Its name in the group, the part of the key after the dot.
    pub name: &'static str,
    /// What it holds.
    pub kind: Kind,
    /// Whether the manual's page must be written with it.
    pub needs_page: bool,
    /// What kind of thing it says.
    pub nature: Nature,
    /// Whether it may be left out.
    pub presence: Presence,
    /// What it counts along, where it may be written from another thing.
    pub follows: Option<Axis>,
    /// What it may be.
    pub range: Range,
    /// What it usually is.
    pub likely: Likely,
    /// What it means, in one line.
    pub meaning: &'static str,
    /// What it is when left out; `None` where nothing stands in.
    pub default: fn(TapeUnit) -> Option<Value>,
    pub(super) get: fn(&Params) -> Option<Value>,
    pub(super) set: fn(&mut Params, &Value) -> bool,
    /// Makes the field what it is when the key is left out; false where it has to be written, or without its table.
    pub(super) clear: fn(&mut Params, TapeUnit) -> bool,
}

impl Parameter {
    /// What it may be, as text; empty where its kind says all.
    pub fn range_text(&self, unit: TapeUnit) -> String {
        range_text(self.range, unit)
    }

    /// Its value, and what is unlikely about it.
    pub fn doubt(&self, params: &Params) -> Option<(Value, Doubt)> {
        if self.likely == Likely::Any {
            return None;
        }
        let value = (self.get)(params)?;
        let doubt = self.likely.doubt(&value, params.project.unit)?;
        Some((value, doubt))
    }
}

/// A table of the parameter file.
#[derive(Debug, Clone, Copy)]
pub struct Group {
    /// The table's name.
    pub name: &'static str,
    /// What it says by being there, where it may be left out; `None` where every file has it.
    pub nature: Option<Nature>,
    /// What it describes, in one line.
    pub meaning: &'static str,
    pub(super) present: fn(&Params) -> bool,
    /// Leaves the table out; false where every file has it.
    pub(super) clear: fn(&mut Params) -> bool,
}

impl Group {
    /// Whether the table may be left out.
    pub const fn is_optional(&self) -> bool {
        self.nature.is_some()
    }
}

/// Whether a parameter may be left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Presence {
    /// It must be written.
    Required,
    /// A default stands in.
    Default,
    /// It is a fact that is asked for; what it is about is drawn meanwhile at an assumed value.
    Assumed,
    /// Nothing stands in.
    Absent,
}

/// Values by key, on their way into the typed fields.
#[derive(Debug, Default)]
pub(super) struct Values {
    /// The values that were written and are sound.
    pub(super) held: BTreeMap<&'static str, Value>,
    /// The optional groups that were written.
    pub(super) groups: Vec<&'static str>,
}

impl Values {
    /// The value of a key as its field's type.
    pub(super) fn field<T: Quantity>(&self, key: &str) -> Option<T> {
        let value = self.held.get(key)?;
        if matches!(value, Value::Following(_)) {
            // until it is resolved
            return T::from_value(&Value::Length(Length::ZERO));
        }
        T::from_value(value)
    }

    /// The keys that are written from another thing, in the order of the list.
    pub(super) fn following(&self) -> Vec<Follower> {
        let follower = |it: &Parameter| match self.held.get(it.key) {
            Some(Value::Following(following)) => Some((it.key, *following)),
            _ => None,
        };
        PARAMETERS.iter().filter_map(follower).collect()
    }

    /// The keys of this presence that were left out of the tables that are there.
    pub(super) fn left(&self, presence: Presence) -> Vec<&'static str> {
        let has_table = |name: &str| {
            let group = GROUPS.iter().find(|it| it.name == name);
            group.is_some_and(|it| !it.is_optional()) || self.groups.contains(&name)
        };
        let left = PARAMETERS.iter().filter(|it| it.presence == presence);
        left.filter(|it| has_table(it.group) && !self.held.contains_key(it.key))
            .map(|it| it.key)
            .collect()
    }
}

/// Puts a value into a field; false for a value of another kind.
pub(super) fn put<T: Quantity>(field: &mut T, value: &Value) -> bool {
    T::from_value(value).is_some_and(|held| {
        *field = held;
        true
    })
}

/// Turns the list into the structs, [`GROUPS`](super::GROUPS) and [`PARAMETERS`](super::PARAMETERS).
macro_rules! parameters {
    ($(
        $group:ident: $struct:ident = $when:ident
            $(, $about:literal $(like $like:ident)?)? $(of $table:ident: $of:literal)? {
            $(
                $(#[usual($usual:expr)])?
                $field:ident: $type:ty
                    = $nature:ident $presence:ident $(($($default:expr),+))? $(as $axis:ident)? $(in $range:expr)?, $meaning:literal;
            )+
        }
    )+) => {
        /// Every parameter of one chase, checked.
        #[derive(Debug, Clone, PartialEq)]
        pub struct Params {
            $(
                $(#[doc = $about])?
                $(#[doc = $of])?
                pub $group: parameters!(@group_type $when $struct),
            )+
            /// Keys of the facts that are not given, in the order of the list; each holds what it is drawn at.
            pub untold: Vec<&'static str>,
            /// Keys that were left out and hold their default, in the order of the list.
            pub left_out: Vec<&'static str>,
            /// Keys that are written from another thing, in the order of the list; each holds what that comes to.
            pub following: Vec<Follower>,
        }

        $(parameters! {
            @struct [$($($like)?)?] $struct, concat!($($about)? $($of)?), { $($field: $type, $meaning;)+ }
        })+

        impl Params {
            /// The parameters out of the values; `None` where a required one is missing.
            pub(super) fn build(values: &Values, unit: TapeUnit) -> Option<Self> {
                Some(Self {
                    $($group: parameters!(@build_group $when values stringify!($group), $struct {
                        $($field: parameters!(
                            @field values unit parameters!(@key $group $field),
                            $presence $(($($default),+))?
                        ),)+
                    }),)+
                    untold: values.left(Presence::Assumed),
                    left_out: values.left(Presence::Default),
                    following: values.following(),
                })
            }
        }

        /// Every table of the parameter file, in its order.
        pub static GROUPS: &[Group] = &[$($(Group {
            name: stringify!($group),
            nature: parameters!(@when $when),
            meaning: $about,
            present: |params| parameters!(@group $when params $group).is_some(),
            clear: |params| parameters!(@clear_group $when params $group),
        },)?)+];

        /// Every parameter, in the order of the parameter file: the one list.
        pub static PARAMETERS: &[Parameter] = &[$($(Parameter {
            key: parameters!(@key $group $field),
            group: parameters!(@table $group),
            name: stringify!($field),
            kind: <$type as Quantity>::KIND,
            needs_page: <$type as Quantity>::NEEDS_PAGE,
            nature: parameters!(@nature $nature),
            presence: parameters!(@presence $nature $presence),
            follows: parameters!(@axis $($axis)?),
            range: parameters!(@range $($range)?),
            likely: parameters!(@likely $($usual)?),
            meaning: $meaning,
            default: |unit| {
                let _ = unit;
                let default: Option<$type> = parameters!(@default unit $presence $(($($default),+))?);
                default.and_then(|value| value.to_value())
            },
            get: |params| parameters!(@group $when params $group).and_then(|group| group.$field.to_value()),
            set: |params, value| parameters!(@group_mut $when params $group)
                .is_some_and(|group| put(&mut group.$field, value)),
            clear: |params, unit| parameters!(@group_mut $when params $group)
                .is_some_and(|group| parameters!(
                    @clear group.$field, unit, $presence $(($($default),+))?
                )),
        },)+)+];
    };

    (@struct [] $struct:ident, $about:expr, { $($field:ident: $type:ty, $meaning:literal;)+ }) => {
        #[doc = $about]
        #[derive(Debug, Clone, PartialEq)]
        pub struct $struct {
            $(
                #[doc = $meaning]
                pub $field: $type,
            )+
        }
    };
    (@struct [$like:ident] $($rest:tt)+) => {};

    // the table [wall] is two structures, one of which other tables share
    (@table fireplace_wall) => { "wall" };
    (@table $group:ident) => { stringify!($group) };
    (@key $group:ident $field:ident) => { concat!(parameters!(@table $group), ".", stringify!($field)) };

    (@group_type always $struct:ident) => { $struct };
    (@group_type $optional:ident $struct:ident) => { Option<$struct> };

    (@nature fact) => { Nature::Fact };
    (@nature choice) => { Nature::Choice };
    (@nature subject) => { Nature::Subject };

    (@when always) => { None };
    (@when fact) => { Some(Nature::Fact) };
    (@when subject) => { Some(Nature::Subject) };

    (@group always $params:ident $group:ident) => { Some(&$params.$group) };
    (@group $optional:ident $params:ident $group:ident) => { $params.$group.as_ref() };

    (@group_mut always $params:ident $group:ident) => { Some(&mut $params.$group) };
    (@group_mut $optional:ident $params:ident $group:ident) => { $params.$group.as_mut() };

    (@clear_group always $params:ident $group:ident) => {{
        let _ = &$params.$group;
        false
    }};
    (@clear_group $optional:ident $params:ident $group:ident) => {{
        $params.$group = None;
        true
    }};

    (@build_group always $values:ident $name:expr, $built:expr) => { $built };
    (@build_group $optional:ident $values:ident $name:expr, $built:expr) => {
        if $values.groups.contains(&$name) { Some($built) } else { None }
    };

    (@field $values:ident $unit:ident $key:expr, required) => { $values.field($key)? };
    (@field $values:ident $unit:ident $key:expr, absent) => { $values.field($key).unwrap_or_default() };
    (@field $values:ident $unit:ident $key:expr, $presence:ident $default:tt) => {
        match $values.field($key) {
            Some(value) => value,
            None => parameters!(@default $unit $presence $default)?,
        }
    };

    (@clear $field:expr, $unit:ident, required) => {{
        let _ = (&$field, $unit);
        false
    }};
    (@clear $field:expr, $unit:ident, absent) => {{
        let _ = $unit;
        $field = Default::default();
        true
    }};
    (@clear $field:expr, $unit:ident, $presence:ident $default:tt) => {{
        let _ = $unit;
        #[allow(
            clippy::redundant_closure_call,
            reason = "a default that cannot be made ends the closure and nothing else"
        )]
        let cleared: Option<_> = (|| parameters!(@default $unit $presence $default))();
        cleared.map(|it| $field = it).is_some()
    }};

    (@default $unit:ident required) => { None };
    (@default $unit:ident absent) => { None };
    (@default $unit:ident $presence:ident ($default:expr)) => { Some($default) };
    (@default $unit:ident $presence:ident ($inch:expr, $metric:expr)) => {
        Some(match $unit {
            TapeUnit::Inch => $inch,
            TapeUnit::Millimeter => $metric,
        })
    };

    (@presence $nature:ident required) => { Presence::Required };
    (@presence $nature:ident absent) => { Presence::Absent };
    (@presence fact assumed) => { Presence::Assumed };
    (@presence fact unknown) => { Presence::Default };
    (@presence choice default) => { Presence::Default };
    (@presence subject default) => { Presence::Default };

    (@axis) => { None };
    (@axis height) => { Some(Axis::Height) };
    (@axis face) => { Some(Axis::Face) };
    (@axis wall) => { Some(Axis::Wall) };

    (@likely) => { Likely::Any };
    (@likely $usual:expr) => { $usual };

    (@range) => { Range::Any };
    (@range $range:expr) => { $range };
}

pub(super) use parameters;
