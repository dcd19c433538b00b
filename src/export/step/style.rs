//! Looks in, STEP's styles out: a color, and transparency for what lets the model show through.

use std::collections::BTreeMap;

use super::text::{Id, Text};
use crate::export::appearance::Appearance;
use crate::export::number::{SINGLE, push};

/// Styles that have been written, by the look's name.
#[derive(Debug, Default)]
pub(super) struct Styles {
    written: BTreeMap<&'static str, Id>,
}

impl Styles {
    /// The style of a look, added unless it is there already.
    pub(super) fn style(&mut self, text: &mut Text, look: &Appearance) -> Id {
        if let Some(style) = self.written.get(look.name) {
            return *style;
        }
        let style = add(text, look);
        self.written.insert(look.name, style);
        style
    }
}

fn add(text: &mut Text, look: &Appearance) -> Id {
    let mut channels = String::new();
    for channel in look.color {
        channels.push(',');
        push(&mut channels, f64::from(channel) / 255.0, SINGLE);
    }
    let color = text.add(&format!("COLOUR_RGB(''{channels})"));
    let fill_color = text.add(&format!("FILL_AREA_STYLE_COLOUR('',{color})"));
    let fill = text.add(&format!("FILL_AREA_STYLE('',({fill_color}))"));
    let mut sides = vec![text.add(&format!("SURFACE_STYLE_FILL_AREA({fill})"))];
    if look.opacity < 1.0 {
        let mut transparency = String::new();
        push(&mut transparency, 1.0 - look.opacity, SINGLE);
        let transparent = text.add(&format!("SURFACE_STYLE_TRANSPARENT({transparency})"));
        sides.push(text.add(&format!(
            "SURFACE_STYLE_RENDERING_WITH_PROPERTIES(.NORMAL_SHADING.,{color},({transparent}))"
        )));
    }
    let side = text.begin("SURFACE_SIDE_STYLE('',");
    text.list(&sides).put(")").end();
    let usage = text.add(&format!("SURFACE_STYLE_USAGE(.BOTH.,{side})"));
    text.add(&format!("PRESENTATION_STYLE_ASSIGNMENT(({usage}))"))
}
