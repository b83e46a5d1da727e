// The room in three dimensions: the program's own glTF file, drawn when something changes and not otherwise.
// The alcove's axes (x right, y to the back, z up, millimetres) become the view's (x right, y up, z to the entry, metres).

const viewData = dataOf('view-data');
const metric = viewData.metric;
const partOf = new Map(viewData.parts.map((p) => [p.id, p]));

const ROLES = [
  // what is built first comes first; each is lifted so many millimetres where the parts are shown apart
  {role: 'joist', words: 'Floor joists', colour: 0xa8845c, lift: -250},
  {role: 'subfloor', words: 'Subfloor', colour: 0xd2b88f, lift: 0},
  {role: 'wall', words: 'Walls', colour: 0xe3cda4, lift: 0},
  {role: 'bed', words: 'Mortar bed', colour: 0x918b82, lift: 220},
  {role: 'drain', words: 'Drain', colour: 0x3d464e, lift: 380},
  {role: 'base', words: 'Base', colour: 0xdde4e7, lift: 560},
  {role: 'bench-frame', words: 'Bench frame', colour: 0xc48f52, lift: 300},
  {role: 'seat-block', words: 'Seat block', colour: 0xa3bcc7, lift: 760}
];
const roleOf = (name) => ROLES.find((r) => r.role === name);

const toView = (p) => new THREE.Vector3(p[0] / 1000, p[2] / 1000, -p[1] / 1000);
const toAlcove = (v) => [v.x * 1000, -v.z * 1000, v.y * 1000];

/** Corners of triangles, raised by so many millimetres, as a geometry takes them. */
const cornersOf = (triangles, up = 0) =>
  new THREE.Float32BufferAttribute(triangles.flat().flatMap((p) => toView([p[0], p[1], p[2] + up]).toArray()), 3);
/** A colour as styles write it. */
const styleOf = (colour) => '#' + new THREE.Color(colour).getHexString();

class View {
  constructor(canvas) {
    this.canvas = canvas;
    this.renderer = new THREE.WebGLRenderer({canvas, antialias: true, alpha: true, preserveDrawingBuffer: true});
    this.renderer.localClippingEnabled = true;
    this.renderer.setPixelRatio(Math.min(2, window.devicePixelRatio || 1));
    this.scene = new THREE.Scene();
    this.eye = new THREE.PerspectiveCamera(35, 1.5, 0.02, 60);
    this.lights();
    this.orbit = new THREE.OrbitControls(this.eye, canvas);
    this.orbit.addEventListener('change', () => this.draw());
    this.planes = [0, 1, 2].map((i) => new THREE.Plane(new THREE.Vector3(...[0, 1, 2].map((k) => (k === i ? -1 : 0))), 1e3));
    this.meshes = new Map();  // by the part's id
    this.before = [];         // called before each picture
    this.drawn = [];          // called after it, for labels that follow
    this.waiting = false;
    this.cuts = new Cuts(this);
  }

  /** Light from above and from behind the eye; their sum stays near one, so that colours keep their names. */
  lights() {
    this.scene.add(new THREE.HemisphereLight(0xffffff, 0xaaa59c, 0.68));
    const sun = new THREE.DirectionalLight(0xffffff, 0.3);
    sun.position.set(1.5, 4, 3);
    this.scene.add(sun, this.eye);
    const lamp = new THREE.DirectionalLight(0xffffff, 0.1);
    this.eye.add(lamp);
  }

  fit() {
    const {clientWidth: wide, clientHeight: high} = this.canvas.parentNode;
    if (!wide || !high) return;
    this.renderer.setSize(wide, high, false);
    this.eye.aspect = wide / high;
    this.eye.updateProjectionMatrix();
    this.draw();
  }

  draw() {
    if (this.waiting) return;
    this.waiting = true;
    requestAnimationFrame(() => {
      this.waiting = false;
      this.near();
      for (const first of this.before) first();
      this.renderer.render(this.scene, this.eye);
      for (const after of this.drawn) after();
    });
  }

  /** Depths are told apart best where none are kept for what is never seen. */
  near() {
    const far = this.eye.position.distanceTo(this.orbit.target);
    this.eye.near = Math.max(0.01, far / 40);
    this.eye.far = far + 20;
    this.eye.updateProjectionMatrix();
  }

  /** Solids share the faces they meet in: there the one that is built later is seen, and edges before all. */
  depth(role) {
    const step = ROLES.length - ROLES.indexOf(roleOf(role));
    return {polygonOffset: true, polygonOffsetFactor: 0.2 + 0.03 * step, polygonOffsetUnits: 1 + 0.5 * step};
  }

  /** A solid's look: its role's colour. Its far sides are hit by taps, though no eye sees them behind its faces and cuts. */
  material(role) {
    return new THREE.MeshPhongMaterial({color: roleOf(role)?.colour ?? 0x999999, specular: 0, shininess: 0, flatShading: true,
                                        side: THREE.DoubleSide, clippingPlanes: this.planes, ...this.depth(role)});
  }

  /** Takes the model in: every node by the name of its solid. */
  take(model) {
    const edges = new THREE.LineBasicMaterial({color: 0x3a3f44, transparent: true, opacity: 0.5, clippingPlanes: this.planes});
    const found = [];
    model.scene.updateMatrixWorld(true);
    model.scene.traverse((node) => node.isMesh && found.push(node));
    for (const node of found) {
      const part = this.partNamed(node);
      if (!part) continue;
      const geometry = node.geometry.clone().applyMatrix(node.matrixWorld);
      const mesh = new THREE.Mesh(geometry, this.material(part.role));
      mesh.add(new THREE.LineSegments(new THREE.EdgesGeometry(geometry, 15), edges));
      mesh.userData = {part, move: new THREE.Vector3()};
      this.meshes.set(part.id, mesh);
      this.scene.add(mesh);
    }
    new ResizeObserver(() => this.fit()).observe(this.canvas.parentNode);
    this.fit();
    this.home();
  }

  /** A node is named by its solid, or hangs in one that is. The loader takes blanks and slashes out of names. */
  partNamed(node) {
    for (let at = node; at; at = at.parent)
      for (const name of [at.userData.name, at.name])
        if (name && this.names().has(name)) return this.names().get(name);
    return null;
  }
  names() {
    if (!this.known) {
      this.known = new Map();
      for (const part of viewData.parts)
        for (const name of [part.id, THREE.PropertyBinding.sanitizeNodeName(part.id)]) this.known.set(name, part);
    }
    return this.known;
  }

  box(ids = [...this.meshes.keys()]) {
    const box = new THREE.Box3();
    for (const id of ids) {
      const mesh = this.meshes.get(id);
      if (mesh) box.union(new THREE.Box3().setFromObject(mesh));
    }
    return box;
  }

  /** From the entry and above, as the first sheet of the assembly has it. */
  home() {
    this.frame(this.box(), new THREE.Vector3(0.55, 0.55, 1), false);
  }

  /** Turns to a place, seen from a side; at once where the reader asked for calm. */
  look(at, from, far, gently = true) {
    const eye = at.clone().add(from.clone().normalize().multiplyScalar(far));
    if (!gently || calm()) return this.stand(eye, at);
    const eye0 = this.eye.position.clone(), at0 = this.orbit.target.clone(), begun = performance.now();
    const step = (now) => {
      const t = Math.min(1, Math.max(0, (now - begun) / 500)), s = t * t * (3 - 2 * t);
      this.stand(eye0.clone().lerp(eye, s), at0.clone().lerp(at, s));
      if (t < 1 && this.going === step) requestAnimationFrame(step);
    };
    this.going = step;
    requestAnimationFrame(step);
  }
  /** A box, from a side, as large as the canvas takes it. */
  frame(box, from, gently = true) {
    const at = box.getCenter(new THREE.Vector3()), {min, max} = box, eye = this.eye.clone();
    const corners = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => new THREE.Vector3(i & 1 ? max.x : min.x, i & 2 ? max.y : min.y, i & 4 ? max.z : min.z));
    let far = 2 * box.getSize(new THREE.Vector3()).length();
    for (let round = 0; round < 5; round++) {
      eye.position.copy(at).add(from.clone().normalize().multiplyScalar(far));
      eye.lookAt(at);
      eye.updateMatrixWorld(true);
      eye.matrixWorldInverse.getInverse(eye.matrixWorld);
      const seen = corners.map((corner) => corner.clone().project(eye));
      far *= Math.max(...seen.map((p) => Math.max(Math.abs(p.x), Math.abs(p.y)))) / 0.94;
    }
    this.look(at, from, Math.max(0.8, far), gently);
  }
  stand(eye, at) {
    this.eye.position.copy(eye);
    this.orbit.target.copy(at);
    this.orbit.update();
    this.draw();
  }

  /** What lies under a pointer, of what is shown and not cut away. */
  under(x, y) {
    const r = this.canvas.getBoundingClientRect(), ray = new THREE.Raycaster();
    ray.setFromCamera({x: (x - r.left) / r.width * 2 - 1, y: 1 - (y - r.top) / r.height * 2}, this.eye);
    const shown = [...this.meshes.values()].filter((m) => m.visible);
    const hits = ray.intersectObjects(shown).filter((h) => this.planes.every((p) => p.distanceToPoint(h.point) >= 0));
    if (!hits.length) return null;
    // two bodies meet in one face: a ray that comes in through a cut leaves the one that it is asked of
    const touching = hits.filter((h) => h.distance < hits[0].distance + 1e-5);
    const hit = touching.find((h) => h.face.normal.dot(ray.ray.direction) > 0) ?? hits[0];
    return {...hit, ...this.cuts.entry(ray.ray, hit)};
  }

  /** Where a point of the view is on the canvas, in CSS pixels. */
  onCanvas(point) {
    const p = point.clone().project(this.eye), r = this.canvas.parentNode;
    return {x: (p.x + 1) / 2 * r.clientWidth, y: (1 - p.y) / 2 * r.clientHeight, before: p.z < 1};
  }
}
