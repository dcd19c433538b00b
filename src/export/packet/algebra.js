// Vectors as arrays of three numbers, matrices as arrays of sixteen, column by column. Metres, y up.

const add = (a, b) => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const minus = (a, b) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const times = (a, factor) => [a[0] * factor, a[1] * factor, a[2] * factor];
const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a, b) => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const unit = (a) => times(a, 1 / Math.hypot(...a));
const mix = (a, b, share) => add(times(a, 1 - share), times(b, share));

const IDENTITY = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];

function product(a, b) {
  const result = new Array(16);
  for (let column = 0; column < 4; column += 1) {
    for (let row = 0; row < 4; row += 1) {
      let sum = 0;
      for (let at = 0; at < 4; at += 1) {
        sum += a[at * 4 + row] * b[column * 4 + at];
      }
      result[column * 4 + row] = sum;
    }
  }
  return result;
}

/** A point through a matrix, with its fourth coordinate. */
function through(matrix, point) {
  const row = (at) =>
    matrix[at] * point[0] + matrix[4 + at] * point[1] + matrix[8 + at] * point[2] + matrix[12 + at];
  return [row(0), row(1), row(2), row(3)];
}

/** A shift and a turn, the turn as a quaternion. */
function placed([x, y, z], [i, j, k, w]) {
  return [
    1 - 2 * (j * j + k * k), 2 * (i * j + k * w), 2 * (i * k - j * w), 0,
    2 * (i * j - k * w), 1 - 2 * (i * i + k * k), 2 * (j * k + i * w), 0,
    2 * (i * k + j * w), 2 * (j * k - i * w), 1 - 2 * (i * i + j * j), 0,
    x, y, z, 1,
  ];
}

/** The world as an eye sees it: right, up and backward. */
function looking(eye, target, upward) {
  const back = unit(minus(eye, target));
  const right = unit(cross(upward, back));
  const up = cross(back, right);
  return [
    right[0], up[0], back[0], 0,
    right[1], up[1], back[1], 0,
    right[2], up[2], back[2], 0,
    -dot(right, eye), -dot(up, eye), -dot(back, eye), 1,
  ];
}

function perspective(angle, aspect, near, far) {
  const scale = 1 / Math.tan(angle / 2);
  const depth = 1 / (near - far);
  return [
    scale / aspect, 0, 0, 0,
    0, scale, 0, 0,
    0, 0, (far + near) * depth, -1,
    0, 0, 2 * far * near * depth, 0,
  ];
}

/** What makes one pixel of a picture fill it; its middle, and the picture's size, from −1 to 1. */
function onePixel(x, y, width, height) {
  return [width, 0, 0, 0, 0, height, 0, 0, 0, 0, 1, 0, -x * width, -y * height, 0, 1];
}
