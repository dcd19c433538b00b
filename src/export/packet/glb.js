// The bytes of the model in, its bodies out: glTF 2.0 as this program writes it (one buffer, no sparse data).

const SIZES = { 5123: [2, "getUint16"], 5125: [4, "getUint32"], 5126: [4, "getFloat32"] };
const WIDTHS = { SCALAR: 1, VEC3: 3 };

function bytesOf(base64) {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let at = 0; at < text.length; at += 1) {
    bytes[at] = text.charCodeAt(at);
  }
  return bytes;
}

/** The JSON and the binary chunk. */
function unpacked(bytes) {
  const view = new DataView(bytes.buffer);
  const length = view.getUint32(12, true);
  const json = JSON.parse(new TextDecoder().decode(bytes.subarray(20, 20 + length)));
  return { json, data: new DataView(bytes.buffer, 20 + length + 8) };
}

/** An accessor's numbers, one after another. */
function numbers({ json, data }, place) {
  const accessor = json.accessors[place];
  const view = json.bufferViews[accessor.bufferView];
  const [size, read] = SIZES[accessor.componentType];
  const count = accessor.count * WIDTHS[accessor.type];
  const start = (view.byteOffset ?? 0) + (accessor.byteOffset ?? 0);
  const into = accessor.componentType === 5126 ? new Float32Array(count) : new Uint32Array(count);
  for (let at = 0; at < count; at += 1) {
    into[at] = data[read](start + at * size, true);
  }
  return into;
}

function material({ json }, place) {
  const { name, pbrMetallicRoughness } = json.materials[place];
  return { name, color: pbrMetallicRoughness.baseColorFactor };
}

function mesh(glb, place) {
  const [surface, edges] = glb.json.meshes[place].primitives;
  return {
    places: numbers(glb, surface.attributes.POSITION),
    normals: numbers(glb, surface.attributes.NORMAL),
    triangles: numbers(glb, surface.indices),
    edges: numbers(glb, edges.indices),
    look: material(glb, surface.material),
    edgeLook: material(glb, edges.material),
  };
}

/** Opposite corners of a body in the world. */
function extent(shape, world) {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let at = 0; at < shape.places.length; at += 3) {
    const point = through(world, shape.places.subarray(at, at + 3));
    for (let axis = 0; axis < 3; axis += 1) {
      low[axis] = Math.min(low[axis], point[axis]);
      high[axis] = Math.max(high[axis], point[axis]);
    }
  }
  return { low, high };
}

/** The model: its bodies in the order of the tree, its groups, and the steps in which it is built. */
function readModel(base64) {
  const glb = unpacked(bytesOf(base64));
  const meshes = (glb.json.meshes ?? []).map((_, place) => mesh(glb, place));
  const bodies = [];
  const visit = (place, above, group, depth) => {
    const node = glb.json.nodes[place];
    const own = placed(node.translation ?? [0, 0, 0], node.rotation ?? [0, 0, 0, 1]);
    const world = product(above, own);
    const branch = depth === 1 ? node.name : group;
    if (node.mesh !== undefined) {
      const shape = meshes[node.mesh];
      const extras = node.extras ?? {};
      const facts = { id: node.name, ...extras };
      bodies.push({ number: bodies.length + 1, group: branch, shape, mesh: node.mesh, world, facts, ...extent(shape, world) });
    }
    for (const child of node.children ?? []) {
      visit(child, world, branch, depth + 1);
    }
  };
  const roots = glb.json.scenes[glb.json.scene].nodes;
  // the first root is the model; others are the bodies of overlaps, and cameras
  roots.forEach((root, at) => visit(root, IDENTITY, glb.json.nodes[root].name, at === 0 ? 0 : 2));
  const steps = glb.json.animations?.[0]?.extras?.steps ?? [];
  return { bodies, meshes, steps: steps.map((step) => step.name) };
}
