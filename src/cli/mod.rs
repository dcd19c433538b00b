//! The command line: arguments in, files and text out, and an [`Exit`].
//!
//! This is the only room that touches files and the terminal. What the commands do is handed in as [`Work`].

mod args;
mod diagnostic;
mod exit;
mod explanation;
mod heights_table;
mod jobs;
mod look;
mod progress;
mod source;
mod stop;
mod table;
mod takeoff;
mod terminal;
mod verdicts;
mod watch;
mod work;
pub mod write;

use std::ffi::OsString;
use std::io;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};

use clap::Parser;

pub use exit::Exit;
pub use jobs::WORK;
pub use look::Look;
pub use stop::Stop;
pub use terminal::Terminal;
pub use watch::{Step, Watch};
pub use work::{BuildForm, Built, Drawn, Form, Scaled, TakenOff, Verdicts, Work};
pub use write::OutputFile;

use crate::check::heights_curve;
use crate::drawing::Paper;
use crate::params::{self, Fault, Params};
use crate::scale::Settings;
use args::{Arguments, Command, step_form};
use progress::Progress;
use write::{Stale, WriteError};

/// Runs the program on its own arguments and streams.
pub fn main(work: &Work) -> Exit {
    static STOP: Stop = Stop::new();
    let (mut out, mut err) = (io::stdout(), io::stderr());
    stop::listen(&STOP);
    let look = terminal::look(&out);
    let mut terminal = Terminal {
        out: &mut out,
        err: &mut err,
        color: terminal::wants_color(&io::stderr()),
        look,
        progress: terminal::wants_progress(),
        stop: &STOP,
    };
    // A panic is a fault of the tool and must not pass for anything else.
    let ended = catch_unwind(AssertUnwindSafe(|| {
        run(std::env::args_os(), &mut terminal, work)
    }));
    ended.unwrap_or(Exit::Broken)
}

/// Runs the program on these arguments, the first being its own name.
pub fn run(
    arguments: impl IntoIterator<Item = OsString>,
    terminal: &mut Terminal<'_>,
    work: &Work,
) -> Exit {
    let command = match Arguments::try_parse_from(arguments) {
        Ok(arguments) => arguments.command,
        Err(error) => return usage(&error, terminal),
    };
    let ended = match &command {
        Command::Build {
            file,
            out,
            step_schema,
            step_unit,
            no_drawings,
            paper,
        } => {
            let form = BuildForm {
                step: step_form(*step_schema, *step_unit),
                drawings: !no_drawings,
                paper: *paper,
                look: terminal.look,
            };
            let build = |params: &Params, watch: Watch<'_>| (work.build)(params, form, watch);
            make("build", (file, out.as_deref()), build, terminal)
        }
        Command::Draw { file, paper, out } => draw(file, out.as_deref(), *paper, terminal, work),
        Command::Packet { file, paper, out } => {
            let form = BuildForm {
                paper: *paper,
                look: terminal.look,
                ..BuildForm::default()
            };
            let build = |params: &Params, watch: Watch<'_>| (work.packet)(params, form, watch);
            make("packet", (file, out.as_deref()), build, terminal)
        }
        Command::Scale {
            file,
            ratio,
            bed,
            nozzle,
            out,
        } => {
            let settings = Settings {
                ratio: *ratio,
                bed: bed.0,
                nozzle: *nozzle,
            };
            scale(file, out.as_deref(), &settings, terminal, work)
        }
        Command::Check { file, all, json } => {
            let look = Look {
                all: *all,
                ..terminal.look
            };
            let form = if *json { Form::Json } else { Form::Table(look) };
            check(file, form, terminal, work)
        }
        Command::Heights { file, plot } => heights(file, plot.as_deref(), terminal),
        Command::Explain { name } => explain(&name.join(" "), terminal),
        Command::Takeoff { file, out, json } => {
            take_off(file, out.as_deref(), *json, terminal, work)
        }
    };
    ended.unwrap_or_else(|end| end)
}

/// Help and version are results; all else that the arguments can be is a fault of usage.
fn usage(error: &clap::Error, terminal: &mut Terminal<'_>) -> Exit {
    if error.use_stderr() {
        terminal.fault(error.render());
        Exit::Unusable
    } else {
        print(terminal, &error.render().to_string())
            .err()
            .unwrap_or(Exit::Clean)
    }
}

/// Makes the files of a model, writes them, and prints the verdicts.
fn make(
    command: &'static str,
    (file, out): (&Path, Option<&Path>),
    build: impl FnOnce(&Params, Watch<'_>) -> Result<Built, String>,
    terminal: &mut Terminal<'_>,
) -> Result<Exit, Exit> {
    let (text, params) = load(file, terminal)?;
    let built = watched(&params, terminal, |watch| build(&params, watch));
    let built = built.map_err(|error| broken(terminal, &error))?;
    refuse(file, &text, &built.faults, terminal)?;
    let folder = out.map_or_else(|| default_folder(file), Path::to_path_buf);
    let stale = store(&folder, (command, &params), &built.files, terminal)?;
    print(terminal, &built.verdicts.text)?;
    print(terminal, &built.verdicts.counts)?;
    print(terminal, &places(&folder, &built.files, &stale))?;
    Ok(verdict(built.verdicts.failed))
}

fn draw(
    file: &Path,
    out: Option<&Path>,
    paper: Option<Paper>,
    terminal: &mut Terminal<'_>,
    work: &Work,
) -> Result<Exit, Exit> {
    let (_, params) = load(file, terminal)?;
    let drawn = (work.draw)(&params, paper).map_err(|error| broken(terminal, &error))?;
    let folder = out.map_or_else(|| default_folder(file), Path::to_path_buf);
    let stale = store(&folder, ("draw", &params), &drawn.files, terminal)?;
    print(terminal, &drawn.text)?;
    print(terminal, &places(&folder, &drawn.files, &stale))?;
    Ok(Exit::Clean)
}

/// Writes what a command has made of these parameters; what has gone from the folder because it is no longer of use.
fn store(
    folder: &Path,
    (command, params): (&'static str, &Params),
    files: &[OutputFile],
    terminal: &mut Terminal<'_>,
) -> Result<Vec<Stale>, Exit> {
    let set = write::Set {
        command,
        design: format!("{} {params:?}", env!("CARGO_PKG_VERSION")),
        files,
    };
    let written = write::write(folder, &set, terminal.stop);
    written.map_err(|error| not_written(terminal, &error))
}

fn not_written(terminal: &mut Terminal<'_>, error: &WriteError) -> Exit {
    match error {
        WriteError::Interrupted => Exit::Interrupted,
        WriteError::Disk { .. } => broken(terminal, &error.to_string()),
    }
}

/// A line for each file that has gone, and where the others were written.
fn places(folder: &Path, files: &[OutputFile], stale: &[Stale]) -> String {
    let wrote = match files {
        [file] => format!("wrote {}\n", folder.join(&file.name).display()),
        _ => format!("wrote {} files into {}\n", files.len(), folder.display()),
    };
    let gone = stale.iter().map(|it| gone(folder, it));
    gone.chain([wrote]).collect()
}

fn gone(folder: &Path, file: &Stale) -> String {
    let place = folder.join(&file.name);
    let why = if file.is_of_another {
        "it is from another design"
    } else {
        "it was not made again"
    };
    if file.is_left {
        let place = place.display();
        format!("left {place}: {why}, but it has been changed since it was written\n")
    } else {
        format!("removed {}: {why}\n", place.display())
    }
}

/// A job whose cutting plans show how far they have come, and of which Ctrl-C keeps the best so far.
fn watched<T>(params: &Params, terminal: &mut Terminal<'_>, job: impl FnOnce(Watch<'_>) -> T) -> T {
    let money = (params.stock.currency.as_str(), params.project.unit);
    let streams = (&mut *terminal.err, terminal.stop);
    let mut progress = Progress::new(streams, terminal.progress, money);
    job(&mut |it| progress.watch(it))
}

fn take_off(
    file: &Path,
    out: Option<&Path>,
    json: bool,
    terminal: &mut Terminal<'_>,
    work: &Work,
) -> Result<Exit, Exit> {
    let (text, params) = load(file, terminal)?;
    let form = if json {
        Form::Json
    } else {
        Form::Table(terminal.look)
    };
    let taken = watched(&params, terminal, |watch| {
        (work.takeoff)(&params, form, watch)
    });
    let taken = taken.map_err(|error| broken(terminal, &error))?;
    refuse(file, &text, &taken.faults, terminal)?;
    let Some(folder) = out else {
        print(terminal, &taken.text)?;
        return Ok(Exit::Clean);
    };
    let stale = store(folder, ("takeoff", &params), &taken.files, terminal)?;
    print(terminal, &taken.text)?;
    if json {
        // what a program reads is JSON alone
        let stale = stale.iter().map(|it| gone(folder, it));
        stale.for_each(|line| terminal.fault(line.trim_end()));
    } else {
        print(terminal, &places(folder, &taken.files, &stale))?;
    }
    Ok(Exit::Clean)
}

fn scale(
    file: &Path,
    out: Option<&Path>,
    settings: &Settings,
    terminal: &mut Terminal<'_>,
    work: &Work,
) -> Result<Exit, Exit> {
    let (_, params) = load(file, terminal)?;
    let scaled = (work.scale)(&params, settings).map_err(|error| broken(terminal, &error))?;
    let (files, text) = match scaled {
        Scaled::Made(files, text) => (files, text),
        Scaled::Refused(why) => {
            terminal.fault(format_args!("error: {why}"));
            return Err(Exit::Unusable);
        }
    };
    let folder = out.map_or_else(|| default_folder(file), Path::to_path_buf);
    let stale = store(&folder, ("scale", &params), &files, terminal)?;
    print(terminal, &text)?;
    print(terminal, &places(&folder, &files, &stale))?;
    Ok(Exit::Clean)
}

fn check(file: &Path, form: Form, terminal: &mut Terminal<'_>, work: &Work) -> Result<Exit, Exit> {
    let (_, params) = load(file, terminal)?;
    let verdicts = watched(&params, terminal, |watch| {
        (work.check)(&params, form, watch)
    });
    let verdicts = verdicts.map_err(|error| broken(terminal, &error))?;
    print(terminal, &verdicts.text)?;
    print(terminal, &verdicts.counts)?;
    Ok(verdict(verdicts.failed))
}

fn heights(file: &Path, plot: Option<&Path>, terminal: &mut Terminal<'_>) -> Result<Exit, Exit> {
    let (_, params) = load(file, terminal)?;
    let rows = crate::check::heights(&params);
    let unit = params.project.unit;
    if rows.is_empty() {
        let text = "The file has no [mantel], so there is no height to find.\n";
        print(terminal, text)?;
        return Ok(Exit::Clean);
    }
    if let Some(plot) = plot {
        let svg = crate::export::heights_plot(&heights_curve(&params), &params.project.name, unit);
        let written = write::write_one(plot, svg.as_bytes(), terminal.stop);
        written.map_err(|error| not_written(terminal, &error))?;
    }
    print(terminal, &heights_table::table(&rows, unit, terminal.look))?;
    Ok(Exit::Clean)
}

fn explain(name: &str, terminal: &mut Terminal<'_>) -> Result<Exit, Exit> {
    match explanation::of(name, terminal.look) {
        Ok(text) => {
            print(terminal, &text)?;
            Ok(Exit::Clean)
        }
        Err(fault) => {
            terminal.fault(format_args!("error: {fault}"));
            Err(Exit::Unusable)
        }
    }
}

const fn verdict(failed: bool) -> Exit {
    if failed { Exit::Failed } else { Exit::Clean }
}

/// Reads a parameter file with its text, or shows why it cannot be used.
fn load(file: &Path, terminal: &mut Terminal<'_>) -> Result<(String, Params), Exit> {
    let text = source::read(file).map_err(|error| {
        terminal.fault(format_args!("error: {error}"));
        Exit::Unusable
    })?;
    match params::read(&text) {
        Ok(params) => Ok((text, params)),
        Err(faults) => Err(show(file, &text, &faults, terminal)),
    }
}

/// Ends with the faults that only the finished design shows.
fn refuse(
    file: &Path,
    text: &str,
    faults: &[Fault],
    terminal: &mut Terminal<'_>,
) -> Result<(), Exit> {
    if faults.is_empty() {
        return Ok(());
    }
    let placed = faults.iter().map(|fault| Fault {
        place: source::place_of(text, &fault.key),
        ..fault.clone()
    });
    let placed: Vec<Fault> = placed.collect();
    Err(show(file, text, &placed, terminal))
}

fn show(file: &Path, text: &str, faults: &[Fault], terminal: &mut Terminal<'_>) -> Exit {
    let path = file.display().to_string();
    let shown = diagnostic::show(&path, text, faults, terminal.color);
    terminal.fault(shown);
    Exit::Unusable
}

/// Where a model's files go unless told otherwise: a folder named after its parameter file.
fn default_folder(file: &Path) -> PathBuf {
    Path::new("exports").join(file.file_stem().unwrap_or(file.as_os_str()))
}

fn print(terminal: &mut Terminal<'_>, text: &str) -> Result<(), Exit> {
    let printed = terminal.result(text);
    printed.map_err(|error| broken(terminal, &format!("cannot write the results: {error}")))
}

fn broken(terminal: &mut Terminal<'_>, error: &str) -> Exit {
    terminal.fault(format_args!("error: {error}"));
    Exit::Broken
}
