//! How text is shown on a terminal: its width, its colors, and how much of it.

use anstyle::{AnsiColor, Color, Style};

use crate::check::Verdict;

/// Columns where nobody knows the terminal's, as in a file or a pipe.
pub(super) const USUAL_WIDTH: u16 = 100;
/// Fewer columns than this are not used: a word and its margin need them.
const LEAST_WIDTH: u16 = 40;

/// How results are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// Columns.
    pub width: u16,
    /// Whether verdicts are colored.
    pub color: bool,
    /// Whether what needs no hand is listed too.
    pub all: bool,
}

impl Default for Look {
    fn default() -> Self {
        Self {
            width: USUAL_WIDTH,
            color: false,
            all: false,
        }
    }
}

impl Look {
    /// Columns of text, at least the fewest.
    pub(super) fn columns(self) -> usize {
        usize::from(self.width.max(LEAST_WIDTH))
    }

    /// A verdict's word in its color, where colors are wanted.
    pub(super) fn verdict(self, verdict: Verdict) -> String {
        let word = verdict.word();
        if !self.color {
            return word.to_owned();
        }
        let style = Self::style(verdict);
        format!("{style}{word}{style:#}")
    }

    fn style(verdict: Verdict) -> Style {
        let color = match verdict {
            Verdict::Fail => AnsiColor::Red,
            Verdict::Tight | Verdict::Ask => AnsiColor::Yellow,
            Verdict::Decided => AnsiColor::Cyan,
            Verdict::Pass | Verdict::Flush => AnsiColor::Green,
        };
        Style::new().bold().fg_color(Some(Color::Ansi(color)))
    }
}

/// A paragraph in lines that fit the width, the first after one text and the others after another of the same length.
pub(super) fn wrapped(words: &str, width: usize, [first, others]: [&str; 2]) -> String {
    let options = textwrap::Options::new(width)
        .initial_indent(first)
        .subsequent_indent(others)
        // a key or the id of a part stays whole
        .word_splitter(textwrap::WordSplitter::NoHyphenation)
        .break_words(false);
    let mut text = String::new();
    for line in textwrap::wrap(words, options) {
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}
