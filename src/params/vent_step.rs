//! The steps of a vent's path, as words of the parameter file and back.
//!
//! `go 24 in`, `turn 90 deg toward back`, `offset 9 in toward left with 45 deg`, `through back wall`,
//! `through roof`. Lengths count along the middle of the pipe, from where two center lines meet to
//! where the next two meet. A run may say how it rises: `go 40 in rising 1/2:12`.

use super::room_wall::RoomWall;
use super::text::{angle_text, length_text};
use crate::units::{Angle, Length, Slope, TapeUnit, parse_number};

/// One step of a vent's path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum VentStep {
    /// Straight on.
    Go {
        /// Along the middle of the pipe.
        length: Length,
        /// How a run rises; as the manual has it where nothing is said.
        rising: Option<Slope>,
    },
    /// One elbow.
    Turn {
        /// The elbow's own angle.
        by: Angle,
        /// Which way it swings.
        toward: Toward,
    },
    /// Two elbows that bring the pipe sideways and back into its old direction.
    Offset {
        /// How far sideways.
        sideways: Length,
        /// Either elbow's own angle.
        by: Angle,
        /// Which way.
        toward: Toward,
    },
    /// Out through a wall, to the cap.
    ThroughWall {
        /// Which wall.
        wall: RoomWall,
        /// How the last run rises.
        rising: Option<Slope>,
    },
    /// Up through ceiling and roof, to the cap.
    ThroughRoof,
}

/// Which way an elbow swings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Toward {
    /// Up.
    Up,
    /// Down.
    Down,
    /// A level direction, as seen by somebody facing the chase.
    Level {
        /// The side it counts from.
        side: Heading,
        /// How far from there, clockwise as seen from above.
        clockwise: Angle,
    },
    /// Square to a wall.
    Wall(RoomWall),
}

/// Four level directions, as seen by somebody facing the chase.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Heading {
    /// To the wall behind.
    Back,
    /// To the right.
    Right,
    /// Into the room.
    Out,
    /// To the left.
    Left,
}

impl Heading {
    const ALL: [Self; 4] = [Self::Back, Self::Right, Self::Out, Self::Left];

    const fn word(self) -> &'static str {
        match self {
            Self::Back => "back",
            Self::Right => "right",
            Self::Out => "out",
            Self::Left => "left",
        }
    }

    fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|side| side.word() == word)
    }

    /// The side a quarter turn clockwise from this one.
    pub(super) const fn next(self) -> Self {
        match self {
            Self::Back => Self::Right,
            Self::Right => Self::Out,
            Self::Out => Self::Left,
            Self::Left => Self::Back,
        }
    }
}

fn wall(text: &str) -> Option<RoomWall> {
    [RoomWall::Back, RoomWall::Left, RoomWall::Right]
        .into_iter()
        .find(|wall| wall.name() == text)
}

/// An angle in degrees.
fn angle(text: &str) -> Option<Angle> {
    let bare = ["degrees", "degree", "deg", "\u{b0}"]
        .iter()
        .find_map(|unit| text.trim().strip_suffix(unit))?;
    parse_number(bare).ok().map(Angle::degrees)
}

impl Toward {
    fn parse(text: &str) -> Option<Self> {
        match text {
            "up" => return Some(Self::Up),
            "down" => return Some(Self::Down),
            _ => {}
        }
        if let Some(wall) = wall(text) {
            return Some(Self::Wall(wall));
        }
        let (off, side) = text.split_once(" of ").unwrap_or(("", text));
        let side = Heading::from_word(side.trim())?;
        if off.is_empty() {
            let clockwise = Angle::degrees(0.0);
            return Some(Self::Level { side, clockwise });
        }
        let (off, way) = off.trim().rsplit_once(' ')?;
        let sign = match Heading::from_word(way)? {
            way if way == side.next() => 1.0,
            way if way.next() == side => -1.0,
            _ => return None,
        };
        let off = angle(off)?.to_degrees();
        (0.0..90.0).contains(&off).then(|| Self::Level {
            side,
            clockwise: Angle::degrees(sign * off),
        })
    }

    fn text(self) -> String {
        match self {
            Self::Up => "up".to_owned(),
            Self::Down => "down".to_owned(),
            Self::Wall(wall) => wall.name().to_owned(),
            Self::Level { side, clockwise } => {
                let off = clockwise.to_degrees();
                let way = if off > 0.0 {
                    side.next()
                } else {
                    side.next().next().next()
                };
                if off == 0.0 {
                    side.word().to_owned()
                } else {
                    let off = angle_text(Angle::degrees(off.abs()));
                    format!("{off} {} of {}", way.word(), side.word())
                }
            }
        }
    }
}

/// What follows a keyword, apart from what stands before it.
fn split<'a>(text: &'a str, keyword: &str) -> (&'a str, Option<&'a str>) {
    text.split_once(keyword)
        .map_or((text, None), |(a, b)| (a.trim(), Some(b.trim())))
}

impl VentStep {
    /// Reads a step.
    ///
    /// # Errors
    /// What should stand there.
    pub(super) fn parse(text: &str, unit: TapeUnit) -> Result<Self, &'static str> {
        let text = text.trim();
        let (verb, rest) = split(text, " ");
        let rest = rest.ok_or(STEP)?;
        match verb {
            "go" => {
                let (length, rising) = split(rest, " rising ");
                Ok(Self::Go {
                    length: Length::parse(length, unit).map_err(|_| GO)?,
                    rising: slope(rising, GO)?,
                })
            }
            "turn" => {
                let (by, toward) = split(rest, " toward ");
                Ok(Self::Turn {
                    by: angle(by).ok_or(TURN)?,
                    toward: toward.and_then(Toward::parse).ok_or(TURN)?,
                })
            }
            "offset" => {
                let (rest, by) = split(rest, " with ");
                let (sideways, toward) = split(rest, " toward ");
                Ok(Self::Offset {
                    sideways: Length::parse(sideways, unit).map_err(|_| OFFSET)?,
                    by: by.and_then(angle).ok_or(OFFSET)?,
                    toward: toward.and_then(Toward::parse).ok_or(OFFSET)?,
                })
            }
            "through" => {
                let (what, rising) = split(rest, " rising ");
                match (what, wall(what)) {
                    ("roof", _) if rising.is_none() => Ok(Self::ThroughRoof),
                    (_, Some(wall)) => Ok(Self::ThroughWall {
                        wall,
                        rising: slope(rising, THROUGH)?,
                    }),
                    _ => Err(THROUGH),
                }
            }
            _ => Err(STEP),
        }
    }

    /// The step as the parameter file has it.
    pub(super) fn text(&self, unit: TapeUnit) -> String {
        let rises = |rising: &Option<Slope>| {
            rising.map_or_else(String::new, |it| format!(" rising {}", it.text()))
        };
        match self {
            Self::Go { length, rising } => {
                format!("go {}{}", length_text(*length, unit), rises(rising))
            }
            Self::Turn { by, toward } => {
                format!("turn {} toward {}", angle_text(*by), toward.text())
            }
            Self::Offset {
                sideways,
                by,
                toward,
            } => format!(
                "offset {} toward {} with {}",
                length_text(*sideways, unit),
                toward.text(),
                angle_text(*by)
            ),
            Self::ThroughWall { wall, rising } => {
                format!("through {}{}", wall.name(), rises(rising))
            }
            Self::ThroughRoof => "through roof".to_owned(),
        }
    }
}

const STEP: &str = "a step that begins with go, turn, offset or through";
const GO: &str = "a straight such as \"go 24 in\" or \"go 40 in rising 1/2:12\"";
const TURN: &str = "an elbow such as \"turn 90 deg toward back\", toward up, down, left, right, out, \
    back wall, left wall, right wall, or 12 deg left of back";
const OFFSET: &str = "an offset such as \"offset 9 in toward left with 45 deg\"";
const THROUGH: &str =
    "\"through back wall\", left wall, right wall or roof; a wall may have \"rising 1/4:12\"";

fn slope(text: Option<&str>, expected: &'static str) -> Result<Option<Slope>, &'static str> {
    text.map(|it| Slope::parse(it).map_err(|_| expected))
        .transpose()
}
