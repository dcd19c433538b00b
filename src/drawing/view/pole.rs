//! The story pole at full size, in tiles that are cut out and taped end to end.

use glam::DVec2;

use crate::drawing::dimension::spread;
use crate::drawing::figure::{Figure, Words};
use crate::drawing::ink::{Pen, Rect};
use crate::drawing::letters::{LINE, SMALLEST, width};
use crate::drawing::paper::Scale;
use crate::drawing::sheet::usable;
use crate::drawing::subject::Subject;
use crate::units::{Length, TapeUnit};

/// Width of the pole, in millimetres.
const BAND: f64 = 16.0;
/// From the pole to its words, and from the words to the next tile.
const LEADER: f64 = 9.0;
const APART: f64 = 9.0;
/// Under a tile, for the numbers of its ends.
const FOOT: f64 = 7.0;

const CAUTION: &str =
    "Print at 100 %, not fitted to the page; measure each tile before you tape it to the next.";

/// A mark: its height in millimetres over the slab, and what it says.
type Mark = (f64, String);

/// The tiles.
pub(in crate::drawing) fn pole(subject: &Subject<'_>) -> Vec<Figure> {
    let marks: Vec<Mark> = subject
        .takeoff
        .story_pole
        .iter()
        .map(|it| {
            let text = format!("{}  {}", it.tape(subject.unit()), it.what);
            (it.height.to_mm(), text)
        })
        .collect();
    let Some(top) = marks.last().map(|it| it.0) else {
        return Vec::new();
    };
    let room = usable(subject.paper, CAUTION);
    let step = match subject.params().project.unit {
        TapeUnit::Inch => Length::inches(1.0).to_mm(),
        TapeUnit::Millimeter => 50.0,
    };
    // a hand's breadth is left for words that stand past the end
    let tile = step * ((room.x - 12.0) / step).floor().max(1.0);
    let mut tiles = vec![0.0];
    while tiles[tiles.len() - 1] + tile <= top {
        tiles.push(tiles[tiles.len() - 1] + tile);
    }
    // a tile takes as much of a sheet as its own words need
    let up = |from: f64| {
        let own = marks.iter().filter(|it| it.0 >= from && it.0 < from + tile);
        let longest = own
            .map(|it| LEADER + width(&it.1, SMALLEST))
            .fold(0.0, f64::max);
        BAND + longest
    };
    let mut sheets: Vec<Vec<Tile>> = Vec::new();
    let mut foot = 0.0;
    for from in tiles {
        let below = foot - FOOT - APART - up(from);
        let fits = |sheet: &&mut Vec<Tile>| {
            let first = sheet.first().map_or(0.0, |it| up(it.from));
            first - below + FOOT <= room.y
        };
        let tile = |foot| Tile {
            from,
            to: from + tile,
            foot,
            step,
        };
        if let Some(sheet) = sheets.last_mut().filter(fits) {
            foot = below;
            sheet.push(tile(foot));
        } else {
            foot = 0.0;
            sheets.push(vec![tile(foot)]);
        }
    }
    let count = sheets.len();
    let sheets = sheets.iter().enumerate();
    sheets
        .map(|(place, tiles)| {
            let mut figure = Figure::new(
                format!("Story pole, part {} of {count}", place + 1),
                CAUTION,
            );
            figure.scale = Some(Scale::FULL);
            for tile in tiles {
                tile.draw(subject, &mut figure, &marks);
            }
            figure.notes.push(
                "Heights above the bare slab. Cut along the ends and butt the tiles; stand the pole upright on the slab, \
                 its left end down."
                    .to_owned(),
            );
            figure
        })
        .collect()
}

/// A tile: from and to which height it reaches, where it stands on the sheet, and the step of its scale.
struct Tile {
    from: f64,
    to: f64,
    foot: f64,
    step: f64,
}

impl Tile {
    fn draw(&self, subject: &Subject<'_>, figure: &mut Figure, marks: &[Mark]) {
        let long = self.to - self.from;
        let point = |along: f64, up: f64| DVec2::new(along, self.foot + up);
        figure.rectangle(
            Pen::Thin,
            &Rect {
                low: point(0.0, 0.0),
                high: point(long, BAND),
            },
        );
        let mut along = self.step;
        while along < long - 1e-6 {
            figure.line(Pen::Thin, point(along, 0.0), point(along, 3.0));
            along += self.step;
        }
        for (along, height) in [(0.0, self.from), (long, self.to)] {
            figure.words.push(Words {
                at: point(along, -3.5),
                turned: false,
                text: subject.tape(Length::mm(height)),
            });
        }
        let own: Vec<&Mark> = marks
            .iter()
            .filter(|it| it.0 >= self.from && it.0 < self.to)
            .collect();
        let places = spread(own.iter().map(|it| it.0 - self.from).collect(), long, LINE);
        for ((height, text), place) in own.into_iter().zip(places) {
            let along = height - self.from;
            figure.line(Pen::Edge, point(along, 0.0), point(along, BAND));
            figure.line(
                Pen::Thin,
                point(along, BAND),
                point(place, BAND + LEADER - 1.5),
            );
            figure.words.push(Words {
                at: point(place, BAND + LEADER + width(text, SMALLEST) / 2.0),
                turned: true,
                text: text.clone(),
            });
        }
    }
}
