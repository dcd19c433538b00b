//! What `check` shows on a terminal: at each width, piped and not, and the verdicts in color only where wanted.

use chasewright::check::{Verdict, check};
use chasewright::cli::{Form, Look, WORK};
use chasewright::design::design;
use chasewright::export::count;

use crate::support::{changed, run_with};

/// A demo whose mantel is too low, so that something fails, is asked and is tight.
fn shown(look: Look) -> String {
    let params = changed(
        "rises-away-from-wall",
        &[
            ("mantel.underside", r#""50 in""#),
            ("vent.cap_width", r#""6 in""#),
        ],
    );
    let checked = (WORK.check)(&params, Form::Table(look), &mut |_| true).expect("it is checked");
    assert!(checked.failed);
    checked.text + &checked.counts
}

fn at(width: u16) -> Look {
    Look {
        width,
        ..Look::default()
    }
}

#[test]
fn findings_fit_the_terminal() {
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path("snapshots/terminal");
    settings.set_prepend_module_to_snapshot(false);
    for width in [60, 80, 140] {
        let text = shown(at(width));
        for line in text.lines().filter(|it| it.contains(' ')) {
            let wide = line.chars().count();
            // a word longer than the line stays whole
            let one_word = line.split_whitespace().count() == 1;
            assert!(wide <= usize::from(width) || one_word, "{wide}: {line}");
        }
        settings.bind(|| insta::assert_snapshot!(format!("check at {width}"), text));
    }
}

/// Every cause that needs a hand stands there with its verdict first on the line; what passes is only counted.
#[test]
fn what_needs_a_hand_is_listed_and_the_rest_is_counted() {
    let params = changed(
        "rises-away-from-wall",
        &[("mantel.underside", r#""50 in""#)],
    );
    let findings = check(&design(&params));
    for all in [false, true] {
        let text = shown(Look { all, ..at(100) });
        let verdicts = |word: &str| {
            let lines = text.lines();
            // a wrapped line, which is indented, may begin with the word too
            lines
                .filter(|it| it.split(' ').next() == Some(word))
                .count()
        };
        for verdict in Verdict::ALL {
            let passes = matches!(verdict, Verdict::Pass | Verdict::Flush | Verdict::Decided);
            let there = verdicts(verdict.word());
            if passes && !all {
                assert_eq!(there, 0, "{}", verdict.word());
            }
        }
        assert!(verdicts("FAIL") > 0 && verdicts("TIGHT") > 0 && verdicts("ASK") > 0);
        assert_eq!(verdicts("PASS") > 0, all);
        assert_eq!(text.contains("`check --all` lists them"), !all);
        let last = text.lines().last().expect("the counts");
        assert!(
            last.contains(" FAIL, ") && last.contains("not judged: "),
            "{last}"
        );
    }
    assert!(count(&findings, Verdict::Pass) > 0);
}

#[test]
fn verdicts_are_colored_only_where_wanted() {
    let escape = '\u{1b}';
    assert!(!shown(at(80)).contains(escape));
    let colored = shown(Look {
        color: true,
        ..at(80)
    });
    assert!(
        colored.contains("\u{1b}[1m\u{1b}[31mFAIL\u{1b}[0m"),
        "{colored}"
    );
    // without its colors it is the same text: they take no columns
    let mut plain = String::new();
    let mut rest = colored.as_str();
    while let Some(start) = rest.find(escape) {
        plain.push_str(&rest[..start]);
        let end = rest[start..].find('m').expect("the sequence ends");
        rest = &rest[start + end + 1..];
    }
    plain.push_str(rest);
    assert_eq!(plain, shown(at(80)));
}

#[test]
fn a_pipe_gets_no_color_and_the_usual_width() {
    let file = "params/rises-away-from-wall.toml";
    let piped = std::process::Command::new(env!("CARGO_BIN_EXE_chasewright"))
        .args(["check", file])
        .env("CLICOLOR_FORCE", "1")
        .output()
        .expect("the program runs");
    let text = String::from_utf8(piped.stdout).expect("text");
    assert!(!text.contains('\u{1b}'));
    assert_eq!(text, run_with(&["check", file], &WORK, false).out);
}
