// What colours tell of the room: falls with their arrows, the bed's thickness, gaps along the walls, water. Heights and
// falls are those of the solids that are shown; words and bounds are the report's.

const FALL_COLOURS = {within: 0x2f8f83, limit: 0x6f9a3e, gentle: 0xc8452f, steep: 0xc8452f};
const FALL_WORDS = {within: 'within its limits', limit: 'at its limit', gentle: 'too gentle', steep: 'too steep'};

/** Light to dark from thin to thick, told apart without colour too. */
function ramp(share) {
  const steps = [[0xf2, 0xe6, 0xc4], [0xd9, 0xa8, 0x6a], [0xa8, 0x5c, 0x4a], [0x5c, 0x2b, 0x45]];
  const at = Math.min(0.9999, Math.max(0, share)) * (steps.length - 1), i = Math.floor(at), t = at - i;
  return steps[i].map((v, k) => (v + (steps[i + 1][k] - v) * t) / 255);
}

/** Triangles of a mesh in the alcove's millimetres. */
function trianglesOf(mesh) {
  const geometry = mesh.geometry, place = geometry.attributes.position, index = geometry.index;
  const corner = (i) => toAlcove(new THREE.Vector3().fromBufferAttribute(place, index ? index.getX(i) : i));
  const count = (index ? index.count : place.count) / 3, all = [];
  for (let i = 0; i < count; i++) all.push([corner(3 * i), corner(3 * i + 1), corner(3 * i + 2)]);
  return all;
}

/** Up is more than none: the height of a triangle's normal, per unit. */
function upOf([a, b, c]) {
  const u = b.map((v, i) => v - a[i]), w = c.map((v, i) => v - a[i]);
  const n = [u[1] * w[2] - u[2] * w[1], u[2] * w[0] - u[0] * w[2], u[0] * w[1] - u[1] * w[0]];
  return n[2] / (Math.hypot(...n) || 1);
}

/** The height of a triangle's plane over a point of its plan, or null beside it. */
function heightOver([a, b, c], x, y) {
  const det = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
  if (Math.abs(det) < 1e-6) return null;
  const s = ((x - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (y - a[1])) / det;
  const t = ((b[0] - a[0]) * (y - a[1]) - (x - a[0]) * (b[1] - a[1])) / det;
  const edge = 1e-3;
  return s < -edge || t < -edge || s + t > 1 + edge ? null : a[2] + s * (b[2] - a[2]) + t * (c[2] - a[2]);
}

class Maps {
  constructor(view, parts, legend, labels) {
    this.name = 'none';
    Object.assign(this, {view, parts, legend, labels});
    this.layer = new THREE.Group();
    this.water = new THREE.Group();
    view.scene.add(this.layer, this.water);
    view.drawn.push(() => this.follow());
    this.tags = [];
  }

  /** One map at a time; 'none' takes it away. */
  show(name) {
    const other = name !== this.name;
    this.clear();
    this.name = name;
    if (name === 'falls') this.falls();
    if (name === 'bed') this.bed();
    if (name === 'gaps') this.gaps();
    if (other) this.turn(name);
    this.view.draw();
  }

  /** Each map is seen from where it is read best. */
  turn(name) {
    const of = (...roles) => this.view.box([...this.view.meshes.keys()].filter((id) => roles.includes(partOf.get(id).role)));
    if (name === 'falls') this.view.frame(of('base', 'seat-block'), new THREE.Vector3(0.05, 1, 0.5));
    if (name === 'bed') this.view.frame(of('bed'), new THREE.Vector3(0.1, 1, 0.9));
    if (name === 'gaps' || name === 'none') this.view.home();
  }

  clear() {
    while (this.layer.children.length) this.layer.remove(this.layer.children[0]);
    this.labels.replaceChildren();
    this.legend.replaceChildren();
    this.tags = [];
    for (const mesh of this.view.meshes.values()) mesh.material.color.setHex(roleOf(mesh.userData.part.role)?.colour ?? 0x999999);
    if (this.hidden) for (const role of this.hidden) this.parts.show(role, true);
    this.hidden = null;
  }

  /** Coloured triangles, a hair above the solid they lie on. `colours`: one for each corner. */
  coloured(triangles, colours, part) {
    const geometry = new THREE.BufferGeometry();
    geometry.setAttribute('position', cornersOf(triangles, 0.6));
    geometry.setAttribute('color', new THREE.Float32BufferAttribute(colours.flat(2), 3));
    const material = new THREE.MeshBasicMaterial({vertexColors: THREE.VertexColors, side: THREE.DoubleSide, clippingPlanes: this.view.planes,
                                                    polygonOffset: true, polygonOffsetFactor: -1, polygonOffsetUnits: -4});
    const mesh = new THREE.Mesh(geometry, material);
    mesh.position.copy(this.view.meshes.get(part)?.userData.move ?? new THREE.Vector3());
    this.layer.add(mesh);
  }

  key(colour, words) {
    const swatch = make('span', {className: 'swatch', 'aria-hidden': 'true'});
    swatch.style.background = styleOf(Array.isArray(colour) ? new THREE.Color(...colour) : colour);
    return make('span', {className: 'key'}, swatch, words);
  }

  tag(at, words) {
    const tag = make('span', {className: 'tag'}, words);
    this.labels.append(tag);
    this.tags.push({at, tag});
  }
  follow() {
    for (const {at, tag} of this.tags) {
      const p = this.view.onCanvas(at);
      tag.hidden = !p.before;
      tag.style.transform = `translate(${p.x.toFixed(1)}px, ${p.y.toFixed(1)}px) translate(-50%, -50%)`;
    }
  }

  /** The triangles of a solid that lie in a facet's plane and face up. */
  trianglesIn(mesh, facet) {
    const height = (x, y) => facet.low[2] - facet.fall * (facet.flow[0] * (x - facet.low[0]) + facet.flow[1] * (y - facet.low[1]));
    return trianglesOf(mesh).filter((t) => upOf(t) > 0.5 && t.every((p) => Math.abs(p[2] - height(p[0], p[1])) < 0.05));
  }

  falls() {
    const standings = new Set();
    for (const facet of viewData.facets) {
      const mesh = this.view.meshes.get(facet.surface === 'seat' ? 'seat-block' : 'base');
      const triangles = mesh ? this.trianglesIn(mesh, facet) : [];
      if (!triangles.length) continue;
      standings.add(facet.standing);
      const colour = new THREE.Color(FALL_COLOURS[facet.standing]).toArray();
      this.coloured(triangles, triangles.map((t) => t.map(() => colour)), mesh.userData.part.id);
      this.arrow(facet, triangles, mesh.userData.move);
    }
    this.legend.replaceChildren(...[...standings].map((s) => this.key(FALL_COLOURS[s], FALL_WORDS[s])), 'Arrows show the way water runs.');
  }

  /** From the middle of a facet the way water runs, with its fall in words. */
  arrow(facet, triangles, move) {
    let area = 0;
    const middle = [0, 0, 0];
    for (const [a, b, c] of triangles) {
      const weight = Math.abs((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]));
      area += weight;
      for (let i = 0; i < 3; i++) middle[i] += weight * (a[i] + b[i] + c[i]) / 3;
    }
    const centre = middle.map((v) => v / area), half = Math.min(160, Math.max(30, Math.sqrt(area) / 6));
    const from = [centre[0] - facet.flow[0] * half, centre[1] - facet.flow[1] * half, centre[2] + facet.fall * half + 6];
    const way = toView([facet.flow[0], facet.flow[1], -facet.fall]).normalize();
    const arrow = new THREE.ArrowHelper(way, toView(from).add(move), 2 * half / 1000, 0x14272b, 0.05, 0.032);
    this.layer.add(arrow);
    const narrow = this.view.canvas.parentNode.clientWidth < 480, words = narrow ? facet.words.replace(/ \(.*/, '') : facet.words;
    this.tag(toView([from[0] - facet.flow[0] * 30, from[1] - facet.flow[1] * 30, from[2] + 10]).add(move), words);
  }

  /** Plumb, from the bed's underside to its top, corner by corner of its top. */
  bed() {
    const mesh = this.view.meshes.get('bed');
    if (!mesh) return;
    this.hidden = ['base', 'drain', 'seat-block', 'bench-frame', 'wall'].filter((r) => $('role-' + r)?.checked);
    for (const role of this.hidden) this.parts.show(role, false);
    const all = trianglesOf(mesh), under = all.filter((t) => upOf(t) < -0.1), tops = all.filter((t) => upOf(t) > 0.1);
    const {least, greatest} = viewData.bed, span = Math.max(1e-6, greatest - least);
    const thick = ([x, y, z]) => {
      for (const t of under) {
        const floor = heightOver(t, x, y);
        if (floor !== null) return z - floor;
      }
      return least;
    };
    this.coloured(tops, tops.map((t) => t.map((p) => ramp((thick(p) - least) / span))), 'bed');
    this.legend.replaceChildren(...[0, 0.5, 1].map((s) => this.key(ramp(s), tapeText(least + s * span, metric))), 'Thickness of the bed, plumb.');
  }

  /** Studs by the gap from what stands before them, at the upstand's top. */
  gaps() {
    const studs = viewData.studs.filter((s) => this.view.meshes.has(s.id));
    const most = Math.max(1, ...studs.map((s) => Math.abs(s.gap)));
    for (const s of studs) {
      const tint = ramp(Math.abs(s.gap) / most), mesh = this.view.meshes.get(s.id);
      mesh.material.color.setRGB(...tint);
    }
    const worst = studs.reduce((w, s) => (!w || Math.abs(s.gap) > Math.abs(w.gap) ? s : w), null);
    if (worst && Math.abs(worst.gap) > 0.4) {
      const centre = this.view.box([worst.id]).getCenter(new THREE.Vector3());
      this.tag(centre, `${tapeText(worst.gap, metric)} at ${worst.id}`);
    }
    this.legend.replaceChildren(this.key(ramp(0), tapeText(0, metric)), this.key(ramp(1), tapeText(most, metric)),
                                studs.length ? 'Gap from base or bench to each stud, at the upstand\'s top.'
                                             : 'No stud stands before base or bench.');
  }

  /** Water up to one of the heights of the flood test: the part of each facet that lies below it, and the drain's opening. */
  flood(index) {
    while (this.water.children.length) this.water.remove(this.water.children[0]);
    const dip = viewData.water.dips[index - 1], base = this.view.meshes.get('base');
    if (dip && base) {
      const level = viewData.water.drain_top + dip.above, wet = [];
      for (const facet of viewData.facets.filter((f) => f.surface === 'base-floor'))
        for (const t of this.trianglesIn(base, facet)) wet.push(...below(t, level));
      const drain = partOf.get([...this.view.meshes.keys()].find((id) => partOf.get(id).role === 'drain'));
      if (drain) {
        const [x0, y0, , x1, y1] = drain.box;
        wet.push([[x0, y0, level], [x1, y0, level], [x1, y1, level]], [[x0, y0, level], [x1, y1, level], [x0, y1, level]]);
      }
      const geometry = new THREE.BufferGeometry();
      geometry.setAttribute('position', cornersOf(wet.map((triangle) => triangle.map(([x, y]) => [x, y, level]))));
      const material = new THREE.MeshBasicMaterial({color: 0x2b7fb8, transparent: true, opacity: 0.55, side: THREE.DoubleSide,
                                                    depthWrite: false, clippingPlanes: this.view.planes});
      const mesh = new THREE.Mesh(geometry, material);
      mesh.position.copy(base.userData.move);
      this.water.add(mesh);
    }
    this.view.draw();
    return dip ? `${tapeText(dip.above, metric)} above the drain: ${dip.words}` : 'no water';
  }
}

/** The part of a triangle below a level, as triangles. */
function below(triangle, level) {
  const wet = [];
  triangle.forEach((p, i) => {
    const q = triangle[(i + 1) % 3];
    if (p[2] <= level) wet.push(p);
    if ((p[2] <= level) !== (q[2] <= level)) {
      const t = (level - p[2]) / (q[2] - p[2]);
      wet.push(p.map((v, k) => v + t * (q[k] - v)));
    }
  });
  return wet.slice(2).map((_, i) => [wet[0], wet[i + 1], wet[i + 2]]);
}
