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

// A cut body is closed by its own back: what is seen of its inside lies behind the plane of the cut, and is drawn
// on that plane.
const FRAGMENT = `#version 300 es
precision highp float;
in vec3 at;
in vec3 facing;
uniform mat4 seen;
uniform vec3 eye;
uniform vec3 light;
uniform vec4 color;
uniform vec4 tint;
uniform float cut;
uniform bool cutting;
uniform int way;
out vec4 shown;
void main() {
  if (cutting && at.x < cut) discard;
  // surfaces lie a little behind their own edges, the more the steeper they are
  float behind = way == 1 ? 0.0 : fwidth(gl_FragCoord.z);
  gl_FragDepth = min(1.0, gl_FragCoord.z + behind);
  bool inside = cutting && way != 1 && !gl_FrontFacing && eye.x < cut;
  if (inside) {
    vec4 onPlane = seen * vec4(mix(eye, at, (cut - eye.x) / (at.x - eye.x)), 1.0);
    gl_FragDepth = clamp(onPlane.z / onPlane.w * 0.5 + 0.5, 0.0, 1.0);
  }
  if (way == 2) {
    shown = color;
    return;
  }
  float bright = 1.0;
  if (way == 0) {
    vec3 normal = normalize(gl_FrontFacing ? facing : -facing);
    bright = 0.62 + 0.38 * dot(normal, light);
    if (inside) {
      float stripe = mod(gl_FragCoord.x + gl_FragCoord.y, 9.0);
      bright = stripe < 1.5 ? 0.35 : 0.7;
    }
  }
  vec3 linear = mix(color.rgb * bright, tint.rgb, tint.a);
  shown = vec4(pow(linear, vec3(1.0 / 2.2)), color.a);
}`;

const SURFACE = 0;
const EDGE = 1;
const NUMBER = 2;

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
  const gl = canvas.getContext("webgl2", { antialias: true, alpha: false });
  if (!gl) {
    return null;
  }
  const program = compiled(gl);
  const names = ["seen", "world", "nearer", "eye", "light", "color", "tint", "cut", "cutting", "way"];
  const uniform = Object.fromEntries(names.map((name) => [name, gl.getUniformLocation(program, name)]));
  const meshes = model.meshes.map((shape) => laidDown(gl, shape));

  function begin(view) {
    gl.useProgram(program);
    gl.uniformMatrix4fv(uniform.seen, false, view.seen);
    gl.uniform3fv(uniform.eye, view.eye);
    gl.uniform3fv(uniform.light, view.light);
    gl.uniform1f(uniform.cut, view.axis);
    gl.uniform1i(uniform.cutting, view.cutting ? 1 : 0);
    gl.enable(gl.DEPTH_TEST);
    gl.depthFunc(gl.LEQUAL);
  }

  function draw(body, way, color, tint) {
    const mesh = meshes[body.mesh];
    gl.bindVertexArray(mesh.array);
    gl.uniformMatrix4fv(uniform.world, false, body.world);
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

  const isClear = (body) => body.shape.look.color[3] < 1;
  const middle = (body) => mix(body.low, body.high, 0.5);

  /** Draws bodies; each has its tint, and those that are marked show through. */
  function paint(view, bodies) {
    gl.bindFramebuffer(gl.FRAMEBUFFER, null);
    gl.viewport(0, 0, canvas.width, canvas.height);
    gl.clearColor(...view.ground, 1);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    begin(view);
    gl.disable(gl.BLEND);
    gl.depthMask(true);
    for (const { body, tint } of bodies.filter(({ body }) => !isClear(body))) {
      draw(body, SURFACE, body.shape.look.color, tint);
      draw(body, EDGE, body.shape.edgeLook.color, [0, 0, 0, 0]);
    }
    gl.enable(gl.BLEND);
    gl.blendFunc(gl.SRC_ALPHA, gl.ONE_MINUS_SRC_ALPHA);
    gl.depthMask(false);
    const far = ({ body }) => -Math.hypot(...minus(middle(body), view.eye));
    const clear = bodies.filter(({ body }) => isClear(body));
    for (const { body, tint } of clear.sort((a, b) => far(a) - far(b))) {
      draw(body, SURFACE, body.shape.look.color, tint);
      draw(body, EDGE, [...body.shape.edgeLook.color.slice(0, 3), 0.8], [0, 0, 0, 0]);
    }
    gl.depthFunc(gl.ALWAYS);
    for (const { body } of bodies.filter(({ marked }) => marked)) {
      draw(body, EDGE, [...view.mark, 1], [0, 0, 0, 0]);
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
  gl.renderbufferStorage(gl.RENDERBUFFER, gl.DEPTH_COMPONENT24, 1, 1);
  gl.framebufferRenderbuffer(gl.FRAMEBUFFER, gl.DEPTH_ATTACHMENT, gl.RENDERBUFFER, depth);
  gl.bindFramebuffer(gl.FRAMEBUFFER, null);

  /** The number of the body in the one pixel of a view; 0 where there is none. */
  function numberAt(view, bodies) {
    gl.bindFramebuffer(gl.FRAMEBUFFER, target);
    gl.viewport(0, 0, 1, 1);
    gl.clearColor(0, 0, 0, 0);
    gl.disable(gl.BLEND);
    gl.depthMask(true);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    begin(view);
    for (const { body } of bodies) {
      const bytes = [body.number & 255, (body.number >> 8) & 255, (body.number >> 16) & 255, 255];
      draw(body, NUMBER, bytes.map((byte) => byte / 255), [0, 0, 0, 0]);
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
