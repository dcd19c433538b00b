// Bodies in, a picture out: WebGL2, one program for surfaces, edges and for finding what lies under a pointer.

const VERTEX = `#version 300 es
layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;
uniform mat4 seen;
uniform mat4 world;
uniform float nearer;
out vec3 at;
out vec3 facing;
void main() {
  vec4 point = world * vec4(place, 1.0);
  at = point.xyz;
  facing = mat3(world) * normal;
  gl_Position = seen * point;
  gl_Position.z -= nearer * gl_Position.w;
}`;

const FRAGMENT = `#version 300 es
precision highp float;
in vec3 at;
in vec3 facing;
uniform vec3 light;
uniform vec4 color;
uniform vec4 tint;
uniform float cut;
uniform bool cutting;
uniform float lean;
uniform int way;
out vec4 shown;
void main() {
  if (cutting && at.x < cut) discard;
  // surfaces lie a little behind their own edges, the more the steeper they are: an edge's pixel lies no more than half
  // a pixel off the edge; with more, what lies under a thin board would show through
  vec2 steep = abs(vec2(dFdx(gl_FragCoord.z), dFdy(gl_FragCoord.z)));
  float behind = way == 1 ? 0.0 : 0.5 * max(steep.x, steep.y);
  gl_FragDepth = min(1.0, gl_FragCoord.z + behind);
  if (way == 2) {
    shown = color;
    return;
  }
  float bright = 1.0;
  if (way == 0) {
    bright = 0.62 + 0.38 * dot(normalize(facing), light);
  } else if (way == 3) {
    float stripe = mod(gl_FragCoord.x + lean * gl_FragCoord.y, 9.0);
    bright = stripe < 1.5 ? 0.35 : 0.75;
  }
  vec3 linear = mix(color.rgb * bright, tint.rgb, tint.a);
  shown = vec4(pow(linear, vec3(1.0 / 2.2)), color.a);
}`;

const SURFACE = 0;
const EDGE = 1;
const NUMBER = 2;
const CAP = 3;
/** A square upright across the axis, from 0 to 1 along the two others; it looks toward the left. */
const SQUARE = {
  places: new Float32Array([0, 0, 0, 0, 0, 1, 0, 1, 1, 0, 1, 0]),
  normals: new Float32Array([-1, 0, 0, -1, 0, 0, -1, 0, 0, -1, 0, 0]),
  triangles: new Uint32Array([0, 1, 2, 0, 2, 3]),
  edges: new Uint32Array(0),
};

function compiled(gl) {
  const program = gl.createProgram();
  for (const [kind, text] of [[gl.VERTEX_SHADER, VERTEX], [gl.FRAGMENT_SHADER, FRAGMENT]]) {
    const shader = gl.createShader(kind);
    gl.shaderSource(shader, text);
    gl.compileShader(shader);
    gl.attachShader(program, shader);
  }
  gl.linkProgram(program);
  if (!gl.getProgramParameter(program, gl.LINK_STATUS)) {
    throw new Error(gl.getProgramInfoLog(program) ?? "the program does not link");
  }
  return program;
}

/** A mesh on the graphics card. */
function laidDown(gl, shape) {
  const array = gl.createVertexArray();
  gl.bindVertexArray(array);
  [shape.places, shape.normals].forEach((vectors, place) => {
    gl.bindBuffer(gl.ARRAY_BUFFER, gl.createBuffer());
    gl.bufferData(gl.ARRAY_BUFFER, vectors, gl.STATIC_DRAW);
    gl.enableVertexAttribArray(place);
    gl.vertexAttribPointer(place, 3, gl.FLOAT, false, 0, 0);
  });
  const both = new Uint32Array(shape.triangles.length + shape.edges.length);
  both.set(shape.triangles);
  both.set(shape.edges, shape.triangles.length);
  gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, gl.createBuffer());
  gl.bufferData(gl.ELEMENT_ARRAY_BUFFER, both, gl.STATIC_DRAW);
  gl.bindVertexArray(null);
  return { array, triangles: shape.triangles.length, edges: shape.edges.length };
}

/** What draws a model on a canvas; nothing where WebGL2 is missing. */
function painterOf(canvas, model) {
  const gl = canvas.getContext("webgl2", { antialias: true, alpha: false, stencil: true });
  if (!gl) {
    return null;
  }
  const program = compiled(gl);
  const names = ["seen", "world", "nearer", "light", "color", "tint", "cut", "cutting", "lean", "way"];
  const uniform = Object.fromEntries(names.map((name) => [name, gl.getUniformLocation(program, name)]));
  const meshes = model.meshes.map((shape) => laidDown(gl, shape));
  const square = laidDown(gl, SQUARE);

  function begin(view) {
    gl.useProgram(program);
    gl.uniformMatrix4fv(uniform.seen, false, view.seen);
    gl.uniform3fv(uniform.light, view.light);
    gl.uniform1f(uniform.cut, view.axis);
    gl.uniform1i(uniform.cutting, view.cutting ? 1 : 0);
    gl.enable(gl.DEPTH_TEST);
    gl.depthFunc(gl.LEQUAL);
  }

  function draw(mesh, world, way, color, tint) {
    gl.bindVertexArray(mesh.array);
    gl.uniformMatrix4fv(uniform.world, false, world);
    gl.uniform1i(uniform.way, way);
    gl.uniform1f(uniform.nearer, way === EDGE ? 0.00003 : 0);
    gl.uniform4fv(uniform.color, color);
    gl.uniform4fv(uniform.tint, tint);
    if (way === EDGE) {
      gl.drawElements(gl.LINES, mesh.edges, gl.UNSIGNED_INT, mesh.triangles * 4);
    } else {
      gl.drawElements(gl.TRIANGLES, mesh.triangles, gl.UNSIGNED_INT, 0);
    }
  }

  /** Draws the outside of a body, and closes it where it is cut. */
  function drawSurface(view, body, way, color, tint) {
    const mesh = meshes[body.mesh];
    gl.enable(gl.CULL_FACE);
    draw(mesh, body.world, way, color, tint);
    gl.disable(gl.CULL_FACE);
    const isCut = view.cutting && view.eye[0] < view.axis && body.low[0] < view.axis && body.high[0] > view.axis;
    if (!isCut) {
      return;
    }
    // a ray that leaves the body once more than it enters it beyond the cut comes through the cut itself
    const deep = gl.getParameter(gl.DEPTH_WRITEMASK);
    gl.enable(gl.STENCIL_TEST);
    gl.stencilFunc(gl.ALWAYS, 0, 255);
    gl.stencilOpSeparate(gl.FRONT, gl.INCR_WRAP, gl.INCR_WRAP, gl.INCR_WRAP);
    gl.stencilOpSeparate(gl.BACK, gl.DECR_WRAP, gl.DECR_WRAP, gl.DECR_WRAP);
    gl.colorMask(false, false, false, false);
    gl.depthMask(false);
    draw(mesh, body.world, way, color, tint);
    gl.colorMask(true, true, true, true);
    gl.depthMask(deep);
    gl.stencilFunc(gl.NOTEQUAL, 0, 255);
    gl.stencilOp(gl.ZERO, gl.ZERO, gl.ZERO);
    gl.uniform1i(uniform.cutting, 0);
    gl.uniform1f(uniform.lean, body.number % 2 === 0 ? 1 : -1);
    const [, low, near] = body.low;
    const [, high, far] = body.high;
    const place = [1, 0, 0, 0, 0, high - low, 0, 0, 0, 0, far - near, 0, view.axis, low, near, 1];
    draw(square, place, way === SURFACE ? CAP : way, color, tint);
    gl.uniform1i(uniform.cutting, 1);
    gl.disable(gl.STENCIL_TEST);
  }

  function drawEdges(body, color) {
    draw(meshes[body.mesh], body.world, EDGE, color, [0, 0, 0, 0]);
  }

  const isClear = (body) => body.shape.look.color[3] < 1;
  const middle = (body) => mix(body.low, body.high, 0.5);

  /** Draws bodies; each has its tint, and those that are marked show through. */
  function paint(view, bodies) {
    gl.bindFramebuffer(gl.FRAMEBUFFER, null);
    gl.viewport(0, 0, canvas.width, canvas.height);
    gl.clearColor(...view.ground, 1);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT | gl.STENCIL_BUFFER_BIT);
    begin(view);
    gl.disable(gl.BLEND);
    gl.depthMask(true);
    for (const { body, tint } of bodies.filter(({ body }) => !isClear(body))) {
      drawSurface(view, body, SURFACE, body.shape.look.color, tint);
      drawEdges(body, body.shape.edgeLook.color);
    }
    gl.enable(gl.BLEND);
    gl.blendFunc(gl.SRC_ALPHA, gl.ONE_MINUS_SRC_ALPHA);
    gl.depthMask(false);
    const far = ({ body }) => -Math.hypot(...minus(middle(body), view.eye));
    const clear = bodies.filter(({ body }) => isClear(body));
    for (const { body, tint } of clear.sort((a, b) => far(a) - far(b))) {
      drawSurface(view, body, SURFACE, body.shape.look.color, tint);
      drawEdges(body, [...body.shape.edgeLook.color.slice(0, 3), 0.8]);
    }
    gl.depthFunc(gl.ALWAYS);
    for (const { body } of bodies.filter(({ marked }) => marked)) {
      drawEdges(body, [...view.mark, 1]);
    }
    gl.depthMask(true);
    gl.bindVertexArray(null);
  }

  const target = gl.createFramebuffer();
  const color = gl.createRenderbuffer();
  const depth = gl.createRenderbuffer();
  gl.bindFramebuffer(gl.FRAMEBUFFER, target);
  gl.bindRenderbuffer(gl.RENDERBUFFER, color);
  gl.renderbufferStorage(gl.RENDERBUFFER, gl.RGBA8, 1, 1);
  gl.framebufferRenderbuffer(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.RENDERBUFFER, color);
  gl.bindRenderbuffer(gl.RENDERBUFFER, depth);
  gl.renderbufferStorage(gl.RENDERBUFFER, gl.DEPTH24_STENCIL8, 1, 1);
  gl.framebufferRenderbuffer(gl.FRAMEBUFFER, gl.DEPTH_STENCIL_ATTACHMENT, gl.RENDERBUFFER, depth);
  gl.bindFramebuffer(gl.FRAMEBUFFER, null);

  /** The number of the body in the one pixel of a view; 0 where there is none. */
  function numberAt(view, bodies) {
    gl.bindFramebuffer(gl.FRAMEBUFFER, target);
    gl.viewport(0, 0, 1, 1);
    gl.clearColor(0, 0, 0, 0);
    gl.disable(gl.BLEND);
    gl.depthMask(true);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT | gl.STENCIL_BUFFER_BIT);
    begin(view);
    for (const { body } of bodies) {
      const bytes = [body.number & 255, (body.number >> 8) & 255, (body.number >> 16) & 255, 255];
      drawSurface(view, body, NUMBER, bytes.map((byte) => byte / 255), [0, 0, 0, 0]);
    }
    const pixel = new Uint8Array(4);
    gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, pixel);
    gl.bindFramebuffer(gl.FRAMEBUFFER, null);
    gl.bindVertexArray(null);
    return pixel[0] | (pixel[1] << 8) | (pixel[2] << 16);
  }

  /** The body under a pixel: what hides what is behind it first, then what lets it show. */
  function bodyAt(view, bodies) {
    const solid = numberAt(view, bodies.filter(({ body }) => !isClear(body)));
    const number = solid || numberAt(view, bodies);
    return model.bodies[number - 1] ?? null;
  }

  return { paint, bodyAt };
}
