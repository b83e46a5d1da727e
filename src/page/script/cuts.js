// The room cut open: where a plane runs through a body, the cut shows as a face of its own, in the colour of its role, hatched,
// with an outline. Faces seen from behind count the stencil up and faces seen from the front count it down: where the sum is not
// nought, the eye's ray meets the plane inside a body, whatever ribs and hollows that body has.

const LIT = 0x2f9fb3;

class Cuts {
  constructor(view) {
    this.view = view;
    this.far = new Array(3).fill(true);   // planes that cut nothing
    this.shown = new THREE.Group();
    this.outlines = [];                   // by plane: of each part the ends of its outline's pieces
    this.known = '';
    this.counters = view.planes.map((plane) => [this.counter(THREE.BackSide, THREE.IncrementWrapStencilOp, plane),
                                                this.counter(THREE.FrontSide, THREE.DecrementWrapStencilOp, plane)]);
    this.faces = new Map();               // by axis and colour
    view.scene.add(this.shown);
    view.before.push(() => this.renew());
  }

  /** Puts a plane: what lies beyond it is taken away; none at all where `at` is null. */
  set(axis, normal, at) {
    const hair = 3.7e-5;  // metres; no face of a body lies in the plane, where rounding would tell on which side
    this.far[axis] = at === null;
    this.view.planes[axis].set(normal, at === null ? 1e3 : at + hair);
    this.view.draw();
  }

  /** All that a cut rests on, as text: planes, what is shown, where it stands, and what is lit. */
  state() {
    const bodies = [...this.view.meshes.values()].map((m) => `${m.visible ? 1 : 0}${m.material.emissive.getHex()}${m.position.toArray()}`);
    return this.far.every(Boolean) ? 'whole' : JSON.stringify([this.far, this.view.planes.map((p) => p.constant), bodies]);
  }

  renew() {
    const state = this.state();
    if (state === this.known) return;
    this.known = state;
    this.outlines = [];
    for (const old of [...this.shown.children]) {
      this.shown.remove(old);
      if (old.isLineSegments) old.geometry.dispose();
    }
    for (const axis of [0, 1, 2]) if (!this.far[axis]) this.cut(axis);
  }

  cut(axis) {
    const groups = new Map();
    for (const mesh of this.view.meshes.values()) {
      if (!mesh.visible) continue;
      const colour = mesh.material.emissive.getHex() ? LIT : roleOf(mesh.userData.part.role)?.colour ?? 0x999999;
      groups.has(colour) ? groups.get(colour).push(mesh) : groups.set(colour, [mesh]);
    }
    let order = 1 + 100 * axis;
    for (const [colour, bodies] of groups) {
      for (const mesh of bodies) this.count(mesh, axis, order);
      this.face(axis, colour, order + 1);
      order += 2;
    }
    this.outline(axis);
  }
  others(axis) { return this.view.planes.filter((_, i) => i !== axis); }

  /** A body's faces, counted and not seen. */
  count(mesh, axis, order) {
    for (const material of this.counters[axis]) {
      const counter = new THREE.Mesh(mesh.geometry, material);
      counter.position.copy(mesh.position);
      counter.renderOrder = order;
      this.shown.add(counter);
    }
  }
  counter(side, op, plane) {
    return new THREE.MeshBasicMaterial({side, colorWrite: false, depthWrite: false, depthTest: false, clippingPlanes: [plane], stencilWrite: true,
                                        stencilFunc: THREE.AlwaysStencilFunc, stencilFail: op, stencilZFail: op, stencilZPass: op});
  }

  /** The plane itself, seen where the count is not nought. */
  face(axis, colour, order) {
    const plane = this.view.planes[axis], name = `${axis} ${colour}`;
    if (!this.faces.has(name)) {
      const made = new THREE.Mesh(new THREE.PlaneBufferGeometry(40, 40), this.hatched(colour, this.others(axis)));
      made.onAfterRender = (renderer) => renderer.clearStencil();
      this.faces.set(name, made);
    }
    const face = this.faces.get(name);
    plane.coplanarPoint(face.position);
    face.lookAt(face.position.clone().sub(plane.normal));
    face.renderOrder = order;
    this.shown.add(face);
  }

  /** Hatched as sections are drawn: lines at half a right angle, the other way in every other role, so that neighbours tell apart. */
  hatched(colour, others) {
    const material = new THREE.MeshBasicMaterial({color: new THREE.Color(colour), side: THREE.DoubleSide, clippingPlanes: others, stencilWrite: true,
                                                  stencilFunc: THREE.NotEqualStencilFunc, stencilRef: 0, polygonOffset: true,
                                                  polygonOffsetFactor: 0.1, polygonOffsetUnits: 0.5});
    material.defines = {HATCH_WAY: ROLES.findIndex((r) => r.colour === colour) % 2 ? '-1.0' : '1.0',
                        HATCH_STEP: (7 * this.view.renderer.getPixelRatio()).toFixed(1)};
    material.onBeforeCompile = (shader) => {
      shader.fragmentShader = shader.fragmentShader.replace('#include <fog_fragment>', `
          gl_FragColor.rgb *= mod(gl_FragCoord.x + HATCH_WAY * gl_FragCoord.y, HATCH_STEP) < 0.2 * HATCH_STEP ? 0.62 : 0.86;`);
    };
    return material;
  }

  /** Every triangle that the plane cuts gives a piece of the outline. */
  outline(axis) {
    const ends = new Map(), all = [];
    for (const [id, mesh] of this.view.meshes) {
      if (!mesh.visible) continue;
      const pieces = this.pieces(mesh, this.view.planes[axis]);
      if (pieces.length) ends.set(id, pieces);
      for (const p of pieces) all.push(p.x, p.y, p.z);
    }
    this.outlines[axis] = ends;
    const geometry = new THREE.BufferGeometry();
    geometry.setAttribute('position', new THREE.Float32BufferAttribute(all, 3));
    this.shown.add(new THREE.LineSegments(geometry, new THREE.LineBasicMaterial({color: 0x1b2125, clippingPlanes: this.others(axis)})));
  }
  pieces(mesh, plane) {
    const {index, attributes: {position}} = mesh.geometry, ends = [], corners = [0, 1, 2].map(() => new THREE.Vector3()), off = [0, 0, 0];
    const count = index ? index.count : position.count;
    for (let i = 0; i < count; i += 3) {
      for (let k = 0; k < 3; k++) {
        corners[k].fromBufferAttribute(position, index ? index.getX(i + k) : i + k).add(mesh.position);
        off[k] = plane.distanceToPoint(corners[k]);
      }
      if (off[0] > 0 === off[1] > 0 && off[1] > 0 === off[2] > 0) continue;
      for (let k = 0; k < 3; k++) {
        const n = (k + 1) % 3;
        if (off[k] > 0 !== off[n] > 0) ends.push(corners[k].clone().lerp(corners[n], off[k] / (off[k] - off[n])));
      }
    }
    return ends;
  }

  /** Where a ray that leaves a body had come in through a cut: {point, axis}; null where it came in by a face. */
  entry(ray, hit) {
    if (hit.face.normal.dot(ray.direction) <= 0) return null;
    let best = null;
    this.view.planes.forEach((plane, axis) => {
      const toward = plane.normal.dot(ray.direction), far = -plane.distanceToPoint(ray.origin) / toward;
      if (!this.far[axis] && toward > 0 && far > 0 && (!best || far > best.far)) best = {far, axis};
    });
    return best && best.far < hit.distance ? {axis: best.axis, point: ray.at(best.far, new THREE.Vector3())} : null;
  }
}
