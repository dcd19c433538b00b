// An eye that goes round a target. Angles in radians: round the upright axis from the front, and up from level.

const ANGLE = 0.6;
const UP_MOST = Math.PI / 2 - 0.001;

/** The views that have a name: round, up, and whether the model is cut. */
const VIEWS = {
  corner: [0.75, 0.5, false],
  front: [0, 0.05, false],
  left: [-Math.PI / 2, 0.02, false],
  right: [Math.PI / 2, 0.02, false],
  top: [0, UP_MOST, false],
  section: [-Math.PI / 2, 0.02, true],
};

/** Names of the sides that it looks from, an eighth of a turn apart. */
const SIDES = ["front", "front right", "right", "back right", "back", "back left", "left", "front left"];

/** Where a camera looks from, in words. */
function sideInWords(camera) {
  if (camera.up > 1.4) {
    return "above";
  }
  const eighth = Math.round(camera.round / (Math.PI / 4));
  const side = SIDES[((eighth % 8) + 8) % 8];
  const height = camera.up > 0.2 ? " and above" : camera.up < -0.1 ? " and below" : "";
  return `the ${side}${height}`;
}

function directionOf(round, up) {
  return [Math.sin(round) * Math.cos(up), Math.sin(up), Math.cos(round) * Math.cos(up)];
}

/** A camera that sees a box from a side, all eight corners of it. */
function fitted({ low, high }, round, up, aspect) {
  const target = mix(low, high, 0.5);
  const half = minus(high, target);
  const back = directionOf(round, up);
  const side = unit(cross([0, 1, 0], back));
  const rise = cross(back, side);
  const slope = Math.tan(ANGLE / 2) * 0.92;
  let distance = 0.3;
  for (let corner = 0; corner < 8; corner += 1) {
    const point = half.map((size, axis) => (corner & (1 << axis) ? size : -size));
    const wide = Math.abs(dot(point, side)) / (slope * aspect);
    const tall = Math.abs(dot(point, rise)) / slope;
    distance = Math.max(distance, Math.max(wide, tall) + dot(point, back));
  }
  return { target, round, up, distance };
}

/** Between two cameras. */
function between(a, b, share) {
  const number = (from, to) => from + (to - from) * share;
  return {
    target: mix(a.target, b.target, share),
    round: number(a.round, b.round),
    up: number(a.up, b.up),
    distance: a.distance * (b.distance / a.distance) ** share,
  };
}

function turnedBy(camera, round, up) {
  const limited = Math.max(-UP_MOST, Math.min(UP_MOST, camera.up + up));
  return { ...camera, round: camera.round + round, up: limited };
}

function zoomedBy(camera, factor) {
  return { ...camera, distance: Math.max(0.15, Math.min(60, camera.distance * factor)) };
}

/** Moves the target along the picture, in shares of its height. */
function pannedBy(camera, right, up) {
  const back = directionOf(camera.round, camera.up);
  const side = unit(cross([0, 1, 0], back));
  const rise = cross(back, side);
  const height = 2 * camera.distance * Math.tan(ANGLE / 2);
  return { ...camera, target: add(camera.target, add(times(side, -right * height), times(rise, -up * height))) };
}

/** What the painter needs of a camera. */
function lensOf(camera, aspect) {
  const back = directionOf(camera.round, camera.up);
  const eye = add(camera.target, times(back, camera.distance));
  const view = looking(eye, camera.target, [0, 1, 0]);
  const lens = perspective(ANGLE, aspect, Math.max(0.01, camera.distance * 0.1), camera.distance + 30);
  const side = unit(cross([0, 1, 0], back));
  // light from the upper left of whoever looks
  const light = unit(add(add(times(side, -0.5), times(back, 0.6)), [0, 0.8, 0]));
  return { eye, light, seen: product(lens, view) };
}
