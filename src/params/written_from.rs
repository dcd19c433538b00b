//! A length of the TOML text that may be written from another thing, or the fault at the very words.

use super::datum::{Axis, Datum, Following, Unlike};
use super::fault::Fault;
use super::nearest;
use super::value::Value;
use super::written::{Context, Written, example};

impl Context<'_> {
    /// A length, or what it is written from.
    pub(super) fn length_or_following(self, written: &Written<'_>) -> Result<Value, Fault> {
        let follows = self.parameter.follows;
        let axis = follows.unwrap_or(Axis::Height);
        let text = written.get_ref().as_str().unwrap_or_default();
        let Some(read) = Following::parse(text, axis, self.unit) else {
            return self.length(written).map(Value::Length);
        };
        if follows.is_none() {
            return Err(self
                .fault("cannot be written from another thing")
                .found(self.described(written))
                .expected(example(self.parameter.kind))
                .way_out("write the number: it is a size, or what is there already")
                .at(written.span()));
        }
        read.map(Value::Following)
            .map_err(|unlike| self.follows_nothing((unlike, axis), written, text))
    }

    /// The fault of a text that is meant to follow something, at what is wrong in it.
    fn follows_nothing(
        self,
        (unlike, axis): (Unlike, Axis),
        written: &Written<'_>,
        text: &str,
    ) -> Fault {
        let names: Vec<&str> = Datum::names(axis).collect();
        let expected = format!("one of: {}", names.join(", "));
        let (at, length, fault) = match unlike {
            Unlike::Length(error) => return self.unreadable(&error, written, false),
            Unlike::Below(at, length) => {
                let fault = self.fault("is a negative length from another thing");
                let fault = fault.expected("a length of 0 or more, and a direction");
                (at, length, fault.way_out("say it the other way around"))
            }
            Unlike::Way(at, length) => {
                let ways = match axis {
                    Axis::Height => "`above` or `below`",
                    Axis::Face | Axis::Wall => "`right of` or `left of`",
                };
                let fault = self.fault("is in another direction than the key is measured in");
                let fault = fault.expected(ways);
                let meaning = self.parameter.meaning;
                (at, length, fault.way_out(format!("it is: {meaning}")))
            }
            Unlike::Unknown(at, length) => {
                let named = text.get(at..at + length).unwrap_or_default();
                let near = nearest::word(&Following::name_in(named), Datum::names(axis));
                let fault = self.fault("is written from a thing that is not known");
                let way_out = near.map_or_else(
                    || "write it from one of these, or write the number".to_owned(),
                    |near| format!("did you mean \"the {near}\"?"),
                );
                (at, length, fault.expected(expected).way_out(way_out))
            }
            Unlike::OtherAxis(thing, at, length) => {
                let fault = self.fault("is written from a thing that it cannot be measured from");
                let meaning = thing.meaning();
                let fault = fault.expected(expected);
                (
                    at,
                    length,
                    fault.way_out(format!("`{}` is: {meaning}", thing.name())),
                )
            }
        };
        let span = written.span();
        let start = self.inside(span.clone(), at);
        let end = self.inside(span, (at + length).saturating_sub(1));
        let found = match text.get(at..at + length) {
            Some(found) if !found.is_empty() => format!("`{found}`"),
            _ => "nothing".to_owned(),
        };
        fault.found(found).at(start.start..end.end)
    }
}
