//! Faults of a parameter file as a person reads them: the line, the place in it, and a way out.

use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet, normalize_untrusted_str};

use crate::params::Fault;

/// After this many faults the rest is only counted.
const SHOWN: usize = 40;

/// All faults of a text, each with its line and column, and their number below.
pub(super) fn show(path: &str, text: &str, faults: &[Fault], color: bool) -> String {
    let renderer = if color {
        Renderer::styled()
    } else {
        Renderer::plain()
    };
    let mut shown = String::new();
    for fault in faults.iter().take(SHOWN) {
        shown.push_str(&one(&renderer, path, text, fault));
        shown.push_str("\n\n");
    }
    let more = faults.len().saturating_sub(SHOWN);
    let rest = if more > 0 {
        format!("and {more} more\n")
    } else {
        String::new()
    };
    let noun = if faults.len() == 1 { "fault" } else { "faults" };
    format!(
        "{shown}{rest}{path}: {} {noun}; nothing was written",
        faults.len()
    )
}

fn one(renderer: &Renderer, path: &str, text: &str, fault: &Fault) -> String {
    let clean = normalize_untrusted_str;
    let found = format!("found {}", clean(&fault.found));
    let title = Level::ERROR.primary_title(clean(&fault.problem));
    let report = match fault.place.clone() {
        Some(place) => {
            let annotation = AnnotationKind::Primary.span(place).label(found);
            title.element(Snippet::source(text).path(path).annotation(annotation))
        }
        // no line is wrong: something is not there
        None => title.element(Level::NOTE.no_name().message(found)),
    };
    let report = report
        .element(
            Level::NOTE
                .no_name()
                .message(format!("expected: {}", clean(&fault.expected))),
        )
        .element(
            Level::HELP
                .no_name()
                .message(format!("way out: {}", clean(&fault.way_out))),
        );
    renderer.render(&[report])
}
